//! `ahead`: a position is given, plies are read from it, questions are asked about their end; or a mate
//! is to be found.

mod arguments;
mod mates;
mod setup;

use std::cell::RefCell;
use std::rc::Rc;

use super::chosen::agrees_with;
use super::failure::Failure;
use super::resumed::Resumed;
use super::shared::{Shared, records};
use super::sheet::Exercise as OnPaper;
use super::sitting::{Page, Sitting};
use super::telling::Telling;
use crate::exercise::{Ahead, Mates, Session, questions};
use crate::learner::account::LATELY;
use crate::learner::pace::{Reach, answers};
use crate::learner::{Held, Journal, Record, StartRecord};
use crate::terminal::{Listener, Tone, replies_from_terminal};
use crate::voice::{asides, progress};
use setup::{Exercise, Setup};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "ahead";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    if arguments.resume {
        let resumed = shared.take_up(&journal, EXERCISE)?.ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished session of ahead to go on with: leave out --resume"
                    .to_owned(),
            )
        })?;
        return resume(arguments, shared, resumed);
    }
    let records = records(&journal)?;
    if let Some(within) = arguments.course.mate {
        let listener = listener(arguments, shared)?;
        let found = mates::setup(
            arguments,
            shared,
            &records,
            (within, arguments.course.rounds()),
            &mut listener.borrow_mut(),
        );
        let Some(setup) = found? else {
            return Ok(());
        };
        let held = shared.hold_new(&journal)?;
        return begin(&setup, sitting(shared, &setup, held, listener), shared);
    }
    let setup = Setup::ahead(arguments, shared, &records)?;
    let listener = listener(arguments, shared)?;
    let held = shared.hold_new(&journal)?;
    begin(&setup, sitting(shared, &setup, held, listener), shared)?;
    tell_reach(shared, &journal)
}

fn begin(setup: &Setup, mut sitting: Sitting, shared: &Shared) -> Result<(), Failure> {
    sitting.keep(Record::Start(StartRecord {
        stamp: sitting.stamp(),
        learner: shared.learner()?.clone(),
        exercise: EXERCISE.to_owned(),
        played: setup.played()?,
        game: setup.game(),
        seed: setup.seed(),
        setup: serde_json::to_value(setup).map_err(Failure::unusable)?,
    }))?;
    match &setup.exercise {
        Exercise::Ahead(settings) => {
            let ahead = Ahead::new(settings.clone()).map_err(Failure::unusable)?;
            let session = Session::new(ahead).with_think_times(shared.think_times());
            sitting.hold(session, None)
        }
        Exercise::Mates(settings) => {
            let mates = Mates::new(settings.clone()).map_err(Failure::unusable)?;
            sitting.hold(Session::new(mates), None)
        }
    }
}

fn resume(arguments: &Arguments, shared: &Shared, resumed: Resumed) -> Result<(), Failure> {
    let earlier = resumed.earlier(shared, EXERCISE)?;
    let mut setup: Setup = resumed.setup(&earlier)?;
    agrees_with(setup.game().as_ref(), &arguments.pick)?;
    arguments.course.agrees_with(&setup, shared.seed)?;
    setup.telling = Telling::new(arguments.manner.wished(), Some(setup.telling), shared);
    match &setup.exercise {
        Exercise::Ahead(settings) => {
            let ahead = Ahead::new(settings.clone());
            let ahead = ahead.map_err(|error| resumed.cannot_go_on(error))?;
            let session = Session::new(ahead).with_think_times(shared.think_times());
            let earlier = earlier.earlier();
            let journal = resumed.held.journal().clone();
            let listener = listener(arguments, shared)?;
            let sitting = sitting(shared, &setup, resumed.held, listener);
            sitting.hold(session, Some(earlier))?;
            tell_reach(shared, &journal)
        }
        Exercise::Mates(settings) => {
            let mates = Mates::new(settings.clone());
            let mates = mates.map_err(|error| resumed.cannot_go_on(error))?;
            let earlier = earlier.earlier();
            let listener = listener(arguments, shared)?;
            let sitting = sitting(shared, &setup, resumed.held, listener);
            sitting.hold(Session::new(mates), Some(earlier))
        }
    }
}

/// Sees to it that such a session can be held, and counts its questions; of mates, no more than `least` are
/// searched for.
pub(super) fn check(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
    least: usize,
) -> Result<usize, Failure> {
    let Some(within) = arguments.course.mate else {
        let setup = Setup::ahead(arguments, shared, records)?;
        let Exercise::Ahead(settings) = setup.exercise else {
            unreachable!("no mates were asked for")
        };
        let ahead = Ahead::new(settings).map_err(Failure::unusable)?;
        return Ok(questions(&mut Session::new(ahead)));
    };
    let listener = listener(arguments, shared)?;
    let wanted = least.min(arguments.course.rounds());
    let listener = &mut listener.borrow_mut();
    let found = mates::setup(arguments, shared, records, (within, wanted), listener)?;
    match found.map(|setup| setup.exercise) {
        Some(Exercise::Mates(settings)) => Ok(settings.problems.len()),
        Some(Exercise::Ahead(_)) | None => {
            Err(Failure::Unusable(asides::NOT_SEARCHED_THROUGH.to_owned()))
        }
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
    let ahead = Ahead::new(settings.clone()).map_err(Failure::unusable)?;
    Ok(OnPaper {
        name: EXERCISE,
        session: Session::new(ahead),
        voice: setup.telling.voice(shared),
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

fn listener(arguments: &Arguments, shared: &Shared) -> Result<Rc<RefCell<Listener>>, Failure> {
    if arguments.pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    shared.listener()
}

fn sitting(shared: &Shared, setup: &Setup, held: Held, listener: Rc<RefCell<Listener>>) -> Sitting {
    Sitting {
        screen: shared.screen(),
        listener,
        aloud: shared.aloud(),
        manner: shared.manner(),
        voice: setup.telling.voice(shared),
        held,
        exercise: EXERCISE,
        game: None,
        games: setup.games.clone(),
        pace: setup.telling.pace(),
        trail: 0,
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
    }
}

/// Says how far ahead the learner sees, by the latest answers that the journal now has.
fn tell_reach(shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let contents = journal.read().map_err(Failure::unusable)?;
    let answers = answers(&contents.records);
    let lately = &answers[answers.len().saturating_sub(LATELY)..];
    let sentence = progress::reach(&Reach::of(lately));
    shared.crier().say(Tone::Plain, &sentence)
}
