//! Floor 6: standard input and output, the clock, the entropy for a seed, and the environment that
//! says where a learner's data is.
//!
//! A [`Screen`] is written to and a [`Listener`] is asked for the learner's next line; what the
//! lines mean is no matter here. Both keep to what the [`Manner`] of the terminal allows:
//!
//! ```no_run
//! use sansvoir::terminal::{ColorWish, Listener, Manner, Said, Screen, Tone};
//!
//! let manner = Manner::of_this_process(false, ColorWish::Auto);
//! let mut screen = Screen::standard(manner);
//! let mut listener = Listener::standard(manner)?;
//! screen.say(Tone::Question, "Where does the knight from g1 stand now?")?;
//! match listener.line(&mut screen, "> ")? {
//!     Said::Line(line) => screen.say(Tone::Plain, &line.text)?,
//!     Said::Interrupt | Said::End => {}
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod advice;
mod attend;
mod clock;
mod editor;
mod entropy;
mod folder;
mod handover;
mod interrupt;
mod lines;
mod listener;
mod manner;
mod pages;
mod progress;
mod regular;
mod samples;
mod screen;
mod sound;
mod speaker;
mod speech;
mod stage;
mod wrap;

pub use advice::advise;
pub use clock::now;
pub use entropy::{seed, session_name};
pub use folder::{DataFolderError, config_file, data_folder, home_folder};
pub use handover::{games_from_input, replies_from_terminal};
pub use lines::LONGEST_LINE;
pub use listener::{ListenError, Listener, Said, SaidLine};
pub use manner::{ColorWish, Manner, Way, environment_speaks_of_color};
pub use pages::{NewFile, Page, PageError, write_pages};
pub use progress::Progress;
pub use regular::{UnfitFile, open_regular, read_regular};
pub use screen::{Screen, ScreenError, Tone};
pub use sound::{Sound, SoundError};
pub use speech::{Speech, SpeechTrouble};
