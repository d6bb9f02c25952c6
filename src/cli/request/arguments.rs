//! The arguments of the commands that hold an exercise, and of those among them that go through games.

use std::path::{Path, PathBuf};

use clap::Args;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use crate::cli::chosen::choose;
use crate::cli::failure::Failure;
use crate::cli::pick::Chosen;
use crate::cli::pick::{CHOICE, Pick};
use crate::cli::prepared::{Announcing, Asked, Prepared, Telling};
use crate::cli::shared::Shared;
use crate::cli::toml_file::Keys;
use crate::cli::values::GivenOptions;
use crate::exercise::Plan;
use crate::learner::Record;
use crate::pgn::Reading;

/// What the arguments of a command say of its session, whatever the exercise is.
pub(crate) trait SessionArguments {
    /// Reads them from the keys of a lesson's part.
    fn from_keys(keys: &mut Keys<'_>) -> Self
    where
        Self: Sized;

    /// Returns what is asked of a session of whatever exercise.
    fn asked(&self) -> Result<Asked<'_>, Failure>;

    /// Returns the files of games that are named.
    fn files(&self) -> &[PathBuf];

    /// Tells whether games come through standard input, where they cannot be had again.
    fn takes_input(&self) -> bool {
        self.files().iter().any(|file| file == Path::new("-"))
    }

    /// Returns the same, to be named otherwise.
    fn files_mut(&mut self) -> &mut [PathBuf];
}

/// The arguments of a command that holds an exercise.
pub(crate) trait ExerciseArguments: SessionArguments {
    /// Sets the exercise up for a learner with these records.
    fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure>;

    /// Sets the exercise up for paper.
    fn on_paper(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        self.prepare(shared, records)
    }

    /// Says what came of the exercise beyond its own summary.
    fn close(&self, _: &Prepared, _: &Shared) -> Result<(), Failure> {
        Ok(())
    }
}

/// The arguments of an exercise over games: `O` are its own options, `T` say how it is told.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
pub(crate) struct GameArguments<O: Args, T: Args = Announcing> {
    #[command(flatten)]
    pub(crate) pick: Pick,
    /// Go on where the session stopped that was left unfinished last, with its settings
    #[arg(long, conflicts_with_all = CHOICE)]
    #[serde(skip)]
    resume: bool,
    #[command(flatten)]
    pub(crate) options: O,
    #[command(flatten)]
    telling: T,
}

impl<O, T> GameArguments<O, T>
where
    Self: SessionArguments + Default,
    O: Args,
    T: Args,
{
    /// Names games and options; all else is left as it usually is.
    pub(crate) fn over(pick: &Pick, options: O) -> Box<Self> {
        Box::new(GameArguments {
            pick: pick.clone(),
            options,
            ..GameArguments::default()
        })
    }

    /// Chooses the one game that an exercise goes through, for a learner with these records, and plans it.
    /// What there is to say about the choice and the state of the game is told at once: it may be why
    /// there is nothing to do.
    pub(crate) fn over_one(
        &self,
        exercise: &str,
        shared: &Shared,
        records: &[Record],
        is_fit: impl Fn(&Reading) -> bool,
        plan: impl FnOnce(&O, &Chosen) -> Result<Plan, Failure>,
    ) -> Result<Prepared, Failure> {
        let chosen = choose(&self.pick, exercise, shared, records, is_fit)?;
        let plan = plan(&self.options, &chosen);
        let plan = plan.map_err(|failure| failure.about(&chosen.name()))?;
        let games = vec![chosen.game_ref()];
        Ok(Prepared {
            file: Some(chosen.into_file()),
            ..Prepared::new(plan, games, self.asked()?, shared)?
        })
    }
}

impl<O, T> SessionArguments for GameArguments<O, T>
where
    O: Args + Serialize + DeserializeOwned + Default,
    T: Args + DeserializeOwned + Default + Copy + Into<Telling>,
{
    fn from_keys(keys: &mut Keys<'_>) -> Self {
        GameArguments {
            pick: keys.take(),
            resume: false,
            options: keys.take(),
            telling: keys.take(),
        }
    }

    fn asked(&self) -> Result<Asked<'_>, Failure> {
        Ok(Asked {
            resume: self.resume,
            pick: Some(&self.pick),
            options: GivenOptions::of(&self.options)?,
            telling: self.telling.into(),
            ..Asked::default()
        })
    }

    fn files(&self) -> &[PathBuf] {
        &self.pick.files
    }

    fn files_mut(&mut self) -> &mut [PathBuf] {
        &mut self.pick.files
    }
}
