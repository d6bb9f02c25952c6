//! A chess engine of the user's own, in a process of its own that speaks UCI (the protocol's description of
//! April 2006).

use std::io::{BufReader, Read, Write};
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, sync_channel};
use std::thread;
use std::time::{Duration, Instant};

use shakmaty::uci::UciMove;
use shakmaty::{Chess, Move, Position};

use crate::game::Start;
use crate::voice::clean_name;

/// An engine may take so long to start, or to make itself ready.
const PATIENCE: Duration = Duration::from_secs(10);
/// It may take so much longer for a move than it was given.
const GRACE: Duration = Duration::from_secs(5);
/// No line that matters is longer, in bytes; the rest of a longer one is passed over.
const LONGEST_LINE: usize = 4096;
/// So many lines may wait; whoever floods waits for us, not we for it.
const WAITING: usize = 256;

/// Why an engine cannot play on. The game is kept: it can go on against another opponent.
#[derive(Debug, thiserror::Error)]
pub enum EngineError {
    /// The command cannot be run.
    #[error("{command} cannot be run: name a UCI engine with --opponent")]
    NotRun {
        /// The command.
        command: String,
        /// What the system says.
        source: std::io::Error,
    },
    /// It ended.
    #[error("{command} has ended")]
    Ended {
        /// The command.
        command: String,
    },
    /// It does not say what it should.
    #[error(
        "{command} does not answer \"{asked}\" with \"{awaited}\" in {seconds} seconds: is it a UCI engine?"
    )]
    Silent {
        /// The command.
        command: String,
        /// What it was told.
        asked: &'static str,
        /// What it should say to that.
        awaited: &'static str,
        /// How long it was waited for.
        seconds: u64,
    },
    /// It named no move of the position.
    #[error("{command} named {said}, which is no legal move here")]
    NoMove {
        /// The command.
        command: String,
        /// Its words.
        said: String,
    },
}

/// A running engine; it ends with this value.
#[derive(Debug)]
pub struct Engine {
    command: String,
    child: Child,
    input: ChildStdin,
    lines: Receiver<String>,
    /// The least and the greatest rating that it can be limited to.
    ratings: Option<(u32, u32)>,
    /// Whether it knows Chess960.
    chess960: bool,
}

impl Engine {
    /// Starts an engine and awaits its introduction.
    ///
    /// # Errors
    ///
    /// Where it does not start, or does not speak UCI.
    pub fn start(words: &[String]) -> Result<Engine, EngineError> {
        let (program, arguments) = words
            .split_first()
            .map_or(("", words), |(first, rest)| (first, rest));
        let command = clean_name(program);
        let not_run = |source| EngineError::NotRun {
            command: command.clone(),
            source,
        };
        let mut child = Command::new(program)
            .args(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(not_run)?;
        let (Some(input), Some(output)) = (child.stdin.take(), child.stdout.take()) else {
            return Err(EngineError::Ended { command });
        };
        let (sender, lines) = sync_channel(WAITING);
        thread::spawn(move || read_lines(BufReader::new(output), &sender));
        let mut engine = Engine {
            command,
            child,
            input,
            lines,
            ratings: None,
            chess960: false,
        };
        engine.introduce()?;
        Ok(engine)
    }

    /// Prepares a game, at about `rating` where one is wished for; returns the rating that the engine was
    /// limited to, within what it says it can.
    ///
    /// # Errors
    ///
    /// Where it does not answer.
    pub fn new_game(
        &mut self,
        rating: Option<u32>,
        chess960: bool,
    ) -> Result<Option<u32>, EngineError> {
        let rating = rating
            .zip(self.ratings)
            .map(|(wished, (least, most))| wished.clamp(least, most));
        if let Some(rating) = rating {
            self.say("setoption name UCI_LimitStrength value true")?;
            self.say(&format!("setoption name UCI_Elo value {rating}"))?;
        }
        if self.chess960 {
            self.say(&format!("setoption name UCI_Chess960 value {chess960}"))?;
        }
        self.say("ucinewgame")?;
        self.say("isready")?;
        self.await_line("isready", "readyok", PATIENCE)?;
        Ok(rating)
    }

    /// Asks for a move in the position after `moves`, all of them legal, and thinks for `time`.
    ///
    /// # Errors
    ///
    /// Where the engine dies, is silent, or names no legal move.
    pub fn choose(
        &mut self,
        start: &Start,
        moves: &[UciMove],
        position: &Chess,
        time: Duration,
    ) -> Result<Move, EngineError> {
        let moves: String = moves.iter().map(|mv| format!(" {mv}")).collect();
        // What an earlier search may still have to say is passed over.
        self.say("isready")?;
        self.await_line("isready", "readyok", PATIENCE)?;
        self.say(&format!("position fen {} moves{moves}", start.fen()))?;
        self.say(&format!("go movetime {}", time.as_millis()))?;
        let line = self.await_line("go", "bestmove", time + GRACE)?;
        let said = line.split_whitespace().nth(1).unwrap_or("nothing");
        let mv: Option<UciMove> = said.parse().ok();
        let mv = mv.and_then(|mv| mv.to_move(position).ok());
        mv.filter(|mv| position.is_legal(*mv))
            .ok_or_else(|| EngineError::NoMove {
                command: self.command.clone(),
                said: clean_name(said),
            })
    }

    fn introduce(&mut self) -> Result<(), EngineError> {
        self.say("uci")?;
        let until = Instant::now() + PATIENCE;
        loop {
            let line = self.next_line("uci", "uciok", PATIENCE, until)?;
            let words: Vec<&str> = line.split_whitespace().collect();
            match words[..] {
                ["uciok", ..] => return Ok(()),
                ["option", "name", "UCI_Chess960", ..] => self.chess960 = true,
                ["option", "name", "UCI_Elo", ..] => {
                    let number = |name| {
                        let at = words.iter().position(|word| *word == name)?;
                        words.get(at + 1)?.parse().ok()
                    };
                    self.ratings = number("min")
                        .zip(number("max"))
                        .filter(|(least, most)| least <= most);
                }
                _ => {}
            }
        }
    }

    fn say(&mut self, line: &str) -> Result<(), EngineError> {
        let said = writeln!(self.input, "{line}").and_then(|()| self.input.flush());
        said.map_err(|_| self.ended())
    }

    fn ended(&self) -> EngineError {
        let command = self.command.clone();
        EngineError::Ended { command }
    }

    /// Awaits a line that begins with a word.
    fn await_line(
        &mut self,
        asked: &'static str,
        awaited: &'static str,
        patience: Duration,
    ) -> Result<String, EngineError> {
        let until = Instant::now() + patience;
        loop {
            let line = self.next_line(asked, awaited, patience, until)?;
            if line.split_whitespace().next() == Some(awaited) {
                return Ok(line);
            }
        }
    }

    fn next_line(
        &mut self,
        asked: &'static str,
        awaited: &'static str,
        patience: Duration,
        until: Instant,
    ) -> Result<String, EngineError> {
        let left = until.saturating_duration_since(Instant::now());
        self.lines.recv_timeout(left).map_err(|error| match error {
            RecvTimeoutError::Disconnected => self.ended(),
            RecvTimeoutError::Timeout => EngineError::Silent {
                command: self.command.clone(),
                asked,
                awaited,
                seconds: patience.as_secs(),
            },
        })
    }
}

impl Drop for Engine {
    fn drop(&mut self) {
        // One that hangs does not hear "quit"; none of them has anything to save.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Hands on the lines that matter, whatever bytes come; ends with the output, or when nobody listens.
fn read_lines(mut output: impl Read, lines: &SyncSender<String>) {
    let mut line = Vec::new();
    let mut buffer = [0; 4096];
    while let Ok(read @ 1..) = output.read(&mut buffer) {
        for byte in &buffer[..read] {
            if *byte != b'\n' {
                if line.len() < LONGEST_LINE {
                    line.push(*byte);
                }
                continue;
            }
            let text = String::from_utf8_lossy(&line).trim().to_owned();
            line.clear();
            let matters = ["uciok", "readyok", "bestmove", "option name UCI_"];
            if matters.iter().any(|word| text.starts_with(word)) && lines.send(text).is_err() {
                return;
            }
        }
    }
}
