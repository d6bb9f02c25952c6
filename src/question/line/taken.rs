//! A side's men that have left the board.

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::super::json::side;
use super::super::{Journey, Scene, Truth};
use crate::game::Man;

/// Asks for a side's men that have been taken since the start of the line, each by the role that it
/// had there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Taken {
    /// The side.
    #[serde(with = "side")]
    pub color: Color,
}

/// The ways of the men that were taken, in the order in which they went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakenWhy {
    /// Their ways.
    pub men: Vec<Journey>,
}

impl Taken {
    fn men(self, scene: Scene<'_>) -> impl Iterator<Item = (usize, &Man)> {
        let men = scene.line().roster().men().iter();
        men.filter(move |man| man.piece.color == self.color)
            .filter_map(|man| Some((man.taken_by?, man)))
            .filter(move |(ply, _)| *ply < scene.plies())
    }

    pub(super) fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Taken {
            pieces: self.men(scene).map(|(_, man)| man.piece.role).collect(),
        }
    }

    pub(super) fn why(self, scene: Scene<'_>) -> TakenWhy {
        let mut men: Vec<(usize, &Man)> = self.men(scene).collect();
        men.sort_by_key(|(ply, _)| *ply);
        TakenWhy {
            men: men
                .into_iter()
                .map(|(_, man)| Journey::of(scene, man))
                .collect(),
        }
    }
}
