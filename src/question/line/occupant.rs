//! What stands on a square.

use serde::{Deserialize, Serialize};
use shakmaty::{Piece, Square};

use super::super::json::text;
use super::super::{
    Bearing, Choice, Departure, Form, Journey, LineKind, Reply, Scene, Secret, Tally, Truth,
};
use crate::game::TrackedPiece;

/// Asks what stands on a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Occupant {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

/// What there is to know about a square's pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// A piece stands there, and this is how it came.
    Piece(Journey),
    /// It is empty since a piece left it.
    Left(Departure),
    /// No piece ever stood there in this line.
    NeverHeld,
}

impl Found {
    /// Looks at a square in a scene.
    #[must_use]
    pub fn on(scene: Scene<'_>, square: Square) -> Found {
        let left = || Departure::from(scene, square).map_or(Found::NeverHeld, Found::Left);
        Journey::to(scene, square).map_or_else(left, Found::Piece)
    }

    /// Returns the piece, if one stands there.
    #[must_use]
    pub fn piece(&self) -> Option<Piece> {
        match self {
            Found::Piece(journey) => Some(journey.piece_now()),
            Found::Left(_) | Found::NeverHeld => None,
        }
    }
}

impl LineKind for Occupant {
    const FORM: Form = Form::Piece;

    type Why = Found;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Piece {
            piece: scene.board().piece_at(self.square),
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> Found {
        Found::on(scene, self.square)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.names(self.square);
        secret.score = Bearing::Some;
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Occupant> {
        let hot = choice.squares & !choice.spoken;
        let cold = choice.scene.board().occupied() & !choice.squares & !choice.spoken;
        let square = choice.pick(hot, cold)?;
        Some(Occupant { square })
    }
}
