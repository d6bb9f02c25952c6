//! A try at a move held against the game.

use std::rc::Rc;

use shakmaty::san::SanPlus;
use shakmaty::{Chess, Move, Position, Role, Square};

use super::said::{Elsewhere, Missed, Slip};
use crate::exercise::{Output, Told};
use crate::game::{Line, MoveNumber, Ply};
use crate::question::{Attempt, Legality, LineQuestion, LineWhy, Mark, Scene};
use crate::reply::{Unread, one_move};
use crate::rules::{MoveFault, squares_meant};

/// A move that is to be said from memory.
#[derive(Clone, Debug)]
pub(in crate::exercise) struct Recited {
    pub(super) line: Rc<Line>,
    /// The plies before it.
    pub(super) plies: usize,
    /// Whether the piece that moves is named by itself after a first miss.
    pub(in crate::exercise) hints_by_itself: bool,
}

impl Recited {
    /// Holds what was said against the move.
    pub(in crate::exercise) fn held(&self, text: &str) -> Tried {
        held(&self.line, self.plies, text)
    }

    /// Names the piece that moves; the king in castling.
    pub(in crate::exercise) fn hint(&self) -> Output {
        Output::Told(Told::Hint(self.line.plies()[self.plies].mv.role()))
    }
}

/// What a try at a ply came to.
pub(in crate::exercise) enum Tried {
    /// It is the move.
    Right,
    /// It is a move, and not this one.
    Wrong(Missed),
    /// It cannot be told which move it is: it costs nothing.
    Unread(Unread),
}

/// Holds `text` against the ply that follows `plies` plies of `line`.
pub(super) fn held(line: &Line, plies: usize, text: &str) -> Tried {
    let (position, mode) = (line.position(plies), line.start().mode());
    let ply = line.plies()[plies];
    let missed = |slip, elsewhere| {
        Tried::Wrong(Missed {
            said: text.to_owned(),
            slip,
            elsewhere,
        })
    };
    match one_move(text, position, mode) {
        Ok(mv) if mv == ply.mv => Tried::Right,
        Ok(mv) => {
            let said = named(position, mv, ply.number);
            let way = (mv.role(), mv.promotion());
            let to = said.to();
            missed(Slip::NotPlayed(said), elsewhere(line, plies, way, to))
        }
        Err(Unread::NoMove(word, fault)) if is_told(&fault) => {
            let meant = squares_meant(&word, position, mode);
            let slip = meant
                .and_then(|meant| illegal(Scene::new(line, plies), meant))
                .unwrap_or(Slip::NoMan(fault.clone()));
            let (way, to) = match (&fault, meant) {
                (_, Some(meant)) => {
                    let role = position.board().role_at(meant.from);
                    ((role.unwrap_or(Role::Pawn), meant.promotion), meant.to)
                }
                (MoveFault::CannotGo { role, to, .. }, None) => ((*role, None), *to),
                (
                    MoveFault::CannotCastle { .. }
                    | MoveFault::NoSuchPiece { .. }
                    | MoveFault::Unreadable
                    | MoveFault::Ambiguous { .. }
                    | MoveFault::NoPromotion { .. }
                    | MoveFault::NeedlessPromotion
                    | MoveFault::OnlyCastling { .. }
                    | MoveFault::Pass,
                    None,
                ) => return missed(slip, None),
            };
            missed(slip, elsewhere(line, plies, way, to))
        }
        Err(unread) => Tried::Unread(unread),
    }
}

/// Tells whether a fault leaves no doubt about what was said: then it is a wrong move.
const fn is_told(fault: &MoveFault) -> bool {
    match fault {
        MoveFault::NoSuchPiece { .. }
        | MoveFault::CannotGo { .. }
        | MoveFault::CannotCastle { .. } => true,
        MoveFault::Unreadable
        | MoveFault::Ambiguous { .. }
        | MoveFault::NoPromotion { .. }
        | MoveFault::NeedlessPromotion
        | MoveFault::OnlyCastling { .. }
        | MoveFault::Pass => false,
    }
}

fn illegal(scene: Scene<'_>, attempt: Attempt) -> Option<Slip> {
    let question = LineQuestion::Legality(Legality { attempt });
    let mark = Mark::pass(&question.truth(scene));
    match question.why(scene, &mark, None) {
        LineWhy::Legality(why) if why.blame.is_some() => Some(Slip::Illegal(why)),
        _ => None,
    }
}

/// A move of a position with its number and its standard notation.
fn named(position: &Chess, mv: Move, number: MoveNumber) -> Ply {
    Ply {
        mv,
        san: SanPlus::from_move(position.clone(), mv),
        number,
    }
}

/// The nearest ply of the same side, other than this one, in which such a piece goes to that square.
fn elsewhere(
    line: &Line,
    plies: usize,
    way: (Role, Option<Role>),
    to: Square,
) -> Option<Elsewhere> {
    let here = line.plies()[plies];
    let same = |ply: &Ply| {
        ply.side() == here.side() && (ply.mv.role(), ply.mv.promotion()) == way && ply.to() == to
    };
    let found = line.plies().iter().enumerate();
    found
        .filter(|(n, ply)| *n != plies && same(ply))
        .min_by_key(|(n, _)| n.abs_diff(plies))
        .map(|(n, ply)| {
            if n < plies {
                Elsewhere::Earlier(ply.number)
            } else {
                Elsewhere::Later(ply.number)
            }
        })
}
