//! A session: an exercise, and all that exercises share.

use shakmaty::Position;

use super::answers::{Answered, KindCount, Tries};
use super::asking::Asking;
use super::bound::Looks;
use super::hearing;
use super::input::Input;
use super::output::{Heard, Output, Summary};
use super::past::{Past, Place};
use super::registry::Held;
use super::step::{Ending, KindTimes, Rules, Step, ThinkTimes};
use crate::game::Ply;

/// What a session waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awaits {
    /// [`Input::GoOn`]: more is to be read.
    GoOn,
    /// A reply to the question that stands.
    Reply,
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
    /// The position that was given last, as it was given.
    given: Option<Output>,
}

/// What the session has come to.
#[derive(Debug)]
enum Stands {
    /// Plies are to be read.
    Reading { from: Place, to: usize },
    /// A question.
    Asked(Box<Asking>),
    /// The end.
    Over,
}

/// What an earlier sitting of the same exercise came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Earlier {
    /// Its answers, in order.
    pub answers: Vec<EarlierAnswer>,
    /// How many plies had been heard, as far as that was written down.
    pub heard: usize,
    /// How many looks had been taken in all, as far as that was written down.
    pub looks: u32,
}

/// An answer as it was given in an earlier sitting.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct EarlierAnswer {
    /// The words of the reply; empty where the question was given up.
    pub text: String,
    /// Milliseconds from question to reply.
    pub millis: u64,
    /// How many looks were taken since the answer before.
    pub looks: u32,
    /// How many plies ago the board had been seen, where that is known.
    pub seen_ago: u32,
    /// The tries at a question that had two.
    pub tries: Tries,
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
            given: None,
        }
    }

    /// Takes the think times of kinds that stand where the exercise has none.
    pub fn with_think_times(mut self, think: ThinkTimes) -> Session {
        self.think = think;
        self
    }

    /// Begins: says what is to come, and goes as far as it can without the learner.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(false)];
        self.proceed(&mut outputs);
        outputs
    }

    /// Goes on where an earlier sitting had stopped, with the same questions still to come: it hears again
    /// what that one heard, and then says where it stands.
    pub fn resume(&mut self, earlier: Earlier) -> Vec<Output> {
        self.proceed(&mut Vec::new());
        for answer in earlier.answers {
            while self.awaits() == Awaits::GoOn {
                self.hear(Input::GoOn);
            }
            self.hear_again(answer);
        }
        while self.awaits() == Awaits::GoOn && self.past.heard < earlier.heard {
            self.hear(Input::GoOn);
        }
        // Nobody wrote down when these were taken: no more plies are claimed than are certain.
        self.past
            .look(earlier.looks.saturating_sub(self.past.looks), 0);
        let mut outputs = vec![self.opening(true)];
        if self.awaits() == Awaits::Nothing {
            self.finish(Ending::Read(None), &mut outputs);
            return outputs;
        }
        outputs.extend(self.given.clone());
        if !self.trail().is_empty() {
            outputs.push(Output::Again(self.trail().to_vec()));
        }
        if let Stands::Asked(asking) = &self.stands {
            outputs.push(Output::Ask(asking.ask.clone()));
        }
        outputs
    }

    fn opening(&self, again: bool) -> Output {
        Output::Opening(Box::new(self.exercise.opening(&self.past, again)))
    }

    fn hear_again(&mut self, answer: EarlierAnswer) {
        self.past.look(answer.looks, answer.seen_ago as usize);
        let mut before = answer.tries.said;
        if !answer.text.is_empty() {
            // The last try is the reply itself.
            before.pop();
        }
        let hint = answer.tries.hint.then(|| hearing::HINT.to_owned());
        for text in hint.into_iter().chain(before) {
            self.hear(Input::Reply { text, millis: 0 });
        }
        let (text, millis) = (answer.text, answer.millis);
        self.hear(if text.is_empty() {
            Input::Pass { millis }
        } else {
            Input::Reply { text, millis }
        });
    }

    /// Returns what the session waits for.
    pub const fn awaits(&self) -> Awaits {
        match self.stands {
            Stands::Reading { .. } => Awaits::GoOn,
            Stands::Asked(_) => Awaits::Reply,
            Stands::Over => Awaits::Nothing,
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

    /// Returns the last plies heard of the line that is being read, oldest first.
    pub fn trail(&self) -> &[Ply] {
        self.past.trail(self.rules.trail)
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
            Input::Question => {
                outputs.push(self.ask_again().unwrap_or_else(|| nothing("question")));
            }
            Input::Look => {
                outputs.push(self.look());
                let over_a_line = self.past.place.is_some();
                outputs.extend(self.ask_again().filter(|_| over_a_line));
            }
            Input::Help => outputs.push(self.help()),
            Input::Stop => self.finish(Ending::Stopped, &mut outputs),
        }
        outputs
    }

    /// Takes the exercise's steps up to the next one that needs the learner.
    fn proceed(&mut self, outputs: &mut Vec<Output>) {
        loop {
            match self.exercise.next(&self.past) {
                Step::Read { from, to } => {
                    self.past.place = Some(from.clone());
                    self.stands = Stands::Reading { from, to };
                    return;
                }
                Step::Tell { told, to } => {
                    if let Some(place) = to {
                        self.past.go_on_to(place);
                    }
                    outputs.push(Output::Told(told));
                }
                Step::Show { given, place } => {
                    self.past.give(place);
                    let given = Output::Given(Box::new(given));
                    outputs.push(given.clone());
                    self.given = Some(given);
                }
                Step::Ask(asking) => {
                    if let Some(place) = &asking.place {
                        self.past.go_on_to(place.clone());
                    }
                    outputs.push(Output::Ask(asking.ask.clone()));
                    self.stands = Stands::Asked(asking);
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
                self.proceed(outputs);
            }
            Stands::Asked(asking) => outputs.push(Output::ReplyWanted(asking.ask.form)),
            Stands::Over => {}
        }
    }

    /// Says what can be said here, and nothing else.
    fn help(&self) -> Output {
        let asking = self.asking();
        Output::Help {
            form: asking.map(|asking| asking.ask.form),
            again: self.given.is_some() || !self.trail().is_empty(),
            look: self.past.place.is_some() && self.looks_left() != Some(0),
            hint: asking
                .is_some_and(|asking| asking.tries.is_some() && asking.ask.taught.is_none()),
        }
    }

    fn again(&self) -> Output {
        match (self.trail(), &self.given) {
            ([], Some(given)) => given.clone(),
            ([], None) if self.past.place.is_none() => {
                self.ask_again().unwrap_or(Output::Again(Vec::new()))
            }
            (plies, _) => Output::Again(plies.to_vec()),
        }
    }

    fn asking(&self) -> Option<&Asking> {
        match &self.stands {
            Stands::Asked(asking) => Some(asking),
            Stands::Reading { .. } | Stands::Over => None,
        }
    }

    fn ask_again(&self) -> Option<Output> {
        Some(Output::AskAgain(self.asking()?.ask.clone()))
    }

    /// How many looks may still be taken; `None` for any number.
    fn looks_left(&self) -> Option<u32> {
        let left = |looks: Looks| looks.get().saturating_sub(self.past.looks);
        self.rules.looks.map(left)
    }

    fn look(&mut self) -> Output {
        if self.past.place.is_none() {
            return Output::NoPosition;
        }
        let left = self.looks_left();
        if left == Some(0) {
            return Output::NoLook;
        }
        self.past.look(1, 0);
        let (board, turn) = self.past.board();
        Output::Board {
            board,
            turn,
            looks_left: left.map(|left| left - 1),
        }
    }

    fn reply(&mut self, text: String, millis: u64, outputs: &mut Vec<Output>) {
        let Stands::Asked(asking) = &mut self.stands else {
            outputs.push(nothing(&text));
            return;
        };
        match asking.hear(text, millis, &self.past) {
            (None, told) => outputs.extend(told),
            (Some(answered), told) => self.answered(answered, told, outputs),
        }
    }

    fn pass(&mut self, millis: u64, outputs: &mut Vec<Output>) {
        let Stands::Asked(asking) = &self.stands else {
            outputs.push(nothing("pass"));
            return;
        };
        let answered = asking.pass(millis, &self.past);
        self.answered(answered, Vec::new(), outputs);
    }

    /// Keeps an answer, tells what stands behind it, and goes on.
    fn answered(&mut self, mut answered: Answered, told: Vec<Output>, outputs: &mut Vec<Output>) {
        let kind = answered.question.kind();
        let wished = self.think.get(&kind).copied();
        let of_all = self.rules.think_millis.map(|think| think.get().into());
        answered.think = of_all.or(match self.rules.kind_times {
            KindTimes::Wished => wished,
            KindTimes::Usual => wished.or(Some(kind.think_millis())),
            KindTimes::Following => {
                wished.or_else(|| Some(following(kind.think_millis(), &self.past.answers)))
            }
            KindTimes::None => None,
        });
        answered.late = (answered.think).is_some_and(|think| answered.millis > Some(think));
        self.past.answer(answered.clone());
        outputs.push(Output::Answered(Box::new(answered)));
        outputs.extend(told);
        self.proceed(outputs);
    }

    fn finish(&mut self, ending: Ending, outputs: &mut Vec<Output>) {
        self.stands = Stands::Over;
        outputs.push(Output::Ended(ending));
        let past = &self.past;
        let at_end = past.finished && past.place.is_some();
        outputs.push(Output::Summary(Box::new(Summary {
            kinds: KindCount::all(&past.answers),
            heard: past.heard,
            looks: past.looks,
            late: past.answers.iter().filter(|answered| answered.late).count(),
            board: at_end.then(|| past.board()),
            own: self.exercise.summary(past),
        })));
    }
}

/// Makes a think time follow the answers so far: every one that is right in time shortens it by a step,
/// every other lengthens it by three, so that three in four are right in time (Kaernbach 1991, as in
/// [`Staircase`](super::Staircase)); between half of the usual time and double it.
fn following(usual: u64, answers: &[Answered]) -> u64 {
    const STEPS: i64 = 40;
    let step = |at: i64, answered: &Answered| {
        let in_time = answered.is_right() && !answered.late;
        (at + if in_time { -1 } else { 3 }).clamp(-STEPS / 2, STEPS)
    };
    let at = answers.iter().fold(0, step);
    usual.saturating_add_signed(usual.cast_signed() * at / STEPS)
}

/// Counts the questions of a session that is about to begin, by giving each of them up.
pub fn questions(session: &mut Session) -> usize {
    session.begin();
    loop {
        session.hear(match session.awaits() {
            Awaits::Nothing => return session.past.answers.len(),
            Awaits::GoOn => Input::GoOn,
            Awaits::Reply => Input::Pass { millis: 0 },
        });
    }
}

/// Says that nothing stands that this would be a reply to.
fn nothing(text: &str) -> Output {
    Output::NothingAsked(text.to_owned())
}
