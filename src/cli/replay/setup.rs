//! What the journal keeps of a replay, and how it is made from the options.

use serde::{Deserialize, Serialize};

use super::super::arguments::{AskedKinds, millis};
use super::super::failure::Failure;
use super::super::shared::Shared;
use super::super::telling::{Telling, Wished};
use super::EXERCISE;
use super::arguments::{Arguments, AtMove, Course};
use crate::exercise::{By, Checkpoints, Cut, Replay, Script, ScriptError, Settings, Stop};
use crate::game::{Game, GameResult, Ply, Tags};
use crate::learner::Played;
use crate::question::Kind;
use crate::voice::clean_name;

/// All that another process needs to go on with a replay.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Setup {
    pub(super) telling: Telling,
    pub(super) settings: Settings,
    script: Script,
    sidelines: bool,
    tags: Vec<(String, String)>,
    result: Option<GameResult>,
}

impl Setup {
    /// Sets a replay of `game` up as the options say.
    pub(super) fn new(
        game: &Game,
        arguments: &Arguments,
        shared: &Shared,
    ) -> Result<Setup, Failure> {
        let course = &arguments.course;
        let cut = Cut {
            from: course.from,
            to: course.to,
            sidelines: course.sidelines,
        };
        let script = Script::new(game, cut).map_err(|error| match error {
            ScriptError::Backwards { .. } => Failure::Usage(error.to_string()),
            ScriptError::NoMoves | ScriptError::NoSuchMove { .. } | ScriptError::Broken(_) => {
                Failure::unusable(error)
            }
        })?;
        let checkpoints = checkpoints(course, &script)?;
        Ok(Setup {
            telling: Telling::new(arguments.manner.wished(), None, shared),
            settings: Settings {
                by: course.by.unwrap_or(By::Move),
                checkpoints,
                ask: course.kinds(),
                questions: course.questions.map_or(3, usize::from),
                trail: course.trail.map_or(2, usize::from),
                think_millis: course.think.map(millis),
                looks: course.looks,
                seed: shared.seed()?,
            },
            script,
            sidelines: course.sidelines,
            tags: told(&game.tags),
            result: game.result,
        })
    }

    /// Changes how the replay is told, where the options of another sitting say so.
    pub(super) fn change(&mut self, wished: Wished, shared: &Shared) {
        self.telling = Telling::new(wished, Some(self.telling), shared);
    }

    /// Makes the replay.
    pub(super) fn replay(&self) -> Result<Replay, Failure> {
        let tags: Tags = self.tags.iter().cloned().collect();
        Replay::new(
            self.script.clone(),
            self.settings.clone(),
            tags,
            self.result,
        )
        .map_err(Failure::unusable)
    }

    /// Returns the line that the replay goes through.
    pub(super) fn played(&self) -> Result<Played, Failure> {
        let line = self.script.line(0).map_err(Failure::unusable)?;
        Ok(Played::of(&line))
    }

    /// Sees to it that the options given with `--resume` are those of the replay that goes on.
    pub(super) fn agrees_with(&self, course: &Course, seed: Option<u64>) -> Result<(), Failure> {
        let settings = &self.settings;
        let at = course
            .at
            .is_some()
            .then(|| checkpoints(course, &self.script))
            .transpose()?;
        let every = course.every.map(|every| Checkpoints::Every(every as usize));
        let line = self.script.line(0).map_err(Failure::unusable)?;
        let number = |ply: Option<&Ply>| ply.map(|ply| ply.number);
        let (first, last) = (number(line.plies().first()), number(line.plies().last()));
        let same = [
            ("--from", course.from.is_none_or(|from| Some(from) == first)),
            ("--to", course.to.is_none_or(|to| Some(to) == last)),
            ("--sidelines", !course.sidelines || self.sidelines),
            ("--by", course.by.is_none_or(|by| by == settings.by)),
            (
                "--every",
                every.is_none_or(|every| every == settings.checkpoints),
            ),
            ("--at", at.is_none_or(|at| at == settings.checkpoints)),
            (
                "--ask",
                course.ask.is_none() || course.kinds() == settings.ask,
            ),
            (
                "--questions",
                course
                    .questions
                    .is_none_or(|count| usize::from(count) == settings.questions),
            ),
            (
                "--trail",
                course
                    .trail
                    .is_none_or(|plies| usize::from(plies) == settings.trail),
            ),
            (
                "--think",
                course
                    .think
                    .is_none_or(|think| Some(millis(think)) == settings.think_millis),
            ),
            (
                "--looks",
                course
                    .looks
                    .is_none_or(|looks| Some(looks) == settings.looks),
            ),
            ("--seed", seed.is_none_or(|seed| seed == settings.seed)),
        ];
        Failure::unless_same(EXERCISE, &same)
    }
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
