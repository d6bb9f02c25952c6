//! Calculation: from a position shown, some plies are read on, then questions are asked about their end.

mod round;
mod settings;
mod stretch;

use shakmaty::Position;

use super::of_round::OfRound;
use super::output::{AheadOpening, Output, Shown};
use super::replay::Progress;
use super::staircase::Staircase;
use super::summary::{AheadSummary, KindCount, Past, RoundsSummary};
use super::{Awaits, Input, Session, ThinkTimes};
use crate::game::Ply;
use round::{Before, Round};
use stretch::{Strand, Stretch};

pub use settings::{AheadError, AheadSettings, Show};

/// A session of calculation in progress.
///
/// It is driven as a [`Replay`](super::Replay) is: by [`Ahead::begin`] or [`Ahead::resume`] once, and then
/// by [`Session::hear`] for as long as [`Session::awaits`] says that it awaits something. How many plies
/// the next round has follows from every answer before it, unless the settings say how many.
#[derive(Debug)]
pub struct Ahead {
    settings: AheadSettings,
    strands: Vec<Strand>,
    staircase: Staircase,
    round: Round,
    /// The stretch of every round begun, this one included.
    used: Vec<Stretch>,
    past: Vec<Past>,
    /// For each round begun, how many questions had been answered before.
    begun: Vec<usize>,
    /// Plies heard and looks taken in the rounds before this one.
    heard_before: usize,
    looks_before: u32,
    think: ThinkTimes,
    over: bool,
}

impl Ahead {
    /// Prepares a session.
    ///
    /// # Errors
    ///
    /// [`AheadError`] when no such session can be held.
    pub fn new(settings: AheadSettings) -> Result<Ahead, AheadError> {
        if settings.kinds().is_empty() {
            return Err(AheadError::NothingToAsk);
        }
        let strands = Strand::all(&settings.games)?;
        let shown = settings.show != Show::None;
        let longest = strands.iter().map(|strand| strand.longest(shown)).max();
        let longest = longest.filter(|longest| *longest > 0);
        let longest = longest.ok_or(AheadError::NoPlies)?;
        if let Some(asked) = settings.plies.filter(|plies| *plies > longest) {
            return Err(AheadError::TooShort { asked, longest });
        }
        let before = Before {
            used: &[],
            looks: 0,
            plies: plies(&settings, settings.staircase),
            seen_at: None,
        };
        let round = Round::next(&settings, &strands, before).ok_or(AheadError::NothingToAsk)?;
        Ok(Ahead {
            staircase: settings.staircase,
            used: vec![round.stretch],
            settings,
            strands,
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
    pub fn with_think_times(mut self, think: ThinkTimes) -> Ahead {
        self.round = self.round.with_think_times(think.clone());
        self.think = think;
        self
    }

    /// Begins: tells what will be asked, and gives the first position.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(None)];
        self.open(&mut outputs);
        outputs
    }

    /// Goes on where an earlier session of the same settings had stopped, with the same questions
    /// still to come. The position and all plies of the round are given again.
    pub fn resume(&mut self, progress: Progress) -> Vec<Output> {
        let mut answers = progress.past.into_iter();
        while answers.len() >= self.round.questions {
            let answered: Vec<Past> = answers.by_ref().take(self.round.questions).collect();
            let looks = Past::looks(&answered);
            let seen = self.seen_at(&answered);
            for past in answered {
                self.note(past);
            }
            let heard = self.heard_before + self.round.plies;
            if !self.turn(heard, self.looks_before.saturating_add(looks), seen) {
                let mut outputs = vec![self.opening(Some(self.begun.len()))];
                self.finish(Output::Finished { result: None }, &mut outputs);
                return outputs;
            }
        }
        let rest: Vec<Past> = answers.collect();
        for past in &rest {
            self.note(*past);
        }
        let heard = progress.heard.saturating_sub(self.heard_before);
        let mut said = self.round.replay.resume(Progress {
            past: rest,
            heard: self.round.begins.saturating_add(heard),
            looks: progress.looks.saturating_sub(self.looks_before),
        });
        said.retain(|output| !matches!(output, Output::Again(_)));
        let mut outputs = vec![self.opening(Some(self.begun.len() - 1)), self.shown()];
        let heard = self.round.replay.all_heard();
        if !heard.is_empty() {
            outputs.push(Output::Again(heard.to_vec()));
        }
        self.pass_on(said, &mut outputs);
        outputs
    }

    /// The plies after which the board was last seen in a round of an earlier sitting.
    fn seen_at(&self, answered: &[Past]) -> Option<usize> {
        let end = self.round.begins + self.round.plies;
        let plies = answered.last()?.plies?;
        Some(end.saturating_sub(plies as usize))
    }

    /// Gives the position of the round.
    fn open(&mut self, outputs: &mut Vec<Output>) {
        outputs.push(self.shown());
        let begins = self.round.begins;
        let said = if begins == 0 {
            self.round.replay.begin()
        } else {
            let mut said = self.round.replay.resume(Progress {
                heard: begins,
                ..Progress::default()
            });
            said.retain(|output| !matches!(output, Output::Again(_)));
            said
        };
        self.pass_on(said, outputs);
    }

    /// Turns to the next round, where there is something left to ask, after so many plies and looks.
    fn turn(&mut self, heard: usize, looks: u32, seen_at: Option<usize>) -> bool {
        let before = Before {
            used: &self.used,
            looks,
            plies: plies(&self.settings, self.staircase),
            seen_at,
        };
        let Some(round) = Round::next(&self.settings, &self.strands, before) else {
            return false;
        };
        self.used.push(round.stretch);
        self.round = round.with_think_times(self.think.clone());
        self.begun.push(self.past.len());
        self.heard_before = heard;
        self.looks_before = looks;
        true
    }

    fn note(&mut self, past: Past) {
        // Where the position itself was in sight, the answer says nothing of how far one sees.
        if let Some(plies) = past.plies.filter(|plies| *plies > 0) {
            self.staircase.hear(plies, past.is_right());
        }
        self.past.push(past);
    }

    /// Passes on what the round's replay says, but for its own first and last words.
    fn pass_on(&mut self, said: Vec<Output>, outputs: &mut Vec<Output>) {
        for output in said {
            match output.into() {
                OfRound::Aside => {}
                OfRound::Ask(ask) => outputs.push(Output::Ask(ask)),
                OfRound::AskAgain(ask) => outputs.push(Output::AskAgain(ask)),
                OfRound::Answered(answered) => {
                    self.note(Past::from(&*answered));
                    outputs.push(Output::Answered(answered));
                }
                OfRound::Finished => {
                    let (heard, looks) = (self.heard(), self.looks());
                    if self.turn(heard, looks, self.round.replay.seen_at()) {
                        self.open(outputs);
                    } else {
                        self.finish(Output::Finished { result: None }, outputs);
                    }
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

    fn opening(&self, resumed: Option<usize>) -> Output {
        Output::AheadOpening(AheadOpening {
            rounds: self.settings.rounds(),
            resumed,
            plies: self.settings.plies,
            show: self.settings.show,
        })
    }

    fn shown(&self) -> Output {
        let stretch = self.round.stretch;
        Output::Shown(Box::new(Shown {
            round: self.begun.len(),
            of: self.settings.rounds(),
            game: self.strands[stretch.strand].game,
            show: self.settings.show,
            start: self.round.start.clone(),
            heard_before: self.round.begins,
            plies: self.round.plies,
        }))
    }

    fn finish(&mut self, last_word: Output, outputs: &mut Vec<Output>) {
        self.over = true;
        let finished = last_word.is_end();
        outputs.push(last_word);
        outputs.push(Output::AheadSummary(Box::new(self.summary(finished))));
    }

    fn summary(&self, finished: bool) -> AheadSummary {
        let position = self.round.replay.position();
        AheadSummary {
            kinds: KindCount::all(&self.past),
            rounds: RoundsSummary::new(&self.past, &self.begun),
            heard: self.heard(),
            looks: self.looks(),
            late: self.past.iter().filter(|past| past.late).count(),
            next: plies(&self.settings, self.staircase),
            follows: self.settings.plies.is_none(),
            board: finished.then(|| (position.board().clone(), position.turn())),
        }
    }
}

/// How many plies the next round has, where the game has so many.
fn plies(settings: &AheadSettings, staircase: Staircase) -> usize {
    settings
        .plies
        .unwrap_or_else(|| staircase.presented() as usize)
}

impl Session for Ahead {
    fn awaits(&self) -> Awaits {
        if self.over {
            Awaits::Nothing
        } else {
            self.round.replay.awaits()
        }
    }

    fn heard(&self) -> usize {
        self.heard_before + self.round.heard()
    }

    fn looks(&self) -> u32 {
        self.looks_before.saturating_add(self.round.replay.looks())
    }

    fn trail(&self) -> &[Ply] {
        self.round.replay.trail()
    }

    // `again` gives the position where no ply of the round has been heard yet.
    fn hear(&mut self, input: Input) -> Vec<Output> {
        if self.over {
            return Vec::new();
        }
        if input == Input::Again && self.round.heard() == 0 {
            return vec![self.shown()];
        }
        let mut outputs = Vec::new();
        let said = self.round.replay.hear(input);
        self.pass_on(said, &mut outputs);
        outputs
    }
}
