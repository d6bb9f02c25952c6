//! An exercise as it is asked for: by a command line, for a sheet, or by a part of a lesson; and the lesson
//! that consists of such parts.

use std::path::{Path, PathBuf};

use clap::Subcommand;
use serde::{Deserialize, Serialize};

use super::arguments::{ExerciseArguments, SessionArguments};
use super::failure::{Failure, tell};
use super::prepared::{Asked, Prepared, resume};
use super::shared::{PartOfLesson, Shared, records};
use super::toml_file::Keys;
use super::values::GivenOptions;
use crate::exercise::exercises;
use crate::learner::Record;
use crate::question::BareQuestion;
use crate::terminal::replies_from_terminal;
use crate::voice::{asides, commands as words};

/// Makes the request from the registry's rows: each command's own file has its arguments and its help.
macro_rules! requests {
    ($($command:ident $Command:ident { $($(#[$doc:meta])+ $Name:ident,)+ })+) => {
        /// An exercise with all that its options say. The journal keeps those of a lesson's parts.
        #[derive(Clone, Debug, Serialize, Deserialize, Subcommand)]
        #[serde(tag = "exercise", rename_all = "lowercase")]
        pub(super) enum Request {
            $(#[command(about = super::$command::ABOUT, after_help = super::$command::HELP,
                        mut_arg("resume", |resume| resume.help(super::$command::RESUME)))]
            $Command(Box<super::$command::Arguments>),)+
        }

        impl Request {
            /// The names of the exercises, which are those of the commands.
            pub(super) const EXERCISES: &[&str] = &[$(stringify!($command)),+];

            /// Returns the exercise's name in the journal, which is that of its command.
            pub(super) const fn exercise(&self) -> &'static str {
                match self {
                    $(Request::$Command(_) => stringify!($command),)+
                }
            }

            /// Reads the keys of an exercise; `None` where none has this name.
            pub(super) fn from_keys(exercise: &str, keys: &mut Keys<'_>) -> Option<Request> {
                $(if exercise == stringify!($command) {
                    let arguments = super::$command::Arguments::from_keys(keys);
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
    pub(super) fn run(&self, shared: &Shared) -> Result<(), Failure> {
        if self.takes_input() && !replies_from_terminal()? {
            tell(asides::NO_TERMINAL);
        }
        let asked = self.arguments().asked()?;
        if asked.resume {
            return self.resume(&asked, shared);
        }
        let journal = shared.journal()?;
        let prepared = match self.prepare(shared, &records(&journal)?) {
            Err(Failure::SearchStopped) => return Ok(()),
            prepared => prepared?,
        };
        prepared.hold(shared, &journal)?;
        self.arguments().close(&prepared.plan, shared)
    }

    /// Goes on with the exercise, of which this is asked.
    fn resume(&self, asked: &Asked<'_>, shared: &Shared) -> Result<(), Failure> {
        let plan = resume(self.exercise(), asked, shared)?;
        self.arguments().close(&plan, shared)
    }

    /// Sets the exercise up for a learner with these records.
    pub(super) fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        self.arguments().prepare(shared, records)
    }

    /// Sets the exercise up for paper, with what these records say of the learner.
    pub(super) fn on_paper(
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
    pub(super) fn words(&self, prepared: &Prepared) -> Result<Vec<String>, Failure> {
        let mut words = vec![self.exercise().to_owned()];
        let asked = self.arguments().asked()?;
        match (&prepared.file, prepared.game(), asked.pick) {
            (Some(file), Some(game), _) => {
                let number = game.number.to_string();
                words.extend([file.to_string_lossy().into(), "--game".to_owned(), number]);
            }
            (_, _, Some(pick)) => words.extend(GivenOptions::of(pick)?.words(&["files"])),
            (_, _, None) => {}
        }
        words.extend(prepared.options.words(&["kinds"]));
        words.extend(GivenOptions::of(&asked.telling)?.words(&[]));
        words.extend(GivenOptions::of(&asked.pace)?.words(&[]));
        Ok(words)
    }

    /// Tells whether games come through standard input, where they cannot be had again.
    pub(super) fn takes_input(&self) -> bool {
        let mut files = self.arguments().files().iter();
        files.any(|file| file == Path::new("-"))
    }

    /// Returns the files of games that it names, to be named otherwise.
    pub(super) fn files_mut(&mut self) -> &mut [PathBuf] {
        self.arguments_mut().files_mut()
    }
}

/// A lesson: what another process needs to go on with it.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub(super) struct Outline {
    /// Its title; `None` where the program has chosen it.
    pub(super) title: Option<String>,
    /// What is read out before the first part.
    pub(super) notes: Option<String>,
    /// The parts, in order.
    pub(super) parts: Vec<LessonPart>,
}

/// One part of a lesson: an exercise.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(super) struct LessonPart {
    /// What it is headed with, without an end mark.
    pub(super) heading: String,
    /// What is read out before it.
    pub(super) notes: Option<String>,
    pub(super) request: Request,
    /// Where its chance comes from, where that is not left to the lesson.
    pub(super) seed: Option<u64>,
    /// The questions over the bare board that were chosen beforehand.
    pub(super) chosen: Vec<BareQuestion>,
    /// How many right replies it asks for.
    pub(super) pass: Option<usize>,
}

impl LessonPart {
    /// Holds the part from its beginning, or goes on with it; `seed` is where its chance comes from unless
    /// the part names another.
    pub(super) fn hold(
        &self,
        session: String,
        seed: u64,
        resumed: bool,
        lesson: &Shared,
    ) -> Result<(), Failure> {
        let part = PartOfLesson {
            session,
            chosen: self.chosen.clone(),
            mates: None,
        };
        if resumed {
            let part = lesson.of_part(part, None);
            self.request.resume(&Asked::default(), &part)
        } else {
            let seed = self.seed.unwrap_or(seed);
            self.request.run(&lesson.of_part(part, Some(seed)))
        }
    }
}

/// Where the chance of a part comes from, the parts counted from 1.
pub(super) const fn seed_of_part(lesson: u64, number: usize) -> u64 {
    lesson.wrapping_add(number as u64)
}
