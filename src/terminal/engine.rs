//! A chess engine of the user's own, in a process of its own that speaks UCI (the protocol's description of
//! April 2006). Every wait has an end, what it writes is always read, and no move of it is taken unseen.

use std::process::Stdio;
use std::sync::mpsc::RecvTimeoutError;
use std::time::{Duration, Instant};

use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Chess, Move};

use super::process::{OutputEnd, Process, named};
use crate::game::Start;
use crate::voice::clean_name;

/// How the lines begin that matter.
const MATTERS: [&str; 4] = ["uciok", "readyok", "bestmove", "option name UCI_"];
/// What a forced mate is worth, in hundredths of a pawn; no judgment of an engine's goes beyond it.
const MATE: i32 = 30_000;

/// Why an engine cannot play on. The game is kept: it can go on against another opponent.
#[derive(Debug, thiserror::Error)]
pub enum EngineError {
    /// The command cannot be run.
    #[error("the engine {engine} cannot be run ({source}): name a UCI engine with --opponent")]
    NotRun {
        /// The command.
        engine: String,
        /// What the system says.
        source: std::io::Error,
    },
    /// It ended, or closed its output.
    #[error("the engine {engine} has ended: try it alone, or play without --opponent")]
    Ended {
        /// The command.
        engine: String,
    },
    /// It does not say what it should.
    #[error(
        "the engine {engine} does not answer \"{asked}\" with \"{awaited}\": see whether it speaks UCI, \
         or play without --opponent"
    )]
    Silent {
        /// The command.
        engine: String,
        /// What it was told.
        asked: &'static str,
        /// What it should say to that.
        awaited: &'static str,
    },
    /// It writes without end.
    #[error("the engine {engine} writes without end: try it alone, or play without --opponent")]
    Flooded {
        /// The command.
        engine: String,
    },
    /// It named no move of the position.
    #[error(
        "the engine {engine} answers \"{said}\", which is no legal move here: play without --opponent"
    )]
    NoMove {
        /// The command.
        engine: String,
        /// Its words.
        said: String,
    },
    /// It does not say that it knows Chess960.
    #[error(
        "the engine {engine} does not know Chess960: name another one with --opponent, or play without"
    )]
    NoChess960 {
        /// The command.
        engine: String,
    },
}

/// A running engine; its process ends with this value.
#[derive(Debug)]
pub struct Engine {
    name: String,
    patience: Duration,
    process: Process,
    /// The least and the greatest rating that it can be limited to.
    ratings: Option<(u32, u32)>,
    knows_chess960: bool,
}

impl Engine {
    /// The time that an engine usually has for an answer, beside what it is given for a move.
    pub const PATIENCE: Duration = Duration::from_secs(10);

    /// Starts an engine by its command, the program first, and awaits its introduction.
    ///
    /// # Errors
    ///
    /// Where it does not start, or does not speak UCI.
    pub fn start(words: &[String], patience: Duration) -> Result<Engine, EngineError> {
        let name = named(words);
        let mut judged = String::new();
        // A search's last judgment stands behind its move.
        let keep = move |text: String| {
            if text.starts_with("info") && text.contains(" score ") {
                judged = text;
                return None;
            }
            let text = if text.starts_with("bestmove") {
                format!("{text} {}", std::mem::take(&mut judged))
            } else {
                text
            };
            MATTERS
                .iter()
                .any(|word| text.starts_with(word))
                .then_some(text)
        };
        let process = Process::start(words, Stdio::null(), keep);
        let process = process.map_err(|source| EngineError::NotRun {
            engine: name.clone(),
            source,
        })?;
        let mut engine = Engine {
            name,
            patience,
            process,
            ratings: None,
            knows_chess960: false,
        };
        engine.introduce()?;
        Ok(engine)
    }

    /// Prepares a game, at about `rating` where one is wished for; returns the rating that the engine is limited
    /// to, within what it says it can.
    ///
    /// # Errors
    ///
    /// Where it does not answer, or does not know these castling rules.
    pub fn new_game(
        &mut self,
        rating: Option<u32>,
        mode: CastlingMode,
    ) -> Result<Option<u32>, EngineError> {
        if self.knows_chess960 {
            let is_chess960 = mode.is_chess960();
            self.say(format!("setoption name UCI_Chess960 value {is_chess960}"));
        } else if mode.is_chess960() {
            let engine = self.name.clone();
            return Err(EngineError::NoChess960 { engine });
        }
        let rating = rating
            .zip(self.ratings)
            .map(|(wished, (least, most))| wished.clamp(least, most));
        if let Some(rating) = rating {
            self.say("setoption name UCI_LimitStrength value true".to_owned());
            self.say(format!("setoption name UCI_Elo value {rating}"));
        }
        self.say("ucinewgame".to_owned());
        self.make_ready()?;
        Ok(rating)
    }

    /// Asks for a move in `position`, which the moves of the game lead to, and gives it `time` to think.
    ///
    /// # Errors
    ///
    /// Where the engine dies, is silent, or names no legal move.
    pub fn choose(
        &mut self,
        start: &Start,
        moves: &[Move],
        position: &Chess,
        time: Duration,
    ) -> Result<Move, EngineError> {
        self.search(start, moves, position, time).map(|(mv, _)| mv)
    }

    /// Lets it judge a position at its full strength: the best move, and what that is worth to the side to move, in
    /// hundredths of a pawn; 0 where it does not say.
    ///
    /// # Errors
    ///
    /// As for [`Engine::choose`].
    pub fn judge(
        &mut self,
        start: &Start,
        moves: &[Move],
        position: &Chess,
        time: Duration,
    ) -> Result<(Move, i32), EngineError> {
        if self.ratings.is_some() {
            self.say("setoption name UCI_LimitStrength value false".to_owned());
        }
        self.search(start, moves, position, time)
    }

    fn search(
        &mut self,
        start: &Start,
        moves: &[Move],
        position: &Chess,
        time: Duration,
    ) -> Result<(Move, i32), EngineError> {
        // What an earlier search still has to say is passed over.
        self.make_ready()?;
        let uci = |mv: &Move| format!(" {}", mv.to_uci(start.mode()));
        let moves: String = moves.iter().map(uci).collect();
        self.say(format!("position fen {} moves{moves}", start.fen()));
        self.say(format!("go movetime {}", time.as_millis()));
        let line = self.awaited("go", "bestmove", time + self.patience)?;
        let mut words = line.split_whitespace().skip(1);
        let said = words.next().unwrap_or_default();
        let mv = said
            .parse()
            .ok()
            .and_then(|mv: UciMove| mv.to_move(position).ok());
        let mv = mv.ok_or_else(|| EngineError::NoMove {
            engine: self.name.clone(),
            said: clean_name(said),
        })?;
        Ok((mv, score(words).unwrap_or_default()))
    }

    fn introduce(&mut self) -> Result<(), EngineError> {
        self.say("uci".to_owned());
        let until = Instant::now() + self.patience;
        loop {
            let line = self.next_line("uci", "uciok", until)?;
            let words: Vec<&str> = line.split_whitespace().collect();
            let number = |name| {
                let at = words.iter().position(|word| *word == name)?;
                words.get(at + 1)?.parse().ok()
            };
            match words[..] {
                ["uciok", ..] => return Ok(()),
                ["option", "name", "UCI_Chess960", ..] => self.knows_chess960 = true,
                ["option", "name", "UCI_Elo", ..] => {
                    let range = number("min").zip(number("max"));
                    self.ratings = range.filter(|(least, most)| least <= most);
                }
                _ => {}
            }
        }
    }

    fn make_ready(&mut self) -> Result<(), EngineError> {
        self.say("isready".to_owned());
        self.awaited("isready", "readyok", self.patience)?;
        Ok(())
    }

    fn say(&self, line: String) {
        self.process.say(line);
    }

    /// Awaits a line that begins with a word.
    fn awaited(
        &mut self,
        asked: &'static str,
        awaited: &'static str,
        patience: Duration,
    ) -> Result<String, EngineError> {
        let until = Instant::now() + patience;
        loop {
            let line = self.next_line(asked, awaited, until)?;
            if line.split_whitespace().next() == Some(awaited) {
                return Ok(line);
            }
        }
    }

    fn next_line(
        &mut self,
        asked: &'static str,
        awaited: &'static str,
        until: Instant,
    ) -> Result<String, EngineError> {
        let left = until.saturating_duration_since(Instant::now());
        let engine = self.name.clone();
        self.process.output.recv_timeout(left).map_err(|error| {
            // It may still search, and nothing may be asked of it then.
            self.process.end();
            match error {
                RecvTimeoutError::Timeout => EngineError::Silent {
                    engine,
                    asked,
                    awaited,
                },
                RecvTimeoutError::Disconnected => match self.process.why_ended() {
                    OutputEnd::Flood => EngineError::Flooded { engine },
                    OutputEnd::Closed => EngineError::Ended { engine },
                },
            }
        })
    }
}

/// Reads what a position is worth out of the words of a line that has it, in hundredths of a pawn.
fn score<'a>(words: impl Iterator<Item = &'a str>) -> Option<i32> {
    let mut words = words.skip_while(|word| *word != "score").skip(1);
    let (unit, number) = (words.next()?, words.next()?.parse::<i32>().ok()?);
    match unit {
        "cp" => Some(number.clamp(-MATE, MATE)),
        "mate" if number > 0 => Some(MATE),
        "mate" => Some(-MATE),
        _ => None,
    }
}
