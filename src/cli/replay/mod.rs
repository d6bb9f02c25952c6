//! `replay`: a game is read aloud, the board hidden, and checkpoints ask.

mod arguments;
mod setup;

use super::chosen::choose;
use super::failure::Failure;
use super::prepared::{Prepared, leave_input_to, resume};
use super::shared::{Shared, records};
use super::telling::Telling;
use crate::learner::Record;

pub(super) use arguments::{Arguments, Manner};
pub(super) use setup::{cut, told};

/// The exercise's name in the journal.
const EXERCISE: &str = "replay";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let wished = arguments.manner.wished();
    if arguments.resume {
        return resume(EXERCISE, Some(&arguments.pick), wished, shared).map(drop);
    }
    let journal = shared.journal()?;
    let prepared = prepare(arguments, shared, &records(&journal)?)?;
    leave_input_to(&arguments.pick)?;
    prepared.hold(shared, &journal)
}

/// Sets a replay up for a learner with these records. What there is to say about the choice and the state
/// of the game is told at once: it may be why there is nothing to read.
pub(super) fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
    let plan = setup::plan(&chosen.reading.game, &arguments.course, shared.seed()?);
    Ok(Prepared {
        plan: plan.map_err(|failure| failure.about(&chosen.name()))?,
        telling: Telling::new(arguments.manner.wished(), None, shared),
        games: vec![chosen.game_ref()],
        file: Some(chosen.into_file()),
        decided: Vec::new(),
        seed: shared.seed()?,
    })
}
