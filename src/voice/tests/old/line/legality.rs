//! Why a move is legal or not.

use super::legality;
use crate::game::Line;
use crate::question::{Illegal, Legality, LineQuestion, Reason, Scene, Truth};
use crate::voice::score::{chess960, from_fen, usual};

const USUAL: &str = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

/// One case of every reason, and more where a reason has several faces: reason, start, score, move,
/// sentence. Castling cases after FIDE 3.8.2; the others are of our own making.
const CASES: [(Reason, &str, &str, &str, &str); 28] = [
    (
        Reason::EmptySquare,
        USUAL,
        "",
        "e4e5",
        "No piece stands on e4.",
    ),
    (Reason::WrongSide, USUAL, "", "e7e5", "It is White's turn."),
    (
        Reason::CastlingRightLost,
        USUAL,
        "1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. Nf3 Nf6 5. Be2 Be7",
        "e1g1",
        "The right to castle short was lost with White's move 2, when the king left e1.",
    ),
    (
        Reason::CastlingRightLost,
        USUAL,
        "1. h4 h5 2. Rh3 Rh6 3. Rh1 Rh8 4. Nf3 Nf6 5. e3 e6 6. Be2 Be7",
        "e1g1",
        "The right to castle short was lost with White's move 2, when the rook left h1.",
    ),
    (
        Reason::CastlingRightLost,
        USUAL,
        "1. e4 b6 2. Nf3 Bb7 3. Be2 Bxe4 4. d3 Bxf3 5. d4 Bxg2 6. d5 Bxh1 7. a3 a6",
        "e1g1",
        "The right to castle short was lost with Black's move 6, when Black's bishop took the rook \
         on h1.",
    ),
    (
        Reason::CastlingRightLost,
        USUAL,
        "1. Nf3 Nf6 2. g3 g6 3. Bg2 Bg7 4. O-O O-O 5. h3 h6 6. Kh2 Kh7 7. Rh1 Rh8 8. Kg1 Kg8 \
         9. Kf1 Kf8 10. Ke1 Ke8",
        "e1g1",
        "The right to castle short was lost with White's move 4, when the king castled.",
    ),
    (
        Reason::CastlingRightLost,
        "4k3/8/8/8/8/8/8/R3K3 w - - 0 1",
        "",
        "e1c1",
        "There was no right to castle long at the start of the line.",
    ),
    (
        Reason::Blocked,
        USUAL,
        "",
        "c1e3",
        "White's pawn on d2 stands in the way.",
    ),
    (
        Reason::Blocked,
        USUAL,
        "",
        "e1g1",
        "White's bishop on f1 stands in the way of castling.",
    ),
    (
        Reason::Blocked,
        USUAL,
        "1. e4 e5",
        "e4e5",
        "Black's pawn on e5 is in its way, and a pawn does not take straight ahead.",
    ),
    (
        Reason::CastlingInCheck,
        "4rk2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        "e1g1",
        "Black's rook on e8 gives check, and a king does not castle out of check.",
    ),
    (
        Reason::CastlingThroughAttack,
        "4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        "e1g1",
        "Black's rook on f8 attacks f1, which the king would cross in castling.",
    ),
    (
        Reason::CastlingThroughAttack,
        "4k1r1/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        "e1g1",
        "Black's rook on g8 would attack the king on g1.",
    ),
    (
        Reason::CastlingThroughAttack,
        "4k3/8/8/8/8/8/5n2/R3K2R w KQ - 0 1",
        "",
        "e1c1",
        "Black's knight on f2 attacks d1, which the king would cross in castling.",
    ),
    (
        Reason::OwnPieceThere,
        USUAL,
        "",
        "g1e2",
        "Its own pawn stands there.",
    ),
    (
        Reason::OwnPieceThere,
        USUAL,
        "",
        "e2e2",
        "A move has to lead to another square.",
    ),
    (
        Reason::EnPassantExpired,
        USUAL,
        "1. e4 a6 2. e5 d5 3. a3 a5",
        "e5d6",
        "It is too late to take en passant: Black's pawn on d5 made its double step with Black's \
         move 2, and only the very next ply could take it.",
    ),
    (
        Reason::NotItsWay,
        USUAL,
        "",
        "b1b3",
        "No knight's jump leads from b1 to b3.",
    ),
    (
        Reason::NotItsWay,
        USUAL,
        "",
        "e2d3",
        "A pawn goes diagonally only to take, and there is nothing to take on d3.",
    ),
    (
        Reason::NotItsWay,
        USUAL,
        "1. e3 e6",
        "e3e5",
        "A pawn goes two steps only from where pawns begin.",
    ),
    (
        Reason::NotItsWay,
        USUAL,
        "1. e4 e6",
        "e4e3",
        "A pawn only goes forward.",
    ),
    (
        Reason::NotItsWay,
        USUAL,
        "",
        "e2e4q",
        "A pawn becomes another piece only on its last rank, not on e4.",
    ),
    (
        Reason::NotItsWay,
        "7k/P7/8/8/8/8/8/4K3 w - - 0 1",
        "",
        "a7a8",
        "A pawn that goes to a8 has to become another piece.",
    ),
    (
        Reason::NotItsWay,
        "7k/P7/8/8/8/8/8/4K3 w - - 0 1",
        "",
        "a7a8k",
        "A pawn becomes a queen, rook, bishop or knight.",
    ),
    (
        Reason::Pinned,
        "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1",
        "",
        "c3e4",
        "It shields its king from Black's bishop on b4 and has to stay on that line.",
    ),
    (
        Reason::UncoversCheck,
        "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 1",
        "",
        "e5d6",
        "Taking en passant would clear two pieces off the line from Black's rook on h5 to the king.",
    ),
    (
        Reason::StepsIntoCheck,
        "3rk3/8/8/8/8/8/8/4K3 w - - 0 1",
        "",
        "e1d2",
        "Black's rook on d8 would attack the king there.",
    ),
    (
        Reason::StaysInCheck,
        "4k3/4r3/8/8/8/8/8/N3K3 w - - 0 1",
        "",
        "a1b3",
        "White is in check from Black's rook on e7, and this move does not stop that.",
    ),
];

#[test]
fn every_reason_has_its_sentence() {
    for (reason, fen, score, attempt, said) in CASES {
        let line = from_fen(fen, score);
        assert_eq!(
            reason_of(&line, attempt),
            Some(reason),
            "{attempt} in {fen}"
        );
        assert_eq!(
            legality(&line, attempt).last().map(String::as_str),
            Some(said),
            "{attempt} in {fen}"
        );
    }
    for reason in Reason::ALL {
        assert!(CASES.iter().any(|(told, ..)| *told == reason), "{reason:?}");
    }
}

fn reason_of(line: &Line, attempt: &str) -> Option<Reason> {
    let attempt = attempt.parse().expect("a move");
    let question = LineQuestion::Legality(Legality { attempt });
    match question.truth(Scene::new(line, line.len())) {
        Truth::Illegal {
            illegal: Illegal { reason, .. },
            ..
        } => Some(reason),
        _ => None,
    }
}

#[test]
fn a_legal_move_is_explained_too() {
    let last = |line: &Line, attempt: &str| {
        assert_eq!(reason_of(line, attempt), None);
        legality(line, attempt).pop().unwrap()
    };
    assert_eq!(
        legality(&usual(""), "b1c3"),
        [
            "White's knight stands on b1.",
            "The knight can jump there: no piece stands on c3, and its king is safe then.",
        ]
    );
    assert_eq!(
        last(&usual("1. e4 d5"), "e4d5"),
        "It can take Black's pawn on d5, and its king is safe then."
    );
    assert_eq!(
        last(&usual("1. e4 d5"), "f1b5"),
        "The way is clear: no piece stands on b5, and its king is safe then."
    );
    assert_eq!(
        last(&usual("1. e4 d5"), "e1e2"),
        "No piece stands on e2, and no enemy piece attacks it there."
    );
    assert_eq!(
        last(&usual("1. e4 a6 2. e5 d5"), "e5d6"),
        "It can take en passant on d6: the pawn beside it has just made its double step."
    );
    // FIDE 3.8.2.2: that b1 or the rook is attacked does not matter.
    let line = from_fen("1r2k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "");
    let castling = "The right to castle long is still there, the way is clear, and no enemy piece \
                    attacks the king's way.";
    assert_eq!(last(&line, "e1c1"), castling);
    let line = chess960("4k3/8/8/8/8/8/8/1R2KN1R w KQ - 0 1", "");
    assert_eq!(last(&line, "e1b1"), castling);
}
