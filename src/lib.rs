//! A trainer for chess without sight of the board: a game is read aloud with the board hidden,
//! checkpoints ask where a piece stands, what it attacks, whether a move is legal, and every answer is
//! verified, explained and kept.
//!
//! The house has floors; each module uses its own floor and lower ones only. From the ground up:
//!
//! | floor | module | holds |
//! |---|---|---|
//! | 0 | [`board`] | the bare board: views, square colors, lines, spans, travel |
//! | 0 | [`game`] | a game, a line of play with every position on the way, which piece is which |
//! | 1 | [`rules`] | what a move's text can mean, whether a move is legal, and the one reason why it is not |
//! | 1 | [`pgn`] | PGN text to games, strictly, and back |
//! | 1 | [`reply`] | what a learner's words mean |
//! | 1 | [`question`] | the kinds of question: what is true, how a reply is graded, why |
//! | 2 | [`exercise`] | one session for every exercise, each a plain state machine; plans; choosing what is worth asking |
//! | 3 | [`learner`] | the journal of a learner's answers |
//! | 4 | [`voice`] | every sentence that a user reads or hears |
//! | 5 | [`report`] | sheets: the questions of an exercise on paper or as data, and their key |
//! | 6 | [`terminal`] | standard input and output, the clock, a seed from the system |
//! | 7 | [`cli`] | the commands and their options |
//!
//! A replay from PGN text to words, without a terminal:
//!
//! ```
//! use sansvoir::pgn::{Collection, read};
//! use sansvoir::question::Kind;
//! use sansvoir::exercise::{By, Checkpoints, Cut, Input, Replay, Script, Session, Settings};
//! use sansvoir::voice::{Announce, List, Voice};
//!
//! let mut games = Collection::new("1. e4 e5 2. Nf3 Nc6 3. Bb5 *".as_bytes());
//! let reading = read(&games.next().expect("a game")?);
//! let script = Script::new(&reading.game, Cut::default())?;
//! let settings = Settings {
//!     by: By::Move,
//!     checkpoints: Checkpoints::Every(4),
//!     ask: vec![Kind::Whereabouts],
//!     questions: 1,
//!     trail: 2,
//!     think_millis: None,
//!     looks: None,
//!     seed: 1,
//! };
//! let replay = Replay::new(script, settings, reading.game.tags, reading.game.result)?;
//! let mut session = Session::new(replay);
//! let voice = Voice {
//!     announce: Announce::Words,
//!     view: shakmaty::Color::White,
//!     plain: false,
//!     list: List::Piece,
//! };
//! session.begin();
//! for output in session.hear(Input::GoOn) {
//!     for line in voice.say(&output) {
//!         println!("{line}");
//!     }
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

// In floor order; the empty lines keep it so.
pub mod board;
pub mod game;

pub mod rules;

pub mod pgn;
pub mod question;
pub mod reply;

pub mod exercise;

pub mod learner;

pub mod voice;

pub mod report;

pub mod terminal;

pub mod cli;

#[cfg(test)]
mod random;
