//! A few men are read out, some plies are played on, then questions are asked: round after round.

mod excerpts;
mod exposure;
mod plies;
mod position;
mod round;
mod settings;

use shakmaty::Position;

use super::of_round::OfRound;
use super::output::{Ask, FewOpening, Men, Output};
use super::replay::Progress;
use super::summary::{FewSummary, KindCount, Past, RoundsSummary};
use super::{Awaits, Input, Session, ThinkTimes};
use crate::game::{Line, Ply};
use round::Round;

pub use excerpts::excerpts;
pub use plies::play_on;
pub use position::{MEN, draw};
pub use settings::{FewError, FewSettings};

/// How many rounds in a row may turn out to have no question before the drill ends early. Where one
/// kind alone is asked, hardly a round has none, and it is passed over; but where only exchanges are
/// asked, about nine rounds in ten have none once the captures have been played.
const EMPTY_ROUNDS: usize = 400;

/// A drill of few men in progress.
///
/// It is driven as a [`Replay`](super::Replay) is: by [`Few::begin`] or [`Few::resume`] once, and then
/// by [`Session::hear`] for as long as [`Session::awaits`] says that it awaits something.
#[derive(Debug)]
pub struct Few {
    settings: FewSettings,
    /// The lines that rounds go through in turn; without any, each round draws its own.
    lines: Vec<Line>,
    round: Round,
    past: Vec<Past>,
    /// For each round begun, how many questions had been answered before.
    begun: Vec<usize>,
    /// Plies heard and looks taken in the rounds before this one.
    heard_before: usize,
    looks_before: u32,
    think: ThinkTimes,
    over: bool,
}

impl Few {
    /// Prepares a drill.
    ///
    /// # Errors
    ///
    /// [`FewError`] when no such drill can be held.
    pub fn new(settings: FewSettings) -> Result<Few, FewError> {
        let lines = settings.lines()?;
        if settings.kinds().is_empty() {
            return Err(FewError::NothingToAsk);
        }
        let round = first_round(&settings, &lines, 0, 0, 0).ok_or(FewError::NothingToAsk)?;
        Ok(Few {
            settings,
            lines,
            round,
            past: Vec::new(),
            begun: vec![0],
            heard_before: 0,
            looks_before: 0,
            think: ThinkTimes::default(),
            over: false,
        })
    }

    /// Takes the think times of kinds that stand where the settings have none.
    #[must_use]
    pub fn with_think_times(mut self, think: ThinkTimes) -> Few {
        self.round = self.round.with_think_times(think.clone());
        self.think = think;
        self
    }

    /// Begins: tells what will be asked, and reads the first men out.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(None)];
        self.open(&mut outputs);
        outputs
    }

    /// Goes on where an earlier session of the same settings had stopped, with the same questions
    /// still to come. The men and all plies of the round are told again: nobody keeps them in mind
    /// overnight.
    pub fn resume(&mut self, progress: Progress) -> Vec<Output> {
        let mut outputs = vec![self.opening(Some(progress.past.len()))];
        let mut answers = progress.past.into_iter();
        while answers.len() >= self.round.questions {
            let answered: Vec<Past> = answers.by_ref().take(self.round.questions).collect();
            self.past.extend_from_slice(&answered);
            let looks = Past::looks(&answered);
            let heard = self.heard_before + self.round.plies();
            if !self.turn(heard, self.looks_before.saturating_add(looks)) {
                self.finish(Output::Finished { result: None }, &mut outputs);
                return outputs;
            }
        }
        let rest: Vec<Past> = answers.collect();
        self.past.extend_from_slice(&rest);
        let mut said = self.round.replay.resume(Progress {
            past: rest,
            heard: progress.heard.saturating_sub(self.heard_before),
            looks: progress.looks.saturating_sub(self.looks_before),
        });
        // The trail alone would leave a gap between the men and what is read next.
        said.retain(|output| !matches!(output, Output::Again(_)));
        outputs.push(self.men());
        let heard = self.round.replay.all_heard();
        if !heard.is_empty() {
            outputs.push(Output::Again(heard.to_vec()));
        }
        self.pass_on(said, &mut outputs);
        outputs
    }

    /// Reads the men of the round out and, where no ply follows, asks at once.
    fn open(&mut self, outputs: &mut Vec<Output>) {
        outputs.push(self.men());
        let said = self.round.replay.begin();
        self.pass_on(said, outputs);
    }

    /// Turns to the next round, where there is something left to ask, after so many plies and looks.
    fn turn(&mut self, heard: usize, looks: u32) -> bool {
        let (number, asked) = (self.round.number + 1, self.past.len());
        let next = first_round(&self.settings, &self.lines, number, asked, looks);
        let Some(round) = next else { return false };
        self.round = round.with_think_times(self.think.clone());
        self.begun.push(asked);
        self.heard_before = heard;
        self.looks_before = looks;
        true
    }

    /// Passes on what the round's replay says, but for its own first and last words.
    fn pass_on(&mut self, said: Vec<Output>, outputs: &mut Vec<Output>) {
        for output in said {
            match output.into() {
                // That the round is over is seen when the next one is to begin.
                OfRound::Aside | OfRound::Finished => {}
                OfRound::Ask(ask) => outputs.push(Output::Ask(self.counted(ask))),
                OfRound::AskAgain(ask) => outputs.push(Output::AskAgain(self.counted(ask))),
                OfRound::Answered(answered) => {
                    self.past.push(Past::from(&*answered));
                    outputs.push(Output::Answered(answered));
                }
                OfRound::Stopped => self.finish(Output::Stopped, outputs),
                // What is heard again where no ply was heard is the position itself.
                OfRound::PassedOn(Output::Help { form, look, .. }) => outputs.push(Output::Help {
                    form,
                    again: true,
                    look,
                }),
                OfRound::PassedOn(output) => outputs.push(output),
            }
        }
    }

    /// Counts the questions through all rounds.
    fn counted(&self, mut ask: Ask) -> Ask {
        ask.number = self.past.len() + 1;
        ask.of = self.settings.count();
        ask
    }

    fn opening(&self, resumed: Option<usize>) -> Output {
        Output::FewOpening(FewOpening {
            questions: self.settings.count(),
            resumed,
            plies: self.settings.plies,
        })
    }

    fn men(&self) -> Output {
        Output::Men(Box::new(Men {
            round: self.begun.len(),
            start: self.round.start().clone(),
            plies: self.round.plies(),
        }))
    }

    fn finish(&mut self, last_word: Output, outputs: &mut Vec<Output>) {
        self.over = true;
        let finished = last_word.is_end();
        outputs.push(last_word);
        outputs.push(Output::FewSummary(Box::new(self.summary(finished))));
    }

    fn summary(&self, finished: bool) -> FewSummary {
        let rounds = RoundsSummary::new(&self.past, &self.begun);
        let position = self.round.replay.position();
        FewSummary {
            kinds: KindCount::all(&self.past),
            rounds: rounds.asked,
            held: rounds.held,
            heard: self.heard(),
            looks: self.looks(),
            late: self.past.iter().filter(|past| past.late).count(),
            board: finished.then(|| (position.board().clone(), position.turn())),
        }
    }
}

impl Session for Few {
    fn awaits(&self) -> Awaits {
        if self.over {
            Awaits::Nothing
        } else {
            self.round.replay.awaits()
        }
    }

    fn heard(&self) -> usize {
        self.heard_before + self.round.replay.heard()
    }

    fn looks(&self) -> u32 {
        self.looks_before.saturating_add(self.round.replay.looks())
    }

    fn trail(&self) -> &[Ply] {
        self.round.replay.trail()
    }

    // `again` says what was read last: the men where no ply of the round has been heard yet.
    fn hear(&mut self, input: Input) -> Vec<Output> {
        if self.over {
            return Vec::new();
        }
        if input == Input::Again && self.round.replay.heard() == 0 {
            return vec![self.men()];
        }
        let mut outputs = Vec::new();
        let said = self.round.replay.hear(input);
        self.pass_on(said, &mut outputs);
        if !self.over && self.round.replay.awaits() == Awaits::Nothing {
            if self.turn(self.heard(), self.looks()) {
                self.open(&mut outputs);
            } else {
                self.finish(Output::Finished { result: None }, &mut outputs);
            }
        }
        outputs
    }
}

/// The first round from `number` on that has a question; `None` where all have been asked.
fn first_round(
    settings: &FewSettings,
    lines: &[Line],
    number: usize,
    asked: usize,
    looks: u32,
) -> Option<Round> {
    let left = settings.count() - asked;
    (number..number + EMPTY_ROUNDS)
        .take_while(|_| left > 0)
        .map(|number| Round::new(settings, lines, number, left, looks))
        .find(|round| round.questions > 0)
}
