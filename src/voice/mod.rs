//! Floor 4: every sentence that a user reads or hears, as pure functions from values to text.
//!
//! A [`Voice`] says whatever a session puts out; the parts that other floors need alone (a question
//! on a sheet, a truth in its key, a board, a cleaned name) are functions of their own.

mod ahead;
mod announce;
pub mod asides;
mod bare;
mod clean;
mod closing;
pub mod commands;
mod date;
mod diagram;
mod drill;
mod duration;
mod ear;
mod few;
mod first_words;
pub mod in_words;
pub mod journal;
pub mod lesson;
mod line;
mod naming;
mod no_move;
mod opening;
pub mod page;
pub mod paper;
mod pieces;
pub mod progress;
mod question;
mod recite;
mod reply_help;
#[cfg(test)]
mod score;
mod spoken_language;
mod verdict;
mod words;

use shakmaty::{Board, Color};

use crate::exercise::{Ask, Heard, Opening, Output, Told};

pub use ahead::searching;
pub use announce::{Announce, ParseAnnounceError};
pub use bare::marked_board;
pub use clean::{clean, clean_line, clean_name};
pub use diagram::diagram;
pub use duration::duration;
pub use ear::for_the_ear;
pub use first_words::first_words;
pub use pieces::{List, pieces, pieces_listed};
pub use question::{checkpoint, prompt, question};
pub use reply_help::forms;
pub use spoken_language::{SpokenLanguage, spoken_languages};
pub use verdict::{right_alone, truth, why};

use naming::{count, side};

/// How things are said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Voice {
    /// How moves are announced.
    pub announce: Announce,
    /// The side from which the board is drawn.
    pub view: Color,
    /// Whether everything is said in sentences, nothing drawn, for screen readers and pipes.
    pub plain: bool,
    /// How pieces are listed where they are told and not drawn.
    pub list: List,
}

impl Voice {
    /// Puts what a session says into words: one line or paragraph each, without an end of line and
    /// without colors.
    #[must_use]
    pub fn say(&self, output: &Output) -> Vec<String> {
        match output {
            Output::Opening(opening) => self.opening(opening),
            Output::Heard(heard) => self.heard(heard),
            Output::Told(told) => self.told(told),
            Output::Given(given) => ahead::shown(*self, given),
            Output::Missed(missed) => recite::missed_try(missed),
            Output::Hint(piece) => vec![recite::hint(*piece)],
            Output::Ask(ask) => question::checkpoint(ask)
                .into_iter()
                .chain(self.asked(ask))
                .collect(),
            Output::AskAgain(ask) => self.asked(ask),
            Output::Unread { unread, form } => reply_help::unread(unread, *form),
            Output::ReplyWanted(form) => reply_help::reply_wanted(*form),
            Output::NothingAsked { text } => reply_help::nothing_asked(text),
            Output::Answered(answered) => match &answered.tries {
                Some(tries) => recite::answered(*self, answered, tries),
                None => verdict::answered(*self, answered),
            },
            Output::Again(plies) if plies.is_empty() => {
                vec!["No move has been read yet.".to_owned()]
            }
            Output::Again(plies) => self.announce.plies(plies),
            Output::Board {
                board,
                turn,
                looks_left,
            } => self.look(board, *turn, *looks_left),
            Output::NoBoard { exists: true } => vec!["No look is left.".to_owned()],
            Output::NoBoard { exists: false } => {
                vec!["There is no position to look at here.".to_owned()]
            }
            Output::Help {
                form,
                again,
                look,
                hint,
            } => {
                let mut said = reply_help::help(*form, *again, *look);
                if *hint {
                    said.push(recite::HINT.to_owned());
                }
                said
            }
            Output::Ended(ending) => closing::ended(*ending),
            Output::Summary(summary) => closing::summary(*self, summary),
        }
    }

    /// Says what is about to be held.
    fn opening(self, opening: &Opening) -> Vec<String> {
        match opening {
            Opening::Replay(game) => opening::opening(self.list, game),
            Opening::Recite { game, sides } => recite::opening(self, game, *sides),
            Opening::Drill(drill) => opening::drill(drill),
            Opening::Few(few) => few::opening(few),
            Opening::Ahead(ahead) => ahead::opening(self, ahead),
            Opening::Mates(mates) => ahead::mates_opening(self, mates),
        }
    }

    /// Says what only one exercise says.
    fn told(self, told: &Told) -> Vec<String> {
        match told {
            Told::SidelineBegins { instead_of, plies } => vec![format!(
                "A sideline of {} instead of {}:",
                count(*plies, "ply", "plies"),
                self.announce.named(instead_of)
            )],
            Told::SidelineEnds { back_after } => vec![format!(
                "The sideline ends. The game goes on after {}.",
                self.announce.named(back_after)
            )],
            Told::ReadOut(ply) => vec![recite::read_out(self, ply)],
            Told::Played(plies) => self.announce.plies(plies),
        }
    }

    /// Shows a board: drawn for those who look, a list of pieces where everything is plain.
    #[must_use]
    pub fn board(&self, board: &Board) -> Vec<String> {
        if self.plain {
            pieces_listed(board, self.list)
        } else {
            diagram(board, self.view)
        }
    }

    /// Puts a question; where a square is marked on a board, that board comes first.
    fn asked(self, ask: &Ask) -> Vec<String> {
        let mut said = bare::marked_board(ask, self.plain);
        said.push(prompt(ask));
        said
    }

    fn heard(self, heard: &Heard) -> Vec<String> {
        let mut said = self.announce.plies(&heard.plies);
        if let Some(last) = heard.plies.last().filter(|_| heard.stalemate) {
            said.push(format!(
                "Stalemate: {} has no legal move and is not in check.",
                side(!last.side())
            ));
        }
        said
    }

    fn look(self, board: &Board, turn: Color, looks_left: Option<u32>) -> Vec<String> {
        let mut said = self.board(board);
        said.push(format!("{} to move.", side(turn)));
        said.extend(looks_left.map(|left| match left {
            0 => "That was the last look.".to_owned(),
            1 => "1 look is left.".to_owned(),
            _ => format!("{left} looks are left."),
        }));
        said
    }
}

#[cfg(test)]
mod tests;
