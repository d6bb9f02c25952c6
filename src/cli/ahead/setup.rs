//! A session of calculation as the options say.

use super::super::Shared;
use super::super::arguments::millis;
use super::super::chosen::{Chosen, choose_among};
use super::super::failure::Failure;
use super::super::pick::Pick;
use super::super::prepared::Prepared;
use super::super::replay::cut;
use super::super::telling::Telling;
use super::EXERCISE;
use super::arguments::{Arguments, Course};
use crate::exercise::{Ahead, AheadError, AheadSettings, Cut, Dice, Plan, Script, Show};
use crate::learner::Record;
use crate::learner::pace::{answers, staircase};
use crate::pgn::Reading;

/// What the dice are rolled for when games are drawn; the rounds have the small numbers, and the choice
/// of one game the largest.
const DRAWING: u64 = u64::MAX - 1;

/// Sets up a session of calculation.
pub(super) fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
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
    Ok(Prepared {
        plan: Plan::Ahead(settings),
        telling: Telling::new(arguments.manner.wished(), None, shared),
        games,
        file: None,
        decided: Vec::new(),
        seed: shared.seed()?,
        given: shared.given.clone(),
    })
}

/// Returns the same session with lines of one length from beginning to end: as long as it was set, or as
/// the answers so far speak for, or as the games allow.
pub(super) fn with_fixed_plies(mut prepared: Prepared, pick: &Pick) -> Prepared {
    let Plan::Ahead(settings) = &mut prepared.plan else {
        return prepared;
    };
    if settings.plies.is_none() {
        let mut plies = settings.staircase.presented() as usize;
        settings.plies = Some(plies);
        if let Err(AheadError::TooShort { longest, .. }) = Ahead::new(settings.clone()) {
            plies = longest;
            settings.plies = Some(plies);
        }
        prepared.decided = vec!["--plies".to_owned(), plies.to_string()];
    }
    prepared.file = match &pick.files[..] {
        [file] if prepared.games.len() == 1 => Some(file.clone()),
        _ => None,
    };
    prepared
}

/// Writes down what of a game is used.
pub(super) fn script(game: &Chosen, course: &Course) -> Result<Script, Failure> {
    if course.sidelines && game.reading.game.sideline_count() == 0 {
        return Err(Failure::Unusable(
            "the game has no sidelines: leave out --sidelines, or choose another game".to_owned(),
        ));
    }
    let wished = Cut {
        sidelines: course.sidelines,
        ..Cut::default()
    };
    cut(&game.reading.game, wished)
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
