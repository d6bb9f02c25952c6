//! What came of a lesson for a group, in words.

use shakmaty::fen::Fen;
use shakmaty::{CastlingMode, Color, Position, Setup};

use crate::exercise::Stand;
use crate::game::{MoveNumber, Start};
use crate::learner::{AnswerRecord, HeldLesson, LessonResults, PartResult};
use crate::question::{Kind, LineQuestion, Question, each_line};
use crate::voice::bare::item;
use crate::voice::naming::{count, move_of, with_end_mark};
use crate::voice::question::open;
use crate::voice::time::date_briefly;
use crate::voice::words::LineWords;
use crate::voice::{clean_line, clean_name};

/// Over the columns of the table of a lesson, before those of its parts.
pub(crate) const HEADS: [&str; 2] = ["Pupil", "Held on"];
/// Over what most got wrong.
pub(crate) const MISSED: &str = "What most got wrong";
/// Over the replies to questions that nobody grades.
pub(crate) const REPLIES: &str = "What they said in their own words";

/// Names a lesson.
pub(crate) fn title(results: &LessonResults) -> String {
    let title = results.title.as_deref().map(clean_name);
    title.map_or_else(|| "Lesson".to_owned(), |title| format!("Lesson: {title}"))
}

/// Heads a part.
pub(crate) fn part_title(number: usize, heading: &str) -> String {
    format!("{number}. {}", clean_name(heading))
}

/// Puts a part's title before what is said of it.
fn of_part(number: usize, heading: &str, said: &str) -> String {
    let title = part_title(number, heading);
    let colon = if title.ends_with(['?', '!', '.', ':']) {
        ""
    } else {
        ":"
    };
    format!("{title}{colon} {said}")
}

/// Says when a lesson was held, and whether it came to its end.
pub(crate) fn when(held: &[HeldLesson]) -> String {
    let Some(last) = held.last() else {
        return "not yet".to_owned();
    };
    let open = if last.finished {
        ""
    } else {
        ", not to its end"
    };
    let often = match held.len() {
        1 => String::new(),
        often => format!(", {often} times"),
    };
    format!("{}{often}{open}", date_briefly(last.time))
}

/// Says what came of a part: the right answers of all first tries, and whether it is passed.
pub(crate) fn part_result(result: &PartResult, pass: Option<usize>) -> String {
    let [right, of, _] = result.replies;
    if result.time == 0 {
        return "not begun".to_owned();
    }
    let passed = match pass {
        Some(mark) if result.reaches(mark) => ", passed",
        Some(_) => ", not passed",
        None => "",
    };
    let often = match result.time {
        1 => String::new(),
        time => format!(", {time} times"),
    };
    let games = result.games.iter().map(|won| match won {
        Some(true) => ", won",
        Some(false) => ", lost",
        None => ", drawn",
    });
    let games = games.collect::<String>();
    format!("{right} of {of}{games}{passed}{often}")
}

/// Says what most got wrong in a part, counted from 0; `None` where nothing was missed.
pub(crate) fn missed(results: &LessonResults, part: usize) -> Option<String> {
    let missed = results.missed(part).into_iter();
    let missed: Vec<String> = missed
        .map(|(asked, missed, of)| {
            let position = asked.position.as_deref().and_then(setup);
            let before = position.as_ref().map_or_else(String::new, |position| {
                let (number, side) = (position.fullmoves, position.turn);
                format!(", before {}", move_of(MoveNumber { number, side }))
            });
            let said = question(asked, position.as_ref());
            let pupils = count(of, "pupil", "pupils");
            format!("{said} (missed by {missed} of {pupils}{before})")
        })
        .collect();
    let said = if missed.is_empty() {
        let (kind, right, of) = results.weakest(part)?;
        let what = match kind {
            Kind::Turn => "moves of their own".to_owned(),
            kind => format!("answers to {kind}"),
        };
        format!("{right} of {of} {what} were right.")
    } else {
        missed.join("; ") + "."
    };
    Some(of_part(part + 1, &results.parts[part].0, &said))
}

/// Says what the learners replied in their own words in a part, counted from 0: a question a line.
pub(crate) fn replies(results: &LessonResults, part: usize) -> Vec<String> {
    let mut said: Vec<(String, String)> = Vec::new();
    for (name, held) in &results.learners {
        for reply in held.last().iter().flat_map(|held| &held.parts[part].said) {
            let Some(question) = &reply.question else {
                continue;
            };
            let (asked, answer) = (open(question), clean_line(&reply.said));
            let answer = if answer.is_empty() {
                format!(" {name}: nothing.")
            } else {
                format!(" {name}: {}", with_end_mark(answer))
            };
            match said.iter_mut().find(|(earlier, _)| *earlier == asked) {
                Some((_, answers)) => *answers += &answer,
                None => said.push((asked, answer)),
            }
        }
    }
    let heading = &results.parts[part].0;
    said.into_iter()
        .map(|(asked, answers)| of_part(part + 1, heading, &(asked + &answers)))
        .collect()
}

/// Puts a question as it was asked.
fn question(asked: &AnswerRecord, position: Option<&Setup>) -> String {
    match asked.question() {
        Some(Question::Bare(question)) => item(&question),
        Some(Question::Line(question)) => {
            let chess960 = asked.variant.is_some();
            let mode = CastlingMode::from_chess960(chess960);
            let start = asked.start.as_deref();
            let start = start.and_then(|fen| Start::from_fen(fen, mode).ok());
            let is_usual = start.as_ref().is_none_or(Start::is_usual);
            let stand = Stand {
                checkpoint: None,
                turn: position.map_or(Color::White, |position| position.turn),
                piece: start.and_then(|start| match question {
                    LineQuestion::Whereabouts(asked) => {
                        start.position().board().piece_at(asked.piece)
                    }
                    _ => None,
                }),
                start_shown: asked.exercise != "replay" && !is_usual,
                chess960,
            };
            each_line!(LineQuestion, question, asked => asked.ask(&stand))
        }
        None => asked.kind.to_string(),
    }
}

fn setup(fen: &str) -> Option<Setup> {
    fen.parse().ok().map(Fen::into_setup)
}

/// Says what came of a lesson, a learner a line, and then what most got wrong.
pub(crate) fn lesson(results: &LessonResults) -> Vec<String> {
    let parts = count(results.parts.len(), "part", "parts");
    let mut said = vec![format!("{}, {parts}.", title(results))];
    for (name, held) in &results.learners {
        let Some(last) = held.last() else {
            said.push(format!("{name}: not held yet."));
            continue;
        };
        let parts = last.parts.iter().zip(&results.parts).zip(1..);
        let parts = parts.map(|((result, (heading, pass)), number)| {
            of_part(number, heading, &part_result(result, *pass))
        });
        let parts: Vec<String> = parts.collect();
        said.push(format!("{name}, {}: {}.", when(held), parts.join("; ")));
    }
    let missed: Vec<String> = (0..results.parts.len())
        .filter_map(|part| missed(results, part))
        .collect();
    if !missed.is_empty() {
        said.push(format!("{MISSED}:"));
        said.extend(missed);
    }
    let replies: Vec<String> = (0..results.parts.len())
        .flat_map(|part| replies(results, part))
        .collect();
    if !replies.is_empty() {
        said.push(format!("{REPLIES}:"));
        said.extend(replies);
    }
    said
}
