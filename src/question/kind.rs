//! The names of the question kinds.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

/// What a question is about; its name is what the learner types and what the journal keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// The name of a marked square.
    Name,
    /// Where a named square lies.
    Place,
    /// Whether a square is light or dark.
    Color,
    /// Which line two squares share.
    Aligned,
    /// The squares between two aligned squares.
    Between,
    /// The squares that a man attacks on the empty board.
    Span,
    /// The squares that two men both attack.
    Crossing,
    /// The fewest moves that a man needs to a square.
    Distance,
    /// A shortest route of a man to a square.
    Route,
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
    /// Every legal move that gives check.
    Checks,
    /// Every legal capture.
    Captures,
    /// A side's men that are attacked and not guarded.
    Hanging,
    /// A move that mates at once, or that there is none.
    Mate,
    /// What taking on a square wins.
    Exchange,
    /// The balance of material.
    Balance,
    /// The wings on which a side may still castle some day.
    Rights,
    /// A side's men that have left the board.
    Taken,
    /// The move played at a given move number.
    Played,
    /// Every man's square.
    Rebuild,
}

impl Kind {
    /// The kinds over the bare board, in the order of the climb.
    pub const BARE: [Kind; 9] = [
        Kind::Name,
        Kind::Place,
        Kind::Color,
        Kind::Aligned,
        Kind::Between,
        Kind::Span,
        Kind::Crossing,
        Kind::Distance,
        Kind::Route,
    ];

    /// The kinds over a position reached by a line, in the order of the climb.
    pub const LINE: [Kind; 18] = [
        Kind::Whereabouts,
        Kind::Occupant,
        Kind::Standing,
        Kind::Attacks,
        Kind::Attackers,
        Kind::Moves,
        Kind::Legality,
        Kind::Check,
        Kind::Checks,
        Kind::Captures,
        Kind::Hanging,
        Kind::Mate,
        Kind::Exchange,
        Kind::Balance,
        Kind::Rights,
        Kind::Taken,
        Kind::Played,
        Kind::Rebuild,
    ];

    /// Every kind, in the order of the climb: the bare board first.
    pub const ALL: [Kind; 27] = {
        let mut all = [Kind::Name; 27];
        let (bare, line) = all.split_at_mut(Kind::BARE.len());
        bare.copy_from_slice(&Kind::BARE);
        line.copy_from_slice(&Kind::LINE);
        all
    };

    /// Returns the kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Kind::Name => "name",
            Kind::Place => "place",
            Kind::Color => "color",
            Kind::Aligned => "aligned",
            Kind::Between => "between",
            Kind::Span => "span",
            Kind::Crossing => "crossing",
            Kind::Distance => "distance",
            Kind::Route => "route",
            Kind::Whereabouts => "whereabouts",
            Kind::Occupant => "occupant",
            Kind::Standing => "standing",
            Kind::Attacks => "attacks",
            Kind::Attackers => "attackers",
            Kind::Moves => "moves",
            Kind::Legality => "legality",
            Kind::Check => "check",
            Kind::Checks => "checks",
            Kind::Captures => "captures",
            Kind::Hanging => "hanging",
            Kind::Mate => "mate",
            Kind::Exchange => "exchange",
            Kind::Balance => "balance",
            Kind::Rights => "rights",
            Kind::Taken => "taken",
            Kind::Played => "played",
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
