//! A UCI engine of the user's: what it is told, and engines that do not behave.

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use shakmaty::{CastlingMode, Chess, Move, Position};

use crate::program::Desk;
use crate::speech::script;
use sansvoir::game::Start;
use sansvoir::terminal::{Engine, EngineError};

/// No engine here needs so long, and none that is silent is waited for any longer than in `SHORT`.
const LONG: Duration = Duration::from_mins(1);
const SHORT: Duration = Duration::from_millis(300);
const NO_TIME: Duration = Duration::from_millis(1);

/// A shell script that speaks UCI, writes down what it is told, and runs these commands for `uci`, `isready` and
/// `go`.
fn engine(desk: &Desk, uci: &str, isready: &str, go: &str) -> String {
    let heard = desk.path("heard.txt");
    script(
        desk,
        &format!(
            "while read -r line; do\necho \"$line\" >> '{}'\ncase $line in\n\
             uci) {uci};;\nisready) {isready};;\ngo*) {go};;\nesac\ndone",
            heard.display()
        ),
    )
}

const INTRODUCED: &str = "echo 'id name Made up'; \
    echo 'option name UCI_Elo type spin default 1400 min 1350 max 2850'; \
    echo 'option name UCI_Chess960 type check default false'; echo uciok";

fn started(command: &str, patience: Duration) -> Result<Engine, EngineError> {
    Engine::start(&[command.to_owned()], patience)
}

/// The first move of an engine that behaves but for this answer to `go`.
fn first_move(go: &str, patience: Duration) -> Result<Move, EngineError> {
    let desk = Desk::new();
    let mut engine = started(&engine(&desk, INTRODUCED, "echo readyok", go), patience)?;
    engine.new_game(None, CastlingMode::Standard)?;
    engine.choose(&Start::standard(), &[], &Chess::new(), NO_TIME)
}

fn told(error: &EngineError) -> String {
    error.to_string()
}

fn heard(desk: &Desk) -> Vec<String> {
    let text = fs::read_to_string(desk.path("heard.txt")).unwrap();
    text.lines().map(str::to_owned).collect()
}

#[test]
fn a_game_is_told_from_its_start_at_a_rating_that_the_engine_has() {
    let desk = Desk::new();
    let go = "echo 'info depth 1 score cp 13 pv e2e4'; echo 'bestmove g1f3 ponder g8f6'";
    let command = engine(&desk, INTRODUCED, "echo readyok", go);
    let mut engine = started(&command, LONG).unwrap();
    let mode = CastlingMode::Standard;
    assert_eq!(engine.new_game(Some(900), mode).unwrap(), Some(1350));
    assert_eq!(engine.new_game(Some(3000), mode).unwrap(), Some(2850));
    assert_eq!(engine.new_game(None, mode).unwrap(), None);
    let mut position = Chess::new();
    let mut moves = Vec::new();
    for uci in ["e2e4", "e7e5"] {
        let mv: shakmaty::uci::UciMove = uci.parse().unwrap();
        moves.push(mv.to_move(&position).unwrap());
        position.play_unchecked(moves[moves.len() - 1]);
    }
    let start = Start::standard();
    let time = Duration::from_millis(70);
    let mv = engine.choose(&start, &moves, &position, time).unwrap();
    assert_eq!(mv.to_uci(mode).to_string(), "g1f3");
    drop(engine);
    let array = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
    let position = format!("position fen {array} moves e2e4 e7e5");
    let wanted = [
        "uci",
        "setoption name UCI_Chess960 value false",
        "setoption name UCI_LimitStrength value true",
        "setoption name UCI_Elo value 1350",
        "ucinewgame",
        "isready",
        "setoption name UCI_Chess960 value false",
        "setoption name UCI_LimitStrength value true",
        "setoption name UCI_Elo value 2850",
        "ucinewgame",
        "isready",
        "setoption name UCI_Chess960 value false",
        "ucinewgame",
        "isready",
        "isready",
        &position,
        "go movetime 70",
    ];
    assert_eq!(heard(&desk), wanted);
}

#[test]
fn a_judgment_is_the_last_one_before_the_move_at_full_strength() {
    for (said, score) in [
        (
            "info depth 1 score cp 13 pv e2e4'; echo 'info depth 2 score cp -27",
            -27,
        ),
        ("info depth 9 score mate 3 pv e2e4", 30_000),
        ("info depth 9 score mate -2 pv e2e4", -30_000),
        (
            "info depth 9 score cp lowerbound'; echo 'info string score of 5",
            0,
        ),
        ("info nodes 7", 0),
    ] {
        let desk = Desk::new();
        let go = format!("echo '{said}'; echo 'bestmove g1f3'");
        let mut engine = started(&engine(&desk, INTRODUCED, "echo readyok", &go), LONG).unwrap();
        engine.new_game(Some(1400), CastlingMode::Standard).unwrap();
        let judged = engine.judge(&Start::standard(), &[], &Chess::new(), NO_TIME);
        let (mv, judged) = judged.unwrap();
        assert_eq!(
            (mv.to_string().as_str(), judged),
            ("Ng1-f3", score),
            "{said}"
        );
        let full = "setoption name UCI_LimitStrength value false".to_owned();
        assert!(heard(&desk).contains(&full));
    }
}

#[test]
fn chess960_is_played_with_engines_that_know_it_and_castling_is_king_takes_rook() {
    let desk = Desk::new();
    let command = engine(&desk, INTRODUCED, "echo readyok", "echo bestmove f1g1");
    let mut knows = started(&command, LONG).unwrap();
    let mode = CastlingMode::Chess960;
    knows.new_game(None, mode).unwrap();
    let start = Start::from_fen("5k2/8/8/8/8/8/8/5KR1 w G - 0 1", mode).unwrap();
    let castled = knows
        .choose(&start, &[], start.position(), NO_TIME)
        .unwrap();
    assert!(castled.is_castle());
    let mut position = start.position().clone();
    position.play_unchecked(castled);
    // The same answer is no move for Black.
    let error = knows.choose(&start, &[castled], &position, NO_TIME);
    assert!(matches!(error, Err(EngineError::NoMove { .. })));
    let heard = heard(&desk);
    assert!(heard.contains(&"setoption name UCI_Chess960 value true".to_owned()));
    let moves = heard.iter().filter(|line| line.ends_with(" moves f1g1"));
    assert_eq!(moves.count(), 1, "{heard:?}");
    let plain = crate::engine::engine(&desk, "echo uciok", "echo readyok", "");
    let error = started(&plain, LONG).unwrap().new_game(None, mode);
    assert!(told(&error.unwrap_err()).contains("does not know Chess960"));
}

#[test]
fn a_command_that_cannot_be_run_or_is_no_engine_is_told() {
    let desk = Desk::new();
    let plain = desk.file("plain.txt", "no program");
    let folder = desk.path("").display().to_string();
    for command in ["", "/no/such/engine", &plain, &folder] {
        let error = started(command, LONG).unwrap_err();
        assert!(matches!(error, EngineError::NotRun { .. }), "{error:?}");
        assert!(told(&error).contains("--opponent"), "{error}");
    }
    assert!(matches!(
        Engine::start(&[], LONG),
        Err(EngineError::NotRun { .. })
    ));
    let ends = script(&desk, "exit 3");
    assert!(matches!(
        started(&ends, LONG),
        Err(EngineError::Ended { .. })
    ));
    let mute = engine(&desk, "", "", "");
    let error = started(&mute, SHORT).unwrap_err();
    assert_eq!(
        told(&error).split(" does ").nth(1),
        Some(
            "not answer \"uci\" with \"uciok\": see whether it speaks UCI, or play without --opponent"
        )
    );
    let never_ready = engine(&desk, "echo uciok", "", "");
    let error = started(&never_ready, SHORT)
        .unwrap()
        .new_game(None, CastlingMode::Standard);
    assert!(told(&error.unwrap_err()).contains("\"isready\" with \"readyok\""));
}

#[test]
fn what_is_no_legal_move_is_told_with_the_engine_s_words() {
    for (go, said) in [
        ("echo bestmove e2e5", "\"e2e5\""),
        ("echo bestmove e7e5", "\"e7e5\""),
        ("echo 'bestmove (none)'", "\"(none)\""),
        ("echo bestmove 0000", "\"0000\""),
        ("echo bestmove", "\"\""),
        (r"printf 'bestmove \377\376\n'", "\"\u{fffd}\u{fffd}\""),
    ] {
        let error = first_move(go, LONG).unwrap_err();
        assert!(matches!(error, EngineError::NoMove { .. }), "{error:?}");
        assert!(told(&error).contains(said), "{error}");
    }
}

#[test]
fn an_engine_that_ends_or_falls_silent_is_told_and_asked_nothing_more() {
    let error = first_move("exit 1", LONG).unwrap_err();
    assert!(matches!(error, EngineError::Ended { .. }), "{error:?}");
    let desk = Desk::new();
    let command = engine(&desk, INTRODUCED, "echo readyok", "sleep 1000");
    let mut hangs = started(&command, SHORT).unwrap();
    let start = Start::standard();
    let error = hangs.choose(&start, &[], start.position(), NO_TIME);
    assert!(
        matches!(error, Err(EngineError::Silent { .. })),
        "{error:?}"
    );
    let error = hangs.choose(&start, &[], start.position(), NO_TIME);
    assert!(matches!(error, Err(EngineError::Ended { .. })), "{error:?}");
    assert_eq!(
        heard(&desk)
            .iter()
            .filter(|line| line.starts_with("go"))
            .count(),
        1
    );
}

#[test]
fn an_engine_that_writes_without_end_is_told_and_long_or_broken_lines_are_passed_over() {
    for flood in ["yes info depth 1", "yes readyok", "tr '\\0' x < /dev/zero"] {
        let error = first_move(flood, LONG).unwrap_err();
        assert!(
            matches!(error, EngineError::Flooded { .. }),
            "{flood}: {error:?}"
        );
    }
    let desk = Desk::new();
    let flood = script(&desk, "yes hello");
    assert!(matches!(
        started(&flood, LONG),
        Err(EngineError::Flooded { .. })
    ));
    for noise in [
        "head -c 9000000 /dev/zero | tr '\\0' x; echo",
        "yes info depth 1 | head -n 100000",
        r"printf 'info string \377\376\n'",
    ] {
        let mv = first_move(&format!("{noise}; echo bestmove e2e4"), LONG).unwrap();
        assert_eq!(mv.to_uci(CastlingMode::Standard).to_string(), "e2e4");
    }
}

#[test]
fn a_second_answer_is_passed_over() {
    let desk = Desk::new();
    let go = "echo bestmove e2e4; echo bestmove d2d4";
    let mut twice = started(&engine(&desk, INTRODUCED, "echo readyok", go), LONG).unwrap();
    let start = Start::standard();
    for _ in 0..3 {
        let mv = twice
            .choose(&start, &[], start.position(), NO_TIME)
            .unwrap();
        assert_eq!(mv.to_uci(start.mode()).to_string(), "e2e4");
    }
}

#[test]
fn an_engine_that_never_reads_does_not_hold_up_a_game() {
    let desk = Desk::new();
    let deaf = script(&desk, "echo uciok; sleep 1000");
    let mut deaf = started(&deaf, SHORT).unwrap();
    let start = Start::standard();
    let begun = Instant::now();
    let moves = vec![start.position().legal_moves()[0]; 100_000];
    let error = deaf.choose(&start, &moves, start.position(), NO_TIME);
    assert!(
        matches!(error, Err(EngineError::Silent { .. })),
        "{error:?}"
    );
    assert!(begun.elapsed() < LONG);
}

#[test]
fn an_installed_engine_plays_a_game_that_the_rules_allow() {
    let path = "/usr/games/stockfish";
    if !Path::new(path).exists() {
        println!("{path} is not installed: nothing is tried");
        return;
    }
    let mut engine = started(path, LONG).unwrap();
    for (fen, mode) in [
        (
            "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
            CastlingMode::Standard,
        ),
        (
            "bqnbrnkr/pppppppp/8/8/8/8/PPPPPPPP/BQNBRNKR w HEhe - 0 1",
            CastlingMode::Chess960,
        ),
    ] {
        let limited = engine.new_game(Some(1000), mode).unwrap();
        assert!(limited.is_some_and(|rating| rating >= 1000));
        let start = Start::from_fen(fen, mode).unwrap();
        let (mut position, mut moves) = (start.position().clone(), Vec::new());
        while !position.is_game_over() && moves.len() < 30 {
            let mv = engine.choose(&start, &moves, &position, NO_TIME).unwrap();
            position.play_unchecked(mv);
            moves.push(mv);
        }
        assert!(moves.len() > 10);
    }
    // Where the game is over, it has no move.
    let mated = "3R2k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 1";
    let mated = Start::from_fen(mated, CastlingMode::Standard).unwrap();
    engine.new_game(None, mated.mode()).unwrap();
    let error = engine
        .choose(&mated, &[], mated.position(), NO_TIME)
        .unwrap_err();
    assert!(told(&error).contains("\"(none)\""), "{error}");
}

#[test]
fn a_rating_that_an_engine_does_not_have_is_told_before_the_game() {
    let desk = Desk::new();
    let command = engine(&desk, INTRODUCED, "echo readyok", "echo 'bestmove e2e4'");
    for (wished, words) in [("900", "plays at 1350"), ("3000", "plays at 2850")] {
        let play = ["play", "--opponent", &command, "--rating", wished];
        desk.run(&play, "stop\n").ends(0, &[words]);
    }
    let able = ["play", "--opponent", &command, "--rating", "1500"];
    let said = desk.run(&able, "stop\n");
    assert!(said.err.is_empty(), "{said:?}");
}
