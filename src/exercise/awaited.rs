//! What is awaited of an opponent: a move, a word on a draw that is offered, or how the games look afterwards.

use std::convert::Infallible;
use std::rc::Rc;

use shakmaty::{Chess, Color, Move, Position};

use super::opponent::{Opponent, REVIEW, best_move, best_move_within, is_lost};
use super::past::Place;
use super::said::{Cost, Countermove};
use crate::game::{Line, Start};

/// What is awaited of an opponent.
#[derive(Clone, Debug)]
pub struct Awaited {
    pub(super) place: Place,
    pub(super) wanted: Wanted,
}

/// What it is to say.
#[derive(Clone, Debug)]
pub(super) enum Wanted {
    /// A move.
    Move(Opponent),
    /// A word on the draw that is offered.
    Word,
    /// Which moves of the learner's cost most, in these games.
    Review(Vec<Played>),
}

/// A game that is over.
#[derive(Clone, Debug)]
pub(super) struct Played {
    pub(super) line: Rc<Line>,
    /// After how many plies it began.
    pub(super) begins: usize,
    pub(super) learner: Color,
}

/// So many moves are looked at again.
const MOST: usize = 3;
/// A move that cost less, in hundredths of a pawn, is not worth it.
const LEAST: i32 = 100;
/// Beyond this, in hundredths of a pawn, nothing more is lost.
const LOST: i32 = 1_000;

impl Awaited {
    /// Returns the start of the game, its moves, and the position that they lead to, where a move is awaited
    /// that another opponent can make; `None` where this one decides by itself.
    pub fn turn(&self) -> Option<(&Start, Vec<Move>, &Chess)> {
        if !matches!(self.wanted, Wanted::Move(_)) || self.resigns() {
            return None;
        }
        let moves = self.place.played().iter().map(|ply| ply.mv).collect();
        let position = self.place.scene().position();
        Some((self.place.line.start(), moves, position))
    }

    /// Decides as the program's own opponent does: it takes a draw where it stands no better.
    pub fn decided(&self) -> Countermove {
        let (position, before) = (self.place.scene().position(), self.before());
        match &self.wanted {
            Wanted::Move(opponent) => match opponent.choose(position, before) {
                Some(mv) if !self.resigns() => self.moves(mv),
                _ => Countermove::Resigns,
            },
            Wanted::Word => match best_move(position, before) {
                Some((_, score)) if score < 0 => Countermove::Declines,
                _ => Countermove::Accepts,
            },
            Wanted::Review(games) => {
                let judged = reviewed(games, |line, plies| {
                    let before = line.positions_before(plies);
                    let best = best_move_within(line.position(plies), before, REVIEW);
                    Ok::<_, Infallible>(best)
                });
                let Ok(reviewed) = judged;
                reviewed
            }
        }
    }

    /// Lets somebody else judge the positions of the games that are looked at again: the best move after so many
    /// plies, and what it is worth to the side to move, in hundredths of a pawn. `None` where something else is
    /// awaited.
    pub fn review<E>(
        &self,
        mut judge: impl FnMut(&Line, usize) -> Result<(Move, i32), E>,
    ) -> Option<Result<Countermove, E>> {
        match &self.wanted {
            Wanted::Review(games) => Some(reviewed(games, |line, plies| {
                let is_over = line.position(plies).is_game_over();
                (!is_over).then(|| judge(line, plies)).transpose()
            })),
            Wanted::Move(_) | Wanted::Word => None,
        }
    }

    /// Says a move as it goes into the journal.
    pub fn moves(&self, mv: Move) -> Countermove {
        Countermove::Move(mv.to_uci(self.place.line.start().mode()))
    }

    /// Tells whether it is an answer to what is awaited.
    pub(super) fn takes(&self, said: &Countermove) -> bool {
        match (&self.wanted, said) {
            (Wanted::Move(_), Countermove::Move(mv)) => {
                mv.to_move(self.place.scene().position()).is_ok()
            }
            (Wanted::Move(_), Countermove::Resigns)
            | (Wanted::Word, Countermove::Accepts | Countermove::Declines)
            | (Wanted::Review(_), Countermove::Reviewed(_)) => true,
            _ => false,
        }
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

/// Finds the moves of the learner that cost most, game by game.
fn reviewed<E>(
    games: &[Played],
    mut judge: impl FnMut(&Line, usize) -> Result<Option<(Move, i32)>, E>,
) -> Result<Countermove, E> {
    let mut found = Vec::new();
    for (
        board,
        Played {
            line,
            begins,
            learner,
        },
    ) in games.iter().enumerate()
    {
        let rated = (*begins..=line.len()).map(|plies| judge(line, plies));
        let rated = rated.collect::<Result<Vec<_>, E>>()?;
        let uci = |mv: Move| mv.to_uci(line.start().mode());
        let costs = rated
            .windows(2)
            .zip(*begins..)
            .filter_map(|(rated, plies)| {
                let ((better, before), (answer, after)) = (rated[0]?, rated[1]?);
                let ply = line.plies()[plies];
                let cost = before.clamp(-LOST, LOST) + after.clamp(-LOST, LOST);
                (ply.side() == *learner && cost >= LEAST && better != ply.mv).then(|| Cost {
                    board,
                    plies: plies + 1,
                    cost,
                    better: uci(better),
                    answer: uci(answer),
                })
            });
        found.extend(costs);
    }
    found.sort_by_key(|cost| -cost.cost);
    found.truncate(MOST);
    found.sort_by_key(|cost| (cost.board, cost.plies));
    Ok(Countermove::Reviewed(found))
}
