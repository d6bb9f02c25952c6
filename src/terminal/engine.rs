//! A chess engine of the user's own, in a process of its own that speaks UCI (the protocol's description of
//! April 2006). Every wait has an end, what it writes is always read, and no move of it is taken unseen.

use std::io::{Read, Write};
use std::process::{Child, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, SyncSender, channel, sync_channel};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Chess, Move};

use super::speaker::{command, end, named};
use crate::game::Start;
use crate::voice::clean_name;

/// No line that matters is longer, in bytes; the rest of a longer one is passed over.
const LONGEST_LINE: usize = 4096;
/// Nobody needs to write so many bytes between two lines that matter.
const FLOOD: usize = 64 * 1024 * 1024;
/// Nor so many lines that matter before the first of them is read.
const WAITING: usize = 256;
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
    child: Child,
    /// What it is to be told; a thread writes it, for an engine that does not read would hold us up.
    input: Sender<String>,
    output: Receiver<String>,
    reader: Option<JoinHandle<OutputEnd>>,
    /// The least and the greatest rating that it can be limited to.
    ratings: Option<(u32, u32)>,
    knows_chess960: bool,
}

/// Why nothing more is read of an engine.
#[derive(Debug, PartialEq, Eq)]
enum OutputEnd {
    Closed,
    Flood,
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
        let spawned = command(words).and_then(|mut command| {
            command
                .stdin(Stdio::piped())
                .stdout(Stdio::piped())
                .stderr(Stdio::null())
                .spawn()
        });
        let mut child = spawned.map_err(|source| EngineError::NotRun {
            engine: name.clone(),
            source,
        })?;
        let (input, words) = channel::<String>();
        let (lines, output) = sync_channel(WAITING);
        if let Some(mut stdin) = child.stdin.take() {
            thread::spawn(move || words.iter().try_for_each(|line| writeln!(stdin, "{line}")));
        }
        let stdout = child.stdout.take();
        let reader = stdout.map(|stdout| thread::spawn(move || read_lines(stdout, &lines)));
        let mut engine = Engine {
            name,
            patience,
            child,
            input,
            output,
            reader,
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

    /// Tells the engine something. Where it has ended, the next wait for an answer finds that out.
    fn say(&self, line: String) {
        let _ = self.input.send(line);
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
        self.output.recv_timeout(left).map_err(|error| {
            // It may still search, and nothing may be asked of it then.
            end(&mut self.child);
            match error {
                RecvTimeoutError::Timeout => EngineError::Silent {
                    engine,
                    asked,
                    awaited,
                },
                RecvTimeoutError::Disconnected => match self.reader.take().map(JoinHandle::join) {
                    Some(Ok(OutputEnd::Flood)) => EngineError::Flooded { engine },
                    _ => EngineError::Ended { engine },
                },
            }
        })
    }
}

impl Drop for Engine {
    fn drop(&mut self) {
        // One that hangs does not hear "quit", and none of them has anything to save.
        end(&mut self.child);
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

/// Hands on the lines that matter, whatever bytes come; a search's last judgment behind its move.
fn read_lines(mut output: impl Read, lines: &SyncSender<String>) -> OutputEnd {
    let (mut line, mut judged) = (Vec::new(), String::new());
    let mut buffer = [0; 4096];
    let mut idle = 0;
    while let Ok(read @ 1..) = output.read(&mut buffer) {
        idle += read;
        for byte in &buffer[..read] {
            if *byte != b'\n' {
                if line.len() < LONGEST_LINE {
                    line.push(*byte);
                }
                continue;
            }
            let mut text = String::from_utf8_lossy(&line).trim().to_owned();
            line.clear();
            if text.starts_with("info") && text.contains(" score ") {
                judged = text;
                continue;
            }
            if text.starts_with("bestmove") {
                text = format!("{text} {}", std::mem::take(&mut judged));
            }
            if MATTERS.iter().any(|word| text.starts_with(word)) {
                idle = 0;
                if lines.try_send(text).is_err() {
                    return OutputEnd::Flood;
                }
            }
        }
        if idle > FLOOD {
            return OutputEnd::Flood;
        }
    }
    OutputEnd::Closed
}
