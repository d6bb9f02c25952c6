//! The learner's own move in a game against an opponent.

use serde::{Deserialize, Serialize};
use shakmaty::{Piece, Position, Role, Square};

use super::super::{
    Always, Attempt, Choice, LineKind, MoveSaid, Reason, Reply, Scene, Tally, Truth,
};
use super::Refused;
use crate::game::Ply;
use crate::rules::{LetterSet, Said, Wording, sees, wording};

/// Asks for a move of one's own; any legal one is right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Turn {}

/// Why a move cannot be played, and what seems to be behind it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TurnWhy {
    /// The illegal move; `None` where it is legal, or none was named.
    pub refused: Option<Refused>,
    /// What the learner seems to have in mind.
    pub in_mind: Option<InMind>,
}

/// What a learner who names an illegal move seems to have in mind: the board as it was before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InMind {
    /// A piece stands where it does not stand any more.
    Stood {
        /// The piece.
        piece: Piece,
        /// Where it stood.
        square: Square,
        /// The ply with which it left, or was taken.
        until: Ply,
    },
    /// The move was legal the last time when this ply could be chosen.
    WasLegal(Ply),
}

impl Turn {
    /// Tells whether a reply names a legal move.
    pub(crate) fn is_legal(scene: Scene<'_>, reply: &Reply) -> bool {
        let said = reply.moves().first().and_then(MoveSaid::squares);
        said.is_some_and(|attempt| scene.judge().illegal(attempt).is_none())
    }
}

impl LineKind for Turn {
    type Why = TurnWhy;

    fn truth(self, _: Scene<'_>) -> Truth {
        Truth::Legal(Always)
    }

    fn fits(self, _: Scene<'_>) -> bool {
        false
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> TurnWhy {
        let refused = Refused::all(scene, reply).pop();
        TurnWhy {
            in_mind: refused.as_ref().and_then(|refused| in_mind(scene, refused)),
            refused,
        }
    }

    /// Nobody but an opponent brings one about.
    fn draw(_: &mut Choice<'_>) -> Option<Turn> {
        None
    }
}

/// Looks for the latest time at which the move would have been possible.
fn in_mind(scene: Scene<'_>, refused: &Refused) -> Option<InMind> {
    let (attempt, meant) = match refused {
        Refused::Illegal(why) => {
            let Attempt { from, to, .. } = why.attempt;
            let role = why.piece.map(|piece| piece.role);
            // A square where nothing stands is named for the piece that was there.
            let from = Some(from).filter(|_| role.is_none());
            let meant = Said {
                role,
                file: from.map(Square::file),
                rank: from.map(Square::rank),
                to,
                capture: false,
                promotion: None,
            };
            match why.reason()? {
                // The reason itself says what was, or nothing was ever otherwise.
                Reason::CastlingRightLost
                | Reason::CastlingInCheck
                | Reason::CastlingThroughAttack
                | Reason::EnPassantExpired
                | Reason::WrongSide => return None,
                Reason::Pinned | Reason::StepsIntoCheck | Reason::StaysInCheck => {
                    (Some(why.attempt), None)
                }
                _ => (Some(why.attempt), Some(meant)),
            }
        }
        Refused::Impossible(said) => match wording(&said.word, LetterSet::ENGLISH)? {
            Wording::Piece(said) => (None, Some(said)),
            Wording::Castle(_) | Wording::Null => return None,
        },
    };
    let was_legal = attempt.and_then(|attempt| {
        let piece = |then: Scene<'_>| then.board().piece_at(attempt.from);
        let is_legal = |plies: &usize| {
            let then = Scene::new(scene.line(), *plies);
            // Another piece that stood there before was not meant.
            let is_meant = piece(scene).is_none_or(|meant| piece(then) == Some(meant));
            is_meant && then.judge().illegal(attempt).is_none()
        };
        let plies = earlier(scene).find(is_legal)?;
        Some((plies, InMind::WasLegal(scene.played()[plies])))
    });
    let stood = meant.and_then(|meant| stood(scene, meant));
    let found = was_legal.into_iter().chain(stood);
    Some(found.max_by_key(|(plies, _)| *plies)?.1)
}

/// The plies after which the same side was to move, the latest first.
fn earlier(scene: Scene<'_>) -> impl Iterator<Item = usize> {
    (0..scene.plies()).rev().skip(1).step_by(2)
}

/// Looks for a piece that could make the move if it still stood where it stood last.
fn stood(scene: Scene<'_>, meant: Said) -> Option<(usize, InMind)> {
    let side = scene.position().turn();
    if scene.board().by_color(side).contains(meant.to) {
        return None;
    }
    let pieces = scene.line().roster().pieces().iter();
    let own = pieces.filter(|tracked| tracked.piece.color == side);
    let last = own.filter_map(|tracked| {
        let steps = tracked.steps(scene.plies());
        let now = tracked.square(scene.plies());
        let (ply, square) = match (now, steps) {
            (None, _) => (
                tracked.taken_by?,
                steps.last().map_or(tracked.home, |step| step.to),
            ),
            (_, [.., before, last]) => (last.ply, before.to),
            (_, [last]) => (last.ply, tracked.home),
            (_, []) => return None,
        };
        let piece = scene.line().position(ply).board().piece_at(square)?;
        let occupied = scene.board().occupied();
        let occupied = now.map_or(occupied, |now| occupied.without(now));
        let is_meant = meant.role.is_none_or(|role| role == piece.role) && meant.may_leave(square);
        let takes = piece.role == Role::Pawn && square.file() != meant.to.file();
        let goes = sees(piece, square, meant.to, occupied)
            && (!takes || scene.board().by_color(!side).contains(meant.to));
        let found = InMind::Stood {
            piece,
            square,
            until: scene.played()[ply],
        };
        (is_meant && goes && now != Some(square)).then_some((ply, found))
    });
    last.max_by_key(|(ply, _)| *ply)
}
