//! Where the piece that stood on a square at the start of the line stands now.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Square};

use super::super::json::text;
use super::super::{
    Bearing, Choice, Form, Is, Journey, LineKind, Reply, Scene, Secret, Tally, Truth,
};
use crate::game::TrackedPiece;
use crate::reply::{Unread, still_there};

/// Asks where a piece stands now. It is followed through castling and promotion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Whereabouts {
    /// The square where it stood at the start of the line.
    #[serde(rename = "man", with = "text")]
    pub piece: Square,
}

impl LineKind for Whereabouts {
    const FORM: Form = Form::SquareOrGone;

    /// The piece's whole way; `None` where no piece stood there.
    type Why = Option<Journey>;

    fn truth(self, scene: Scene<'_>) -> Truth {
        match self
            .piece(scene)
            .and_then(|piece| piece.square(scene.plies()))
        {
            Some(square) => Truth::Square { square },
            None => Truth::Gone { gone: Is },
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> Option<Journey> {
        self.piece(scene).map(|piece| Journey::of(scene, piece))
    }

    fn read(self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        if still_there(text) {
            return Ok(Reply::Square(self.piece));
        }
        Whereabouts::FORM.read_in(text, scene.position(), scene.line().start().mode())
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.line().roster().piece(self.piece)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.material = Bearing::Some;
        secret.score = Bearing::Some;
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Whereabouts> {
        let plies = choice.scene.plies();
        let (mut hot, mut cold) = (Bitboard::EMPTY, Bitboard::EMPTY);
        for piece in choice.scene.line().roster().pieces() {
            let last_step = piece.steps(plies).last().map(|step| step.ply);
            let taken = piece.taken_by.filter(|ply| *ply < plies);
            let changed = last_step.max(taken);
            if choice.strict && changed.is_some() && changed == plies.checked_sub(1) {
                continue;
            }
            match changed {
                Some(ply) if ply >= choice.since => hot.add(piece.home),
                _ => cold.add(piece.home),
            }
        }
        choice.pick(hot, cold).map(|piece| Whereabouts { piece })
    }
}
