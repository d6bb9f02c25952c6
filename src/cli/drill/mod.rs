//! `drill`: questions over the bare board, or over a few men.

mod arguments;
mod few;

use serde::{Deserialize, Serialize};

use super::failure::Failure;
use super::resumed::Resumed;
use super::shared::{Shared, records};
use super::sheet::Exercise;
use super::sitting::{Page, Sitting};
use super::telling::{Telling, Wished};
use crate::exercise::{Drill, DrillSettings, Few, FewError, FewSettings, Session};
use crate::learner::{Held, Journal, Record, StartRecord, weak};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "drill";

/// What the journal keeps of a drill, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Setup {
    telling: Telling,
    drill: Drilled,
}

/// What is drilled.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Drilled {
    Bare(DrillSettings),
    Few(FewSettings),
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    if arguments.resume {
        let resumed = shared.take_up(&journal, EXERCISE)?.ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished drill to go on with: leave out --resume".to_owned(),
            )
        })?;
        return resume(arguments, shared, resumed);
    }
    let setup = setup(arguments, shared, &records(&journal)?)?;
    begin(&setup, shared, &journal)
}

/// Sets a drill up as the options say, with what these records tell of weak questions.
fn setup(arguments: &Arguments, shared: &Shared, records: &[Record]) -> Result<Setup, Failure> {
    let drill = if arguments.asks_few()? {
        Drilled::Few(arguments.few.settings(&arguments.course, shared)?)
    } else {
        // Where the questions are chosen beforehand, what is weak is among them.
        let chosen = shared.chosen();
        let weak = if chosen.is_empty() {
            weak(records, &arguments.kinds())
        } else {
            Vec::new()
        };
        Drilled::Bare(arguments.settings(shared.seed()?, weak, chosen)?)
    };
    Ok(Setup {
        telling: Telling::new(Wished::default(), None, shared),
        drill,
    })
}

/// Sets a drill up for paper, where nothing comes again. Whoever gets the sheet is asked the same: what
/// a journal says of weak questions is left out.
pub(super) fn on_paper(arguments: &Arguments, shared: &Shared) -> Result<Exercise, Failure> {
    if arguments.resume {
        return Err(Exercise::cannot_resume());
    }
    let setup = setup(arguments, shared, &[])?;
    let session = match &setup.drill {
        Drilled::Bare(settings) => Session::new(Drill::without_returns(settings.clone())),
        Drilled::Few(_) => setup.drill.session().map_err(Failure::unusable)?,
    };
    Ok(Exercise {
        name: EXERCISE,
        session,
        voice: setup.telling.voice(shared),
        game: None,
        file: None,
        played: None,
        decided: Vec::new(),
        seed: setup.seed(),
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
    })
}

fn begin(setup: &Setup, shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let mut sitting = sitting(shared, setup, shared.hold_new(journal)?)?;
    let start = StartRecord {
        stamp: sitting.stamp(),
        learner: shared.learner()?.clone(),
        exercise: EXERCISE.to_owned(),
        played: None,
        game: None,
        seed: setup.seed(),
        setup: serde_json::to_value(setup).map_err(Failure::unusable)?,
    };
    let session = setup.drill.session().map_err(Failure::unusable)?;
    sitting.keep(Record::Start(start))?;
    sitting.hold(session.with_think_times(shared.think_times()), None)
}

fn resume(arguments: &Arguments, shared: &Shared, resumed: Resumed) -> Result<(), Failure> {
    let earlier = resumed.earlier(shared, EXERCISE)?;
    let setup: Setup = resumed.setup(&earlier)?;
    arguments.agree_with(&setup.drill, shared.seed)?;
    let session = setup.drill.session();
    let session = session.map_err(|error| resumed.cannot_go_on(error))?;
    let earlier = earlier.earlier();
    let sitting = sitting(shared, &setup, resumed.held)?;
    sitting.hold(
        session.with_think_times(shared.think_times()),
        Some(earlier),
    )
}

impl Drilled {
    fn session(&self) -> Result<Session, FewError> {
        Ok(match self {
            Drilled::Bare(settings) => Session::new(Drill::new(settings.clone())),
            Drilled::Few(settings) => Session::new(Few::new(settings.clone())?),
        })
    }
}

impl Setup {
    const fn seed(&self) -> u64 {
        match &self.drill {
            Drilled::Bare(settings) => settings.seed,
            Drilled::Few(settings) => settings.seed,
        }
    }
}

fn sitting(shared: &Shared, setup: &Setup, held: Held) -> Result<Sitting, Failure> {
    Ok(Sitting {
        screen: shared.screen(),
        listener: shared.listener()?,
        manner: shared.manner(),
        aloud: shared.aloud(),
        voice: setup.telling.voice(shared),
        held,
        exercise: EXERCISE,
        game: None,
        games: Vec::new(),
        pace: setup.telling.pace(),
        trail: 0,
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
    })
}
