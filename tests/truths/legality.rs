//! Every (from, to, promotion) triple put to the judge of legality: the legal ones count up to the
//! published perft tables, and every other one gets exactly one reason.

use sansvoir::exercise::Dice;
use sansvoir::game::{Line, Start};
use sansvoir::question::{Attempt, Illegal, Reason, Scene};
use shakmaty::{CastlingMode, Position, Role, Square, attacks};

/// All 64 × 64 × 5 ways to name a move.
fn all_attempts() -> impl Iterator<Item = Attempt> {
    let promotions = [
        None,
        Some(Role::Knight),
        Some(Role::Bishop),
        Some(Role::Rook),
        Some(Role::Queen),
    ];
    Square::ALL.into_iter().flat_map(move |from| {
        Square::ALL.into_iter().flat_map(move |to| {
            promotions.into_iter().map(move |promotion| Attempt {
                from,
                to,
                promotion,
            })
        })
    })
}

/// Counts the lines of `depth` plies, each ply found by judging all triples.
fn perft(line: &Line, depth: usize) -> u64 {
    let scene = Scene::new(line, line.len());
    let judge = scene.judge();
    let legal: Vec<Attempt> = all_attempts()
        .filter(|attempt| judge.illegal(*attempt).is_none())
        .collect();
    if depth == 1 {
        return legal.len() as u64;
    }
    legal
        .into_iter()
        .map(|attempt| {
            let mut longer = line.clone();
            let uci: shakmaty::uci::UciMove = attempt.to_string().parse().unwrap();
            longer.push(uci.to_move(line.end()).unwrap()).unwrap();
            perft(&longer, depth - 1)
        })
        .sum()
}

/// Source of the counts: OEIS A048987 for the start position; the chess-programming wiki's 'Perft
/// Results' for positions 2 to 6.
const TABLE: [(&str, &[u64]); 6] = [
    (
        "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
        &[20, 400],
    ),
    (
        "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
        &[48, 2039],
    ),
    (
        "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
        &[14, 191, 2812],
    ),
    (
        "r2q1rk1/pP1p2pp/Q4n2/bbp1p3/Np6/1B3NBn/pPPP1PPP/R3K2R b KQ - 0 1",
        &[6, 264],
    ),
    (
        "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
        &[44, 1486],
    ),
    (
        "r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10",
        &[46, 2079],
    ),
];

#[test]
fn the_triples_judged_legal_count_up_to_the_published_perft_tables() {
    for (fen, counts) in TABLE {
        let line = Line::new(Start::from_fen(fen, CastlingMode::Standard).unwrap());
        for (depth, count) in counts.iter().enumerate() {
            assert_eq!(
                perft(&line, depth + 1),
                *count,
                "{fen} to depth {}",
                depth + 1
            );
        }
    }
}

/// Chess960 counts to one ply are those of the rules library, whose perft to four plies stands
/// against the published list.
#[test]
fn chess960_castling_is_judged_as_king_takes_own_rook() {
    let fens = [
        "bqnb1rkr/pp3ppp/3ppn2/2p5/5P2/P2P4/NPP1P1PP/BQ1BNRKR w HFhf - 2 9",
        "r1k1r2q/p1ppp1pp/8/8/8/8/P1PPP1PP/R1K1R2Q w KQkq - 0 1",
        "4rrk1/pbbp2p1/1ppnp3/3n1pqp/3N1PQP/1PPNP3/PBBP2P1/4RRK1 w Ff - 0 3",
    ];
    for (fen, count) in fens.into_iter().zip([21, 23, 42]) {
        let line = Line::new(Start::from_fen(fen, CastlingMode::Chess960).unwrap());
        assert_eq!(line.end().legal_moves().len(), count, "{fen}");
        assert_eq!(perft(&line, 1), count as u64, "{fen}");
    }
}

fn judge_after(fen: &str, moves: &str, attempt: &str) -> Option<Illegal> {
    let mode = CastlingMode::Standard;
    let mut line = Line::new(Start::from_fen(fen, mode).unwrap());
    for uci in moves.split_whitespace() {
        let uci: shakmaty::uci::UciMove = uci.parse().unwrap();
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    Scene::new(&line, line.len())
        .judge()
        .illegal(attempt.parse().unwrap())
}

fn reason(reason: Reason, by: &str) -> Illegal {
    Illegal {
        reason,
        by: by.parse().ok(),
    }
}

const START: &str = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

#[test]
fn each_reason_is_found_with_the_piece_to_blame() {
    use Reason::{
        Blocked, CastlingInCheck, CastlingRightLost, CastlingThroughAttack, EmptySquare,
        EnPassantExpired, NotItsWay, OwnPieceThere, Pinned, StaysInCheck, StepsIntoCheck,
        UncoversCheck, WrongSide,
    };
    let cases = [
        (START, "", "e4e5", reason(EmptySquare, "")),
        (START, "", "e7e5", reason(WrongSide, "")),
        (START, "", "a1a2", reason(OwnPieceThere, "")),
        (START, "", "a1a1", reason(OwnPieceThere, "")),
        (START, "", "e2d3", reason(NotItsWay, "")),
        (START, "", "e2e4q", reason(NotItsWay, "")),
        (START, "", "a1a4", reason(Blocked, "a2")),
        (START, "", "e1g1", reason(Blocked, "f1")),
        (START, "", "e1c1", reason(Blocked, "d1")),
        (
            START,
            "e2e4 e7e5 e1e2 e8e7 e2e1 e7e8",
            "e1g1",
            reason(CastlingRightLost, ""),
        ),
        (
            "4k3/8/8/8/8/8/8/4K3 w - - 0 1",
            "",
            "e1g1",
            reason(CastlingRightLost, ""),
        ),
        (
            "4k3/8/8/8/8/8/8/3K3R w - - 0 1",
            "",
            "d1f1",
            reason(NotItsWay, ""),
        ),
        (
            "4k3/8/8/8/4r3/8/8/4K2R w K - 0 1",
            "",
            "e1g1",
            reason(CastlingInCheck, "e4"),
        ),
        (
            "4k3/8/8/8/5r2/8/8/4K2R w K - 0 1",
            "",
            "e1g1",
            reason(CastlingThroughAttack, "f4"),
        ),
        (
            "4k3/8/8/8/6r1/8/8/4K2R w K - 0 1",
            "",
            "e1g1",
            reason(CastlingThroughAttack, "g4"),
        ),
        (
            START,
            "e2e4 a7a6 e4e5 d7d5 h2h3 h7h6",
            "e5d6",
            reason(EnPassantExpired, "d5"),
        ),
        (START, "e2e4 a7a6 e4e5 d7d5", "e5f6", reason(NotItsWay, "")),
        (
            "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1",
            "",
            "c3e2",
            reason(Pinned, "b4"),
        ),
        (
            "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 2",
            "",
            "e5d6",
            reason(UncoversCheck, "h5"),
        ),
        (
            "4k3/8/8/8/8/8/3r4/4K3 w - - 0 1",
            "",
            "e1e2",
            reason(StepsIntoCheck, "d2"),
        ),
        (
            "4k3/8/8/8/4r3/8/8/4KN2 w - - 0 1",
            "",
            "f1g3",
            reason(StaysInCheck, "e4"),
        ),
    ];
    for (fen, moves, attempt, expected) in cases {
        assert_eq!(
            judge_after(fen, moves, attempt),
            Some(expected),
            "{fen} {moves} {attempt}"
        );
    }
}

/// FIDE 3.7.3.2, asked of the book that knows every piece's way: a pawn that made its double step in this
/// line, and not with the last ply, can no longer be taken en passant, and no other pawn ever could.
#[test]
fn en_passant_has_expired_for_those_pawns_only_that_made_their_double_step_in_the_line() {
    let mut expired = 0;
    for seed in 0..60 {
        let (mut line, mut dice) = (Line::new(Start::standard()), Dice::new(seed, 3));
        for _ in 0..70 {
            let legal = line.end().legal_moves();
            // Pawns more often than not, so that they come to stand beside each other.
            let pawns: Vec<_> = legal.iter().filter(|mv| mv.role() == Role::Pawn).collect();
            let mv = match (dice.chance(2, 3), legal.is_empty()) {
                (_, true) => break,
                (true, false) if !pawns.is_empty() => *pawns[dice.below(pawns.len())],
                _ => legal[dice.below(legal.len())],
            };
            line.push(mv).unwrap();
            let (plies, board, turn) = (line.len(), line.end().board(), line.end().turn());
            let judge = Scene::new(&line, plies).judge();
            for from in board.by_piece(Role::Pawn.of(turn)) {
                for to in attacks::pawn_attacks(turn, from) & !board.occupied() {
                    let beside = Square::from_coords(to.file(), from.rank());
                    let pawn = (line.roster().piece_on(beside, plies))
                        .filter(|_| board.piece_at(beside) == Some(Role::Pawn.of(!turn)));
                    let double = pawn.is_some_and(|pawn| {
                        let steps = pawn.steps(plies);
                        let came_last = steps.last().is_some_and(|step| step.ply + 1 == plies);
                        steps.len() == 1 && pawn.home.distance(beside) == 2 && !came_last
                    });
                    let attempt = Attempt {
                        from,
                        to,
                        promotion: None,
                    };
                    let illegal = judge.illegal(attempt);
                    let said = illegal.filter(|illegal| illegal.reason == Reason::EnPassantExpired);
                    assert_eq!(said.is_some(), double, "{attempt}");
                    assert!(said.is_none_or(|said| said.by == Some(beside)));
                    expired += usize::from(double);
                }
            }
        }
    }
    assert!(expired > 200, "{expired}");
}

#[test]
fn a_check_that_is_met_is_no_reason() {
    let blocks = judge_after("4k3/8/8/8/4r3/8/8/4KN2 w - - 0 1", "", "f1e3");
    assert_eq!(blocks, None);
}

/// FIDE 3.8.2.2: only the king's own squares matter; the rook and the b-file square may be attacked.
#[test]
fn castling_is_prevented_only_by_attacks_on_the_kings_way() {
    let cases = [
        ("1r2k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", true, true),
        ("3rk3/8/8/8/8/8/8/R3K2R w KQ - 0 1", true, false),
        ("4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1", false, true),
        ("4k1r1/8/8/8/8/8/8/R3K2R w KQ - 0 1", false, true),
        ("4rk2/8/8/8/8/8/8/R3K2R w KQ - 0 1", false, false),
        ("4k2r/8/8/8/8/8/8/R3K2R w KQk - 0 1", true, true),
        ("4k3/8/8/8/8/8/8/RN2K2R w KQ - 0 1", true, false),
    ];
    for (fen, short, long) in cases {
        assert_eq!(judge_after(fen, "", "e1g1").is_none(), short, "{fen}");
        assert_eq!(judge_after(fen, "", "e1c1").is_none(), long, "{fen}");
    }
}

/// Two pieces attack c1: the rook on c2 as the board stands, the one on a1 only once the castling rook
/// has left b1. The board as it stands comes first; what castling uncovers is the reason where nothing
/// else is.
#[test]
fn an_attack_that_stands_is_told_before_one_that_castling_uncovers() {
    let attempt = |fen: &str| {
        let line = Line::new(Start::from_fen(fen, CastlingMode::Chess960).unwrap());
        Scene::new(&line, 0)
            .judge()
            .illegal("d1b1".parse().unwrap())
    };
    let through = |by| Some(reason(Reason::CastlingThroughAttack, by));
    let both = "1r1k1r2/1b6/1Np5/2n5/3B4/8/2r5/rR1K1R2 w KQkq - 0 1";
    assert_eq!(attempt(both), through("c2"));
    let uncovered = "1r1k1r2/1b6/1Np5/2n5/3B4/8/8/rR1K1R2 w KQkq - 0 1";
    assert_eq!(attempt(uncovered), through("a1"));
}
