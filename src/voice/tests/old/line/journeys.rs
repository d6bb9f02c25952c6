//! The ways of pieces.

use super::{explained, on, whereabouts};
use crate::voice::score::{FIDE_SAMPLE, PGN_SAMPLE, chess960, from_fen, usual};

/// The pieces of the PGN standard's sample game (1994.03.12, section 2.3).
#[test]
fn the_way_of_a_piece_is_told_with_its_move_numbers() {
    let line = usual(PGN_SAMPLE);
    assert_eq!(
        whereabouts(&line, "g1"),
        [
            "White's knight went from g1 to f3 on move 2, to e5 on move 23 and to f7 on move 25.",
            "Black's king took it on f7 on move 26.",
        ]
    );
    assert_eq!(
        whereabouts(&line, "h1"),
        [
            "White's rook went from h1 to f1 on move 5 by castling and to e1 on move 6.",
            "Black's rook took it on e1 on move 25.",
        ]
    );
    assert_eq!(
        whereabouts(&line, "f8"),
        [
            "Black's bishop went from f8 to e7 on move 5.",
            "White's bishop took it on e7 on move 18.",
        ]
    );
    assert_eq!(
        whereabouts(&line, "g7"),
        ["Black's pawn went from g7 to g6 on move 35."]
    );
    assert_eq!(
        whereabouts(&line, "e4"),
        ["No piece stood there at the start."]
    );
}

#[test]
fn of_a_long_way_the_last_moves_are_told() {
    assert_eq!(
        whereabouts(&usual(PGN_SAMPLE), "e8"),
        [
            "Black's king from e8 had come to g8 by move 8 and then went to f7 on move 26, to e6 on \
             move 29, to d6 on move 30, to c5 on move 36, to b5 on move 39 and to c5 on move 40."
        ]
    );
}

/// Barbier and Saavedra, Glasgow Weekly Citizen, 1895.
#[test]
fn a_promoted_pawn_is_told_as_the_pawn_that_it_was() {
    let line = from_fen(
        "8/8/1KP5/3r4/8/8/8/k7 w - - 0 1",
        "1. c7 Rd6+ 2. Kb5 Rd5+ 3. Kb4 Rd4+ 4. Kb3 Rd3+ 5. Kc2 Rd4 6. c8=R",
    );
    assert_eq!(
        whereabouts(&line, "c6"),
        ["White's pawn went from c6 to c7 on move 1 and to c8 on move 6, becoming a rook."]
    );
    assert_eq!(
        whereabouts(&line, "a1"),
        ["Black's king has stood on a1 from the start."]
    );
}

#[test]
fn a_king_that_castles_where_it_stands_did_castle() {
    let line = chess960("1rk5/3p4/8/8/8/8/8/3RK3 b Qq - 0 1", "1... O-O-O 2. O-O-O");
    assert_eq!(
        whereabouts(&line, "c8"),
        ["Black's king castled on move 1 and stayed on c8 then."]
    );
    assert_eq!(
        whereabouts(&line, "d1"),
        ["White's rook castled on move 2 and stayed on d1 then."]
    );
    assert_eq!(
        whereabouts(&line, "e1"),
        ["White's king went from e1 to c1 on move 2 by castling."]
    );
}

/// The sample score of the FIDE Laws' Appendix C.
#[test]
fn a_pawn_taken_en_passant_is_told_so() {
    assert_eq!(
        whereabouts(&usual(FIDE_SAMPLE), "d7"),
        [
            "Black's pawn went from d7 to d5 on move 5.",
            "White's pawn took it en passant on d5 on move 6.",
        ]
    );
    assert_eq!(
        on(&usual(FIDE_SAMPLE), "occupant", "d5", "pass"),
        ["Black's pawn was taken there on move 6."]
    );
}

#[test]
fn a_square_is_told_by_who_came_or_who_left() {
    let line = usual(PGN_SAMPLE);
    let found = |square| on(&line, "occupant", square, "pass");
    assert_eq!(
        found("d3"),
        [
            "Black's bishop went from c8 to b7 on move 13, to c8 on move 33, to f5 on move 34 and to d3 on move 42."
        ]
    );
    assert_eq!(found("e4"), ["Black's knight left it for d6 on move 20."]);
    assert_eq!(found("a3"), ["White's pawn left it for b4 on move 31."]);
    assert_eq!(
        on(&usual(""), "occupant", "e4", "pass"),
        ["No piece has stood there since the start."]
    );
}

#[test]
fn forgotten_pieces_of_a_role_are_retraced_and_empty_squares_explained() {
    let rooks = r#""color":"white","role":"rook""#;
    assert_eq!(
        explained(&usual(FIDE_SAMPLE), "standing", rooks, "a1 h1 g5 b5"),
        [
            "White's rook went from a1 to d1 on move 10 by castling.",
            "Nothing stands on a1: White's rook left it for d1 on move 10.",
            "Nothing stands on b5, and nothing has since the start.",
            "On g5 stands White's bishop.",
        ]
    );
}

#[test]
fn a_placement_is_corrected_list_by_list_with_the_ways_of_a_few() {
    let said = "Kc1 Qe3 Rd1 Ra1 Bg5 Nf3 Nd2 a2 b2 c2 f2 g2 h2 / Kg8 Qd8 Bd6 a7 b7 c7 f7 g7 h7 e5";
    assert_eq!(
        explained(&usual(FIDE_SAMPLE), "rebuild", "", said),
        [
            "19 pieces are placed right.",
            "Missing: White's king on b1, White's bishop on f1, White's rook on h1, Black's knight on \
             c6, Black's bishop on e7, Black's rook on a8, Black's bishop on c8 and Black's rook on e8.",
            "White's king went from e1 to c1 on move 10 by castling and to b1 on move 11.",
            "Black's knight went from b8 to c6 on move 7.",
            "Black's bishop went from f8 to e7 on move 8.",
            "Too many: White's rook on a1, White's king on c1 and Black's pawn on e5.",
            "Nothing stands on a1: White's rook left it for d1 on move 10.",
            "Nothing stands on c1: White's king left it for b1 on move 11.",
            "Nothing stands on e5: White's pawn left it for d6 on move 6.",
            "The wrong piece: Black's bishop on d6.",
            "On d6 stands Black's knight.",
            "Black's knight went from g8 to f6 on move 2, to e4 on move 4 and to d6 on move 6.",
        ]
    );
}

#[test]
fn a_placement_that_is_far_off_never_becomes_a_wall_of_text() {
    let line = usual(FIDE_SAMPLE);
    let few = explained(&line, "rebuild", "", "Kb1 / Kg8");
    assert!(few.len() <= 5, "{few:#?}");
    assert!(few[1].ends_with("and 18 more."), "{few:#?}");
    assert!(explained(&line, "rebuild", "", "pass").is_empty());
}
