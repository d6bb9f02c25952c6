//! A game said from memory: the session without a terminal, and the command.

use std::fs;

use crate::program::{CLUB, Desk};
use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Answered, Ask, Asked, Awaits, Cut, Earlier, EarlierAnswer, Elsewhere, Exercise, Input, Missed,
    Output, OverGame, OwnSummary, Recite, ReciteSettings, ReciteSummary, Script, Session, Sides,
    Slip, Summary, Told,
};
use sansvoir::learner::course::{Course, CourseEvent, CourseStep};
use sansvoir::learner::{AnswerRecord, Stamp};
use sansvoir::pgn::{Collection, Reading, read};
use sansvoir::question::{Kind, Reason, Verdict};
use shakmaty::Position;
use shakmaty::Role;
use shakmaty::fen::Fen;

fn reading(text: &str) -> Reading {
    read(&crate::passages::only(text))
}

fn recite(reading: &Reading, settings: &ReciteSettings) -> Session {
    let script = Script::new(&reading.game, Cut::default()).unwrap();
    let tags = reading.game.tags.iter();
    let plan = OverGame {
        settings: settings.clone(),
        script,
        tags: tags
            .map(|(name, value)| (name.to_owned(), value.to_owned()))
            .collect(),
        result: reading.game.result,
    };
    Session::new(Recite::new(plan).unwrap())
}

/// All that matters of what a recital said.
#[derive(Debug, Default)]
struct Log {
    answered: Vec<Answered>,
    missed: Vec<Missed>,
    hints: Vec<Role>,
    read_out: usize,
    unread: usize,
    summary: Option<Summary>,
}

impl Log {
    fn add(&mut self, outputs: Vec<Output>) {
        for output in outputs {
            match output {
                Output::Answered(answered) => self.answered.push(*answered),
                Output::Unread { .. } => self.unread += 1,
                Output::Missed(missed) => self.missed.push(*missed),
                Output::Hint(role) => self.hints.push(role),
                Output::Told(Told::Recite(_)) => self.read_out += 1,
                Output::Summary(summary) => self.summary = Some(*summary),
                _ => {}
            }
        }
    }

    fn verdicts(&self) -> Vec<Verdict> {
        let marks = self.answered.iter().map(|answered| answered.mark.verdict);
        marks.collect()
    }

    fn kept(&self) -> Vec<EarlierAnswer> {
        self.answered.iter().map(crate::kept).collect()
    }
}

/// What only a recital counts.
fn own(summary: &Summary) -> &ReciteSummary {
    match &summary.own {
        OwnSummary::Recite(own) => own,
        _ => panic!("a recital: {summary:?}"),
    }
}

const SCORE: &str = "1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 4. O-O Nf6 5. d3 d6 6. Nc3 O-O *";

/// Says these words one after the other, a second each, from the beginning of `SCORE`.
fn say(settings: &ReciteSettings, words: &[&str]) -> Log {
    let mut session = recite(&reading(SCORE), settings);
    let mut log = Log::default();
    log.add(session.begin());
    for word in words {
        log.add(session.hear(Input::read(word, 1000)));
    }
    log
}

#[test]
fn a_perfect_recital_of_every_demo_game_is_all_right_in_every_way_of_writing() {
    let mut games = 0;
    for file in ["club-evening", "first-steps", "dialects"] {
        let path = format!("{}/games-demo/{file}.pgn", env!("CARGO_MANIFEST_DIR"));
        for passage in Collection::new(fs::read(path).unwrap().as_slice()) {
            let reading = read(&passage.unwrap());
            let line = reading.game.main_line();
            if line.is_empty() {
                continue;
            }
            games += 1;
            for sides in [Sides::Both, Sides::White, Sides::Black] {
                let settings = ReciteSettings {
                    sides,
                    every: Some(Within::nearest(7)),
                    ..ReciteSettings::default()
                };
                let mut session = recite(&reading, &settings);
                let mut log = Log::default();
                log.add(session.begin());
                let uci: Vec<String> = line.uci(line.len()).map(|mv| mv.to_string()).collect();
                let mut asked = 0;
                while session.awaits() != Awaits::Nothing {
                    let heard = session.heard();
                    let outputs = session.hear(Input::Question);
                    let is_move = |ask: &Ask| matches!(ask.asked, Asked::Move { .. });
                    let text = if let [Output::AskAgain(ask)] = outputs.as_slice()
                        && !is_move(ask)
                    {
                        let position = line.position(heard).clone();
                        Fen::from_position(&position, shakmaty::EnPassantMode::Legal).to_string()
                    } else {
                        asked += 1;
                        let ply = line.plies()[heard];
                        assert!(sides.says(ply.side()));
                        match heard % 3 {
                            0 => uci[heard].clone(),
                            1 => ply.san.to_string(),
                            _ => ply.san.san.to_string().replace(['x', '='], ""),
                        }
                    };
                    log.add(session.hear(Input::Reply { text, millis: 10 }));
                }
                let summary = log.summary.unwrap();
                assert!(log.answered.iter().all(|one| one.mark.score >= 1.0));
                let own = own(&summary);
                assert_eq!((own.first_try, own.asked), (asked, asked));
                let end = line.end();
                assert_eq!(
                    summary.board,
                    Some((Position::board(end).clone(), Position::turn(end)))
                );
                assert_eq!(asked + log.read_out, line.len());
                let rebuilt = summary.kinds.get(&Kind::Rebuild);
                assert_eq!(rebuilt.unwrap().right as usize, line.len().div_ceil(7));
                assert_eq!((own.first_slip, own.again), (None, None));
            }
        }
    }
    assert!(games >= 10, "{games}");
}

#[test]
fn a_right_second_try_counts_half_and_two_wrong_ones_count_nothing() {
    let log = say(
        &ReciteSettings::default(),
        &["d4", "e4", "c5", "e6", "pass"],
    );
    assert_eq!(
        log.verdicts(),
        [Verdict::Part, Verdict::Wrong, Verdict::Pass]
    );
    let scores: Vec<f64> = log.answered.iter().map(|one| one.mark.score).collect();
    assert_eq!(scores, [0.5, 0.0, 0.0]);
    let tries = log.answered[1].tries.clone().unwrap();
    assert_eq!(
        (tries.said, tries.hint),
        (vec!["c5".into(), "e6".into()], false)
    );
    assert_eq!(log.answered[1].text, "e6");
    assert_eq!(
        log.answered[0].millis,
        Some(2000),
        "both tries took their time"
    );
    assert_eq!(log.missed.len(), 3);
}

#[test]
fn an_illegal_move_is_told_with_its_one_reason() {
    for (said, reason) in [
        ("Bc4", Reason::Blocked),
        ("e2e5", Reason::NotItsWay),
        ("O-O", Reason::Blocked),
        ("e7e5", Reason::WrongSide),
        ("e3e4", Reason::EmptySquare),
        ("Qd2", Reason::OwnPieceThere),
    ] {
        let log = say(&ReciteSettings::default(), &[said]);
        let Slip::Illegal(why) = &log.missed[0].slip else {
            panic!("{said}: {:?}", log.missed);
        };
        assert_eq!(why.blame.as_ref().unwrap().illegal.reason, reason, "{said}");
        assert!(log.answered.is_empty(), "one more try");
    }
}

#[test]
fn a_move_that_no_one_piece_was_meant_to_make_is_told_by_its_role() {
    let log = say(&ReciteSettings::default(), &["Rd4"]);
    assert!(matches!(log.missed[0].slip, Slip::NoPiece(_)));
}

#[test]
fn a_move_of_another_place_in_the_game_is_told_as_a_mix_up() {
    let settings = ReciteSettings::default();
    let mut log = say(&settings, &["Nf3", "e4", "e5", "e4"]);
    let four = "2.".parse().unwrap();
    assert_eq!(log.missed[0].elsewhere, Some(Elsewhere::Later(four)));
    let one = "1.".parse().unwrap();
    assert_eq!(log.missed[1].elsewhere, Some(Elsewhere::Earlier(one)));
    assert!(matches!(log.missed[1].slip, Slip::Illegal(_)));
    log = say(&settings, &["a3", "e4", "a6", "a5", "stop"]);
    assert!(log.missed.iter().all(|missed| missed.elsewhere.is_none()));
    let summary = log.summary.unwrap();
    let summary = own(&summary);
    let mixed: Vec<&str> = summary
        .mixed
        .iter()
        .map(|mixed| mixed.said.as_str())
        .collect();
    assert_eq!(mixed, ["a3", "a6", "a5"]);
    assert_eq!(summary.first_slip.unwrap().number, one);
    assert_eq!(summary.again, Some(one));
}

#[test]
fn what_cannot_be_read_or_could_be_two_moves_costs_nothing() {
    let twins = reading("1. Nf3 Nf6 2. d4 d5 3. e3 e6 4. Nbd2 *");
    let mut session = recite(&twins, &ReciteSettings::default());
    let mut log = Log::default();
    log.add(session.begin());
    for word in ["what", "Nf3", "Nf6", "d4", "d5", "e3", "e6", "Nd2", "Nbd2"] {
        log.add(session.hear(Input::read(word, 10)));
    }
    assert_eq!(log.unread, 2);
    assert_eq!(log.verdicts(), [Verdict::Right; 7]);
    assert!(log.missed.is_empty());
}

#[test]
fn a_hint_names_the_piece_and_costs_half() {
    let log = say(&ReciteSettings::default(), &["hint", "e4", "e5"]);
    assert_eq!(log.hints, [Role::Pawn]);
    assert_eq!(log.verdicts(), [Verdict::Part, Verdict::Right]);
    assert!(log.answered[0].tries.as_ref().unwrap().hint);
    assert!(!log.answered[1].tries.as_ref().unwrap().hint);
    let settings = ReciteSettings {
        hint: true,
        ..ReciteSettings::default()
    };
    let log = say(&settings, &["e4", "e5", "d4", "Nf3"]);
    assert_eq!(log.hints, [Role::Knight], "after the first miss alone");
}

#[test]
fn a_late_move_stays_right_and_looks_are_counted() {
    let settings = ReciteSettings {
        think_millis: Some(Within::nearest(999)),
        ..ReciteSettings::default()
    };
    let log = say(&settings, &["look", "e4", "e5", "stop"]);
    assert_eq!(log.verdicts(), [Verdict::Right, Verdict::Right]);
    assert_eq!((log.answered[0].looks, log.answered[1].looks), (1, 0));
    let summary = log.summary.unwrap();
    assert_eq!((summary.late, summary.looks, summary.heard), (2, 1, 2));
}

#[test]
fn a_recital_that_was_stopped_anywhere_goes_on_to_the_same_end() {
    let settings = ReciteSettings {
        sides: Sides::White,
        every: Some(Within::nearest(4)),
        ..ReciteSettings::default()
    };
    let words = [
        "e4", "d4", "Nf3", "pass", "Bb5", "Bc4", "Ke2", "Re1", "pass", "hint", "d3", "Nc3", "pass",
    ];
    let whole = say(&settings, &words);
    let summary = whole.summary.as_ref().unwrap();
    assert_eq!((own(summary).asked, summary.heard), (6, 12));
    for stop_after in 0..words.len() {
        let first = say(&settings, &words[..stop_after]);
        let mut session = recite(&reading(SCORE), &settings);
        let mut second = Log::default();
        second.add(session.resume(Earlier {
            answers: first.kept(),
            ..Earlier::default()
        }));
        // A move with one wrong try is asked anew.
        let tries = first
            .kept()
            .iter()
            .map(|past| past.tries.said.len().max(1))
            .sum::<usize>();
        let hints = first.kept().iter().filter(|past| past.tries.hint).count();
        for word in &words[tries + hints..] {
            second.add(session.hear(Input::read(word, 1000)));
        }
        assert_eq!(second.summary.as_ref(), Some(summary), "after {stop_after}");
    }
}

fn answers(desk: &Desk) -> Vec<serde_json::Value> {
    let records = desk.records().into_iter();
    records
        .filter(|record| record["type"] == "answer")
        .collect()
}

#[test]
fn the_command_keeps_every_move_so_that_it_can_be_checked_again() {
    let desk = Desk::new();
    let game = desk.file("own.pgn", SCORE);
    let said = desk.run(&["recite", &game, "--to", "2."], "e4\nc5\ne5\nd4\nBb5\n");
    said.ends(0, &[]);
    for words in [
        "Right at the first try: 1 of 3 (33 %).",
        "The first slip: Black's move 1, pawn to e5.",
        "You said d4 where White's move 2, knight to f3 was played.",
        "Start again at White's move 1, with the option --from 1.",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let better = Desk::new();
    let said = better.run(&["recite", &game, "--to", "2."], "e4\ne5\npass\n");
    let nearest = "Right at the first try: 2 of 3 (67 %).";
    assert!(said.out.contains(nearest), "{}", said.out);
    let answers = answers(&desk);
    assert_eq!(answers.len(), 3);
    let verdicts: Vec<_> = answers.iter().map(|one| one["verdict"].clone()).collect();
    assert_eq!(verdicts, ["right", "part", "wrong"]);
    assert_eq!(answers[1]["exercise"], "recite");
    assert_eq!(answers[1]["kind"], "played");
    assert_eq!(answers[1]["expected"]["move"], "e7e5");
    assert_eq!(answers[1]["moves"], serde_json::json!(["e2e4", "e7e5"]));
    assert_eq!(
        answers[1]["tries"],
        serde_json::json!({"said": ["c5", "e5"], "hint": false})
    );
    assert_eq!(desk.records().last().unwrap()["finished"], true);
}

#[test]
fn the_command_goes_on_and_refuses_other_settings() {
    let desk = Desk::new();
    let game = desk.file("own.pgn", SCORE);
    desk.run(&["recite", "--resume"], "")
        .ends(1, &["no unfinished recital"]);
    desk.run(&["recite", &game, "--side", "black"], "e5\nNc6\n")
        .ends(0, &[]);
    desk.run(&["recite", "--resume", "--side", "white"], "")
        .ends(2, &["--side", "leave out --resume"]);
    let said = desk.run(&["recite", "--resume"], "Bc5\nNf6\nd6\n0-0\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains("Right at the first try: 6 of 6 (100 %)."),
        "{said:?}"
    );
    assert_eq!(answers(&desk).len(), 6);
}

#[test]
fn the_command_names_a_move_that_the_game_does_not_have() {
    let desk = Desk::new();
    desk.run(&["recite", CLUB, "--from", "300."], "")
        .ends(1, &["no move 300."]);
    desk.run(&["recite", CLUB, "--side", "green"], "")
        .ends(2, &["--side"]);
    desk.run(&["recite", "nowhere.pgn"], "")
        .ends(1, &["nowhere.pgn"]);
}

fn in_chunks(size: usize) -> ReciteSettings {
    ReciteSettings {
        chunk: Some(Within::nearest(size)),
        ..ReciteSettings::default()
    }
}

/// Says a game of twelve plies in chunks; `slips` names moves by their turn that are given up.
fn learn(slips: &[usize]) -> (Log, usize) {
    let reading = reading(SCORE);
    let line = reading.game.main_line();
    let mut session = recite(&reading, &in_chunks(5));
    let mut log = Log::default();
    log.add(session.begin());
    let mut heard = 0;
    let mut turn = 0;
    while session.awaits() != Awaits::Nothing {
        if session.awaits() == Awaits::GoOn {
            let outputs = session.hear(Input::GoOn);
            heard += usize::from(matches!(outputs[0], Output::Heard(_)));
            log.add(outputs);
            continue;
        }
        let question = session.hear(Input::Question);
        let [Output::AskAgain(ask)] = &question[..] else {
            panic!("{question:?}");
        };
        let Asked::Move { number, .. } = ask.asked else {
            panic!("{ask:?}");
        };
        let ply = line.plies().iter().find(|ply| ply.number == number);
        let text = ply.unwrap().san.to_string();
        let word = if slips.contains(&turn) { "pass" } else { &text };
        turn += 1;
        log.add(session.hear(Input::read(word, 1000)));
    }
    (log, heard)
}

#[test]
fn a_game_is_learned_in_chunks_and_only_the_whole_of_it_counts() {
    let (log, heard) = learn(&[]);
    assert_eq!(heard, 3, "three chunks");
    assert_eq!(log.answered.len(), 5 + 5 + 10 + 2 + 12);
    let helped = log.answered.iter().filter(|answered| answered.helped);
    assert_eq!(helped.count(), 5 + 5 + 10 + 2);
    let summary = log.summary.unwrap();
    let own = own(&summary);
    assert_eq!((own.asked, own.first_try), (12, 12));
    assert_eq!(own.learned.map(|(plies, _)| plies), Some(12));
    assert_eq!(summary.kinds.values().next().unwrap().right, 12);
}

#[test]
fn beginnings_that_are_learned_in_chunks_pass_their_step() {
    let (log, _) = learn(&[]);
    let (step, time) = (CourseStep::Chunks, "2026-03-01T18:20:04Z".parse().unwrap());
    let mut course = Course::default();
    for learned in 1..=2 {
        for answered in &log.answered {
            let stamp = Stamp::new(time, "s");
            let answer = AnswerRecord::new(stamp, "recite", None, answered);
            course.hear(time, CourseEvent::of_answer(&answer).unwrap());
        }
        assert_eq!(course.taught(step), 22 * learned);
        // Twelve answers of each count.
        assert_eq!(course.standing(step).is_passed(), learned == 2);
    }
}

#[test]
fn the_chunk_that_fails_comes_back_before_more_is_learned() {
    // The third move of the second chunk slips, then the first move when both are said together.
    let (log, heard) = learn(&[7, 15]);
    assert_eq!(heard, 3 + 2);
    assert_eq!(log.answered.len(), 5 + (5 + 5) + (10 + 5 + 10) + 2 + 12);
    // What slips in the whole game counts, and what is said again does not.
    let (log, _) = learn(&[22]);
    let counts = |answered: &&Answered| !answered.helped && !answered.repeat;
    assert_eq!(log.answered.iter().filter(counts).count(), 12);
    let summary = log.summary.unwrap();
    assert_eq!((own(&summary).first_try, own(&summary).passed), (11, 1));
}

#[test]
fn learning_in_chunks_that_was_stopped_anywhere_goes_on_to_the_same_end() {
    let (whole, _) = learn(&[7]);
    let reading = reading(SCORE);
    for stop in (0..whole.answered.len()).step_by(3) {
        let mut log = Log::default();
        let mut session = recite(&reading, &in_chunks(5));
        let mut kept = whole.kept();
        let rest = kept.split_off(stop);
        log.add(session.resume(Earlier {
            answers: kept,
            ..Earlier::default()
        }));
        for answer in rest {
            while session.awaits() == Awaits::GoOn {
                log.add(session.hear(Input::GoOn));
            }
            let word = if answer.text.is_empty() {
                "pass"
            } else {
                &answer.text
            };
            log.add(session.hear(Input::read(word, answer.millis)));
        }
        assert_eq!(log.answered, whole.answered[stop..], "stopped after {stop}");
        assert_eq!(log.summary, whole.summary, "stopped after {stop}");
    }
}
