//! What makes a recital the one it is.

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::super::bound::{self, OutOfBounds, read_with_check};

/// Whose moves the learner says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Sides {
    /// Both sides'.
    #[default]
    Both,
    /// White's; Black's are read out.
    White,
    /// Black's; White's are read out.
    Black,
}

impl Sides {
    /// Tells whether the learner says the moves of this side.
    #[must_use]
    pub const fn says(self, color: Color) -> bool {
        match self {
            Sides::Both => true,
            Sides::White => color.is_white(),
            Sides::Black => color.is_black(),
        }
    }
}

/// The settings of a recital. Nothing in it is left to chance.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self")]
pub struct ReciteSettings {
    /// Whose moves the learner says.
    pub sides: Sides,
    /// The whole position is asked every so many plies and at the end; `None` for never.
    pub every: Option<usize>,
    /// Whether the piece that moves is named by itself after a first miss.
    pub hint: bool,
    /// Milliseconds after which a reply is late; `None` for never.
    pub think_millis: Option<u64>,
}

read_with_check!(ReciteSettings);

impl ReciteSettings {
    /// Sees to it that every number is one that an option takes.
    ///
    /// # Errors
    ///
    /// [`OutOfBounds`]
    pub fn check(&self) -> Result<(), OutOfBounds> {
        bound::EVERY.check_given(self.every)?;
        bound::MILLIS.check_given(self.think_millis)
    }
}
