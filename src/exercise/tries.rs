//! A move that is to be said from memory, held against the line that it belongs to.

use shakmaty::{Position, Role, Square};

use crate::game::{Line, MoveNumber, Ply};
use crate::question::{LegalityWhy, Scene};
use crate::reply::{Unread, one_move};
use crate::rules::{MoveFault, squares_meant};

/// A wrong try at a move.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missed {
    /// The words as typed.
    pub said: String,
    /// What is wrong with it.
    pub slip: Slip,
    /// Where the game has this move of this side instead, the nearest place of all.
    pub elsewhere: Option<Elsewhere>,
}

/// What is wrong with a wrong move.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slip {
    /// It is legal and was not played.
    NotPlayed(Ply),
    /// It is illegal, for one reason.
    Illegal(LegalityWhy),
    /// No piece can make it, and several are meant or none.
    NoPiece(MoveFault),
}

/// Where the game has a move that was said at another place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Elsewhere {
    /// It was played before.
    Earlier(MoveNumber),
    /// It comes later.
    Later(MoveNumber),
}

/// Tells what is wrong with `text` as the ply that follows `plies` plies of `line`; `None` where it is that
/// ply.
///
/// # Errors
///
/// [`Unread`] where it cannot be told which move it is, which costs nothing.
pub(super) fn missed(line: &Line, plies: usize, text: &str) -> Result<Option<Missed>, Unread> {
    let position = line.position(plies);
    let ply = line.plies()[plies];
    let (slip, goal) = match one_move(text, position) {
        Ok(mv) if mv == ply.mv => return Ok(None),
        Ok(mv) => {
            let said = Ply::new(position, mv);
            let goal = (mv.role(), mv.promotion(), said.to());
            (Slip::NotPlayed(said), Some(goal))
        }
        Err(Unread::NoMove(word, fault)) if fault.is_illegal() => {
            if let Some(meant) = squares_meant(&word, position) {
                let why = LegalityWhy::new(Scene::new(line, plies), meant);
                let slip = why.blame.is_some().then_some(Slip::Illegal(why));
                let role = position.board().role_at(meant.from);
                let goal = (role.unwrap_or(Role::Pawn), meant.promotion, meant.to);
                (slip.unwrap_or(Slip::NoPiece(fault)), Some(goal))
            } else {
                let goal = match fault {
                    MoveFault::CannotGo { role, to, .. } => Some((role, None, to)),
                    _ => None,
                };
                (Slip::NoPiece(fault), goal)
            }
        }
        Err(unread) => return Err(unread),
    };
    Ok(Some(Missed {
        said: text.to_owned(),
        slip,
        elsewhere: goal.and_then(|goal| elsewhere(line, plies, goal)),
    }))
}

/// The nearest ply of the same side, other than this one, in which such a piece goes to that square and
/// becomes this one.
fn elsewhere(line: &Line, plies: usize, goal: (Role, Option<Role>, Square)) -> Option<Elsewhere> {
    let side = line.plies()[plies].side();
    let same =
        |ply: &Ply| ply.side() == side && (ply.mv.role(), ply.mv.promotion(), ply.to()) == goal;
    let found = line.plies().iter().enumerate();
    let (at, ply) = found
        .filter(|(at, ply)| *at != plies && same(ply))
        .min_by_key(|(at, _)| at.abs_diff(plies))?;
    Some(if at < plies {
        Elsewhere::Earlier(ply.number)
    } else {
        Elsewhere::Later(ply.number)
    })
}
