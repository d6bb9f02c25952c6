//! What is worth asking: the promises of the choice, counted over published games.

use crate::published::{self, ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL};
use sansvoir::exercise::{Dice, choose};
use sansvoir::game::{Line, Ply};
use sansvoir::question::{Kind, LineQuestion, Reason, Scene, Truth};
use shakmaty::{Position, Square};

const GAMES: [&str; 3] = [ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL];

/// Every choice at every ply of the published games, with a few seeds.
fn every_choice(kinds: &[Kind], count: usize, look: impl FnMut(Scene<'_>, &[LineQuestion])) {
    every_choice_where(true, kinds, count, look);
}

fn every_choice_where(
    strict: bool,
    kinds: &[Kind],
    count: usize,
    mut look: impl FnMut(Scene<'_>, &[LineQuestion]),
) {
    for moves in GAMES {
        let line: Line = published::line(moves);
        for plies in 1..=line.len() {
            for seed in 0..6 {
                let scene = Scene::new(&line, plies);
                look(
                    scene,
                    &choose(
                        scene,
                        None,
                        strict,
                        kinds,
                        count,
                        &mut Dice::new(seed, plies as u64),
                    ),
                );
            }
        }
    }
}

#[test]
fn a_checkpoint_gets_as_many_questions_as_were_asked_for() {
    let (mut checkpoints, mut full) = (0, 0);
    every_choice(&Kind::LINE, 3, |scene, questions| {
        // A mated side has no move to judge or to make.
        if scene.position().is_checkmate() {
            return;
        }
        checkpoints += 1;
        full += usize::from(questions.len() == 3);
    });
    assert!(full * 100 >= checkpoints * 99, "{full} of {checkpoints}");
}

#[test]
fn what_was_spoken_last_answers_no_question_by_itself() {
    let look = |scene: Scene<'_>, questions: &[LineQuestion]| {
        // A move of each side may have been read in one go.
        let before = scene.plies().saturating_sub(2);
        let (earlier, read) = scene.played().split_at(before);
        let last = read.last().unwrap();
        let named = |ply: &Ply| [Some(ply.from()), Some(ply.to()), ply.taken_on()];
        let spoken: Vec<Square> = read.iter().flat_map(named).flatten().collect();
        for question in questions {
            match question {
                LineQuestion::Occupant(question) => assert!(!spoken.contains(&question.square)),
                LineQuestion::Whereabouts(question) => {
                    let piece = scene.line().roster().piece(question.piece).unwrap();
                    assert_eq!(piece.square(scene.plies()), piece.square(before));
                }
                LineQuestion::Standing(question) => {
                    let pieces = scene.board().by_piece(question.role.of(question.color));
                    assert!(!pieces.into_iter().all(|square| spoken.contains(&square)));
                }
                LineQuestion::Played(question) => {
                    let asked = |ply: &Ply| {
                        (question.color, question.number) == (ply.side(), ply.number.number)
                    };
                    assert!(!read.iter().any(asked));
                }
                LineQuestion::Rights(question) => {
                    let king = |ply: &Ply| {
                        ply.mv.role() == shakmaty::Role::King && question.color == ply.side()
                    };
                    assert!(!read.iter().any(king));
                }
                LineQuestion::Taken(question) => {
                    let taken = |ply: &Ply| ply.mv.is_capture() && ply.side() != question.color;
                    assert!(!read.iter().any(taken) || earlier.iter().any(taken));
                }
                LineQuestion::Check(_) => {
                    assert!(scene.position().checkers().without(last.to()).any());
                }
                _ => {}
            }
            let of_moves = matches!(
                question.kind(),
                Kind::Moves
                    | Kind::Legality
                    | Kind::Check
                    | Kind::Checks
                    | Kind::Captures
                    | Kind::Mate
            );
            assert!(
                !of_moves || !scene.position().is_checkmate(),
                "{question:?}"
            );
        }
    };
    for strict in [true, false] {
        every_choice_where(strict, &Kind::LINE, 3, look);
        every_choice_where(strict, &[Kind::Moves, Kind::Whereabouts], 1, look);
    }
}

#[test]
fn material_is_asked_about_once_something_was_taken() {
    let mut asked = 0;
    for strict in [true, false] {
        every_choice_where(
            strict,
            &[Kind::Balance, Kind::Taken],
            2,
            |scene, questions| {
                asked += questions.len();
                let taken = scene.played().iter().any(|ply| ply.mv.is_capture());
                assert!(taken || questions.is_empty(), "{questions:?}");
            },
        );
    }
    assert!(asked > 1_000, "{asked}");
}

#[test]
fn no_question_of_a_checkpoint_is_asked_twice_or_given_away_by_another() {
    every_choice(&Kind::LINE, 4, |scene, questions| {
        let rebuilds = questions
            .iter()
            .filter(|question| question.kind() == Kind::Rebuild);
        assert!(rebuilds.count() <= 1);
        if let Some(at) = questions
            .iter()
            .position(|question| question.kind() == Kind::Rebuild)
        {
            assert_eq!(
                at + 1,
                questions.len(),
                "a rebuilt board gives all others away"
            );
        }
        for (n, one) in questions.iter().enumerate() {
            for other in &questions[n + 1..] {
                assert_ne!(one, other);
                let square = |question: &LineQuestion| match (question, question.truth(scene)) {
                    (LineQuestion::Whereabouts(_), Truth::Square(square)) => Some(square),
                    (LineQuestion::Occupant(question), _) => Some(question.square),
                    (LineQuestion::Attacks(question), _) => Some(question.square),
                    (LineQuestion::Moves(question), _) => Some(question.square),
                    (LineQuestion::Legality(question), _) => Some(question.attempt.from),
                    _ => None,
                };
                if square(one).is_some() {
                    assert_ne!(square(one), square(other), "{one:?} {other:?}");
                }
                for (followed, asked) in [(one, other), (other, one)] {
                    let LineQuestion::Whereabouts(followed) = followed else {
                        continue;
                    };
                    let piece = scene.line().roster().piece(followed.piece).unwrap();
                    let steps = piece.steps(scene.plies()).iter().map(|step| step.to);
                    let left: Vec<Square> = steps.chain([piece.home]).collect();
                    let empty = square(asked).filter(|at| scene.board().piece_at(*at).is_none());
                    assert!(empty.is_none_or(|at| !left.contains(&at)), "{asked:?}");
                }
            }
        }
    });
}

/// Whether the side to move could have made the move two or four plies ago.
fn was_legal_lately(scene: Scene<'_>, question: LineQuestion) -> bool {
    [2, 4]
        .into_iter()
        .filter_map(|ago| scene.plies().checked_sub(ago))
        .map(|plies| question.truth(Scene::new(scene.line(), plies)))
        .any(|truth| matches!(truth, Truth::Legal { .. }))
}

#[test]
fn half_of_the_moves_to_judge_are_legal_and_most_others_are_near_misses() {
    let (mut legal, mut near, mut plain) = (0_u32, 0_u32, 0_u32);
    every_choice(&[Kind::Legality], 2, |scene, questions| {
        for question in questions {
            match question.truth(scene) {
                Truth::Legal { .. } => legal += 1,
                Truth::Illegal { illegal, .. } => {
                    let plain_reason = matches!(
                        illegal.reason,
                        Reason::EmptySquare
                            | Reason::WrongSide
                            | Reason::OwnPieceThere
                            | Reason::NotItsWay
                    );
                    if plain_reason && !was_legal_lately(scene, *question) {
                        plain += 1;
                    } else {
                        near += 1;
                    }
                }
                other => panic!("{other:?}"),
            }
        }
    });
    let illegal = near + plain;
    let all = legal + illegal;
    assert!(all > 1500, "{all}");
    assert!(
        (46..=54).contains(&(legal * 100 / all)),
        "{legal} of {all} are legal"
    );
    assert!(
        near * 5 >= illegal * 4,
        "{near} of {illegal} are near misses"
    );
}

#[test]
fn about_one_question_in_five_is_about_a_piece_that_was_left_alone() {
    let (mut touched, mut untouched) = (0_u32, 0_u32);
    every_choice(&[Kind::Whereabouts], 1, |scene, questions| {
        if scene.plies() < 8 {
            return;
        }
        for question in questions {
            let LineQuestion::Whereabouts(question) = question else {
                panic!("{question:?}");
            };
            let piece = scene.line().roster().piece(question.piece).unwrap();
            let steps = piece.steps(scene.plies()).last().map(|step| step.ply);
            let changed = steps.max(piece.taken_by.filter(|ply| *ply < scene.plies()));
            if changed.is_some_and(|ply| ply + 8 >= scene.plies()) {
                touched += 1;
            } else {
                untouched += 1;
            }
        }
    });
    let all = touched + untouched;
    assert!(
        (15..=25).contains(&(untouched * 100 / all)),
        "{untouched} of {all}"
    );
}

#[test]
fn moves_are_not_asked_for_as_a_whole_where_a_promotion_is_among_them() {
    let mut asked = 0;
    every_choice(
        &[Kind::Checks, Kind::Captures, Kind::Mate],
        1,
        |scene, questions| {
            for question in questions {
                let Truth::Moves(moves) = question.truth(scene) else {
                    panic!("{question:?}")
                };
                assert!(moves.iter().all(|mv| mv.promotion.is_none()));
                asked += 1;
            }
        },
    );
    assert!(asked > 500, "{asked}");
}

#[test]
fn no_more_squares_are_asked_for_than_can_be_said_in_one_breath() {
    let mut queens = 0;
    every_choice(&[Kind::Attacks], 1, |scene, questions| {
        for question in questions {
            let LineQuestion::Attacks(asked) = question else {
                panic!("{question:?}")
            };
            assert!(question.truth(scene).set().count() <= 14, "{question:?}");
            let role = scene.board().role_at(asked.square);
            queens += usize::from(role == Some(shakmaty::Role::Queen));
        }
    });
    assert!(queens > 50, "{queens}");
}

#[test]
fn an_exchange_is_asked_only_where_it_can_begin() {
    let mut asked = 0;
    every_choice(&[Kind::Exchange], 1, |scene, questions| {
        for question in questions {
            let LineQuestion::Exchange(question) = question else {
                panic!("{question:?}")
            };
            let legal = scene.position().legal_moves();
            let takes = |mv: &shakmaty::Move| mv.is_capture() && mv.to() == question.square;
            assert!(legal.iter().any(takes));
            asked += 1;
        }
    });
    assert!(asked > 300, "{asked}");
}

#[test]
fn questions_of_one_matter_stand_at_different_checkpoints() {
    use Kind::{
        Attackers, Attacks, Balance, Captures, Checks, Exchange, Hanging, Mate, Moves, Played,
        Taken, Whereabouts,
    };
    let moves = [Checks, Captures, Mate, Exchange, Hanging];
    let apart = |one: Kind, other: Kind| {
        let material = [Balance, Taken];
        let told = |kind| moves.contains(&kind) || [Attacks, Attackers, Moves].contains(&kind);
        (moves.contains(&one) && told(other))
            || (material.contains(&one) && material.contains(&other))
            || (one == Played && [Played, Whereabouts, Taken].contains(&other))
    };
    every_choice(&Kind::LINE, 4, |_, questions| {
        for (n, one) in questions.iter().enumerate() {
            for other in &questions[n + 1..] {
                let (one, other) = (one.kind(), other.kind());
                assert!(!apart(one, other) && !apart(other, one), "{one} {other}");
            }
        }
    });
}
