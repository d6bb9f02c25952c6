//! A UCI engine that plays against the learner.

use std::time::Duration;

use shakmaty::Move;

use crate::cli::failure::Failure;
use crate::exercise::{Awaited, Countermove};
use crate::game::Start;
use crate::terminal::{Engine, EngineError};
use crate::voice::asides;

/// The time that an engine has for a move, where the config file does not tell.
const TIME: Duration = Duration::from_secs(1);
/// The time that it has for a position that is looked at again.
const GLANCE: Duration = Duration::from_millis(50);

/// A UCI engine that plays against the learner. It starts with its first move, and ends with this value.
#[derive(Debug)]
pub(crate) struct EngineOpponent {
    words: Vec<String>,
    /// The rating that it is limited to, as far as it can be.
    pub(super) rating: Option<u32>,
    time: Duration,
    running: Option<Engine>,
}

impl EngineOpponent {
    /// Gets an engine ready by its command, to play at about `rating` where one is wished for.
    pub(crate) fn new(
        words: &[String],
        rating: Option<u32>,
        time: Option<Duration>,
    ) -> EngineOpponent {
        EngineOpponent {
            words: words.to_vec(),
            rating,
            time: time.unwrap_or(TIME),
            running: None,
        }
    }

    /// Lets the engine choose, where a move is awaited; draws and resignations are decided for it.
    pub(crate) fn decided(&mut self, awaited: &Awaited) -> Result<Countermove, Failure> {
        if let Some(engine) = &mut self.running
            && let Some(reviewed) = awaited.review(|line, plies| {
                let moves: Vec<Move> = line.plies()[..plies].iter().map(|ply| ply.mv).collect();
                engine.judge(line.start(), &moves, line.position(plies), GLANCE)
            })
        {
            // Where it fails now, nothing is lost: the program looks by itself.
            return Ok(reviewed.unwrap_or_else(|_| awaited.decided()));
        }
        let Some((start, moves, position)) = awaited.turn() else {
            return Ok(awaited.decided());
        };
        let time = self.time;
        let chosen = self
            .engine(start)
            .and_then(|engine| engine.choose(start, &moves, position, time));
        let mv =
            chosen.map_err(|error| Failure::Unusable(asides::engine_failed(&error.to_string())))?;
        Ok(awaited.moves(mv))
    }

    fn engine(&mut self, start: &Start) -> Result<&mut Engine, EngineError> {
        match &mut self.running {
            Some(engine) => Ok(engine),
            none => {
                let mut engine = Engine::start(&self.words, Engine::PATIENCE)?;
                self.rating = engine.new_game(self.rating, start.mode())?;
                Ok(none.insert(engine))
            }
        }
    }
}
