//! `ahead`: a position is given, plies are read from it, questions are asked about their end; or a mate
//! is to be found.

mod arguments;
mod mates;
mod setup;

use super::failure::Failure;
use super::prepared::{Prepared, leave_input_to, resume};
use super::shared::{Shared, records};
use crate::exercise::Plan;
use crate::learner::account::LATELY;
use crate::learner::pace::{Reach, answers};
use crate::learner::{Journal, Record};
use crate::terminal::Tone;
use crate::voice::{asides, progress};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "ahead";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let plan = if arguments.resume {
        resume(
            EXERCISE,
            Some(&arguments.pick),
            arguments.manner.wished(),
            shared,
        )?
    } else {
        let rounds = arguments.course.rounds();
        let prepared = prepare(arguments, shared, &records(&journal)?, rounds)?;
        // The learner may have stopped the search for mates.
        let Some(prepared) = prepared else {
            return Ok(());
        };
        prepared.hold(shared, &journal)?;
        prepared.plan
    };
    if let Plan::Ahead(_) = plan {
        tell_reach(shared, &journal)?;
    }
    Ok(())
}

/// Sets a session up for a learner with these records; no more than so many mates are searched for. `None`
/// where the learner stopped the search.
fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
    wanted: usize,
) -> Result<Option<Prepared>, Failure> {
    let Some(within) = arguments.course.mate else {
        let prepared = setup::prepare(arguments, shared, records)?;
        leave_input_to(&arguments.pick)?;
        return Ok(Some(prepared));
    };
    leave_input_to(&arguments.pick)?;
    let listener = shared.listener()?;
    mates::prepare(
        arguments,
        shared,
        records,
        (within, wanted),
        &mut listener.borrow_mut(),
    )
}

/// Sets a session up to be tried; of mates, no more than `least` are searched for.
pub(super) fn prepare_to_try(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
    least: usize,
) -> Result<Prepared, Failure> {
    let wanted = least.min(arguments.course.rounds());
    let prepared = prepare(arguments, shared, records, wanted)?;
    prepared.ok_or_else(|| Failure::Unusable(asides::NOT_SEARCHED_THROUGH.to_owned()))
}

/// Sets a session up for paper. There N does not follow the answers, which are not known yet: where none
/// is given, it is the one that the learner's answers so far speak for.
pub(super) fn on_paper(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    if arguments.course.mate.is_some() {
        return Err(Failure::Usage(
            "a mate is found in a dialogue, and paper does not answer: leave out --mate".to_owned(),
        ));
    }
    let prepared = setup::prepare(arguments, shared, records)?;
    Ok(setup::with_fixed_plies(prepared, &arguments.pick))
}

/// Says how far ahead the learner sees, by the latest answers that the journal now has.
fn tell_reach(shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let contents = journal.read().map_err(Failure::unusable)?;
    let answers = answers(&contents.records);
    let lately = &answers[answers.len().saturating_sub(LATELY)..];
    let sentence = progress::reach(&Reach::of(lately));
    shared.announcer().say(Tone::Plain, &sentence)
}
