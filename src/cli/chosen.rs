//! The game that an exercise goes through: which one, and what there is to say about it.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use super::excerpt;
use super::failure::{Failure, shown, tell};
use super::pick::{Chosen, Pick};
use super::shared::Shared;
use super::values::quoted;
use crate::exercise::{Cut, OverGame, Script, ScriptError};
use crate::learner::{GameRef, Played, Record, finished_games};
use crate::pgn::{Cost, Reading};
use crate::voice::{asides, clean_name, commands as words};

impl Chosen {
    /// Names the game in an error.
    pub(super) fn name(&self) -> String {
        let Chosen { file, passage, .. } = self;
        if file == Path::new(words::WRITTEN_HERE) {
            return words::WRITTEN_HERE.to_owned();
        }
        words::game_at(&shown(file), passage.line, passage.number)
    }

    /// Names the game as the journal does.
    pub(super) fn game_ref(&self) -> GameRef {
        GameRef {
            file: file_name(&self.file),
            number: self.passage.number,
        }
    }

    /// Returns the file, as it was named.
    pub(super) fn into_file(self) -> PathBuf {
        self.file
    }

    /// Tells whether it is a position alone: a game without a move that does not begin as usual.
    pub(super) fn is_position(&self) -> bool {
        is_position(&self.reading)
    }

    /// Writes down what of the game is read.
    pub(super) fn script(&self, cut: Cut) -> Result<Script, Failure> {
        Script::new(&self.reading.game, cut).map_err(|error| match error {
            ScriptError::Backwards { .. } => Failure::Usage(error.to_string()),
            ScriptError::NoMoves | ScriptError::NoSuchMove { .. } | ScriptError::Broken(_) => {
                Failure::unusable(error)
            }
        })
    }

    /// Sets an exercise over the game up, which tells of its tags.
    pub(super) fn over<S>(&self, settings: S, script: Script) -> OverGame<S> {
        const TOLD: [&str; 6] = ["Event", "Site", "Date", "Round", "White", "Black"];
        let game = &self.reading.game;
        let tag = |name: &str| Some((name.to_owned(), clean_name(game.tags.known(name)?)));
        // Whoever hears a part of the game is not told how it ended.
        let end = script.line(0).map(|line| line.end().clone());
        let is_whole = end.is_ok_and(|end| end == *game.main_line().end());
        OverGame {
            settings,
            script,
            tags: TOLD.into_iter().filter_map(tag).collect(),
            result: game.result.filter(|_| is_whole),
        }
    }

    /// Says what the reader had to say about the game, where it has moves to be followed unseen without a word of them:
    /// garbled names, how much was understood or dropped, where it breaks off, foreign letters.
    pub(super) fn tell_notes(&self, plain: bool) {
        let Chosen { file, reading, .. } = self;
        let last = reading.game.main_line().plies().last().copied();
        let can_be_checked = ![Path::new(words::WRITTEN_HERE), Path::new("-")].contains(&&**file);
        let number = self.passage.number.to_string();
        let check = [
            "sansvoir",
            "games",
            &shown(file),
            "--game",
            &number,
            "--check",
        ];
        let check = quoted(&check.map(str::to_owned));
        let (counted, told): (Vec<_>, Vec<_>) = (reading.faults.iter()).partition(|fault| {
            last.is_some() && can_be_checked && !fault.reason.concerns_encoding()
        });
        for fault in told {
            tell(&excerpt::sentence(file, fault, plain));
        }
        let mended = counted.iter().filter(|fault| fault.cost == Cost::Nothing);
        match mended.count() {
            0 => {}
            mended => tell(&asides::mended(mended, &check)),
        }
        if !reading.is_whole() {
            let plies = reading.game.main_nodes().count();
            tell(&asides::kept_up_to(
                plies,
                last.map(|ply| ply.number),
                &check,
            ));
        }
        if let Some(letters) = &reading.letters {
            tell(&asides::letters(letters));
        }
    }
}

impl Chosen {
    /// Refuses a game of which moves were lost, with what cost them.
    pub(super) fn refuse_broken(&self, plain: bool) -> Result<(), Failure> {
        let mut faults = self.reading.faults.iter();
        let costly = faults.find(|fault| fault.cost > Cost::Nothing);
        costly.map_or(Ok(()), |fault| {
            let said = excerpt::sentence(&self.file, fault, plain);
            Err(Failure::Unusable(said))
        })
    }
}

/// Picks a game for an exercise among those that are fit for it, and tells at once what there is to say
/// about it: it may be why there is nothing to do. Where none is fit, the first is picked, whose fault it
/// is then told.
///
/// It is the first that was not finished before in this exercise (where plies are read ahead, in any), or,
/// where all were, the one least lately read; one that was named by its number or drawn by chance is taken in
/// any case.
pub(super) fn choose(
    pick: &Pick,
    exercise: &str,
    shared: &Shared,
    records: &[Record],
    is_fit: impl Fn(&Reading) -> bool,
) -> Result<Chosen, Failure> {
    // What is known by heart tells nothing of how far a learner sees.
    let finished = finished_games(records, |other| other == exercise || exercise == "ahead");
    let take_any = pick.takes_any();
    let mut unfit = None;
    let mut least_lately: Option<(usize, Chosen)> = None;
    let mut fresh = None;
    let games = pick.walk(shared, |chosen| {
        if !take_any && !is_fit(&chosen.reading) {
            unfit.get_or_insert(chosen);
            return Ok(true);
        }
        let read = last_read(&finished, &chosen.reading).filter(|_| !take_any);
        let Some(read) = read else {
            fresh = Some(chosen);
            return Ok(false);
        };
        if least_lately.as_ref().is_none_or(|(least, _)| read < *least) {
            least_lately = Some((read, chosen));
        }
        Ok(true)
    })?;
    let finished_all = games > 1 && fresh.is_none() && least_lately.is_some();
    let chosen = fresh.or(least_lately.map(|(_, chosen)| chosen)).or(unfit);
    let chosen = chosen.ok_or_else(|| Failure::unusable(words::NO_GAME_CHOSEN))?;
    chosen.tell_notes(shared.plain);
    if finished_all {
        tell(asides::ALL_FINISHED);
    }
    Ok(chosen)
}

fn last_read(finished: &HashMap<&Played, usize>, reading: &Reading) -> Option<usize> {
    let played = (!finished.is_empty()).then(|| Played::of(&reading.game.main_line()))?;
    finished.get(&played).copied()
}

/// Sees to it that a game named with `--resume` is the one that goes on.
pub(super) fn agrees_with(game: Option<&GameRef>, pick: &Pick) -> Result<(), Failure> {
    let Some(game) = game else { return Ok(()) };
    let named = pick.files.is_empty() || pick.files.iter().any(|file| file_name(file) == game.file);
    if named
        && pick
            .numbers()
            .is_none_or(|numbers| numbers.contain(game.number))
    {
        return Ok(());
    }
    Err(Failure::Usage(words::another_game(game.number, &game.file)))
}

/// The name of a file as the journal keeps it, without its folder.
pub(super) fn file_name(file: &Path) -> String {
    let name = file.file_name().unwrap_or(file.as_os_str());
    name.to_string_lossy().into_owned()
}

/// Tells whether what was read is a position alone.
pub(super) fn is_position(reading: &Reading) -> bool {
    let game = &reading.game;
    game.main_nodes().next().is_none() && reading.is_whole() && !game.start.is_usual()
}
