//! Whole sessions, from beginning to end.

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Ahead, AheadSettings, AheadSummary, Awaits, Earlier, EarlierAnswer, Ending, Exercise, Hardness,
    Input, Output, OwnSummary, PlanError, Session, Show,
};
use sansvoir::game::{Line, Start, fen_of};
use sansvoir::question::{Scene, Verdict};
use shakmaty::{CastlingMode, EnPassantMode, Position};

use super::learner::{
    Habit, Log, knows, line_question, mixed, next, passes, play, published, settings,
    with_sidelines,
};

fn shows() -> [Show; 3] {
    [Show::Diagram, Show::List, Show::None]
}

#[test]
fn who_knows_all_reads_further_and_further_and_who_knows_nothing_less_and_less() {
    let mut long = settings(5);
    long.rounds = Within::nearest(8);
    let plies = |log: &Log| -> Vec<usize> { log.shown.iter().map(|shown| shown.plies).collect() };
    // Two hits a round, each a step of one ply up before the first miss.
    assert_eq!(plies(&play(&long, knows)), [3, 5, 7, 9, 11, 13, 15, 17]);
    assert_eq!(plies(&play(&long, passes)), [3, 1, 1, 1, 1, 1, 1, 1]);
}

#[test]
fn a_session_reads_as_many_plies_as_it_was_told_and_asks_about_their_end() {
    for seed in 0..20 {
        for show in [Show::Diagram, Show::List] {
            let log = play(
                &AheadSettings {
                    plies: Some(Within::nearest(6)),
                    show,
                    ..settings(seed)
                },
                mixed,
            );
            assert_eq!(log.shown.len(), 4);
            assert!(log.shown.iter().all(|shown| shown.plies == 6));
            for answered in &log.answered {
                let setting = answered.setting.as_ref().unwrap();
                assert_eq!(setting.moves.len(), 6);
            }
        }
    }
}

#[test]
fn every_answer_can_be_rechecked_from_its_own_record() {
    for show in shows() {
        for seed in 0..10 {
            let log = play(
                &AheadSettings {
                    show,
                    ..settings(seed)
                },
                mixed,
            );
            assert!(log.answered.len() >= 4, "{show:?} {seed}");
            for answered in &log.answered {
                let setting = answered.setting.as_ref().unwrap();
                let start = Start::from_fen(&setting.start, CastlingMode::Standard).unwrap();
                let mut line = Line::new(start);
                for uci in &setting.moves {
                    let mv = uci.to_move(line.end()).unwrap();
                    line.push(mv).unwrap();
                }
                assert_eq!(fen_of(line.end()), setting.position);
                let scene = Scene::new(&line, line.len());
                let question = line_question(answered);
                assert_eq!(question.truth(scene), answered.truth);
                let hardness = answered.hardness.unwrap();
                let again = Hardness::new(question, scene, hardness.plies as usize);
                assert_eq!(again, hardness);
            }
        }
    }
}

#[test]
fn the_plies_of_an_answer_are_those_since_the_board_was_seen() {
    let log = play(
        &AheadSettings {
            plies: Some(Within::nearest(5)),
            ..settings(3)
        },
        mixed,
    );
    for (turn, answered) in log.answered.iter().enumerate() {
        let plies = answered.hardness.unwrap().plies;
        // The habit: at every second question of a round the board is looked at.
        let looked = answered.looks > 0;
        let first_of_round = turn % 2 == 0;
        assert_eq!(plies, if looked { 0 } else { 5 }, "answer {turn}");
        assert!(first_of_round || looked || answered.looks == 0);
    }
    assert!(log.answered.iter().any(|answered| answered.looks > 0));
}

#[test]
fn an_answer_with_the_position_in_sight_does_not_move_the_plies() {
    let looks = |_: usize, log: &Log| {
        let text = log.right_reply();
        vec![Input::Look, Input::Reply { text, millis: 900 }]
    };
    let free = AheadSettings {
        looks: None,
        ..settings(5)
    };
    let log = play(&free, looks);
    assert!(log.shown.iter().all(|shown| shown.plies == 3));
}

#[test]
fn no_round_reads_the_same_stretch_again_while_there_are_others() {
    for seed in 0..20 {
        let log = play(
            &AheadSettings {
                plies: Some(Within::nearest(4)),
                rounds: Within::nearest(8),
                ..settings(seed)
            },
            knows,
        );
        let mut starts: Vec<String> = log.shown.iter().map(|shown| shown.start.fen()).collect();
        assert_eq!(starts.len(), 8);
        starts.sort();
        starts.dedup();
        assert_eq!(starts.len(), 8, "seed {seed}");
    }
}

#[test]
fn no_position_is_shown_where_a_pawn_can_be_taken_en_passant() {
    for seed in 0..60 {
        let log = play(&settings(seed), knows);
        for shown in &log.shown {
            let square = shown.start.position().ep_square(EnPassantMode::Legal);
            assert_eq!(square, None);
        }
    }
}

#[test]
fn without_a_board_the_game_goes_on_from_round_to_round() {
    let one = AheadSettings {
        games: published()[..1].to_vec(),
        show: Show::None,
        plies: Some(Within::nearest(6)),
        ..settings(2)
    };
    let log = play(&one, knows);
    assert_eq!(log.shown.len(), 4);
    let mut heard = 0;
    for shown in &log.shown {
        assert_eq!(shown.heard_before, heard);
        assert!(shown.plies >= 6);
        heard += shown.plies;
    }
    assert!(heard > 60, "the rounds are spread over the game: {heard}");
    let last = log.answered.last().unwrap();
    assert_eq!(last.hardness.unwrap().plies as usize, heard);
    assert_eq!(last.setting.as_ref().unwrap().moves.len(), heard);
}

#[test]
fn sidelines_give_positions_of_their_own() {
    let text = "1. e4 e5 2. Nf3 Nc6 (2... d5 3. exd5 Qxd5 4. Nc3 Qa5 5. Nxe5 Qxe5+ 6. Be2 Nf6) 3. Bb5 \
                a6 4. Ba4 Nf6 5. O-O Be7 *";
    let only_main = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 *";
    let placements = |text: &str| -> Vec<String> {
        (0..12)
            .flat_map(|seed| {
                let log = play(
                    &AheadSettings {
                        games: vec![with_sidelines(text)],
                        plies: Some(Within::nearest(4)),
                        rounds: Within::nearest(2),
                        ..settings(seed)
                    },
                    passes,
                );
                let ends = log.answered.into_iter();
                ends.map(|answered| answered.setting.unwrap().position)
                    .collect::<Vec<_>>()
            })
            .collect()
    };
    let queen_on_e5 = |positions: &[String]| positions.iter().any(|fen| fen.contains("/4q3/"));
    assert!(queen_on_e5(&placements(text)));
    assert!(!queen_on_e5(&placements(only_main)));
}

#[test]
fn the_same_seed_asks_the_same_and_another_one_something_else() {
    let asked = |seed| play(&settings(seed), mixed).asked;
    assert_eq!(asked(7), asked(7));
    assert_ne!(asked(7), asked(8));
}

/// Plays a session that is put down after so many inputs and taken up by another process.
fn interrupted(settings: &AheadSettings, stop_after: usize, habit: Habit, killed: bool) -> Log {
    let mut log = Log::default();
    let mut session = Session::new(Ahead::new(settings.clone()).unwrap());
    log.add(&session.begin());
    let (mut waiting, mut turn) = (Vec::new(), 0);
    for inputs in 0.. {
        if session.awaits() == Awaits::Nothing {
            break;
        }
        if inputs == stop_after {
            let answers: Vec<EarlierAnswer> = log.answered.iter().map(crate::kept).collect();
            let told = answers.iter().map(|answer| answer.looks).sum();
            let earlier = Earlier {
                answers,
                heard: if killed { 0 } else { session.heard() },
                looks: if killed { told } else { session.looks() },
                ..Earlier::default()
            };
            let heard = session.heard();
            if session.awaits() == Awaits::Reply {
                // It is put again: at once, or after the plies have been read again.
                log.asked.pop();
            }
            session = Session::new(Ahead::new(settings.clone()).unwrap());
            let outputs = session.resume(earlier);
            assert!(killed || session.heard() == heard);
            log.add(&outputs);
        }
        let input = next(&session, &mut waiting, &mut turn, habit, &log);
        log.add(&session.hear(input));
    }
    log
}

#[test]
fn a_session_that_was_put_down_asks_what_an_undisturbed_one_asks() {
    // Each place is stopped at in one of the ways to give a position.
    for (first, show) in (0..).zip(shows()) {
        let settings = AheadSettings {
            show,
            ..settings(9)
        };
        let whole = play(&settings, mixed);
        for stop_after in (first..60).step_by(3) {
            let log = interrupted(&settings, stop_after, mixed, false);
            assert_eq!(
                log.asked, whole.asked,
                "{show:?}, after {stop_after} inputs"
            );
            let verdicts = |log: &Log| -> Vec<Verdict> {
                let marks = log.answered.iter();
                marks.map(|answered| answered.mark.verdict).collect()
            };
            assert_eq!(verdicts(&log), verdicts(&whole));
        }
    }
}

/// A look that no answer tells of is lost with the power: this learner takes none.
fn every_second(turn: usize, log: &Log) -> Vec<Input> {
    if turn.is_multiple_of(2) {
        knows(turn, log)
    } else {
        passes(turn, log)
    }
}

#[test]
fn a_session_that_was_killed_asks_what_is_left() {
    // Each place is stopped at in one of the ways to give a position.
    for (first, show) in (0..).zip(shows()) {
        let settings = AheadSettings {
            show,
            ..settings(9)
        };
        let whole = play(&settings, every_second);
        for stop_after in (first..60).step_by(3) {
            let log = interrupted(&settings, stop_after, every_second, true);
            assert_eq!(
                log.asked, whole.asked,
                "{show:?}, after {stop_after} inputs"
            );
        }
    }
}

#[test]
fn the_summary_tells_rounds_looks_and_the_next_plies() {
    let log = play(&settings(4), mixed);
    let summary = log.summary.unwrap();
    let OwnSummary::Ahead(AheadSummary { rounds, next }) = summary.own else {
        panic!("calculation: {summary:?}");
    };
    assert_eq!(rounds.asked, 4);
    assert!(rounds.held < 4);
    assert_eq!(summary.looks, 2);
    assert_eq!(summary.late, 2);
    let heard: usize = log.shown.iter().map(|shown| shown.plies).sum();
    assert_eq!(summary.heard, heard);
    assert!(next.is_some_and(|plies| plies >= 1));
}

#[test]
fn a_stopped_session_says_so_and_asks_no_more() {
    let mut session = Session::new(Ahead::new(settings(1)).unwrap());
    session.begin();
    let outputs = session.hear(Input::Stop);
    assert!(matches!(
        outputs[..],
        [Output::Ended(Ending::Stopped), Output::Summary(_)]
    ));
    assert_eq!(session.awaits(), Awaits::Nothing);
    assert!(session.hear(Input::GoOn).is_empty());
}

#[test]
fn a_game_too_short_for_the_plies_is_told_with_its_length() {
    let short = AheadSettings {
        games: vec![with_sidelines("1. e4 e5 2. Nf3 *")],
        plies: Some(Within::nearest(4)),
        ..settings(1)
    };
    let error = Ahead::new(short.clone()).unwrap_err();
    let expected = PlanError::TooShort {
        asked: 4,
        longest: 3,
    };
    assert_eq!(error, expected);
    assert!(error.to_string().contains("--plies 3 or less"), "{error}");
    let following = AheadSettings {
        plies: None,
        staircase: {
            let mut staircase = short.staircase;
            (0..9).for_each(|_| staircase.hear(20, true));
            staircase
        },
        ..short
    };
    let log = play(&following, knows);
    assert_eq!(log.shown[0].plies, 3, "as many as the game has");
}
