//! Every sentence that a user reads or hears, as pure functions from values to text.
//!
//! A [`Voice`] says whatever a session puts out; the parts that other layers need alone (a question
//! on a sheet, a truth in its key, a board, a cleaned name) are functions of their own.

pub(crate) mod alone;
mod announce;
pub(crate) mod asides;
mod bare;
mod boards;
pub(crate) mod by_mouth;
mod clean;
pub(crate) mod commands;
mod drill;
mod ear;
mod ending;
mod exercise;
mod guided;
pub(crate) mod handbook;
pub(crate) mod in_words;
pub(crate) mod journal;
pub(crate) mod lesson;
mod line;
pub(crate) mod listed;
mod movement;
mod naming;
pub(crate) mod page;
pub(crate) mod paper;
mod placement;
pub(crate) mod play;
pub(crate) mod progress;
mod question;
mod recite;
mod replay;
mod reply_help;
mod rounds;
mod say;
mod spelled;
mod style;
mod time;
mod verdict;
mod words;

pub use announce::Announce;
pub use boards::{List, pieces};
pub use clean::clean;
pub use ear::for_the_ear;
pub use style::{Occasion, Voice};

pub(crate) use bare::marked_board;
pub(crate) use boards::{diagram, rows};
pub(crate) use clean::{clean_line, clean_name};
pub(crate) use question::{checkpoint, open, open_answer, question, truth};
pub(crate) use rounds::{STOP_SEARCHING, searching};
pub(crate) use spelled::{SpokenLanguage, spoken_languages};
pub(crate) use time::duration;
pub(crate) use verdict::right_alone;

#[cfg(test)]
mod tests;
