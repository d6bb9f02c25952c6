//! What is awaited of an opponent: a move, or a word on a draw that is offered.

use shakmaty::{Chess, Move};

use super::opponent::{Opponent, best_move, is_lost};
use super::past::Place;
use super::said::Countermove;
use crate::game::Start;

/// What is awaited of an opponent.
#[derive(Clone, Debug)]
pub struct Awaited {
    pub(super) place: Place,
    pub(super) opponent: Opponent,
    /// Whether a draw is offered; else it is the opponent's turn.
    pub(super) offered: bool,
}

impl Awaited {
    /// Returns the start of the game, its moves, and the position that they lead to, where a move is awaited
    /// that another opponent can make; `None` where this one decides by itself.
    pub fn turn(&self) -> Option<(&Start, Vec<Move>, &Chess)> {
        if self.offered || self.resigns() {
            return None;
        }
        let moves = self.place.played().iter().map(|ply| ply.mv).collect();
        let position = self.place.scene().position();
        Some((self.place.line.start(), moves, position))
    }

    /// Decides as the program's own opponent does: it takes a draw where it stands no better.
    pub fn decided(&self) -> Countermove {
        let (position, before) = (self.place.scene().position(), self.before());
        if self.offered {
            let learner = best_move(position, before);
            return match learner {
                Some((_, score)) if score < 0 => Countermove::Declines,
                _ => Countermove::Accepts,
            };
        }
        let chosen = self.opponent.choose(position, before);
        match chosen.filter(|_| !self.resigns()) {
            Some(mv) => self.moves(mv),
            None => Countermove::Resigns,
        }
    }

    /// Says a move as it goes into the journal.
    pub fn moves(&self, mv: Move) -> Countermove {
        Countermove::Move(mv.to_uci(self.place.line.start().mode()))
    }

    fn resigns(&self) -> bool {
        self.place.plies >= LEAST_TO_RESIGN && is_lost(self.place.scene().position())
    }

    fn before(&self) -> &[Chess] {
        self.place.line.positions_before(self.place.plies)
    }
}

/// An opponent does not resign before so many plies.
const LEAST_TO_RESIGN: usize = 60;
