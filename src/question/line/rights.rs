//! The wings on which a side may still castle some day.

use serde::{Deserialize, Serialize};
use shakmaty::{CastlingSide, Color};

use super::super::json::side;
use super::super::{Scene, Truth, Wings};
use super::Since;
use super::legality::right_lost;

/// Asks on which wings a side has its right to castle, whether castling is possible now or not (FIDE
/// 3.8.2.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rights {
    /// The side.
    #[serde(with = "side")]
    pub color: Color,
}

/// What became of a side's rights to castle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RightsWhy {
    /// The side.
    pub color: Color,
    /// For each wing, when the right was lost; [`Since::NoMatter`] where it is still there.
    pub wings: [(CastlingSide, Since); 2],
}

impl Rights {
    pub(super) fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Wings {
            wings: Wings::of(scene, self.color),
        }
    }

    pub(super) fn why(self, scene: Scene<'_>) -> RightsWhy {
        let wings = [CastlingSide::KingSide, CastlingSide::QueenSide];
        RightsWhy {
            color: self.color,
            wings: wings.map(|wing| (wing, right_lost(scene, self.color, wing))),
        }
    }
}
