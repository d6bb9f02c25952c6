//! What is kept of games that were played: a record of each in the journal, and their moves in a PGN file.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use shakmaty::Position;

use super::desk::Desk;
use crate::cli::failure::{Failure, shown};
use crate::exercise::bound::Rating;
use crate::exercise::{GameSummary, PlaySummary, TurnSummary};
use crate::game::{Game, MoveOrNull, Place, Tags};
use crate::learner::{GameRecord, Record};
use crate::pgn::{Collection, export};
use crate::terminal::now;
use crate::voice::{asides, clean_name, commands, play as words};

/// Writes games down once all of them are over. A game that stands in the file already is not appended again.
pub(super) fn keep(desk: &mut Desk, own: &PlaySummary) -> Result<(), Failure> {
    if own.games.iter().any(|game| game.end.is_none()) {
        return Ok(());
    }
    let settings = &own.settings;
    let rating = match &desk.engine {
        Some(engine) => engine.rating,
        None => settings.rating.map(Rating::get),
    };
    if let Some(out) = desk.out.clone() {
        let opponent = words::opponent_name(settings, rating);
        let games = own.games.iter();
        let games = games.map(|game| export(&written(game, &opponent, &desk.learner)));
        append(&out, &games.collect::<String>())?;
        let last = Collection::new(File::open(&out)?).count();
        desk.kept = Some(asides::game_kept(&shown(&out), own.games.len(), last));
    }
    for (at, game) in own.games.iter().enumerate() {
        let broke = game.turns.iter().find(|turn| turn.breaks());
        let record = GameRecord {
            stamp: desk.stamp(),
            board: at + 1,
            side: game.learner,
            rating,
            engine: settings.engine.clone(),
            result: game.result().marker().to_owned(),
            end: game.end.map_or("", Into::into).to_owned(),
            pieces: game.line.position(game.begins).board().occupied().count(),
            plies: game.line.len() - game.begins,
            held: broke.map(|turn| turn.plies.saturating_sub(game.begins)),
            slips: game.slips(),
            unseen: own.is_unseen(),
        };
        desk.keep(Record::Game(Box::new(record)))?;
    }
    Ok(())
}

fn open(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.create(true).read(true).append(true).open(path)
}

/// Sees to it that games can be appended to a file; one that is not there is not there afterwards either.
pub(crate) fn can_keep(path: &Path) -> Result<(), Failure> {
    let is_new = !path.exists();
    let is_file = open(path).and_then(|file| Ok(file.metadata()?.is_file()));
    let is_file = is_file.map_err(|error| Failure::file(path, &error))?;
    if is_new {
        fs::remove_file(path)?;
    }
    let no_file = || Failure::at(path, commands::NO_FILE);
    is_file.then_some(()).ok_or_else(no_file)
}

fn append(path: &Path, games: &str) -> Result<(), Failure> {
    let append = || {
        let mut file = open(path)?;
        // What decides stands at its end, and a collection may be of any size.
        let decisive = games.len() as u64 + 2;
        let length = file.metadata()?.len();
        file.seek(SeekFrom::Start(length.saturating_sub(decisive)))?;
        let mut text = Vec::new();
        { &file }.take(decisive).read_to_end(&mut text)?;
        if text.ends_with(games.as_bytes()) {
            return Ok(());
        }
        // A text of somebody else's may lack its last line's end.
        let gap = if text.is_empty() || text.ends_with(b"\n\n") {
            ""
        } else {
            "\n\n"
        };
        file.write_all(format!("{gap}{games}").as_bytes())?;
        file.sync_all()
    };
    append().map_err(|error: io::Error| Failure::at(path, asides::not_kept(&error.to_string())))
}

/// Puts a game together with what is told of the learner's moves.
fn written(game: &GameSummary, opponent: &str, learner: &str) -> Game {
    let (white, black) = game
        .learner
        .fold_wb((learner, opponent), (opponent, learner));
    let tags: Tags = [
        ("Event", words::EVENT.to_owned()),
        ("Date", now().strftime("%Y.%m.%d").to_string()),
        ("White", clean_name(white)),
        ("Black", clean_name(black)),
    ]
    .into_iter()
    .collect();
    let mut pgn = Game::new(tags, game.line.start().clone());
    let mut last = None;
    for (at, ply) in game.line.plies().iter().enumerate() {
        let id = pgn.go_on(last, MoveOrNull::Move(ply.mv), Place::new(1, 1));
        let turns: Vec<&TurnSummary> = game.turns.iter().filter(|turn| turn.plies == at).collect();
        pgn.node_mut(id).comments.extend(words::comment(&turns));
        last = Some(id);
    }
    pgn.result = Some(game.result());
    pgn
}
