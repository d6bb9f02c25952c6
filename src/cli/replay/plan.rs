//! Which game a replay reads, and how it begins or goes on.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use super::super::Shared;
use super::super::failure::{Failure, shown};
use super::super::fault;
use super::super::pick::{Numbers, Pick, Picked};
use super::super::tell;
use super::EXERCISE;
use super::arguments::Arguments;
use super::setup::Setup;
use crate::learner::{GameRef, Played, Record, Stamp, StartRecord, Unfinished, finished_games};
use crate::notation::{Cost, Reading, read};
use crate::voice::asides;

/// A replay that can begin or go on.
pub(super) struct Plan<'a> {
    pub(super) setup: Setup,
    pub(super) game: Option<GameRef>,
    /// The file of a new replay's game, as it was named.
    pub(super) file: Option<PathBuf>,
    /// The session's name in the journal; it stays the same when the session is resumed.
    pub(super) session: String,
    /// The session that goes on, if this is not a new one.
    pub(super) earlier: Option<Unfinished<'a>>,
}

impl<'a> Plan<'a> {
    /// Plans a new replay of the game that the options choose. What there is to say about the choice
    /// and the state of the game is told at once: it may be why there is nothing to read.
    pub(super) fn begin(
        arguments: &Arguments,
        shared: &Shared,
        records: &[Record],
    ) -> Result<Plan<'a>, Failure> {
        let chosen = choose(&arguments.pick, EXERCISE, shared, records)?;
        let setup = Setup::new(&chosen.reading.game, &arguments.course, shared.seed()?);
        Ok(Plan {
            setup: setup.map_err(|failure| failure.about(&chosen.name()))?,
            game: Some(chosen.game_ref()),
            file: Some(chosen.picked.file),
            session: shared.session_name()?,
            earlier: None,
        })
    }

    /// Plans to go on with the replay that was left unfinished last.
    pub(super) fn resume(
        arguments: &Arguments,
        shared: &Shared,
        records: &'a [Record],
    ) -> Result<Plan<'a>, Failure> {
        let earlier = shared.unfinished(records, EXERCISE).ok_or_else(|| {
            Failure::Unusable(
                "there is no unfinished replay to go on with: leave out --resume".to_owned(),
            )
        })?;
        let setup: Setup = Failure::setup(EXERCISE, &earlier.start.setup)?;
        agrees_with(earlier.start.game.as_ref(), &arguments.pick)?;
        setup.agrees_with(&arguments.course, shared.seed)?;
        Ok(Plan {
            setup,
            game: earlier.start.game.clone(),
            file: None,
            session: earlier.start.stamp.session.clone(),
            earlier: Some(earlier),
        })
    }

    /// Writes down how the replay begins.
    pub(super) fn start_record(&self, stamp: Stamp) -> Result<StartRecord, Failure> {
        Ok(StartRecord {
            stamp,
            exercise: EXERCISE.to_owned(),
            played: Some(self.setup.played()?),
            game: self.game.clone(),
            seed: self.setup.settings.seed,
            setup: serde_json::to_value(&self.setup).map_err(Failure::unusable)?,
        })
    }
}

/// A game that was picked and read.
pub(in crate::cli) struct Chosen {
    picked: Picked,
    pub(in crate::cli) reading: Reading,
}

impl Chosen {
    /// Names the game in an error.
    pub(in crate::cli) fn name(&self) -> String {
        let Picked { file, passage } = &self.picked;
        format!("{}:{}: game {}", shown(file), passage.line, passage.number)
    }

    /// Names the game as the journal does.
    pub(in crate::cli) fn game_ref(&self) -> GameRef {
        GameRef {
            file: file_name(&self.picked.file),
            number: self.picked.passage.number,
        }
    }
}

/// Picks a game for an exercise, and tells at once what there is to say about it.
pub(in crate::cli) fn choose(
    pick: &Pick,
    exercise: &str,
    shared: &Shared,
    records: &[Record],
) -> Result<Chosen, Failure> {
    let (chosen, finished_all) = first_fresh(pick, exercise, shared, records)?;
    for note in notes(&chosen) {
        tell(&note);
    }
    if finished_all {
        tell(asides::ALL_FINISHED);
    }
    Ok(chosen)
}

/// Picks a game: the first that was not finished before, or, where all were, the first; one that was
/// named by its number or drawn by chance is taken in any case. Tells also whether all were finished.
fn first_fresh(
    pick: &Pick,
    exercise: &str,
    shared: &Shared,
    records: &[Record],
) -> Result<(Chosen, bool), Failure> {
    let finished = finished_games(records, exercise);
    let take_any = pick.random || pick.game.is_some_and(Numbers::is_one);
    let mut first = None;
    let mut fresh = None;
    pick.walk(shared, |picked| {
        let reading = read(&picked.passage);
        let chosen = Chosen { picked, reading };
        if take_any || !is_finished(&finished, &chosen.reading) {
            fresh = Some(chosen);
            return Ok(false);
        }
        first.get_or_insert(chosen);
        Ok(true)
    })?;
    match (fresh, first) {
        (Some(chosen), _) => Ok((chosen, false)),
        (None, Some(chosen)) => Ok((chosen, true)),
        (None, None) => Err(Failure::Unusable("no game was chosen".to_owned())),
    }
}

fn is_finished(finished: &HashSet<&Played>, reading: &Reading) -> bool {
    !finished.is_empty() && finished.contains(&Played::of(&reading.game.main_line()))
}

/// Says what the reader had to say about the game: faults that cost moves, foreign piece letters.
fn notes(chosen: &Chosen) -> Vec<String> {
    let Chosen { picked, reading } = chosen;
    let costly = reading
        .faults
        .iter()
        .filter(|fault| fault.cost > Cost::Nothing);
    let mut notes: Vec<String> = costly
        .map(|fault| fault::sentence(&picked.file, fault))
        .collect();
    if !reading.is_whole() {
        let line = reading.game.main_line();
        let last = line.plies().last().map(|ply| ply.number);
        notes.push(asides::kept_up_to(line.len(), last));
    }
    notes.extend(reading.letters.as_ref().map(asides::letters));
    notes
}

/// Sees to it that a game named with `--resume` is the one that goes on.
pub(in crate::cli) fn agrees_with(game: Option<&GameRef>, pick: &Pick) -> Result<(), Failure> {
    let Some(game) = game else { return Ok(()) };
    let named = pick.files.is_empty() || pick.files.iter().any(|file| file_name(file) == game.file);
    if named && pick.game.is_none_or(|numbers| numbers.contain(game.number)) {
        return Ok(());
    }
    Err(Failure::Usage(format!(
        "--resume goes on with game {} of {}: name that one or none, or leave out --resume to begin \
         anew",
        game.number, game.file
    )))
}

/// The name of a file as the journal keeps it, without its folder.
fn file_name(file: &Path) -> String {
    let name = file.file_name().unwrap_or(file.as_os_str());
    name.to_string_lossy().into_owned()
}
