//! Forced mates: compositions with their published solutions, positions without a mate, and the
//! search held against a plain one that knows no shortcut.

use sansvoir::exercise::Dice;
use sansvoir::game::Start;
use sansvoir::question::mating::{self, Mating, best_defence, search};
use shakmaty::san::San;
use shakmaty::{CastlingMode, Chess, Move, Position};

/// A composition: who made it and where it was printed, the moves to mate, the diagram, the key.
struct Composition {
    source: &'static str,
    moves: u32,
    fen: &'static str,
    key: &'static str,
}

/// A wrong diagram shows up as no key, several keys or a shorter mate.
const COMPOSITIONS: [Composition; 10] = [
    Composition {
        source: "P. Morphy, New York Clipper, 28 June 1856",
        moves: 2,
        fen: "kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1",
        key: "Ra6",
    },
    Composition {
        source: "S. Loyd 1857, 'Organ pipes'",
        moves: 2,
        fen: "2brrb2/8/p7/7Q/1p1kpPp1/1P1pN1K1/3P4/8 w - - 0 1",
        key: "Qa5",
    },
    Composition {
        // Only the diagram is published here; the key was computed.
        source: "W. Speckmann, Neue Zürcher Zeitung 1959",
        moves: 2,
        fen: "5k1K/3R4/6B1/5r1n/8/5b2/5Q2/8 w - - 0 1",
        key: "Qa2",
    },
    Composition {
        source: "J. Kling, The Chess Euclid 1849, no. 23",
        moves: 2,
        fen: KLING,
        key: "axb6",
    },
    Composition {
        source: "S. Loyd, New York Albion, January 1857",
        moves: 3,
        fen: LOYD_ALBION,
        key: "Rf4",
    },
    Composition {
        source: "S. Loyd, Chess Monthly 1857",
        moves: 3,
        fen: "6R1/2K5/8/8/5p2/6p1/2Q2Nk1/8 w - - 0 1",
        key: "Ng4",
    },
    Composition {
        source: "S. Loyd 1859, 'Charles XII at Bender'; The Spectator, 20 December 1969, Chess 470",
        moves: 3,
        fen: BENDER,
        key: "Rxg3",
    },
    Composition {
        source: "the same, its second part",
        moves: 4,
        fen: BENDER_WITHOUT_KNIGHT,
        key: "hxg3",
    },
    Composition {
        source: "S. Loyd, New York Clipper, 11 October 1856",
        moves: 4,
        fen: "n7/3p1p2/NpkNp1p1/1p2P3/3Q4/6B1/b7/4K3 w - - 0 1",
        key: "Qg1",
    },
    Composition {
        source: "S. Loyd, Frank Leslie's 1856",
        moves: 4,
        fen: "8/6Br/q3Q3/7B/1r1nR3/3k4/2R5/6K1 w - - 0 1",
        key: "Rxd4",
    },
];

const KLING: &str = "R7/7q/7r/Pp6/5p1r/7P/4Q3/k3K2R w K b6 0 1";
const LOYD_ALBION: &str = "8/8/8/8/8/6P1/6k1/4KR1R w K - 0 1";
const BENDER: &str = "8/6R1/7p/5K1k/8/6p1/5bPP/4N3 w - - 0 1";
const BENDER_WITHOUT_KNIGHT: &str = "8/6R1/7p/5K1k/8/6p1/5bPP/8 w - - 0 1";

fn at(fen: &str) -> Chess {
    let start = Start::from_fen(fen, CastlingMode::Standard).expect(fen);
    start.position().clone()
}

fn mv(position: &Chess, text: &str) -> Move {
    text.parse::<San>().unwrap().to_move(position).expect(text)
}

fn after(position: &Chess, mv: Move) -> Chess {
    position.clone().play(mv).unwrap()
}

fn found(position: &Chess, moves: u32) -> Mating {
    search(position, moves, &mut || true)
}

/// The shortest mate within four moves and the texts of its keys.
fn keys(fen: &str) -> (u32, Vec<String>) {
    let position = at(fen);
    let Mating::Mates { keys, in_moves } = found(&position, 4) else {
        panic!("no mate in {fen}");
    };
    let san = |key: Move| San::from_move(&position, key).to_string();
    (in_moves, keys.into_iter().map(san).collect())
}

#[test]
fn each_composition_has_its_one_published_key_and_no_shorter_mate() {
    for Composition {
        source,
        moves,
        fen,
        key,
    } in COMPOSITIONS
    {
        assert_eq!(keys(fen), (moves, vec![key.to_owned()]), "{source}");
        let none = Mating::NoMate {
            searched: moves - 1,
        };
        assert_eq!(found(&at(fen), moves - 1), none, "{source}");
    }
}

#[test]
fn a_key_still_mates_where_a_move_more_is_left_and_nothing_does_where_one_is_missing() {
    for Composition {
        source,
        moves,
        fen,
        key,
    } in COMPOSITIONS
    {
        let position = at(fen);
        let key = mv(&position, key);
        let within = |moves| mating::keys(&position, moves);
        assert!(within(moves - 1).is_empty(), "{source}");
        assert_eq!(within(moves), [key], "{source}");
        if moves < 4 {
            assert!(within(moves + 1).contains(&key), "{source}");
        }
    }
}

#[test]
fn the_best_defence_holds_a_composition_out_to_its_last_move() {
    for Composition {
        source,
        moves,
        fen,
        key,
    } in COMPOSITIONS
    {
        let mut position = at(fen);
        let mut next = mv(&position, key);
        for left in (0..moves).rev() {
            assert!(!position.is_checkmate(), "{source}: mated too early");
            position = after(&position, next);
            let Some(reply) = best_defence(&position, left) else {
                assert_eq!(left, 0, "{source}: no reply");
                break;
            };
            position = after(&position, reply);
            let Mating::Mates { keys, in_moves } = found(&position, left) else {
                panic!("{source}: {reply} escapes");
            };
            assert_eq!(in_moves, left, "{source}: {reply} shortens the mate");
            next = keys[0];
        }
        assert!(position.is_checkmate(), "{source}");
    }
}

/// Plays a published solution: each move of the mating side still mates in time, and the last mates.
fn follow(fen: &str, moves: u32, solution: &str) {
    let mut position = at(fen);
    let side = position.turn();
    let mut left = moves;
    for text in solution.split_whitespace() {
        let played = mv(&position, text);
        if position.turn() == side {
            assert!(
                mating::keys(&position, left).contains(&played),
                "{solution}: {text}"
            );
            left -= 1;
        }
        position = after(&position, played);
    }
    assert!(position.is_checkmate(), "{solution}");
}

#[test]
fn every_move_of_a_published_solution_still_mates() {
    // Printed with the problems that COMPOSITIONS names.
    follow(COMPOSITIONS[0].fen, 2, "Ra6 bxa6 b7");
    follow(COMPOSITIONS[0].fen, 2, "Ra6 Be5 Rxa7");
    follow(KLING, 2, "axb6 Kb1 O-O");
    follow(KLING, 2, "axb6 Qa7 Kf2");
}

#[test]
fn the_published_second_moves_of_the_albion_problem_are_right_after_each_reply() {
    let keyed = after(&at(LOYD_ALBION), mv(&at(LOYD_ALBION), "Rf4"));
    for (reply, second) in [("Kxg3", "O-O"), ("Kxh1", "Kf2")] {
        let replied = after(&keyed, mv(&keyed, reply));
        assert!(
            mating::keys(&replied, 2).contains(&mv(&replied, second)),
            "{second}"
        );
    }
}

#[test]
fn a_mate_that_needs_castling_or_en_passant_is_lost_with_the_right_to_it() {
    for (fen, without, moves) in [
        (KLING, KLING.replace(" b6 ", " - "), 2),
        (LOYD_ALBION, LOYD_ALBION.replace(" K ", " - "), 3),
    ] {
        assert_ne!(at(fen), at(&without));
        let none = Mating::NoMate { searched: moves };
        assert_eq!(found(&at(&without), moves), none, "{without}");
    }
}

#[test]
fn a_promotion_to_a_knight_is_found() {
    // OwnSummary position: a queen on f8 gives no check, and one on g8 is taken.
    let found = keys("6br/5Ppk/7p/8/8/8/8/K7 w - - 0 1");
    assert_eq!(found, (1, vec!["f8=N".to_owned()]));
}

#[test]
fn there_is_no_mate_where_there_cannot_be_one() {
    for (fen, why) in [
        ("8/8/4k3/8/8/4K3/8/8 w - - 0 1", "bare kings"),
        (
            "8/8/4k3/8/8/4KN2/8/8 w - - 0 1",
            "a knight alone (FIDE 5.2.2)",
        ),
        ("4k3/8/8/8/8/8/4P3/4K3 b - - 0 1", "the side without pieces"),
        ("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "stalemated already"),
        ("7k/6Q1/6K1/8/8/8/8/8 b - - 0 1", "mated already"),
    ] {
        let none = Mating::NoMate { searched: 4 };
        assert_eq!(found(&at(fen), 4), none, "{why}");
    }
    let array = Chess::new();
    assert_eq!(found(&array, 3), Mating::NoMate { searched: 3 });
}

#[test]
fn a_move_that_stalemates_is_no_mate() {
    // Positions of our own: the queen's nearest squares leave Black without a move and without check.
    let position = at("7k/8/6K1/8/8/8/8/5Q2 w - - 0 1");
    assert!(!mating::keys(&position, 4).contains(&mv(&position, "Qf7")));
    assert!(mating::keys(&position, 1).contains(&mv(&position, "Qf8")));
    let trap = at("k7/8/1K6/8/8/8/8/2Q5 w - - 0 1");
    let stalemating = mv(&trap, "Qc7");
    assert!(after(&trap, stalemating).is_stalemate());
    assert!(!mating::keys(&trap, 4).contains(&stalemating));
    assert_eq!(best_defence(&after(&trap, stalemating), 3), None);
}

#[test]
fn the_best_defence_escapes_where_it_can() {
    // The king that steps to g7 is out of the net; f8 meets the mate in one.
    let position = at("6k1/5ppp/8/8/8/8/8/R5K1 b - - 0 1");
    let reply = best_defence(&position, 1).unwrap();
    assert_eq!(
        found(&after(&position, reply), 1),
        Mating::NoMate { searched: 1 }
    );
    assert_eq!(best_defence(&position, 1), Some(reply));
}

#[test]
fn a_search_stops_when_its_budget_is_spent() {
    let position = at(COMPOSITIONS[8].fen);
    let stopped_after = |calls: u32| {
        let mut asked = 0;
        let result = search(&position, 4, &mut || {
            asked += 1;
            asked <= calls
        });
        (result, asked)
    };
    assert_eq!(stopped_after(0), (Mating::Stopped, 1));
    assert_eq!(stopped_after(20), (Mating::Stopped, 21));
    let (through, needed) = stopped_after(u32::MAX);
    assert!(matches!(through, Mating::Mates { in_moves: 4, .. }));
    // The same positions in the same order every time.
    assert_eq!(stopped_after(needed), (through, needed));
    assert_eq!(stopped_after(needed - 1), (Mating::Stopped, needed));
}

/// Tells by trying all moves in turn, and nothing else, whether the side to move mates in time.
fn plainly(position: &Chess, moves: u32) -> bool {
    moves > 0
        && position
            .legal_moves()
            .into_iter()
            .any(|mv| plainly_forces(position, mv, moves))
}

fn plainly_forces(position: &Chess, mv: Move, moves: u32) -> bool {
    let after_it = after(position, mv);
    after_it.is_checkmate()
        || (!after_it.is_stalemate()
            && after_it
                .legal_moves()
                .into_iter()
                .all(|reply| plainly(&after(&after_it, reply), moves - 1)))
}

/// Plays at random from `fen`, and asks both searches all along the way.
fn compare(fen: &str, seed: u64, plies: u32, moves: u32) -> [u32; 4] {
    let mut dice = Dice::new(seed, 0);
    let mut position = at(fen);
    let mut mates = [0; 4];
    for _ in 0..plies {
        let legal = position.legal_moves();
        let Some(next) = dice.pick(&legal).copied() else {
            break;
        };
        let shortest = (1..=moves).find(|within| plainly(&position, *within));
        match found(&position, moves) {
            Mating::Mates { keys, in_moves } => {
                assert_eq!(shortest, Some(in_moves), "{position:?}");
                let forcing = |mv: &Move| plainly_forces(&position, *mv, in_moves);
                let by_trying: Vec<Move> = legal.iter().copied().filter(forcing).collect();
                assert_eq!(keys.len(), by_trying.len(), "{position:?}");
                assert!(by_trying.iter().all(|mv| keys.contains(mv)), "{position:?}");
                mates[in_moves as usize] += 1;
            }
            Mating::NoMate { searched } => {
                assert_eq!((shortest, searched), (None, moves), "{position:?}");
                mates[0] += 1;
            }
            Mating::Stopped => panic!("the budget has no end"),
        }
        position = after(&position, next);
    }
    mates
}

#[test]
fn the_search_agrees_with_trying_everything() {
    // OwnSummary starts, rich in mates, checks from behind, promotions, castling and en passant.
    let starts = [
        (
            "r3k2r/pppq1ppp/8/3Pp3/8/8/PPPQ1PPP/R3K2R w KQkq e6 0 1",
            2,
            40,
        ),
        ("6k1/PPP3pp/8/8/8/8/pp3PPP/6K1 w - - 0 1", 2, 40),
        ("7k/8/5K2/8/8/3R4/3N4/8 w - - 0 1", 3, 12),
        ("k7/2P5/1K6/8/8/8/6p1/8 w - - 0 1", 3, 12),
        ("4k3/8/8/3QB3/8/8/8/4K2R w K - 0 1", 2, 40),
    ];
    let mut seen = [0; 4];
    for (fen, moves, plies) in starts {
        for seed in 1..=5 {
            for (all, some) in seen.iter_mut().zip(compare(fen, seed, plies, moves)) {
                *all += some;
            }
        }
    }
    assert!(seen.iter().all(|count| *count >= 4), "{seen:?}");
}
