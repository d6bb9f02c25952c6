//! What holds for every sentence over the whole board.

use shakmaty::{Bitboard, Color, File, Rank, Role, Square};

use super::*;
use crate::board::{Misstep, Pair, PieceAt, Seen, Travel};
use crate::question::Reply;
use crate::question::bare::{
    Aligned, Between, Color as SquareShade, Crossing, Distance, Name, Place, Route, Span,
};

/// Fails on a line that is no clean sentence for the ear.
fn check(line: &str) {
    assert_eq!(line, clean_line(line));
    assert!(line.ends_with(['.', '?']), "{line}");
    for unsaid in ["..", " .", " ,", ": .", "  ", "none.", "{", "_"] {
        assert!(!line.contains(unsaid), "{line}");
    }
    assert!(!line.contains(['|', '+', '#', '*', '=', '"']), "{line}");
    assert!(line.chars().count() <= 240, "{line}");
}

fn told(question: BareQuestion) -> String {
    question::truth(&Question::Bare(question), &question.truth())
}

/// Asks, answers and gives up, and checks all that is said.
fn check_all(question: BareQuestion, replies: &[Reply]) {
    check(&question::question(&put_bare(question)));
    let truth = question.truth();
    check(&told(question));
    let marks = replies
        .iter()
        .map(|reply| (question.mark(reply), Some(reply)));
    for (mark, reply) in marks.chain([(Mark::pass(&truth), None)]) {
        let reasons = question::why(&Why::Bare(question.why(&mark, reply)));
        assert!(!reasons.is_empty(), "{question:?} {reply:?}");
        assert!(reasons.len() <= 9, "{question:?} {reply:?}");
        for line in &reasons {
            check(line);
        }
    }
}

fn pairs() -> impl Iterator<Item = Pair> {
    Square::ALL.into_iter().flat_map(|from| {
        Square::ALL
            .into_iter()
            .filter_map(move |to| Pair::new(from, to))
    })
}

fn pieces() -> impl Iterator<Item = PieceAt> {
    Role::ALL.into_iter().flat_map(|role| {
        Color::ALL.into_iter().flat_map(move |color| {
            Square::ALL
                .into_iter()
                .filter_map(move |square| PieceAt::new(role.of(color), square))
        })
    })
}

#[test]
fn names_and_places_of_all_squares_are_said_cleanly_from_both_sides_with_any_reply() {
    for view in Color::ALL {
        for square in Square::ALL {
            let squares = Square::ALL.map(Reply::Square);
            let name = BareQuestion::Name(Name { square, view });
            check_all(name, &squares);
            let places = Square::ALL.map(|said| Reply::Place(Seen::of(said, view)));
            check_all(BareQuestion::Place(Place { square, view }), &places);
            for line in marked_board(&put_bare(name), true) {
                check(&line);
            }
        }
    }
}

#[test]
fn the_marked_square_lies_where_the_side_sees_it_and_no_name_is_drawn() {
    for view in Color::ALL {
        for square in Square::ALL {
            let board = marked_board(&put_bare(BareQuestion::Name(Name { square, view })), false);
            let seen = Seen::of(square, view);
            for (n, row) in board.iter().enumerate() {
                let marked = n == 9 - seen.from_bottom() as usize;
                let at = marked.then(|| 3 * seen.from_left() as usize - 2);
                assert_eq!(row.find("[*]"), at, "{square} {row}");
                assert_eq!(row.matches('*').count(), usize::from(marked));
                assert!(!row.contains(char::is_alphanumeric), "{row}");
                assert_eq!(row.len(), 26);
            }
            assert_eq!(board.len(), 10);
        }
    }
}

#[test]
fn colors_of_all_squares_are_said_cleanly() {
    for square in Square::ALL {
        check_all(BareQuestion::Color(SquareShade { square }), &[]);
    }
}

#[test]
fn all_pairs_of_squares_are_said_cleanly_in_both_orders() {
    assert_eq!(pairs().count(), 2 * 2016);
    for squares in pairs() {
        check_all(BareQuestion::Aligned(Aligned { squares }), &[]);
        if let Some(question) = Between::new(squares) {
            let replies = [
                Bitboard::EMPTY,
                Bitboard::FULL,
                squares.line(),
                Bitboard::from(squares.from()),
            ];
            check_all(
                BareQuestion::Between(question),
                &replies.map(Reply::Squares),
            );
        }
    }
}

#[test]
fn spans_of_all_pieces_on_all_squares_are_said_cleanly() {
    for piece in pieces() {
        let replies = [
            Bitboard::EMPTY,
            Bitboard::FULL,
            Bitboard::from(piece.square()),
        ];
        check_all(
            BareQuestion::Span(Span { piece }),
            &replies.map(Reply::Squares),
        );
        let asked = BareQuestion::Span(Span { piece });
        let off = !piece.attacks(Bitboard::EMPTY);
        for square in off {
            check_all(asked, &[Reply::Squares(square.into())]);
        }
    }
}

#[test]
fn crossings_of_two_pieces_are_said_cleanly() {
    for one in Role::ALL {
        for other in Role::ALL {
            // The other half of the board is this one in a mirror.
            for pair in pairs().filter(|pair| pair.from().file() <= File::D) {
                let pieces = (
                    PieceAt::new(one.of(Color::White), pair.from()),
                    PieceAt::new(other.of(Color::Black), pair.to()),
                );
                let (Some(one), Some(other)) = pieces else {
                    continue;
                };
                let question = Crossing::new([one, other]).expect("two squares");
                let replies = [Bitboard::EMPTY, Bitboard::FULL, Bitboard::from(pair.to())];
                check_all(
                    BareQuestion::Crossing(question),
                    &replies.map(Reply::Squares),
                );
            }
        }
    }
}

#[test]
fn journeys_of_all_pieces_are_said_cleanly_with_and_without_blockers() {
    let ring = |square: Square| shakmaty::attacks::king_attacks(square);
    // A journey looks the same for either side, and the other quarters are this one in a mirror.
    let near =
        |piece: &PieceAt| piece.square().file() <= File::D && piece.square().rank() <= Rank::Fourth;
    let travels =
        |piece: &PieceAt| piece.piece().color == Color::White && piece.piece().role != Role::Pawn;
    for piece in pieces().filter(travels).filter(near) {
        for to in Square::ALL {
            let from = piece.square();
            let center = Bitboard::from_iter([Square::D4, Square::E5]);
            let blockers = [
                Bitboard::EMPTY,
                Bitboard::from(to),
                Bitboard::from(Square::E4),
                center,
                ring(from),
                ring(to),
            ];
            for blockers in blockers {
                let Ok(travel) = Travel::new(piece, to, blockers.without(from)) else {
                    continue;
                };
                check_all(BareQuestion::Distance(Distance { travel }), &[]);
                let question = BareQuestion::Route(Route { travel });
                check(&told(question));
                for route in [
                    vec![to],
                    vec![from],
                    vec![from, from],
                    vec![from, to, from, to],
                ] {
                    let wrong = travel.misstep(&route).is_some();
                    let reply = Reply::Route(route);
                    let mark = question.mark(&reply);
                    let reasons = question::why(&Why::Bare(question.why(&mark, Some(&reply))));
                    assert!(!wrong || !reasons.is_empty(), "{question:?} {reply:?}");
                    for line in &reasons {
                        check(line);
                    }
                }
            }
        }
    }
}

#[test]
fn the_route_that_is_told_is_a_shortest_one() {
    for subject in [
        r#""man":"Na1","to":"h8""#,
        r#""man":"Bc1","to":"h6","blockers":["e3"]"#,
        r#""man":"Ke1","to":"e3","blockers":["e2","d2"]"#,
    ] {
        let asked = of_bare("route", subject);
        let BareQuestion::Route(Route { travel }) = asked else {
            panic!("{asked:?}");
        };
        let said = told(asked);
        let (_, told) = said.rsplit_once("goes from ").expect("a route");
        let route: Vec<Square> = told
            .split([' ', ',', '.'])
            .filter_map(|word| word.parse().ok())
            .collect();
        assert_eq!(travel.misstep(&route), None::<Misstep>, "{said}");
    }
}
