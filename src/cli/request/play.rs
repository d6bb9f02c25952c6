//! `play`: a whole game without a board, against an opponent.

use std::fs::File;
use std::path::{PathBuf, absolute};
use std::slice;

use clap::Args;
use serde::{Deserialize, Serialize};
use shakmaty::{CastlingMode, Color, Position};

use super::Request;
use super::arguments::{ExerciseArguments, GameArguments, SessionArguments};
use super::replay;
use crate::cli::failure::{Failure, something_was_told};
use crate::cli::numbers::Numbers;
use crate::cli::own;
use crate::cli::pick::Pick;
use crate::cli::prepared::{Announcing, Asked, OpponentOptions, Prepared, Telling};
use crate::cli::shared::Shared;
use crate::cli::toml_file::Keys;
use crate::cli::values::{AskedKind, GivenOptions, Text, as_shown, kinds_asked, word};
use crate::exercise::bound::{Boards, Every, Rating, SidePieces};
use crate::exercise::opponent::{RATINGS, follow, nearest_rating};
use crate::exercise::{
    BoardShown, Cut, Dice, GameSettings, Input, Plan, PlaySettings, Script, few_to_play,
};
use crate::game::{ARRAYS, Line, MoveNumber, Start, array};
use crate::learner::{GameRef, Record};
use crate::pgn::Collection;
use crate::terminal::{Said, Tone, Way};
use crate::voice::{asides, commands as words};

/// The options of a game.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
pub(crate) struct Arguments {
    /// Go on with the game that was left unfinished last, against the same opponent or another one
    #[arg(long)]
    #[serde(skip)]
    resume: bool,
    #[command(flatten)]
    pub(crate) options: Options,
    #[command(flatten)]
    opponent: OpponentOptions,
    #[command(flatten)]
    telling: Announcing,
}

/// What makes a game the one it is; it stays as it was when the game is resumed.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Options {
    /// Go on from a game of this PGN file
    #[arg(value_name = "FILE")]
    #[serde(serialize_with = "as_shown")]
    file: Option<PathBuf>,
    /// Which game of that file [default: the first]
    #[arg(long, value_name = "N", help_heading = BEGINNING, requires = "file")]
    game: Option<Text<Numbers>>,
    /// The first move that is not read but played: 14. or 14 is White's, 14... Black's [default: after the last]
    #[arg(long, value_name = "MOVE", help_heading = BEGINNING, requires = "file")]
    from: Option<Text<MoveNumber>>,
    /// Begin from a FEN; from array N of Chess960, 0 to 959; or from any, with chess960
    #[arg(long, value_name = "FEN|N|chess960", help_heading = BEGINNING, conflicts_with = "file")]
    #[serde(alias = "fen")]
    start: Option<String>,
    /// Begin with N pieces a side, the king counted: 2 to 11
    #[arg(long, value_name = "N", help_heading = BEGINNING, conflicts_with_all = ["file", "start"])]
    pub(crate) pieces: Option<SidePieces>,
    /// How many games at once, move about: 1 to 6 [default: 1]
    #[arg(long, value_name = "N", help_heading = BEGINNING)]
    count: Option<Boards>,
    /// Your side: white, black or random [default: random; with FILE, the side to move]
    #[arg(long, value_name = "SIDE", hide_possible_values = true, help_heading = PLAYING,
          value_parser = word::<Who>())]
    side: Option<Who>,
    /// The opponent's strength on an engine's scale, 500 to 1900, or what an engine offers [default: it
    /// follows your results]
    #[arg(long, value_name = "N", help_heading = PLAYING)]
    pub(crate) rating: Option<Rating>,
    /// What you see of the board: always, N (after every N moves), empty or never [default: never]
    #[arg(long, value_name = "BOARD", help_heading = PLAYING)]
    pub(crate) board: Option<Text<BoardShown>>,
    /// Kinds of question on the way, separated by commas, or all [default: none]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = AskedKind::parser(),
          help_heading = PLAYING)]
    ask: Vec<Text<AskedKind>>,
    /// After how many of your moves these come [default: 5]
    #[arg(long, value_name = "N", help_heading = PLAYING, requires = "ask")]
    every: Option<Every>,
}

const BEGINNING: &str = "Beginning";
const PLAYING: &str = "Playing";

/// Who the learner is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Who {
    White,
    Black,
    Random,
}

impl SessionArguments for Arguments {
    fn from_keys(keys: &mut Keys<'_>) -> Arguments {
        Arguments {
            resume: false,
            options: keys.take(),
            opponent: keys.take(),
            telling: keys.take(),
        }
    }

    fn asked(&self) -> Result<Asked<'_>, Failure> {
        let is_empty = matches!(self.options.board, Some(Text(BoardShown::Empty)));
        Ok(Asked {
            resume: self.resume,
            pick: None,
            options: GivenOptions::of(&self.options)?,
            telling: Telling::from(self.telling).with_empty_board(is_empty),
            opponent: self.opponent.clone(),
        })
    }

    fn files(&self) -> &[PathBuf] {
        self.options.file.as_slice()
    }

    fn files_mut(&mut self) -> &mut [PathBuf] {
        self.options.file.as_mut_slice()
    }
}

impl ExerciseArguments for Arguments {
    fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        let (plan, game) = self.options.plan(&self.opponent, shared, records)?;
        let mut asked = self.asked()?;
        if let [game] = &plan.games[..] {
            asked.telling = asked.telling.seen_from(game.learner);
        }
        let games = Vec::from_iter(game);
        Prepared::new(Plan::Play(plan), games, asked, shared)
    }

    /// Counts the file of a game that was kept among the learner's own, and offers to go through it.
    fn close(&self, held: &Prepared, shared: &Shared) -> Result<(), Failure> {
        let Some(out) = &held.opponent.out else {
            return Ok(());
        };
        let contents = shared.journal()?.read()?;
        let is_over = matches!(contents.records.last(), Some(Record::End(end)) if end.finished);
        if !is_over || shared.part.is_some() {
            return Ok(());
        }
        let mut announcer = shared.announcer();
        let whole = absolute(out).unwrap_or_else(|_| out.clone());
        if !shared.config.games.iter().any(|own| whole.starts_with(own)) {
            let said = own::change(slice::from_ref(&whole), &[], shared);
            announcer.say(
                Tone::Aside,
                &said.unwrap_or_else(|failure| failure.told(true)),
            )?;
        }
        if shared.manner().way == Way::Piped {
            return Ok(());
        }
        announcer.say(Tone::Plain, asides::HEAR_IT_AGAIN)?;
        let listener = shared.listener()?;
        let Said::Line(line) = announcer.line(&listener, asides::BEGIN_PROMPT, &[])? else {
            return Ok(());
        };
        match Input::read(&line.text, 0) {
            Input::GoOn => {}
            _ if matches!(line.text.trim(), "y" | "yes") => {}
            Input::Stop => return Ok(()),
            _ => return announcer.say(Tone::Aside, asides::ANOTHER_TIME),
        }
        // What was told so far has been read.
        something_was_told();
        let file = File::open(out).map_err(|error| Failure::at(out, error))?;
        let last = Collection::new(file).count().to_string();
        let pick = Pick::of_file(out, last.parse().ok().map(Text));
        Request::Replay(GameArguments::over(&pick, replay::Options::default())).run(shared)
    }

    fn on_paper(&self, _: &Shared, _: &[Record]) -> Result<Prepared, Failure> {
        Err(Failure::usage(words::NOT_ON_PAPER))
    }
}

impl Options {
    fn plan(
        &self,
        opponent: &OpponentOptions,
        shared: &Shared,
        records: &[Record],
    ) -> Result<(PlaySettings, Option<GameRef>), Failure> {
        let seed = shared.seed()?;
        let mut dice = Dice::new(seed, SETTING_UP);
        let mut games = Vec::new();
        let mut from = None;
        for _ in 0..self.count.map_or(1, Boards::size) {
            let (line, game) = self.line(shared, &mut dice)?;
            from = game;
            let by_chance = Color::from_white(dice.chance(1, 2));
            games.push(GameSettings {
                script: Script::of_line(&line),
                learner: match self.side {
                    Some(Who::White) => Color::White,
                    Some(Who::Black) => Color::Black,
                    None if self.file.is_some() => line.end().turn(),
                    Some(Who::Random) | None => by_chance,
                },
            });
        }
        let engine = opponent.engine_name();
        let mut starts = games.iter().map(|game| game.script.line(0));
        let are_whole =
            starts.all(|line| line.is_ok_and(|line| line.end().board().occupied().count() == ALL));
        let follows = self.rating.is_none() && engine.is_none() && are_whole;
        let rating = match (self.rating.map(Rating::get), &engine) {
            (wished, Some(_)) => wished,
            (None, None) => Some(next_rating(records)),
            (Some(wished), None) => Some(own_rating(wished)?),
        };
        let settings = PlaySettings {
            games,
            rating: rating.map(|rating| Rating::nearest(rating as usize)),
            engine,
            follows,
            board: self.board.map_or(BoardShown::Never, |Text(board)| board),
            ask: if self.ask.is_empty() {
                Vec::new()
            } else {
                kinds_asked(&self.ask)
            },
            every: self.every.unwrap_or(Every::nearest(5)),
            seed,
        };
        Ok((settings, from))
    }

    /// Returns the plies before the first that is played.
    fn line(&self, shared: &Shared, dice: &mut Dice) -> Result<(Line, Option<GameRef>), Failure> {
        if let Some(file) = &self.file {
            let mut chosen = None;
            Pick::of_file(file, self.game).walk(shared, |picked| {
                chosen = Some(picked);
                Ok(false)
            })?;
            let chosen = chosen.ok_or_else(|| Failure::unusable(words::NO_GAME_CHOSEN))?;
            chosen.tell_notes(shared.plain);
            let line = chosen.reading.game.main_line();
            let Some(Text(from)) = self.from else {
                return Ok((line, Some(chosen.game_ref())));
            };
            let found = line.plies().iter().position(|ply| ply.number == from);
            let cut = Cut {
                from: Some(from),
                ..Cut::default()
            };
            let Some(plies) = found else {
                return Err(chosen.script(cut).err().unwrap_or(Failure::GamesAtFault));
            };
            return Ok((line.cut(0, plies), Some(chosen.game_ref())));
        }
        let start = match (&self.start, self.pieces) {
            (Some(start), _) => begin(start, dice)?,
            (None, Some(pieces)) => few_to_play(pieces.size(), dice),
            (None, None) => Start::standard(),
        };
        Ok((Line::new(start), None))
    }
}

/// A game with so many pieces a side, or all, of which so much is seen of the board.
pub(crate) fn request(pieces: Option<usize>, board: &str) -> Request {
    Request::Play(Box::new(Arguments {
        options: Options {
            pieces: pieces.map(SidePieces::nearest),
            board: board.parse().ok(),
            ..Options::default()
        },
        ..Arguments::default()
    }))
}

/// What the dice are rolled for; the games have the small numbers.
const SETTING_UP: u64 = u64::MAX - 2;

/// Reads where a game begins.
fn begin(text: &str, dice: &mut Dice) -> Result<Start, Failure> {
    if text == "chess960" {
        let number = u32::try_from(dice.below(ARRAYS as usize)).unwrap_or_default();
        return Ok(array(number));
    }
    if let Some(number) = text.parse().ok().filter(|number| *number < ARRAYS) {
        return Ok(array(number));
    }
    // Only Chess960 names castling by the rooks' files.
    let castling = text.split_whitespace().nth(2).unwrap_or_default();
    let mode = if castling.contains(|c: char| c != '-' && !"KQkq".contains(c)) {
        CastlingMode::Chess960
    } else {
        CastlingMode::Standard
    };
    Start::from_fen(text, mode).map_err(|error| Failure::Usage(error.to_string()))
}

/// Returns the rating nearest to this one at which the program's own opponent plays.
fn own_rating(wished: u32) -> Result<u32, Failure> {
    let (least, most) = (RATINGS[0], RATINGS[RATINGS.len() - 1]);
    if !(least..=most).contains(&wished) {
        return Err(Failure::Usage(words::no_rating(wished, least, most)));
    }
    Ok(nearest_rating(wished))
}

/// The pieces of a whole game.
const ALL: usize = 32;

/// The rating that follows the learner's whole games against the program's own opponent.
fn next_rating(records: &[Record]) -> u32 {
    let games = records.iter().filter_map(|record| match record {
        Record::Game(game) if game.engine.is_none() && game.pieces == ALL => Some(game),
        _ => None,
    });
    follow(games.filter_map(|game| Some((game.rating?, game.won()))))
}
