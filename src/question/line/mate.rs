//! A move that mates at once, or that there is none.

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::super::{Scene, Truth};
use super::checks::{after, legal};

/// Asks for a move that mates at once (FIDE 5.1.1); any one of them is right. Not to be asked where a
/// promotion is among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mate {}

impl Mate {
    pub(super) fn truth(scene: Scene<'_>) -> Truth {
        legal(scene, |position, mv| after(position, mv).is_checkmate())
    }
}
