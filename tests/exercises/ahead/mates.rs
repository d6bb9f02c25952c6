//! Mates to be found: every move against the best defence.

use std::collections::HashSet;

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Answered, Awaits, Earlier, EarlierAnswer, Exercise, Input, Mates, MatesSettings, MatesSummary,
    MovesPlayed, Output, OwnSummary, PlanError, Problem, Script, Search, Searched, Session, Show,
    Told,
};
use sansvoir::game::{Line, Start, fen_of};
use sansvoir::question::mating::{best_defence, keys, way};
use sansvoir::question::{LineQuestion, LineWhy, Mate, Question, Scene, Truth, Verdict, Why};
use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Position};

use super::learner::published;
use crate::published::{ANDERSSEN_DUFRESNE, line};

/// P. Morphy, New York Clipper, 28 June 1856: mate in 2, the key is Ra6.
const MORPHY: &str = "kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1";
/// S. Loyd, New York Albion, January 1857: mate in 3, the key is Rf4.
const LOYD: &str = "8/8/8/8/8/6P1/6k1/4KR1R w K - 0 1";
/// Two rooks on neighboring files: several moves force mate in 2 here.
const TWO_ROOKS: &str = "7k/8/8/8/8/8/R7/1R4K1 w - - 0 1";

fn start(fen: &str) -> Line {
    Line::new(Start::from_fen(fen, CastlingMode::Standard).unwrap())
}

fn problem(fen: &str, within: u32) -> Problem {
    Problem {
        script: Script::of_line(&start(fen)),
        game: 0,
        within: Within::nearest(within as usize),
    }
}

fn settings(problems: Vec<Problem>) -> MatesSettings {
    MatesSettings {
        problems,
        show: Show::Diagram,
        within: Within::nearest(4),
        think_millis: None,
        looks: Some(Within::nearest(2)),
        seed: 1,
    }
}

fn say(session: &mut Session, text: &str) -> Vec<Output> {
    session.hear(Input::Reply {
        text: text.to_owned(),
        millis: 1000,
    })
}

fn answered(outputs: &[Output]) -> &Answered {
    let answers = outputs.iter().find_map(|output| match output {
        Output::Answered(answered) => Some(&**answered),
        _ => None,
    });
    answers.expect("a reply was marked")
}

#[test]
fn a_mate_is_said_move_by_move_against_the_best_defence() {
    let mut session = Session::new(Mates::new(settings(vec![problem(MORPHY, 2)])).unwrap());
    session.begin();
    let outputs = say(&mut session, "Ra6");
    assert_eq!(answered(&outputs).mark.verdict, Verdict::Right);
    let reply = outputs.iter().find_map(|output| match output {
        Output::Told(Told::Mates(MovesPlayed(plies))) => Some(plies[1].san.to_string()),
        _ => None,
    });
    // 1... bxa6 2. b7, and 1... B moves 2. Rxa7.
    let mate = match reply.as_deref() {
        Some("bxa6") => "b7",
        Some(_) => "Rxa7",
        None => panic!("the defence replies: {outputs:?}"),
    };
    let outputs = say(&mut session, mate);
    assert_eq!(answered(&outputs).mark.verdict, Verdict::Right);
    assert!(outputs.iter().any(
        |output| matches!(output, Output::Told(Told::Mates(MovesPlayed(plies))) if plies.len() == 1)
    ));
    let Some(Output::Summary(summary)) = outputs.last() else {
        panic!("the session is over: {outputs:?}");
    };
    let (tried, mated) = (1, 1);
    assert_eq!(
        summary.own,
        OwnSummary::Mates(MatesSummary { tried, mated })
    );
}

#[test]
fn the_reason_of_a_move_is_help_with_the_rest_of_the_mate() {
    let mut session = Session::new(Mates::new(settings(vec![problem(MORPHY, 2)])).unwrap());
    session.begin();
    say(&mut session, "Ra6");
    let outputs = session.hear(Input::Why);
    assert!(matches!(outputs[0], Output::Helped), "{outputs:?}");
    let outputs = say(&mut session, "b7");
    assert!(answered(&outputs).helped);
    let Some(Output::Summary(summary)) = outputs.last() else {
        panic!("the session is over: {outputs:?}");
    };
    let (tried, mated) = (1, 0);
    assert_eq!(
        summary.own,
        OwnSummary::Mates(MatesSummary { tried, mated })
    );
}

#[test]
fn any_move_that_still_mates_in_time_is_right() {
    let position = start(TWO_ROOKS).end().clone();
    let all = keys(&position, 2);
    assert!(all.len() > 1, "{all:?}");
    for mv in position.legal_moves() {
        let mut session = Session::new(Mates::new(settings(vec![problem(TWO_ROOKS, 2)])).unwrap());
        session.begin();
        let outputs = say(&mut session, &mv.to_uci(CastlingMode::Standard).to_string());
        let right = answered(&outputs).mark.verdict == Verdict::Right;
        assert_eq!(right, all.contains(&mv), "{mv}");
    }
}

#[test]
fn a_wrong_move_is_told_the_defence_that_escapes_and_a_way_to_the_mate() {
    let mut session = Session::new(Mates::new(settings(vec![problem(MORPHY, 2)])).unwrap());
    session.begin();
    let outputs = say(&mut session, "Ra2");
    let answered = answered(&outputs);
    assert_eq!(answered.mark.verdict, Verdict::Wrong);
    let Why::Line(LineWhy::Mate(why)) = &answered.why else {
        panic!("a mate is explained: {:?}", answered.why);
    };
    let escape = why.effects.extra[0].answer.unwrap().mv;
    let mut after = start(MORPHY);
    let wrong: UciMove = "a1a2".parse().unwrap();
    after.push(wrong.to_move(after.end()).unwrap()).unwrap();
    after.push(escape).unwrap();
    assert!(keys(after.end(), 1).is_empty(), "{escape} escapes");
    let way: Vec<String> = why.way.iter().map(|ply| ply.san.to_string()).collect();
    assert_eq!(way[0], "Ra6");
    assert_eq!(way.len(), 3);
    assert!(way[2].ends_with('#'));
}

#[test]
fn a_way_to_the_mate_is_as_long_as_the_mate() {
    let position = start(TWO_ROOKS).end().clone();
    let moves = way(&position, 4);
    assert_eq!(moves.len(), 3, "{moves:?}");
    let mut after = position.clone();
    for mv in moves {
        assert!(after.is_legal(mv));
        after.play_unchecked(mv);
    }
    assert!(after.is_checkmate());
    assert!(way(start(LOYD).end(), 1).is_empty());
    assert!(best_defence(&after, 1).is_none());
}

#[test]
fn a_stranger_can_recheck_a_mate_from_its_record() {
    let mut session = Session::new(Mates::new(settings(vec![problem(MORPHY, 2)])).unwrap());
    session.begin();
    let first = say(&mut session, "Ra6");
    let second = say(&mut session, "hm");
    assert!(matches!(second[..], [Output::Unread { .. }]), "{second:?}");
    // White has no queen, and says so by trying.
    let last = say(&mut session, "Qh7");
    assert_eq!(answered(&last).mark.verdict, Verdict::Wrong);
    let subjects = [
        r#"{"kind":"mate","subject":{"in":2}}"#,
        r#"{"kind":"mate","subject":{}}"#,
    ];
    for ((outputs, subject), plies) in [first, last].iter().zip(subjects).zip([0, 2]) {
        let answered = answered(outputs);
        assert_eq!(serde_json::to_string(&answered.question).unwrap(), subject);
        let setting = answered.setting.as_ref().unwrap();
        assert_eq!(setting.moves.len(), plies);
        assert_eq!(answered.hardness.unwrap().plies as usize, plies);
        let line = start(&setting.position);
        let Question::Line(question) = answered.question else {
            panic!("a question over a line");
        };
        assert_eq!(question.truth(Scene::new(&line, 0)), answered.truth);
        let Truth::Moves(moves) = &answered.truth else {
            panic!("moves are expected");
        };
        assert!(!moves.is_empty());
    }
}

#[test]
fn an_old_mate_question_is_one_at_once() {
    let old: LineQuestion = serde_json::from_str(r#"{"kind":"mate","subject":{}}"#).unwrap();
    assert_eq!(old, LineQuestion::Mate(Mate::AT_ONCE));
}

#[test]
fn a_session_of_mates_goes_on_with_the_move_that_was_due() {
    let all = settings(vec![problem(MORPHY, 2), problem(TWO_ROOKS, 3)]);
    let mut whole = Session::new(Mates::new(all.clone()).unwrap());
    whole.begin();
    let mut said = Vec::new();
    let replies = ["Ra6", "pass", "Rb7"];
    for reply in replies {
        whole.hear(Input::read(reply, 500));
        said.push(EarlierAnswer {
            text: reply.replace("pass", ""),
            millis: 500,
            ..EarlierAnswer::default()
        });
        let mut resumed = Session::new(Mates::new(all.clone()).unwrap());
        let outputs = resumed.resume(Earlier {
            answers: said.clone(),
            ..Earlier::default()
        });
        assert_eq!(resumed.awaits(), whole.awaits());
        assert_eq!(resumed.trail(), whole.trail());
        let (one, other) = (whole.hear(Input::Question), resumed.hear(Input::Question));
        assert_eq!(format!("{one:?}"), format!("{other:?}"));
        assert!(matches!(outputs[0], Output::Opening(_)));
    }
}

fn search_in(script: &Script, within: u32, known: &HashSet<String>, show: Show) -> Searched {
    let search = Search {
        script,
        game: 0,
        within,
        show,
        wanted: 50,
        known,
    };
    search.run(|_| true).unwrap()
}

#[test]
fn the_mate_that_ends_a_published_game_is_found_where_it_begins() {
    let game = line(ANDERSSEN_DUFRESNE);
    let found = search_in(&Script::of_line(&game), 3, &HashSet::new(), Show::Diagram);
    // 21. Qxd7+ Kxd7 22. Bf5+ Ke8 23. Bd7+ Kf8 24. Bxe7#: a mate in three begins with 22. Bf5+.
    let bf5 = game
        .plies()
        .iter()
        .position(|ply| ply.san.to_string() == "Bf5+");
    let before = fen_of(game.position(bf5.unwrap()));
    let starts: Vec<(String, u32)> = found
        .problems
        .iter()
        .map(|problem| (problem.script.start().unwrap().fen(), problem.within.get()))
        .collect();
    assert!(starts.contains(&(before, 3)), "{starts:?}");
    assert_eq!(found.positions, line(ANDERSSEN_DUFRESNE).len() + 1);
    for problem in &found.problems {
        let line = problem.script.line(0).unwrap();
        assert!(!keys(line.end(), problem.within.get()).is_empty());
        assert!(keys(line.end(), problem.within.get() - 1).is_empty());
    }
}

#[test]
fn known_positions_are_passed_over_and_a_stopped_search_says_so() {
    let script = &published()[1];
    let all = search_in(script, 2, &HashSet::new(), Show::Diagram);
    assert!(!all.problems.is_empty());
    let known = all
        .problems
        .iter()
        .map(|problem| problem.script.start().unwrap().fen())
        .collect();
    let rest = search_in(script, 2, &known, Show::Diagram);
    assert!(rest.problems.is_empty());
    assert_eq!(rest.known, all.problems.len());
    let search = Search {
        script,
        game: 0,
        within: 3,
        show: Show::List,
        wanted: 50,
        known: &HashSet::new(),
    };
    let mut calls = 0;
    let stopped = search
        .run(|_| {
            calls += 1;
            calls < 40
        })
        .unwrap();
    assert!(stopped.stopped);
    assert_eq!(calls, 40);
}

#[test]
fn a_game_that_is_heard_is_read_up_to_the_mate() {
    let script = &published()[1];
    let found = search_in(script, 3, &HashSet::new(), Show::None);
    let heard = MatesSettings {
        show: Show::None,
        ..settings(found.problems)
    };
    let mut session = Session::new(Mates::new(heard).unwrap());
    session.begin();
    assert_eq!(session.awaits(), Awaits::GoOn);
    while session.awaits() == Awaits::GoOn {
        session.hear(Input::GoOn);
    }
    assert_eq!(session.awaits(), Awaits::Reply);
    let plies = session.heard();
    assert!(plies > 20);
    let outputs = session.hear(Input::Pass { millis: 1 });
    assert_eq!(answered(&outputs).hardness.unwrap().plies as usize, plies);
}

#[test]
fn looks_are_counted_and_come_to_an_end() {
    let mut session = Session::new(Mates::new(settings(vec![problem(MORPHY, 2)])).unwrap());
    session.begin();
    for _ in 0..2 {
        assert!(matches!(session.hear(Input::Look)[0], Output::Board { .. }));
    }
    assert!(matches!(session.hear(Input::Look)[0], Output::NoLook));
    let outputs = session.hear(Input::Pass { millis: 1 });
    assert_eq!(answered(&outputs).looks, 2);
}

#[test]
fn without_a_mate_there_is_no_session() {
    assert_eq!(
        Mates::new(settings(Vec::new())).unwrap_err(),
        PlanError::NoProblem
    );
    let error = Mates::new(settings(vec![problem(MORPHY, 1)])).unwrap_err();
    assert!(matches!(error, PlanError::NoMate(_)));
}
