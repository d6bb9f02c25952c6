//! What moves do, and who guards whom.

use super::explained;
use crate::voice::score::{FIDE_SAMPLE, from_fen, usual};

#[test]
fn checks_are_told_by_the_pieces_that_give_them() {
    // The knight opens the rook's file wherever it goes, and gives check itself from c7 and f6.
    let line = from_fen("4k3/8/8/8/4N3/8/8/4RK2 w - - 0 1", "");
    assert_eq!(
        explained(&line, "checks", "", "Nc3 Nc5 Nd2 Nf2 Ng3 Ng5 Kf2"),
        [
            "Missed: the knight from e4 to d6 gives check, and so does the rook on e1 through the line \
             that it opens.",
            "Missed: the knight from e4 to f6 gives check, and so does the rook on e1 through the line \
             that it opens.",
            "The king from f1 to f2 gives no check.",
        ]
    );
    let line = from_fen("5k2/8/8/8/8/8/8/4K2R w K - 0 1", "");
    assert_eq!(
        explained(&line, "checks", "", "Rh8"),
        [
            "Missed: White castles short, and the rook on f1 gives check.",
            "Missed: the rook from h1 to f1 gives check.",
        ]
    );
}

#[test]
fn an_illegal_move_is_told_with_its_one_reason() {
    let line = from_fen("4k3/8/8/8/1b6/2N5/8/R3K2R w KQ - 0 1", "");
    assert_eq!(
        explained(&line, "checks", "", "Nd5 Nc2 Rh8 Bb5 Ra1h1 Rd7"),
        [
            "Missed: the rook from a1 to a8 gives check.",
            "White's rook from a1 to h1 is not legal, because its own rook stands there.",
            "White's knight from c3 to c2 is not legal, because no knight's jump leads from c3 to c2.",
            "White's knight from c3 to d5 is not legal, because it shields its king from Black's bishop \
             on b4 and has to stay on that line.",
            "\"Bb5\" is no move there: White has no such bishop.",
            "\"Rd7\" is no legal move: no rook of White can go to d7.",
        ]
    );
    let line = from_fen("4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1", "");
    assert_eq!(
        explained(&line, "mate", "", "O-O"),
        [
            "White cannot castle short: Black's rook on f8 attacks f1, which the king would cross in \
             castling.",
        ]
    );
}

#[test]
fn captures_are_told_by_what_they_take() {
    let line = from_fen("4k3/8/8/8/3p4/8/4P1P1/4K3 w - - 0 1", "1. e4");
    assert_eq!(
        explained(&line, "captures", "", "d3"),
        [
            "Missed: the pawn from d4 to e3 takes White's pawn on e4 en passant.",
            "The pawn from d4 to d3 takes nothing.",
        ]
    );
    assert_eq!(
        explained(&usual(FIDE_SAMPLE), "captures", "", "none"),
        ["Missed: the bishop from e7 to g5 takes White's bishop."]
    );
}

#[test]
fn a_forced_mate_is_told_by_the_defence_that_escapes_and_one_way_to_it() {
    // P. Morphy, New York Clipper, 28 June 1856.
    let line = from_fen("kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1", "");
    let way = "One way to the mate: White's move 1, rook to a6; Black's move 1, pawn from b7 takes on \
               a6; White's move 2, pawn to b7, checkmate.";
    assert_eq!(
        explained(&line, "mate", r#""in":2"#, "Ra2"),
        [
            "The rook from a1 to a2 does not mate in time: Black defends with the \
             pawn from a7 to a5.",
            way,
        ]
    );
    assert_eq!(explained(&line, "mate", r#""in":2"#, "pass"), [way]);
}

#[test]
fn a_mate_is_told_and_so_is_what_meets_a_check() {
    let line = from_fen("6k1/5ppp/8/8/8/8/8/R3K2R w K - 0 1", "");
    assert_eq!(
        explained(&line, "mate", "", "Rxh7"),
        [
            "Missed: the rook from a1 to a8 gives check, and Black has no answer.",
            "The rook from h1 to h7 gives no check.",
        ]
    );
    let line = from_fen("7k/6p1/8/8/8/8/8/R3K3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "mate", "", "Ra8"),
        [
            "The rook from a1 to a8 gives check, but Black has an answer, such as the king to h7.",
        ]
    );
}

#[test]
fn hanging_pieces_are_told_by_who_attacks_them_and_others_by_who_guards_them() {
    let line = from_fen("4k3/6b1/8/8/3N4/2P5/1P2K3/R7 w - - 0 1", "");
    assert_eq!(
        explained(&line, "hanging", r#""color":"white""#, "d4 a1 e2 g7 h8"),
        [
            "White's rook on a1 is not attacked by Black.",
            "White's king on e2 is left out, as every king is.",
            "White's knight on d4 is guarded by White's pawn on c3.",
            "Black's bishop on g7 is not one of White's pieces.",
            "No piece stands on h8.",
        ]
    );
    let line = from_fen("4k3/6b1/8/8/3N4/8/8/R3K3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "hanging", r#""color":"white""#, "none"),
        ["White's knight on d4 is attacked by Black's bishop on g7, and no piece guards it."]
    );
}
