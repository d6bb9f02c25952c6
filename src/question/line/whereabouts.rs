//! Where the man that stood on a square at the start of the line stands now.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::json::text;
use super::super::{Is, Journey, Scene, Truth};

/// Asks where a man stands now. It is followed through castling and promotion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Whereabouts {
    /// The square where it stood at the start of the line.
    #[serde(with = "text")]
    pub man: Square,
}

impl Whereabouts {
    pub(super) fn truth(self, scene: Scene<'_>) -> Truth {
        let man = scene.line().roster().man(self.man);
        match man.and_then(|man| man.square(scene.plies())) {
            Some(square) => Truth::Square { square },
            None => Truth::Gone { gone: Is },
        }
    }

    /// Retraces the man's whole way; `None` where no man stood there.
    pub(super) fn why(self, scene: Scene<'_>) -> Option<Journey> {
        let man = scene.line().roster().man(self.man)?;
        Some(Journey::of(scene, man))
    }
}
