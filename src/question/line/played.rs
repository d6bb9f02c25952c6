//! The move played at a given move number.

use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};
use shakmaty::{Chess, Color};

use super::super::json::side;
use super::super::{Attempt, Reply, Scene, Truth};
use super::Refused;
use crate::game::{MoveNumber, Ply};

/// Asks which move a side played at a move number; to be asked only of moves that have been played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Played {
    /// The side.
    #[serde(with = "side")]
    pub color: Color,
    /// The move number.
    pub number: NonZeroU32,
}

/// The move, and what was said instead, if it cannot be played there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlayedWhy {
    /// The move.
    pub ply: Ply,
    /// The illegal move.
    pub refused: Option<Refused>,
}

impl Played {
    /// Asks for the move of a ply.
    #[must_use]
    pub const fn at(number: MoveNumber) -> Played {
        Played {
            color: number.side,
            number: number.number,
        }
    }

    fn index(self, scene: Scene<'_>) -> usize {
        let asked = |ply: &Ply| Played::at(ply.number) == self;
        let plies = scene.played().iter();
        { plies }
            .position(asked)
            .expect("this move has been played")
    }

    /// Returns the position in which the move was played.
    pub(super) fn before(self, scene: Scene<'_>) -> &Chess {
        scene.line().position(self.index(scene))
    }

    pub(super) fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Move {
            attempt: Attempt::of(self.ply(scene).mv, scene.line().start().mode()),
        }
    }

    pub(super) fn why(self, scene: Scene<'_>, reply: Option<&Reply>) -> PlayedWhy {
        let before = Scene::new(scene.line(), self.index(scene));
        PlayedWhy {
            ply: self.ply(scene),
            refused: Refused::all(before, reply).pop(),
        }
    }

    fn ply(self, scene: Scene<'_>) -> Ply {
        scene.played()[self.index(scene)]
    }
}
