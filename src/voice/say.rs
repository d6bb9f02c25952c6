//! Whatever a session puts out, in words.

use shakmaty::{Board, Color};

use crate::exercise::{Ask, Heard, Opening, Output, OwnSummary, Summary, Told};

use super::ear::for_the_ear;
use super::naming::{plies, side};
use super::style::Voice;
use super::{bare, drill, ending, question, recite, replay, reply_help, rounds, verdict};

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
            Output::Hint(piece) => vec![recite::hint(*piece)],
            Output::Ask(ask) => {
                let checkpoint = question::checkpoint(ask);
                checkpoint.into_iter().chain(self.asked(ask)).collect()
            }
            Output::AskAgain(ask) => self.asked(ask),
            Output::Unread { unread, form } => reply_help::unread(unread, *form),
            Output::ReplyWanted(form) => reply_help::reply_wanted(*form),
            Output::NothingAsked { text } => reply_help::nothing_asked(text),
            Output::Answered(answered) => verdict::answered(*self, answered),
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
                let hint = hint.then(|| recite::HINT.to_owned());
                let words = reply_help::help(*form, *again, *look);
                words.into_iter().chain(hint).collect()
            }
            Output::Ended(ending) => ending::ended(*ending),
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

    /// Says what is about to be held.
    fn opening(self, opening: &Opening) -> Vec<String> {
        match opening {
            Opening::Replay(game) => replay::opening(self.list, game),
            Opening::Recite { game, sides } => recite::opening(self, game, *sides),
            Opening::Drill(drill) => drill::opening(drill),
            Opening::Few(few) => rounds::few_opening(few),
            Opening::Ahead(ahead) => rounds::ahead_opening(self, ahead),
            Opening::Mates(mates) => rounds::mates_opening(self, mates),
        }
    }

    /// Says what only one exercise says.
    fn told(self, told: &Told) -> Vec<String> {
        match told {
            Told::SidelineBegins {
                instead_of,
                plies: number,
            } => {
                let (plies, instead_of) = (plies(*number), self.announce.named(instead_of));
                vec![format!("A sideline of {plies} instead of {instead_of}:")]
            }
            Told::SidelineEnds { back_after } => {
                let last = self.announce.named(back_after);
                vec![format!("The sideline ends. The game goes on after {last}.")]
            }
            Told::ReadOut(ply) => vec![recite::read_out(self, ply)],
            Told::Played(plies) => self.announce.plies(plies),
        }
    }

    /// Puts a question; where a square is marked on a board, that board comes first.
    fn asked(self, ask: &Ask) -> Vec<String> {
        let mut said = bare::marked_board(ask, self.plain);
        said.push(question::prompt(ask));
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

    /// Says how it went, and shows the board where the end was reached.
    fn summary(self, summary: &Summary) -> Vec<String> {
        let mut said = ending::kinds(self, &summary.kinds);
        let (board, next) = match &summary.own {
            OwnSummary::Drill(drill) => return drill::summary(self, summary, drill),
            OwnSummary::Recite(recite) => return recite::summary(self, summary, recite),
            OwnSummary::Replay {
                first_miss,
                longest_run,
            } => {
                said.extend(replay::picture(summary, *first_miss, *longest_run));
                (Some("The board at the end"), None)
            }
            OwnSummary::Few(rounds) => {
                said.extend(rounds::held(summary, *rounds));
                (Some("The board of the last round"), None)
            }
            OwnSummary::Ahead { rounds, next } => {
                said.extend(rounds::held(summary, *rounds));
                (Some("The board of the last round"), *next)
            }
            OwnSummary::Mates { tried, mated } => {
                said.push(rounds::led_to_mate(*tried, *mated));
                (None, None)
            }
        };
        if summary.looks > 0 {
            said.push(format!("Looks at the board: {}.", summary.looks));
        }
        if summary.late > 0 {
            said.push(format!("Replies after the think time: {}.", summary.late));
        }
        said.extend(next.map(rounds::next_round));
        if let Some(board) = board {
            said.extend(ending::board(self, board, summary.board.as_ref()));
        }
        said
    }
}
