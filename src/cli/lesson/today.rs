//! A lesson that the program chooses.

use std::path::Path;

use super::super::failure::{Failure, shown};
use super::super::shared::Shared;
use super::super::{demo, places};
use super::outline::{Outline, Part};
use crate::learner::Record;
use crate::learner::course::{Course, Step};
use crate::learner::lesson::{self, Aim, Wish, plan};
use crate::learner::schedule::Memory;
use crate::question::Kind;
use crate::terminal::now;
use crate::voice;

/// Chooses today's lesson by all that the journal tells.
pub(super) fn outline(
    minutes: u32,
    records: &[Record],
    shared: &Shared,
) -> Result<Outline, Failure> {
    let mut course = Course::default();
    let mut memory = Memory::default();
    for record in records {
        if let Record::Answer(answer) = record {
            course.take_answer(answer);
            memory.take_answer(answer);
        }
    }
    let wish = Wish {
        now: now(),
        minutes,
        seed: shared.seed()?,
    };
    let planned = plan(&course, &memory, wish);
    let is_novice = course.current().is_some_and(|step| step <= Step::FewPieces);
    let table = Table {
        games: places::files(&[], &shared.config)?
            .iter()
            .map(|file| word(file))
            .collect::<Result<_, _>>()?,
        is_novice,
    };
    Ok(Outline {
        title: None,
        notes: None,
        parts: planned.into_iter().map(|part| table.part(part)).collect(),
    })
}

/// What the command lines of parts are made with.
struct Table {
    games: Vec<String>,
    /// Whether the learner has no line of moves in mind yet.
    is_novice: bool,
}

impl Table {
    fn part(&self, part: lesson::Part) -> Part {
        Part {
            heading: voice::lesson::aim(part.aim),
            notes: None,
            words: self.words(&part),
            chosen: part.questions,
            pass: None,
        }
    }

    fn words(&self, part: &lesson::Part) -> Vec<String> {
        let count = part.count;
        let ahead = |plies: &str| {
            let rounds = format!("--count={}", count.div_ceil(2));
            self.over_games("ahead", &[plies, &rounds])
        };
        match part.aim {
            Aim::Due => drill(&kinds(part), &format!("--count={count}")),
            Aim::Step(step) if !step.kinds().is_empty() => {
                drill(&kinds(part), &format!("--count={count}"))
            }
            Aim::Step(Step::TwoPlies) => ahead("--plies=2"),
            Aim::Step(Step::FourPlies) => ahead("--plies=4"),
            Aim::Step(Step::SixPlies) => ahead("--plies=6"),
            Aim::Step(Step::Recital) => self.over_games("recite", &[]),
            Aim::Step(Step::Rebuilding) => {
                self.over_games("replay", &["--every=24", "--questions=1", "--ask=rebuild"])
            }
            Aim::Step(Step::Games) | Aim::Game => {
                let ask = if self.is_novice {
                    "--ask=whereabouts,occupant"
                } else {
                    "--ask=whereabouts,attacks,legality"
                };
                let questions = format!("--questions={count}");
                self.over_games("replay", &["--every=14", &questions, ask])
            }
            Aim::Step(_) => drill("few", &format!("--count={count}")),
            Aim::Ahead => self.over_games("ahead", &[&format!("--count={}", count.div_ceil(2))]),
        }
    }

    fn over_games(&self, exercise: &str, options: &[&str]) -> Vec<String> {
        std::iter::once(exercise.to_owned())
            .chain(self.games.iter().cloned())
            .chain(options.iter().map(|option| (*option).to_owned()))
            .collect()
    }
}

fn drill(kinds: &str, count: &str) -> Vec<String> {
    ["drill", kinds, count].map(str::to_owned).into()
}

/// The kinds of the chosen questions, as `drill` takes them.
fn kinds(part: &lesson::Part) -> String {
    let asked = |kind: &Kind| {
        part.questions
            .iter()
            .any(|question| question.kind() == *kind)
    };
    let names: Vec<&str> = Kind::BARE
        .into_iter()
        .filter(asked)
        .map(Kind::name)
        .collect();
    names.join(",")
}

/// A path as a word of a command, from whatever folder the lesson goes on.
pub(super) fn word(path: &Path) -> Result<String, Failure> {
    if demo::is_meant(path) {
        return Ok(path.to_string_lossy().into_owned());
    }
    let absolute = std::path::absolute(path).map_err(|error| Failure::file(path, &error))?;
    absolute.into_os_string().into_string().map_err(|_| {
        Failure::Unusable(format!(
            "{}: a lesson cannot keep this name, which is no text in UTF-8: rename the file",
            shown(path)
        ))
    })
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::super::super::{Cli, Command};
    use super::*;
    use crate::question::BareQuestion;
    use crate::question::bare::Color;

    /// The command of a part with this aim, as the program reads it.
    fn command(aim: Aim, questions: Vec<BareQuestion>) -> Command {
        let table = Table {
            games: vec!["mine.pgn".to_owned()],
            is_novice: false,
        };
        let part = lesson::Part {
            aim,
            count: 3,
            questions,
        };
        let words = table.part(part).words;
        let cli = Cli::try_parse_from(["sansvoir".to_owned()].into_iter().chain(words));
        cli.unwrap().command.unwrap()
    }

    #[test]
    fn every_aim_is_held_by_the_exercise_that_counts_for_it() {
        let color = BareQuestion::Color(Color {
            square: shakmaty::Square::G6,
        });
        for step in Step::ALL {
            let questions = if step.kinds().is_empty() {
                Vec::new()
            } else {
                vec![color]
            };
            let exercise = match command(Aim::Step(step), questions) {
                Command::Replay(_) => "replay",
                Command::Ahead(_) => "ahead",
                Command::Drill(_) => "drill",
                Command::Recite(_) => "recite",
                other => panic!("{other:?} is no exercise"),
            };
            let expected = match step {
                Step::TwoPlies | Step::FourPlies | Step::SixPlies => "ahead",
                Step::Games | Step::Rebuilding => "replay",
                Step::Recital => "recite",
                _ => "drill",
            };
            assert_eq!(exercise, expected, "{step:?}");
        }
        assert!(matches!(command(Aim::Due, vec![color]), Command::Drill(_)));
        assert!(matches!(command(Aim::Game, vec![]), Command::Replay(_)));
        assert!(matches!(command(Aim::Ahead, vec![]), Command::Ahead(_)));
    }
}
