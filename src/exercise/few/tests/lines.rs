//! Plies played on from a few pieces.

use std::collections::HashSet;

use shakmaty::{CastlingMode, Chess, Move, Position, Role};

use super::super::{draw, play_on};
use crate::game::{Line, Start, after_null};
use crate::question::Dice;

const SEEDS: u64 = 1500;

/// Lines of eight plies over three to ten pieces.
fn every_line(mut look: impl FnMut(usize, &Line)) {
    for pieces in 3..=10 {
        for seed in 0..SEEDS {
            let mut dice = Dice::new(seed, 1);
            let start = draw(pieces, &mut dice);
            look(pieces, &play_on(&start, 8, &mut dice));
        }
    }
}

/// Every ply of every line, with the position that it was played in.
fn every_ply(mut look: impl FnMut(usize, &Chess, Move)) {
    every_line(|pieces, line| {
        for (at, ply) in line.plies().iter().enumerate() {
            look(pieces, line.position(at), ply.mv);
        }
    });
}

fn after(position: &Chess, mv: Move) -> Chess {
    position.clone().play(mv).unwrap()
}

/// Common practice, no source.
const fn points(role: Role) -> i32 {
    match role {
        Role::King => 0,
        Role::Pawn => 1,
        Role::Knight | Role::Bishop => 3,
        Role::Rook => 5,
        Role::Queen => 9,
    }
}

/// Whether a move puts its piece, or leaves it, where a legal capture takes it and no legal move takes
/// back, for less than it is worth.
fn gives_away(position: &Chess, mv: Move) -> bool {
    if mv.role() == Role::King {
        return false;
    }
    let next = after(position, mv);
    let worth = points(mv.promotion().unwrap_or(mv.role()));
    let won = mv.capture().map_or(0, points);
    let taken_for_nothing = next.legal_moves().into_iter().any(|taking| {
        taking.is_capture()
            && taking.to() == mv.to()
            && !(after(&next, taking).legal_moves().into_iter())
                .any(|back| back.is_capture() && back.to() == mv.to())
    });
    taken_for_nothing && worth > won
}

/// How many pieces of the side that waits could be taken and not taken back.
fn hanging(position: &Chess) -> usize {
    let taking_hanging = position.legal_moves().into_iter().filter(|taking| {
        taking.is_capture()
            && !(after(position, *taking).legal_moves().into_iter())
                .any(|back| back.is_capture() && back.to() == taking.to())
    });
    taking_hanging.map(Move::to).collect::<HashSet<_>>().len()
}

/// Whether a move that takes nothing, checks nobody and gives nothing away attacks one more piece that
/// could be taken and not taken back, if the other side passed.
fn attacks_a_hanging_piece(position: &Chess, mv: Move) -> bool {
    after_null(&after(position, mv)).is_some_and(|passed| hanging(&passed) > hanging(position))
}

fn is_quiet(position: &Chess, mv: Move) -> bool {
    let sharp = mv.is_capture() || mv.is_promotion() || after(position, mv).is_check();
    !sharp && !gives_away(position, mv)
}

/// In how many of a hundred positions a move of a kind was played, and in how many it would have been
/// played by chance.
fn shares(mut is: impl FnMut(&Chess, Move) -> bool) -> (f64, f64) {
    let (mut plies, mut played, mut by_chance) = (0.0, 0.0, 0.0);
    every_ply(|_, position, mv| {
        let legal = position.legal_moves();
        let hits = legal.iter().filter(|other| is(position, **other)).count();
        plies += 1.0;
        by_chance += f64::from(u16::try_from(hits).unwrap())
            / f64::from(u16::try_from(legal.len()).unwrap());
        played += f64::from(u8::from(is(position, mv)));
    });
    (100.0 * played / plies, 100.0 * by_chance / plies)
}

/// Measured over 12,000 lines of eight plies, in a hundred plies: captures 12.1 against 2.4 by chance in
/// the same positions, checks 12.8 against 7.3, one or the other 23.3 against 9.4; promotions 3.8.
#[test]
fn captures_checks_and_promotions_come_more_often_than_by_chance() {
    let (captures, by_chance) = shares(|_, mv| mv.is_capture());
    assert!(captures > 3.0 * by_chance, "{captures:.1} {by_chance:.1}");
    let (checks, by_chance) = shares(|position, mv| after(position, mv).is_check());
    assert!(checks > 1.5 * by_chance, "{checks:.1} {by_chance:.1}");
    let (promotions, by_chance) = shares(|_, mv| mv.is_promotion());
    assert!(
        promotions > 2.0 * by_chance,
        "{promotions:.1} {by_chance:.1}"
    );
    let (either, by_chance) =
        shares(|position, mv| mv.is_capture() || after(position, mv).is_check());
    assert!(either > 20.0, "{either:.1} {by_chance:.1}");
}

/// Measured, in a hundred quiet plies: 16.7 against 9.7 by chance.
#[test]
fn a_quiet_move_attacks_a_hanging_piece_more_often_than_by_chance() {
    let (mut quiet, mut played, mut by_chance) = (0.0, 0.0, 0.0);
    every_ply(|_, position, mv| {
        if !is_quiet(position, mv) {
            return;
        }
        let mut legal = position.legal_moves().to_vec();
        legal.retain(|other| is_quiet(position, *other));
        let hits = legal
            .iter()
            .filter(|other| attacks_a_hanging_piece(position, **other));
        quiet += 1.0;
        by_chance += f64::from(u16::try_from(hits.count()).unwrap())
            / f64::from(u16::try_from(legal.len()).unwrap());
        played += f64::from(u8::from(attacks_a_hanging_piece(position, mv)));
    });
    assert!(played > 1.5 * by_chance, "{played} {by_chance}");
}

/// Measured, in a hundred plies: 2.4 against 13.9 by chance.
#[test]
fn pieces_are_seldom_given_away() {
    let (given, by_chance) = shares(gives_away);
    assert!(given < 4.0, "{given:.1}");
    assert!(given * 3.0 < by_chance, "{given:.1} {by_chance:.1}");
}

#[test]
fn a_line_is_short_only_where_the_game_is_over_and_no_other_move_was_left() {
    let (mut lines, mut over) = (0, 0);
    every_line(|pieces, line| {
        lines += 1;
        assert!(!line.is_empty());
        if line.len() < 8 {
            assert!(line.end().is_game_over());
        }
        if line.end().is_game_over() {
            over += 1;
            let before = line.position(line.len() - 1);
            for mv in before.legal_moves() {
                assert!(
                    after(before, mv).is_game_over(),
                    "{pieces} pieces, {}",
                    line.start().fen()
                );
            }
        }
    });
    assert!(over * 1000 <= lines, "{over} of {lines}");
}

#[test]
fn no_piece_goes_straight_back_while_another_move_goes_on() {
    every_line(|_, line| {
        for at in 2..line.len() {
            let (one, other) = (line.plies()[at - 2], line.plies()[at]);
            if (one.from(), one.to()) == (other.to(), other.from()) {
                let position = line.position(at);
                for mv in position.legal_moves() {
                    assert!(mv == other.mv || after(position, mv).is_game_over());
                }
            }
        }
    });
}

#[test]
fn every_ply_is_legal_and_no_ply_asked_for_is_none_played() {
    every_line(|_, line| {
        let mut position = line.start().position().clone();
        for ply in line.plies() {
            assert!(position.is_legal(ply.mv));
            position = after(&position, ply.mv);
        }
        assert_eq!(&position, line.end());
    });
    let start = draw(5, &mut Dice::new(1, 1));
    assert!(play_on(&start, 0, &mut Dice::new(1, 1)).is_empty());
}

#[test]
fn a_line_stops_where_the_only_moves_end_the_game() {
    // White can only take the queen: bare kings are left, and the game is dead (FIDE 5.2.2).
    let start = Start::from_fen("8/8/8/8/8/8/6q1/k6K w - - 0 1", CastlingMode::Standard);
    let line = play_on(&start.unwrap(), 4, &mut Dice::new(1, 1));
    assert_eq!(line.len(), 1);
    assert!(line.end().is_game_over());
}

#[test]
fn the_same_seed_plays_the_same_line_for_ever() {
    let mut dice = Dice::new(7, 0);
    let start = draw(5, &mut dice);
    let line = play_on(&start, 4, &mut dice);
    let sans: Vec<String> = line.plies().iter().map(|ply| ply.san.to_string()).collect();
    assert_eq!(start.fen(), "k7/6P1/8/2b5/8/8/5B2/K7 b - - 0 1");
    assert_eq!(sans, ["Bxf2", "g8=Q+", "Kb7", "Ka2"]);
}
