//! Which game a replay reads, and how it begins or goes on.

use std::path::PathBuf;

use super::super::Shared;
use super::super::chosen::{agrees_with, choose};
use super::super::failure::Failure;
use super::EXERCISE;
use super::arguments::Arguments;
use super::setup::Setup;
use crate::learner::{GameRef, Record, Stamp, StartRecord, Unfinished};

/// A replay that can begin or go on.
pub(super) struct Plan<'a> {
    pub(super) setup: Setup,
    pub(super) game: Option<GameRef>,
    /// The file of a new replay's game, as it was named.
    pub(super) file: Option<PathBuf>,
    /// The session's name in the journal; it stays the same when the session is resumed.
    pub(super) session: String,
    /// The session that goes on, if this is not a new one.
    pub(super) earlier: Option<Unfinished<'a>>,
}

impl<'a> Plan<'a> {
    /// Plans a new replay of the game that the options choose. What there is to say about the choice
    /// and the state of the game is told at once: it may be why there is nothing to read.
    pub(super) fn begin(
        arguments: &Arguments,
        shared: &Shared,
        records: &[Record],
    ) -> Result<Plan<'a>, Failure> {
        let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
        let setup = Setup::new(&chosen.reading.game, &arguments.course, shared.seed()?);
        Ok(Plan {
            setup: setup.map_err(|failure| failure.about(&chosen.name()))?,
            game: Some(chosen.game_ref()),
            file: Some(chosen.into_file()),
            session: shared.session_name()?,
            earlier: None,
        })
    }

    /// Plans to go on with the replay that was left unfinished last.
    pub(super) fn resume(
        arguments: &Arguments,
        shared: &Shared,
        records: &'a [Record],
    ) -> Result<Plan<'a>, Failure> {
        let earlier = shared.unfinished(records, EXERCISE).ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished replay to go on with: leave out --resume".to_owned(),
            )
        })?;
        let setup: Setup = Failure::setup(EXERCISE, &earlier.start.setup)?;
        agrees_with(earlier.start.game.as_ref(), &arguments.pick)?;
        setup.agrees_with(&arguments.course, shared.seed)?;
        Ok(Plan {
            setup,
            game: earlier.start.game.clone(),
            file: None,
            session: earlier.start.stamp.session.clone(),
            earlier: Some(earlier),
        })
    }

    /// Writes down how the replay begins.
    pub(super) fn start_record(
        &self,
        stamp: Stamp,
        shared: &Shared,
    ) -> Result<StartRecord, Failure> {
        Ok(StartRecord {
            stamp,
            learner: shared.learner()?.clone(),
            exercise: EXERCISE.to_owned(),
            played: Some(self.setup.played()?),
            game: self.game.clone(),
            seed: self.setup.settings.seed,
            setup: serde_json::to_value(&self.setup).map_err(Failure::unusable)?,
        })
    }
}
