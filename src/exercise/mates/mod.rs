//! Mates to be found: a position is given, and the learner says every move up to the mate, against the
//! best defence.

mod problem;
mod search;
mod settings;

use shakmaty::Position;

use super::output::{Answered, Ask, Asked, Defended, Heard, MatesOpening, Output, Shown, Stand};
use super::posed::{self, Effort, Posed};
use super::summary::{KindCount, MatesSummary, Past};
use super::{Awaits, Input, Session, Show};
use crate::game::Ply;
use crate::question::{LineQuestion, Reply};
use problem::{Attack, Then};

pub use search::{Problem, Search, Searched};
pub use settings::{MatesError, MatesSettings};

/// A session of mates in progress.
///
/// It is driven by [`Mates::begin`] or [`Mates::resume`] once, and then by [`Session::hear`] for as long as
/// [`Session::awaits`] says that it awaits something.
#[derive(Debug)]
pub struct Mates {
    settings: MatesSettings,
    /// The number of the position, counted from 0.
    number: usize,
    attack: Attack,
    /// The plies of the line that have been heard.
    spot: usize,
    /// The plies of the line after which the board was last seen.
    seen_at: usize,
    past: Vec<Past>,
    tried: usize,
    mated: usize,
    heard_before: usize,
    looks: u32,
    new_looks: u32,
    over: bool,
}

impl Mates {
    /// Prepares a session.
    ///
    /// # Errors
    ///
    /// [`MatesError`] when no such session can be held.
    pub fn new(settings: MatesSettings) -> Result<Mates, MatesError> {
        for problem in &settings.problems {
            problem.script.check()?;
        }
        let first = settings.problems.first().ok_or(MatesError::NoProblem)?;
        Ok(Mates {
            attack: Attack::new(first)?,
            settings,
            number: 0,
            spot: 0,
            seen_at: 0,
            past: Vec::new(),
            tried: 0,
            mated: 0,
            heard_before: 0,
            looks: 0,
            new_looks: 0,
            over: false,
        })
    }

    /// Begins: tells what will be asked, and gives the first position.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(None)];
        self.open(&mut outputs);
        outputs
    }

    /// Goes on where an earlier session of the same settings had stopped: it hears the replies of that
    /// one again, and gives the position that is left to be solved anew.
    pub fn resume(&mut self, earlier: impl IntoIterator<Item = Input>) -> Vec<Output> {
        self.open(&mut Vec::new());
        for input in earlier {
            while self.awaits() == Awaits::GoOn {
                self.hear(Input::GoOn);
            }
            self.hear(input);
        }
        let mut outputs = vec![self.opening(Some(self.tried))];
        if self.over {
            outputs.push(Output::Finished { result: None });
            outputs.push(self.summary());
            return outputs;
        }
        outputs.push(self.shown());
        if self.spot > 0 {
            outputs.push(Output::Again(
                self.attack.line.plies()[..self.spot].to_vec(),
            ));
        }
        self.seen_at = match self.settings.show {
            Show::None => self.seen_at,
            Show::Diagram | Show::List => 0,
        };
        outputs.extend(self.ask().map(Output::Ask));
        outputs
    }

    fn opening(&self, resumed: Option<usize>) -> Output {
        Output::MatesOpening(MatesOpening {
            problems: self.settings.problems.len(),
            resumed,
            show: self.settings.show,
        })
    }

    /// Gives the position; where no ply is to be read before, it is asked about at once.
    fn open(&self, outputs: &mut Vec<Output>) {
        outputs.push(self.shown());
        outputs.extend(self.ask().map(Output::Ask));
    }

    fn shown(&self) -> Output {
        Output::Shown(Box::new(Shown {
            round: self.number + 1,
            of: self.settings.problems.len(),
            game: self.settings.problems[self.number].game,
            show: self.settings.show,
            start: self.attack.line.start().clone(),
            heard_before: 0,
            plies: self.attack.given,
        }))
    }

    /// The question that stands: none while the game is still read.
    fn ask(&self) -> Option<Ask> {
        if self.over || self.spot < self.attack.line.len() {
            return None;
        }
        let stand = Stand {
            checkpoint: None,
            turn: self.attack.line.end().turn(),
            man: None,
            chess960: self.attack.line.start().mode().is_chess960(),
        };
        Some(Ask {
            asked: Asked::Line(LineQuestion::Mate(self.attack.question), stand),
            number: self.number + 1,
            of: self.settings.problems.len(),
            form: self.attack.form(),
        })
    }

    fn go_on(&mut self, outputs: &mut Vec<Output>) {
        if let Some(ask) = self.ask() {
            outputs.push(Output::ReplyWanted(ask.form));
            return;
        }
        let plies = self.attack.line.plies();
        let first = self.spot;
        let last = first + 1 + usize::from(plies[first].side().is_white());
        self.spot = last.min(plies.len());
        outputs.push(Output::Heard(Heard {
            plies: plies[first..self.spot].to_vec(),
            stalemate: false,
        }));
        outputs.extend(self.ask().map(Output::Ask));
    }

    fn reply(&mut self, text: &str, millis: u64, outputs: &mut Vec<Output>) {
        if self.ask().is_none() {
            outputs.push(Output::NothingAsked {
                text: text.to_owned(),
            });
            return;
        }
        match posed::reply(&self.attack, text, self.effort(millis)) {
            Err(unread) => outputs.push(unread),
            Ok(answered) => self.answered(answered, outputs),
        }
    }

    fn pass(&mut self, millis: u64, outputs: &mut Vec<Output>) {
        if self.ask().is_none() {
            outputs.push(Output::NothingAsked {
                text: "pass".to_owned(),
            });
            return;
        }
        let answered = posed::pass(&self.attack, self.effort(millis));
        self.answered(answered, outputs);
    }

    fn effort(&self, millis: u64) -> Effort {
        let think = self.settings.think_millis;
        Effort {
            millis,
            late: think.is_some_and(|think| millis > think),
            looks: self.new_looks,
            seen_ago: self.spot - self.seen_at,
        }
    }

    fn answered(&mut self, answered: Answered, outputs: &mut Vec<Output>) {
        let past = Past::from(&answered);
        let said = match answered.reply {
            Some(Reply::Move(attempt)) if past.is_right() => Some(attempt),
            _ => None,
        };
        self.past.push(past);
        self.new_looks = 0;
        outputs.push(Output::Answered(Box::new(answered)));
        match said.map(|attempt| self.attack.play(attempt)) {
            Some(Then::Defended { mv, reply }) => {
                self.spot = self.attack.line.len();
                outputs.push(Output::Defended(Box::new(Defended { mv, reply })));
                outputs.extend(self.ask().map(Output::Ask));
            }
            Some(Then::Mated(mv)) => {
                self.spot = self.attack.line.len();
                self.mated += 1;
                outputs.push(Output::Mated(mv));
                self.turn(outputs);
            }
            None => self.turn(outputs),
        }
    }

    /// Turns to the next position.
    fn turn(&mut self, outputs: &mut Vec<Output>) {
        self.tried += 1;
        let next = self.settings.problems.get(self.number + 1);
        // A position written down without a mate ends the session: nothing can be asked over it.
        match next.map(Attack::new) {
            Some(Ok(attack)) => {
                self.heard_before += self.spot;
                self.number += 1;
                self.attack = attack;
                self.spot = 0;
                self.seen_at = 0;
                self.open(outputs);
            }
            Some(Err(_)) | None => self.finish(Output::Finished { result: None }, outputs),
        }
    }

    /// How many looks may still be taken; `None` for any number.
    fn looks_left(&self) -> Option<u32> {
        let left = |looks: u32| looks.saturating_sub(self.looks);
        self.settings.looks.map(left)
    }

    fn look(&mut self) -> Output {
        let left = self.looks_left();
        if left == Some(0) {
            return Output::NoLookLeft;
        }
        self.looks += 1;
        self.new_looks += 1;
        self.seen_at = self.spot;
        let position = self.attack.line.position(self.spot);
        Output::Board {
            board: position.board().clone(),
            turn: position.turn(),
            looks_left: left.map(|left| left - 1),
        }
    }

    fn finish(&mut self, last_word: Output, outputs: &mut Vec<Output>) {
        self.over = true;
        outputs.push(last_word);
        outputs.push(self.summary());
    }

    fn summary(&self) -> Output {
        Output::MatesSummary(Box::new(MatesSummary {
            kinds: KindCount::all(&self.past),
            tried: self.tried,
            mated: self.mated,
            looks: self.looks,
            late: self.past.iter().filter(|past| past.late).count(),
        }))
    }
}

impl Session for Mates {
    fn awaits(&self) -> Awaits {
        if self.over {
            Awaits::Nothing
        } else if self.ask().is_some() {
            Awaits::Reply
        } else {
            Awaits::GoOn
        }
    }

    fn heard(&self) -> usize {
        self.heard_before + self.spot
    }

    fn looks(&self) -> u32 {
        self.looks
    }

    fn trail(&self) -> &[Ply] {
        &self.attack.line.plies()[..self.spot]
    }

    fn hear(&mut self, input: Input) -> Vec<Output> {
        let mut outputs = Vec::new();
        if self.over {
            return outputs;
        }
        match input {
            Input::GoOn => self.go_on(&mut outputs),
            Input::Reply { text, millis } => self.reply(&text, millis, &mut outputs),
            // Without a ply heard, the position is what was said last.
            Input::Again => outputs.push(match self.trail() {
                [] => self.shown(),
                plies => Output::Again(plies.to_vec()),
            }),
            Input::Question => outputs.push(Output::question_again(self.ask())),
            Input::Look => {
                outputs.push(self.look());
                outputs.extend(self.ask().map(Output::AskAgain));
            }
            Input::Pass { millis } => self.pass(millis, &mut outputs),
            Input::Help => outputs.push(Output::Help {
                form: self.ask().map(|ask| ask.form),
                again: true,
                look: self.looks_left() != Some(0),
            }),
            Input::Stop => self.finish(Output::Stopped, &mut outputs),
        }
        outputs
    }
}
