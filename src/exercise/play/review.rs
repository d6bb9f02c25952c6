//! What cost most in a game, asked afterwards.

use std::rc::Rc;

use shakmaty::Position;
use shakmaty::uci::UciMove;

use crate::exercise::past::Place;
use crate::exercise::said::Cost;
use crate::game::{Line, Ply};
use crate::question::{Checks, Exchange, Hanging, LineQuestion, Mate, Moves, Truth};

/// A move of the learner's that cost much.
#[derive(Clone, Debug)]
pub struct Costly {
    /// The move.
    pub ply: Ply,
    /// What it cost by the opponent's search, in hundredths of a pawn.
    pub cost: i32,
    /// What would have been better.
    pub better: Ply,
    /// The opponent's best answer.
    pub answer: Ply,
    /// The plies up to the move, itself included.
    pub(super) plies: usize,
}

impl Costly {
    /// Puts together what a search found in a game; `None` where the game has no such moves.
    pub fn new(line: &Line, found: &Cost) -> Option<Costly> {
        let before = found
            .plies
            .checked_sub(1)
            .filter(|before| *before < line.len())?;
        let ply = |plies, uci: UciMove| {
            let position = line.position(plies);
            uci.to_move(position).ok().map(|mv| Ply::new(position, mv))
        };
        Some(Costly {
            ply: line.plies()[before],
            cost: found.cost,
            better: ply(before, found.better)?,
            answer: ply(found.plies, found.answer)?,
            plies: found.plies,
        })
    }

    /// Asks for what was not seen: what stands against the learner right behind the move.
    pub(super) fn question(&self, place: &Place) -> LineQuestion {
        let scene = place.scene();
        let (answer, learner) = (self.answer.mv, self.ply.side());
        let is_empty = |question: LineQuestion| match question.truth(scene) {
            Truth::Moves(moves) => moves.is_empty(),
            Truth::Squares { squares, .. } => squares.is_empty(),
            Truth::Points(points) => points <= 0,
            _ => true,
        };
        let can_promote = (scene.position().legal_moves().iter()).any(|mv| mv.is_promotion());
        let mut asked = Vec::new();
        if !can_promote {
            asked.push(LineQuestion::Mate(Mate::AT_ONCE));
        }
        asked.push(LineQuestion::Hanging(Hanging { color: learner }));
        if answer.is_capture() && !answer.is_en_passant() {
            let square = answer.to();
            asked.push(LineQuestion::Exchange(Exchange { square }));
        }
        if !can_promote && self.answer.san.suffix.is_some() {
            asked.push(LineQuestion::Checks(Checks {}));
        }
        let found = asked.into_iter().find(|question| !is_empty(*question));
        let square = self.answer.from();
        found.unwrap_or(LineQuestion::Moves(Moves { square }))
    }

    /// Returns the place right behind the move.
    pub(super) fn place(&self, line: &Rc<Line>) -> Place {
        Place::new(line.clone(), self.plies)
    }
}
