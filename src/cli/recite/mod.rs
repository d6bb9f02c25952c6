//! `recite`: the learner says a game from memory.

mod arguments;
mod setup;

use super::chosen::{agrees_with, choose};
use super::failure::Failure;
use super::shared::{Shared, records};
use super::sitting::{Page, Sitting};
use crate::learner::{GameRef, Journal, Record, StartRecord, Unfinished};
use crate::terminal::replies_from_terminal;
use crate::voice::{Voice, asides};
use setup::Setup;

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "recite";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let records = records(&journal)?;
    if arguments.resume {
        let earlier = shared.unfinished(&records, EXERCISE).ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished recital to go on with: leave out --resume".to_owned(),
            )
        })?;
        return resume(arguments, shared, &journal, &earlier);
    }
    begin(arguments, shared, &journal, &records)
}

/// Sees to it that such a recital can be held.
pub(super) fn check(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, &[])?;
    let setup = Setup::new(&chosen.reading.game, &arguments.course);
    let recite = setup.and_then(|setup| setup.recite());
    recite
        .map(drop)
        .map_err(|failure| failure.about(&chosen.name()))
}

fn begin(
    arguments: &Arguments,
    shared: &Shared,
    journal: &Journal,
    records: &[Record],
) -> Result<(), Failure> {
    let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
    let setup = Setup::new(&chosen.reading.game, &arguments.course)
        .map_err(|failure| failure.about(&chosen.name()))?;
    let mut recite = setup.recite()?;
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    let name = shared.session_name()?;
    let game = Some(chosen.game_ref());
    let mut sitting = sitting(arguments, shared, journal, name, game.clone())?;
    sitting.keep(&Record::Start(StartRecord {
        stamp: sitting.stamp(),
        exercise: EXERCISE.to_owned(),
        played: Some(setup.played()?),
        game,
        seed: shared.seed()?,
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
    }))?;
    let opening = recite.begin();
    sitting.hold(&mut recite, opening)
}

fn resume(
    arguments: &Arguments,
    shared: &Shared,
    journal: &Journal,
    earlier: &Unfinished<'_>,
) -> Result<(), Failure> {
    let setup: Setup = Failure::setup(EXERCISE, &earlier.start.setup)?;
    agrees_with(earlier.start.game.as_ref(), &arguments.pick)?;
    setup.agrees_with(&arguments.course, shared.seed, earlier.start.seed)?;
    let mut recite = setup.recite()?;
    let name = earlier.start.stamp.session.clone();
    let game = earlier.start.game.clone();
    let sitting = sitting(arguments, shared, journal, name, game)?;
    let opening = recite.resume(earlier.recite_past(), earlier.looks);
    sitting.hold(&mut recite, opening)
}

fn sitting<'a>(
    arguments: &Arguments,
    shared: &Shared,
    journal: &'a Journal,
    name: String,
    game: Option<GameRef>,
) -> Result<Sitting<'a>, Failure> {
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
        voice: Voice {
            announce: arguments.manner.announce,
            view: arguments.manner.view,
            plain: shared.plain,
            list: shared.speaking.list,
        },
        journal,
        name,
        exercise: EXERCISE,
        game,
        pace: None,
        trail: 0,
    })
}
