//! `replay`: a game is read aloud, the board hidden, and checkpoints ask.

use clap::Args;
use serde::{Deserialize, Serialize};

use super::arguments::{ExerciseArguments, GameArguments};
use super::own::{AtMove, plies_at};
use crate::cli::failure::{Failure, tell};
use crate::cli::pick::Chosen;
use crate::cli::prepared::{Prepared, Telling};
use crate::cli::shared::Shared;
use crate::cli::values::{AskedKind, Seconds, Text, kinds_asked};
use crate::exercise::bound::{Every, Looks, Plies, Questions, Trail};
use crate::exercise::{By, Checkpoints, Cut, Plan, Script, Settings, Stop};
use crate::game::{Line, MoveNumber};
use crate::learner::Record;
use crate::pgn::Reading;
use crate::voice::{asides, commands as words};

pub(crate) type Arguments = GameArguments<Options, Telling>;

/// What makes a replay the one it is; it stays as it was when the replay is resumed.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Options {
    /// What one Enter reads.
    #[arg(skip)]
    pub(crate) by: Option<By>,
    /// The first move that is read: 14. or 14 is White's, 14... Black's
    #[arg(long, value_name = "MOVE", help_heading = READING)]
    pub(crate) from: Option<Text<MoveNumber>>,
    /// The last move that is read
    #[arg(long, value_name = "MOVE", help_heading = READING)]
    pub(crate) to: Option<Text<MoveNumber>>,
    /// Read the sidelines too, each where it branches off
    #[arg(long, help_heading = READING)]
    pub(crate) sidelines: bool,
    /// Read the comments where they stand.
    #[arg(skip)]
    pub(crate) comments: bool,
    /// Plies that stay readable, and that `again` says again.
    #[arg(skip)]
    pub(crate) trail: Option<Trail>,
    /// A checkpoint every N plies, and at the end [default: 8]
    #[arg(long, value_name = "N", help_heading = ASKING)]
    pub(crate) every: Option<Every>,
    /// Checkpoints after these moves only.
    #[arg(skip)]
    pub(crate) at: Vec<Text<AtMove>>,
    /// Kinds of question, separated by commas, or all [default: whereabouts, attacks and
    /// legality]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = AskedKind::parser(),
          help_heading = ASKING)]
    pub(crate) ask: Vec<Text<AskedKind>>,
    /// Questions at each checkpoint [default: 3]
    #[arg(long, value_name = "N", help_heading = ASKING)]
    pub(crate) questions: Option<Questions>,
    /// The time to think; a right reply after it stays right and is marked late
    #[arg(long, value_name = "SECONDS", help_heading = ASKING)]
    pub(crate) think: Option<Seconds>,
    /// How many looks at the board are allowed.
    #[arg(skip)]
    pub(crate) looks: Option<Looks>,
    /// Whether checkpoints come closer where they are missed.
    #[arg(skip)]
    pub(crate) follow: bool,
    /// The plies of the longest game that is wished for.
    #[arg(skip)]
    pub(crate) longest: Option<Plies>,
}

const READING: &str = "Reading";
const ASKING: &str = "Asking";

impl ExerciseArguments for Arguments {
    fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        let longest = self.options.longest.map_or(usize::MAX, Plies::size);
        let is_fit = |reading: &Reading| reading.game.main_nodes().nth(longest).is_none();
        self.over_one("replay", shared, records, is_fit, |options, chosen| {
            plan(options, chosen, shared)
        })
    }
}

/// Plans a replay of a game as the options say.
fn plan(options: &Options, chosen: &Chosen, shared: &Shared) -> Result<Plan, Failure> {
    let mut script = if chosen.is_position() {
        Script::of_line(&chosen.reading.game.main_line())
    } else {
        chosen.script(Cut {
            from: options.from.map(|Text(number)| number),
            to: options.to.map(|Text(number)| number),
            sidelines: options.sidelines,
            comments: options.comments,
        })?
    };
    let line = script.line(0)?;
    let own = shared.part.as_ref().map_or(&[][..], |part| &part.own);
    let put = own.iter().map(|question| question.put(&line, &mut script));
    let put = put.enumerate();
    let wrong = put.filter_map(|(at, put)| Some((at, put.err()?)));
    let wrong: Vec<_> = wrong.collect();
    if !wrong.is_empty() {
        return Err(Failure::OwnQuestions(wrong));
    }
    let config = &shared.config;
    let settings = Settings {
        by: options.by.or(config.by).unwrap_or(By::Move),
        checkpoints: checkpoints(options, &line, own.is_empty() || !options.ask.is_empty())?,
        ask: kinds_asked(&options.ask),
        questions: options.questions.unwrap_or(Questions::nearest(3)),
        trail: options.trail.or(config.trail).unwrap_or(Trail::nearest(2)),
        think_millis: options.think.map(Seconds::millis),
        looks: options.looks,
        seed: shared.seed()?,
        follow: options.follow,
    };
    if !options.ask.is_empty() && own.is_empty() && settings.stops(&line).is_empty() {
        tell(asides::NOTHING_WORTH_ASKING);
    }
    Ok(Plan::Replay(chosen.over(settings, script)))
}

/// Where the program asks; where a coach does, it asks nothing of its own unless it is told where.
fn checkpoints(options: &Options, line: &Line, by_itself: bool) -> Result<Checkpoints, Failure> {
    if options.at.is_empty() && (by_itself || options.every.is_some()) {
        let every = options.every.unwrap_or(Every::nearest(8));
        return Ok(Checkpoints::Every(every));
    }
    if options.every.is_some() {
        return Err(Failure::usage(words::options_conflict("at", "every")));
    }
    let stop = |Text(at): &Text<AtMove>| plies_at("--at", *at, line).map(Stop::Plies);
    let stops: Result<Vec<Stop>, String> = options.at.iter().map(stop).collect();
    stops.map(Checkpoints::At).map_err(Failure::Unusable)
}
