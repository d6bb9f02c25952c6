//! Which line two squares share.

use serde::{Deserialize, Serialize};

/// The straight line on which two squares lie (FIDE 2.4).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Alignment {
    /// They share a file.
    File,
    /// They share a rank.
    Rank,
    /// They share a diagonal.
    Diagonal,
    /// They share no line.
    None,
}

impl Alignment {
    /// Returns its name: `file`, `rank`, `diagonal` or `none`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Alignment::File => "file",
            Alignment::Rank => "rank",
            Alignment::Diagonal => "diagonal",
            Alignment::None => "none",
        }
    }
}
