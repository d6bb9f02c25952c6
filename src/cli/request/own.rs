//! The questions that a coach writes into a part of a lesson.

use std::fmt::{self, Display};
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::cli::values::Text;
use crate::exercise::{Beside, OpenQuestion, Script};
use crate::game::{Line, MoveNumber, Start};
use crate::question::{LineQuestion, Scene, WrittenError};
use crate::voice::{commands, lesson as words};

/// A question as it stands in the file.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct OwnQuestion {
    /// Behind which move it is asked; at the end where none is named.
    #[serde(rename = "move", skip_serializing_if = "Option::is_none")]
    at: Option<Text<AtMove>>,
    /// A kind, and what it is about.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) ask: Option<String>,
    /// A question in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    say: Option<String>,
    /// The coach's answer to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    answer: Option<String>,
}

impl OwnQuestion {
    /// Puts the question where it is to be asked.
    ///
    /// # Errors
    ///
    /// The key that is at fault, and why.
    pub(crate) fn put(
        &self,
        line: &Line,
        script: &mut Script,
    ) -> Result<(), (&'static str, String)> {
        let plies = match self.at {
            None => line.len(),
            Some(Text(at)) => plies_at("move", at, line).map_err(|said| ("move", said))?,
        };
        if let Some(what) = self.read(Some(Scene::new(line, plies)))? {
            script.ask(plies, what);
        }
        Ok(())
    }

    /// Reads the question as it is asked there; where nobody knows where that is, one that is right wherever it fits is
    /// `None`.
    ///
    /// # Errors
    ///
    /// The key that is at fault, and why.
    pub(crate) fn read(
        &self,
        scene: Option<Scene<'_>>,
    ) -> Result<Option<Beside>, (&'static str, String)> {
        let filled = |text: &Option<String>| text.clone().filter(|text| !text.trim().is_empty());
        Ok(match (&self.ask, filled(&self.say), filled(&self.answer)) {
            (Some(ask), None, None) => {
                let nowhere = Line::new(Start::standard());
                let read = LineQuestion::written(ask, scene.unwrap_or(Scene::new(&nowhere, 0)));
                if scene.is_none() && matches!(read, Ok(_) | Err(WrittenError::Unfit(_))) {
                    return Ok(None);
                }
                let read = read.map_err(|error| ("ask", words::no_question(ask, &error)))?;
                Some(Beside::Ask(read))
            }
            (None, say @ Some(_), Some(answer)) => Some(Beside::Open(OpenQuestion { say, answer })),
            (Some(_), ..) => return Err(("say", words::ASK_OR_SAY.to_owned())),
            (None, Some(_), None) => return Err(("say", words::key_missing("answer"))),
            (None, None, _) => return Err(("answer", words::ASK_OR_SAY.to_owned())),
        })
    }
}

/// Behind which move something is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum AtMove {
    /// After this move.
    After(MoveNumber),
    /// At the end of the game.
    End,
}

impl FromStr for AtMove {
    type Err = String;

    fn from_str(text: &str) -> Result<AtMove, String> {
        if text == "end" {
            return Ok(AtMove::End);
        }
        let number = text.parse().map(AtMove::After);
        number.map_err(commands::no_move_to_stop_at)
    }
}

impl Display for AtMove {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            AtMove::After(number) => number.fmt(to),
            AtMove::End => to.write_str("end"),
        }
    }
}

/// Counts the plies of a line up to behind a move that a key names.
pub(super) fn plies_at(key: &str, at: AtMove, line: &Line) -> Result<usize, String> {
    let AtMove::After(number) = at else {
        return Ok(line.len());
    };
    let ply = line.plies().iter().position(|ply| ply.number == number);
    ply.map(|ply| ply + 1).ok_or_else(|| {
        let last = line.plies().last().map(|ply| ply.number);
        commands::no_stop_at(key, number, last)
    })
}
