//! One position on its way to the mate.

use std::rc::Rc;

use shakmaty::Position;

use super::super::posed::{AskedQuestion, Here};
use crate::game::{Line, Ply, fen_of};
use crate::question::mating::{best_defence, still_mates};
use crate::question::{Attempt, LineQuestion, Mate, Scene, Truth};

use super::search::Problem;
use super::settings::MatesError;

/// A position, the moves made from it so far, and what is right now. The truth of a mate in several
/// moves takes a search: it is found once for each position.
#[derive(Debug)]
pub(super) struct Attack {
    pub(super) line: Rc<Line>,
    /// The plies that belong to the game.
    pub(super) given: usize,
    question: Mate,
    truth: Truth,
}

/// What a right move leads to.
#[derive(Debug)]
pub(super) enum Then {
    /// The move mates.
    Mated(Ply),
    /// The defence replies, and the attack goes on.
    Defended { mv: Ply, reply: Ply, next: Attack },
}

impl Attack {
    pub(super) fn new(problem: &Problem) -> Result<Attack, MatesError> {
        let line = problem.script.line(0)?;
        let question = Mate {
            within: problem.within,
        };
        let attack = Attack::at(line.len(), Rc::new(line), question);
        match &attack.truth {
            Truth::Moves(moves) if !moves.is_empty() => Ok(attack),
            _ => Err(MatesError::NoMate(fen_of(attack.line.end()))),
        }
    }

    fn at(given: usize, line: Rc<Line>, question: Mate) -> Attack {
        let scene = Scene::new(&line, line.len());
        let truth = LineQuestion::Mate(question).truth(scene);
        Attack {
            line,
            given,
            question,
            truth,
        }
    }

    fn scene(&self) -> Scene<'_> {
        Scene::new(&self.line, self.line.len())
    }

    pub(super) const fn question(&self) -> LineQuestion {
        LineQuestion::Mate(self.question)
    }

    /// Plays a move that mates in time, and the best defence to it; returns the line with both, too.
    ///
    /// # Panics
    ///
    /// When it is no such move.
    pub(super) fn play(&self, attempt: Attempt) -> (Rc<Line>, Then) {
        let mode = self.line.start().mode();
        let mut moves = self.line.end().legal_moves().into_iter();
        let mv = moves
            .find(|mv| Attempt::of(*mv, mode) == attempt)
            .expect("a right move is legal");
        debug_assert!(still_mates(self.line.end(), mv, self.question.within));
        let mut line = Line::clone(&self.line);
        line.push(mv).expect("a right move is legal");
        let mv = line.plies()[line.len() - 1];
        let within = self.question.within.saturating_sub(1);
        let Some(reply) = best_defence(line.end(), within) else {
            return (Rc::new(line), Then::Mated(mv));
        };
        line.push(reply).expect("the search plays legal moves");
        let reply = line.plies()[line.len() - 1];
        let line = Rc::new(line);
        let next = Attack::at(self.given, line.clone(), Mate { within });
        (line, Then::Defended { mv, reply, next })
    }
}

impl AskedQuestion for Rc<Attack> {
    fn here(&self) -> Here<'_> {
        Here::Line(self.question(), self.scene())
    }

    fn truth(&self) -> Truth {
        self.truth.clone()
    }
}
