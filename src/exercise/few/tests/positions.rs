//! Positions drawn at random.

use std::collections::{HashMap, HashSet};

use shakmaty::fen::Fen;
use shakmaty::{Bitboard, CastlingMode, Chess, Color, Position, Rank, Role, Square, attacks};

use super::super::draw;
use crate::exercise::MOST_DRAWN;
use crate::exercise::bound::FewPieces;
use crate::game::Start;
use crate::question::Dice;

/// Draws positions of every count of pieces, with many seeds.
fn every_position(mut look: impl FnMut(usize, &Start)) {
    for pieces in FewPieces::LEAST..=MOST_DRAWN {
        for seed in 0..2500 {
            look(pieces, &draw(pieces, &mut Dice::new(seed, 7)));
        }
    }
}

#[test]
fn the_rules_accept_every_position_strictly() {
    every_position(|pieces, start| {
        let fen: Fen = start.fen().parse().unwrap();
        let strict: Result<Chess, _> = fen.into_position(CastlingMode::Standard);
        assert_eq!(
            strict.as_ref().ok(),
            Some(start.position()),
            "{pieces} pieces"
        );
    });
}

#[test]
fn every_position_is_a_game_that_goes_on_and_that_a_list_of_pieces_tells_whole() {
    every_position(|pieces, start| {
        let (position, fen) = (start.position(), start.fen());
        let board = position.board();
        assert_eq!(board.occupied().count(), pieces, "{fen}");
        let kings = Color::ALL.map(|side| board.king_of(side).unwrap());
        assert!(!attacks::king_attacks(kings[0]).contains(kings[1]), "{fen}");
        let waiting = board.king_of(!position.turn()).unwrap();
        let attackers = board.attacks_to(waiting, position.turn(), board.occupied());
        assert!(attackers.is_empty(), "{fen}");
        assert!(!position.legal_moves().is_empty(), "{fen}");
        assert!(!position.is_insufficient_material(), "{fen}");
        assert!(fen.ends_with(" - - 0 1"), "{fen}");
        let back =
            board.pawns() & (Bitboard::from_rank(Rank::First) | Bitboard::from_rank(Rank::Eighth));
        assert!(back.is_empty(), "{fen}");
    });
}

#[test]
fn both_sides_have_pieces_that_a_set_of_chess_holds() {
    every_position(|pieces, start| {
        let (board, fen) = (start.position().board(), start.fen());
        for side in Color::ALL {
            let own = board.by_color(side);
            let count = |role: Role| board.by_piece(role.of(side)).count();
            assert!(pieces < 4 || own.count() >= 2, "{fen}");
            assert!(own.count() * 2 <= pieces + 2, "{fen}");
            assert!(count(Role::Queen) <= 1 && count(Role::Rook) <= 2, "{fen}");
            assert!(count(Role::Knight) <= 2 && count(Role::Pawn) <= 8, "{fen}");
            let bishops: Vec<bool> = board
                .by_piece(Role::Bishop.of(side))
                .into_iter()
                .map(Square::is_light)
                .collect();
            let colors: HashSet<bool> = bishops.iter().copied().collect();
            assert_eq!(bishops.len(), colors.len(), "{fen}");
        }
    });
}

#[test]
fn positions_vary_in_side_pieces_and_squares() {
    let (mut white, mut all, mut in_check) = (0_u32, 0_u32, 0_u32);
    let mut seen: HashSet<String> = HashSet::new();
    let mut with_role: HashMap<Role, u32> = HashMap::new();
    let mut kings: HashMap<Square, u32> = HashMap::new();
    every_position(|pieces, start| {
        if pieces != 5 {
            return;
        }
        let position = start.position();
        all += 1;
        white += u32::from(position.turn().is_white());
        in_check += u32::from(position.is_check());
        seen.insert(start.fen());
        for role in Role::ALL {
            let has = position.board().by_role(role).any();
            *with_role.entry(role).or_default() += u32::from(has);
        }
        *kings
            .entry(position.board().king_of(Color::White).unwrap())
            .or_default() += 1;
    });
    assert_eq!(all, 2500);
    assert!((45..=55).contains(&(white * 100 / all)), "{white}");
    assert!(in_check > 0 && in_check * 100 <= all * 10, "{in_check}");
    assert!(seen.len() > 2490, "{}", seen.len());
    for (role, count) in with_role {
        assert!(count * 100 >= all * 10, "{role:?}: {count}");
    }
    assert_eq!(kings.len(), 64);
}

#[test]
fn the_same_seed_draws_the_same_position_and_another_seed_another() {
    for pieces in FewPieces::LEAST..=MOST_DRAWN {
        let fen = |seed| draw(pieces, &mut Dice::new(seed, 0)).fen();
        assert_eq!(fen(3), fen(3));
        assert_ne!(fen(3), fen(4));
    }
}
