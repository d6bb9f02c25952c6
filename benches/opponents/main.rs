//! How the opponent's ratings stand to each other: games between neighbors, with the score of the stronger one,
//! its 95 % interval, the time a move takes, and what is overlooked. Run with `cargo bench --bench opponents`; words
//! after `--` are the ratings to play with (all). `SANSVOIR_GAMES` is the number of games a pair (400),
//! `SANSVOIR_SEED` another seed. With `SANSVOIR_ENGINE`, a UCI engine's command, the ratings play against that
//! engine instead, which has `SANSVOIR_MILLIS` a move (50) and the nearest `UCI_Elo` that it knows; the rating that
//! the score speaks for is told by Elo's logistic curve. Nothing is asserted. `-- --write FILE` writes games for
//! another library to replay instead.

mod written;

use std::env;
use std::thread;
use std::time::{Duration, Instant};

use sansvoir::exercise::Dice;
use sansvoir::exercise::opponent::{Opponent, RATINGS, best_move};
use sansvoir::game::{GameEnd, GameResult, Start};
use sansvoir::terminal::Engine;
use shakmaty::{CastlingMode, Chess, Color, Move, Position, Role};

/// Games are given up as drawn after so many plies.
const LONGEST: usize = 400;
/// An opening leaves neither side better than this, in hundredths of a pawn, by the opponent's own search.
const BALANCED: i32 = 100;

fn number(name: &str, usual: u64) -> u64 {
    env::var(name)
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(usual)
}

/// What the games of a pair came to, seen from one side.
#[derive(Default)]
struct Tally {
    /// Twice the points.
    points: u32,
    games: u32,
    plies: u32,
    moves: u32,
    spent: Duration,
    slowest: Duration,
    /// Mates in one, and how many of them were played.
    mates: [u32; 2],
    /// Unprotected pieces that could be taken, and how many of them were, or something better done.
    free: [u32; 2],
    /// Mates in one that were allowed, though there was a move against it.
    allowed: u32,
}

impl Tally {
    /// The score, and the ends of its 95 % interval.
    fn score(&self) -> [f64; 3] {
        let games = f64::from(self.games);
        let score = f64::from(self.points) / 2.0 / games;
        let wide = 1.96 * (score * (1.0 - score) / games).sqrt();
        [score, score - wide, score + wide]
    }

    fn tell(&self, own: u32, against: &str) {
        let [score, low, high] = self.score().map(|score| 100.0 * score);
        println!(
            "{own:>4} against {against}: {score:5.1} % ({low:4.1} to {high:4.1}), {:3} plies a game, {:5.2} ms a move, \
             slowest {:3.0}; plays {} of {} mates in one, takes {} of {} free pieces, allows {:.2} mates in 100 moves",
            self.plies / self.games,
            1000.0 * self.spent.as_secs_f64() / f64::from(self.moves),
            1000.0 * self.slowest.as_secs_f64(),
            self.mates[1],
            self.mates[0],
            self.free[1],
            self.free[0],
            100.0 * f64::from(self.allowed) / f64::from(self.moves),
        );
    }

    fn add(&mut self, other: &Tally) {
        self.points += other.points;
        self.games += other.games;
        self.plies += other.plies;
        self.moves += other.moves;
        self.spent += other.spent;
        self.slowest = self.slowest.max(other.slowest);
        self.allowed += other.allowed;
        for index in 0..2 {
            self.mates[index] += other.mates[index];
            self.free[index] += other.free[index];
        }
    }

    /// Notes what a move does and what it leaves undone.
    fn note(&mut self, position: &Chess, mv: Move) {
        let mates = |mv: &Move| played(position, *mv).is_checkmate();
        let is_mate = mates(&mv);
        self.mates[0] += u32::from(position.legal_moves().iter().any(mates));
        self.mates[1] += u32::from(is_mate);
        let is_free = |mv: &Move| {
            let after = played(position, *mv);
            mv.capture().is_some_and(|role| role != Role::Pawn)
                && after
                    .capture_moves()
                    .iter()
                    .all(|back| back.to() != mv.to())
        };
        if !is_mate && position.capture_moves().iter().any(is_free) {
            self.free[0] += 1;
            self.free[1] += u32::from(mv.is_capture() || played(position, mv).is_check());
        }
        let allows = |mv: &Move| {
            let after = played(position, *mv);
            let mut replies = after.legal_moves().into_iter();
            replies.any(|reply| played(&after, reply).is_checkmate())
        };
        self.allowed += u32::from(allows(&mv) && !position.legal_moves().iter().all(allows));
    }
}

fn played(position: &Chess, mv: Move) -> Chess {
    let mut after = position.clone();
    after.play_unchecked(mv);
    after
}

fn main() {
    let games = number("SANSVOIR_GAMES", 400);
    let seed = number("SANSVOIR_SEED", 1);
    let engine = env::var("SANSVOIR_ENGINE").ok();
    let engine = engine.filter(|command| !command.is_empty());
    let words: Vec<String> = env::args().collect();
    if let Some(at) = words.iter().position(|word| word == "--write") {
        return written::write(&words[at + 1], games, seed, engine.as_deref());
    }
    let wanted: Vec<u32> = words.iter().filter_map(|word| word.parse().ok()).collect();
    let ratings = RATINGS
        .into_iter()
        .filter(|rating| wanted.is_empty() || wanted.contains(rating));
    let ratings: Vec<u32> = ratings.collect();
    println!("{games} games a pair, seed {seed}");
    let openings: Vec<Vec<Move>> = (0..games.div_ceil(2))
        .map(|number| opening(&mut Dice::new(seed, number)))
        .collect();
    let opening = |game: u64| &openings[usize::try_from(game / 2).expect("few games")];
    if let Some(engine) = engine {
        for rating in ratings {
            against_engine(&engine, rating, games, seed, opening);
        }
        return;
    }
    for pair in ratings.windows(2) {
        let [weak, strong] = [pair[0], pair[1]];
        let tally = on_both_cores(games, |game| {
            let [weak, strong] = [weak, strong].map(|rating| Opponent::new(rating, seed + game));
            play(&strong, game, opening(game), |position, before, _| {
                weak.choose(position, before).expect("a move")
            })
        });
        tally.tell(strong, &weak.to_string());
    }
}

fn against_engine<'a>(
    command: &str,
    rating: u32,
    games: u64,
    seed: u64,
    opening: impl Fn(u64) -> &'a Vec<Move> + Sync,
) {
    let time = Duration::from_millis(number("SANSVOIR_MILLIS", 50));
    let start = || {
        let mut engine =
            Engine::start(&[command.to_owned()], Engine::PATIENCE).expect("the engine starts");
        let limited = engine.new_game(Some(rating), CastlingMode::Standard);
        (engine, limited.expect("the engine is ready"))
    };
    let Some(limited) = start().1 else {
        println!("the engine has no UCI_Elo");
        return;
    };
    let tally = on_both_cores(games, |game| {
        let (mut engine, _) = start();
        let own = Opponent::new(rating, seed + game);
        play(&own, game, opening(game), |position, _, moves| {
            let chosen = engine.choose(&Start::standard(), moves, position, time);
            chosen.expect("the engine plays")
        })
    });
    tally.tell(rating, &format!("the engine at {limited}"));
    let [own, low, high] = tally.score().map(|score| {
        let score = score.clamp(0.005, 0.995);
        f64::from(limited) + 400.0 * (score / (1.0 - score)).log10()
    });
    println!("     which speaks for {own:.0} ({low:.0} to {high:.0})");
}

fn on_both_cores(games: u64, play: impl Fn(u64) -> Tally + Sync) -> Tally {
    thread::scope(|scope| {
        let play = &play;
        let workers = [0, 1].map(|worker| {
            scope.spawn(move || {
                let mut tally = Tally::default();
                for game in (worker..games).step_by(2) {
                    tally.add(&play(game));
                }
                tally
            })
        });
        let mut sum = Tally::default();
        for worker in workers {
            sum.add(&worker.join().expect("the games are played"));
        }
        sum
    })
}

/// Eight plies by chance that leave the game open.
fn opening(dice: &mut Dice) -> Vec<Move> {
    loop {
        let (mut position, mut moves) = (Chess::default(), Vec::new());
        while moves.len() < 8
            && let Some(mv) = dice.pick(&position.legal_moves())
        {
            position.play_unchecked(*mv);
            moves.push(*mv);
        }
        if best_move(&position, &[]).is_some_and(|(_, score)| score.abs() <= BALANCED) {
            return moves;
        }
    }
}

/// Plays one game of `own` against `other`; each opening is played twice, with the colors changed.
fn play(
    own: &Opponent,
    game: u64,
    opening: &[Move],
    mut other: impl FnMut(&Chess, &[Chess], &[Move]) -> Move,
) -> Tally {
    let mut position = Chess::default();
    let (mut before, mut moves) = (Vec::new(), Vec::new());
    let side = if game.is_multiple_of(2) {
        Color::White
    } else {
        Color::Black
    };
    let mut tally = Tally {
        games: 1,
        ..Tally::default()
    };
    loop {
        let end = GameEnd::of(&position, &before).or_else(|| GameEnd::claim(&position, &before));
        if end.is_some() || before.len() > LONGEST {
            let won = side.fold_wb(GameResult::WhiteWins, GameResult::BlackWins);
            tally.points = match end.map(|end| end.result(position.turn())) {
                None | Some(GameResult::Draw) => 1,
                Some(result) => 2 * u32::from(result == won),
            };
            tally.plies = u32::try_from(before.len()).expect("few plies");
            return tally;
        }
        let mv = if let Some(mv) = opening.get(before.len()) {
            *mv
        } else if position.turn() == side {
            let started = Instant::now();
            let mv = own.choose(&position, &before).expect("a move");
            tally.spent += started.elapsed();
            tally.slowest = tally.slowest.max(started.elapsed());
            tally.moves += 1;
            tally.note(&position, mv);
            mv
        } else {
            other(&position, &before, &moves)
        };
        moves.push(mv);
        let after = played(&position, mv);
        before.push(std::mem::replace(&mut position, after));
    }
}
