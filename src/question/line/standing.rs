//! The squares of all of a side's men of one role.

use serde::{Deserialize, Serialize};
use shakmaty::{Color, Role, Square};

use super::super::json::{role, side};
use super::super::{Journey, Scene, Tally, Truth};
use super::Found;

/// Asks for the squares of all of a side's men of one role.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Standing {
    /// The side.
    #[serde(with = "side")]
    pub color: Color,
    /// The role that the men have now.
    #[serde(with = "role")]
    pub role: Role,
}

/// How the men that were forgotten came to their squares, and what is true of the squares named
/// without need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandingWhy {
    /// The ways of the men that were not named.
    pub missed: Vec<Journey>,
    /// What there is on each square that should not have been named.
    pub extra: Vec<(Square, Found)>,
}

impl Standing {
    pub(super) fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(scene.board().by_piece(self.role.of(self.color)))
    }

    pub(super) fn why(scene: Scene<'_>, tally: &Tally) -> StandingWhy {
        let missed = tally.missed.into_iter();
        let extra = tally.extra.into_iter();
        StandingWhy {
            missed: missed
                .filter_map(|square| Journey::to(scene, square))
                .collect(),
            extra: extra
                .map(|square| (square, Found::on(scene, square)))
                .collect(),
        }
    }
}
