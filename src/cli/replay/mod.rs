//! `replay`: a game is read aloud, the board hidden, and checkpoints ask.

mod arguments;
mod setup;

use super::Shared;
use super::failure::{Failure, shown};
use super::pick::Picked;
use super::sitting::Sitting;
use crate::learner::{
    GameRef, Played, Record, StartRecord, Unfinished, finished_games, unfinished,
};
use crate::notation::{Reading, read};
use crate::session::Dice;
use crate::terminal::{Listener, Screen, random_seed, session_name};
use crate::voice::Voice;
use setup::Setup;

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "replay";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    let journal = shared.journal()?;
    let records = shared.read(&journal)?;
    let voice = Voice {
        announce: arguments.manner.announce,
        view: arguments.manner.view,
        plain: shared.plain,
    };
    let earlier = if arguments.resume {
        Some(take_up(arguments, shared, &records)?)
    } else {
        None
    };
    let plan = match &earlier {
        Some(earlier) => Plan::of(earlier)?,
        None => Plan::new(arguments, shared, &records)?,
    };
    let mut replay = plan.setup.replay()?;
    let opening = match &earlier {
        Some(earlier) => replay.resume(earlier.progress()),
        None => replay.begin(),
    };
    let mut listener = shared.listener();
    let mut sitting = Sitting {
        screen: &mut screen,
        listener: &mut listener,
        voice,
        journal: &journal,
        session: plan.session.clone(),
        exercise: EXERCISE,
        game: plan.game.clone(),
        pace: arguments.manner.pace,
        trail: plan.setup.settings.trail,
    };
    if earlier.is_none() {
        let start = plan.start_record(sitting.stamp())?;
        sitting.keep(&Record::Start(start))?;
    }
    sitting.hold(&mut replay, opening)
}
