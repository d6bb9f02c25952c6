//! Why a move is illegal, in words: a clause for each reason, the illegal moves of a reply, and a move of one's own.

use shakmaty::{Bitboard, CastlingSide, Color, Rank, Role};

use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{
    Attempt, IllegalWhy, InMind, LegalityWhy, Reason, Refused, Truth, Turn, TurnWhy,
};
use crate::rules::sees;
use crate::voice::movement::{leads_nowhere, not_its_way};
use crate::voice::naming::{
    departed, move_of, piece_named, piece_on, role, side, squares_of, wing,
};
use crate::voice::reply_help::{echo, no_move};
use crate::voice::words::LineWords;

/// How many moves of each list of a reply are told; the truth names all of them.
pub(super) const TOLD: usize = 6;

/// Says why each illegal move of a reply is illegal, of [`TOLD`] at most.
pub(crate) fn refused(moves: &[Refused]) -> impl Iterator<Item = String> {
    moves.iter().take(TOLD).map(|refused| match refused {
        Refused::Impossible(said) => no_move(&echo(&said.word), &said.fault),
        Refused::Illegal(why) => match clause(why) {
            Some(reason) => match castles(why) {
                Some((side, wing)) => format!("{side} cannot castle {wing}: {reason}."),
                None => format!("{} is not legal, because {reason}.", named(why)),
            },
            None => format!("{} is legal.", named(why)),
        },
    })
}

/// Names the move with its piece: "White's knight from f3 to d2".
fn named(why: &LegalityWhy) -> String {
    let squares = squares_of(why.attempt);
    let Some(piece) = why.piece else {
        return format!("The move from {squares}");
    };
    format!("{} from {squares}", piece_named(piece))
}

/// Names the side and the wing of castling that is illegal; `None` for other moves. What blocks a king
/// blocks castling, as its own steps pass no square.
fn castles(why: &LegalityWhy) -> Option<(&'static str, &'static str)> {
    why.piece.filter(|piece| piece.role == Role::King)?;
    let is_castling = matches!(
        why.reason()?,
        Reason::CastlingRightLost
            | Reason::Blocked
            | Reason::CastlingInCheck
            | Reason::CastlingThroughAttack
    );
    is_castling.then(|| (side(why.turn), wing(side_of_castling(why.attempt))))
}

/// Says what forbids a move, as a clause that begins small and ends without a stop; `None` for a legal one.
pub(super) fn clause(why: &LegalityWhy) -> Option<String> {
    let blame = why.blame.as_ref()?;
    let by = blame.by.map(|(square, piece)| piece_on(piece, square));
    let (by, turn) = (by.unwrap_or_default(), side(why.turn));
    Some(match blame.illegal.reason {
        Reason::EmptySquare => {
            let from = why.attempt.from;
            let left = why.left;
            let left = left.map(|left| departed(&left, &piece_named(left.piece), Some(from)));
            left.unwrap_or_else(|| format!("no piece stands on {from}"))
        }
        Reason::WrongSide => format!("it is {turn}'s turn"),
        Reason::CastlingRightLost => right_lost(why, blame.since),
        Reason::Blocked => blocked(why, blame, &by),
        Reason::CastlingInCheck => {
            format!("{by} gives check, and a king does not castle out of check")
        }
        Reason::CastlingThroughAttack => through(why, blame, &by),
        Reason::OwnPieceThere if why.attempt.from == why.attempt.to => {
            "it stands there already".to_owned()
        }
        Reason::OwnPieceThere => {
            let piece = why.target.map_or("piece", |target| role(target.role));
            let way = nowhere(why).map_or_else(String::new, |way| format!(", and {way}"));
            format!("its own {piece} stands on {}{way}", why.attempt.to)
        }
        Reason::EnPassantExpired => {
            let step = blame
                .since
                .map(|ply| format!(" with {}", move_of(ply.number)));
            let step = step.unwrap_or_default();
            format!(
                "it is too late to take en passant: {by} made its double step{step}, and only the very next ply \
                 could take it"
            )
        }
        Reason::NotItsWay => off_its_way(why),
        Reason::Pinned => format!("it shields its king from {by} and has to stay on that line"),
        Reason::UncoversCheck => {
            format!("taking en passant would clear two pieces off the line from {by} to the king")
        }
        Reason::StepsIntoCheck => format!("{by} would attack the king there"),
        Reason::StaysInCheck => {
            format!("{turn} is in check from {by}, and this move does not stop that")
        }
    })
}

/// Says which square of the king's way is attacked.
fn through(why: &LegalityWhy, blame: &IllegalWhy, by: &str) -> String {
    let wing = side_of_castling(why.attempt);
    let arrival = wing.king_to(why.turn);
    match blame.crossing {
        Some(square) if square != arrival => {
            format!("{by} attacks {square}, which the king would cross in castling")
        }
        _ => format!("{by} would attack the king on {arrival}"),
    }
}

fn side_of_castling(attempt: Attempt) -> CastlingSide {
    CastlingSide::from_king_side(attempt.to > attempt.from)
}

fn right_lost(why: &LegalityWhy, since: Option<Ply>) -> String {
    let wing = wing(side_of_castling(why.attempt));
    match since {
        Some(ply) => {
            let (number, loss) = (move_of(ply.number), loss(why.turn, &ply));
            format!("the right to castle {wing} was lost with {number}, when {loss}")
        }
        None => format!("there was no such right to castle {wing} at the start of the line"),
    }
}

/// Tells what happened on the ply that cost the right to castle.
pub(super) fn loss(owner: Color, ply: &Ply) -> String {
    let piece = ply.piece();
    if ply.mv.is_castle() {
        "the king castled".to_owned()
    } else if owner == piece.color {
        format!("the {} left {}", role(piece.role), ply.from())
    } else {
        format!("{} took the rook on {}", piece_named(piece), ply.to())
    }
}

fn blocked(why: &LegalityWhy, blame: &IllegalWhy, by: &str) -> String {
    let Attempt { from, to, .. } = why.attempt;
    match why.piece.map(|piece| piece.role) {
        Some(Role::King) => format!("{by} stands in the way of castling"),
        Some(Role::Pawn) if from.file() == to.file() && blame.illegal.by == Some(to) => {
            format!("{by} is in its way, and a pawn does not take straight ahead")
        }
        _ => format!("{by} stands in the way"),
    }
}

/// Says that no way of the piece leads to the square that was named, whatever stands there; `None` where one does.
fn nowhere(why: &LegalityWhy) -> Option<String> {
    let Attempt { from, to, .. } = why.attempt;
    let is_of_way = matches!(why.reason()?, Reason::OwnPieceThere | Reason::NotItsWay);
    let piece = why.piece.filter(|_| is_of_way && from != to)?;
    (!sees(piece, from, to, Bitboard::EMPTY)).then(|| match piece.role {
        Role::Pawn => off_its_way(why),
        role => leads_nowhere(role, "there"),
    })
}

fn off_its_way(why: &LegalityWhy) -> String {
    let Attempt { from, to, .. } = why.attempt;
    let Some(piece) = why.piece else {
        return format!("no piece moves like that, from {from} to {to}");
    };
    let on_last_rank = to.rank() == piece.color.relative_rank(Rank::Eighth);
    match (piece.role, why.attempt.promotion) {
        (Role::Pawn, Some(Role::Pawn | Role::King)) => {
            "a pawn becomes a queen, rook, bishop or knight".to_owned()
        }
        (Role::Pawn, Some(_)) if !on_last_rank => {
            format!("a pawn becomes another piece only on its last rank, not on {to}")
        }
        (Role::Pawn, None)
            if on_last_rank
                && from.rank().distance(to.rank()) == 1
                && (from.file() == to.file() || why.target.is_some()) =>
        {
            format!("a pawn that goes to {to} has to become another piece")
        }
        (Role::Pawn, _) | (_, None) => not_its_way(piece, from, to),
        (_, Some(_)) => "only a pawn becomes another piece".to_owned(),
    }
}

impl LineWords for Turn {
    fn ask(self, stand: &Stand) -> String {
        format!("{} to move: which move?", side(stand.turn))
    }

    fn tell(self, _: &Truth) -> String {
        "Any legal move is right.".to_owned()
    }

    fn explain(why: &TurnWhy) -> Vec<String> {
        let refused = refused(why.refused.as_slice());
        refused.chain(why.in_mind.as_ref().map(in_mind)).collect()
    }
}

/// Names what the learner seems to have in mind.
fn in_mind(in_mind: &InMind) -> String {
    match in_mind {
        InMind::Stood {
            piece,
            square,
            until,
        } => {
            let (role, number) = (role(piece.role), move_of(until.number));
            let left = if until.side() == piece.color {
                "where it stood until"
            } else {
                "where it was taken with"
            };
            format!("You may have your {role} on {square}, {left} {number}.")
        }
        InMind::WasLegal(ply) => {
            let number = move_of(ply.number);
            format!("It was last possible at {number}.")
        }
    }
}
