//! A replay as the options say.

use super::super::arguments::{AskedKinds, millis};
use super::super::failure::Failure;
use super::arguments::{AtMove, Course};
use crate::exercise::{By, Checkpoints, Cut, OverGame, Plan, Script, ScriptError, Settings, Stop};
use crate::game::{Game, Tags};
use crate::question::Kind;
use crate::voice::clean_name;

/// Plans a replay of `game` as the options say.
pub(super) fn plan(game: &Game, course: &Course, seed: u64) -> Result<Plan, Failure> {
    let script = cut(
        game,
        Cut {
            from: course.from,
            to: course.to,
            sidelines: course.sidelines,
        },
    )?;
    let settings = Settings {
        by: course.by.unwrap_or(By::Move),
        checkpoints: checkpoints(course, &script)?,
        ask: course.kinds(),
        questions: course.questions.map_or(3, usize::from),
        trail: course.trail.map_or(2, usize::from),
        think_millis: course.think.map(millis),
        looks: course.looks,
        seed,
    };
    let tags = told(&game.tags);
    Ok(Plan::Replay(OverGame::new(settings, script, game, tags)))
}

/// Writes down what of a game is read.
pub(in crate::cli) fn cut(game: &Game, cut: Cut) -> Result<Script, Failure> {
    Script::new(game, cut).map_err(|error| match error {
        ScriptError::Backwards { .. } => Failure::Usage(error.to_string()),
        ScriptError::NoMoves | ScriptError::NoSuchMove { .. } | ScriptError::Broken(_) => {
            Failure::unusable(error)
        }
    })
}

impl Course {
    fn kinds(&self) -> Vec<Kind> {
        AskedKinds::all_of(self.ask.as_deref())
    }
}

fn checkpoints(course: &Course, script: &Script) -> Result<Checkpoints, Failure> {
    let Some(moves) = &course.at else {
        return Ok(Checkpoints::Every(
            course.every.map_or(8, |every| every as usize),
        ));
    };
    let line = script.line(0).map_err(Failure::unusable)?;
    let stop = |at: &AtMove| match at {
        AtMove::End => Ok(Stop::End),
        AtMove::After(number) => line
            .plies()
            .iter()
            .position(|ply| ply.number == *number)
            .map(|ply| Stop::Plies(ply + 1))
            .ok_or_else(|| {
                Failure::Unusable(format!(
                    "--at {number}: that move is not among those that are read, which end with {}",
                    line.plies()
                        .last()
                        .map_or_else(String::new, |ply| ply.number.to_string())
                ))
            }),
    };
    moves
        .iter()
        .map(stop)
        .collect::<Result<_, _>>()
        .map(Checkpoints::At)
}

/// The tags that the opening words tell.
pub(in crate::cli) fn told(tags: &Tags) -> Vec<(String, String)> {
    const TOLD: [&str; 6] = ["Event", "Site", "Date", "Round", "White", "Black"];
    TOLD.iter()
        .filter_map(|name| Some(((*name).to_owned(), clean_name(tags.known(name)?))))
        .collect()
}
