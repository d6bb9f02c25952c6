//! `ahead`: a position is given, plies are read from it, questions are asked about their end; or a mate
//! is to be found.

mod arguments;
mod mates;
mod setup;

use std::cell::RefCell;
use std::rc::Rc;

use super::chosen::agrees_with;
use super::failure::Failure;
use super::shared::{Shared, records};
use super::sheet::Exercise as OnPaper;
use super::sitting::{Page, Sitting};
use crate::learner::account::LATELY;
use crate::learner::pace::{Reach, answers};
use crate::learner::{Journal, Record, StartRecord, Unfinished};
use crate::session::{Ahead, Input, Mates};
use crate::terminal::{Listener, Tone, replies_from_terminal};
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
        let listener = listener(arguments, shared)?;
        let found = mates::setup(
            arguments,
            shared,
            &records,
            within,
            &mut listener.borrow_mut(),
        );
        let Some(setup) = found? else {
            return Ok(());
        };
        let sitting = sitting(arguments, shared, &journal, listener.clone())?;
        return hold(&setup, None, sitting, shared);
    }
    let setup = Setup::ahead(arguments, shared, &records)?;
    let listener = listener(arguments, shared)?;
    let sitting = sitting(arguments, shared, &journal, listener)?;
    hold(&setup, None, sitting, shared)?;
    tell_reach(shared, &journal)
}

fn resume(
    arguments: &Arguments,
    shared: &Shared,
    journal: &Journal,
    records: &[Record],
) -> Result<(), Failure> {
    let earlier = shared.unfinished(records, EXERCISE).ok_or_else(|| {
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
    hold(&setup, Some(&earlier), sitting, shared)?;
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
    shared: &Shared,
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
            let ahead = Ahead::new(settings.clone()).map_err(Failure::unusable)?;
            let mut ahead = ahead.with_think_times(shared.think_times());
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

/// Sees to it that such a session can be held.
pub(super) fn check(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    match arguments.course.mate {
        None => Setup::ahead(arguments, shared, &[]).map(drop),
        // Whether there is a mate takes a search: the games at least must be there.
        Some(_) => arguments.pick.walk(shared, |_| Ok(true)).map(drop),
    }
}

/// Sets a session up for paper. There N does not follow the answers, which are not known yet: where none
/// is given, it is the one that the learner's answers so far speak for.
pub(super) fn on_paper(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<OnPaper, Failure> {
    if arguments.resume {
        return Err(OnPaper::cannot_resume());
    }
    if arguments.course.mate.is_some() {
        return Err(Failure::Usage(
            "a mate is found in a dialogue, and paper does not answer: leave out --mate".to_owned(),
        ));
    }
    let setup = Setup::ahead(arguments, shared, records)?.with_fixed_plies();
    let Exercise::Ahead(settings) = &setup.exercise else {
        unreachable!("no mates were asked for")
    };
    let mut ahead = Ahead::new(settings.clone()).map_err(Failure::unusable)?;
    let opening = ahead.begin();
    Ok(OnPaper {
        name: EXERCISE,
        session: Box::new(ahead),
        opening,
        voice: voice(arguments, shared),
        game: setup.game(),
        file: match &arguments.pick.files[..] {
            [file] if setup.games.len() == 1 => Some(file.clone()),
            _ => None,
        },
        played: setup.played()?,
        seed: setup.seed(),
        decided: match (arguments.course.plies, settings.plies) {
            (None, Some(plies)) => vec!["--plies".to_owned(), plies.to_string()],
            _ => Vec::new(),
        },
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
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

fn listener(arguments: &Arguments, shared: &Shared) -> Result<Rc<RefCell<Listener>>, Failure> {
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    shared.listener()
}

fn sitting<'a>(
    arguments: &Arguments,
    shared: &Shared,
    journal: &'a Journal,
    listener: Rc<RefCell<Listener>>,
) -> Result<Sitting<'a>, Failure> {
    Ok(Sitting {
        screen: shared.screen(),
        listener,
        aloud: shared.aloud(),
        manner: shared.manner(),
        voice: voice(arguments, shared),
        journal,
        name: shared.session_name()?,
        exercise: EXERCISE,
        game: None,
        games: Vec::new(),
        pace: arguments.manner.pace,
        trail: 0,
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
    })
}

/// Says how far ahead the learner sees, by the latest answers that the journal now has.
fn tell_reach(shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let contents = journal.read().map_err(Failure::unusable)?;
    let answers = answers(&contents.records);
    let lately = &answers[answers.len().saturating_sub(LATELY)..];
    let sentence = progress::reach(&Reach::of(lately));
    shared.crier().say(Tone::Plain, &sentence)
}
