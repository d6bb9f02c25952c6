//! What the journal keeps of a session of calculation, and how it is made from the options.

use serde::{Deserialize, Serialize};

use super::super::Shared;
use super::super::arguments::millis;
use super::super::chosen::{Chosen, choose_among};
use super::super::failure::Failure;
use super::super::telling::Telling;
use super::EXERCISE;
use super::arguments::{Arguments, Course};
use crate::exercise::{
    Ahead, AheadError, AheadSettings, Cut, Dice, MatesSettings, Script, ScriptError, Show,
};
use crate::learner::pace::{answers, staircase};
use crate::learner::{GameRef, Played, Record};
use crate::pgn::Reading;

/// What the dice are rolled for when games are drawn; the rounds have the small numbers, and the choice
/// of one game the largest.
const DRAWING: u64 = u64::MAX - 1;

/// All that another process needs to go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Setup {
    pub(super) telling: Telling,
    /// The games, in the order in which the settings number them.
    pub(super) games: Vec<GameRef>,
    pub(super) sidelines: bool,
    pub(super) exercise: Exercise,
}

/// What is done with the games.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Exercise {
    Ahead(AheadSettings),
    Mates(MatesSettings),
}

impl Setup {
    /// Sets up a session of calculation.
    pub(super) fn ahead(
        arguments: &Arguments,
        shared: &Shared,
        records: &[Record],
    ) -> Result<Setup, Failure> {
        let course = &arguments.course;
        if course.sidelines && course.show() == Show::None {
            return Err(Failure::Usage(
                "a game that is read up to each position is read without its sidelines: leave out \
                 --sidelines, or give --show diagram or list"
                    .to_owned(),
            ));
        }
        let several = arguments.pick.game.is_some_and(|numbers| !numbers.is_one());
        let chosen = if several {
            draw_games(arguments, shared)?
        } else {
            vec![one_game(arguments, shared, records)?]
        };
        let mut games = Vec::new();
        let mut scripts = Vec::new();
        for game in &chosen {
            let script = script(game, course).map_err(|failure| failure.about(&game.name()))?;
            games.push(game.game_ref());
            scripts.push(script);
        }
        let settings = AheadSettings {
            games: scripts,
            show: course.show(),
            plies: course.plies.map(usize::from),
            staircase: staircase(&answers(records)),
            rounds: course.rounds(),
            per_round: course.per_round(),
            ask: course.kinds(),
            think_millis: course.think.map(millis),
            looks: course.looks,
            seed: shared.seed()?,
        };
        // What does not fit is told here, where the game's name is known.
        if let (Err(error), [game, ..]) = (Ahead::new(settings.clone()), chosen.as_slice()) {
            let failure = Failure::unusable(error);
            return Err(if several {
                failure
            } else {
                failure.about(&game.name())
            });
        }
        Ok(Setup {
            telling: Telling::new(arguments.manner.wished(), None, shared),
            games,
            sidelines: course.sidelines,
            exercise: Exercise::Ahead(settings),
        })
    }

    /// Returns the same session with lines of one length from beginning to end: as long as it was set, or as
    /// the answers so far speak for, or as the games allow.
    pub(super) fn with_fixed_plies(mut self) -> Setup {
        if let Exercise::Ahead(settings) = &mut self.exercise {
            let follows = settings.staircase.presented() as usize;
            settings.plies.get_or_insert(follows);
            if let Err(AheadError::TooShort { longest, .. }) = Ahead::new(settings.clone()) {
                settings.plies = Some(longest);
            }
        }
        self
    }

    pub(super) const fn seed(&self) -> u64 {
        match &self.exercise {
            Exercise::Ahead(settings) => settings.seed,
            Exercise::Mates(settings) => settings.seed,
        }
    }

    /// Returns the game that is finished when the session is: none where there are several, or only
    /// the mates in it were asked.
    pub(super) fn played(&self) -> Result<Option<Played>, Failure> {
        match &self.exercise {
            Exercise::Ahead(settings) => match settings.games.as_slice() {
                [script] => {
                    let line = script.line(0).map_err(Failure::unusable)?;
                    Ok(Some(Played::of(&line)))
                }
                _ => Ok(None),
            },
            Exercise::Mates(_) => Ok(None),
        }
    }

    pub(super) fn game(&self) -> Option<GameRef> {
        match self.games.as_slice() {
            [game] => Some(game.clone()),
            _ => None,
        }
    }
}

/// Writes down what of a game is used.
pub(super) fn script(game: &Chosen, course: &Course) -> Result<Script, Failure> {
    if course.sidelines && game.reading.game.sideline_count() == 0 {
        return Err(Failure::Unusable(
            "the game has no sidelines: leave out --sidelines, or choose another game".to_owned(),
        ));
    }
    let cut = Cut {
        sidelines: course.sidelines,
        ..Cut::default()
    };
    Script::new(&game.reading.game, cut).map_err(|error| match error {
        ScriptError::Backwards { .. } => Failure::Usage(error.to_string()),
        ScriptError::NoMoves | ScriptError::NoSuchMove { .. } | ScriptError::Broken(_) => {
            Failure::unusable(error)
        }
    })
}

/// Tells whether a game can give positions at first sight: it is long enough, and it has sidelines where
/// they are asked for.
pub(super) fn is_fit(course: &Course, reading: &Reading) -> bool {
    let plies = course.plies.map_or(1, usize::from);
    let game = &reading.game;
    let long_enough = game.main_nodes().nth(plies.saturating_sub(1)).is_some();
    long_enough && (!course.sidelines || game.sideline_count() > 0)
}

fn one_game(arguments: &Arguments, shared: &Shared, records: &[Record]) -> Result<Chosen, Failure> {
    let fit = |reading: &Reading| is_fit(&arguments.course, reading);
    choose_among(&arguments.pick, EXERCISE, shared, records, fit)
}

/// Draws a game for each round out of all that fit, each as likely as the other; fewer where there are
/// no more.
fn draw_games(arguments: &Arguments, shared: &Shared) -> Result<Vec<Chosen>, Failure> {
    let mut dice = Dice::new(shared.seed()?, DRAWING);
    let rounds = arguments.course.rounds();
    let mut drawn: Vec<Chosen> = Vec::new();
    let mut unfit = None;
    let mut fitted = 0;
    arguments.pick.walk(shared, |picked| {
        let chosen = Chosen::new(picked);
        if !is_fit(&arguments.course, &chosen.reading) {
            unfit.get_or_insert(chosen);
            return Ok(true);
        }
        fitted += 1;
        if drawn.len() < rounds {
            drawn.push(chosen);
        } else {
            // The newcomer takes the place of one of those drawn with the chance that keeps all alike.
            let place = dice.below(fitted);
            if let Some(earlier) = drawn.get_mut(place) {
                *earlier = chosen;
            }
        }
        Ok(true)
    })?;
    for chosen in &drawn {
        chosen.tell_notes(shared.plain);
    }
    if drawn.is_empty() {
        // The one at hand is refused with its reason.
        drawn.extend(unfit);
    }
    Ok(drawn)
}
