//! `drill`: questions over the bare board, or over a few men.

mod arguments;
mod few;

use serde::{Deserialize, Serialize};

use super::failure::Failure;
use super::shared::{Shared, records};
use super::sheet::Exercise;
use super::sitting::{Page, Sitting};
use crate::learner::{Journal, Record, StartRecord, Unfinished, weak};
use crate::session::{Drill, DrillSettings, Few, FewSettings, Session};
use crate::voice::Voice;

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "drill";

/// What the journal keeps of a drill, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Setup {
    Bare(DrillSettings),
    Few(FewSettings),
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let records = records(&journal)?;
    if arguments.resume {
        let earlier = shared.unfinished(&records, EXERCISE).ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished drill to go on with: leave out --resume".to_owned(),
            )
        })?;
        return resume(arguments, shared, &journal, &earlier);
    }
    begin(&setup(arguments, shared, &records)?, shared, &journal)
}

/// Sets a drill up as the options say, with what these records tell of weak questions.
fn setup(arguments: &Arguments, shared: &Shared, records: &[Record]) -> Result<Setup, Failure> {
    Ok(if arguments.asks_few()? {
        Setup::Few(arguments.few.settings(&arguments.course, shared)?)
    } else {
        // Where the questions are chosen beforehand, what is weak is among them.
        let chosen = shared.chosen();
        let weak = if chosen.is_empty() {
            weak(records, &arguments.kinds())
        } else {
            Vec::new()
        };
        Setup::Bare(arguments.settings(shared.seed()?, weak, chosen)?)
    })
}

/// Sets a drill up for paper, where nothing comes again. Whoever gets the sheet is asked the same: what
/// a journal says of weak questions is left out.
pub(super) fn on_paper(arguments: &Arguments, shared: &Shared) -> Result<Exercise, Failure> {
    if arguments.resume {
        return Err(Exercise::cannot_resume());
    }
    let setup = setup(arguments, shared, &[])?;
    let (session, opening): (Box<dyn Session>, _) = match &setup {
        Setup::Bare(settings) => {
            let mut drill = Drill::without_returns(settings.clone());
            let opening = drill.begin();
            (Box::new(drill), opening)
        }
        Setup::Few(settings) => {
            let mut few = Few::new(settings.clone()).map_err(Failure::unusable)?;
            let opening = few.begin();
            (Box::new(few), opening)
        }
    };
    Ok(Exercise {
        name: EXERCISE,
        session,
        opening,
        voice: voice(shared),
        game: None,
        file: None,
        played: None,
        decided: Vec::new(),
        seed: setup.seed(),
        setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
    })
}

fn begin(setup: &Setup, shared: &Shared, journal: &Journal) -> Result<(), Failure> {
    let name = shared.session_name()?;
    let mut sitting = sitting(shared, journal, name)?;
    let start = StartRecord {
        stamp: sitting.stamp(),
        exercise: EXERCISE.to_owned(),
        played: None,
        game: None,
        seed: setup.seed(),
        setup: serde_json::to_value(setup).map_err(Failure::unusable)?,
    };
    match setup {
        Setup::Bare(settings) => {
            let mut drill = Drill::new(settings.clone()).with_think_times(shared.think_times());
            sitting.keep(&Record::Start(start))?;
            let opening = drill.begin();
            sitting.hold(&mut drill, opening)
        }
        Setup::Few(settings) => {
            let few = Few::new(settings.clone()).map_err(Failure::unusable)?;
            let mut few = few.with_think_times(shared.think_times());
            sitting.keep(&Record::Start(start))?;
            let opening = few.begin();
            sitting.hold(&mut few, opening)
        }
    }
}

fn resume(
    arguments: &Arguments,
    shared: &Shared,
    journal: &Journal,
    earlier: &Unfinished<'_>,
) -> Result<(), Failure> {
    let setup = Failure::setup(EXERCISE, &earlier.start.setup)?;
    arguments.agree_with(&setup, shared.seed)?;
    let sitting = sitting(shared, journal, earlier.start.stamp.session.clone())?;
    match setup {
        Setup::Bare(settings) => {
            let mut drill = Drill::new(settings).with_think_times(shared.think_times());
            let opening = drill.resume(earlier.drill_past().map_err(Failure::unusable)?);
            sitting.hold(&mut drill, opening)
        }
        Setup::Few(settings) => {
            let few = Few::new(settings).map_err(Failure::unusable)?;
            let mut few = few.with_think_times(shared.think_times());
            let opening = few.resume(earlier.progress());
            sitting.hold(&mut few, opening)
        }
    }
}

impl Setup {
    const fn seed(&self) -> u64 {
        match self {
            Setup::Bare(settings) => settings.seed,
            Setup::Few(settings) => settings.seed,
        }
    }
}

fn sitting<'a>(
    shared: &Shared,
    journal: &'a Journal,
    name: String,
) -> Result<Sitting<'a>, Failure> {
    Ok(Sitting {
        screen: shared.screen(),
        listener: shared.listener()?,
        manner: shared.manner(),
        aloud: shared.aloud(),
        voice: voice(shared),
        journal,
        name,
        exercise: EXERCISE,
        game: None,
        games: Vec::new(),
        pace: None,
        trail: 0,
        before_eyes: None,
        leaving: false,
        interrupted: false,
        page: Page::default(),
    })
}

fn voice(shared: &Shared) -> Voice {
    Voice {
        announce: shared.config.announce.unwrap_or_default(),
        view: shared.config.view.unwrap_or(shakmaty::Color::White),
        plain: shared.plain,
        list: shared.speaking.list,
    }
}
