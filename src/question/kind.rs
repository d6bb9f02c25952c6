//! The names of the question kinds.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

/// What a question is about; its name is what the learner types and what the journal keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Where the man that stood on a square at the start of the line stands now.
    Whereabouts,
    /// What stands on a square.
    Occupant,
    /// The squares of all of a side's men of one role.
    Standing,
    /// The squares that the man on a square attacks.
    Attacks,
    /// A side's men that attack or guard a square.
    Attackers,
    /// The squares to which the man on a square can legally go.
    Moves,
    /// Whether a fully named move is legal.
    Legality,
    /// Whether the side to move is in check, and from where.
    Check,
    /// Every man's square.
    Rebuild,
}

impl Kind {
    /// Every kind, in the order of the climb.
    pub const ALL: [Kind; 9] = [
        Kind::Whereabouts,
        Kind::Occupant,
        Kind::Standing,
        Kind::Attacks,
        Kind::Attackers,
        Kind::Moves,
        Kind::Legality,
        Kind::Check,
        Kind::Rebuild,
    ];

    /// Returns the kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Kind::Whereabouts => "whereabouts",
            Kind::Occupant => "occupant",
            Kind::Standing => "standing",
            Kind::Attacks => "attacks",
            Kind::Attackers => "attackers",
            Kind::Moves => "moves",
            Kind::Legality => "legality",
            Kind::Check => "check",
            Kind::Rebuild => "rebuild",
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A name that no kind has.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is no kind of question")]
pub struct NoKind(String);

impl FromStr for Kind {
    type Err = NoKind;

    fn from_str(name: &str) -> Result<Kind, NoKind> {
        Kind::ALL
            .into_iter()
            .find(|kind| kind.name() == name)
            .ok_or_else(|| NoKind(name.to_owned()))
    }
}
