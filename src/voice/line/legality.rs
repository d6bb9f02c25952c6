//! Whether a move is legal, where a piece can go and who may still castle, in words.

use shakmaty::{Bitboard, CastlingSide, Color, Piece, Position, Rank, Role, Square};

use crate::board::Pair;
use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{
    Attempt, Legality, LegalityWhy, Moves, MovesWhy, Reason, Rights, RightsWhy, Truth,
};
use crate::rules::pin;
use crate::voice::movement::leads_nowhere;
use crate::voice::naming::{
    groups, list, move_of, none_of, piece_on, role, sentence, side, squares, squares_of, stands_on,
    wing,
};
use crate::voice::words::LineWords;

use super::attacks::{lines, way_free};
use super::illegal::{clause, loss};

impl LineWords for Legality {
    fn ask(self, stand: &Stand) -> String {
        let (turn, named) = (side(stand.turn), squares_of(self.attempt));
        let comma = self.attempt.promotion.map_or("", |_| ",");
        // Said at every move, or the sentence itself would tell that this one is castling.
        let castling = if stand.chess960 {
            " Castling is named as the king's move onto its own rook."
        } else {
            ""
        };
        format!("{turn} to move: is the move {named}{comma} legal now?{castling}")
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Legal { .. } => "The move is legal.".to_owned(),
            _ => "The move is not legal.".to_owned(),
        }
    }

    fn explain(why: &LegalityWhy) -> Vec<String> {
        let stands = why.piece.map(|piece| stands_on(piece, why.attempt.from));
        let reason = clause(why).or_else(|| Some(legal(why, why.piece?)));
        let reason = reason.map(|reason| sentence(&reason));
        stands.into_iter().chain(reason).collect()
    }
}

/// Says what a legal move does and that nothing forbids it.
fn legal(why: &LegalityWhy, piece: Piece) -> String {
    let Attempt { from, to, .. } = why.attempt;
    let own_rook = why.target == Some(Role::Rook.of(piece.color));
    if piece.role == Role::King && (own_rook || from.distance(to) > 1) {
        let wing = wing(CastlingSide::from_king_side(to > from));
        return format!(
            "the right to castle {wing} is still there, the way is clear, and no enemy piece attacks \
             the king's way"
        );
    }
    let pair = Pair::new(from, to).into_iter();
    let mut way: Vec<Square> = pair.flat_map(Pair::between).collect();
    match (why.target, piece.role) {
        (Some(target), _) => {
            let free = way_free(&way).map_or_else(String::new, |free| format!(", as {free}"));
            let target = piece_on(target, to);
            format!("it can take {target}{free}, and its king is safe then")
        }
        (None, Role::Pawn) if from.file() != to.file() => en_passant(to),
        (None, Role::King) => {
            format!("no piece stands on {to}, and no enemy piece attacks it there")
        }
        (None, Role::Knight) => {
            format!("the knight can jump there: no piece stands on {to}, and its king is safe then")
        }
        (None, _) => {
            way.push(to);
            let free = way_free(&way).unwrap_or_default();
            format!("the way is clear: {free}, and its king is safe then")
        }
    }
}

fn en_passant(to: Square) -> String {
    format!("it can take en passant on {to}: the pawn beside it has just made its double step")
}

impl LineWords for Moves {
    fn ask(self, stand: &Stand) -> String {
        let (turn, from) = (side(stand.turn), self.square);
        format!("{turn} to move: to which squares can the piece on {from} legally go?")
    }

    fn tell(self, truth: &Truth) -> String {
        let (from, to) = (self.square, squares(truth.set()));
        format!("The piece on {from} can go to {to}.")
    }

    fn explain(why: &MovesWhy) -> Vec<String> {
        let (from, position) = (why.from, &why.position);
        let (board, turn, checkers) = (position.board(), position.turn(), position.checkers());
        let Some(piece) = board.piece_at(from) else {
            return vec![format!("No piece stands on {from}.")];
        };
        let mut said = vec![stands_on(piece, from)];
        if piece.color != turn {
            let turn = side(turn);
            said.push(format!("It is {turn}'s turn, so it cannot move."));
            return said;
        }
        let pinner = pin(position, from).map(|(pinner, _)| pinner);
        said.extend(pinner.and_then(|square| {
            let pinner = piece_on(board.piece_at(square)?, square);
            Some(format!("It is pinned to its king by {pinner}."))
        }));
        if checkers.any() {
            let is_king = piece.role == Role::King;
            let who = if is_king { "It" } else { "Its king" };
            let from = list(checkers);
            said.push(format!(
                "{who} is in check from {from}, and every move has to stop that."
            ));
        }
        if pinner.is_none() && checkers.is_empty() {
            // A piece that is shut in is told by what stands around it.
            let is_all = why.missed.is_empty() && why.extra.is_empty();
            let told = if is_all { Bitboard::FULL } else { why.missed };
            said.extend(lines(board, from, told, "can take"));
        }
        said.extend(forgotten_easily(why, piece));
        said.extend(grouped(why, piece).iter().map(|group| closed(piece, group)));
        said
    }
}

/// Castling and the double step are forgotten easily.
fn forgotten_easily(why: &MovesWhy, piece: Piece) -> Vec<String> {
    let first = piece.color.relative_rank(Rank::Second);
    let en_passant_on = why.position.legal_ep_square();
    let reminder = |to| match piece.role {
        Role::King if why.from.distance(to) > 1 => Some(format!(
            "The king can also castle, which counts as a move to {to}."
        )),
        Role::Pawn if why.from.rank() == first && why.from.rank().distance(to.rank()) == 2 => Some(
            format!("A pawn that has not moved may go two steps, to {to}."),
        ),
        Role::Pawn if en_passant_on == Some(to) && why.from.file() != to.file() => {
            Some(sentence(&en_passant(to)))
        }
        Role::Pawn if why.from.file() != to.file() => {
            Some(format!("A pawn takes diagonally: it can take on {to}."))
        }
        _ => None,
    };
    why.missed.into_iter().filter_map(reminder).collect()
}

/// Brings together the squares that are closed for the same reason. Why a pawn does not go somewhere
/// differs from square to square.
fn grouped(why: &MovesWhy, piece: Piece) -> Vec<Vec<&LegalityWhy>> {
    let alone = |closed: &LegalityWhy| {
        closed.attempt.to == why.from
            || (piece.role == Role::Pawn && closed.reason() == Some(Reason::NotItsWay))
    };
    groups(&why.extra, |one, other| {
        one.blame == other.blame && !alone(one) && !alone(other)
    })
}

/// Says why a piece cannot go to any of these squares.
fn closed(piece: Piece, group: &[&LegalityWhy]) -> String {
    let (first, several) = (group[0], group.len() > 1);
    let named = none_of(group.iter().map(|closed| closed.attempt.to));
    let reason = match first.reason() {
        Some(Reason::Pinned) => "that leaves the line of the pin".to_owned(),
        // Who gives check has been told.
        Some(Reason::StaysInCheck) => "that does not stop the check".to_owned(),
        Some(Reason::NotItsWay) if several => leads_nowhere(piece.role, "there"),
        // The square has just been named.
        Some(Reason::OwnPieceThere) if !several && first.attempt.to != first.attempt.from => {
            let piece = first.target.map_or("piece", |target| role(target.role));
            format!("its own {piece} stands there")
        }
        Some(Reason::OwnPieceThere) if several => {
            let pieces = group.iter().filter_map(|closed| {
                let (piece, to) = (closed.target?, closed.attempt.to);
                Some(format!("{} on {to}", role(piece.role)))
            });
            return format!("Its own {} are in the way.", list(pieces));
        }
        // Every other reason is the same for all of them.
        _ => clause(first).unwrap_or_default(),
    };
    format!("{named}: {reason}.")
}

impl LineWords for Rights {
    fn ask(self, _: &Stand) -> String {
        let side = side(self.color);
        format!("On which wings may {side} still castle some day? Name short, long, both or none.")
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, wings) = (side(self.color), list(truth.wings().names()));
        if wings.is_empty() {
            return format!("{side} has no right to castle any more.");
        }
        format!("{side} may still castle {wings}.")
    }

    fn explain(why: &RightsWhy) -> Vec<String> {
        match why.wings.as_slice() {
            [(_, held, lost), (_, other, with)] if (held, lost) == (other, with) => {
                vec![right(why.color, None, *held, *lost)]
            }
            wings => {
                let told = |(wing, held, lost): &_| right(why.color, Some(*wing), *held, *lost);
                wings.iter().map(told).collect()
            }
        }
    }
}

/// Tells what became of the right to castle on a wing, or of both rights where it is the same.
fn right(color: Color, on: Option<CastlingSide>, is_held: bool, lost: Option<Ply>) -> String {
    let (right, was, rooks) = match on {
        Some(on) => (
            format!("The right to castle {}", wing(on)),
            "was",
            "that rook has moved",
        ),
        None => (
            "The rights to castle".to_owned(),
            "were",
            "the rooks have moved",
        ),
    };
    match lost {
        Some(ply) => {
            let (number, event) = (move_of(ply.number), loss(color, &ply));
            format!("{right} {was} lost with {number}, when {event}.")
        }
        None if is_held => format!("{right} {was} never lost: neither the king nor {rooks}."),
        None => format!("{right} {was} not there at the start of the line."),
    }
}
