//! Men by their roles alone: what has been taken from a side.

use std::fmt;
use std::str::FromStr;

use shakmaty::{ByRole, Role};

/// Men counted by their roles; as text, their English letters in the order of their value: `NPP`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Haul(ByRole<u8>);

impl Haul {
    /// The roles in the order in which they are written; a king is never taken.
    pub const ORDER: [Role; 5] = [
        Role::Queen,
        Role::Rook,
        Role::Bishop,
        Role::Knight,
        Role::Pawn,
    ];

    /// Returns how many men of a role there are.
    #[must_use]
    pub fn of(self, role: Role) -> usize {
        usize::from(*self.0.get(role))
    }

    /// Tells whether there is no man at all.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self == Haul::default()
    }

    /// Counts the men that both hold, and those that either holds.
    pub(super) fn shared(self, other: Haul) -> (usize, usize) {
        Haul::ORDER.into_iter().fold((0, 0), |(both, all), role| {
            let (one, other) = (self.of(role), other.of(role));
            (both + one.min(other), all + one.max(other))
        })
    }
}

impl FromIterator<Role> for Haul {
    fn from_iter<I: IntoIterator<Item = Role>>(roles: I) -> Haul {
        let mut haul = Haul::default();
        for role in roles {
            let count = haul.0.get_mut(role);
            *count = count.saturating_add(1);
        }
        haul
    }
}

impl fmt::Display for Haul {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for role in Haul::ORDER {
            for _ in 0..self.of(role) {
                write!(f, "{}", role.upper_char())?;
            }
        }
        Ok(())
    }
}

/// A letter that names no man that can be taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{0}' names no piece that can be taken: write Q, R, B, N and P, as in NPP")]
pub struct NoHaul(char);

impl FromStr for Haul {
    type Err = NoHaul;

    fn from_str(text: &str) -> Result<Haul, NoHaul> {
        let role = |letter: char| {
            Role::from_char(letter.to_ascii_lowercase())
                .filter(|role| *role != Role::King)
                .ok_or(NoHaul(letter))
        };
        text.chars().map(role).collect()
    }
}
