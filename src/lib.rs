//! A trainer for chess without sight of the board: a game is read aloud with the board hidden,
//! checkpoints ask where a piece stands, what it attacks, whether a move is legal, and every answer is
//! verified, explained and kept.
//!
//! It is a program first: what is public here is what the program itself, its tests and its benches use.
//! The house has layers; each module uses its own layer and lower ones only. From the ground up:
//!
//! | layer | module | holds |
//! |---|---|---|
//! | 0 | [`board`] | the bare board: views, square colors, lines, travel and distances |
//! | 0 | [`game`] | a game, a line of play with every position on the way, which piece is which |
//! | 1 | [`rules`] | what a move's text can mean, and the one reason why a move is illegal |
//! | 2 | [`pgn`] | PGN files to games, strictly, and back; it knows nothing of exercises |
//! | 2 | [`reply`] | what a learner's words mean, as typed and as spoken |
//! | 3 | [`question`] | the kinds of question, one registry: what is true, how a reply is graded, why |
//! | 4 | [`exercise`] | one session for every exercise, each a plain state machine; plans; what is worth asking |
//! | 5 | [`learner`] | the journal, the course, what is due, how far ahead a learner sees |
//! | 6 | [`voice`] | every sentence that a user reads or hears |
//! | 7 | [`report`] | sheets, sound scripts, the pages |
//! | 7 | [`terminal`] | standard input and output, speech commands, the clock, a seed from the system |
//! | 8 | [`cli`] | the commands and their options |
//!
//! A replay from PGN text to words, without a terminal:
//!
//! ```
//! use sansvoir::pgn::{Collection, read};
//! use sansvoir::question::Kind;
//! use sansvoir::exercise::bound::{Every, Questions, Trail};
//! use sansvoir::exercise::{
//!     By, Checkpoints, Cut, Exercise, Input, OverGame, Replay, Script, Session, Settings,
//! };
//! use sansvoir::voice::{Announce, List, Occasion, Voice};
//!
//! let mut games = Collection::new("1. e4 e5 2. Nf3 Nc6 3. Bb5 *".as_bytes());
//! let reading = read(&games.next().expect("a game")?);
//! let script = Script::new(&reading.game, Cut::default())?;
//! let settings = Settings {
//!     by: By::Move,
//!     checkpoints: Checkpoints::Every(Every::nearest(4)),
//!     ask: vec![Kind::Whereabouts],
//!     questions: Questions::nearest(1),
//!     trail: Trail::nearest(2),
//!     think_millis: None,
//!     looks: None,
//!     seed: 1,
//!     follow: false,
//! };
//! let (tags, result) = (Vec::new(), reading.game.result);
//! let replay = Replay::new(OverGame { settings, script, tags, result })?;
//! let mut session = Session::new(replay);
//! let voice = Voice {
//!     announce: Announce::Words,
//!     view: shakmaty::Color::White,
//!     plain: false,
//!     list: List::Piece,
//!     empty_board: false,
//!     occasion: Occasion::Itself,
//! };
//! session.begin();
//! for output in session.hear(Input::GoOn) {
//!     for line in voice.say(&output) {
//!         println!("{line}");
//!     }
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

// In the order of the layers; the empty lines keep it so.
pub mod board;
pub mod game;

pub mod rules;

pub mod pgn;
pub mod reply;

pub mod question;

pub mod exercise;

pub mod learner;

pub mod voice;

pub mod report;
pub mod terminal;

pub mod cli;

#[cfg(test)]
mod random;
