//! `recite`: the learner says a game from memory.

mod arguments;

use super::arguments::millis;
use super::chosen::choose;
use super::failure::Failure;
use super::prepared::{Prepared, leave_input_to, resume};
use super::replay::{cut, told};
use super::shared::{Shared, records};
use super::telling::Telling;
use crate::exercise::{Cut, OverGame, Plan, ReciteSettings};
use crate::game::Game;
use crate::learner::Record;
use arguments::Course;

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "recite";

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

/// Sets a recital up for a learner with these records.
pub(super) fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
    let plan = plan(&chosen.reading.game, &arguments.course);
    Ok(Prepared {
        plan: plan.map_err(|failure| failure.about(&chosen.name()))?,
        telling: Telling::new(arguments.manner.wished(), None, shared),
        games: vec![chosen.game_ref()],
        file: Some(chosen.into_file()),
        decided: Vec::new(),
        seed: shared.seed()?,
    })
}

/// Plans a recital of `game` as the options say.
fn plan(game: &Game, course: &Course) -> Result<Plan, Failure> {
    let script = cut(
        game,
        Cut {
            from: course.from,
            to: course.to,
            sidelines: false,
        },
    )?;
    let settings = ReciteSettings {
        sides: course.side.unwrap_or_default(),
        every: course.every.map(|every| every as usize),
        hint: course.hint,
        think_millis: course.think.map(millis),
    };
    let tags = told(&game.tags);
    Ok(Plan::Recite(OverGame::new(settings, script, game, tags)))
}
