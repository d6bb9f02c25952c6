//! A session: an exercise, and all that exercises share.

mod extent;
mod missed;
mod prompt;
mod resume;

use shakmaty::Position;

use super::answers::{Answered, by_kind};
use super::asking::{Ask, Asking};
use super::awaited::Awaited;
use super::beside::OpenQuestion;
use super::guide::Guide;
use super::input::Input;
use super::output::{Heard, NotHere, Output, Summary};
use super::past::{Past, Place};
use super::registry::Held;
use super::said::{Countermove, GameWord, Said};
use super::settings::Show;
use super::step::{Ending, Rules, Step, ThinkTimes};
use crate::game::Ply;

pub use extent::{Extent, extent};
pub use resume::{Earlier, EarlierAnswer};

/// What a session waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awaits {
    /// [`Input::GoOn`]: more is to be read.
    GoOn,
    /// A reply to the question that stands.
    Reply,
    /// [`Input::GoOn`], which tells the truth of what was missed; or another word of the prompt.
    Truth,
    /// [`Input::Opponent`]: what [`Session::awaited`] says, or what another opponent does.
    Opponent,
    /// Nothing: the session is over.
    Nothing,
}

/// An exercise that is held: it is begun or resumed once, and then given inputs for as long as it
/// awaits something. Its last output is a summary.
#[derive(Debug)]
pub struct Session {
    exercise: Held,
    rules: Rules,
    think: ThinkTimes,
    past: Past,
    stands: Stands,
    /// Whether the truth of what was missed waits until the learner wants it.
    truth_waits: bool,
    /// The last answer.
    last: Option<Box<Answered>>,
    /// Whether more was read since, so that its reason may help with the question that stands.
    last_is_past: bool,
    /// The position that was given last, as it was given.
    given: Option<Output>,
    /// Whether something had helped at the question that stood when the session was stopped.
    helped: bool,
}

/// What the session has come to.
#[derive(Debug)]
enum Stands {
    /// Plies are to be read.
    Reading { from: Place, to: usize },
    /// A question.
    Asked(Box<Asking>),
    /// A question whose answer nobody grades.
    Open(OpenQuestion),
    /// An answer that is not right, whose truth waits; and the way to find it, where there is one.
    Missed {
        ask: Ask,
        answered: Box<Answered>,
        guide: Option<Box<Guide>>,
    },
    /// The learner is led to what was missed.
    Guided {
        answered: Box<Answered>,
        guide: Box<Guide>,
    },
    /// The opponent is to move, or to say something.
    Awaited(Box<Awaited>),
    /// The end.
    Over,
}

impl Session {
    /// Prepares a session of an exercise.
    pub fn new(exercise: impl Into<Held>) -> Session {
        let exercise = exercise.into();
        Session {
            rules: exercise.rules(),
            exercise,
            think: ThinkTimes::default(),
            past: Past::default(),
            stands: Stands::Over,
            truth_waits: false,
            last: None,
            last_is_past: false,
            given: None,
            helped: false,
        }
    }

    /// Takes the think times of kinds that stand where the exercise has none.
    pub fn with_think_times(mut self, think: ThinkTimes) -> Session {
        self.think = think;
        self
    }

    /// Puts the questions on paper, where no verdict comes between two of them.
    pub(crate) const fn on_paper(mut self) -> Session {
        self.past.on_paper = true;
        self
    }

    /// Lets the truth of what was missed wait until the learner wants it, so that it can be found together:
    /// for a learner who is there, and not for written replies.
    pub const fn with_waiting_truths(mut self, truth_waits: bool) -> Session {
        self.truth_waits = truth_waits;
        self
    }

    /// Begins: says what is to come, and goes as far as it can without the learner.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(false)];
        self.proceed(&mut outputs);
        outputs
    }

    fn opening(&self, again: bool) -> Output {
        Output::Opening(Box::new(self.exercise.opening(&self.past, again)))
    }

    /// Returns what the session waits for.
    pub fn awaits(&self) -> Awaits {
        match &self.stands {
            Stands::Asked(_) | Stands::Open(_) => Awaits::Reply,
            Stands::Guided { guide, .. } if guide.asking.is_some() => Awaits::Reply,
            Stands::Reading { .. } | Stands::Guided { .. } => Awaits::GoOn,
            Stands::Missed { .. } => Awaits::Truth,
            Stands::Awaited(_) => Awaits::Opponent,
            Stands::Over => Awaits::Nothing,
        }
    }

    /// Returns what is awaited of the opponent, where it is its turn.
    pub fn awaited(&self) -> Option<&Awaited> {
        match &self.stands {
            Stands::Awaited(awaited) => Some(awaited),
            _ => None,
        }
    }

    /// Returns what it goes by in what exercises share.
    pub const fn rules(&self) -> &Rules {
        &self.rules
    }

    /// Returns how many plies have been heard.
    pub fn heard(&self) -> usize {
        self.past.heard
    }

    /// Returns how many looks at the board have been taken.
    pub fn looks(&self) -> u32 {
        self.past.looks
    }

    /// Tells whether something had helped at the question that stood when it was stopped.
    pub const fn helped(&self) -> bool {
        self.helped
    }

    /// Returns the last plies heard of the line that is being read, oldest first.
    pub fn trail(&self) -> &[Ply] {
        self.past.trail(self.rules.trail)
    }

    /// Returns the question that stands as if it were given up here: with its truth.
    #[cfg(test)]
    pub(crate) fn given_up(&self) -> Option<Answered> {
        match &self.stands {
            Stands::Asked(asking) => Some(asking.pass(0, &self.past)),
            _ => None,
        }
    }

    /// Takes one input and returns what there is to say to it.
    pub fn hear(&mut self, input: Input) -> Vec<Output> {
        let mut outputs = Vec::new();
        if matches!(self.stands, Stands::Over) {
            return outputs;
        }
        match input {
            Input::GoOn => self.go_on(&mut outputs),
            Input::Reply { text, millis } => self.reply(text, millis, &mut outputs),
            Input::Pass { millis } => self.pass(millis, &mut outputs),
            Input::Again => outputs.push(self.again()),
            Input::AgainPlies(plies) => self.again_plies(plies, &mut outputs),
            Input::Question => {
                outputs.push(self.ask_again().unwrap_or_else(|| nothing("question")));
            }
            Input::Look => {
                outputs.push(self.look());
                let over_a_line = self.past.place.is_some();
                outputs.extend(self.ask_again().filter(|_| over_a_line));
            }
            Input::Why => self.why(&mut outputs),
            Input::Back => self.back(&mut outputs),
            Input::Opponent(said) => self.counter(said, &mut outputs),
            Input::Help => outputs.push(Output::Help(self.help())),
            Input::Stop => self.finish(Ending::Stopped, &mut outputs),
        }
        outputs
    }

    /// Takes the exercise's steps up to the next one that needs the learner.
    fn proceed(&mut self, outputs: &mut Vec<Output>) {
        loop {
            match self.exercise.next(&self.past) {
                Step::Read { from, to } => {
                    self.past.turn_to(from.clone());
                    self.stands = Stands::Reading { from, to };
                    return;
                }
                Step::Tell { told, to } => {
                    if let Some(place) = to {
                        self.past.go_on_to(place);
                        // A move that was recited says nothing of the next one.
                        let last = self.last.as_ref();
                        self.last_is_past |= last.is_some_and(|last| last.recital().is_none());
                    }
                    outputs.push(Output::Told(told));
                }
                Step::Show { given, place } => {
                    self.past.give(place, given.show != Show::None);
                    self.last_is_past = true;
                    let given = Output::Given(Box::new(given));
                    outputs.push(given.clone());
                    self.given = Some(given);
                }
                Step::Turn(place) => self.past.turn_to(place),
                Step::Sight { stays } => {
                    self.past.see();
                    let (board, turn) = self.past.board();
                    let board = Output::Board {
                        board,
                        turn,
                        looks_left: None,
                        stays,
                    };
                    self.given = stays.then(|| board.clone());
                    outputs.push(board);
                }
                Step::Await(awaited) => {
                    self.stands = Stands::Awaited(awaited);
                    return;
                }
                Step::Ask(asking) => {
                    if let Some(place) = &asking.place {
                        self.past.go_on_to(place.clone());
                    }
                    outputs.push(Output::Ask(asking.ask.clone()));
                    self.stands = Stands::Asked(asking);
                    return;
                }
                Step::AskOpen(question) => {
                    outputs.push(Output::AskOpen(question.clone()));
                    self.stands = Stands::Open(question);
                    return;
                }
                Step::End(ending) => {
                    self.past.finished = true;
                    self.finish(ending, outputs);
                    return;
                }
            }
        }
    }

    fn go_on(&mut self, outputs: &mut Vec<Output>) {
        match &self.stands {
            Stands::Reading { from, to } => {
                let place = Place::new(from.line.clone(), *to);
                outputs.push(Output::Heard(Heard {
                    plies: place.played()[from.plies..].to_vec(),
                    stalemate: place.scene().position().is_stalemate(),
                }));
                self.past.go_on_to(place);
                self.last_is_past = true;
                self.proceed(outputs);
            }
            Stands::Asked(asking) if asking.is_turn() => {
                outputs.push(Output::AskAgain(asking.ask.clone()));
            }
            Stands::Asked(asking) => outputs.push(Output::ReplyWanted(asking.ask.form)),
            Stands::Open(_) => outputs.extend(self.ask_again()),
            Stands::Missed { .. } => self.tell_truth(outputs),
            Stands::Guided { .. } => self.read_on_guided(outputs),
            Stands::Awaited(_) | Stands::Over => {}
        }
    }

    fn reply(&mut self, text: String, millis: u64, outputs: &mut Vec<Output>) {
        let asking = match &mut self.stands {
            Stands::Asked(asking) => &mut **asking,
            Stands::Open(_) => return self.reply_openly(text, outputs),
            Stands::Guided { guide, .. } if guide.asking.is_some() => {
                return self.reply_guided(text, millis, outputs);
            }
            Stands::Missed { guide, .. } => {
                let dialogue = guide.as_ref().map(|guide| guide.dialogue());
                outputs.push(Output::TruthWaits {
                    dialogue,
                    tried: true,
                });
                return;
            }
            Stands::Guided { .. } | Stands::Reading { .. } | Stands::Awaited(_) | Stands::Over => {
                outputs.push(nothing(&text));
                return;
            }
        };
        if let Some(word) = asking.game_word(&text) {
            return self.say(Said::Learner(word), outputs);
        }
        match asking.hear(text, millis, &self.past) {
            (None, told) => outputs.extend(told),
            (Some(answered), told) => self.answered(answered, told, outputs),
        }
    }

    fn pass(&mut self, millis: u64, outputs: &mut Vec<Output>) {
        match &self.stands {
            Stands::Asked(asking) if asking.is_turn() => {
                outputs.push(Output::NotHere(NotHere::Pass));
            }
            Stands::Asked(asking) => {
                let answered = asking.pass(millis, &self.past);
                self.answered(answered, Vec::new(), outputs);
            }
            Stands::Open(_) => self.reply_openly(String::new(), outputs),
            Stands::Missed { .. } => self.tell_truth(outputs),
            Stands::Guided { .. } => self.pass_guided(millis, outputs),
            Stands::Reading { .. } | Stands::Awaited(_) | Stands::Over => {
                outputs.push(nothing("pass"));
            }
        }
    }

    /// Takes a reply that nobody grades; an empty one gives the question up.
    fn reply_openly(&mut self, reply: String, outputs: &mut Vec<Output>) {
        if let Stands::Open(question) = std::mem::replace(&mut self.stands, Stands::Over) {
            self.say(Said::Open { question, reply }, outputs);
        }
    }

    /// Takes what the opponent says; a move that is not legal there is none of its.
    fn counter(&mut self, said: Countermove, outputs: &mut Vec<Output>) {
        let Stands::Awaited(awaited) = &self.stands else {
            return;
        };
        if awaited.takes(&said) {
            self.say(Said::Opponent(said), outputs);
        }
    }

    fn say(&mut self, said: Said, outputs: &mut Vec<Output>) {
        if said == Said::Learner(GameWord::TakeBack) {
            self.last = None;
        }
        self.past.said.push(said.clone());
        outputs.push(Output::Said(said));
        self.proceed(outputs);
    }

    fn finish(&mut self, ending: Ending, outputs: &mut Vec<Output>) {
        let stood = std::mem::replace(&mut self.stands, Stands::Over);
        self.helped = matches!(stood, Stands::Asked(asking) if asking.was_helped());
        outputs.push(Output::Ended(ending));
        let past = &self.past;
        let at_end = past.finished && past.place.is_some();
        outputs.push(Output::Summary(Box::new(Summary {
            kinds: by_kind(&past.answers),
            heard: past.heard,
            looks: past.looks,
            late: past.answers.iter().filter(|answered| answered.late).count(),
            board: at_end.then(|| past.board()),
            own: self.exercise.summary(past),
        })));
    }
}

/// Says that nothing stands that this would be a reply to.
fn nothing(text: &str) -> Output {
    Output::NothingAsked(text.to_owned())
}
