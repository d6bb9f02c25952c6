//! Moves worth judging: half of them legal, and most of the others legal but for one thing.

use shakmaty::{
    Bitboard, Board, CastlingMode, Chess, File, Piece, Position, Rank, Role, Square, attacks,
};

use super::super::{Attempt, Choice, Dice, Judge, Reason, Scene};
use crate::rules::sees;

/// Draws one move to ask about. What may not be asked is left out before one is drawn: if it were refused later, legal
/// moves would be, more often than others.
pub(super) fn draw(choice: &mut Choice<'_>) -> Option<Attempt> {
    let judge = choice.scene.judge();
    let before = choice.before().map(Scene::judge);
    let before = before.filter(|_| choice.strict && !choice.untouched);
    let is_new = |attempt: &Attempt| {
        let before = before.as_ref();
        before.is_none_or(|before| before.illegal(*attempt) != judge.illegal(*attempt))
    };
    if choice.legal {
        let all: Vec<Attempt> = judge.legal().filter(is_new).collect();
        return legal(&all, choice);
    }
    let near = choice.dice.chance(9, 10);
    let miss = near.then(|| near_miss(&judge, is_new, choice)).flatten();
    miss.or_else(|| plain_miss(choice.scene, &judge, choice.dice))
}

/// One of the legal moves, more often than not of a piece that the last plies touched.
fn legal(all: &[Attempt], choice: &mut Choice<'_>) -> Option<Attempt> {
    let touched = all.iter().copied();
    let hot: Vec<Attempt> = touched
        .filter(|attempt| choice.pieces.contains(attempt.from))
        .collect();
    choice.rather(&hot, all)
}

/// An illegal move that is legal but for one thing. First the reason is drawn, so that the rare ones
/// come up, then the move.
fn near_miss(
    judge: &Judge<'_>,
    is_new: impl Fn(&Attempt) -> bool,
    choice: &mut Choice<'_>,
) -> Option<Attempt> {
    let scene = choice.scene;
    let mut misses: Vec<(Reason, Attempt)> = conceivable(scene)
        .into_iter()
        .chain(legal_before(scene))
        .filter_map(|attempt| Some((judge.illegal(attempt)?.reason, attempt)))
        .filter(|(reason, attempt)| is_near(scene, *reason, *attempt))
        .filter(|(_, attempt)| is_new(attempt))
        .collect();
    let reasons: Vec<Reason> = Reason::ALL
        .into_iter()
        .filter(|reason| misses.iter().any(|(other, _)| other == reason))
        .collect();
    let mut reason = choice.dice.pick(&reasons)?;
    // Most positions hold these two: half of their turns are for the others.
    if [Reason::EmptySquare, Reason::Blocked].contains(reason) {
        reason = choice.dice.pick(&reasons)?;
    }
    misses.retain(|(other, _)| other == reason);
    choice.dice.pick(&misses).map(|(_, attempt)| *attempt)
}

fn is_near(scene: Scene<'_>, reason: Reason, attempt: Attempt) -> bool {
    match reason {
        Reason::Blocked => {
            let way = attacks::between(attempt.from, attempt.to);
            (way & scene.board().occupied()).count() <= 1
        }
        Reason::EmptySquare | Reason::WrongSide | Reason::OwnPieceThere | Reason::NotItsWay => {
            legal_before(scene).contains(&attempt)
        }
        // The others forbid what the piece could do but for one thing.
        _ => true,
    }
}

/// The moves that the side to move could have made two or four plies ago.
fn legal_before(scene: Scene<'_>) -> Vec<Attempt> {
    [2, 4]
        .into_iter()
        .filter_map(|ago| scene.plies().checked_sub(ago))
        .flat_map(|plies| {
            let position = scene.line().position(plies);
            let moves = position.legal_moves().into_iter();
            moves.map(|mv| Attempt::of(mv, position))
        })
        .collect()
}

/// The moves that the pieces of the side to move could make on some board, castling included.
fn conceivable(scene: Scene<'_>) -> Vec<Attempt> {
    let position = scene.position();
    let side = position.turn();
    let own = position.board().by_color(side).into_iter();
    own.filter_map(|from| Some((from, position.board().piece_at(from)?)))
        .flat_map(|(from, piece)| {
            let to = targets(scene, from, piece).into_iter();
            to.map(move |to| tried(position.board(), from, to))
        })
        .collect()
}

/// The move of a piece to a square; a pawn that reaches the last rank becomes a queen.
pub(super) fn tried(board: &Board, from: Square, to: Square) -> Attempt {
    let promotes = board.piece_at(from).is_some_and(|piece| {
        piece.role == Role::Pawn && to.rank() == piece.color.relative_rank(Rank::Eighth)
    });
    Attempt {
        from,
        to,
        promotion: promotes.then_some(Role::Queen),
    }
}

pub(super) fn targets(scene: Scene<'_>, from: Square, piece: Piece) -> Bitboard {
    let is_its_way = |to: &Square| sees(piece, from, *to, Bitboard::EMPTY);
    let mut to: Bitboard = Square::ALL.into_iter().filter(is_its_way).collect();
    if piece.role == Role::King {
        to.extend(castling_targets(scene.position(), from));
    }
    to
}

/// Where a king on its home square would be said to go in castling.
fn castling_targets(position: &Chess, king: Square) -> Bitboard {
    let side = position.turn();
    match position.castles().mode() {
        CastlingMode::Standard => {
            let at = |file| Square::from_coords(file, side.backrank());
            if king == at(File::E) {
                Bitboard::from(at(File::C)).with(at(File::G))
            } else {
                Bitboard::EMPTY
            }
        }
        CastlingMode::Chess960 => {
            position.board().by_piece(Role::Rook.of(side)) & Bitboard::from_rank(side.backrank())
        }
    }
}

/// An illegal move of the plain kind: not the piece's way, onto a piece of its own. It leads to a square
/// within three steps, where a move looks believable.
fn plain_miss(scene: Scene<'_>, judge: &Judge<'_>, dice: &mut Dice) -> Option<Attempt> {
    let position = scene.position();
    let own: Vec<Square> = position.us().into_iter().collect();
    let from = *dice.pick(&own)?;
    let around: Vec<Attempt> = Square::ALL
        .into_iter()
        .filter(|square| (1..=3).contains(&square.distance(from)))
        .map(|to| tried(position.board(), from, to))
        .filter(|attempt| judge.illegal(*attempt).is_some())
        .collect();
    dice.pick(&around).copied()
}
