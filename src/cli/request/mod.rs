//! An exercise as it is asked for: by a command line, for a sheet, or by a part of a lesson; and the lesson
//! that consists of such parts.

pub(super) mod ahead;
pub(super) mod arguments;
pub(super) mod drill;
mod mates;
mod own;
mod placement;
pub(super) mod play;
pub(super) mod recite;
pub(super) mod replay;

use std::path::PathBuf;

use clap::Subcommand;
use serde::{Deserialize, Serialize};

use crate::cli::failure::{Failure, tell};
use crate::cli::pick::Pick;
use crate::cli::prepared::{Asked, Prepared, resume};
use crate::cli::shared::{PartOfLesson, Shared, records};
use crate::cli::toml_file::Keys;
use crate::cli::values::GivenOptions;
use crate::exercise::exercises;
use crate::learner::{PartResult, Record};
use crate::question::BareQuestion;
use crate::terminal::replies_from_terminal;
use crate::voice::{asides, commands as words};
use arguments::{ExerciseArguments, SessionArguments};

pub(crate) use own::{AtMove, OwnQuestion};

/// Makes the request from the registry's rows: each command's own file has its arguments.
macro_rules! requests {
    ($($command:ident $Command:ident { $($(#[$doc:meta])+ $Name:ident,)+ })+) => {
        /// An exercise with all that its options say. The journal keeps those of a lesson's parts.
        #[derive(Clone, Debug, Serialize, Deserialize, Subcommand)]
        #[serde(tag = "exercise", rename_all = "lowercase")]
        pub(crate) enum Request {
            $($Command(Box<$command::Arguments>),)+
        }

        impl Request {
            /// The names of the exercises, which are those of the commands.
            pub(crate) const EXERCISES: &[&str] = &[$(stringify!($command)),+];

            /// Returns the exercise's name in the journal, which is that of its command.
            pub(crate) const fn exercise(&self) -> &'static str {
                match self {
                    $(Request::$Command(_) => stringify!($command),)+
                }
            }

            /// Reads the keys of an exercise; `None` where none has this name.
            pub(crate) fn from_keys(exercise: &str, keys: &mut Keys<'_>) -> Option<Request> {
                $(if exercise == stringify!($command) {
                    let arguments = $command::Arguments::from_keys(keys);
                    return Some(Request::$Command(Box::new(arguments)));
                })+
                None
            }

            fn arguments(&self) -> &dyn ExerciseArguments {
                match self {
                    $(Request::$Command(arguments) => &**arguments,)+
                }
            }

            fn arguments_mut(&mut self) -> &mut dyn ExerciseArguments {
                match self {
                    $(Request::$Command(arguments) => &mut **arguments,)+
                }
            }
        }
    };
}
exercises!(requests);

impl Request {
    /// Holds the exercise from its beginning, or goes on with it where that is asked for.
    pub(crate) fn run(&self, shared: &Shared) -> Result<(), Failure> {
        let asked = self.arguments().asked()?;
        if asked.resume {
            self.leave_input()?;
            return self.resume(&asked, shared);
        }
        let journal = shared.journal()?;
        let prepared = match self.prepare(shared, &records(&journal)?) {
            Err(Failure::SearchStopped) => return Ok(()),
            prepared => prepared?,
        };
        self.leave_input()?;
        prepared.hold(shared, &journal)?;
        self.arguments().close(&prepared, shared)
    }

    /// Sees to it that replies come from the terminal where games, which have been read, came through
    /// standard input.
    fn leave_input(&self) -> Result<(), Failure> {
        if self.takes_input() && !replies_from_terminal()? {
            tell(asides::NO_TERMINAL);
        }
        Ok(())
    }

    /// Goes on with the exercise, of which this is asked.
    fn resume(&self, asked: &Asked<'_>, shared: &Shared) -> Result<(), Failure> {
        let prepared = resume(self.exercise(), asked, shared)?;
        self.arguments().close(&prepared, shared)
    }

    /// Sets the exercise up for a learner with these records.
    pub(crate) fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        self.arguments().prepare(shared, records)
    }

    /// Sets the exercise up for paper, with what these records say of the learner.
    pub(crate) fn on_paper(
        &self,
        shared: &Shared,
        records: &[Record],
    ) -> Result<Prepared, Failure> {
        if self.arguments().asked()?.resume {
            return Err(Failure::usage(words::SHEET_STARTS_OVER));
        }
        self.arguments().on_paper(shared, records)
    }

    /// Returns the words of the command line that sets this exercise up again. Where a game was chosen, it
    /// is named by its number in its file: the learner's journal or chance may choose another one the next
    /// time.
    pub(crate) fn words(&self, prepared: &Prepared) -> Result<Vec<String>, Failure> {
        let mut words = vec![self.exercise().to_owned()];
        let asked = self.arguments().asked()?;
        match (&prepared.file, prepared.game(), asked.pick) {
            (Some(file), Some(game), pick) => {
                // A sideline has the number of its game before its own.
                let named = pick.and_then(Pick::numbers).filter(|game| game.is_one());
                let number =
                    named.map_or_else(|| game.number.to_string(), |named| named.to_string());
                words.extend([file.to_string_lossy().into(), "--game".to_owned(), number]);
            }
            (_, _, Some(pick)) => words.extend(GivenOptions::of(pick)?.words(&["files"])),
            (_, _, None) => {}
        }
        words.extend(prepared.options.words(&["kinds"]));
        words.extend(GivenOptions::of(&asked.telling)?.words(&[]));
        Ok(words)
    }

    /// Tells whether games come through standard input, where they cannot be had again.
    pub(crate) fn takes_input(&self) -> bool {
        self.arguments().takes_input()
    }

    /// Returns the files of games that it names, to be named otherwise.
    pub(crate) fn files_mut(&mut self) -> &mut [PathBuf] {
        self.arguments_mut().files_mut()
    }
}

/// A lesson: what another process needs to go on with it.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub(crate) struct Outline {
    /// Its title; `None` where the program has chosen it.
    pub(crate) title: Option<String>,
    /// What is read out before the first part.
    pub(crate) notes: Option<String>,
    /// The parts, in order.
    pub(crate) parts: Vec<LessonPart>,
    /// The places of the parts in the order in which they are held, counted from 0; none where it is their own.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(crate) shuffled: Vec<usize>,
    /// The step that the learner chose to begin with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) start: Option<String>,
}

impl Outline {
    /// Returns the places of the parts in the order in which they are held.
    pub(crate) fn order(&self) -> Vec<usize> {
        match &self.shuffled[..] {
            [] => (0..self.parts.len()).collect(),
            shuffled => shuffled.to_vec(),
        }
    }
}

/// One part of a lesson: an exercise.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(crate) struct LessonPart {
    /// What it is headed with, without an end mark.
    pub(crate) heading: String,
    /// What is read out before it.
    pub(crate) notes: Option<String>,
    pub(crate) request: Request,
    /// Where its chance comes from, where that is not left to the lesson.
    pub(crate) seed: Option<u64>,
    /// The questions over the bare board that were chosen beforehand.
    pub(crate) chosen: Vec<BareQuestion>,
    /// How many right replies it asks for.
    pub(crate) pass: Option<usize>,
    /// The questions that a coach wrote.
    #[serde(default, rename = "question", skip_serializing_if = "Vec::is_empty")]
    pub(crate) own: Vec<OwnQuestion>,
    /// Whether it comes again until it is passed.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(crate) until_passed: bool,
}

/// So many times a part comes at most until it is passed.
const MOST_TIMES: usize = 5;

impl LessonPart {
    /// Tells whether the part, of which this came, is held once more.
    pub(crate) fn comes_again(&self, result: &PartResult) -> bool {
        let reaches = self.pass.is_none_or(|mark| result.reaches(mark));
        self.until_passed && !reaches && result.time < MOST_TIMES
    }

    /// Counts the questions that the program asks where it asks those of the coach alone.
    pub(crate) fn asks_alone(&self) -> Option<usize> {
        let Request::Replay(replay) = &self.request else {
            return None;
        };
        let replay::Options { at, ask, every, .. } = &replay.options;
        let is_alone = at.is_empty() && ask.is_empty() && every.is_none() && !self.own.is_empty();
        let asked = self.own.iter().filter(|own| own.ask.is_some());
        is_alone.then(|| asked.count())
    }

    /// Returns what its exercise must know in a session of this name.
    pub(crate) fn in_session(&self, session: String) -> PartOfLesson {
        PartOfLesson {
            session,
            chosen: self.chosen.clone(),
            own: self.own.clone(),
        }
    }

    /// Holds the part from its beginning, or goes on with it; `seed` is where its chance comes from unless
    /// the part names another.
    pub(crate) fn hold(
        &self,
        session: String,
        seed: u64,
        resumed: bool,
        lesson: &Shared,
    ) -> Result<(), Failure> {
        let part = self.in_session(session);
        if resumed {
            let part = lesson.of_part(part, None);
            self.request.resume(&Asked::default(), &part)
        } else {
            let seed = self.seed.unwrap_or(seed);
            self.request.run(&lesson.of_part(part, Some(seed)))
        }
    }
}

/// Where the chance of a part comes from that is held for this time; parts and times are counted from 1.
pub(crate) const fn seed_of_part(lesson: u64, number: usize, time: usize) -> u64 {
    lesson.wrapping_add((number + 1_000 * (time - 1)) as u64)
}

/// Names the session of a part in the journal.
pub(crate) fn session_of_part(lesson: &str, number: usize, time: usize) -> String {
    match time {
        1 => format!("{lesson}-{number}"),
        time => format!("{lesson}-{number}-{time}"),
    }
}
