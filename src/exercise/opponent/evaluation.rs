//! What a position is worth, by rules of thumb that every player knows.

use shakmaty::{Bitboard, Board, Chess, Color, File, Position, Role, Square, attacks};

/// Rates a position for the side to move, in hundredths of a pawn.
pub(super) fn evaluate(position: &Chess) -> i32 {
    let board = position.board();
    let phase = phase(board);
    let [white, black] = [Color::White, Color::Black].map(|side| side_of(board, side, phase));
    let score = white - black;
    position.turn().fold_wb(score, -score) + 8
}

/// What a piece is worth, whatever the position.
pub(super) const fn value(role: Role) -> i32 {
    match role {
        Role::Pawn => 100,
        Role::Knight => 320,
        Role::Bishop => 335,
        Role::Rook => 500,
        Role::Queen => 950,
        Role::King => 0,
    }
}

/// How much of the first heavy and light pieces is left, from 0 to 24.
fn phase(board: &Board) -> i32 {
    let light = count(board.knights() | board.bishops());
    (light + 2 * count(board.rooks()) + 4 * count(board.queens())).min(24)
}

fn count(squares: Bitboard) -> i32 {
    i32::try_from(squares.count()).unwrap_or(64)
}

/// How near a square is to the middle: 0 in the corner, 6 in the center.
fn center(square: Square) -> i32 {
    let near = |line: i32| line.min(7 - line);
    near(i32::from(square.file())) + near(i32::from(square.rank()))
}

fn side_of(board: &Board, side: Color, phase: i32) -> i32 {
    let own = board.by_color(side);
    let mut score = 0;
    for square in own {
        let Some(role) = board.role_at(square) else {
            continue;
        };
        score += value(role)
            + match role {
                Role::Pawn => pawn(board, side, square, phase),
                Role::Knight => 6 * center(square) - 20 + 3 * reach(board, square, own),
                Role::Bishop => 2 * center(square) - 12 + 4 * reach(board, square, own),
                Role::Rook => rook(board, side, square) + 2 * reach(board, square, own),
                Role::Queen => center(square) + reach(board, square, own),
                Role::King => king(board, side, square, phase),
            };
    }
    if (own & board.bishops()).more_than_one() {
        score += 30;
    }
    score
}

/// How many squares a piece attacks that its own side does not hold.
fn reach(board: &Board, square: Square, own: Bitboard) -> i32 {
    count(board.attacks_from(square) & !own)
}

/// How many ranks a square lies before its side's first one.
fn advance(side: Color, square: Square) -> i32 {
    let rank = i32::from(square.rank());
    side.fold_wb(rank, 7 - rank)
}

fn pawn(board: &Board, side: Color, square: Square, phase: i32) -> i32 {
    let advance = advance(side, square);
    let file = square.file();
    let own = board.pawns() & board.by_color(side);
    let theirs = board.pawns() & board.by_color(!side);
    let near = near_files(file);
    let ahead = ranks_before(side, square);
    let mut score = 3 * advance;
    if matches!(file, File::D | File::E) {
        score += 8 * advance.min(3);
    }
    if (theirs & ahead & (near | Bitboard::from(file))).is_empty() {
        score += advance * advance * (48 - phase) / 24;
    }
    if (own & near).is_empty() {
        score -= 12;
    }
    if (own & ahead & Bitboard::from(file)).any() {
        score -= 12;
    }
    score
}

fn near_files(file: File) -> Bitboard {
    [file.offset(-1), file.offset(1)]
        .into_iter()
        .flatten()
        .fold(Bitboard::EMPTY, |files, file| files | Bitboard::from(file))
}

/// The ranks before a square, as its side sees it.
fn ranks_before(side: Color, square: Square) -> Bitboard {
    let rank = u32::from(square.rank());
    let above = u64::MAX.checked_shl(8 * (rank + 1)).unwrap_or(0);
    let below = !u64::MAX.checked_shl(8 * rank).unwrap_or(0);
    Bitboard(side.fold_wb(above, below))
}

fn rook(board: &Board, side: Color, square: Square) -> i32 {
    let file = Bitboard::from(square.file()) & board.pawns();
    let open = if file.is_empty() {
        20
    } else if (file & board.by_color(side)).is_empty() {
        10
    } else {
        0
    };
    open + if advance(side, square) == 6 { 15 } else { 0 }
}

fn king(board: &Board, side: Color, square: Square, phase: i32) -> i32 {
    let shelter = attacks::king_attacks(square) & board.pawns() & board.by_color(side);
    let is_on_a_wing = !matches!(square.file(), File::D | File::E | File::F);
    let safe = 10 * count(shelter) - 20 * advance(side, square) + if is_on_a_wing { 15 } else { 0 };
    let mut active = 8 * center(square);
    let theirs = board.by_color(!side);
    if (theirs & !board.kings()).is_empty() {
        // Against a lone king: drive it to the edge, and come near.
        if let Some(other) = board.king_of(!side) {
            active += 12 * (6 - center(other)) + 8 * (7 - distance(square, other));
        }
    }
    (safe * phase + active * (24 - phase)) / 24
}

fn distance(one: Square, other: Square) -> i32 {
    i32::try_from(one.distance(other)).unwrap_or(7)
}

#[cfg(test)]
mod tests {
    use super::*;
    use shakmaty::CastlingMode;
    use shakmaty::fen::Fen;

    fn rated(fen: &str) -> i32 {
        let fen: Fen = fen.parse().unwrap();
        evaluate(&fen.into_position(CastlingMode::Standard).unwrap())
    }

    #[test]
    fn both_sides_are_rated_alike() {
        let mirrored = [
            (
                "4k3/8/8/8/3P4/8/8/R3K3 w - - 0 1",
                "r3k3/8/8/3p4/8/8/8/4K3 b - - 0 1",
            ),
            (
                "r1bqk3/pp3p2/8/8/8/8/1P3PPP/2B1KBNR w - - 0 1",
                "2b1kbnr/1p3ppp/8/8/8/8/PP3P2/R1BQK3 b - - 0 1",
            ),
        ];
        for (white, black) in mirrored {
            assert_eq!(rated(white), rated(black));
        }
    }

    #[test]
    fn a_passed_pawn_and_an_open_file_and_a_safe_king_are_worth_something() {
        assert!(
            rated("4k3/8/4P3/8/8/8/8/4K3 w - - 0 1") > rated("4k3/3p4/4P3/8/8/8/3P4/4K3 w - - 0 1")
        );
        assert!(
            rated("4k3/8/8/8/8/8/P7/1R2K3 w - - 0 1") > rated("4k3/8/8/8/8/8/P7/R3K3 w - - 0 1")
        );
        let castled = "r1bq1rk1/pppp1ppp/2n2n2/2b1p3/2B1P3/2N2N2/PPPP1PPP/R1BQ1RK1 w - - 0 1";
        let astray = "r1bq1rk1/pppp1ppp/2n2n2/2b1p3/2B1P3/2NK1N2/PPPP1PPP/R1BQ1R2 w - - 0 1";
        assert!(rated(castled) > rated(astray));
    }
}
