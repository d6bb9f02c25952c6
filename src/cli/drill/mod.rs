//! `drill`: questions over the bare board, or over a few pieces.

mod arguments;
mod few;

use super::failure::Failure;
use super::prepared::{Prepared, resume};
use super::shared::{Shared, records};
use super::telling::{Telling, Wished};
use crate::exercise::Plan;
use crate::learner::{Record, weak};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "drill";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    if arguments.resume {
        return resume(EXERCISE, None, Wished::default(), shared).map(drop);
    }
    let journal = shared.journal()?;
    prepare(arguments, shared, &records(&journal)?)?.hold(shared, &journal)
}

/// Sets a drill up, with what these records tell of weak questions. A sheet is set up with none: whoever
/// gets it is asked the same.
pub(super) fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    let seed = shared.seed()?;
    let plan = if arguments.asks_few()? {
        Plan::Few(arguments.few.settings(&arguments.course, shared)?)
    } else {
        // Where the questions are chosen beforehand, what is weak is among them.
        let chosen = shared.chosen();
        let weak = if chosen.is_empty() {
            weak(records, &arguments.kinds())
        } else {
            Vec::new()
        };
        Plan::Drill(arguments.settings(seed, weak, chosen)?)
    };
    Ok(Prepared {
        plan,
        telling: Telling::new(Wished::default(), None, shared),
        games: Vec::new(),
        file: None,
        decided: Vec::new(),
        seed,
        given: shared.given.clone(),
    })
}
