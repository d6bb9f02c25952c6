//! Every piece's square.

use serde::{Deserialize, Serialize};
use shakmaty::{Board, Piece, Square};

use super::super::{Choice, Form, Journey, LineKind, Reply, Scene, Tally, Truth};
use super::Found;

/// Asks for every piece's square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rebuild {}

/// What is wrong with a placement, square by square.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RebuildWhy {
    /// How many pieces were placed right.
    pub right: usize,
    /// The ways of the pieces that were not placed.
    pub missing: Vec<Journey>,
    /// The pieces that were put on empty squares, and what there is to know about those squares.
    pub extra: Vec<(Square, Piece, Found)>,
    /// The pieces that were put where another stands, and that one's way.
    pub wrong_piece: Vec<(Square, Piece, Journey)>,
}

impl LineKind for Rebuild {
    const FORM: Form = Form::Placement;

    type Why = RebuildWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Placement(scene.board().clone())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, reply: Option<&Reply>) -> RebuildWhy {
        let nothing = Board::empty();
        let said = match reply {
            Some(Reply::Placement(board)) => board,
            _ => &nothing,
        };
        let extra = tally.extra.into_iter();
        let wrong = tally.wrong_piece.into_iter();
        RebuildWhy {
            right: tally.hit.count(),
            missing: tally
                .missed
                .into_iter()
                .filter_map(|square| Journey::to(scene, square))
                .collect(),
            extra: extra
                .filter_map(|at| Some((at, said.piece_at(at)?, Found::on(scene, at))))
                .collect(),
            wrong_piece: wrong
                .filter_map(|at| Some((at, said.piece_at(at)?, Journey::to(scene, at)?)))
                .collect(),
        }
    }

    fn draw(_: &mut Choice<'_>) -> Option<Rebuild> {
        Some(Rebuild {})
    }
}
