//! `replay`: a game is read aloud, the board hidden, and checkpoints ask.

mod arguments;
mod plan;
mod setup;

use super::failure::Failure;
use super::shared::{Shared, records};
use super::sheet::Exercise;
use super::sitting::{Page, Sitting};
use crate::learner::Record;
use crate::terminal::replies_from_terminal;
use crate::voice::{Voice, asides};
use plan::Plan;

pub(super) use arguments::{Arguments, Manner};
pub(super) use setup::told;

/// The exercise's name in the journal.
const EXERCISE: &str = "replay";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let records = records(&journal)?;
    let plan = if arguments.resume {
        Plan::resume(arguments, shared, &records)?
    } else {
        Plan::begin(arguments, shared, &records)?
    };
    let replay = plan.setup.replay()?;
    let mut replay = replay.with_think_times(shared.think_times());
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    let mut sitting = Sitting {
        screen: shared.screen(),
        listener: shared.listener()?,
        manner: shared.manner(),
        aloud: shared.aloud(),
        voice: voice(arguments, shared),
        journal: &journal,
        name: plan.session.clone(),
        exercise: EXERCISE,
        game: plan.game.clone(),
        games: Vec::new(),
        pace: arguments.manner.pace,
        trail: plan.setup.settings.trail,
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
    };
    let opening = if let Some(earlier) = &plan.earlier {
        replay.resume(earlier.progress())
    } else {
        let start = plan.start_record(sitting.stamp())?;
        sitting.keep(&Record::Start(start))?;
        replay.begin()
    };
    sitting.hold(&mut replay, opening)
}

/// Sets a replay up for paper.
pub(super) fn on_paper(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Exercise, Failure> {
    if arguments.resume {
        return Err(Exercise::cannot_resume());
    }
    let plan = Plan::begin(arguments, shared, records)?;
    let mut replay = plan.setup.replay()?;
    let opening = replay.begin();
    Ok(Exercise {
        name: EXERCISE,
        session: Box::new(replay),
        opening,
        voice: voice(arguments, shared),
        played: Some(plan.setup.played()?),
        decided: Vec::new(),
        seed: plan.setup.settings.seed,
        setup: serde_json::to_value(&plan.setup).map_err(Failure::unusable)?,
        game: plan.game,
        file: plan.file,
    })
}

fn voice(arguments: &Arguments, shared: &Shared) -> Voice {
    Voice {
        announce: arguments.manner.announce,
        view: arguments.manner.view,
        plain: shared.plain,
        list: shared.speaking.list,
    }
}
