//! Choosing games: the options that commands share, and the walk through the files.

use std::path::{Path, PathBuf};
use std::str::FromStr;

use clap::Args;

use super::failure::{Failure, shown};
use super::opened::Opened;
use super::survey::{Found, Survey, Walked};
use super::{Shared, demo, places};
use crate::exercise::Dice;
use crate::pgn::{Day, Encoding, Finder, Passage, Search};

/// Which games of which files.
#[derive(Args, Debug, Clone)]
pub(super) struct Pick {
    /// PGN files, or folders of them; - is standard input [default: your own games, which the config
    /// file names, else demo games]
    #[arg(value_name = "FILE")]
    pub(super) files: Vec<PathBuf>,
    /// Game N, games N-M, or all of them
    #[arg(long, value_name = "N|N-M|all", help_heading = CHOOSING)]
    pub(super) game: Option<Numbers>,
    /// Words of White's or Black's name
    #[arg(long, value_name = "NAME", help_heading = CHOOSING)]
    player: Option<String>,
    /// A part of the event's or the site's name
    #[arg(long, value_name = "TEXT", help_heading = CHOOSING)]
    event: Option<String>,
    /// An ECO code, its beginning, or a part of the opening's name
    #[arg(long, value_name = "TEXT", help_heading = CHOOSING)]
    opening: Option<String>,
    /// 1-0, 0-1, 1/2-1/2 or *
    #[arg(long, value_name = "RESULT", value_parser = ["1-0", "0-1", "1/2-1/2", "*"],
          help_heading = CHOOSING, allow_hyphen_values = true)]
    result: Option<String>,
    /// Games of this date or later: 2026, 2026.03 or 2026.03.01
    #[arg(long, value_name = "DATE", help_heading = CHOOSING)]
    since: Option<Day>,
    /// Games of this date or earlier
    #[arg(long, value_name = "DATE", help_heading = CHOOSING)]
    until: Option<Day>,
    /// Any one of the games that fit, by chance (see --seed)
    #[arg(long, help_heading = CHOOSING)]
    pub(super) random: bool,
    /// The encoding of the files, as in windows-1251 [default: UTF-8 or Windows-1252, field by field]
    #[arg(long, value_name = "NAME", value_parser = encoding, help_heading = CHOOSING)]
    encoding: Option<&'static Encoding>,
}

/// Finds an encoding by a name of the Encoding Standard (WHATWG), 4.2.
fn encoding(name: &str) -> Result<&'static Encoding, String> {
    // What the standard replaces as a whole is no text afterwards.
    Encoding::for_label_no_replacement(name.as_bytes()).ok_or_else(|| {
        format!(
            "{name:?} is no encoding known here: write its name as in windows-1251 or shift_jis"
        )
    })
}

const CHOOSING: &str = "Choosing games";
/// What the dice are rolled for; checkpoints have the small numbers.
const PICKING: u64 = u64::MAX;

/// Game numbers, each counted from 1 in its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Numbers {
    first: usize,
    last: usize,
}

impl Numbers {
    /// Tells whether a game has one of these numbers.
    #[must_use]
    pub(super) const fn contain(self, number: usize) -> bool {
        self.first <= number && number <= self.last
    }

    /// Tells whether exactly one game is named.
    #[must_use]
    pub(super) const fn is_one(self) -> bool {
        self.first == self.last
    }
}

impl FromStr for Numbers {
    type Err = String;

    fn from_str(text: &str) -> Result<Numbers, String> {
        let number = |text: &str| {
            text.parse()
                .ok()
                .filter(|number| *number > 0)
                .ok_or_else(|| format!("{text:?} is no game number: write 3, 3-7 or all"))
        };
        if text == "all" {
            return Ok(Numbers {
                first: 1,
                last: usize::MAX,
            });
        }
        let (first, last) = match text.split_once('-') {
            Some((first, last)) => (number(first)?, number(last)?),
            None => (number(text)?, number(text)?),
        };
        if first > last {
            return Err(format!(
                "games {first}-{last} run backwards: write {last}-{first}"
            ));
        }
        Ok(Numbers { first, last })
    }
}

/// A game that was picked.
#[derive(Clone, Debug)]
pub(super) struct Picked {
    /// The file, as it was named.
    pub(super) file: PathBuf,
    /// The game's text.
    pub(super) passage: Passage,
}

impl Pick {
    /// Tells whether games come through standard input.
    pub(super) fn takes_input(&self) -> bool {
        self.files.iter().any(|file| file == Path::new("-"))
    }

    /// Returns the files that games are taken from, one by one.
    pub(super) fn places(&self, shared: &Shared) -> Result<Vec<PathBuf>, Failure> {
        places::files(&self.files, &shared.config)
    }

    /// Picks from one file, every game or those of these numbers.
    pub(super) fn of_file(file: &Path, game: Option<Numbers>) -> Pick {
        Pick {
            files: vec![file.to_owned()],
            game,
            player: None,
            event: None,
            opening: None,
            result: None,
            since: None,
            until: None,
            random: false,
            encoding: None,
        }
    }

    fn search(&self) -> Search {
        Search {
            player: self.player.clone(),
            event: self.event.clone(),
            opening: self.opening.clone(),
            result: self.result.clone(),
            since: self.since.clone(),
            until: self.until.clone(),
        }
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
        mut look: impl FnMut(Picked) -> Result<bool, Failure>,
    ) -> Result<usize, Failure> {
        // Games are read one after the other: what follows the one that is taken may be no game at all.
        self.walk_files(
            shared,
            false,
            |_, _| (),
            |file, found, ()| {
                look(Picked {
                    file: file.to_owned(),
                    passage: found.passage(),
                })
            },
            || 0,
        )
    }

    /// Does `work` on each game that fits, on all cores, and gives what came of it to `take` in order,
    /// file by file, until that returns false; with `--random`, one game alone. `pause` is as in
    /// [`Survey::walk`]. Returns how many fitted.
    ///
    /// # Errors
    ///
    /// As [`walk`](Pick::walk).
    pub(super) fn survey<T: Send>(
        &self,
        shared: &Shared,
        work: impl Fn(&Path, Found<'_>) -> T + Sync,
        take: impl FnMut(&Path, Found<'_>, T) -> Result<bool, Failure>,
        pause: impl Fn() -> usize,
    ) -> Result<usize, Failure> {
        self.walk_files(shared, true, work, take, pause)
    }

    fn walk_files<T: Send>(
        &self,
        shared: &Shared,
        ahead: bool,
        work: impl Fn(&Path, Found<'_>) -> T + Sync,
        mut take: impl FnMut(&Path, Found<'_>, T) -> Result<bool, Failure>,
        pause: impl Fn() -> usize,
    ) -> Result<usize, Failure> {
        if places::are_demo(&self.files, &shared.config) {
            demo::say_default();
        }
        let files = self.places(shared)?;
        if !self.random {
            return self.walk_all(&files, ahead, work, take, pause);
        }
        let mut dice = Dice::new(shared.seed()?, PICKING);
        let mut kept = None;
        let mut fitted = 0;
        // Each further game takes the place of the kept one with a chance of 1 in all so far, so
        // that in the end each has been as likely as the other.
        let walked = self.walk_all(
            &files,
            ahead,
            |_, _| (),
            |file, found, ()| {
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
        files: &[PathBuf],
        ahead: bool,
        work: impl Fn(&Path, Found<'_>) -> T + Sync,
        mut take: impl FnMut(&Path, Found<'_>, T) -> Result<bool, Failure>,
        pause: impl Fn() -> usize,
    ) -> Result<usize, Failure> {
        let finder = Finder::new(&self.search());
        let numbers = self
            .game
            .map_or(1..=usize::MAX, |game| game.first..=game.last);
        let mut fitting = 0;
        let mut seen = 0;
        for file in files {
            let opened = Opened::new(file, self.encoding)?;
            // A pipe is not read further than the games that are asked for.
            let waits = opened.size.is_none() && numbers.end() < &usize::MAX;
            let survey = Survey {
                finder: &finder,
                numbers: numbers.clone(),
                ahead: ahead && !waits,
            };
            let counted = |found: Found<'_>, done| {
                fitting += 1;
                take(file, found, done)
            };
            let Walked { games, stopped } =
                survey.walk(file, opened, |found| work(file, found), counted, &pause)?;
            if stopped {
                return Ok(fitting);
            }
            // A file that lies in a folder without a game in it harms nobody.
            if games == 0 && (files.len() == 1 || self.files.contains(file)) {
                return Err(no_game_in(file));
            }
            seen += games;
        }
        if fitting == 0 {
            return Err(self.nothing_fits(seen, files.len()));
        }
        Ok(fitting)
    }

    fn nothing_fits(&self, seen: usize, files: usize) -> Failure {
        let games = if seen == 1 {
            "1 game"
        } else {
            &format!("{seen} games")
        };
        Failure::Unusable(match self.game {
            Some(numbers) if numbers.first > seen && files == 1 => format!(
                "there is no game {}: the file holds {games}; sansvoir games FILE lists them",
                numbers.first
            ),
            _ => format!("none of the {games} fits: sansvoir games FILE lists them"),
        })
    }
}

fn no_game_in(file: &Path) -> Failure {
    Failure::Unusable(format!(
        "{}: this file holds no game: give a file of PGN games",
        shown(file)
    ))
}
