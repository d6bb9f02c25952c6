//! What is said about a lesson: its parts, its pass marks, and what it brought.

use super::clean::clean_name;
use super::commands::unknown_word;
use super::naming::{count, with_end_mark};
use super::progress::{mark, next_lesson, standing_at, step_title};
use crate::exercise::Extent;
use crate::learner::PartResult;
use crate::learner::course::{Course, CourseStep, Practice, StepStatus};
use crate::learner::lesson::{Aim, PlannedPart};
use crate::question::{Kind, WrittenError};

/// Heads a part that the tool has planned, without an end mark.
pub(crate) fn aim(aim: Aim) -> String {
    match aim {
        Aim::Due => "To warm up".to_owned(),
        Aim::Teach(step) => format!("{}, from the beginning", step_title(step)),
        Aim::Step(step) | Aim::Review(step) => step_title(step).to_owned(),
        Aim::Game => "A game, with the board hidden".to_owned(),
        Aim::Ahead => "As far ahead as you see".to_owned(),
    }
}

/// Says what a part that the tool has planned is, why it comes, and what passes.
pub(crate) fn reason(number: usize, part: &PlannedPart) -> String {
    let heading = aim(part.aim);
    let questions = count(part.count, "question", "questions");
    let why = match part.aim {
        Aim::Due => format!(
            "{questions} from steps behind you, mixed: what you may have forgotten, never showed or are slow at"
        ),
        Aim::Review(_) => {
            format!("{questions}, since this step was taken as known or is not fast yet")
        }
        Aim::Teach(_) => {
            format!("{questions} with clues, for this is new")
        }
        Aim::Step(step) if step.is_game() => {
            format!("your step now, a whole game; {} pass it", mark(step.mark()))
        }
        Aim::Step(step) if matches!(step.practice(), Practice::Recite(_)) => {
            let mark = mark(step.mark());
            format!("your step now, moves said from memory; {mark} pass it")
        }
        Aim::Step(step) => format!("{questions}, your step now; {} pass it", mark(step.mark())),
        Aim::Game => "what all steps are for; nothing needs to be passed".to_owned(),
        Aim::Ahead => "every step is passed, and the plies follow your answers".to_owned(),
    };
    format!("{number}. {heading}: {why}.")
}

/// Heads the search for a learner's level.
pub(crate) const PLACEMENT: &str = "Your level";

/// Said before the level of a learner is looked for.
pub(crate) const WHY_PLACEMENT: &str = "A few questions find where your course begins; to say it yourself: sansvoir lesson --start STEP.";

/// Says what the search for a learner's level found, and why.
pub(crate) fn placed(course: &Course) -> Vec<String> {
    let told = |(step, right, of): (CourseStep, usize, usize)| {
        format!("{} {right} of {of}", step_title(step))
    };
    let asked: Vec<String> = course.placed().into_iter().map(told).collect();
    let begins = course.current().map_or("", step_title);
    if asked.is_empty() {
        return Vec::new();
    }
    let why = format!("Right answers: {}.", asked.join("; "));
    let found = format!(
        "Your course begins with {begins:?}: two right answers make a sort of question known, and easier \
         steps are taken as known until they fail."
    );
    vec![why, found]
}

/// Finds a step by its name or by its title.
pub(crate) fn step(name: &str) -> Result<CourseStep, String> {
    let titled =
        |step: &CourseStep| step_title(*step).eq_ignore_ascii_case(&name.replace('-', " "));
    let found = name.parse().ok();
    let found = found.or_else(|| CourseStep::ALL.into_iter().find(titled));
    found.ok_or_else(|| no_step(name))
}

/// Says that there is no such step, and which there are.
pub(crate) fn no_step(name: &str) -> String {
    let steps = CourseStep::ALL.map(<&str>::from).join(", ");
    format!("\"{name}\" is no step of the course: take one of {steps}")
}

/// Says what a lesson is about to bring.
pub(crate) fn opening(title: Option<&str>, parts: usize, resumed: bool) -> Vec<String> {
    let title = title.map(|title| format!("Lesson: {}", with_end_mark(clean_name(title))));
    let parts = count(parts, "part", "parts");
    let parts = if resumed {
        format!("The lesson of {parts} goes on.")
    } else {
        format!("A lesson of {parts}.")
    };
    title.into_iter().chain([parts]).collect()
}

/// Heads the sheet of a lesson.
pub(crate) fn sheet_title(title: Option<&str>) -> String {
    title.map_or_else(|| "A lesson".to_owned(), clean_name)
}

/// Heads a part, which may come again because its pass mark was not reached.
pub(crate) fn part(number: usize, of: usize, heading: &str, time: usize) -> String {
    let again = if time > 1 { "Once more: " } else { "" };
    format!(
        "Part {number} of {of}. {again}{}",
        with_end_mark(clean_name(heading))
    )
}

/// Says a coach's note: without anything that could steer a terminal, each of its lines alone.
pub(crate) fn notes(notes: &str) -> Vec<String> {
    let lines = notes.lines().map(clean_name);
    lines.filter(|line| !line.is_empty()).collect()
}

/// Says whether a part reached its pass mark.
pub(crate) fn pass_mark(result: &PartResult, mark: usize) -> String {
    let [right, of, _] = result.replies;
    let reached = if result.reaches(mark) {
        "reached"
    } else {
        "not reached"
    };
    if of < result.questions && mark <= result.questions {
        let [missed, allowed] = result.misses(mark);
        return format!(
            "Pass mark {reached}: {} missed at the first try; {allowed} may be.",
            count(missed, "question", "questions")
        );
    }
    let were = if mark == 1 { "was" } else { "were" };
    let counted = count(of, "reply", "replies");
    format!("Pass mark {reached}: {right} of {counted} right, {mark} {were} asked for.")
}

/// Counts the replies that count: first tries, where some of all replies were none.
fn replies(of: usize, all: usize) -> String {
    if of == all {
        count(of, "reply", "replies")
    } else {
        count(of, "first try", "first tries")
    }
}

/// Says that a lesson is over: how many first tries were right, of how many, of how many replies in all;
/// which steps of the course it passed, and which comes next with the command of a lesson.
pub(crate) fn closing(
    [right, of, all]: [usize; 3],
    passed: &[CourseStep],
    course: &Course,
    command: &str,
) -> Vec<String> {
    let mut said = vec![match all {
        0 => "The lesson is over.".to_owned(),
        _ => format!("The lesson is over: {right} of {} right.", replies(of, all)),
    }];
    let current = course.current();
    let tried = current.filter(|step| course.standing(*step).status != StepStatus::Untried);
    let steps = passed.iter().copied().chain(tried);
    said.extend(steps.map(|step| standing_at(course, step)));
    said.push(next_lesson(course, command));
    said
}

/// Says that a lesson is stopped before its end, and how its command goes on with it.
pub(crate) fn stopped(command: &str) -> String {
    format!("The lesson stops here; {command} --resume goes on with it.")
}

/// Says that a lesson file holds what it should, and how long the lesson will take.
pub(crate) fn checked(file: &str, parts: usize, extent: Extent) -> String {
    let parts = count(parts, "part", "parts");
    let questions = count(extent.questions, "question", "questions");
    let minutes = count(extent.millis.div_ceil(60_000), "minute", "minutes");
    format!("{file}: {parts}, {questions}, about {minutes}; all of it is ready to run.")
}

/// Says of a file of games that it is no lesson, and what one is.
pub(crate) fn no_lesson(file: &str) -> String {
    format!(
        "{file}: this is a file of games and no lesson. A lesson file is a text in TOML that a coach writes, \
         with a [[part]] for each exercise; sansvoir lesson --help tells more. To hear a game of this file: \
         sansvoir replay {file}"
    )
}

/// Says that a key of a lesson file is not for the lesson to say.
pub(crate) fn learners_own(key: &str) -> String {
    format!("{key} is the learner's to say, not the lesson's: leave it out")
}

/// Says that an exercise has no such key, and which is the nearest, or else all that there are.
pub(crate) fn no_such_key(key: &str, exercise: &str, known: &[&str]) -> String {
    let near = |known: &&&str| strsim::osa_distance(key, known) <= 2;
    let remedy = known.iter().find(near).map_or_else(
        || format!("take one of {}, or leave it out", known.join(", ")),
        |near| format!("is {near} meant?"),
    );
    format!("{exercise} has no key {key}: {remedy}")
}

/// Says that a key is lacking.
pub(crate) fn key_missing(key: &str) -> String {
    format!("this part lacks the key {key}: write it, as in {key} = \"…\"")
}

/// Said of a question that is neither one of a kind nor one in words with its answer, or both.
pub(crate) const ASK_OR_SAY: &str = "a question has either ask, as in ask = \"attacks e4\", or say and answer, as in \
    say = \"What is White's plan?\" and answer = \"…\"";

/// Said where an exercise has questions of a coach's that can have none.
pub(crate) const QUESTIONS_OF_A_REPLAY: &str =
    "only a replay has questions of your own: leave them out, or write exercise = \"replay\"";

/// Says why what a coach wrote is no question there.
pub(crate) fn no_question(written: &str, error: &WrittenError) -> String {
    match error {
        WrittenError::NoKind(word) => unknown_word(word, Kind::LINE.iter().map(|kind| kind.name())),
        WrittenError::NoSubject(kind) => {
            let example = format!("{kind}{}", subject(*kind));
            format!(
                "\"{}\" cannot be read: write it as in \"{example}\"",
                clean_name(written)
            )
        }
        WrittenError::Unfit(kind) => {
            let why = match kind {
                Kind::Whereabouts => "nothing stood there where the reading starts",
                Kind::Attacks => "nothing stands there",
                Kind::Moves => "no piece of the side to move stands there",
                Kind::Exchange => "the side to move can take nothing there",
                _ => "that move has not been read there",
            };
            format!("\"{}\" does not fit: {why}", clean_name(written))
        }
    }
}

/// What a kind asks about, as an example behind its name.
const fn subject(kind: Kind) -> &'static str {
    match kind {
        Kind::Whereabouts | Kind::Occupant | Kind::Attacks | Kind::Moves | Kind::Exchange => " e4",
        Kind::Standing => " white rook",
        Kind::Attackers => " white e4",
        Kind::Legality => " g1f3",
        Kind::Hanging | Kind::Rights | Kind::Taken => " white",
        Kind::Played => " white 12",
        _ => "",
    }
}

/// Said of a lesson file without a part.
pub(crate) const NO_PART: &str =
    "this lesson has no part: write [[part]], and below it exercise = \"replay\"";
/// Said where a part takes its games from standard input.
pub(crate) const INPUT_IS_FOR_REPLIES: &str =
    "a lesson's replies come through standard input: name a file";

/// Says that a part names no exercise.
pub(crate) fn exercise_missing(known: &[&str]) -> String {
    let known = known.join(", ");
    format!("this part names no exercise: write exercise = and one of {known}")
}

/// Says that a part names something that is no exercise.
pub(crate) fn no_exercise(name: &str, known: &[&str]) -> String {
    let known = known.join(", ");
    format!("\"{name}\" is no exercise: take one of {known}")
}

/// Finds the options that a sentence names and that stand for one of these keys, with their places.
pub(crate) fn options_in<'a>(
    said: &'a str,
    keys: &[&str],
) -> impl Iterator<Item = (usize, &'a str)> {
    said.match_indices("--").filter_map(|(at, _)| {
        let before = said[..at].chars().next_back();
        let rest = &said[at + 2..];
        let end = rest.find(|c: char| !c.is_ascii_lowercase() && c != '-');
        let key = &rest[..end.unwrap_or(rest.len())];
        let begins = before.is_none_or(|c| !c.is_alphanumeric() && c != '-');
        (begins && keys.contains(&key)).then_some((at, key))
    })
}

/// Says to somebody who wrote keys what is wrong with the options that stand for them.
pub(crate) fn in_keys(said: &str, keys: &[&str]) -> String {
    let mut told = String::new();
    let mut from = 0;
    for (at, key) in options_in(said, keys) {
        told.push_str(&said[from..at]);
        told.push_str(key);
        from = at + 2 + key.len();
    }
    told + &said[from..]
}

/// Said of a part that comes again until it is passed and has no pass mark.
pub(crate) const UNTIL_PASSED_WITHOUT_PASS: &str =
    "nothing passes this part: write how many right replies do, as in pass = 8";

/// Says that a part has too few questions for its pass mark.
pub(crate) fn pass_too_high(pass: usize, asked: usize) -> String {
    let questions = count(asked, "question", "questions");
    format!("{pass} right replies are too many to ask for: this part has {questions}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn options_are_named_as_keys_and_dashes_that_are_none_stay() {
        let said = "--at 9.: a -- b, club--to.pgn, --top: leave out --to, or --hint";
        let keys = ["hint", "at", "to"];
        assert_eq!(
            in_keys(said, &keys),
            "at 9.: a -- b, club--to.pgn, --top: leave out to, or hint"
        );
        let named: Vec<&str> = options_in(said, &keys).map(|(_, key)| key).collect();
        assert_eq!(named, ["at", "to", "hint"]);
    }
}
