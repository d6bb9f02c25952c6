//! Material, rights, exchanges and the score.

use super::explained;
use crate::voice::score::{FIDE_SAMPLE, from_fen, usual};

#[test]
fn an_exchange_is_counted_capture_by_capture_until_somebody_stops() {
    // Taking back would lose the pawn that takes.
    let line = from_fen("4k3/2p5/3n4/4P3/8/8/8/3RK3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "exchange", r#""square":"d6""#, "2"),
        [
            "White's pawn from e5 takes Black's knight: 3 points won so far.",
            "Black stops there: taking with the pawn on c7 would win nothing.",
        ]
    );
}

#[test]
fn a_side_stops_where_taking_on_would_win_nothing_or_lose() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        explained(&line, "exchange", r#""square":"g5""#, "3"),
        [
            "Black's bishop from e7 takes White's bishop: 3 points won so far.",
            "White's knight from f3 takes Black's bishop: even so far.",
            "Black stops there: taking with the queen on d8 would lose 6 points.",
        ]
    );
    let line = from_fen("4k3/8/2p5/3p4/8/8/8/3RK3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "exchange", r#""square":"d5""#, "1"),
        [
            "White's rook from d1 takes Black's pawn: 1 point won so far.",
            "Black's pawn from c6 takes White's rook: 4 points lost so far.",
            "White has no legal capture there then.",
        ]
    );
    let line = from_fen("3rk3/8/2p5/3p4/4P3/8/8/3QK3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "exchange", r#""square":"d5""#, "3"),
        [
            "White's pawn from e4 takes Black's pawn: 1 point won so far.",
            "Black's pawn from c6 takes White's pawn: even so far.",
            "White stops there: taking with the queen on d1 would lose 8 points.",
        ]
    );
}

#[test]
fn a_balance_is_told_by_the_pieces_of_each_side() {
    let line = from_fen("4k3/2p5/3n4/4P3/8/8/8/3RK3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "balance", "", "1"),
        [
            "Without the king, White has a rook and a pawn: 6 points.",
            "Without the king, Black has a knight and a pawn: 4 points.",
        ]
    );
}

#[test]
fn a_side_without_pieces_has_only_the_king() {
    let line = from_fen("4k3/8/8/8/8/8/8/3RK3 w - - 0 1", "");
    assert_eq!(
        explained(&line, "balance", "", "38"),
        [
            "Without the king, White has a rook: 5 points.",
            "Black has only the king: 0 points.",
        ]
    );
}

#[test]
fn rights_are_told_by_the_moves_that_lost_them() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        explained(&line, "rights", r#""color":"black""#, "long"),
        [
            "Black's right to castle long was lost with Black's move 9, when the king castled.",
        ]
    );
    assert_eq!(
        explained(&line, "rights", r#""color":"black""#, "pass"),
        ["Black's rights to castle were lost with Black's move 9, when the king castled."]
    );
    let line = from_fen("r3k2r/8/8/3B4/8/8/8/4K2R w Kkq - 0 1", "1. Bxa8 Rg8 2. Rh2");
    assert_eq!(
        explained(&line, "rights", r#""color":"black""#, "both"),
        [
            "Black's right to castle short was lost with Black's move 1, when the rook left h8.",
            "Black's right to castle long was lost with White's move 1, when White's bishop took the \
             rook on a8.",
        ]
    );
    let line = from_fen("r3k2r/8/8/3B4/8/8/8/4K2R w Kkq - 0 1", "");
    assert_eq!(
        explained(&line, "rights", r#""color":"white""#, "long"),
        [
            "White's right to castle short is still there: neither the king nor that rook has moved.",
            "White's right to castle long was not there at the start of the line.",
        ]
    );
}

#[test]
fn pieces_that_were_taken_and_forgotten_are_told_in_the_order_in_which_they_went() {
    let taken = |reply| explained(&usual(FIDE_SAMPLE), "taken", r#""color":"black""#, reply);
    assert_eq!(taken("pass"), taken("none"));
    assert_eq!(
        taken("NPPPQ"),
        [
            "No queen has been taken.",
            "No knight has been taken.",
            "Only 2 pawns have been taken.",
        ]
    );
    assert_eq!(
        taken("P"),
        [
            "Black's pawn went from e7 to e5 on move 1 and to d4 on move 3.",
            "White's queen took it on d4 on move 5.",
            "Black's pawn went from d7 to d5 on move 5.",
            "White's pawn took it en passant on d5 on move 6.",
        ]
    );
}

#[test]
fn a_move_of_the_score_is_told_as_it_is_announced() {
    let subject = r#""color":"white","number":8"#;
    assert_eq!(
        explained(&usual(FIDE_SAMPLE), "played", subject, "Bb5"),
        ["It was White's move 8, queen to e3, check."]
    );
    assert_eq!(
        explained(&usual(FIDE_SAMPLE), "played", subject, "Nb1a3 "),
        ["It was White's move 8, queen to e3, check."]
    );
    assert_eq!(
        explained(&usual(FIDE_SAMPLE), "played", subject, "Qxe7"),
        [
            "White's queen from d4 to e7 is not legal, because no file, rank or diagonal joins d4 and \
             e7.",
            "It was White's move 8, queen to e3, check.",
        ]
    );
}
