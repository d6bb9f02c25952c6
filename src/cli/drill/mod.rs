//! `drill`: questions over the bare board.

mod arguments;

use super::failure::Failure;
use super::shared::{Shared, records};
use super::sitting::Sitting;
use crate::learner::{Record, StartRecord, unfinished, weak};
use crate::session::{Drill, DrillSettings};
use crate::terminal::session_name;
use crate::voice::{Announce, Voice};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "drill";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let records = records(&journal)?;
    let earlier = if arguments.resume {
        Some(unfinished(&records, EXERCISE).ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished drill to go on with: leave out --resume".to_owned(),
            )
        })?)
    } else {
        None
    };
    let settings = match &earlier {
        Some(earlier) => {
            let settings = Failure::setup::<DrillSettings>("drill", &earlier.start.setup)?;
            arguments.agree_with(&settings, shared.seed)?;
            settings
        }
        None => arguments.settings(shared.seed()?, weak(&records, &arguments.kinds))?,
    };
    let mut drill = Drill::new(settings.clone());
    let mut sitting = Sitting {
        screen: shared.screen(),
        listener: shared.listener()?,
        manner: shared.manner(),
        voice: Voice {
            announce: Announce::Words,
            view: shakmaty::Color::White,
            plain: shared.plain,
        },
        journal: &journal,
        name: match &earlier {
            Some(earlier) => earlier.start.stamp.session.clone(),
            None => session_name().map_err(Failure::unusable)?,
        },
        exercise: EXERCISE,
        game: None,
        pace: None,
        trail: 0,
    };
    let opening = if let Some(earlier) = &earlier {
        drill.resume(earlier.drill_past().map_err(Failure::unusable)?)
    } else {
        sitting.keep(&Record::Start(StartRecord {
            stamp: sitting.stamp(),
            exercise: EXERCISE.to_owned(),
            played: None,
            game: None,
            seed: settings.seed,
            setup: serde_json::to_value(&settings).map_err(Failure::unusable)?,
        }))?;
        drill.begin()
    };
    sitting.hold(&mut drill, opening)
}
