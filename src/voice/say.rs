//! Whatever a session puts out, in words.

use crate::exercise::{Ask, Asked, Heard, Output, Said};
use crate::question::LineQuestion;

use super::ear::for_the_ear;
use super::naming::side;
use super::style::{Occasion, Voice};
use super::{alone, bare, ending, guided, question, recite, reply_help, rounds, verdict};

impl Voice {
    /// Puts what a session says into words: one line or paragraph each, without an end of line and
    /// without colors.
    pub fn say(&self, output: &Output) -> Vec<String> {
        match output {
            Output::Opening(opening) => self.opening(opening),
            Output::Heard(heard) => self.heard(heard),
            Output::Told(told) => self.told(told),
            Output::Given(given) => rounds::shown(*self, given),
            Output::Missed(missed) => recite::missed_try(missed),
            Output::Clue { why, number } => vec![format!("Not yet. {}", bare::clue(why, *number))],
            Output::Hint(piece) => vec![recite::hint(*piece)],
            Output::Ask(ask) => {
                let checkpoint =
                    question::checkpoint(ask).filter(|_| self.occasion != Occasion::Miniature);
                checkpoint.into_iter().chain(self.asked(ask)).collect()
            }
            Output::AskAgain(ask) => {
                let last = match ask.asked {
                    Asked::Turn(stand) => stand.last,
                    _ => None,
                };
                let last = last.map(|ply| format!("The last move: {}", self.announce.ply(&ply)));
                last.into_iter().chain(self.asked(ask)).collect()
            }
            Output::AskOpen(open) => vec![format!(
                "In your own words, or pass: {}",
                question::open(open)
            )],
            Output::Unread {
                unread, kept: true, ..
            } => reply_help::unread_word(unread),
            Output::Unread { unread, form, .. } => reply_help::unread(unread, *form),
            Output::ReplyWanted(form) => reply_help::reply_wanted(*form),
            Output::NothingAsked(text) => reply_help::nothing_asked(text),
            Output::Answered(answered) => verdict::answered(answered),
            Output::TruthWaits { dialogue, tried } => guided::truth_waits(*dialogue, *tried),
            Output::Explained(answered) => verdict::explained(*self, answered),
            Output::Guided(told) => guided::guided(*self, told),
            Output::Helped => vec![guided::HELPED.to_owned()],
            Output::NotHere(what) => vec![guided::not_here(*what)],
            Output::Again(plies) if plies.is_empty() => {
                vec!["No move has been read yet.".to_owned()]
            }
            Output::Again(plies) => self.announce.plies(plies),
            Output::Said(Said::Open { question, .. }) => vec![question::open_answer(question)],
            Output::Said(Said::Opponent(_) | Said::Learner(_)) => Vec::new(),
            Output::Board {
                board,
                turn,
                looks_left,
                ..
            } => {
                let turn = format!("{} to move.", side(*turn));
                let left = looks_left.map(|left| match left {
                    0 => "That was the last look.".to_owned(),
                    1 => "1 look is left.".to_owned(),
                    _ => format!("{left} looks are left."),
                });
                let said = self.board(board).into_iter();
                said.chain([turn]).chain(left).collect()
            }
            Output::NoLook => vec!["No look is left.".to_owned()],
            Output::NoPosition => {
                vec!["There is no position to look at here.".to_owned()]
            }
            Output::Help(help) => reply_help::help(help),
            Output::Ended(ending) => ending::ended(self.occasion, *ending),
            Output::Summary(summary) => self.summary(summary),
        }
    }

    /// Puts what a session says into sentences that a speech synthesizer reads rightly: moves in words,
    /// boards as lists of pieces, summaries as sentences.
    pub(crate) fn for_the_ear(self, output: &Output) -> Vec<String> {
        let said = self.aloud().say(output);
        let said = said.iter().map(|sentence| for_the_ear(sentence));
        said.filter(|sentence| !sentence.is_empty()).collect()
    }

    /// Puts a question; where a square is marked on a board, that board comes first, and in words behind it.
    fn asked(self, ask: &Ask) -> Vec<String> {
        if let Asked::Line(LineQuestion::Mate(_), stand) = ask.asked
            && self.occasion == Occasion::Miniature
        {
            return vec![alone::mate(stand.turn)];
        }
        let mut said = bare::marked_board(ask, self.plain);
        let at = if self.plain { 0 } else { said.len() };
        said.insert(at, question::prompt(ask));
        said
    }

    fn heard(self, heard: &Heard) -> Vec<String> {
        let mut said = self.announce.plies(&heard.plies);
        if let Some(last) = heard.plies.last().filter(|_| heard.stalemate) {
            let side = side(!last.side());
            said.push(format!(
                "Stalemate: {side} has no legal move and is not in check."
            ));
        }
        said
    }
}
