//! What the journal keeps of a recital, and how it is made from the options.

use serde::{Deserialize, Serialize};

use super::super::arguments::millis;
use super::super::failure::Failure;
use super::super::replay::told;
use super::super::shared::Shared;
use super::super::telling::{Telling, Wished};
use super::arguments::{Arguments, Course};
use crate::exercise::{Cut, Recite, ReciteSettings, Script, ScriptError};
use crate::game::{Game, GameResult, Tags};
use crate::learner::Played;

/// All that another process needs to go on with a recital.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Setup {
    pub(super) telling: Telling,
    settings: ReciteSettings,
    script: Script,
    tags: Vec<(String, String)>,
    result: Option<GameResult>,
}

impl Setup {
    /// Sets a recital of `game` up as the options say.
    pub(super) fn new(
        game: &Game,
        arguments: &Arguments,
        shared: &Shared,
    ) -> Result<Setup, Failure> {
        let course = &arguments.course;
        let cut = Cut {
            from: course.from,
            to: course.to,
            sidelines: false,
        };
        let script = Script::new(game, cut).map_err(|error| match error {
            ScriptError::Backwards { .. } => Failure::Usage(error.to_string()),
            ScriptError::NoMoves | ScriptError::NoSuchMove { .. } | ScriptError::Broken(_) => {
                Failure::unusable(error)
            }
        })?;
        Ok(Setup {
            telling: Telling::new(arguments.manner.wished(), None, shared),
            settings: ReciteSettings {
                sides: course.side.unwrap_or_default(),
                every: course.every.map(|every| every as usize),
                hint: course.hint,
                think_millis: course.think.map(millis),
            },
            script,
            tags: told(&game.tags),
            result: game.result,
        })
    }

    /// Changes how the recital is told, where the options of another sitting say so.
    pub(super) fn change(&mut self, wished: Wished, shared: &Shared) {
        self.telling = Telling::new(wished, Some(self.telling), shared);
    }

    /// Makes the recital.
    pub(super) fn recite(&self) -> Result<Recite, Failure> {
        let tags: Tags = self.tags.iter().cloned().collect();
        Recite::new(&self.script, self.settings.clone(), tags, self.result)
            .map_err(Failure::unusable)
    }

    /// Returns the line that is recited.
    pub(super) fn played(&self) -> Result<Played, Failure> {
        let line = self.script.line(0).map_err(Failure::unusable)?;
        Ok(Played::of(&line))
    }

    /// Sees to it that the options given with `--resume` are those of the recital that goes on.
    pub(super) fn agrees_with(
        &self,
        course: &Course,
        seed: Option<u64>,
        was: u64,
    ) -> Result<(), Failure> {
        let settings = &self.settings;
        let line = self.script.line(0).map_err(Failure::unusable)?;
        let first = line.plies().first().map(|ply| ply.number);
        let last = line.plies().last().map(|ply| ply.number);
        let every = course.every.map(|every| every as usize);
        let think = course.think.map(millis);
        let same = [
            (
                "--side",
                course.side.is_none_or(|side| side == settings.sides),
            ),
            ("--from", course.from.is_none_or(|from| Some(from) == first)),
            ("--to", course.to.is_none_or(|to| Some(to) == last)),
            ("--hint", !course.hint || settings.hint),
            ("--every", every.is_none() || every == settings.every),
            ("--think", think.is_none() || think == settings.think_millis),
            ("--seed", seed.is_none_or(|seed| seed == was)),
        ];
        Failure::unless_same("recital", &same)
    }
}
