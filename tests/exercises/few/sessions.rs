//! Whole drills by learners of fixed habits.

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Ask, Asked, Awaits, Earlier, EarlierAnswer, Ending, Exercise, Few, FewSettings, Input, Output,
    OwnSummary, PlanError, RoundsSummary, Script, Session, Show, Summary,
};
use sansvoir::game::{Line, Start, fen_of};
use sansvoir::question::{Kind, LineQuestion, Question, Scene, Verdict};
use shakmaty::CastlingMode;

use crate::kept;
use crate::published::line;

pub(crate) fn settings(seed: u64) -> FewSettings {
    FewSettings {
        pieces: Within::nearest(5),
        plies: Within::nearest(4),
        count: Within::nearest(10),
        per_round: Within::nearest(3),
        ask: Kind::LINE.to_vec(),
        think_millis: Some(Within::nearest(5000)),
        looks: Some(Within::nearest(3)),
        seed,
        from: None,
        follow: false,
    }
}

#[derive(Debug, Default, PartialEq)]
pub(crate) struct Log {
    pub(crate) asked: Vec<Ask>,
    pub(crate) answered: Vec<(Question, Verdict, bool, u32)>,
    /// The same, as the journal keeps them.
    kept: Vec<EarlierAnswer>,
    pub(crate) pieces: Vec<(usize, String, usize)>,
    pub(crate) summary: Option<Summary>,
}

impl Log {
    fn add(&mut self, outputs: &[Output]) {
        for output in outputs {
            match output {
                Output::Ask(ask) => self.asked.push(ask.clone()),
                Output::Given(pieces) => {
                    assert_eq!(pieces.show, Show::List, "pieces are read out");
                    let told = (pieces.round, pieces.start.fen(), pieces.plies);
                    if self.pieces.last() != Some(&told) {
                        self.pieces.push(told);
                    }
                }
                Output::Answered(answered) => {
                    let mark = answered.mark.verdict;
                    let (late, looks) = (answered.late, answered.looks);
                    self.answered.push((answered.question, mark, late, looks));
                    self.kept.push(kept(answered));
                }
                Output::Summary(summary) => self.summary = Some((**summary).clone()),
                _ => {}
            }
        }
    }
}

/// In how many rounds the picture held.
fn rounds(summary: &Summary) -> RoundsSummary {
    match summary.own {
        OwnSummary::Few(rounds) => rounds,
        _ => panic!("a drill of few pieces: {summary:?}"),
    }
}

/// Some questions are passed, some answered late after a look, some at first in a way that cannot be
/// read.
fn habit(turn: usize) -> Vec<Input> {
    let reply = |text: &str, millis| Input::Reply {
        text: text.to_owned(),
        millis,
    };
    match turn % 4 {
        0 => vec![
            reply("none", 0),
            reply("legal", 0),
            Input::Pass { millis: 900 },
        ],
        1 => vec![Input::Look, reply("e4", 0), Input::Pass { millis: 7000 }],
        2 => vec![
            Input::Again,
            reply("what was that", 0),
            Input::Pass { millis: 2000 },
        ],
        _ => vec![Input::Question, Input::Pass { millis: 1 }],
    }
}

/// Plays a drill to its end; after `stop_after` inputs it is put down and taken up again by another
/// session, as another process would.
pub(crate) fn play(settings: &FewSettings, stop_after: Option<usize>) -> Log {
    let mut log = Log::default();
    let mut session = Session::new(Few::new(settings.clone()).unwrap());
    log.add(&session.begin());
    let (mut inputs, mut turn) = (0, 0);
    let mut waiting: Vec<Input> = Vec::new();
    while session.awaits() != Awaits::Nothing {
        if stop_after == Some(inputs) {
            let earlier = Earlier {
                answers: log.kept.clone(),
                heard: session.heard(),
                looks: session.looks(),
                ..Earlier::default()
            };
            let trail = session.trail().to_vec();
            session = Session::new(Few::new(settings.clone()).unwrap());
            let outputs = session.resume(earlier);
            assert_eq!(session.trail(), trail);
            if session.awaits() == Awaits::Reply {
                let again = outputs.iter().find_map(|output| match output {
                    Output::Ask(ask) => Some(ask.clone()),
                    _ => None,
                });
                assert_eq!(again, log.asked.pop(), "after {inputs} inputs");
            }
            log.add(&outputs);
        }
        let input = match session.awaits() {
            Awaits::GoOn | Awaits::Truth => Input::GoOn,
            Awaits::Nothing | Awaits::Opponent => break,
            Awaits::Reply => {
                if waiting.is_empty() {
                    waiting = habit(turn);
                    turn += 1;
                }
                waiting.remove(0)
            }
        };
        let outputs = session.hear(input);
        inputs += 1;
        assert!(inputs < 2000, "the drill comes to an end");
        for output in &outputs {
            if matches!(output, Output::Answered(_)) {
                waiting.clear();
            }
        }
        log.add(&outputs);
    }
    log
}

#[test]
fn a_drill_ends_with_exactly_as_many_answers_as_were_asked_for() {
    let mut drills = 0;
    for seed in 0..60 {
        for (pieces, plies, count, per_round) in [
            (3, 4, 7, 2),
            (5, 0, 10, 3),
            (5, 4, 20, 3),
            (8, 1, 1, 5),
            (10, 12, 9, 4),
        ] {
            let settings = FewSettings {
                pieces: Within::nearest(pieces),
                plies: Within::nearest(plies),
                count: Within::nearest(count),
                per_round: Within::nearest(per_round),
                ..settings(seed)
            };
            let log = play(&settings, None);
            assert_eq!(log.answered.len(), count, "{settings:?}");
            let numbers: Vec<usize> = log.asked.iter().map(|ask| ask.number).collect();
            assert_eq!(numbers, (1..=count).collect::<Vec<_>>());
            assert!(log.asked.iter().all(|ask| ask.of == count));
            let summary = log.summary.expect("a summary at the end");
            assert_eq!(rounds(&summary).asked, log.pieces.len());
            assert_eq!(
                summary.heard,
                log.pieces.iter().map(|(.., plies)| plies).sum::<usize>()
            );
            let looks = log.answered.iter().map(|(.., looks)| looks).sum::<u32>();
            assert_eq!(summary.looks, looks);
            assert!(looks <= 3);
            drills += 1;
        }
    }
    assert_eq!(drills, 300);
}

#[test]
fn each_kind_alone_can_fill_a_drill() {
    // Positions that are drawn have no rights to castle.
    let drawn = Kind::LINE.into_iter().filter(|kind| *kind != Kind::Rights);
    for kind in drawn {
        for seed in 0..10 {
            let settings = FewSettings {
                ask: vec![kind],
                ..settings(seed)
            };
            let log = play(&settings, None);
            assert_eq!(log.answered.len(), 10, "{kind}");
            assert!(
                log.asked
                    .iter()
                    .all(|ask| ask.asked.question().kind() == kind)
            );
        }
    }
}

#[test]
fn where_a_piece_stands_now_is_not_asked_before_any_ply() {
    for seed in 0..50 {
        let log = play(
            &FewSettings {
                plies: Within::nearest(0),
                ..settings(seed)
            },
            None,
        );
        let kinds = log.asked.iter().map(|ask| ask.asked.question().kind());
        assert!(kinds.into_iter().all(|kind| kind != Kind::Whereabouts));
    }
    let alone = FewSettings {
        plies: Within::nearest(0),
        ask: vec![Kind::Whereabouts],
        ..settings(1)
    };
    assert_eq!(Few::new(alone).unwrap_err(), PlanError::NothingToAsk);
}

#[test]
fn without_plies_the_questions_come_as_soon_as_the_pieces_are_read_out() {
    let mut session = Session::new(
        Few::new(FewSettings {
            plies: Within::nearest(0),
            ..settings(5)
        })
        .unwrap(),
    );
    let outputs = session.begin();
    assert!(
        matches!(
            outputs.as_slice(),
            [Output::Opening(_), Output::Given(_), Output::Ask(_)]
        ),
        "{outputs:?}"
    );
    assert!(matches!(
        session.hear(Input::Again).as_slice(),
        [Output::Given(_)]
    ));
}

#[test]
fn a_drill_goes_on_exactly_where_it_was_stopped_wherever_that_is() {
    for (seed, plies) in [(1, 4), (2, 0), (3, 3)] {
        let settings = FewSettings {
            plies: Within::nearest(plies),
            ..settings(seed)
        };
        let whole = play(&settings, None);
        for stop_after in 0..60 {
            let resumed = play(&settings, Some(stop_after));
            assert_eq!(resumed, whole, "{plies} plies, stopped after {stop_after}");
        }
    }
}

#[test]
fn a_drill_that_was_killed_goes_on_with_the_questions_that_are_left() {
    let settings = settings(9);
    let whole = play(&settings, None);
    for answers in 0..whole.answered.len() {
        let earlier = Earlier {
            answers: whole.kept[..answers].to_vec(),
            ..Earlier::default()
        };
        let mut session = Session::new(Few::new(settings.clone()).unwrap());
        let mut log = Log::default();
        log.add(&session.resume(earlier));
        while session.awaits() != Awaits::Nothing {
            log.add(&session.hear(match session.awaits() {
                Awaits::Reply => Input::Pass { millis: 1 },
                _ => Input::GoOn,
            }));
        }
        assert_eq!(log.asked, whole.asked[answers..]);
    }
}

#[test]
fn the_same_seed_asks_the_same_and_another_seed_asks_otherwise() {
    assert_eq!(play(&settings(4), None), play(&settings(4), None));
    assert_ne!(
        play(&settings(4), None).pieces,
        play(&settings(5), None).pieces
    );
}

#[test]
fn stopping_sums_up_what_was_answered() {
    let mut session = Session::new(Few::new(settings(6)).unwrap());
    session.begin();
    let outputs = session.hear(Input::Stop);
    assert!(
        matches!(
            outputs.as_slice(),
            [Output::Ended(Ending::Stopped), Output::Summary(summary)] if rounds(summary).asked == 0
        ),
        "{outputs:?}"
    );
    assert_eq!(session.awaits(), Awaits::Nothing);
    assert!(session.hear(Input::GoOn).is_empty());
}

#[test]
fn every_answer_can_be_rechecked_from_its_setting_alone() {
    let mut session = Session::new(
        Few::new(FewSettings {
            count: Within::nearest(60),
            ..settings(8)
        })
        .unwrap(),
    );
    session.begin();
    let mut checked = 0;
    while session.awaits() != Awaits::Nothing {
        let input = match session.awaits() {
            Awaits::Reply => Input::Pass { millis: 1 },
            _ => Input::GoOn,
        };
        for output in session.hear(input) {
            let Output::Answered(answered) = output else {
                continue;
            };
            let Question::Line(question) = answered.question else {
                panic!("{answered:?}");
            };
            let setting = answered.setting.unwrap();
            let start = Start::from_fen(&setting.start, CastlingMode::Standard).unwrap();
            let mut line = Line::new(start);
            for uci in &setting.moves {
                line.push(uci.to_move(line.end()).unwrap()).unwrap();
            }
            assert_eq!(fen_of(line.end()), setting.position);
            assert_eq!(
                question.truth(Scene::new(&line, line.len())),
                answered.truth
            );
            checked += 1;
        }
    }
    assert_eq!(checked, 60);
}

#[test]
fn what_cannot_be_a_drill_is_refused() {
    let refused = |settings| Few::new(settings).unwrap_err();
    let written = serde_json::to_string(&settings(1)).unwrap();
    for pieces in [0, 2, 33] {
        let asked = written.replace("\"pieces\":5", &format!("\"pieces\":{pieces}"));
        assert_ne!(asked, written);
        assert!(serde_json::from_str::<FewSettings>(&asked).is_err());
    }
    let bare = FewSettings {
        ask: vec![Kind::Color],
        ..settings(1)
    };
    assert_eq!(refused(bare), PlanError::NothingToAsk);
    let json = serde_json::to_string(&Script::of_line(&line("e4"))).unwrap();
    assert!(json.contains("e2e4"), "{json}");
    let broken: Script = serde_json::from_str(&json.replace("e2e4", "e2e5")).unwrap();
    let broken = FewSettings {
        from: Some(vec![broken]),
        ..settings(1)
    };
    assert!(matches!(refused(broken), PlanError::Script(_)));
}

#[test]
fn where_a_question_stands_tells_of_no_checkpoint() {
    let log = play(&settings(3), None);
    for ask in &log.asked {
        assert!(matches!(ask.asked, Asked::Line(_, stand) if stand.checkpoint.is_none()));
    }
    let rebuilds = log
        .asked
        .iter()
        .filter(|ask| matches!(ask.asked, Asked::Line(LineQuestion::Rebuild(_), _)));
    assert!(rebuilds.count() <= log.pieces.len());
}
