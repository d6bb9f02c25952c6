//! `ahead`: a position is given, plies are read from it, questions are asked about their end; or a mate
//! is to be found.

mod arguments;
mod mates;
mod setup;

use super::chosen::agrees_with;
use super::failure::Failure;
use super::shared::{Shared, records};
use super::sitting::Sitting;
use crate::learner::account::LATELY;
use crate::learner::pace::{Reach, answers};
use crate::learner::{Journal, Record, StartRecord, Unfinished, unfinished};
use crate::session::{Ahead, Input, Mates};
use crate::terminal::{Listener, Tone, replies_from_terminal, session_name};
use crate::voice::{Voice, asides, progress};
use setup::{Exercise, Setup};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "ahead";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let records = records(&journal)?;
    if arguments.resume {
        return resume(arguments, shared, &journal, &records);
    }
    if let Some(within) = arguments.course.mate {
        let mut listener = listener(arguments, shared)?;
        let found = mates::setup(arguments, shared, &records, within, &mut listener)?;
        return match found {
            Some(setup) => hold(
                &setup,
                None,
                sitting(arguments, shared, &journal, listener)?,
            ),
            None => Ok(()),
        };
    }
    let setup = Setup::ahead(arguments, shared, &records)?;
    let listener = listener(arguments, shared)?;
    hold(
        &setup,
        None,
        sitting(arguments, shared, &journal, listener)?,
    )?;
    tell_reach(shared, &journal)
}

fn resume(
    arguments: &Arguments,
    shared: &Shared,
    journal: &Journal,
    records: &[Record],
) -> Result<(), Failure> {
    let earlier = unfinished(records, EXERCISE).ok_or_else(|| {
        Failure::Unusable(
            "there is no unfinished session of ahead to go on with: leave out --resume".to_owned(),
        )
    })?;
    let setup: Setup = Failure::setup(EXERCISE, &earlier.start.setup)?;
    agrees_with(setup.game().as_ref(), &arguments.pick)?;
    arguments.course.agrees_with(&setup, shared.seed)?;
    let listener = listener(arguments, shared)?;
    let sitting = sitting(arguments, shared, journal, listener)?;
    let follows = matches!(setup.exercise, Exercise::Ahead(_));
    hold(&setup, Some(&earlier), sitting)?;
    if follows {
        tell_reach(shared, journal)?;
    }
    Ok(())
}

/// Holds a session, a new one or one that goes on.
fn hold(
    setup: &Setup,
    earlier: Option<&Unfinished<'_>>,
    mut sitting: Sitting<'_>,
) -> Result<(), Failure> {
    sitting.games.clone_from(&setup.games);
    if let Some(earlier) = earlier {
        sitting.name.clone_from(&earlier.start.stamp.session);
    } else {
        let start = StartRecord {
            stamp: sitting.stamp(),
            exercise: EXERCISE.to_owned(),
            played: setup.played()?,
            game: setup.game(),
            seed: setup.seed(),
            setup: serde_json::to_value(setup).map_err(Failure::unusable)?,
        };
        sitting.keep(&Record::Start(start))?;
    }
    match &setup.exercise {
        Exercise::Ahead(settings) => {
            let mut ahead = Ahead::new(settings.clone()).map_err(Failure::unusable)?;
            let opening = match earlier {
                Some(earlier) => ahead.resume(earlier.progress()),
                None => ahead.begin(),
            };
            sitting.hold(&mut ahead, opening)
        }
        Exercise::Mates(settings) => {
            let mut mates = Mates::new(settings.clone()).map_err(Failure::unusable)?;
            let opening = match earlier {
                Some(earlier) => mates.resume(said_before(earlier)),
                None => mates.begin(),
            };
            sitting.hold(&mut mates, opening)
        }
    }
}

/// What the learner said in the earlier sittings: the looks, the replies, and what was given up.
fn said_before(earlier: &Unfinished<'_>) -> Vec<Input> {
    let mut said = Vec::new();
    for answer in &earlier.answers {
        said.extend((0..answer.looks).map(|_| Input::Look));
        let millis = answer.millis;
        said.push(if answer.reply.is_empty() {
            Input::Pass { millis }
        } else {
            Input::Reply {
                text: answer.reply.clone(),
                millis,
            }
        });
    }
    said
}

fn listener(arguments: &Arguments, shared: &Shared) -> Result<Listener, Failure> {
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    shared.listener()
}

fn sitting<'a>(
    arguments: &Arguments,
    shared: &Shared,
    journal: &'a Journal,
    listener: Listener,
) -> Result<Sitting<'a>, Failure> {
    Ok(Sitting {
        screen: shared.screen(),
        listener,
        manner: shared.manner(),
        voice: Voice {
            announce: arguments.manner.announce,
            view: arguments.manner.view,
            plain: shared.plain,
        },
        journal,
        name: session_name().map_err(Failure::unusable)?,
        exercise: EXERCISE,
        game: None,
        games: Vec::new(),
        pace: arguments.manner.pace,
        trail: 0,
        before_eyes: None,
    })
}

/// Says how far ahead the learner sees, by the latest answers that the journal now has.
fn tell_reach(shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let contents = journal.read().map_err(Failure::unusable)?;
    let answers = answers(&contents.records);
    let lately = &answers[answers.len().saturating_sub(LATELY)..];
    let sentence = progress::reach(&Reach::of(lately));
    Ok(shared.screen().say(Tone::Plain, &sentence)?)
}
