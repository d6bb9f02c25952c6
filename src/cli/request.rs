//! An exercise as it is asked for: by a command line, by a part of a lesson, or for a sheet.

use std::path::{Path, PathBuf};

use clap::Subcommand;
use serde::{Deserialize, Serialize};

use super::failure::Failure;
use super::prepared::{Again, Prepared, leave_input_to, resume};
use super::shared::{Shared, records};
use super::telling::PaceOption;
use super::values::GivenOptions;
use super::{ahead, drill, mates, recite, replay};
use crate::exercise::Plan;
use crate::learner::Record;
use crate::voice::{asides, commands as words};

/// An exercise with all that its options say. The journal keeps those of a lesson's parts.
#[derive(Clone, Debug, Serialize, Deserialize, Subcommand)]
#[serde(tag = "exercise", rename_all = "lowercase")]
pub(super) enum Request {
    Replay(Box<replay::Arguments>),
    Ahead(Box<ahead::Arguments>),
    Drill(Box<drill::Arguments>),
    Recite(Box<recite::Arguments>),
}

impl Request {
    /// Returns the exercise's name in the journal, which is that of its command.
    pub(super) const fn exercise(&self) -> &'static str {
        match self {
            Request::Replay(_) => replay::EXERCISE,
            Request::Ahead(_) => ahead::EXERCISE,
            Request::Drill(_) => drill::EXERCISE,
            Request::Recite(_) => recite::EXERCISE,
        }
    }

    /// Holds the exercise from its beginning, or goes on with it where that is asked for.
    pub(super) fn run(&self, shared: &Shared) -> Result<(), Failure> {
        let journal = shared.journal()?;
        let plan = if self.resumes() {
            resume(self.exercise(), &self.again()?, shared)?
        } else {
            let prepared = self.prepare(shared, &records(&journal)?, usize::MAX)?;
            // The learner may have stopped the search for mates.
            let Some(prepared) = prepared else {
                return Ok(());
            };
            prepared.hold(shared, &journal)?;
            prepared.plan
        };
        close(&plan, shared)
    }

    /// Goes on with the exercise as it was begun.
    pub(super) fn go_on(&self, shared: &Shared) -> Result<(), Failure> {
        let plan = resume(self.exercise(), &Again::default(), shared)?;
        close(&plan, shared)
    }

    /// Sets the exercise up for a learner with these records; no more than `most` mates are searched for.
    /// `None` where the learner stopped the search.
    fn prepare(
        &self,
        shared: &Shared,
        records: &[Record],
        most: usize,
    ) -> Result<Option<Prepared>, Failure> {
        if let Request::Ahead(ahead) = self
            && let Some(within) = ahead.options.mate
        {
            leave_input_to(&ahead.pick)?;
            let listener = shared.listener()?;
            let wanted = (within, most.min(ahead.options.rounds()));
            return mates::prepare(ahead, shared, records, wanted, &mut listener.borrow_mut());
        }
        let prepared = match self {
            Request::Replay(replay) => replay::prepare(replay, shared, records)?,
            Request::Ahead(ahead) => ahead::prepare(ahead, shared, records)?,
            Request::Drill(drill) => drill::prepare(drill, shared, records)?,
            Request::Recite(recite) => recite::prepare(recite, shared, records)?,
        };
        if let Some(pick) = self.again()?.pick {
            leave_input_to(pick)?;
        }
        Ok(Some(prepared))
    }

    /// Sets the exercise up to be tried: a search for mates ends with `least` of them.
    pub(super) fn prepare_to_try(
        &self,
        shared: &Shared,
        records: &[Record],
        least: usize,
    ) -> Result<Prepared, Failure> {
        let prepared = self.prepare(shared, records, least)?;
        prepared.ok_or_else(|| Failure::unusable(asides::NOT_SEARCHED_THROUGH))
    }

    /// Sets the exercise up for paper, with what these records say of the learner.
    pub(super) fn on_paper(
        &self,
        shared: &Shared,
        records: &[Record],
    ) -> Result<Prepared, Failure> {
        if self.resumes() {
            return Err(Failure::usage(words::SHEET_STARTS_OVER));
        }
        match self {
            Request::Replay(replay) => replay::prepare(replay, shared, records),
            Request::Ahead(ahead) => ahead::on_paper(ahead, shared, records),
            Request::Drill(drill) => drill::prepare(drill, shared, &[]),
            Request::Recite(_) => Err(Failure::usage(words::NO_RECITAL_ON_PAPER)),
        }
    }

    /// Returns the words of the command line that sets this exercise up again. Where a game was chosen, it
    /// is named by its number in its file: the learner's journal or chance may choose another one the next
    /// time.
    pub(super) fn words(&self, prepared: &Prepared) -> Result<Vec<String>, Failure> {
        let mut words = vec![self.exercise().to_owned()];
        let asked = self.again()?;
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
        self.files().any(|file| file == Path::new("-"))
    }

    /// Returns the files of games that it names.
    fn files(&self) -> impl Iterator<Item = &PathBuf> {
        let (files, file) = match self {
            Request::Replay(replay) => (Some(&replay.pick.files), None),
            Request::Ahead(ahead) => (Some(&ahead.pick.files), None),
            Request::Drill(drill) => (None, drill.options.from.as_ref()),
            Request::Recite(recite) => (Some(&recite.pick.files), None),
        };
        files.into_iter().flatten().chain(file)
    }

    /// Returns the files of games that it names, to be named otherwise.
    pub(super) fn files_mut(&mut self) -> impl Iterator<Item = &mut PathBuf> {
        let (files, file) = match self {
            Request::Replay(replay) => (Some(&mut replay.pick.files), None),
            Request::Ahead(ahead) => (Some(&mut ahead.pick.files), None),
            Request::Drill(drill) => (None, drill.options.from.as_mut()),
            Request::Recite(recite) => (Some(&mut recite.pick.files), None),
        };
        files.into_iter().flatten().chain(file)
    }

    fn resumes(&self) -> bool {
        match self {
            Request::Replay(replay) => replay.resume,
            Request::Ahead(ahead) => ahead.resume,
            Request::Drill(drill) => drill.resume,
            Request::Recite(recite) => recite.resume,
        }
    }

    /// Returns what it says of a session that goes on.
    fn again(&self) -> Result<Again<'_>, Failure> {
        Ok(match self {
            Request::Replay(replay) => Again {
                pick: Some(&replay.pick),
                options: GivenOptions::of(&replay.options)?,
                telling: replay.telling,
                pace: replay.pace,
            },
            Request::Ahead(ahead) => Again {
                pick: Some(&ahead.pick),
                options: GivenOptions::of(&ahead.options)?,
                telling: ahead.telling,
                pace: ahead.pace,
            },
            Request::Drill(drill) => Again {
                options: GivenOptions::of(&drill.options)?,
                ..Again::default()
            },
            Request::Recite(recite) => Again {
                pick: Some(&recite.pick),
                options: GivenOptions::of(&recite.options)?,
                telling: recite.telling,
                pace: PaceOption::default(),
            },
        })
    }
}

/// Says what came of an exercise beyond its own summary.
fn close(plan: &Plan, shared: &Shared) -> Result<(), Failure> {
    match plan {
        Plan::Ahead(_) => ahead::tell_reach(shared),
        Plan::Replay(_) | Plan::Recite(_) | Plan::Mates(_) | Plan::Drill(_) | Plan::Few(_) => {
            Ok(())
        }
    }
}
