//! A move as a question names it.

use std::fmt;
use std::str::FromStr;

use shakmaty::uci::UciMove;
use shakmaty::{Chess, Move, Position, Role, Square};

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
    /// Names a legal move of a position the way a question does.
    pub fn of(mv: Move, position: &Chess) -> Attempt {
        let uci = mv.to_uci(position.castles().mode());
        Attempt::of_uci(uci).unwrap_or_else(|| unreachable!("no such move in chess"))
    }

    const fn of_uci(uci: UciMove) -> Option<Attempt> {
        match uci {
            UciMove::Normal {
                from,
                to,
                promotion,
            } => Some(Attempt {
                from,
                to,
                promotion,
            }),
            UciMove::Put { .. } | UciMove::Null => None,
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
        let uci = text.parse().ok();
        uci.and_then(Attempt::of_uci)
            .ok_or_else(|| ParseAttemptError(text.to_owned()))
    }
}
