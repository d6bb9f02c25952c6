//! An exercise as it is asked for: by a command line, for a sheet, or by a part of a lesson; and the lesson
//! that consists of such parts.

use std::path::{Path, PathBuf};

use clap::Subcommand;
use serde::{Deserialize, Serialize};

use super::failure::Failure;
use super::prepared::{Asked, PaceOption, Prepared, leave_input_to, resume};
use super::shared::{PartOfLesson, Shared, records};
use super::values::GivenOptions;
use super::{ahead, drill, mates, recite, replay};
use crate::exercise::Plan;
use crate::learner::Record;
use crate::question::BareQuestion;
use crate::voice::{asides, commands as words};

/// An exercise with all that its options say. The journal keeps those of a lesson's parts.
#[derive(Clone, Debug, Serialize, Deserialize, Subcommand)]
#[serde(tag = "exercise", rename_all = "lowercase")]
pub(super) enum Request {
    /// Hear a game with the board hidden and answer at checkpoints
    #[command(after_help = replay::HELP, mut_arg("resume", |resume| resume.help(
        "Go on where the last unfinished replay stopped, with the settings that it began with")))]
    Replay(Box<replay::Arguments>),
    /// Calculate: a position is given, the next plies are read, questions are asked about their end
    #[command(after_help = ahead::HELP, mut_arg("resume", |resume| resume.help(
        "Go on where the last unfinished session of ahead stopped, with its settings")))]
    Ahead(Box<ahead::Arguments>),
    /// Questions on the empty board: squares, colors, lines, and how the pieces travel
    #[command(after_help = drill::HELP)]
    Drill(Box<drill::Arguments>),
    /// Say a game from memory, move by move
    #[command(after_help = recite::HELP, mut_arg("resume", |resume| resume.help(
        "Go on where the last unfinished recital stopped, with the settings that it began with")))]
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
        let asked = self.asked()?;
        let plan = if asked.resume {
            resume(self.exercise(), &asked, shared)?
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
        let plan = resume(self.exercise(), &Asked::default(), shared)?;
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
        let asked = self.asked()?;
        let planned = match self {
            Request::Replay(replay) => replay::prepare(replay, shared, records)?,
            Request::Ahead(ahead) => match ahead.options.mate {
                Some(within) => {
                    leave_input_to(&ahead.pick)?;
                    let listener = shared.listener()?;
                    let wanted = (within, most.min(ahead.options.rounds()));
                    let listener = &mut listener.borrow_mut();
                    let planned = mates::prepare(ahead, shared, records, wanted, listener)?;
                    let prepared = planned.map(|planned| Prepared::new(planned, asked, shared));
                    return prepared.transpose();
                }
                None => ahead::prepare(ahead, shared, records)?,
            },
            Request::Drill(drill) => drill::prepare(drill, shared, records)?,
            Request::Recite(recite) => {
                recite.over_one(recite::EXERCISE, shared, records, recite::plan)?
            }
        };
        if let Some(pick) = asked.pick {
            leave_input_to(pick)?;
        }
        Prepared::new(planned, asked, shared).map(Some)
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
        let mut asked = self.asked()?;
        if asked.resume {
            return Err(Failure::usage(words::SHEET_STARTS_OVER));
        }
        let planned = match self {
            Request::Replay(replay) => replay::prepare(replay, shared, records)?,
            Request::Ahead(ahead) => {
                let (planned, plies) = ahead::on_paper(ahead, shared, records)?;
                if let Some(plies) = plies {
                    asked.options.settle("plies", plies);
                }
                planned
            }
            Request::Drill(drill) => drill::prepare(drill, shared, &[])?,
            Request::Recite(_) => return Err(Failure::usage(words::NO_RECITAL_ON_PAPER)),
        };
        Prepared::new(planned, asked, shared)
    }

    /// Returns the words of the command line that sets this exercise up again. Where a game was chosen, it
    /// is named by its number in its file: the learner's journal or chance may choose another one the next
    /// time.
    pub(super) fn words(&self, prepared: &Prepared) -> Result<Vec<String>, Failure> {
        let mut words = vec![self.exercise().to_owned()];
        let asked = self.asked()?;
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
        match self {
            Request::Replay(replay) => replay.pick.takes_input(),
            Request::Ahead(ahead) => ahead.pick.takes_input(),
            Request::Drill(drill) => drill.options.from.as_deref() == Some(Path::new("-")),
            Request::Recite(recite) => recite.pick.takes_input(),
        }
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

    /// Returns what all exercises have in common.
    fn asked(&self) -> Result<Asked<'_>, Failure> {
        match self {
            Request::Replay(replay) => replay.asked(replay.pace),
            Request::Ahead(ahead) => ahead.asked(ahead.pace),
            Request::Drill(drill) => Ok(Asked {
                resume: drill.resume,
                options: GivenOptions::of(&drill.options)?,
                ..Asked::default()
            }),
            Request::Recite(recite) => recite.asked(PaceOption::default()),
        }
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
        let chosen = self.chosen.clone();
        let part = PartOfLesson { session, chosen };
        if resumed {
            self.request.go_on(&lesson.of_part(part, None))
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

/// How far a part has come, as the journal tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// It has not begun.
    Ahead,
    /// It was begun and not finished.
    Begun,
    /// All of it was read and asked.
    Over,
}

impl Stage {
    /// Looks up how far the session of this name has come.
    pub(super) fn of(records: &[Record], session: &str) -> Stage {
        let mut stage = Stage::Ahead;
        for record in records {
            if record.stamp().session != session {
                continue;
            }
            match record {
                Record::Start(_) => stage = Stage::Begun,
                Record::End(end) if end.finished => stage = Stage::Over,
                Record::End(_) | Record::Answer(_) | Record::Seal(_) => {}
            }
        }
        stage
    }
}
