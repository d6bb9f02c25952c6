//! A side's pieces that have left the board.

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::super::json::text;
use super::super::{Bearing, Choice, Form, Journey, LineKind, Reply, Scene, Secret, Tally, Truth};
use crate::game::TrackedPiece;

/// Asks for a side's pieces that have been taken since the start of the line, each by the role that it
/// had there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Taken {
    /// The side.
    #[serde(with = "text")]
    pub color: Color,
}

/// The ways of the pieces that were taken, in the order in which they went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakenWhy {
    /// Their ways.
    pub pieces: Vec<Journey>,
}

impl Taken {
    fn pieces(self, scene: Scene<'_>) -> impl Iterator<Item = (usize, &TrackedPiece)> {
        let pieces = scene.line().roster().pieces().iter();
        pieces
            .filter(move |piece| piece.piece.color == self.color)
            .filter_map(|piece| Some((piece.taken_by?, piece)))
            .filter(move |(ply, _)| *ply < scene.plies())
    }
}

impl LineKind for Taken {
    const FORM: Form = Form::Taken;

    type Why = TakenWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Taken {
            pieces: self
                .pieces(scene)
                .map(|(_, piece)| piece.piece.role)
                .collect(),
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> TakenWhy {
        let mut pieces: Vec<(usize, &TrackedPiece)> = self.pieces(scene).collect();
        pieces.sort_by_key(|(ply, _)| *ply);
        TakenWhy {
            pieces: pieces
                .into_iter()
                .map(|(_, piece)| Journey::of(scene, piece))
                .collect(),
        }
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.material = Bearing::All;
        secret.score = Bearing::Some;
    }

    /// A side, four times in five one that has lost pieces, and not only to the move that was spoken last.
    fn draw(choice: &mut Choice<'_>) -> Option<Taken> {
        let scene = choice.scene;
        let lost = |color: Color, plies: usize| {
            let captures = scene.played()[..plies].iter();
            { captures }.any(|ply| ply.side() != color && ply.mv.is_capture())
        };
        let before = scene.plies().saturating_sub(1);
        let sides = Color::ALL.into_iter();
        let (hot, cold): (Vec<Color>, Vec<Color>) = sides
            .filter(|color| !choice.strict || lost(*color, before) == lost(*color, scene.plies()))
            .partition(|color| lost(*color, scene.plies()));
        choice.rather(&hot, &cold).map(|color| Taken { color })
    }
}
