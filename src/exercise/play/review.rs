//! What cost most in a game, asked afterwards.

use std::rc::Rc;

use shakmaty::san::Suffix;
use shakmaty::uci::UciMove;

use crate::exercise::past::Place;
use crate::exercise::said::Cost;
use crate::game::{Line, Ply};
use crate::question::{Captures, Checks, Exchange, Hanging, LineQuestion, Mate, Truth};

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

    /// Asks for what was not seen, and where: what the answer to the move does or, where that is more, what the better
    /// move would have done; `None` where neither takes anything, checks or mates.
    pub(super) fn question(&self, line: &Rc<Line>) -> Option<(LineQuestion, Place)> {
        let (answer, better) = (self.answer, self.better);
        let mates = |ply: Ply| ply.san.suffix == Some(Suffix::Checkmate);
        let checks = |ply: Ply| ply.san.suffix.is_some();
        let (taken, untaken) = (answer.mv.capture(), better.mv.capture());
        let hanging = Hanging {
            color: self.ply.side(),
        };
        let exchange = Exchange {
            square: answer.to(),
        };
        // Each with how many plies before the answer it is asked.
        let asked = [
            (mates(answer), 0, LineQuestion::Mate(Mate::AT_ONCE)),
            (mates(better), 1, LineQuestion::Mate(Mate::AT_ONCE)),
            (untaken > taken, 1, LineQuestion::Captures(Captures {})),
            (taken.is_some(), 0, LineQuestion::Hanging(hanging)),
            (taken.is_some(), 0, LineQuestion::Exchange(exchange)),
            (untaken.is_some(), 1, LineQuestion::Captures(Captures {})),
            (checks(answer), 0, LineQuestion::Checks(Checks {})),
            (checks(better), 1, LineQuestion::Checks(Checks {})),
        ];
        let asked = asked.into_iter().filter(|(is_fit, ..)| *is_fit);
        let mut asked = asked
            .map(|(_, back, question)| (question, Place::new(line.clone(), self.plies - back)));
        asked.find(|(question, place)| match question.truth(place.scene()) {
            Truth::Moves(moves) => moves.iter().all(|mv| mv.promotion.is_none()),
            Truth::Squares { squares, .. } => squares.contains(answer.to()),
            Truth::Points(points) => points > 0,
            _ => false,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Start;

    #[test]
    fn what_is_asked_is_what_the_answer_or_the_better_move_does() {
        for (moves, better, answer, asked) in [
            ("e4 e5 Nf3 Nc6 Nxe5", "f1b5", "c6e5", "hanging after 5"),
            (
                "e4 e5 f3 d6 Qe2 Nf6 Qa6",
                "g1h3",
                "b7a6",
                "exchange after 7",
            ),
            ("e4 e5 Nf3 Qg5 Nc3", "f3g5", "g5g2", "captures after 4"),
            ("e4 d5 Nf3", "e4d5", "g8f6", "captures after 2"),
            ("f3 e5 g4", "e2e4", "d8h4", "mate after 3"),
            ("e4 e5 Bc4 Nc6 Qh5 Nf6 d3", "h5f7", "f6h5", "mate after 6"),
            ("e4 e5 d4 exd4 f3", "g1f3", "d8h4", "checks after 5"),
            ("e4 e5 d4 a6 Qh5", "d1e2", "g8f6", "nothing"),
            ("e4 d5 e5 f6 Bd3 a6 Nf3", "d3h7", "a6a5", "captures after 6"),
        ] {
            let mut line = Line::new(Start::standard());
            for san in moves.split(' ') {
                let san: shakmaty::san::San = san.parse().unwrap();
                line.push(san.to_move(line.end()).unwrap()).unwrap();
            }
            let found = Cost {
                board: 0,
                plies: line.len(),
                cost: 300,
                better: better.parse().unwrap(),
                answer: answer.parse().unwrap(),
            };
            let costly = Costly::new(&line, &found).unwrap();
            let question = costly.question(&Rc::new(line));
            let said = question
                .map(|(question, place)| format!("{} after {}", question.kind(), place.plies));
            assert_eq!(said.as_deref().unwrap_or("nothing"), asked, "{moves}");
        }
    }
}
