//! What several records have: when they were made, the game and the line that they are about, and values as they
//! stand in the file.

use jiff::Timestamp;
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::value::{RawValue, to_raw_value};
use shakmaty::uci::UciMove;

use crate::game::Line;

/// How a journal names the variant whose castling is written as king takes rook.
const CHESS960: &str = "chess960";

/// When a record was made, and in which session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// The time, in whole seconds.
    pub time: Timestamp,
    /// The session's name; a resumed session keeps it.
    pub session: String,
}

/// The game that a question was asked over.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct GameRef {
    /// The file, as it was named by the learner.
    pub file: String,
    /// The number of the game in that file, counted from 1.
    pub number: usize,
}

/// A line of play in writing: a start position and the moves from there.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct Played {
    /// The rules, where they are not those of standard chess: `chess960`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variant: Option<String>,
    /// The FEN that the line starts from.
    pub start: String,
    /// The moves in UCI form.
    pub moves: Vec<UciMove>,
}

/// A value that a journal keeps as it stands there: a journal of many years is looked through at every
/// start, and hardly ever rechecked.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct RawJson(Box<RawValue>);

impl RawJson {
    /// Writes a value down.
    ///
    /// # Panics
    ///
    /// When the value has no form in JSON, as no value of ours.
    pub fn of<T: Serialize + ?Sized>(value: &T) -> RawJson {
        RawJson(to_raw_value(value).expect("every value of ours has a form in JSON"))
    }

    /// Returns the JSON.
    pub fn get(&self) -> &str {
        self.0.get()
    }
}

impl PartialEq for RawJson {
    fn eq(&self, other: &RawJson) -> bool {
        self.get() == other.get()
    }
}

impl Stamp {
    /// Stamps with the second that `time` lies in.
    pub fn new(time: Timestamp, session: impl Into<String>) -> Stamp {
        Stamp {
            time: Timestamp::from_second(time.as_second()).unwrap_or(time),
            session: session.into(),
        }
    }
}

impl Played {
    /// Writes down a whole line.
    pub fn of(line: &Line) -> Played {
        Played {
            variant: variant(line.start().mode().is_chess960()),
            start: line.start().fen(),
            moves: line.uci(line.len()).collect(),
        }
    }
}

/// Names the rules, where they are not those of standard chess.
pub(super) fn variant(is_chess960: bool) -> Option<String> {
    is_chess960.then(|| CHESS960.to_owned())
}

/// Reads the line of a session, which is there as a whole or not at all.
pub(super) fn played<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Played>, D::Error> {
    #[derive(Deserialize)]
    struct Parts {
        variant: Option<String>,
        start: Option<String>,
        moves: Option<Vec<UciMove>>,
    }
    let parts = Parts::deserialize(from)?;
    match (parts.start, parts.moves) {
        (Some(start), Some(moves)) => Ok(Some(Played {
            variant: parts.variant,
            start,
            moves,
        })),
        (None, None) => Ok(None),
        (None, Some(_)) => Err(D::Error::missing_field("start")),
        (Some(_), None) => Err(D::Error::missing_field("moves")),
    }
}
