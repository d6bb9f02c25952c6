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
use crate::exercise::{Drill, DrillSettings, Few, FewSettings, Session};
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
    let (session, opening): (Box<dyn Session>, _) = match &setup.drill {
        Drilled::Bare(settings) => {
            let mut drill = Drill::without_returns(settings.clone());
            let opening = drill.begin();
            (Box::new(drill), opening)
        }
        Drilled::Few(settings) => {
            let mut few = Few::new(settings.clone()).map_err(Failure::unusable)?;
            let opening = few.begin();
            (Box::new(few), opening)
        }
    };
    Ok(Exercise {
        name: EXERCISE,
        session,
        opening,
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
    match &setup.drill {
        Drilled::Bare(settings) => {
            let mut drill = Drill::new(settings.clone()).with_think_times(shared.think_times());
            sitting.keep(Record::Start(start))?;
            let opening = drill.begin();
            sitting.hold(&mut drill, opening)
        }
        Drilled::Few(settings) => {
            let few = Few::new(settings.clone()).map_err(Failure::unusable)?;
            let mut few = few.with_think_times(shared.think_times());
            sitting.keep(Record::Start(start))?;
            let opening = few.begin();
            sitting.hold(&mut few, opening)
        }
    }
}

fn resume(arguments: &Arguments, shared: &Shared, resumed: Resumed) -> Result<(), Failure> {
    let earlier = resumed.earlier(shared, EXERCISE)?;
    let setup: Setup = resumed.setup(&earlier)?;
    arguments.agree_with(&setup.drill, shared.seed)?;
    match &setup.drill {
        Drilled::Bare(settings) => {
            let past = earlier.drill_past();
            let past = past.map_err(|error| resumed.cannot_go_on(error))?;
            let mut drill = Drill::new(settings.clone()).with_think_times(shared.think_times());
            let sitting = sitting(shared, &setup, resumed.held)?;
            let opening = drill.resume(past);
            sitting.hold(&mut drill, opening)
        }
        Drilled::Few(settings) => {
            let few = Few::new(settings.clone());
            let few = few.map_err(|error| resumed.cannot_go_on(error))?;
            let mut few = few.with_think_times(shared.think_times());
            let progress = earlier.progress();
            let sitting = sitting(shared, &setup, resumed.held)?;
            let opening = few.resume(progress);
            sitting.hold(&mut few, opening)
        }
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
