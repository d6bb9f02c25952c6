//! Who sees what.

use super::{attackers, explained, on};
use crate::voice::score::{FIDE_SAMPLE, from_fen, usual};

#[test]
fn lines_are_told_to_where_they_end() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        on(&line, "attacks", "g5", "d8 e7 f4"),
        [
            "White's bishop stands on g5.",
            "Toward h6 it attacks h6, up to the edge of the board.",
            "Toward h4 it attacks h4, up to the edge of the board.",
            "Toward d8 it attacks f6, then Black's bishop on e7, and sees no further.",
            "Not d8: Black's bishop on e7 stands in the way.",
        ]
    );
    assert_eq!(
        on(&line, "attacks", "e8", "d8 e6"),
        [
            "Black's rook stands on e8.",
            "Toward h8 it attacks f8, guards its own king on g8 and sees no further.",
            "Toward e1 it guards its own bishop on e7 and sees no further.",
            "Not e6: its own bishop on e7 stands in the way.",
        ]
    );
}

#[test]
fn pieces_without_lines_are_told_by_how_they_attack() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        on(&line, "attacks", "h2", "h3 f3"),
        [
            "White's pawn stands on h2.",
            "A pawn attacks diagonally, one step ahead, whatever stands there: g3.",
            "Not f3: a pawn attacks only diagonally, one step ahead.",
            "Not h3: a pawn does not attack straight ahead.",
        ]
    );
    assert_eq!(
        on(&line, "attacks", "d2", "d4"),
        [
            "White's knight stands on d2.",
            "A knight jumps two squares along a file or rank and one to the side.",
            "Not d4: no knight's jump leads from d2 to d4.",
        ]
    );
    assert_eq!(
        on(&line, "attacks", "b1", "b4"),
        [
            "White's king stands on b1.",
            "A king goes one step.",
            "Not b4: one step does not lead from b1 to b4.",
        ]
    );
    assert_eq!(
        on(&line, "attacks", "a3", "b4"),
        ["No piece stands on a3.",]
    );
    assert_eq!(
        on(&line, "attacks", "b1", "b1 a1 c1")[2..],
        ["Not b1: a piece does not attack the square that it stands on."]
    );
}

#[test]
fn a_piece_at_the_end_of_a_line_is_attacked_or_guarded() {
    let line = from_fen("4k3/8/8/8/8/2P2n2/5Q2/4K3 w - - 0 1", "");
    let said = on(&line, "attacks", "f2", "none");
    assert!(
        said.contains(
            &"Toward f8 it attacks Black's knight on f3 and sees no further.".to_owned()
        ),
        "{said:#?}"
    );
    assert_eq!(
        explained(&line, "check", "", "f2"),
        [
            "Black's knight on f3 attacks the king on e1.",
            "White's queen stands on f2, on the king's own side.",
        ]
    );
}

#[test]
fn attackers_are_told_by_what_they_look_through_and_others_by_what_stops_them() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        attackers(&line, "black", "e5", "e7 a3 g5 e8"),
        [
            "Black's knight on c6 reaches e5.",
            "No piece stands on a3.",
            "White's bishop stands on g5, a piece of the other side.",
            "Black's bishop on e7 does not reach e5: no diagonal joins e7 and e5.",
            "Black's rook on e8 does not reach e5: its own bishop on e7 stands in the way.",
        ]
    );
    assert_eq!(
        attackers(&line, "white", "e7", "none"),
        [
            "White's queen on e3 looks through e4, e5 and e6 at e7.",
            "White's bishop on g5 looks through f6 at e7.",
        ]
    );
}

#[test]
fn check_is_told_by_who_sees_the_king() {
    // A mate of our own making.
    let mated = usual("1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7#");
    assert_eq!(
        explained(&mated, "check", "", "c4"),
        [
            "White's queen on f7 attacks the king on e8.",
            "White's bishop on c4 does not reach the king on e8: no diagonal joins c4 and e8.",
        ]
    );
}
