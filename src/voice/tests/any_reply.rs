//! What holds of the reasons for any reply, over every position of some games.

use shakmaty::{Bitboard, Role, Square};

use super::scores::{FIDE_SAMPLE, PGN_SAMPLE, usual};
use super::*;
use crate::question::{Ray, Reply};
use crate::voice::naming::role;

fn over_positions(check: impl Fn(Scene<'_>)) {
    for line in [usual(PGN_SAMPLE), usual(FIDE_SAMPLE)] {
        for plies in 0..=line.len() {
            check(Scene::new(&line, plies));
        }
    }
}

/// Explains to somebody who named these squares.
fn to_who_said(scene: Scene<'_>, kind: &str, subject: &str, said: Bitboard) -> Vec<String> {
    let question = of_line(kind, subject);
    let said = Reply::Squares(said);
    let mark = Mark::new(&question.truth(scene), &said);
    question::why(&Why::Line(question.why(scene, &mark, Some(&said))))
}

#[test]
fn every_line_that_was_missed_is_told_by_what_ends_it() {
    over_positions(|scene| {
        let board = scene.board();
        for from in board.sliders() {
            let subject = format!(r#""square":"{from}""#);
            let said = to_who_said(scene, "attacks", &subject, Bitboard::EMPTY);
            let own = board.by_color(board.color_at(from).expect("a piece stands there"));
            for ray in Ray::all(board, from) {
                let stop = ray.stop.map(|(square, _)| square);
                let end = stop.or(ray.free.last().copied()).expect("no line is empty");
                let attacks = !own.contains(end) || !ray.free.is_empty();
                let told = said.iter().any(|line| line.contains(&end.to_string()));
                assert_eq!(told, attacks, "{from} toward {end}: {said:#?}");
            }
        }
    });
}

#[test]
fn a_square_that_ones_own_piece_holds_is_closed_by_that_piece_by_its_name() {
    over_positions(|scene| {
        let board = scene.board();
        let own = board.by_color(scene.position().turn());
        for from in own {
            for to in own.without(from) {
                let king = board.role_at(from) == Some(Role::King);
                if king && from.file().distance(to.file()) == 2 {
                    continue;
                }
                let subject = format!(r#""square":"{from}""#);
                let said = to_who_said(scene, "moves", &subject, to.into());
                let name = role(board.role_at(to).expect("a piece stands there"));
                let last = said.last().map(String::as_str);
                assert_eq!(
                    last,
                    Some(&*format!("Not {to}: its own {name} stands there."))
                );
            }
        }
    });
}

#[test]
fn a_king_in_check_is_not_told_of_its_king_and_its_side_is_not_the_other() {
    over_positions(|scene| {
        let position = scene.position();
        let king = position.board().king_of(position.turn()).expect("a king");
        let subject = format!(r#""square":"{king}""#);
        for said in to_who_said(scene, "moves", &subject, Bitboard::EMPTY) {
            assert!(!said.starts_with("Its king"), "{said}");
        }
        for own in position.us() {
            let said = to_who_said(scene, "check", "", own.into());
            let last = said.last().expect("a reason");
            let there =
                last.starts_with(&format!("Not {own}: ")) && last.ends_with("stands there.");
            assert!(there, "{said:#?}");
        }
    });
}

#[test]
fn no_line_is_said_to_be_missing_between_a_square_and_itself() {
    over_positions(|scene| {
        for square in Square::ALL {
            let mut said = to_who_said(
                scene,
                "attackers",
                &format!(r#""color":"white","square":"{square}""#),
                square.into(),
            );
            if scene.board().role_at(square).is_some() {
                for kind in ["attacks", "moves"] {
                    let subject = format!(r#""square":"{square}""#);
                    said.extend(to_who_said(scene, kind, &subject, square.into()));
                }
            }
            for line in said {
                for joined in ["joins", "leads from", "lead from"] {
                    let between =
                        [" and ", " to "].map(|and| format!("{joined} {square}{and}{square}"));
                    assert!(!between.iter().any(|words| line.contains(words)), "{line}");
                }
            }
        }
    });
}
