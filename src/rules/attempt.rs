//! A move as a question names it.

use std::fmt;
use std::str::FromStr;

use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Move, Role, Square};

/// A move as a question names it: from where, to where, and what a pawn becomes. Castling is the
/// king's move of two squares in standard chess, the king's move onto its own rook in Chess960.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Attempt {
    /// The square that the piece leaves.
    pub from: Square,
    /// The square that it goes to.
    pub to: Square,
    /// What it becomes there.
    pub promotion: Option<Role>,
}

impl Attempt {
    /// Names a legal move the way a question does.
    #[must_use]
    pub fn of(mv: Move, mode: CastlingMode) -> Attempt {
        match mv.to_uci(mode) {
            UciMove::Normal {
                from,
                to,
                promotion,
            } => Attempt {
                from,
                to,
                promotion,
            },
            UciMove::Put { .. } | UciMove::Null => unreachable!("no such move in chess"),
        }
    }
}

impl fmt::Display for Attempt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.from, self.to)?;
        self.promotion
            .map_or(Ok(()), |role| write!(f, "{}", role.char()))
    }
}

/// A text that names no move in UCI form.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" names no move: write from, to and promotion, as in e2e4 or b7b8q")]
pub struct ParseAttemptError(String);

impl FromStr for Attempt {
    type Err = ParseAttemptError;

    fn from_str(text: &str) -> Result<Attempt, ParseAttemptError> {
        let error = || ParseAttemptError(text.to_owned());
        let square = |range: std::ops::Range<usize>| {
            text.get(range)
                .and_then(|name| name.parse().ok())
                .ok_or_else(error)
        };
        let promotion = match text.get(4..).ok_or_else(error)? {
            "" => None,
            letter => Some(
                letter
                    .parse()
                    .ok()
                    .and_then(Role::from_char)
                    .ok_or_else(error)?,
            ),
        };
        Ok(Attempt {
            from: square(0..2)?,
            to: square(2..4)?,
            promotion,
        })
    }
}
