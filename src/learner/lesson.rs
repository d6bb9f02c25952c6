//! What today's lesson is made of: what is due, the step of the course that comes next, and a game.

use jiff::Timestamp;
use shakmaty::{Color, Square};

use super::course::{Course, CourseStep, Practice};
use super::schedule::{Memory, Recalled};
use crate::exercise::bound::{Blockers, Count};
use crate::exercise::{Dice, DrillSettings, TAUGHT_AT_ONCE, Views, deal};
use crate::question::bare::Name;
use crate::question::{BareQuestion, Kind};

/// What a lesson is planned for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LessonRequest {
    /// The time of the lesson.
    pub now: Timestamp,
    /// About how many minutes it should take.
    pub minutes: u32,
    /// The seed of all choices.
    pub seed: u64,
    /// The step that the learner wishes for; `None` for the one that comes next.
    pub step: Option<CourseStep>,
}

/// One part of a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedPart {
    /// What it is for.
    pub aim: Aim,
    /// How many questions it has; of a game, how many at each checkpoint.
    pub count: usize,
    /// The questions, where they are over the bare board.
    pub questions: Vec<BareQuestion>,
}

/// What a part of a lesson is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// What is about to be forgotten.
    Due,
    /// A step over lines that is not proven yet, or right and too slow.
    Review(CourseStep),
    /// A step is taught, before it is asked.
    Teach(CourseStep),
    /// The step of the course that comes next.
    Step(CourseStep),
    /// A game, heard to its end.
    Game,
    /// Calculation as far ahead as the learner sees, where the course is done.
    Ahead,
}

/// What is due has one part in so many of the time at most, and the step one in so many; a game has the rest.
/// Our own choice (no source).
const DUE_ONE_IN: u64 = 3;
const STEP_ONE_IN: u64 = 2;
/// So many questions of a step over the bare board that has its turn in reviews come in a lesson.
const REVIEWED_AT_ONCE: usize = 2;
/// A lesson of fewer minutes has no room for a game.
const GAME_MINUTES: u32 = 5;
/// What a verdict takes to be read, in milliseconds; our own guess.
const READING: u64 = 4_000;
/// What a question over a line takes with all that is read before it, in milliseconds; our own guess.
const OVER_A_LINE: u64 = 30_000;
/// What a question that is taught takes, in milliseconds; our own guess.
const TAUGHT: u64 = 10_000;
/// A game has about so many plies, each of which takes two seconds to be heard (our own guess); where it is no step,
/// it has a checkpoint every eight.
const PLIES: usize = 70;
const HEARING: u64 = 2_000 * PLIES as u64;
const USUAL: usize = 8;

/// Plans a lesson for a learner who stands so in the course and remembers so much.
pub fn plan(course: &Course, memory: &Memory, request: LessonRequest) -> Vec<PlannedPart> {
    let all = u64::from(request.minutes) * 60_000;
    let current = request.step.or_else(|| course.current());
    let has_game = request.minutes >= GAME_MINUTES;
    let known = memory.known(request.now);
    let due = due(&known, course, current, request, all / DUE_ONE_IN);
    let due_time: u64 = due.iter().map(|question| time(question.kind())).sum();
    let review = review(course, current, request.seed, all / DUE_ONE_IN - due_time);
    let review_time = review.as_ref().map_or(0, |part| part.count as u64) * OVER_A_LINE;
    let left = all - due_time - review_time;
    let for_step = if has_game {
        (all / STEP_ONE_IN).min(left)
    } else {
        left
    };
    let mut parts = Vec::new();
    if !due.is_empty() {
        parts.push(chosen(Aim::Due, due));
    }
    parts.extend(review);
    match current {
        Some(step) if !step.kinds().is_empty() => {
            parts.extend(bare(step, course, &known, request, for_step));
        }
        // A game has all the time that is left, and is the last part in any case.
        Some(step) if step.is_game() && has_game => {}
        Some(step) => parts.push(open(Aim::Step(step), for_step / OVER_A_LINE, 2, 40)),
        None => parts.push(open(Aim::Ahead, for_step / OVER_A_LINE, 2, 40)),
    }
    if has_game {
        let (aim, time) = match current {
            Some(step) if step.is_game() => (Aim::Step(step), left),
            Some(_) | None => (Aim::Game, left - for_step),
        };
        let every = match current.map(CourseStep::practice) {
            Some(Practice::Game(every, _)) => every.unwrap_or(PLIES),
            _ => USUAL,
        };
        let questions =
            time.saturating_sub(HEARING) / CourseStep::GamesByEight.mark().within_millis;
        parts.push(open(aim, questions / (PLIES / every).max(1) as u64, 1, 5));
    }
    parts
}

/// What a question over the bare board takes, in milliseconds.
fn time(kind: Kind) -> u64 {
    kind.think_millis() / 2 + READING
}

/// Asks a step over lines that has its turn in reviews, where what is due leaves time for two questions or more.
fn review(
    course: &Course,
    current: Option<CourseStep>,
    seed: u64,
    budget: u64,
) -> Option<PlannedPart> {
    let count = budget / OVER_A_LINE;
    let is_short = |step: CourseStep| {
        matches!(step.practice(), Practice::Few(..) | Practice::Ahead(..))
            && current != Some(step)
            && course.is_reviewed(step)
    };
    let mut steps: Vec<CourseStep> = CourseStep::ALL
        .into_iter()
        .filter(|step| is_short(*step))
        .collect();
    Dice::new(seed, REVIEWING).shuffle(&mut steps);
    let step = steps.first().filter(|_| count > 1)?;
    Some(open(Aim::Review(*step), count, 2, 40))
}

/// What is due and, a few questions each, the steps that have their turn in reviews, as much of it as
/// there is time for, mixed; what the step asks anyway is left to the step.
fn due(
    known: &[Recalled],
    course: &Course,
    step: Option<CourseStep>,
    request: LessonRequest,
    budget: u64,
) -> Vec<BareQuestion> {
    let mut left = budget;
    let mut questions = Vec::new();
    let due = known.iter().take_while(|known| known.is_due());
    let steps = CourseStep::ALL
        .into_iter()
        .filter(|step| course.is_reviewed(*step));
    let of_steps = steps.flat_map(|step| deal(&drawing(step, request.seed), REVIEWED_AT_ONCE));
    for question in due.map(|known| known.question).chain(of_steps) {
        if step.is_some_and(|step| belongs(step, question)) {
            continue;
        }
        let Some(rest) = left.checked_sub(time(question.kind())) else {
            break;
        };
        left = rest;
        questions.push(question);
    }
    mixed(questions, &mut Dice::new(request.seed, MIXING))
}

/// Mixes questions so that as far as can be, kinds and squares alternate.
///
/// Mixed practice is kept far better than sorted practice: 72 % against 38 % with unlike kinds of problems
/// (Rohrer, Dedrick, Burgess 2014, Psychon. Bull. Rev., doi 10.3758/s13423-014-0588-3), d = 0.79 after 30
/// days (Rohrer, Dedrick, Stershic 2015, J. Educ. Psychol. 107:900-908).
fn mixed(mut rest: Vec<BareQuestion>, dice: &mut Dice) -> Vec<BareQuestion> {
    dice.shuffle(&mut rest);
    let mut mixed: Vec<BareQuestion> = Vec::with_capacity(rest.len());
    while !rest.is_empty() {
        let last = mixed.last().copied();
        let left = |kind| {
            rest.iter()
                .filter(|question| question.kind() == kind)
                .count()
        };
        let likeness = |question: &BareQuestion| {
            let squares = question.subject_squares();
            let same_kind = last.is_some_and(|last| last.kind() == question.kind());
            let same_square = last.is_some_and(|last| {
                last.subject_squares()
                    .iter()
                    .any(|square| squares.contains(square))
            });
            // The kind with most questions left comes first, so that none is left alone at the end.
            (same_kind, same_square, usize::MAX - left(question.kind()))
        };
        let next = (0..rest.len()).min_by_key(|at| likeness(&rest[*at]));
        mixed.extend(next.map(|next| rest.remove(next)));
    }
    mixed
}

fn belongs(step: CourseStep, question: BareQuestion) -> bool {
    CourseStep::of_bare(question.kind(), question.view()) == Some(step)
}

/// Teaches a step over the bare board where that comes first, and asks it where it was taught.
fn bare(
    step: CourseStep,
    course: &Course,
    known: &[Recalled],
    request: LessonRequest,
    budget: u64,
) -> Vec<PlannedPart> {
    let mut parts = Vec::new();
    let mut left = budget;
    let mut taught = course.taught(step);
    if course.is_to_be_taught(step) {
        let blocks = within(budget / (TAUGHT * TAUGHT_AT_ONCE as u64), 1, 2);
        let blocks = blocks.min((step.lessons().saturating_sub(taught) / TAUGHT_AT_ONCE).max(1));
        let questions: Vec<BareQuestion> = teaching(step, known, request, blocks);
        taught += questions.len();
        left = left.saturating_sub(TAUGHT * questions.len() as u64);
        parts.push(chosen(Aim::Teach(step), questions));
    }
    if parts.is_empty() || taught >= step.lessons() {
        let questions = practice(step, known, request, left);
        parts.push(chosen(Aim::Step(step), questions));
    }
    parts
}

/// Chooses what is taught: names of squares in the quarters of the board of which least is known, a quarter
/// at a time; of other steps whatever is drawn.
fn teaching(
    step: CourseStep,
    known: &[Recalled],
    request: LessonRequest,
    blocks: usize,
) -> Vec<BareQuestion> {
    let Practice::Bare(_, Some(view)) = step.practice() else {
        return deal(&drawing(step, request.seed), blocks * TAUGHT_AT_ONCE);
    };
    let mut dice = Dice::new(request.seed, ORDER);
    let quarter = |square: Square| (u32::from(square.file()) / 4, u32::from(square.rank()) / 4);
    let met = |of: (u32, u32)| {
        let of_it = known.iter().filter(|known| {
            let squares = known.question.subject_squares();
            belongs(step, known.question) && squares.iter().any(|square| quarter(*square) == of)
        });
        of_it.count()
    };
    let mut quarters = [(0, 0), (1, 0), (0, 1), (1, 1)];
    quarters.sort_by_key(|of| met(*of));
    let names = quarters.into_iter().take(blocks).flat_map(|of| {
        let mut squares: Vec<Square> = Square::ALL.into();
        squares.retain(|square| quarter(*square) == of);
        dice.shuffle(&mut squares);
        squares.truncate(TAUGHT_AT_ONCE);
        squares
    });
    names
        .map(|square| BareQuestion::Name(Name { square, view }))
        .collect()
}

/// Chooses questions of a step over the bare board: first those that are due, then those never asked,
/// then those that are most forgotten among the others.
fn practice(
    step: CourseStep,
    known: &[Recalled],
    request: LessonRequest,
    budget: u64,
) -> Vec<BareQuestion> {
    let count = within(budget / time(step.kinds()[0]), 5, 40);
    let known = known.iter().copied();
    let mut ranked: Vec<Recalled> = known
        .filter(|known| belongs(step, known.question))
        .collect();
    let enough = ranked.len() + count;
    for question in deal(&drawing(step, request.seed), DRAWS * count) {
        if ranked.len() < enough && ranked.iter().all(|other| other.question != question) {
            let recall = UNSEEN;
            ranked.push(Recalled { question, recall });
        }
    }
    ranked.sort_by(|one, other| one.recall.total_cmp(&other.recall));
    let ranked = ranked.iter().map(|recalled| recalled.question);
    mixed(
        ranked.take(count).collect(),
        &mut Dice::new(request.seed, ORDER),
    )
}

/// A question that was never asked stands among the others as if it were recalled so often: behind
/// those that are due.
const UNSEEN: f64 = super::schedule::RECALLED;
/// So many draws for each question find the last ones that were never asked.
const DRAWS: usize = 10;
/// What the dice are rolled for.
const ORDER: u64 = 1;
const MIXING: u64 = 2;
const REVIEWING: u64 = 3;

/// Settles how questions of a step over the bare board are drawn.
pub fn drawing(step: CourseStep, seed: u64) -> DrillSettings {
    DrillSettings {
        kinds: step.kinds().to_vec(),
        count: Count::nearest(0),
        view: match step.practice() {
            Practice::Bare(_, Some(Color::White)) => Views::White,
            Practice::Bare(_, Some(Color::Black)) => Views::Black,
            _ => Views::Both,
        },
        think_millis: None,
        pieces: Vec::new(),
        blockers: Blockers::nearest(0),
        seed,
        weak: Vec::new(),
        chosen: Vec::new(),
        teach: false,
        follow: false,
    }
}

/// A part whose questions are chosen.
fn chosen(aim: Aim, questions: Vec<BareQuestion>) -> PlannedPart {
    PlannedPart {
        aim,
        count: questions.len(),
        questions,
    }
}

/// A part whose questions are drawn when it begins.
fn open(aim: Aim, count: u64, least: usize, most: usize) -> PlannedPart {
    PlannedPart {
        aim,
        count: within(count, least, most),
        questions: Vec::new(),
    }
}

fn within(number: u64, least: usize, most: usize) -> usize {
    usize::try_from(number).map_or(most, |number| number.clamp(least, most))
}

#[cfg(test)]
mod tests;
