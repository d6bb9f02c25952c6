//! Where pieces can go.

use super::on;
use crate::voice::score::{from_fen, usual};

#[test]
fn what_binds_a_piece_is_told_before_the_squares_that_are_closed_to_it() {
    let pinned = from_fen("4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", "");
    assert_eq!(
        on(&pinned, "moves", "c3", "a4 e4 d2"),
        [
            "White's knight stands on c3.",
            "It is pinned to its king by Black's bishop on b4.",
            "Not d2: no knight's jump leads from c3 to d2.",
            "Not a4 or e4: that leaves the line of the pin.",
        ]
    );
    let in_check = from_fen("4k3/4r3/8/8/8/8/8/N3K3 w - - 0 1", "");
    assert_eq!(
        on(&in_check, "moves", "a1", "b3 c2"),
        [
            "White's knight stands on a1.",
            "Its king is in check from e7, and every move has to stop that.",
            "Not c2 or b3: that does not stop the check.",
        ]
    );
    assert_eq!(
        on(&in_check, "moves", "e7", "pass"),
        [
            "Black's rook stands on e7.",
            "It is White's turn, so it cannot move.",
        ]
    );
}

#[test]
fn castling_and_the_double_step_are_recalled_when_they_were_forgotten() {
    // FIDE 3.8.2.2, position computed with an independent rules library: only long castling here.
    let line = from_fen("4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1", "");
    assert_eq!(
        on(&line, "moves", "e1", "d1 d2 e2 f1 g1"),
        [
            "White's king stands on e1.",
            "The king can also castle, which counts as a move to c1.",
            "Not f1: Black's rook on f8 would attack the king there.",
            "Not g1: Black's rook on f8 attacks f1, which the king would cross in castling.",
        ]
    );
    assert_eq!(
        on(&usual(""), "moves", "e2", "e3 d3 f3 e5"),
        [
            "White's pawn stands on e2.",
            "A pawn that has not moved may go two steps, to e4.",
            "Not d3: a pawn goes diagonally only to take, and there is nothing to take on d3.",
            "Not f3: a pawn goes diagonally only to take, and there is nothing to take on f3.",
            "Not e5: no pawn's move leads from e2 to e5.",
        ]
    );
    assert_eq!(
        on(&usual(""), "moves", "d1", "c1 d1 e1 d2 d3 a5"),
        [
            "White's queen stands on d1.",
            "Not c1, e1 or d2: its own bishop on c1, king on e1 and pawn on d2 stand there.",
            "Not d1: a move has to lead to another square.",
            "Not d3: White's pawn on d2 stands in the way.",
            "Not a5: no file, rank or diagonal joins d1 and a5.",
        ]
    );
    assert_eq!(
        on(&usual(""), "moves", "e1", "d1"),
        [
            "White's king stands on e1.",
            "Not d1: its own queen stands there."
        ]
    );
    let in_check = from_fen("4k3/8/8/8/8/8/2q5/4K3 w - - 0 1", "1. Kf1 Kd8 2. Ke1 Qe2+");
    assert_eq!(
        on(&in_check, "moves", "e1", "d1"),
        [
            "White's king stands on e1.",
            "It is in check from e2, and every move has to stop that.",
            "Not d1: Black's queen on e2 would attack the king there.",
        ]
    );
}

#[test]
fn the_moment_at_which_castling_was_lost_is_told_among_the_moves_too() {
    let line = usual("1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. Nf3 Nf6 5. Be2 Be7");
    assert_eq!(
        on(&line, "moves", "e1", "f1 g1"),
        [
            "White's king stands on e1.",
            "Not g1: the right to castle short was lost with White's move 2, when the king left e1.",
        ]
    );
}
