//! How a game against an opponent is set up.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use crate::exercise::bound::{Every, Rating};
use crate::exercise::script::Script;
use crate::question::{Kind, text};

/// The settings of one game against an opponent, or of several at once.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlaySettings {
    /// The games, each on a board of its own.
    pub games: Vec<GameSettings>,
    /// The opponent's rating; `None` for an engine at its full strength.
    pub rating: Option<Rating>,
    /// The name of the engine that plays; `None` for the program's own opponent.
    pub engine: Option<String>,
    /// Whether the rating follows the learner's results.
    pub follows: bool,
    /// What is seen of the board.
    pub board: BoardShown,
    /// The kinds of question on the way; none for no questions.
    pub ask: Vec<Kind>,
    /// After how many moves of the learner questions come.
    pub every: Every,
    /// The seed of the opponent's moves and of the questions.
    pub seed: u64,
}

/// One game: where it begins, and who plays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GameSettings {
    /// The moves that are read out first, or the start alone.
    pub script: Script,
    /// The learner's side.
    #[serde(with = "text")]
    pub learner: Color,
}

/// What is seen of the board during a game.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BoardShown {
    /// It is shown after every move.
    Always,
    /// It is shown after so many moves.
    After(Every),
    /// Its empty squares are.
    Empty,
    /// Nothing is.
    #[default]
    Never,
}

/// A text that says nothing of the board.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("write always, a number of moves, empty or never")]
pub struct ParseBoardShownError;

impl FromStr for BoardShown {
    type Err = ParseBoardShownError;

    fn from_str(text: &str) -> Result<BoardShown, ParseBoardShownError> {
        match text {
            "always" => Ok(BoardShown::Always),
            "empty" => Ok(BoardShown::Empty),
            "never" => Ok(BoardShown::Never),
            number => { number.parse() }
                .map(BoardShown::After)
                .map_err(|_| ParseBoardShownError),
        }
    }
}

impl fmt::Display for BoardShown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BoardShown::Always => f.write_str("always"),
            BoardShown::After(every) => write!(f, "{}", every.get()),
            BoardShown::Empty => f.write_str("empty"),
            BoardShown::Never => f.write_str("never"),
        }
    }
}
