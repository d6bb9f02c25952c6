//! Games of the opponent, a JSON object a line, for `tests/outside/ends.py`: from the usual array, from arrays of
//! Chess960 and from endings; in every second one a draw is claimed as soon as it can be.

use std::fs::File;
use std::io::{BufWriter, Write};
use std::thread;
use std::time::Duration;

use sansvoir::exercise::Dice;
use sansvoir::exercise::opponent::{Opponent, RATINGS};
use sansvoir::game::{GameEnd, Start};
use sansvoir::terminal::Engine;
use serde_json::json;
use shakmaty::{CastlingMode, Position};

/// Games are left unfinished after so many plies.
const LONGEST: usize = 120;
/// Endings where neither side gets on, some of them with most of fifty or seventy-five moves made, one where only
/// the kings can move, and one that is soon stalemate.
const ENDINGS: [&str; 6] = [
    "3k4/8/8/r7/8/8/4R3/4K3 w - - 90 100",
    "4k3/8/8/b7/8/8/4N3/4K3 w - - 140 100",
    "r3k3/8/8/8/8/8/8/R3K3 w Qq - 130 100",
    "4k3/4p3/8/8/8/8/4P3/4K3 w - - 0 60",
    "8/8/8/8/4k3/8/4p3/4K3 b - - 0 60",
    "7k/1p1p1p1p/1P1P1P1P/8/8/1p1p1p1p/1P1P1P1P/7K w - - 0 60",
];

/// Writes `games` games of the weakest ratings among themselves, and a tenth as many against an engine.
pub(crate) fn write(path: &str, games: u64, seed: u64, engine: Option<&str>) {
    let file = File::create(path).expect("the file can be written");
    let mut file = BufWriter::new(file);
    let mut engine = engine
        .map(|command| Engine::start(&[command.to_owned()], Engine::PATIENCE).expect("an engine"));
    let half = |rest| {
        let numbers = (0..games).filter(move |number| number % 2 == rest);
        let lines = numbers.map(|number| format!("{}\n", game(seed, number, None)));
        lines.collect::<String>()
    };
    let [even, odd] = thread::scope(|scope| {
        let halves = [0, 1].map(|rest| scope.spawn(move || half(rest)));
        halves.map(|half| half.join().expect("the games are played"))
    });
    write!(file, "{even}{odd}").expect("the file can be written");
    let Some(engine) = &mut engine else {
        return;
    };
    for number in 0..games / 10 {
        let line = game(seed + 1, number, Some(engine));
        writeln!(file, "{line}").expect("the file can be written");
    }
}

fn game(seed: u64, number: u64, mut engine: Option<&mut Engine>) -> serde_json::Value {
    let mut dice = Dice::new(seed, number);
    let start = match number / 2 % 4 {
        0 | 1 => Start::standard(),
        2 => Start::from_fen(&array(&mut dice), CastlingMode::Chess960).expect("an array"),
        _ => {
            let fen = dice.pick(&ENDINGS).expect("endings");
            Start::from_fen(fen, CastlingMode::Standard).expect("an ending")
        }
    };
    if let Some(engine) = &mut engine {
        let limited = engine.new_game(Some(RATINGS[0]), start.mode());
        limited.expect("the engine is ready");
    }
    let players = [0, 1].map(|player| Opponent::new(RATINGS[player], seed + number));
    let claims = number % 2 == 1;
    let (mut position, mut before, mut moves) = (start.position().clone(), vec![], vec![]);
    let end = loop {
        let end = GameEnd::of(&position, &before).or_else(|| {
            let claim = GameEnd::claim(&position, &before);
            claim.filter(|_| claims)
        });
        if end.is_some() || moves.len() == LONGEST {
            break end;
        }
        let mv = match &mut engine {
            Some(engine) if position.turn().is_white() => engine
                .choose(&start, &moves, &position, Duration::from_millis(1))
                .expect("a move"),
            Some(_) | None => {
                let player = &players[moves.len() % 2];
                player.choose(&position, &before).expect("a move")
            }
        };
        moves.push(mv);
        before.push(position.clone());
        position.play_unchecked(mv);
    };
    json!({
        "chess960": start.mode().is_chess960(),
        "start": start.fen(),
        "moves": moves.iter().map(|mv| mv.to_uci(start.mode()).to_string()).collect::<Vec<_>>(),
        "claims": claims,
        "end": end.map(|end| format!("{end:?}")),
        "result": end.map(|end| end.result(position.turn()).marker()),
    })
}

/// An array of Chess960: bishops on squares of both colors, the king between the rooks.
fn array(dice: &mut Dice) -> String {
    let mut pieces = *b"rnbqkbnr";
    loop {
        dice.shuffle(&mut pieces);
        let places = |piece| (0..8).filter(move |place| pieces[*place] == piece);
        let king = places(b'k').sum::<usize>();
        let is_between = places(b'r').min() < Some(king) && places(b'r').max() > Some(king);
        if is_between && places(b'b').sum::<usize>() % 2 == 1 {
            let black = String::from_utf8_lossy(&pieces);
            let white = black.to_uppercase();
            return format!("{black}/pppppppp/8/8/8/8/PPPPPPPP/{white} w KQkq - 0 1");
        }
    }
}
