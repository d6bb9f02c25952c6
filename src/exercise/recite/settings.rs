//! What makes a recital the one it is.

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::super::bound::{Every, Millis};

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
pub struct ReciteSettings {
    /// Whose moves the learner says.
    pub sides: Sides,
    /// The whole position is asked every so many plies and at the end; `None` for never.
    #[serde(deserialize_with = "Every::number_or_none")]
    pub every: Option<usize>,
    /// Whether the piece that moves is named by itself after a first miss.
    pub hint: bool,
    /// Milliseconds after which a reply is late; `None` for never.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
}
