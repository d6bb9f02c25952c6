//! The bare board against published numbers and what every player knows.

use std::collections::{BTreeMap, BTreeSet, HashMap, VecDeque};

use sansvoir::board::{
    Alignment, Edge, Misstep, Pair, Parity, PieceAt, Seen, Span, SquareColor, Travel, TravelError,
    Unreachable,
};
use shakmaty::{Bitboard, Color, Role, Square};

/// How many pieces attack so many squares: size of the span, number of squares to stand on.
type Histogram = &'static [(usize, usize)];

fn square(name: &str) -> Square {
    name.parse().unwrap()
}

fn squares(names: &str) -> Vec<Square> {
    names.split_whitespace().map(square).collect()
}

fn pair(one: &str, other: &str) -> Pair {
    Pair::new(square(one), square(other)).unwrap()
}

fn piece(role: Role, at: Square) -> Option<PieceAt> {
    PieceAt::new(role.of(Color::White), at)
}

fn travel(piece: &str, to: &str, blockers: &str) -> Travel {
    let blockers = squares(blockers).into_iter().collect();
    Travel::new(piece.parse().unwrap(), square(to), blockers).unwrap()
}

fn fewest(role: Role, from: Square, to: Square) -> Option<u32> {
    if from == to {
        return Some(0);
    }
    let piece = piece(role, from).unwrap();
    Travel::new(piece, to, Bitboard::EMPTY).unwrap().fewest()
}

/// All ordered pairs of squares, a square with itself included.
fn ordered_pairs() -> impl Iterator<Item = (Square, Square)> {
    Square::ALL
        .into_iter()
        .flat_map(|from| Square::ALL.into_iter().map(move |to| (from, to)))
}

/// All pairs of different squares, each once: 64 · 63 / 2.
fn pairs() -> Vec<Pair> {
    ordered_pairs()
        .filter(|(from, to)| from < to)
        .map(|(from, to)| Pair::new(from, to).unwrap())
        .collect()
}

fn counted<T: Ord>(values: impl IntoIterator<Item = T>) -> BTreeMap<T, usize> {
    let mut counts = BTreeMap::new();
    for value in values {
        *counts.entry(value).or_insert(0) += 1;
    }
    counts
}

fn span_sizes(role: Role) -> BTreeMap<usize, usize> {
    let pieces = Square::ALL.into_iter().filter_map(|at| piece(role, at));
    counted(pieces.map(|piece| Span::of(piece).squares.count()))
}

#[test]
fn each_player_has_a_light_square_at_the_near_right() {
    // FIDE Laws of Chess 2023, 2.1.
    for view in Color::ALL {
        let corner = Seen::at(8, 1).unwrap().square(view);
        assert_eq!(SquareColor::of(corner), SquareColor::Light, "{view}");
    }
    assert_eq!(SquareColor::of(Square::H1), SquareColor::Light);
    assert_eq!(SquareColor::of(Square::A8), SquareColor::Light);
}

#[test]
fn neighbors_on_a_file_or_rank_differ_in_color_and_there_are_as_many_of_each() {
    // FIDE Laws of Chess 2023, 2.1: 64 squares, alternately light and dark.
    for pair in pairs() {
        if pair.files_apart() + pair.ranks_apart() == 1 {
            let [one, other] = pair.squares().map(SquareColor::of);
            assert_ne!(one, other, "{pair:?}");
        }
    }
    let dark = |at: &Square| SquareColor::of(*at) == SquareColor::Dark;
    assert_eq!(Square::ALL.iter().filter(|at| dark(at)).count(), 32);
}

#[test]
fn the_parity_sum_tells_the_colors_that_players_know_by_heart() {
    // Common practice, no source.
    for at in squares("a1 h8 e1 d8 a3 g5 d4 b6 h2") {
        assert_eq!(Parity::of(at).sum() % 2, 0, "{at}");
        assert_eq!(SquareColor::of(at), SquareColor::Dark, "{at}");
    }
    for at in squares("h1 a8 d1 e8 c2 f7") {
        assert_eq!(Parity::of(at).sum() % 2, 1, "{at}");
        assert_eq!(SquareColor::of(at), SquareColor::Light, "{at}");
    }
    let parity = Parity::of(Square::G6);
    assert_eq!((parity.file, parity.rank, parity.sum()), (7, 6, 13));
}

#[test]
fn black_sees_the_files_from_h_to_a_and_the_ranks_count_down() {
    // Common practice, no source.
    for n in 1..=8 {
        let bottom = Seen::at(n, 1).unwrap().square(Color::Black);
        assert_eq!(bottom, squares("h8 g8 f8 e8 d8 c8 b8 a8")[n as usize - 1]);
        let left = Seen::at(1, n).unwrap().square(Color::Black);
        assert_eq!(left, squares("h8 h7 h6 h5 h4 h3 h2 h1")[n as usize - 1]);
    }
    for at in Square::ALL {
        let seen = Seen::of(at, Color::White);
        assert_eq!(seen.from_left(), at.file().to_u32() + 1);
        assert_eq!(seen.from_bottom(), at.rank().to_u32() + 1);
        let black = Seen::of(at, Color::Black);
        assert_eq!(black.from_left(), 9 - seen.from_left());
        assert_eq!(black.from_bottom(), 9 - seen.from_bottom());
        let turned = seen.square(Color::Black);
        assert_eq!(SquareColor::of(turned), SquareColor::of(at));
    }
    assert_eq!(
        Seen::of(Square::E4, Color::White),
        Seen::of(Square::D5, Color::Black)
    );
    assert_eq!(Seen::at(0, 1), None);
    assert_eq!(Seen::at(1, 9), None);
}

#[test]
fn the_pairs_of_squares_fall_into_lines_as_counted() {
    // Counted twice by brute force outside this project (own loops, python-chess 1.11.2).
    let pairs = pairs();
    let of = |line| pairs.iter().filter(|pair| pair.alignment() == line).count();
    assert_eq!(pairs.len(), 2016);
    assert_eq!(of(Alignment::File) + of(Alignment::Rank), 448);
    assert_eq!(of(Alignment::File), of(Alignment::Rank));
    assert_eq!(of(Alignment::Diagonal), 280);
    assert_eq!(2016 - of(Alignment::None), 728);
    let apart = |pair: &Pair| (pair.files_apart(), pair.ranks_apart());
    let knights = pairs.iter().filter(|p| matches!(apart(p), (1, 2) | (2, 1)));
    assert_eq!(knights.count(), 168);
    let kings = pairs.iter().filter(|p| apart(p).0.max(apart(p).1) == 1);
    assert_eq!(kings.count(), 210);
}

#[test]
fn there_are_26_diagonals_of_the_counted_lengths_and_colors_and_16_files_and_ranks() {
    // Counted twice by brute force outside this project (own loops, python-chess 1.11.2).
    let lines = |wanted: fn(Pair) -> bool| -> Vec<u64> {
        let found: BTreeSet<u64> = pairs()
            .into_iter()
            .filter(|pair| wanted(*pair))
            .map(|pair| u64::from(pair.line()))
            .collect();
        found.into_iter().collect()
    };
    let rising = |pair: Pair| {
        pair.alignment() == Alignment::Diagonal && (pair.from().file() < pair.to().file())
    };
    let falling = |pair: Pair| {
        pair.alignment() == Alignment::Diagonal && (pair.from().file() > pair.to().file())
    };
    for (direction, light) in [(rising as fn(Pair) -> bool, 6), (falling, 7)] {
        let diagonals = lines(direction);
        let mut lengths: Vec<u32> = diagonals.iter().map(|line| line.count_ones()).collect();
        lengths.sort_unstable();
        assert_eq!(lengths, [2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8]);
        let is_light = |line: &&u64| {
            Bitboard(**line)
                .into_iter()
                .all(|at| SquareColor::of(at) == SquareColor::Light)
        };
        assert_eq!(diagonals.iter().filter(is_light).count(), light);
        let is_dark = |line: &&u64| {
            Bitboard(**line)
                .into_iter()
                .all(|at| SquareColor::of(at) == SquareColor::Dark)
        };
        assert_eq!(diagonals.iter().filter(is_dark).count(), 13 - light);
    }
    let straight = lines(|pair| matches!(pair.alignment(), Alignment::File | Alignment::Rank));
    assert_eq!(straight.len(), 16);
    assert!(straight.iter().all(|line| line.count_ones() == 8));
}

#[test]
fn b2_and_f6_lie_on_the_long_dark_diagonal() {
    // Common practice, no source.
    let pair = pair("b2", "f6");
    assert_eq!(pair.alignment(), Alignment::Diagonal);
    assert_eq!(pair.between().collect::<Vec<_>>(), squares("c3 d4 e5"));
    assert_eq!(pair.line_ends(), Some([Square::A1, Square::H8]));
}

#[test]
fn what_lies_between_comes_in_order_from_the_first_square() {
    // FIDE Laws of Chess 2023, 2.4: files, ranks and diagonals; read off the board by hand.
    let between = |one, other| pair(one, other).between().collect::<Vec<_>>();
    assert_eq!(between("c1", "g5"), squares("d2 e3 f4"));
    assert_eq!(between("g5", "c1"), squares("f4 e3 d2"));
    assert_eq!(between("h1", "e4"), squares("g2 f3"));
    assert_eq!(between("a7", "a3"), squares("a6 a5 a4"));
    assert_eq!(between("b5", "e5"), squares("c5 d5"));
    assert_eq!(between("a1", "b2"), []);
    assert_eq!(between("a1", "b3"), []);
    assert_eq!(
        pair("e4", "f3").line_ends(),
        Some(["a8", "h1"].map(square)),
        "the end behind the first square comes first"
    );
    assert_eq!(pair("f3", "e4").line_ends(), Some(["h1", "a8"].map(square)));
    assert_eq!(pair("a1", "b3").line_ends(), None);
    assert_eq!(Pair::new(Square::A1, Square::A1), None);
}

#[test]
fn the_pieces_attack_as_many_squares_as_published() {
    let table: [(Role, usize, Histogram); 5] = [
        // OEIS A033586, 4n(2n+1) at n = 7: king moves on (n+1)x(n+1).
        (Role::King, 420, &[(3, 4), (5, 24), (8, 36)]),
        // OEIS A035005: queen.
        (Role::Queen, 1456, &[(21, 28), (23, 20), (25, 12), (27, 4)]),
        // OEIS A035006, 2n^2(n-1): rook.
        (Role::Rook, 896, &[(14, 64)]),
        // OEIS A002492(7), named as the bishop's in A035005 and A035006; 1456 - 896.
        (Role::Bishop, 560, &[(7, 28), (9, 20), (11, 12), (13, 4)]),
        // OEIS A035008, 8n(n+1) on an (n+2)^2 board; A180319 states 336.
        (
            Role::Knight,
            336,
            &[(2, 4), (3, 8), (4, 20), (6, 16), (8, 16)],
        ),
    ];
    for (role, total, histogram) in table {
        let sizes = span_sizes(role);
        let sum: usize = sizes.iter().map(|(size, pieces)| size * pieces).sum();
        assert_eq!(sum, total, "{role:?}");
        assert_eq!(sizes.into_iter().collect::<Vec<_>>(), histogram, "{role:?}");
    }
    // 84 captures of the 140 pawn moves of OEIS A049450(7); the rest are 56 pushes, not attacks.
    assert_eq!(span_sizes(Role::Pawn), BTreeMap::from([(1, 12), (2, 36)]));
}

#[test]
fn a_bishop_gains_two_squares_with_each_ring_and_so_does_a_queen() {
    // 7 and 21 on the edge; counted twice by brute force outside this project.
    let ring = |at| Span::of(piece(Role::Bishop, at).unwrap()).ring;
    for at in Square::ALL {
        let size = |role| Span::of(piece(role, at).unwrap()).squares.count();
        assert_eq!(size(Role::Bishop), 7 + 2 * ring(at) as usize, "{at}");
        assert_eq!(size(Role::Queen), 21 + 2 * ring(at) as usize, "{at}");
    }
    let center: Vec<Square> = Square::ALL
        .into_iter()
        .filter(|at| ring(*at) == 3)
        .collect();
    assert_eq!(center, squares("d4 e4 d5 e5"));
}

#[test]
fn the_edges_that_cut_a_span_are_named() {
    // Read off the board by hand.
    let cut = |text: &str| {
        let span = Span::of(text.parse().unwrap());
        (span.lost, span.cut_by)
    };
    assert_eq!(cut("Nb3"), (2, vec![Edge::AFile]));
    assert_eq!(cut("ng8"), (5, vec![Edge::HFile, Edge::EighthRank]));
    assert_eq!(cut("Ne5"), (0, vec![]));
    assert_eq!(cut("Bc1"), (6, vec![Edge::FirstRank]));
    assert_eq!(cut("Qb2"), (4, vec![Edge::AFile, Edge::FirstRank]));
    assert_eq!(cut("Bd4"), (0, vec![]));
    assert_eq!(cut("Ra1"), (0, vec![]));
    assert_eq!(cut("Kh4"), (3, vec![Edge::HFile]));
    assert_eq!(cut("ph7"), (1, vec![Edge::HFile]));
    assert_eq!(cut("Pe2"), (0, vec![]));
}

#[test]
fn a_king_needs_the_larger_of_the_differences() {
    // FIDE Laws of Chess 2023, 3.8.1: a king moves to any adjoining square.
    for (from, to) in ordered_pairs() {
        assert_eq!(fewest(Role::King, from, to), Some(from.distance(to)));
    }
    // Counted by brute force outside this project.
    assert_eq!(travel("Ka1", "a8", "").routes(), 127);
    assert_eq!(travel("Ke1", "e8", "").routes(), 393);
    assert_eq!(travel("Ka1", "h8", "").routes(), 1);
}

#[test]
fn line_pieces_need_one_move_or_two_as_often_as_counted() {
    // Counted twice by brute force outside this project; the ones are OEIS A035006, A002492 and A035005.
    let counts = |role| counted(ordered_pairs().map(|(from, to)| fewest(role, from, to)));
    let expected = |one, two| BTreeMap::from([(Some(0), 64), (Some(1), one), (Some(2), two)]);
    assert_eq!(counts(Role::Rook), expected(896, 3136));
    assert_eq!(counts(Role::Queen), expected(1456, 2576));
    let mut bishop = expected(560, 1424);
    bishop.insert(None, 2048);
    assert_eq!(counts(Role::Bishop), bishop);
    for (from, to) in ordered_pairs() {
        let same = SquareColor::of(from) == SquareColor::of(to);
        assert_eq!(fewest(Role::Bishop, from, to).is_some(), same);
    }
}

#[test]
fn knight_distances_are_as_many_as_counted() {
    // Counted twice by brute force outside this project.
    let all = ordered_pairs().map(|(from, to)| fewest(Role::Knight, from, to).unwrap());
    let counts = counted(all).into_values().collect::<Vec<_>>();
    assert_eq!(counts, [64, 336, 1080, 1536, 900, 176, 4]);
    let from = |name: &str| {
        let here = square(name);
        let far = Square::ALL.into_iter().filter(|at| *at != here);
        let counts = counted(far.map(|to| fewest(Role::Knight, here, to).unwrap()));
        counts.into_values().collect::<Vec<_>>()
    };
    for corner in ["a1", "h1", "a8", "h8"] {
        assert_eq!(from(corner), [2, 9, 20, 21, 10, 1]);
    }
    assert_eq!(from("b1"), [3, 12, 23, 19, 6]);
    assert_eq!(from("g1"), [3, 12, 23, 19, 6]);
    assert_eq!(from("b2"), [4, 14, 26, 17, 2]);
    assert_eq!(from("e1"), [4, 16, 24, 15, 4]);
    assert_eq!(from("c3"), [8, 19, 24, 12]);
    for center in ["d4", "e4", "d5", "e5"] {
        assert_eq!(from(center), [8, 26, 24, 5]);
    }
}

#[test]
fn knight_distances_from_a1_and_d4_read_as_published() {
    // OEIS A049604 for the corner; d4 counted by brute force outside this project. Rank 8 first.
    let a1 = "5 4 5 4 5 4 5 6  4 3 4 3 4 5 4 5  3 4 3 4 3 4 5 4  2 3 2 3 4 3 4 5
              3 2 3 2 3 4 3 4  2 1 4 3 2 3 4 5  3 4 1 2 3 4 3 4  0 3 2 3 2 3 4 5";
    let d4 = "3 2 3 2 3 2 3 4  2 3 2 3 2 3 2 3  3 4 1 2 1 4 3 2  2 1 2 3 2 1 2 3
              3 2 3 0 3 2 3 2  2 1 2 3 2 1 2 3  3 4 1 2 1 4 3 2  2 3 2 3 2 3 2 3";
    for (from, table) in [(Square::A1, a1), (Square::D4, d4)] {
        for (at, said) in Square::ALL.into_iter().zip(table.split_whitespace()) {
            let to = at.flip_vertical();
            let counted = fewest(Role::Knight, from, to).unwrap();
            assert_eq!(counted.to_string(), said, "{from} {to}");
        }
    }
}

#[test]
fn a_knight_goes_as_on_the_endless_board_save_beside_the_corners() {
    // Searched on a board so wide that no shortest way between two squares of ours leaves it.
    const EDGE: i32 = 20;
    let mut endless = HashMap::from([((0, 0), 0)]);
    let mut queue = VecDeque::from([(0_i32, 0_i32)]);
    while let Some((files, ranks)) = queue.pop_front() {
        let moves = endless[&(files, ranks)] + 1;
        for (long, short) in [(1, 2), (2, 1)] {
            for (by_files, by_ranks) in [
                (long, short),
                (long, -short),
                (-long, short),
                (-long, -short),
            ] {
                let next = (files + by_files, ranks + by_ranks);
                let lies_near = next.0.abs() <= EDGE && next.1.abs() <= EDGE;
                if lies_near && !endless.contains_key(&next) {
                    endless.insert(next, moves);
                    queue.push_back(next);
                }
            }
        }
    }
    let corners = [("a1", "b2"), ("g2", "h1"), ("a8", "b7"), ("g7", "h8")];
    for pair in pairs() {
        let beside = corners.iter().any(|(one, other)| {
            let both = [square(one), square(other)];
            both.contains(&pair.from()) && both.contains(&pair.to())
        });
        let apart = (
            pair.files_apart().cast_signed(),
            pair.ranks_apart().cast_signed(),
        );
        let expected = if beside { 4 } else { endless[&apart] };
        let counted = fewest(Role::Knight, pair.from(), pair.to()).unwrap();
        assert_eq!(counted.cast_signed(), expected, "{pair:?}");
    }
}

#[test]
fn knight_routes_are_as_many_as_counted() {
    // Counted by brute force and by matrix powers outside this project.
    for (from, to, moves, routes) in [
        ("Na1", "h8", 6, 108),
        ("Na1", "b2", 4, 10),
        ("Na1", "h1", 5, 18),
        ("Na1", "c3", 4, 16),
        ("Ng1", "g2", 3, 4),
        ("Nd4", "e5", 2, 2),
    ] {
        let travel = travel(from, to, "");
        assert_eq!(travel.fewest(), Some(moves), "{from} {to}");
        assert_eq!(travel.routes(), routes, "{from} {to}");
    }
}

#[test]
fn blockers_stop_all_but_the_knight() {
    // FIDE Laws of Chess 2023, 3.5 and 3.6; read off the board by hand.
    // Along the first rank, up one of seven files, back along the eighth.
    let rook = travel("Ra1", "a8", "a4");
    assert_eq!((rook.fewest(), rook.routes()), (Some(3), 7));
    // With b1 held as well, first to a2 or a3.
    let rook = travel("Ra1", "a8", "a4 b1");
    assert_eq!((rook.fewest(), rook.routes()), (Some(4), 14));
    assert_eq!(travel("Na1", "b3", "a2 b1 b2").fewest(), Some(1));
    assert_eq!(travel("Na1", "h8", "b3 c2").fewest(), None);
    assert_eq!(
        travel("Na1", "h8", "b3 c2").unreachable(),
        Some(Unreachable::ShutOff)
    );
    assert_eq!(
        travel("Bc1", "c2", "").unreachable(),
        Some(Unreachable::OtherColor)
    );
    assert_eq!(
        travel("Qd1", "d8", "d8").unreachable(),
        Some(Unreachable::Held)
    );
    assert_eq!(travel("Qd1", "d8", "").unreachable(), None);
    assert_eq!(travel("Na1", "h8", "b3 c2").route(), []);
    assert_eq!(travel("Na1", "h8", "b3 c2").routes(), 0);
}

#[test]
fn the_first_fault_of_a_route_is_told() {
    let knight = travel("Na1", "h8", "c5");
    let fault = |names| knight.misstep(&squares(names));
    assert_eq!(fault("b3 d4 e6 g5 f7 h8"), None);
    assert_eq!(fault("a1 b3 d4 e6 g5 f7 h8"), None);
    let (from, to) = (Square::B3, Square::C5);
    assert_eq!(fault("b3 c5"), Some(Misstep::Held { from, to }));
    let (from, to) = (Square::A1, Square::B2);
    assert_eq!(fault("b2 h8"), Some(Misstep::NotItsWay { from, to }));
    assert_eq!(fault("b3 d4"), Some(Misstep::EndsElsewhere(Square::D4)));
    assert_eq!(fault(""), Some(Misstep::EndsElsewhere(Square::A1)));
    let (moves, fewest) = (8, 6);
    let around = fault("c2 e1 c2 d4 e6 g5 f7 h8");
    assert_eq!(around, Some(Misstep::Detour { moves, fewest }));
    let (from, to) = (Square::A1, Square::A8);
    let rook = travel("Ra1", "a8", "a4 a6");
    let by = Square::A4;
    let through = rook.misstep(&[Square::A8]);
    assert_eq!(through, Some(Misstep::Blocked { from, to, by }));
}

#[test]
fn what_makes_no_journey_is_refused() {
    let new = |piece: &str, to, held: &str| {
        Travel::new(
            piece.parse().unwrap(),
            to,
            squares(held).into_iter().collect(),
        )
    };
    assert_eq!(
        new("Pe4", Square::E5, ""),
        Err(TravelError::Pawn(Square::E4))
    );
    assert_eq!(
        new("Ne4", Square::E4, ""),
        Err(TravelError::There(Square::E4))
    );
    assert_eq!(
        new("Ne4", Square::E5, "e4"),
        Err(TravelError::Blocker(Square::E4))
    );
    for text in ["", "N", "Nb9", "Xb3", "Nb3 ", "Pa1", "pc8"] {
        assert!(text.parse::<PieceAt>().is_err(), "{text:?}");
    }
}
