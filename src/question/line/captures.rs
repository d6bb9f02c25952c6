//! Every legal capture.

use serde::{Deserialize, Serialize};

use super::super::{Scene, Truth};
use super::checks::legal;

/// Asks for every legal capture, en passant among them; not to be asked where a promotion is among
/// them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Captures {}

impl Captures {
    pub(super) fn truth(scene: Scene<'_>) -> Truth {
        legal(scene, |_, mv| mv.is_capture())
    }
}
