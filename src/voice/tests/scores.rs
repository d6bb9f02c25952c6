//! Games for the tests of this floor, written as their scores.

use shakmaty::CastlingMode;
use shakmaty::san::SanPlus;

use crate::game::{Line, Start};

/// PGN standard 1994.03.12, section 2.3: the standard's own sample game.
pub(super) const PGN_SAMPLE: &str = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 \
    7. Bb3 d6 8. c3 O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15. Nb1 \
    h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21. Nc4 Nxc4 22. Bxc4 Nb6 \
    23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7 27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 \
    30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33. f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 \
    38. g3 Nxh3 39. Kd2 Kb5 40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6";

/// FIDE Laws of Chess 2023, Appendix C: the sample score, with en passant and both castlings.
pub(super) const FIDE_SAMPLE: &str = "1. e4 e5 2. Nf3 Nf6 3. d4 exd4 4. e5 Ne4 5. Qxd4 d5 6. exd6 \
    Nxd6 7. Bg5 Nc6 8. Qe3+ Be7 9. Nbd2 O-O 10. O-O-O Re8 11. Kb1";

/// The usual array.
pub(super) const USUAL: &str = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

/// P. Morphy, New York Clipper, 28 June 1856: mate in 2.
pub(super) const MORPHY: &str = "kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1";

/// Plays a score from the usual array.
pub(super) fn usual(score: &str) -> Line {
    from(Start::standard(), score)
}

/// Plays a score from a FEN of standard chess.
pub(super) fn from_fen(fen: &str, score: &str) -> Line {
    let start = Start::from_fen(fen, CastlingMode::Standard).expect("a position");
    from(start, score)
}

/// Plays a score from a FEN of Chess960.
pub(super) fn chess960(fen: &str, score: &str) -> Line {
    let start = Start::from_fen(fen, CastlingMode::Chess960).expect("a position");
    from(start, score)
}

fn from(start: Start, score: &str) -> Line {
    let mut line = Line::new(start);
    for word in score.split_whitespace().filter(|word| !word.ends_with('.')) {
        let san: SanPlus = word.parse().expect("a move");
        let mv = san.san.to_move(line.end()).expect("a legal move");
        line.push(mv).expect("a legal move");
    }
    line
}
