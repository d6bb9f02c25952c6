//! Drills over the bare board: question after question, and what was missed or slow comes again.

mod settings;
mod summary;

use std::collections::VecDeque;

use super::answers::Answered;
use super::asking::{Asking, Coordinates};
use super::past::Past;
use super::settings::PlanError;
use super::step::{Begun, Ending, Exercise, KindTimes, Rules, Step};
use crate::question::{BareChoice, BareQuestion, Dice, Kind, Question};

pub use settings::DrillSettings;
pub use summary::{Advice, DrillSummary};

/// A question that was missed or slow comes again after so many others.
const OTHERS: usize = 3;
/// A question comes again so many times at most.
const RETURNS: usize = 2;
/// A question that is drawn does not come again within so many draws.
const APART: usize = 4;
/// What the dice are rolled for when examples are drawn.
const EXAMPLES: u64 = 1;
/// How often a draw is tried again when it does not fit.
const TRIES: usize = 64;

/// So many questions are taught over one quarter of the board: as many on a board with letters and numbers
/// as on one without them, and as on a blank one.
pub const TAUGHT_AT_ONCE: usize = 12;

/// A question of a kind that is about to be taught: its rule comes first, then the question with its answer
/// and the reason.
#[derive(Clone, Copy, Debug)]
pub struct Example(pub BareQuestion);

/// A drill of the bare board.
#[derive(Debug)]
pub struct Drill {
    settings: DrillSettings,
    /// The questions that have not been put yet, in order.
    fresh: VecDeque<BareQuestion>,
    /// The questions that will come again, and the number of answers after which they do.
    due: VecDeque<(usize, BareQuestion)>,
    /// What is still to be told before the first question.
    told: VecDeque<Example>,
}

impl Drill {
    /// Lets a question that was missed or slow come again after a few others.
    fn look_at(&mut self, answers: &[Answered]) {
        let Some(last) = answers.last() else { return };
        let Question::Bare(question) = last.question else {
            return;
        };
        let before = answers[..answers.len() - 1].iter();
        let put = before.filter(|answered| answered.question == last.question);
        if summary::is_shaky(last) && put.count() < RETURNS {
            self.due.push_back((answers.len() + OTHERS, question));
        }
    }

    /// Takes the question that comes now: one that is due again, or a fresh one.
    fn next_question(&mut self, answered: usize) -> Option<BareQuestion> {
        let is_due = |(after, _): &(usize, BareQuestion)| *after <= answered;
        if answered >= self.settings.count.size() {
            None
        } else if self.due.front().is_some_and(is_due) {
            self.due.pop_front().map(|(_, question)| question)
        } else {
            self.fresh.pop_front()
        }
    }
}

impl DrillSettings {
    /// Tells whether what is missed or slow can come again before the end.
    pub const fn returns(&self) -> bool {
        self.count.size() > OTHERS + 1
    }
}

impl Exercise for Drill {
    type Plan = DrillSettings;
    type Opening = Begun<DrillSettings>;
    type Told = Example;
    type Summary = DrillSummary;

    fn new(settings: DrillSettings) -> Result<Drill, PlanError> {
        Ok(Drill {
            fresh: deal(&settings, settings.count.size()).into(),
            told: if settings.teach {
                teaching(&settings)
            } else {
                VecDeque::new()
            },
            settings,
            due: VecDeque::new(),
        })
    }

    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            kind_times: KindTimes::Usual.following(self.settings.follow),
            ..Rules::default()
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Begun<DrillSettings> {
        Begun::new(&self.settings, again.then_some(past.answers.len()))
    }

    fn next(&mut self, past: &Past) -> Step<Example> {
        if let Some(told) = self.told.pop_front() {
            return Step::Tell { told, to: None };
        }
        // On paper, where no verdict comes between two questions, and of what is taught nothing comes again.
        let returns = !(past.on_paper || self.settings.teach);
        if returns {
            self.look_at(&past.answers);
        }
        let answered = past.answers.len();
        let Some(question) = self.next_question(answered) else {
            return Step::End(Ending::Asked);
        };
        let repeat = returns && summary::is_repeat(&past.answers, question);
        let count = (answered + 1, self.settings.count.size());
        if self.settings.teach {
            return Step::ask(Asking::taught(question, count, shown(answered)));
        }
        Step::ask(Asking::bare(question, count, repeat))
    }

    fn summary(&self, past: &Past) -> DrillSummary {
        DrillSummary::new(&self.settings, &past.answers)
    }
}

/// How much of the board is shown with a question that is taught.
const fn shown(number: usize) -> Coordinates {
    match number % TAUGHT_AT_ONCE / (TAUGHT_AT_ONCE / 3) {
        0 => Coordinates::Named,
        1 => Coordinates::Edges,
        _ => Coordinates::Blank,
    }
}

/// For each kind an example that is no question of this run.
fn teaching(settings: &DrillSettings) -> VecDeque<Example> {
    let example = |kind: &Kind| {
        let alone = DrillSettings {
            kinds: vec![*kind],
            chosen: Vec::new(),
            seed: Dice::new(settings.seed, EXAMPLES).own_seed(),
            ..settings.clone()
        };
        let drawn = deal(&alone, TRIES).into_iter();
        drawn
            .map(Example)
            .find(|Example(drawn)| !settings.chosen.contains(drawn))
    };
    settings.kinds.iter().filter_map(example).collect()
}

/// Draws so many questions for a whole run: those that were chosen first, and then the kinds take turns in
/// random order; about one question in three is one that was weak before, where there is such a one of
/// its kind.
pub fn deal(settings: &DrillSettings, count: usize) -> Vec<BareQuestion> {
    let mut dice = Dice::new(settings.seed, 0);
    let mut choice = BareChoice {
        view: settings.view,
        pieces: &settings.pieces,
        blockers: settings.blockers.size(),
        dice: &mut dice,
    };
    let mut turns: Vec<Kind> = Vec::new();
    let mut deck: Vec<BareQuestion> = settings.chosen.clone();
    deck.truncate(count);
    while deck.len() < count {
        if turns.is_empty() {
            // Those over a position are passed over, as elsewhere those over the bare board.
            let kinds = settings.kinds.iter();
            turns.extend(kinds.filter(|kind| Kind::BARE.contains(kind)));
            choice.dice.shuffle(&mut turns);
        }
        let Some(kind) = turns.pop() else { break };
        let lately = deck.len().saturating_sub(APART);
        let mut draw = || draw(kind, &settings.weak, &mut choice);
        let Some(mut question) = draw() else { continue };
        for _ in 0..TRIES {
            if !deck[lately..].contains(&question) {
                break;
            }
            question = draw().unwrap_or(question);
        }
        deck.push(question);
    }
    deck
}

fn draw(kind: Kind, weak: &[BareQuestion], choice: &mut BareChoice<'_>) -> Option<BareQuestion> {
    if choice.dice.chance(1, 3) {
        let weak = weak.iter().copied();
        let weak: Vec<BareQuestion> = weak.filter(|question| question.kind() == kind).collect();
        if let Some(question) = choice.dice.pick(&weak) {
            return Some(*question);
        }
    }
    BareQuestion::draw(kind, choice)
}
