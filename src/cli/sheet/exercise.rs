//! An exercise that was set up to be held away from the terminal.

use std::path::{Path, PathBuf};

use super::Failure;
use crate::exercise::Session;
use crate::learner::{GameRef, Played};
use crate::voice::Voice;

/// An exercise that is about to begin, with all that the journal keeps of its beginning.
pub(crate) struct Exercise {
    /// Its name in the journal.
    pub(crate) name: &'static str,
    pub(crate) session: Session,
    pub(crate) voice: Voice,
    pub(crate) game: Option<GameRef>,
    /// The file of that game, as it was named.
    pub(crate) file: Option<PathBuf>,
    pub(crate) played: Option<Played>,
    pub(crate) seed: u64,
    /// Options that say what was decided by the learner's answers, where they were not given.
    pub(crate) decided: Vec<String>,
    pub(crate) setup: serde_json::Value,
}

impl Exercise {
    /// The game that was chosen: its file, and its number there.
    pub(super) fn chosen(&self) -> Option<(&Path, usize)> {
        Some((self.file.as_deref()?, self.game.as_ref()?.number))
    }

    pub(crate) fn cannot_resume() -> Failure {
        Failure::Usage("a sheet begins anew: leave out --resume".to_owned())
    }
}
