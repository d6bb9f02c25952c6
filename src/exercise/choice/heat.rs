//! What the last plies touched: the men and squares that are worth asking about.

use shakmaty::{Bitboard, Board, Chess, Color, Position};

use crate::question::{Scene, pinned};

/// How many plies back a man or square counts as touched.
const RECENT: usize = 8;

/// The men and squares that the last plies touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Heat {
    /// The squares of men that moved, that have come under attack, or that have become pinned.
    pub(super) men: Bitboard,
    /// Squares that were vacated, reached or newly attacked.
    pub(super) squares: Bitboard,
    /// The squares that the last spoken move names or clearly tells about.
    pub(super) spoken: Bitboard,
    /// How many plies ago the touching began.
    pub(super) since: usize,
}

impl Heat {
    pub(super) fn new(scene: Scene<'_>) -> Heat {
        let since = scene.plies().saturating_sub(RECENT);
        let mut touched = Bitboard::EMPTY;
        for ply in &scene.played()[since..] {
            touched.add(ply.from());
            touched.add(ply.to());
            touched.add(ply.taken_on().map_or(Bitboard::EMPTY, Bitboard::from));
            if let Some(wing) = ply.mv.castling_side() {
                touched.add(ply.mv.to());
                touched.add(wing.rook_to(ply.side()));
            }
        }
        let before = scene.line().position(since);
        let now = scene.position();
        let newly_attacked = Color::ALL.into_iter().fold(Bitboard::EMPTY, |all, side| {
            all | (attacked(now.board(), side) & !attacked(before.board(), side))
        });
        let newly_pinned = all_pinned(now) & !all_pinned(before);
        let occupied = now.board().occupied();
        Heat {
            men: (touched | newly_pinned | (newly_attacked & threatened(now.board()))) & occupied,
            squares: touched | newly_attacked,
            spoken: spoken(scene),
            since,
        }
    }
}

/// All squares that a side's men attack.
fn attacked(board: &Board, side: Color) -> Bitboard {
    board
        .by_color(side)
        .into_iter()
        .fold(Bitboard::EMPTY, |all, square| {
            all | board.attacks_from(square)
        })
}

/// The men that stand on squares which the other side attacks.
fn threatened(board: &Board) -> Bitboard {
    Color::ALL.into_iter().fold(Bitboard::EMPTY, |all, side| {
        all | (board.by_color(!side) & attacked(board, side))
    })
}

fn all_pinned(position: &Chess) -> Bitboard {
    let men = position.board().occupied().into_iter();
    men.filter(|square| pinned(position, *square)).collect()
}

fn spoken(scene: Scene<'_>) -> Bitboard {
    let Some(ply) = scene.played().last() else {
        return Bitboard::EMPTY;
    };
    let mut spoken = Bitboard::from(ply.from()).with(ply.to());
    if let Some(square) = ply.taken_on() {
        spoken.add(square);
    }
    if let Some(wing) = ply.mv.castling_side() {
        spoken.add(ply.mv.to());
        spoken.add(wing.rook_to(ply.side()));
    }
    spoken
}
