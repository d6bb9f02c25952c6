//! Every sentence that a user reads or hears, as pure functions from values to text.
//!
//! A [`Voice`] says whatever a session puts out; the parts that other layers need alone (a question
//! on a sheet, a truth in its key, a board, a cleaned name) are functions of their own.

mod announce;
pub mod asides;
mod bare;
mod boards;
mod clean;
pub mod commands;
mod drill;
mod ear;
mod ending;
pub mod in_words;
pub mod journal;
pub mod lesson;
mod line;
mod movement;
mod naming;
pub mod page;
pub mod paper;
pub mod progress;
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
pub use asides::first_words;
pub use bare::marked_board;
pub use boards::{List, diagram, pieces};
pub use clean::{clean, clean_line, clean_name};
pub use ear::for_the_ear;
pub use question::{checkpoint, question, truth};
pub use rounds::searching;
pub use spelled::{SpokenLanguage, spoken_languages};
pub use style::Voice;
pub use time::duration;
pub use verdict::right_alone;

#[cfg(test)]
mod tests;
