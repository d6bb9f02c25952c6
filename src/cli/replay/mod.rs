//! `replay`: a game is read aloud, the board hidden, and checkpoints ask.

mod arguments;
mod setup;

use super::chosen::{Chosen, agrees_with, choose};
use super::failure::Failure;
use super::resumed::Resumed;
use super::shared::{Shared, records};
use super::sheet::Exercise;
use super::sitting::{Page, Sitting};
use crate::exercise::Session;
use crate::learner::{GameRef, Held, Journal, Record, StartRecord};
use crate::terminal::replies_from_terminal;
use crate::voice::asides;
use setup::Setup;

pub(super) use arguments::{Arguments, Manner};
pub(super) use setup::told;

/// The exercise's name in the journal.
const EXERCISE: &str = "replay";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    if arguments.resume {
        let resumed = shared.take_up(&journal, EXERCISE)?.ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished replay to go on with: leave out --resume".to_owned(),
            )
        })?;
        return resume(arguments, shared, resumed);
    }
    begin(arguments, shared, &journal)
}

/// Reads a new game. What there is to say about the choice and the state of the game is told at once: it
/// may be why there is nothing to read.
fn begin(arguments: &Arguments, shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let records = records(journal)?;
    let (setup, chosen) = set_up(arguments, shared, &records)?;
    let session = Session::new(setup.replay()?).with_think_times(shared.think_times());
    let game = Some(chosen.game_ref());
    let held = shared.hold_new(journal)?;
    let mut sitting = sitting(arguments, shared, &setup, held, game.clone())?;
    sitting.keep(Record::Start(StartRecord {
        stamp: sitting.stamp(),
        learner: shared.learner()?.clone(),
        exercise: EXERCISE.to_owned(),
        played: Some(setup.played()?),
        game,
        seed: setup.settings.seed,
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
    }))?;
    sitting.hold(session, None)
}

fn resume(arguments: &Arguments, shared: &Shared, resumed: Resumed) -> Result<(), Failure> {
    let earlier = resumed.earlier(shared, EXERCISE)?;
    let mut setup: Setup = resumed.setup(&earlier)?;
    agrees_with(earlier.start.game.as_ref(), &arguments.pick)?;
    let replay = setup.replay();
    let replay = replay.map_err(|failure| resumed.cannot_go_on(failure))?;
    let session = Session::new(replay).with_think_times(shared.think_times());
    setup.agrees_with(&arguments.course, shared.seed)?;
    setup.change(arguments.manner.wished(), shared);
    let game = earlier.start.game.clone();
    let earlier = earlier.earlier();
    let sitting = sitting(arguments, shared, &setup, resumed.held, game)?;
    sitting.hold(session, Some(earlier))
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
    let (setup, chosen) = set_up(arguments, shared, records)?;
    let session = Session::new(setup.replay()?);
    Ok(Exercise {
        name: EXERCISE,
        session,
        voice: setup.telling.voice(shared),
        played: Some(setup.played()?),
        decided: Vec::new(),
        seed: setup.settings.seed,
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
        game: Some(chosen.game_ref()),
        file: Some(chosen.into_file()),
    })
}

fn set_up(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<(Setup, Chosen), Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
    let setup = Setup::new(&chosen.reading.game, arguments, shared);
    Ok((
        setup.map_err(|failure| failure.about(&chosen.name()))?,
        chosen,
    ))
}

fn sitting(
    arguments: &Arguments,
    shared: &Shared,
    setup: &Setup,
    held: Held,
    game: Option<GameRef>,
) -> Result<Sitting, Failure> {
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    Ok(Sitting {
        screen: shared.screen(),
        listener: shared.listener()?,
        manner: shared.manner(),
        aloud: shared.aloud(),
        voice: setup.telling.voice(shared),
        held,
        exercise: EXERCISE,
        game,
        games: Vec::new(),
        pace: setup.telling.pace(),
        trail: setup.settings.trail,
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
    })
}
