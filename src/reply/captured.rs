//! Pieces by their roles alone: what has been taken from a side.

use std::fmt;
use std::str::FromStr;

use shakmaty::{ByRole, Role};

/// Pieces counted by their roles; as text, their English letters in the order of their value: `NPP`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct CapturedPieces(ByRole<u8>);

impl CapturedPieces {
    /// The roles in the order in which they are written; a king is never taken.
    pub const ORDER: [Role; 5] = [
        Role::Queen,
        Role::Rook,
        Role::Bishop,
        Role::Knight,
        Role::Pawn,
    ];

    /// Returns how many pieces of a role there are.
    #[must_use]
    pub fn of(self, role: Role) -> usize {
        usize::from(*self.0.get(role))
    }

    /// Counts the pieces that both hold, and those that either holds.
    pub(crate) fn shared(self, other: CapturedPieces) -> (usize, usize) {
        CapturedPieces::ORDER
            .into_iter()
            .fold((0, 0), |(both, all), role| {
                let (one, other) = (self.of(role), other.of(role));
                (both + one.min(other), all + one.max(other))
            })
    }
}

impl FromIterator<Role> for CapturedPieces {
    fn from_iter<I: IntoIterator<Item = Role>>(roles: I) -> CapturedPieces {
        let mut captured = CapturedPieces::default();
        for role in roles {
            let count = captured.0.get_mut(role);
            *count = count.saturating_add(1);
        }
        captured
    }
}

impl fmt::Display for CapturedPieces {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for role in CapturedPieces::ORDER {
            for _ in 0..self.of(role) {
                write!(f, "{}", role.upper_char())?;
            }
        }
        Ok(())
    }
}

/// A letter that names no piece that can be taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{0}' names no piece that can be taken: write Q, R, B, N and P, as in NPP")]
pub struct ParseCapturedError(char);

impl FromStr for CapturedPieces {
    type Err = ParseCapturedError;

    fn from_str(text: &str) -> Result<CapturedPieces, ParseCapturedError> {
        let role = |letter: char| {
            Role::from_char(letter.to_ascii_lowercase())
                .filter(|role| *role != Role::King)
                .ok_or(ParseCapturedError(letter))
        };
        text.chars().map(role).collect()
    }
}
