//! `recite`: the learner says a game from memory.

mod arguments;
mod setup;

use super::chosen::{agrees_with, choose};
use super::failure::Failure;
use super::resumed::Resumed;
use super::shared::{Shared, records};
use super::sitting::{Page, Sitting};
use crate::exercise::{Session, questions};
use crate::learner::{GameRef, Held, Journal, Record, StartRecord};
use crate::terminal::replies_from_terminal;
use crate::voice::asides;
use setup::Setup;

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "recite";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    if arguments.resume {
        let resumed = shared.take_up(&journal, EXERCISE)?.ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished recital to go on with: leave out --resume".to_owned(),
            )
        })?;
        return resume(arguments, shared, resumed);
    }
    begin(arguments, shared, &journal)
}

/// Sees to it that such a recital can be held, and counts its questions.
pub(super) fn check(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<usize, Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
    let setup = Setup::new(&chosen.reading.game, arguments, shared);
    let recite = setup.and_then(|setup| setup.recite());
    let recite = recite.map_err(|failure| failure.about(&chosen.name()))?;
    Ok(questions(&mut Session::new(recite)))
}

fn begin(arguments: &Arguments, shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, &records(journal)?)?;
    let setup = Setup::new(&chosen.reading.game, arguments, shared)
        .map_err(|failure| failure.about(&chosen.name()))?;
    let recite = setup.recite()?;
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    let game = Some(chosen.game_ref());
    let held = shared.hold_new(journal)?;
    let mut sitting = sitting(shared, &setup, held, game.clone())?;
    sitting.keep(Record::Start(StartRecord {
        stamp: sitting.stamp(),
        learner: shared.learner()?.clone(),
        exercise: EXERCISE.to_owned(),
        played: Some(setup.played()?),
        game,
        seed: shared.seed()?,
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
    }))?;
    sitting.hold(Session::new(recite), None)
}

fn resume(arguments: &Arguments, shared: &Shared, resumed: Resumed) -> Result<(), Failure> {
    let earlier = resumed.earlier(shared, EXERCISE)?;
    let mut setup: Setup = resumed.setup(&earlier)?;
    agrees_with(earlier.start.game.as_ref(), &arguments.pick)?;
    let recite = setup.recite();
    let recite = recite.map_err(|failure| resumed.cannot_go_on(failure))?;
    setup.agrees_with(&arguments.course, shared.seed, earlier.start.seed)?;
    setup.change(arguments.manner.wished(), shared);
    let game = earlier.start.game.clone();
    let earlier = earlier.earlier();
    let sitting = sitting(shared, &setup, resumed.held, game)?;
    sitting.hold(Session::new(recite), Some(earlier))
}

fn sitting(
    shared: &Shared,
    setup: &Setup,
    held: Held,
    game: Option<GameRef>,
) -> Result<Sitting, Failure> {
    Ok(Sitting {
        games: Vec::new(),
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
        screen: shared.screen(),
        listener: shared.listener()?,
        manner: shared.manner(),
        aloud: shared.aloud(),
        voice: setup.telling.voice(shared),
        held,
        exercise: EXERCISE,
        game,
        pace: setup.telling.pace(),
        trail: 0,
    })
}
