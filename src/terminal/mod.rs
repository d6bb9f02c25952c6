//! Standard input and output, the clock, the entropy for a seed, and the environment that
//! says where a learner's data is.
//!
//! A [`Screen`] is written to and a [`Listener`] is asked for the learner's next line; what the
//! lines mean is no matter here. Both keep to the [`Capabilities`] of the terminal:
//!
//! ```no_run
//! use sansvoir::terminal::{Capabilities, ColorChoice, Listener, Said, Screen, Tone};
//!
//! let capabilities = Capabilities::of_this_process(false, ColorChoice::Auto);
//! let mut screen = Screen::standard(capabilities);
//! let mut listener = Listener::standard(capabilities)?;
//! screen.say(Tone::Question, "Where does the knight from g1 stand now?")?;
//! match listener.line(&mut screen, "> ")? {
//!     Said::Line(line) => screen.say(Tone::Plain, &line.text)?,
//!     Said::Interrupt | Said::End => {}
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod capabilities;
mod editor;
mod engine;
mod files;
mod hearing;
mod interrupt;
mod lines;
mod listener;
mod pager;
mod process;
mod screen;
mod sound;
mod speaker;
mod speech;
mod system;
mod wrap;

pub use clap::ColorChoice;

pub(crate) use capabilities::environment_speaks_of_color;
pub use capabilities::{Capabilities, Way};
pub use engine::{Engine, EngineError};
pub(crate) use files::{NewFile, WriteError, open_regular, read_regular, write_files};
pub(crate) use hearing::Manner;
pub use hearing::{Hearing, HearingError};
pub use lines::{Said, SaidLine};
pub(crate) use lines::{games_from_input, replies_from_terminal};
pub use listener::{ListenError, Listener};
pub(crate) use pager::show_pages;
pub use screen::{Screen, ScreenError, Tone};
pub(crate) use sound::{Sound, SoundError};
pub use speaker::SpeechError;
pub use speech::Speech;
pub(crate) use system::{Progress, config_file, data_folder, home_folder, now, seed, session_name};
pub(crate) use wrap::print_styled;
