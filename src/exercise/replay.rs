//! The main job: a game is read aloud, the board hidden, and checkpoints ask.

use std::collections::{HashMap, VecDeque};
use std::rc::Rc;

use serde::{Deserialize, Serialize};

use super::asking::Asking;
use super::beside::Beside;
use super::bound::{self, Every, Looks, Millis, Trail};
use super::checkpoints::{Checkpoints, main_stops};
use super::over_game::{GameOpening, OverGame};
use super::past::{Past, Place};
use super::round::{Questions, choose, read_on};
use super::script::{Passage, Script};
use super::settings::{By, PlanError};
use super::staircase::Staircase;
use super::step::{Ending, Exercise, KindTimes, Rules, Step};
use crate::game::{Line, MoveNumber, Ply};
use crate::question::{Dice, Kind, LineQuestion, Scene, Truth};

/// How a replay is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settings {
    /// How much is read in one go.
    pub by: By,
    /// Where checkpoints are made.
    pub checkpoints: Checkpoints,
    /// The kinds of question that may be asked.
    pub ask: Vec<Kind>,
    /// How many questions each checkpoint has.
    pub questions: bound::Questions,
    /// How many plies `again` says again, and how many stay readable.
    pub trail: Trail,
    /// The think time in milliseconds; replies after it are marked late.
    pub think_millis: Option<Millis>,
    /// How many looks at the board the learner may take; `None` for any number.
    pub looks: Option<Looks>,
    /// The seed of all choices.
    pub seed: u64,
    /// Whether the think times follow the learner, and the checkpoints, which come closer than that where they are
    /// missed, and as far again where they hold.
    #[serde(default)]
    pub follow: bool,
}

impl Settings {
    /// Chooses the questions of a place, each time otherwise.
    fn choose(&self, scene: Scene<'_>, strict: bool, go: u64) -> Vec<LineQuestion> {
        let mut dice = Dice::new(self.seed, go << 32 | scene.plies() as u64);
        let count = self.questions.size();
        choose(scene, None, strict, &self.ask, count, &mut dice)
    }

    /// Tells whether a place of a line holds something to ask.
    fn asks(&self, line: &Line, plies: usize, strict: bool) -> bool {
        !self.choose(Scene::new(line, plies), strict, 0).is_empty()
    }

    /// The plies of a line after which checkpoints are made, in order: those that hold something worth asking, and at
    /// the end what is hardly so where nothing else is. Where none of them does, some place that does has one too,
    /// so that a rare kind is asked where the game has it.
    pub(crate) fn stops(&self, line: &Line) -> Vec<usize> {
        let mut stops = main_stops(line.len(), &self.checkpoints);
        if matches!(self.checkpoints, Checkpoints::At(_)) {
            return stops;
        }
        let holds = |plies: &usize| self.asks(line, *plies, true);
        let last = stops.pop();
        stops.retain(holds);
        if stops.is_empty() && !last.as_ref().is_some_and(holds) {
            // By chance, or what is so at the beginning would be asked in every game.
            let mut places: Vec<usize> = (1..line.len()).collect();
            Dice::new(self.seed, 0).shuffle(&mut places);
            stops.extend(places.into_iter().find(holds));
        }
        let strict = !stops.is_empty();
        stops.extend(last.filter(|plies| self.asks(line, *plies, strict)));
        stops
    }
}

/// So often questions are drawn anew where one of them has been answered by the last checkpoint.
const GOES: u64 = 16;

/// Checkpoints that follow a learner never come closer than after so many plies, or half of what the settings say: a
/// question after every move teaches less than a stretch that is short enough to be held.
const CLOSEST: u32 = 4;

/// Where a replay leaves a line for another, and what is told on the way.
#[derive(Clone, Debug)]
pub enum Turn {
    /// A sideline begins.
    SidelineBegins {
        /// The ply of the game that it replaces.
        instead_of: Ply,
        /// How many plies it has.
        plies: usize,
    },
    /// The sideline is over; the game goes on after this ply.
    SidelineEnds(Ply),
    /// A comment stands here.
    Comment(String),
}

/// How long the picture held in a replay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReplaySummary {
    /// The last move before the first checkpoint at which a reply was not right, or only with a look or other help.
    pub first_miss: Option<MoveNumber>,
    /// The most plies heard in a row, up to a checkpoint, without a miss or a look.
    pub longest_run: usize,
}

/// The reading of a game with its checkpoints.
#[derive(Debug)]
pub struct Replay {
    plan: OverGame<Settings>,
    /// How many checkpoints there are.
    checkpoints: usize,
    legs: VecDeque<Leg>,
    /// How far the reading has come.
    place: Place,
    /// The plies played at the end of this leg.
    read_to: usize,
    /// How many checkpoints have been opened.
    opened: usize,
    questions: Questions,
    /// Whether any checkpoint had a question.
    asked: bool,
    /// What the last checkpoint told, of the kinds whose answers vary by themselves.
    told: Vec<(LineQuestion, Truth)>,
}

/// A leg of the way through a script.
#[derive(Clone, Copy, Debug)]
enum Leg {
    /// Another line is turned to: a sideline begins or ends.
    Turn(Passage),
    /// The line is read until so many of its plies are played.
    ReadTo(usize),
    /// A checkpoint asks, on this line.
    Checkpoint(usize),
    /// What stands at this place beside the moves is told, or asked without being graded.
    Beside(usize),
}

impl Replay {
    /// Chooses the questions of the next checkpoint, which is here. Where the game holds nothing that is worth asking,
    /// the last one asks what is hardly so. Where a coach asks, it asks that alone.
    fn open_checkpoint(&mut self, line: usize) {
        self.opened += 1;
        let is_last = self.opened == self.checkpoints;
        let may_be_loose = match self.plan.settings.checkpoints {
            Checkpoints::Every(_) => self.place.plies == self.place.line.len(),
            Checkpoints::At(_) => true,
        };
        let strict = self.asked || !(is_last && may_be_loose);
        let mut questions = self.plan.script.asked((line, self.place.plies));
        if questions.is_empty() {
            questions = self.fresh(strict);
        }
        self.asked |= !questions.is_empty();
        let scene = self.place.scene();
        let told = questions.iter().filter(|asked| asked.is_varied());
        self.told = told.map(|asked| (*asked, asked.truth(scene))).collect();
        self.questions = Questions::new(questions);
    }

    /// Chooses questions here, others where the answer of one has just been told by the last checkpoint.
    fn fresh(&self, strict: bool) -> Vec<LineQuestion> {
        let (settings, scene) = (&self.plan.settings, self.place.scene());
        let is_fresh = |asked: &LineQuestion| !self.told.contains(&(*asked, asked.truth(scene)));
        let mut goes = (0..GOES).map(|go| settings.choose(scene, strict, go));
        let all_fresh = goes.find(|questions| questions.iter().all(is_fresh));
        all_fresh.unwrap_or_else(|| {
            let mut questions = settings.choose(scene, strict, 0);
            questions.retain(is_fresh);
            questions
        })
    }

    /// Lays out the way to the next checkpoint, where they follow the learner: as the plies of `ahead` do, and
    /// never farther than the settings say.
    fn next_stop(&mut self, past: &Past) -> Option<[Leg; 2]> {
        let most = self.plan.spacing()?;
        let (here, end) = (self.place.plies, self.place.line.len());
        let mut spacing = Staircase::at(most);
        for answered in &past.answers {
            let stretch = answered.hardness.and_then(|hardness| hardness.stretch);
            spacing.hear(stretch.unwrap_or(most), answered.is_right());
            spacing = spacing.at_most(most);
        }
        let closest = spacing.presented().max(CLOSEST.min(most / 2));
        let every = Checkpoints::Every(Every::nearest(closest as usize));
        let stops = main_stops(end - here, &every);
        self.checkpoints = self.opened + stops.len();
        let stop = here + stops.first().filter(|_| here < end)?;
        Some([Leg::ReadTo(stop), Leg::Checkpoint(0)])
    }

    /// Turns to a passage of another line, and tells so.
    fn turn_to(&mut self, passage: Passage) -> Step<Turn> {
        let line = Rc::new(self.play(passage.line));
        let told = if let Some(parent) = passage.leaves {
            Turn::SidelineBegins {
                instead_of: self.play(parent).plies()[passage.from],
                plies: line.len() - passage.from,
            }
        } else {
            Turn::SidelineEnds(line.plies()[passage.from - 1])
        };
        self.place = Place::new(line, passage.from);
        self.read_to = passage.from;
        Step::Tell { told, to: None }
    }

    fn play(&self, line: usize) -> Line {
        let line = self.plan.script.line(line);
        line.expect("every line was played through when the replay was made")
    }
}

impl Exercise for Replay {
    type Plan = OverGame<Settings>;
    type Opening = GameOpening;
    type Told = Turn;
    type Summary = ReplaySummary;

    fn new(plan: OverGame<Settings>) -> Result<Replay, PlanError> {
        let script = &plan.script;
        script.check()?;
        let main_stops = plan.settings.stops(&script.line(0)?);
        let mut legs = VecDeque::from(legs(script, &plan.settings.checkpoints, &main_stops));
        let is_checkpoint = |leg: &&Leg| matches!(leg, Leg::Checkpoint(_));
        let checkpoints = legs.iter().filter(is_checkpoint).count();
        if plan.spacing().is_some() {
            legs.clear();
        }
        let first = script.passages[0];
        Ok(Replay {
            checkpoints,
            place: Place::new(Rc::new(script.line(first.line)?), first.from),
            plan,
            legs,
            read_to: first.from,
            opened: 0,
            questions: Questions::default(),
            asked: false,
            told: Vec::new(),
        })
    }

    fn script(plan: &OverGame<Settings>) -> Option<&Script> {
        Some(&plan.script)
    }

    fn rules(&self) -> Rules {
        Rules {
            trail: self.plan.settings.trail.size(),
            kind_times: KindTimes::Wished.following(self.plan.settings.follow),
            think_millis: self.plan.settings.think_millis,
            looks: self.plan.settings.looks,
        }
    }

    fn opening(&self, _: &Past, again: bool) -> GameOpening {
        let checkpoints = self.plan.spacing().is_none().then_some(self.checkpoints);
        self.plan.opening(&self.play(0), checkpoints, again)
    }

    fn next(&mut self, past: &Past) -> Step<Turn> {
        loop {
            if let Some((question, count)) = self.questions.next() {
                let of = self.plan.spacing().is_none().then_some(self.checkpoints);
                let checkpoint = (self.opened, of);
                let place = self.place.clone();
                return Step::ask(Asking::over(question, place, Some(checkpoint), count));
            }
            if let Some(step) = read_on(&mut self.place, self.plan.settings.by, self.read_to) {
                return step;
            }
            if self.legs.is_empty() {
                let stop = self.next_stop(past);
                self.legs.extend(stop.into_iter().flatten());
            }
            match self.legs.pop_front() {
                Some(Leg::Turn(passage)) => return self.turn_to(passage),
                Some(Leg::ReadTo(plies)) => self.read_to = plies,
                Some(Leg::Checkpoint(line)) => self.open_checkpoint(line),
                Some(Leg::Beside(place)) => match &self.plan.script.remarks[place].what {
                    Beside::Ask(_) => {}
                    Beside::Open(question) => return Step::AskOpen(question.clone()),
                    Beside::Comment(comment) => {
                        let told = Turn::Comment(comment.clone());
                        return Step::Tell { told, to: None };
                    }
                },
                None => return Step::End(Ending::Read(self.plan.result)),
            }
        }
    }

    fn summary(&self, past: &Past) -> ReplaySummary {
        ReplaySummary {
            first_miss: past.first_miss,
            longest_run: past.runs.longest(),
        }
    }
}

impl OverGame<Settings> {
    /// The plies between checkpoints that follow the learner; `None` where they stand fast. They follow in the
    /// game alone, without its sidelines or anything that stands beside the moves.
    fn spacing(&self) -> Option<u32> {
        let script = &self.script;
        let is_alone = script.passages.len() == 1 && script.remarks.is_empty();
        let follows = self.settings.follow && is_alone;
        match &self.settings.checkpoints {
            Checkpoints::Every(every) if follows => Some(every.get()),
            Checkpoints::Every(_) | Checkpoints::At(_) => None,
        }
    }
}

/// Lays out the way through a script with its checkpoints.
fn legs(script: &Script, checkpoints: &Checkpoints, main_stops: &[usize]) -> Vec<Leg> {
    let passages = &script.passages;
    let last_of_line: HashMap<usize, usize> = passages
        .iter()
        .enumerate()
        .map(|(number, passage)| (passage.line, number))
        .collect();
    let mut legs = Vec::new();
    for (number, passage) in passages.iter().enumerate() {
        let before = number.checked_sub(1).map(|before| passages[before].line);
        if before.is_some_and(|line| line != passage.line) {
            legs.push(Leg::Turn(*passage));
        }
        // A passage that reads nothing is the start alone, and is asked about there.
        let first = (passage.from + 1).min(passage.to);
        let asks = |plies: &usize| match checkpoints {
            _ if passage.line == 0 => main_stops.contains(plies),
            Checkpoints::Every(_) => {
                *plies == passage.to && last_of_line.get(&passage.line) == Some(&number)
            }
            Checkpoints::At(_) => false,
        };
        let begins = number == 0 || passage.leaves.is_some();
        let from = if begins { passage.from } else { first };
        for stop in from..=passage.to {
            let at = (passage.line, stop);
            let is_own = !script.asked(at).is_empty();
            let asks = is_own || stop >= first && asks(&stop);
            let beside = script.beside(at);
            let beside = beside.filter(|(_, what)| !matches!(what, Beside::Ask(_)));
            let checkpoint = asks.then_some(Leg::Checkpoint(passage.line));
            let here = checkpoint
                .into_iter()
                .chain(beside.map(|(place, _)| Leg::Beside(place)));
            let here: Vec<Leg> = here.collect();
            if !here.is_empty() {
                legs.push(Leg::ReadTo(stop));
                legs.extend(here);
            }
        }
        legs.push(Leg::ReadTo(passage.to));
    }
    legs
}
