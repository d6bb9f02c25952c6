//! Choosing games: the options that commands share, and the walk through the files.

use std::collections::BTreeSet;
use std::fmt::{self, Display};
use std::path::{Path, PathBuf};
use std::str::FromStr;

use clap::Args;
use serde::{Deserialize, Serialize, Serializer};

use super::config::one_or_more;
use super::failure::{Failure, tell};
use super::numbers::Numbers;
use super::places;
use super::shared::Shared;
use super::values::{Text, word};
use super::walk::{Found, Survey};
use crate::exercise::Dice;
use crate::pgn::{
    Day, Encoding, Ended, Finder, Nearness, Passage, Reading, Search, positions_as_games,
    read_twice,
};
use crate::voice::{commands as words, listed};

/// Which games of which files.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Pick {
    /// PGN files, or folders of them; - is standard input [default: your own games, which the config
    /// file names, else demo games]
    #[arg(value_name = "FILE")]
    #[serde(deserialize_with = "one_or_more", serialize_with = "as_shown")]
    pub(super) files: Vec<PathBuf>,
    /// Moves that stand here, in place of a file's.
    #[arg(skip)]
    pub(super) line: Option<String>,
    /// The position that these begin with, or that stands here alone.
    #[arg(skip)]
    pub(super) fen: Option<String>,
    /// Game N, games N-M, all of them, or N:M, sideline M of game N
    #[arg(long, value_name = "N|N-M|all", help_heading = CHOOSING)]
    pub(super) game: Option<Text<Numbers>>,
    /// Words of White's or Black's name
    #[arg(long, value_name = "NAME", help_heading = CHOOSING)]
    pub(super) player: Option<String>,
    /// A part of the event's or the site's name
    #[arg(long, value_name = "TEXT", help_heading = CHOOSING)]
    pub(super) event: Option<String>,
    /// An ECO code, codes as in B20-B99, first moves as in "1. e4 c5", or a part of the opening's name
    #[arg(long, value_name = "TEXT", help_heading = CHOOSING)]
    pub(super) opening: Option<String>,
    /// 1-0, 0-1, 1/2-1/2 or *; won or lost by the --player
    #[arg(long, value_name = "RESULT", value_parser = word::<Ended>(), help_heading = CHOOSING,
          hide_possible_values = true, allow_hyphen_values = true)]
    pub(super) result: Option<Ended>,
    /// Games of so many plies (moves of one side), as in 40-80
    #[arg(long, value_name = "N-M", help_heading = CHOOSING)]
    pub(super) length: Option<Text<Numbers>>,
    /// Games of this date or later: 2026, 2026.03 or 2026.03.01
    #[arg(long, value_name = "DATE", help_heading = CHOOSING)]
    pub(super) since: Option<Text<Day>>,
    /// Games of this date or earlier
    #[arg(long, value_name = "DATE", help_heading = CHOOSING)]
    pub(super) until: Option<Text<Day>>,
    /// Any one of the games that fit, by chance (see --seed)
    #[arg(long, help_heading = CHOOSING)]
    pub(super) random: bool,
    /// The encoding of the files, as in windows-1251 [default: UTF-8 or Windows-1252, field by field]
    #[arg(long, value_name = "NAME", help_heading = CHOOSING)]
    pub(super) encoding: Option<Text<NamedEncoding>>,
}

/// An encoding by a name of the Encoding Standard (WHATWG), 4.2.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct NamedEncoding(&'static Encoding);

impl FromStr for NamedEncoding {
    type Err = String;

    fn from_str(name: &str) -> Result<NamedEncoding, String> {
        // What the standard replaces as a whole is no text afterwards.
        let found = Encoding::for_label_no_replacement(name.as_bytes());
        found
            .map(NamedEncoding)
            .ok_or_else(|| words::no_encoding(name))
    }
}

impl Display for NamedEncoding {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(self.0.name())
    }
}

/// The options that choose a game; with `--resume` none is chosen.
pub(super) const CHOICE: [&str; 8] = [
    "player", "event", "opening", "result", "length", "since", "until", "random",
];

const CHOOSING: &str = "Choosing games";
/// What the dice are rolled for; checkpoints have the small numbers.
const PICKING: u64 = u64::MAX;

/// So many names are offered that are near to one that is not found.
const NEAR_NAMES: usize = 5;

/// What is done with each game that fits. As it stands behind a pointer, the walk is compiled once and not once a command.
pub(super) type Work<'a, T> = &'a (dyn Fn(&Path, Found<'_>) -> T + Sync);
/// What becomes of it, in the order of the files; false ends the walk.
pub(super) type Take<'a, T> = &'a mut dyn FnMut(&Path, Found<'_>, T) -> Result<bool, Failure>;

/// Writes the names of files, which need be no texts.
fn as_shown<S: Serializer>(files: &[PathBuf], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(files.iter().map(|file| file.to_string_lossy()))
}

/// A game that was picked and read.
#[derive(Clone, Debug)]
pub(super) struct Chosen {
    /// The file, as it was named.
    pub(super) file: PathBuf,
    /// The game's text.
    pub(super) passage: Passage,
    /// What it is read as.
    pub(super) reading: Reading,
}

impl Pick {
    /// Returns the numbers of the games that were named.
    pub(super) fn numbers(&self) -> Option<Numbers> {
        self.game.map(|Text(numbers)| numbers)
    }

    /// Tells whether one game is taken whatever it is: it was named by its number, or is drawn by chance.
    pub(super) fn takes_any(&self) -> bool {
        self.random || self.numbers().is_some_and(Numbers::is_one)
    }

    /// Returns the game that stands here itself, where one does.
    fn written(&self) -> Option<String> {
        let start = self.fen.as_deref().map(positions_as_games);
        let start = start
            .as_deref()
            .map(|game| game.trim_end_matches([' ', '*', '\n']));
        let has_any = start.is_some() || self.line.is_some();
        let line = self.line.as_deref().unwrap_or_default();
        has_any.then(|| format!("{}\n\n{line} *", start.unwrap_or_default()))
    }

    /// Returns the files that games are taken from, one by one.
    pub(super) fn places(&self, shared: &Shared) -> Result<Vec<PathBuf>, Failure> {
        if self.written().is_some() {
            return Ok(vec![PathBuf::from(words::WRITTEN_HERE)]);
        }
        places::files(&self.files, &shared.config.games)
    }

    /// Picks from one file, every game or those of these numbers.
    pub(super) fn of_file(file: &Path, game: Option<Text<Numbers>>) -> Pick {
        Pick {
            files: vec![file.to_owned()],
            game,
            ..Pick::default()
        }
    }

    /// Makes the search ready.
    ///
    /// # Errors
    ///
    /// [`Failure`] when the opening cannot be read, or nobody is named who won or lost.
    pub(super) fn finder(&self, nearness: Nearness) -> Result<Finder, Failure> {
        let day = |day: &Option<Text<Day>>| day.clone().map(|Text(day)| day);
        let opening = self.opening.as_deref().map(str::parse).transpose();
        if self.player.is_none() && matches!(self.result, Some(Ended::Won | Ended::Lost)) {
            return Err(Failure::usage(words::WON_BY_WHOM));
        }
        let texts = [&self.player, &self.event, &self.opening];
        let is_empty = |text: &&String| !text.contains(char::is_alphanumeric);
        if let Some(text) = texts.into_iter().flatten().find(is_empty) {
            return Err(Failure::Usage(words::nothing_to_find(text)));
        }
        let search = Search {
            player: self.player.clone(),
            event: self.event.clone(),
            opening: opening
                .map_err(|reason: String| Failure::Usage(words::no_opening(&reason)))?,
            ended: self.result,
            plies: self.length.map(|Text(plies)| plies.first..=plies.last),
            since: day(&self.since),
            until: day(&self.until),
        };
        Ok(Finder::new(&search, nearness))
    }

    /// Walks the games that fit, file by file, and hands each to `look`, which returns whether to go
    /// on; with `--random`, one of them alone. Returns how many fitted.
    ///
    /// # Errors
    ///
    /// [`Failure`] when a file cannot be read, holds no game, or when no game fits.
    pub(super) fn walk(
        &self,
        shared: &Shared,
        mut look: impl FnMut(Chosen) -> Result<bool, Failure>,
    ) -> Result<usize, Failure> {
        // Games are read one after the other: what follows the one that is taken may be no game at all.
        self.survey(
            shared,
            false,
            &|_, _| (),
            &mut |file, found, ()| {
                let (passage, reading) = found.read(read_twice);
                let mut chosen = Chosen {
                    file: file.to_owned(),
                    passage,
                    reading,
                };
                if self.written().is_some() {
                    chosen.refuse_broken(shared.plain)?;
                }
                if let Some(number) = self.numbers().and_then(|numbers| numbers.sideline) {
                    let sideline = chosen.reading.game.sideline(number);
                    let none = || Failure::Unusable(words::no_sideline(number));
                    let sideline = sideline.ok_or_else(none);
                    chosen.reading.game = sideline.map_err(|none| none.about(&chosen.name()))?;
                }
                look(chosen)
            },
            &|| 0,
        )
    }

    /// Does `work` on each game that fits, `ahead` of its use on all cores, and gives what came of it to
    /// `take` in order, file by file, until that returns false; with `--random`, one game alone. `pause` is
    /// as in [`Survey::walk`]. Returns how many fitted.
    ///
    /// # Errors
    ///
    /// As [`walk`](Pick::walk).
    pub(super) fn survey<T: Send>(
        &self,
        shared: &Shared,
        ahead: bool,
        work: Work<'_, T>,
        take: Take<'_, T>,
        pause: &dyn Fn() -> usize,
    ) -> Result<usize, Failure> {
        if self.written().is_none() && places::are_demo(&self.files, &shared.config.games) {
            places::say_demo();
        }
        let files = self.places(shared)?;
        let files = (&files[..], &shared.config.games[..]);
        if !self.random {
            return self.walk_all(files, ahead, work, take, pause);
        }
        let mut dice = Dice::new(shared.seed()?, PICKING);
        let mut kept = None;
        let mut fitted = 0;
        // Each further game takes the place of the kept one with a chance of 1 in all so far, so
        // that in the end each has been as likely as the other.
        let walked = self.walk_all(
            files,
            ahead,
            &|_, _| (),
            &mut |file, found, ()| {
                fitted += 1;
                if dice.chance(1, fitted) {
                    kept = Some((file.to_owned(), found.block.only(found.span)));
                }
                Ok(true)
            },
            pause,
        );
        if let Some((file, block)) = &kept
            && let [span] = block.games()
        {
            let found = Found { block, span };
            let done = work(file, found);
            take(file, found, done)?;
        }
        walked
    }

    fn walk_all<T: Send>(
        &self,
        (files, own): (&[PathBuf], &[PathBuf]),
        ahead: bool,
        work: Work<'_, T>,
        take: Take<'_, T>,
        pause: &dyn Fn() -> usize,
    ) -> Result<usize, Failure> {
        // Whole words of a name come first. Standard input is read but once.
        let once = self.player.is_none() || files.contains(&PathBuf::from("-"));
        let first = if once {
            Nearness::Beginning
        } else {
            Nearness::Whole
        };
        let mut seen = 0;
        for nearness in [first, Nearness::Beginning] {
            let finder = self.finder(nearness)?;
            let fitting;
            (fitting, seen) = self.walk_once((files, own), &finder, ahead, work, take, pause)?;
            match finder.undated() {
                0 => {}
                undated => tell(&listed::without_date(undated)),
            }
            if fitting > 0 {
                return Ok(fitting);
            }
            if once {
                break;
            }
        }
        let mut near = BTreeSet::new();
        if !once {
            let finder = self.finder(Nearness::Misspelt)?;
            let mut note = |_: &Path, found: Found<'_>, ()| {
                near.extend(finder.name(&found.heading()));
                Ok(near.len() < NEAR_NAMES)
            };
            self.walk_once((files, own), &finder, ahead, &|_, _| (), &mut note, pause)?;
        }
        Err(self.nothing_fits(seen, files.len(), near))
    }

    /// Walks all files once, where those of one's `own` games may hold none; returns how many games fitted, and how
    /// many were seen.
    fn walk_once<T: Send>(
        &self,
        (files, own): (&[PathBuf], &[PathBuf]),
        finder: &Finder,
        ahead: bool,
        work: Work<'_, T>,
        take: Take<'_, T>,
        pause: &dyn Fn() -> usize,
    ) -> Result<(usize, usize), Failure> {
        let numbers = self.numbers();
        let survey = Survey {
            finder,
            numbers: numbers.map_or(1..=usize::MAX, |game| game.first..=game.last),
            written: self.written(),
            encoding: self.encoding.map(|Text(NamedEncoding(encoding))| encoding),
            ahead,
        };
        let mut fitting = 0;
        let mut seen = 0;
        for file in files {
            let mut stopped = false;
            let mut counted = |found: Found<'_>, done| {
                fitting += 1;
                stopped = !take(file, found, done)?;
                Ok(!stopped)
            };
            let games = survey.walk(file, &|found| work(file, found), &mut counted, pause)?;
            if stopped {
                return Ok((fitting, seen));
            }
            if games == 0 {
                let reason = Failure::at(file, words::NO_GAME_IN);
                if files.len() > 1 && own.contains(file) {
                    places::leave_out(file, &reason);
                } else if files.len() == 1
                    // A file that lies in a folder without a game in it harms nobody.
                    || (self.files.contains(file) && !own.iter().any(|place| file.starts_with(place)))
                {
                    return Err(reason);
                }
            }
            seen += games;
        }
        Ok((fitting, seen))
    }

    fn nothing_fits(&self, seen: usize, files: usize, near: BTreeSet<String>) -> Failure {
        Failure::Unusable(match self.numbers() {
            Some(numbers) if numbers.first > seen && files == 1 => {
                words::no_such_game(numbers.first, seen)
            }
            _ => words::nothing_fits(seen, near),
        })
    }
}
