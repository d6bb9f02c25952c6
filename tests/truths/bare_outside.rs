//! The truths over the bare board against a table that was computed outside this project, in full:
//! tests/outside/bare.py says how.

use sansvoir::board::{Pair, PieceAt, Travel};
use sansvoir::question::BareQuestion;
use serde_json::{Value, json};
use shakmaty::{Bitboard, Square};

const TABLE: &str = include_str!("../outside/bare.txt");

/// The records of one name, without it, word by word.
fn records(name: &str) -> Vec<Vec<&'static str>> {
    TABLE
        .lines()
        .map(|line| line.split(' ').collect::<Vec<_>>())
        .filter(|words| words[0] == name)
        .map(|words| words[1..].to_vec())
        .collect()
}

fn truth(kind: &str, subject: &Value) -> Value {
    let json = json!({"kind": kind, "subject": subject});
    let question: BareQuestion = serde_json::from_value(json).unwrap();
    serde_json::to_value(question.truth()).unwrap()
}

fn square(name: &str) -> Square {
    name.parse().unwrap()
}

fn number<T: std::str::FromStr<Err: std::fmt::Debug>>(word: &str) -> T {
    word.parse().unwrap()
}

fn hexadecimal(word: &str) -> Bitboard {
    Bitboard(u64::from_str_radix(word, 16).unwrap())
}

fn names(set: Bitboard) -> Vec<String> {
    set.into_iter().map(|at| at.to_string()).collect()
}

fn squares_of(truth: &Value) -> Vec<Square> {
    let list = truth["squares"].as_array().unwrap().iter();
    list.map(|name| square(name.as_str().unwrap())).collect()
}

fn can_stand(role: &str, at: Square) -> bool {
    format!("{role}{at}").parse::<PieceAt>().is_ok()
}

#[test]
fn every_square_is_named_and_placed_from_both_sides() {
    let records = records("view");
    assert_eq!(records.len(), 2);
    for record in records {
        let view = record[0];
        assert_eq!(record.len(), 65);
        for (at, counts) in Square::ALL.into_iter().zip(&record[1..]) {
            let subject = json!({"square": at.to_string(), "view": view});
            let from_left: u32 = number(&counts[..1]);
            let from_bottom: u32 = number(&counts[1..]);
            let place = json!({"from_left": from_left, "from_bottom": from_bottom});
            assert_eq!(truth("place", &subject), place, "{at} {view}");
            let name = json!({"square": at.to_string()});
            assert_eq!(truth("name", &subject), name);
            // The marked square is the one that a learner counts off.
            let side = if view == "white" {
                shakmaty::Color::White
            } else {
                shakmaty::Color::Black
            };
            let seen = sansvoir::board::Seen::at(from_left, from_bottom).unwrap();
            assert_eq!(seen.square(side), at);
        }
    }
}

#[test]
fn every_square_has_its_color() {
    let letters = records("color")[0][0];
    assert_eq!(letters.len(), 64);
    for (at, letter) in Square::ALL.into_iter().zip(letters.chars()) {
        let color = if letter == 'l' { "light" } else { "dark" };
        let subject = json!({"square": at.to_string()});
        assert_eq!(truth("color", &subject), json!({"color": color}), "{at}");
    }
}

#[test]
fn all_pairs_are_aligned_or_not() {
    let records = records("aligned");
    assert_eq!(records.len(), 64);
    for record in records {
        for (at, letter) in Square::ALL.into_iter().zip(record[1].chars()) {
            let line = match letter {
                'f' => "file",
                'r' => "rank",
                'd' => "diagonal",
                'n' => "none",
                _ => {
                    assert_eq!(square(record[0]), at);
                    continue;
                }
            };
            let subject = json!({"squares": [record[0], at.to_string()]});
            let expected = json!({"line": line});
            assert_eq!(truth("aligned", &subject), expected, "{subject}");
        }
    }
}

#[test]
fn what_lies_between_two_aligned_squares_is_in_order_both_ways() {
    let records = records("between");
    assert_eq!(records.len(), 728);
    for record in records {
        let mut walked: Vec<Square> = record[2..].iter().map(|name| square(name)).collect();
        let (from, to) = (square(record[0]), square(record[1]));
        let between = |from, to| Pair::new(from, to).unwrap().between().collect::<Vec<_>>();
        assert_eq!(between(from, to), walked, "{from} {to}");
        walked.reverse();
        assert_eq!(between(to, from), walked, "{to} {from}");
        walked.sort_unstable();
        for squares in [[from, to], [to, from]] {
            let subject = json!({"squares": squares.map(|at| at.to_string())});
            assert_eq!(squares_of(&truth("between", &subject)), walked);
        }
    }
}

#[test]
fn every_piece_on_every_square_has_its_span() {
    let records = records("span");
    assert_eq!(records.len(), 5 * 64 + 2 * 48);
    for record in records {
        let mut pieces = vec![record[0].to_owned()];
        if !record[0].starts_with(['P', 'p']) {
            pieces.push(record[0].to_lowercase());
        }
        for piece in pieces {
            let expected = json!({"squares": record[1..]});
            assert_eq!(truth("span", &json!({"man": piece})), expected, "{piece}");
        }
    }
}

#[test]
fn distances_and_numbers_of_routes_hold_between_all_pairs() {
    let (distances, routes) = (records("distance"), records("routes"));
    assert_eq!((distances.len(), routes.len()), (320, 320));
    for (far, many) in distances.iter().zip(&routes) {
        assert_eq!(far[..2], many[..2]);
        let piece: PieceAt = far[..2].concat().parse().unwrap();
        for (n, to) in Square::ALL.into_iter().enumerate() {
            let Ok(travel) = Travel::new(piece, to, Bitboard::EMPTY) else {
                assert_eq!(to, piece.square());
                continue;
            };
            let fewest = far[2][n..=n].parse::<u32>().ok();
            assert_eq!(travel.fewest(), fewest, "{piece} {to}");
            assert_eq!(travel.routes(), number::<u64>(many[n + 2]), "{piece} {to}");
            assert_eq!(travel.unreachable().is_none(), fewest.is_some());
        }
    }
}

#[test]
fn distances_hold_among_blockers() {
    let records = records("travel");
    assert_eq!(records.len(), 4000);
    for record in records {
        let blockers = hexadecimal(record[2]);
        let subject = json!({"man": record[0], "to": record[1], "blockers": names(blockers)});
        let fewest = record[3].parse::<u32>().ok();
        for kind in ["distance", "route"] {
            assert_eq!(truth(kind, &subject), json!({"moves": fewest}), "{subject}");
        }
        let piece = record[0].parse().unwrap();
        let travel = Travel::new(piece, square(record[1]), blockers).unwrap();
        assert_eq!(travel.routes(), number::<u64>(record[4]), "{subject}");
        let route = travel.route();
        assert_eq!(route.len(), fewest.map_or(0, |moves| moves as usize + 1));
        assert_eq!(travel.misstep(&route).is_none(), fewest.is_some());
    }
}

#[test]
fn rook_and_bishop_cross_square_by_square() {
    let records = records("crossing");
    assert_eq!(records.len(), 64);
    for record in records {
        assert_eq!(record.len(), 66);
        for (at, set) in Square::ALL.into_iter().zip(&record[2..]) {
            let other = format!("{}{at}", record[1]);
            let pieces = json!({"men": [record[0], other]});
            if record[0].ends_with(&at.to_string()) {
                let json = json!({"kind": "crossing", "subject": pieces});
                assert!(serde_json::from_value::<BareQuestion>(json).is_err());
                continue;
            }
            let expected = json!({"squares": names(hexadecimal(set))});
            assert_eq!(truth("crossing", &pieces), expected, "{pieces}");
        }
    }
}

#[test]
fn any_two_pieces_cross_on_as_many_squares_and_on_the_same() {
    let records = records("crossings");
    // 28 couples of seven pieces; the first of a couple stands on 48 squares where it is a pawn.
    assert_eq!(records.len(), 25 * 64 + 3 * 48);
    for record in records {
        let (mut count, mut check) = (0, 0);
        let one: PieceAt = record[0].parse().unwrap();
        for at in Square::ALL {
            if at == one.square() || !can_stand(record[1], at) {
                continue;
            }
            let pieces = json!({"men": [record[0], format!("{}{at}", record[1])]});
            for both in squares_of(&truth("crossing", &pieces)) {
                count += 1;
                check += (at.to_u32() + 1) * (both.to_u32() + 1);
            }
        }
        assert_eq!(count, number::<u32>(record[2]), "{record:?}");
        assert_eq!(check, number::<u32>(record[3]), "{record:?}");
    }
}
