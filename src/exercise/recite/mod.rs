//! A game is said from memory, move by move.

mod said;
mod settings;
mod slip;
mod station;
mod summary;
mod trying;

use super::chronicle::Chronicle;
use super::output::{Ask, Asked, Checkpoint, Opening, Output, Stand};
use super::script::{Script, ScriptError};
use super::{Awaits, Input, Session};
use crate::game::{GameResult, Line, Ply, Tags};
use crate::question::{Form, LineQuestion, Played, Rebuild, Scene};
use station::{Station, stations};

pub use said::{Elsewhere, Missed, Recital, Slip, Tries};
pub use settings::{ReciteSettings, Sides};
pub use summary::{MixUp, RecitePast, ReciteSummary};

/// How many plies `again` says again.
const TRAIL: usize = 2;

/// A recital in progress.
///
/// It is driven by [`Recite::begin`] or [`Recite::resume`] once, and then by [`Session::hear`] for as
/// long as [`Session::awaits`] says that it awaits something.
#[derive(Debug)]
pub struct Recite {
    line: Line,
    settings: ReciteSettings,
    tags: Tags,
    result: Option<GameResult>,
    stations: Vec<Station>,
    /// Which station is next, or stands.
    at: usize,
    tries: Tries,
    /// Milliseconds that wrong tries at this move took.
    spent: u64,
    answers: Vec<(Option<usize>, RecitePast)>,
    chronicle: Chronicle,
    over: bool,
}

impl Recite {
    /// Prepares a recital of a script's main line; the tags are told at the beginning, the result at
    /// the end.
    ///
    /// # Errors
    ///
    /// [`ScriptError`] when the line cannot be played.
    pub fn new(
        script: &Script,
        settings: ReciteSettings,
        tags: Tags,
        result: Option<GameResult>,
    ) -> Result<Recite, ScriptError> {
        let line = script.line(0)?;
        Ok(Recite {
            stations: stations(&line, &settings),
            line,
            settings,
            tags,
            result,
            at: 0,
            tries: Tries::default(),
            spent: 0,
            answers: Vec::new(),
            chronicle: Chronicle::default(),
            over: false,
        })
    }

    /// Begins: tells what will be recited, and asks for the first move.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(false)];
        self.go_on(&mut outputs);
        outputs
    }

    /// Goes on after these answers of an earlier session of the same script and settings, in which so
    /// many looks were taken. A move at which the session stopped after a wrong try is asked anew.
    pub fn resume(&mut self, past: Vec<RecitePast>, looks: u32) -> Vec<Output> {
        for answer in past {
            while let Some(Station::ReadOut(_)) = self.station() {
                self.at += 1;
            }
            if self.station().is_none() {
                break;
            }
            self.note(answer);
            self.at += 1;
        }
        self.chronicle.account_for(looks, self.heard());
        let mut outputs = vec![self.opening(true)];
        if !self.trail().is_empty() {
            outputs.push(Output::Again(self.trail().to_vec()));
        }
        self.go_on(&mut outputs);
        outputs
    }

    fn opening(&self, resumed: bool) -> Output {
        let places = |station: &&Station| matches!(station, Station::Place(..));
        Output::Recite(Recital::Opening {
            of: Box::new(Opening {
                tags: self.tags.clone(),
                start: self.line.start().clone(),
                first: self.line.plies().first().map(|ply| ply.number),
                plies: self.line.len(),
                checkpoints: self.stations.iter().filter(places).count(),
                resumed,
            }),
            sides: self.settings.sides,
        })
    }

    fn station(&self) -> Option<Station> {
        self.stations.get(self.at).copied()
    }

    /// Reads the other side's moves out until something is asked, or ends.
    fn go_on(&mut self, outputs: &mut Vec<Output>) {
        self.tries = Tries::default();
        self.spent = 0;
        while let Some(Station::ReadOut(ply)) = self.station() {
            let ply = self.line.plies()[ply];
            outputs.push(Output::Recite(Recital::ReadOut(ply)));
            self.at += 1;
        }
        if let Some(ask) = self.ask() {
            outputs.push(ask);
        } else {
            let result = self.result;
            self.finish(Output::Finished { result }, outputs);
        }
    }

    /// The question that stands.
    fn ask(&self) -> Option<Output> {
        match self.station()? {
            Station::ReadOut(_) => None,
            Station::Say(ply) => Some(Output::Recite(Recital::Say {
                number: self.line.plies()[ply].number,
                once_more: !self.tries.said.is_empty(),
                place: said(&self.stations[..=self.at]),
                of: said(&self.stations),
            })),
            Station::Place(plies, number) => Some(Output::Ask(self.place(plies, number))),
        }
    }

    fn ask_again(&self) -> Option<Output> {
        match self.ask()? {
            Output::Ask(ask) => Some(Output::AskAgain(ask)),
            other => Some(other),
        }
    }

    fn place(&self, plies: usize, number: usize) -> Ask {
        let places = |station: &&Station| matches!(station, Station::Place(..));
        let stand = Stand {
            checkpoint: Some(Checkpoint {
                number,
                of: self.stations.iter().filter(places).count(),
            }),
            turn: slip::turn(&self.line, plies),
            man: None,
            chess960: self.line.start().mode().is_chess960(),
        };
        Ask {
            asked: Asked::Line(LineQuestion::Rebuild(Rebuild {}), stand),
            number: 1,
            of: 1,
            form: Form::Placement,
        }
    }

    fn form(&self) -> Form {
        match self.station() {
            Some(Station::Place(..)) => Form::Placement,
            Some(Station::Say(_) | Station::ReadOut(_)) | None => Form::Move,
        }
    }

    /// The question that stands, in its scene. A move is asked of the line that it ends: so the journal
    /// holds all that proves it.
    fn posed(&self) -> Option<(LineQuestion, Scene<'_>)> {
        match self.station()? {
            Station::ReadOut(_) => None,
            Station::Say(ply) => {
                let question = Played::at(self.line.plies()[ply].number);
                let scene = Scene::new(&self.line, ply + 1);
                Some((LineQuestion::Played(question), scene))
            }
            Station::Place(plies, _) => {
                let scene = Scene::new(&self.line, plies);
                Some((LineQuestion::Rebuild(Rebuild {}), scene))
            }
        }
    }

    /// Keeps an answer to what stands.
    fn note(&mut self, answer: RecitePast) {
        let last = self.all_heard().last().map(|ply| ply.number);
        self.chronicle.answer(answer.past, self.heard(), last);
        let ply = match self.station() {
            Some(Station::Say(ply)) => Some(ply),
            Some(Station::ReadOut(_) | Station::Place(..)) | None => None,
        };
        self.answers.push((ply, answer));
    }

    /// Returns the plies that were said or read out.
    fn all_heard(&self) -> &[Ply] {
        &self.line.plies()[..self.heard()]
    }

    fn look(&mut self) -> Output {
        self.chronicle.look(self.heard());
        let position = self.line.position(self.heard());
        Output::Board {
            board: shakmaty::Position::board(position).clone(),
            turn: slip::turn(&self.line, self.heard()),
            looks_left: None,
        }
    }

    fn help(&self) -> Output {
        match self.station() {
            Some(Station::Say(_)) => Output::Recite(Recital::Help {
                again: !self.trail().is_empty(),
            }),
            Some(Station::Place(..) | Station::ReadOut(_)) | None => Output::Help {
                form: Some(self.form()),
                again: !self.trail().is_empty(),
                look: true,
            },
        }
    }

    fn finish(&mut self, last_word: Output, outputs: &mut Vec<Output>) {
        let (heard, looks) = (self.heard(), self.looks());
        let finished = last_word.is_end();
        let summary = summary::sum_up(&self.line, &self.answers, heard, looks, finished);
        self.over = true;
        outputs.push(last_word);
        outputs.push(Output::Recite(Recital::Summary(Box::new(summary))));
    }
}

/// Counts the moves that the learner says.
fn said(stations: &[Station]) -> usize {
    let says = |station: &&Station| matches!(station, Station::Say(_));
    stations.iter().filter(says).count()
}

impl Session for Recite {
    fn awaits(&self) -> Awaits {
        if self.over {
            Awaits::Nothing
        } else {
            Awaits::Reply
        }
    }

    fn heard(&self) -> usize {
        match self.station() {
            Some(Station::ReadOut(plies) | Station::Say(plies) | Station::Place(plies, _)) => plies,
            None => self.line.len(),
        }
    }

    fn looks(&self) -> u32 {
        self.chronicle.looks()
    }

    fn trail(&self) -> &[Ply] {
        let heard = self.all_heard();
        &heard[heard.len().saturating_sub(TRAIL)..]
    }

    fn hear(&mut self, input: Input) -> Vec<Output> {
        let mut outputs = Vec::new();
        if self.over {
            return outputs;
        }
        match input {
            Input::GoOn => outputs.push(Output::ReplyWanted(self.form())),
            Input::Reply { text, millis } => self.reply(&text, millis, &mut outputs),
            Input::Again => outputs.push(match self.trail() {
                [] => Output::NothingHeardYet,
                plies => Output::Again(plies.to_vec()),
            }),
            Input::Question => outputs.extend(self.ask_again()),
            Input::Look => {
                outputs.push(self.look());
                outputs.extend(self.ask_again());
            }
            Input::Pass { millis } => self.pass(millis, &mut outputs),
            Input::Help => outputs.push(self.help()),
            Input::Stop => self.finish(Output::Stopped, &mut outputs),
        }
        outputs
    }
}
