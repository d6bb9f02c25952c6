//! How the opponent's ratings stand to each other: games between neighbors, with the score of the stronger
//! one, its 95 % interval, and the time a move takes. Run with `cargo bench --bench opponents`;
//! `SANSVOIR_GAMES` is the number of games a pair (400), `SANSVOIR_SEED` another seed. With `SANSVOIR_ENGINE`, a
//! UCI engine's command, the ratings that the engine has are played against it too, each with 50 ms for a
//! move of the engine; the rating that the score speaks for is told by Elo's logistic. Nothing is asserted.

use std::env;
use std::thread;
use std::time::{Duration, Instant};

use sansvoir::exercise::Dice;
use sansvoir::exercise::opponent::{Opponent, RATINGS};
use sansvoir::game::Start;
use sansvoir::terminal::Engine;
use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Chess, Color, KnownOutcome, Move, Outcome, Position};

/// Games are given up as drawn after so many plies.
const LONGEST: usize = 400;

fn number(name: &str, usual: u64) -> u64 {
    env::var(name)
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(usual)
}

/// What the games of a pair came to.
#[derive(Default)]
struct Tally {
    /// Twice the points of the stronger side.
    points: u64,
    games: u64,
    plies: u64,
    moves: u64,
    spent: Duration,
    slowest: Duration,
}

impl Tally {
    fn score(&self) -> f64 {
        self.points as f64 / 2.0 / self.games as f64
    }

    fn tell(&self, own: u32, against: &str) {
        let score = self.score();
        let wide = 1.96 * (score * (1.0 - score) / self.games as f64).sqrt();
        println!(
            "{own:>4} {against}: {:5.1} % ({:4.1} to {:4.1}), {:3} plies a game, {:5.2} ms a move of {own}, slowest {:4.0}",
            100.0 * score,
            100.0 * (score - wide),
            100.0 * (score + wide),
            self.plies / self.games,
            1000.0 * self.spent.as_secs_f64() / self.moves.max(1) as f64,
            1000.0 * self.slowest.as_secs_f64(),
        );
    }

    fn add(&mut self, other: &Tally) {
        self.points += other.points;
        self.games += other.games;
        self.plies += other.plies;
        self.moves += other.moves;
        self.spent += other.spent;
        self.slowest = self.slowest.max(other.slowest);
    }
}

fn main() {
    let games = number("SANSVOIR_GAMES", 400);
    let seed = number("SANSVOIR_SEED", 1);
    println!("{games} games a pair, seed {seed}: the score of the stronger one, its 95 % interval");
    for pair in RATINGS.windows(2) {
        let (weak, strong) = (pair[0], pair[1]);
        let tally = on_both_cores(games, |game| {
            let weak = Opponent::new(weak, seed + game);
            let strong = Opponent::new(strong, seed + game);
            play(&strong, seed, game, |position, before, _| {
                weak.choose(position, before)
            })
        });
        tally.tell(strong, &format!("against {weak:>4}"));
    }
    let Ok(engine) = env::var("SANSVOIR_ENGINE") else {
        return;
    };
    for rating in RATINGS {
        let tally = on_both_cores(games, |game| {
            let mut engine = Engine::start(&[engine.clone()]).expect("the engine starts");
            let limited = engine
                .new_game(Some(rating), false)
                .expect("the engine is ready");
            if limited != Some(rating) {
                return Tally::default();
            }
            let own = Opponent::new(rating, seed + game);
            play(&own, seed, game, |position, _, moves| {
                let time = Duration::from_millis(50);
                engine
                    .choose(&Start::standard(), moves, position, time)
                    .ok()
            })
        });
        if tally.games > 0 {
            tally.tell(rating, "against the engine");
            let score = tally.score().clamp(0.01, 0.99);
            let elo = f64::from(rating) + 400.0 * (score / (1.0 - score)).log10();
            println!("     which speaks for {elo:.0}");
        }
    }
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

/// Plays one game of `own` against `other` from an opening of eight plies by chance; every second one has
/// the colors changed.
fn play(
    own: &Opponent,
    seed: u64,
    game: u64,
    mut other: impl FnMut(&Chess, &[Chess], &[UciMove]) -> Option<Move>,
) -> Tally {
    let mut dice = Dice::new(seed, game / 2);
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
        let outcome = position.outcome();
        if let Outcome::Known(outcome) = outcome {
            tally.points = match outcome {
                KnownOutcome::Decisive { winner } => 2 * u64::from(winner == side),
                KnownOutcome::Draw => 1,
            };
            return tally;
        }
        let repeated = before.iter().filter(|other| **other == position).count() >= 2;
        if repeated || position.halfmoves() >= 100 || before.len() > LONGEST {
            tally.points = 1;
            return tally;
        }
        let mv = if before.len() < 8 {
            dice.pick(&position.legal_moves()).copied()
        } else if position.turn() == side {
            let started = Instant::now();
            let mv = own.choose(&position, &before);
            tally.spent += started.elapsed();
            tally.slowest = tally.slowest.max(started.elapsed());
            tally.moves += 1;
            mv
        } else {
            other(&position, &before, &moves)
        };
        let mv = mv.expect("there is a legal move");
        before.push(position.clone());
        moves.push(mv.to_uci(CastlingMode::Standard));
        position.play_unchecked(mv);
        tally.plies += 1;
    }
}
