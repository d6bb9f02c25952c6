//! Whether the side to move is in check, and from where.

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::super::{Scene, Tally, Truth};
use super::AttackersWhy;

/// Asks for the squares of the men that give check; none when there is no check (FIDE 3.9.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Check {}

impl Check {
    pub(super) fn truth(scene: Scene<'_>) -> Truth {
        Truth::squares(scene.position().checkers())
    }

    pub(super) fn why(scene: Scene<'_>, tally: &Tally) -> AttackersWhy {
        let side = scene.position().turn();
        let king = scene.board().king_of(side).expect("each side has its king");
        AttackersWhy::new(scene.board(), !side, king, tally)
    }
}
