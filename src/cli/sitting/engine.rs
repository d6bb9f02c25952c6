//! A UCI engine that plays against the learner.

use std::time::Duration;

use shakmaty::{CastlingMode, Move};

use crate::cli::failure::{Failure, tell};
use crate::exercise::{Awaited, Countermove};
use crate::terminal::Engine;
use crate::voice::asides;

/// The time that an engine has for a move, where the config file does not tell.
const TIME: Duration = Duration::from_secs(1);
/// The time that it has for a position that is looked at again.
const GLANCE: Duration = Duration::from_millis(50);

/// A UCI engine that plays against the learner; it ends with this value.
#[derive(Debug)]
pub(crate) struct EngineOpponent {
    running: Engine,
    /// The rating that it is limited to, as far as it can be.
    pub(super) rating: Option<u32>,
    time: Duration,
}

impl EngineOpponent {
    /// Starts an engine by its command, to play by the rules of `mode`, at about `rating` where one is wished for; where
    /// it cannot play at that one, tells at which.
    pub(crate) fn start(
        words: &[String],
        wished: Option<u32>,
        mode: CastlingMode,
        time: Option<Duration>,
    ) -> Result<EngineOpponent, Failure> {
        let mut running = Engine::start(words, Engine::PATIENCE)?;
        let rating = running.new_game(wished, mode)?;
        if rating != wished {
            tell(&asides::opponent_plays_at(rating));
        }
        Ok(EngineOpponent {
            running,
            rating,
            time: time.unwrap_or(TIME),
        })
    }

    /// Lets the engine choose, where a move is awaited; draws and resignations are decided for it.
    pub(crate) fn decided(&mut self, awaited: &Awaited) -> Result<Countermove, Failure> {
        let engine = &mut self.running;
        if let Some(reviewed) = awaited.review(|line, plies| {
            let moves: Vec<Move> = line.plies()[..plies].iter().map(|ply| ply.mv).collect();
            engine.judge(line.start(), &moves, line.position(plies), GLANCE)
        }) {
            // Where it fails now, nothing is lost: the program looks by itself.
            return Ok(reviewed.unwrap_or_else(|_| awaited.decided()));
        }
        let Some((start, moves, position)) = awaited.turn() else {
            return Ok(awaited.decided());
        };
        let chosen = engine.choose(start, &moves, position, self.time);
        let mv =
            chosen.map_err(|error| Failure::Unusable(asides::engine_failed(&error.to_string())))?;
        Ok(awaited.moves(mv))
    }
}
