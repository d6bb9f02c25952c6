//! `recite`: the learner says a game from memory.

use clap::Args;
use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::arguments::{ExerciseArguments, GameArguments};
use crate::cli::failure::Failure;
use crate::cli::pick::Chosen;
use crate::cli::prepared::Prepared;
use crate::cli::shared::Shared;
use crate::cli::values::{Seconds, Text, word};
use crate::exercise::bound::Every;
use crate::exercise::{Cut, Plan, ReciteSettings, Sides};
use crate::game::MoveNumber;
use crate::learner::Record;
use crate::pgn::Reading;

pub(crate) type Arguments = GameArguments<Options>;

/// What makes a recital the one it is; it stays as it was when the recital is resumed.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Options {
    /// Your side, white or black: the other side's moves are read out [default: both]
    #[arg(long, value_name = "SIDE", hide_possible_values = true, help_heading = RECITING,
          value_parser = word::<Sides>())]
    side: Option<Sides>,
    /// The first move of the recital: 14. or 14 is White's, 14... Black's
    #[arg(long, value_name = "MOVE", help_heading = RECITING)]
    from: Option<Text<MoveNumber>>,
    /// The last move of the recital
    #[arg(long, value_name = "MOVE", help_heading = RECITING)]
    pub(crate) to: Option<Text<MoveNumber>>,
    /// After a first miss, name the piece that moves; without it, the word hint does so.
    #[arg(skip)]
    hint: bool,
    /// Ask the whole position every N plies, and at the end [default: never]
    #[arg(long, value_name = "N", help_heading = RECITING)]
    every: Option<Every>,
    /// Learn the game, N plies at a time: hear them, say them, then all so far
    #[arg(long, value_name = "N", help_heading = RECITING)]
    pub(crate) chunk: Option<Every>,
    /// The time to think; a right reply after it stays right and is marked late
    #[arg(long, value_name = "SECONDS", help_heading = RECITING)]
    think: Option<Seconds>,
}

const RECITING: &str = "Reciting";

impl ExerciseArguments for Arguments {
    fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        let is_fit = |reading: &Reading| {
            let holds = |Text(last): &Text<MoveNumber>| {
                let line = reading.game.main_line();
                line.plies().iter().any(|ply| ply.number == *last)
            };
            self.options.to.as_ref().is_none_or(holds)
        };
        let mut prepared = self.over_one("recite", shared, records, is_fit, plan)?;
        if let Some(sides) = self.options.side.filter(|sides| *sides != Sides::Both) {
            let side = Color::from_white(sides.says(Color::White));
            prepared.telling = prepared.telling.seen_from(side);
        }
        Ok(prepared)
    }

    /// There the game is not learned in pieces, which come again after a slip.
    fn on_paper(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        let mut prepared = self.prepare(shared, records)?;
        if let Plan::Recite(of_game) = &mut prepared.plan {
            of_game.settings.chunk = None;
        }
        Ok(prepared)
    }
}

/// Plans a recital of a game as the options say.
fn plan(options: &Options, chosen: &Chosen) -> Result<Plan, Failure> {
    let script = chosen.script(Cut {
        from: options.from.map(|Text(number)| number),
        to: options.to.map(|Text(number)| number),
        ..Cut::default()
    })?;
    let settings = ReciteSettings {
        sides: options.side.unwrap_or_default(),
        every: options.every,
        hint: options.hint,
        think_millis: options.think.map(Seconds::millis),
        chunk: options.chunk,
    };
    Ok(Plan::Recite(chosen.over(settings, script)))
}
