//! What cost most in a game, asked afterwards.

use std::rc::Rc;

use shakmaty::{Color, Move, Position};

use crate::exercise::opponent::{REVIEW, best_move_within};
use crate::exercise::past::Place;
use crate::game::{Line, Ply};
use crate::question::{Checks, Exchange, Hanging, LineQuestion, Mate, Moves, Truth};

/// So many moves are looked at again.
const MOST: usize = 3;
/// A move that cost less, in hundredths of a pawn, is not worth it.
const LEAST: i32 = 100;
/// Beyond this, in hundredths of a pawn, nothing more is lost.
const LOST: i32 = 1_000;

/// A move of the learner's that cost much.
#[derive(Clone, Debug)]
pub struct Costly {
    /// The move.
    pub ply: Ply,
    /// What it cost by the program's own search, in hundredths of a pawn.
    pub cost: i32,
    /// What would have been better.
    pub better: Ply,
    /// The opponent's best answer.
    pub answer: Ply,
    /// The plies up to the move, itself included.
    pub(super) plies: usize,
}

impl Costly {
    /// Puts together what is known of a move that cost much, behind which so many plies were played.
    pub const fn new(ply: Ply, cost: i32, better: Ply, answer: Ply, plies: usize) -> Costly {
        Costly {
            ply,
            cost,
            better,
            answer,
            plies,
        }
    }

    /// Finds the moves of a side that cost most, in the order of the game.
    pub(super) fn of(line: &Line, first: usize, learner: Color) -> Vec<Costly> {
        let rated: Vec<Option<(Move, i32)>> = (first..=line.len())
            .map(|plies| {
                let (position, before) = (line.position(plies), line.positions_before(plies));
                best_move_within(position, before, REVIEW)
            })
            .collect();
        let mut found: Vec<Costly> = (first..line.len())
            .filter(|plies| line.plies()[*plies].side() == learner)
            .filter_map(|plies| {
                let (better, before) = rated[plies - first]?;
                let (answer, after) = rated[plies + 1 - first]?;
                let cost = before.clamp(-LOST, LOST) + after.clamp(-LOST, LOST);
                let ply = line.plies()[plies];
                (cost >= LEAST && better != ply.mv).then(|| {
                    let better = Ply::new(line.position(plies), better);
                    let answer = Ply::new(line.position(plies + 1), answer);
                    Costly::new(ply, cost, better, answer, plies + 1)
                })
            })
            .collect();
        found.sort_by_key(|costly| -costly.cost);
        found.truncate(MOST);
        found.sort_by_key(|costly| costly.plies);
        found
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
