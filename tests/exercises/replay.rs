//! A whole replay as a state machine: no clock, no file, no terminal.

use crate::published::{self, ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL};
use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Answered, Ask, Asked, Awaits, By, Checkpoints, Cut, Earlier, Exercise, Input, Output, OverGame,
    PromptWord, Replay, Script, Session, Settings, Stop, Summary, Told, Turn,
};
use sansvoir::game::{Game, MoveOrNull, Place, Start, Tags};
use sansvoir::question::{Kind, LineQuestion, Question, Reply, Scene, Truth, Verdict};
use shakmaty::san::San;

fn game(moves: &str) -> Game {
    let mut game = Game::new(Tags::default(), Start::standard());
    let mut last = None;
    for ply in published::line(moves).plies() {
        last = Some(game.go_on(last, MoveOrNull::Move(ply.mv), Place::new(1, 1)));
    }
    game
}

/// Every kind but the one whose reply is a move of the score, which is read only where it can be played.
fn readable_anywhere() -> Vec<Kind> {
    let kinds = Kind::LINE.into_iter();
    kinds.filter(|kind| *kind != Kind::Played).collect()
}

fn settings() -> Settings {
    Settings {
        by: By::Move,
        checkpoints: Checkpoints::Every(Within::nearest(8)),
        ask: readable_anywhere(),
        questions: Within::nearest(3),
        trail: Within::nearest(2),
        think_millis: Some(Within::nearest(5000)),
        looks: None,
        seed: 11,
        follow: false,
    }
}

fn replay(game: &Game, settings: Settings, cut: Cut) -> Session {
    let script = Script::new(game, cut).unwrap();
    let plan = OverGame {
        settings,
        script,
        tags: Vec::new(),
        result: None,
    };
    Session::new(Replay::new(plan).unwrap())
}

/// A replay that has begun.
fn begun(game: &Game, settings: Settings, cut: Cut) -> Session {
    let mut session = replay(game, settings, cut);
    session.begin();
    session
}

/// A learner of fixed habits: some replies right, some wrong, some unreadable, some looks.
fn habit(turn: usize, ask: &Ask) -> Vec<Input> {
    let text = match turn % 5 {
        0 => return vec![Input::Pass { millis: 900 }],
        1 => {
            return vec![
                Input::Look,
                Input::Reply {
                    text: right(ask),
                    millis: 6000,
                },
            ];
        }
        2 => "e4",
        3 => "what was that",
        _ => "none",
    };
    let text = text.to_owned();
    vec![
        Input::Reply { text, millis: 1500 },
        Input::Pass { millis: 2000 },
    ]
}

/// Any readable reply of the right form.
fn right(ask: &Ask) -> String {
    match ask.asked.question() {
        Question::Line(LineQuestion::Legality(_)) => "legal",
        Question::Line(LineQuestion::Rebuild(_)) => "Kg1 / Kg8",
        Question::Line(LineQuestion::Occupant(_)) => "empty",
        _ => "none",
    }
    .to_owned()
}

fn checkpoint(ask: &Ask) -> (usize, usize) {
    match ask.asked {
        Asked::Line(_, stand) => stand.checkpoint.map(|(at, of)| (at, of.unwrap())).unwrap(),
        Asked::Bare(_) | Asked::Rest { .. } | Asked::Move { .. } | Asked::Turn(_) => {
            panic!("{ask:?}")
        }
    }
}

#[derive(Debug, Default, PartialEq)]
struct Log {
    asked: Vec<Ask>,
    answered: Vec<(Question, Verdict, bool, u32)>,
    summary: Option<Summary>,
}

impl Log {
    fn add(&mut self, outputs: &[Output]) {
        for output in outputs {
            match output {
                Output::Ask(ask) => self.asked.push(ask.clone()),
                Output::Answered(answered) => self.answered.push((
                    answered.question,
                    answered.mark.verdict,
                    answered.late,
                    answered.looks,
                )),
                Output::Summary(summary) => self.summary = Some((**summary).clone()),
                _ => {}
            }
        }
    }
}

/// What the journal keeps of a session that ends here.
fn kept(answers: &[Answered], replay: &Session) -> Earlier {
    Earlier {
        answers: answers.iter().map(crate::kept).collect(),
        heard: replay.heard(),
        looks: replay.looks(),
        ..Earlier::default()
    }
}

/// Plays a session to its end by habit; after `stop_after` inputs it is put down and taken up again
/// by another replay, as another process would.
fn play(game: &Game, settings: &Settings, cut: Cut, stop_after: Option<usize>) -> Log {
    let mut log = Log::default();
    let mut answers = Vec::new();
    let mut session = replay(game, settings.clone(), cut);
    log.add(&session.begin());
    let mut inputs = 0;
    let mut turn = 0;
    let mut waiting: Vec<Input> = Vec::new();
    while session.awaits() != Awaits::Nothing {
        if stop_after == Some(inputs) {
            let progress = kept(&answers, &session);
            session = replay(game, settings.clone(), cut);
            let outputs = session.resume(progress);
            if session.awaits() == Awaits::Reply {
                // The question that stood is put again.
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
                    waiting = habit(turn, log.asked.last().unwrap());
                    turn += 1;
                }
                waiting.remove(0)
            }
        };
        let outputs = session.hear(input);
        inputs += 1;
        for output in &outputs {
            if let Output::Answered(answered) = output {
                answers.push((**answered).clone());
                waiting.clear();
            }
        }
        log.add(&outputs);
    }
    log
}

#[test]
fn a_session_asks_at_every_checkpoint_and_sums_up() {
    let log = play(&game(ANDERSSEN_DUFRESNE), &settings(), Cut::default(), None);
    let summary = log.summary.expect("a summary at the end");
    assert_eq!(summary.heard, 47);
    assert_eq!(log.asked.len(), log.answered.len());
    assert_eq!(checkpoint(log.asked.last().unwrap()).0, 6);
    let counted: usize = summary
        .kinds
        .values()
        .map(|score| score.answers() as usize)
        .sum();
    assert_eq!(counted, log.answered.len());
    let looks = log.answered.iter().map(|(.., looks)| looks).sum::<u32>();
    assert!(looks > 0);
    assert_eq!(summary.looks, looks);
    assert_eq!(
        summary.late,
        log.answered.iter().filter(|(_, _, late, _)| *late).count()
    );
}

#[test]
fn the_same_seed_asks_the_same_and_another_seed_asks_otherwise() {
    let game = game(ANDERSSEN_DUFRESNE);
    let first = play(&game, &settings(), Cut::default(), None);
    assert_eq!(first, play(&game, &settings(), Cut::default(), None));
    let other = Settings {
        seed: 12,
        ..settings()
    };
    assert_ne!(first.asked, play(&game, &other, Cut::default(), None).asked);
}

#[test]
fn a_session_goes_on_exactly_where_it_was_stopped_wherever_that_is() {
    let game = game(ANDERSSEN_DUFRESNE);
    let ways = [
        (By::Ply, false),
        (By::Move, false),
        (By::Checkpoint, false),
        (By::Ply, true),
        (By::Checkpoint, true),
    ];
    for (by, follow) in ways {
        let settings = Settings {
            by,
            follow,
            ..settings()
        };
        let whole = play(&game, &settings, Cut::default(), None);
        for stop_after in 0..60 {
            let resumed = play(&game, &settings, Cut::default(), Some(stop_after));
            assert_eq!(
                resumed.asked, whole.asked,
                "{by:?}, stopped after {stop_after}"
            );
            assert_eq!(
                resumed.answered, whole.answered,
                "{by:?}, stopped after {stop_after}"
            );
            let (one, other) = (resumed.summary.unwrap(), whole.summary.clone().unwrap());
            assert_eq!(one.kinds, other.kinds);
            assert_eq!(
                (one.heard, one.looks, one.board),
                (other.heard, other.looks, other.board)
            );
        }
    }
}

/// The plies between the checkpoints of a game that are `every` plies apart, or closer where they are missed, for
/// a learner who knows the answers at those checkpoints.
fn spacing(every: usize, follow: bool, knows: impl Fn(usize) -> bool) -> Vec<usize> {
    let line = published::line(BOGOLJUBOV_ALEKHINE);
    let settings = Settings {
        checkpoints: Checkpoints::Every(Within::nearest(every)),
        ask: vec![Kind::Whereabouts],
        follow,
        ..settings()
    };
    let mut session = replay(&game(BOGOLJUBOV_ALEKHINE), settings, Cut::default());
    let mut outputs = session.begin();
    let mut stops = vec![0];
    while session.awaits() != Awaits::Nothing {
        let asked = outputs.iter().rev().find_map(|output| match output {
            Output::Ask(ask) => Some(ask.asked.question()),
            _ => None,
        });
        outputs = session.hear(match (session.awaits(), asked) {
            (Awaits::Reply, Some(Question::Line(question))) => {
                let plies = session.heard();
                if stops.last() != Some(&plies) {
                    stops.push(plies);
                }
                let millis = 1;
                let text = match question.truth(Scene::new(&line, plies)) {
                    Truth::Square(square) => square.to_string(),
                    _ => "gone".to_owned(),
                };
                if knows(stops.len() - 2) {
                    Input::Reply { text, millis }
                } else {
                    Input::Pass { millis }
                }
            }
            _ => Input::GoOn,
        });
    }
    // The last one lies at the end of the game, wherever that is.
    stops.pop();
    stops.windows(2).map(|pair| pair[1] - pair[0]).collect()
}

#[test]
fn checkpoints_in_a_lesson_come_closer_after_misses_and_as_far_again_as_the_step_says() {
    for every in [4, 8, 16] {
        let all = spacing(every, true, |_| true);
        assert!(all.iter().all(|plies| *plies == every), "{all:?}");
        let none = spacing(every, true, |_| false);
        assert_eq!(none[0], every);
        assert!(none.is_sorted_by(|one, next| one >= next), "{none:?}");
        assert!(*none.last().unwrap() <= every / 2, "{none:?}");
        // Outside of a lesson they stand fast.
        let fast = spacing(every, false, |_| false);
        assert!(fast.iter().all(|plies| *plies == every), "{fast:?}");
    }
    let back = spacing(8, true, |checkpoint| checkpoint > 0);
    assert!(back[1] < 8 && back.contains(&8), "{back:?}");
    assert!(back.iter().all(|plies| *plies <= 8), "{back:?}");
    assert!(back[1..].is_sorted(), "{back:?}");
}

#[test]
fn a_reply_that_cannot_be_read_costs_nothing() {
    let game = game(ANDERSSEN_DUFRESNE);
    let mut session = begun(
        &game,
        Settings {
            ask: vec![Kind::Attacks],
            ..settings()
        },
        Cut::default(),
    );
    while session.awaits() == Awaits::GoOn {
        session.hear(Input::GoOn);
    }
    let outputs = session.hear(Input::Reply {
        text: "z9".into(),
        millis: 1,
    });
    assert!(
        matches!(outputs.as_slice(), [Output::Unread { .. }]),
        "{outputs:?}"
    );
    assert_eq!(session.awaits(), Awaits::Reply);
    let outputs = session.hear(Input::GoOn);
    assert!(
        matches!(outputs.as_slice(), [Output::ReplyWanted(_)]),
        "{outputs:?}"
    );
}

#[test]
fn looks_are_counted_and_can_run_out() {
    let game = game(ANDERSSEN_DUFRESNE);
    let mut session = begun(
        &game,
        Settings {
            looks: Some(Within::nearest(1)),
            ..settings()
        },
        Cut::default(),
    );
    let first = session.hear(Input::Look);
    assert!(
        matches!(
            first.as_slice(),
            [Output::Board {
                looks_left: Some(0),
                ..
            }]
        ),
        "{first:?}"
    );
    let second = session.hear(Input::Look);
    assert!(matches!(second.as_slice(), [Output::NoLook]), "{second:?}");
    assert_eq!(session.looks(), 1);
}

#[test]
fn again_says_the_trail_and_help_and_question_are_never_a_miss() {
    let game = game(ANDERSSEN_DUFRESNE);
    let mut session = begun(&game, settings(), Cut::default());
    assert!(matches!(
        session.hear(Input::Again).as_slice(),
        [Output::Again(plies)] if plies.is_empty()
    ));
    assert!(matches!(
        session.hear(Input::Question).as_slice(),
        [Output::NothingAsked(_)]
    ));
    session.hear(Input::GoOn);
    match session.hear(Input::Again).as_slice() {
        [Output::Again(plies)] => {
            let sans: Vec<String> = plies.iter().map(|ply| ply.san.to_string()).collect();
            assert_eq!(sans, ["e4", "e5"]);
        }
        other => panic!("{other:?}"),
    }
    let help = session.hear(Input::Help);
    let [Output::Help(help)] = help.as_slice() else {
        panic!("{help:?}");
    };
    assert_eq!(help.form, None);
    let words = [
        PromptWord::GoOn,
        PromptWord::Again,
        PromptWord::AgainPlies,
        PromptWord::Look,
        PromptWord::Help,
        PromptWord::Stop,
    ];
    assert_eq!(help.words, words);
}

#[test]
fn a_cut_game_starts_where_the_cut_does() {
    let game = game(BOGOLJUBOV_ALEKHINE);
    let cut = Cut {
        from: Some("30...".parse().unwrap()),
        to: Some("34.".parse().unwrap()),
        ..Cut::default()
    };
    let script = Script::new(&game, cut).unwrap();
    let line = script.line(0).unwrap();
    let sans: Vec<String> = line.plies().iter().map(|ply| ply.san.to_string()).collect();
    assert_eq!(
        sans,
        ["bxc3", "Rxe8", "c2", "Rxf8+", "Kh7", "Nf2", "c1=Q+", "Nf1"]
    );
    let backwards = Cut {
        to: Some("20.".parse().unwrap()),
        ..cut
    };
    assert!(Script::new(&game, backwards).is_err());
    let beyond = Cut {
        to: Some("99.".parse().unwrap()),
        ..cut
    };
    assert!(Script::new(&game, beyond).is_err());
}

#[test]
fn a_script_reads_back_from_json() {
    let script = Script::new(&game(ANDERSSEN_DUFRESNE), Cut::default()).unwrap();
    let json = serde_json::to_string(&script).unwrap();
    assert_eq!(serde_json::from_str::<Script>(&json).unwrap(), script);
}

/// 1. e4 e5 2. Nf3 (2. f4 exf4 (2... d5 3. exd5) 3. Nf3) 2... Nc6
fn game_with_sidelines() -> Game {
    let mut game = Game::new(Tags::default(), Start::standard());
    let step = |game: &Game, before, text: &str| {
        let position = match before {
            None => game.start.position().clone(),
            Some(id) => game.line_to(id).end().clone(),
        };
        let san: San = text.parse().unwrap();
        MoveOrNull::Move(san.to_move(&position).unwrap())
    };
    let place = Place::new(1, 1);
    let mut main = Vec::new();
    for text in ["e4", "e5", "Nf3", "Nc6"] {
        let before = main.last().copied();
        let next = step(&game, before, text);
        main.push(game.go_on(before, next, place));
    }
    let f4 = step(&game, Some(main[1]), "f4");
    let f4 = game.branch(main[2], f4, place);
    let exf4 = step(&game, Some(f4), "exf4");
    let exf4 = game.go_on(Some(f4), exf4, place);
    let nf3 = step(&game, Some(exf4), "Nf3");
    game.go_on(Some(exf4), nf3, place);
    let d5 = step(&game, Some(f4), "d5");
    let d5 = game.branch(exf4, d5, place);
    let takes = step(&game, Some(d5), "exd5");
    game.go_on(Some(d5), takes, place);
    game
}

#[test]
fn sidelines_are_read_where_they_branch_off_and_end_with_a_checkpoint() {
    let cut = Cut {
        sidelines: true,
        ..Cut::default()
    };
    let mut session = begun(
        &game_with_sidelines(),
        Settings {
            questions: Within::nearest(1),
            ..settings()
        },
        cut,
    );
    let mut story = Vec::new();
    while session.awaits() != Awaits::Nothing {
        let input = match session.awaits() {
            Awaits::Reply => Input::Pass { millis: 1 },
            _ => Input::GoOn,
        };
        for output in session.hear(input) {
            match output {
                Output::Heard(heard) => {
                    story.extend(heard.plies.iter().map(|ply| ply.san.to_string()));
                }
                Output::Told(Told::Replay(Turn::SidelineBegins { instead_of, .. })) => {
                    story.push(format!("instead of {}", instead_of.san));
                }
                Output::Told(Told::Replay(Turn::SidelineEnds(back_after))) => {
                    story.push(format!("back after {}", back_after.san));
                }
                Output::Answered(_) => story.push("asked".into()),
                _ => {}
            }
        }
    }
    let expected = [
        "e4",
        "e5",
        "Nf3",
        "instead of Nf3",
        "f4",
        "exf4",
        "instead of exf4",
        "d5",
        "exd5",
        "asked",
        "back after exf4",
        "Nf3",
        "asked",
        "back after Nf3",
        "Nc6",
        "asked",
    ];
    assert_eq!(story, expected);
}

#[test]
fn named_checkpoints_are_the_only_ones() {
    let game = game(ANDERSSEN_DUFRESNE);
    let checkpoints = Checkpoints::At(vec![Stop::Plies(5), Stop::End]);
    let log = play(
        &game,
        &Settings {
            checkpoints,
            ..settings()
        },
        Cut::default(),
        None,
    );
    assert!(log.asked.iter().all(|ask| checkpoint(ask).1 == 2));
    assert_eq!(log.asked.len(), 6);
}

#[test]
fn every_answer_can_be_rechecked_from_its_setting_alone() {
    let mut checked = 0;
    for moves in [BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL] {
        checked += recheck(&mut begun(&game(moves), settings(), Cut::default()));
    }
    assert!(checked > 40, "{checked}");
}

#[test]
fn no_checkpoint_asks_what_the_one_before_has_told() {
    for seed in 0..8 {
        let settings = Settings {
            ask: vec![Kind::Whereabouts, Kind::Occupant],
            checkpoints: Checkpoints::Every(Within::nearest(6)),
            seed,
            ..settings()
        };
        let game = game(BOGOLJUBOV_ALEKHINE);
        let mut session = begun(&game, settings, Cut::default());
        let mut told = Vec::new();
        while session.awaits() != Awaits::Nothing {
            let input = match session.awaits() {
                Awaits::Reply => Input::Pass { millis: 1 },
                _ => Input::GoOn,
            };
            for output in session.hear(input) {
                if let Output::Answered(answered) = output {
                    told.push((answered.question, answered.truth));
                }
            }
        }
        let checkpoints: Vec<_> = told.chunks(3).collect();
        assert_eq!(
            (checkpoints.len(), told.len()),
            (18, 54),
            "each has its three"
        );
        for two in checkpoints.windows(2) {
            assert!(
                !two[1].iter().any(|asked| two[0].contains(asked)),
                "{two:?}"
            );
        }
    }
}

/// Passes every question of a session and computes its truth again from what the journal keeps.
fn recheck(session: &mut Session) -> usize {
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
            let start = Start::from_fen(&setting.start, shakmaty::CastlingMode::Standard);
            let mut line = sansvoir::game::Line::new(start.unwrap());
            for uci in &setting.moves {
                line.push(uci.to_move(line.end()).unwrap()).unwrap();
            }
            assert_eq!(sansvoir::game::fen_of(line.end()), setting.position);
            let scene = sansvoir::question::Scene::new(&line, line.len());
            let json = serde_json::to_value(&answered.truth).unwrap();
            assert_eq!(question.truth(scene), answered.truth);
            assert_eq!(
                serde_json::from_value::<Truth>(json).unwrap(),
                answered.truth
            );
            assert!(answered.reply.is_none_or(|reply| reply != Reply::Gone));
            checked += 1;
        }
    }
    checked
}
