//! `drill`: questions over the bare board, or over a few pieces.

use std::path::{Path, PathBuf};

use clap::Args;
use serde::{Deserialize, Serialize};

use super::arguments::{ExerciseArguments, SessionArguments};
use super::placement::{self, DRAWING, any_excerpts};
use crate::cli::failure::{Failure, shown};
use crate::cli::numbers::Numbers;
use crate::cli::pick::Pick;
use crate::cli::prepared::{Asked, Prepared};
use crate::cli::shared::Shared;
use crate::cli::toml_file::Keys;
use crate::cli::values::{
    AskedKind, DrillKind, GivenOptions, Seconds, Text, as_shown, kinds_asked, word,
};
use crate::exercise::bound::{Blockers, Count, FewPieces, FewPlies, Looks, Questions};
use crate::exercise::{
    Dice, DrillSettings, FewSettings, MOST_DRAWN, Plan, PlanError, Script, Views, excerpts,
    played_on,
};
use crate::learner::{Record, weak};
use crate::question::Kind;
use crate::voice::handbook::Page;
use crate::voice::{commands as words, lesson::key_missing};

/// The options of a drill.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
pub(crate) struct Arguments {
    /// Go on with the drill that was left unfinished last, with its settings
    #[arg(long)]
    #[serde(skip)]
    pub(crate) resume: bool,
    #[command(flatten)]
    pub(crate) options: Options,
}

/// What makes a drill the one it is; it stays as it was when the drill is resumed.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Options {
    /// Kinds of question on the empty board, separated by commas; or few, for a handful of pieces
    #[arg(value_name = "KINDS", value_delimiter = ',', value_parser = DrillKind::parser())]
    pub(crate) kinds: Vec<Text<DrillKind>>,
    /// How many questions [default: 20]
    #[arg(long, value_name = "N")]
    pub(crate) count: Option<Count>,
    /// The side from which squares are seen, for name and place: white, black or both [default: both]
    #[arg(long, value_name = "SIDE", hide_possible_values = true, value_parser = word::<Views>())]
    #[serde(alias = "view")]
    pub(crate) side: Option<Views>,
    /// The time to think [default: each kind's own; 5 for name, place and color]
    #[arg(long, value_name = "SECONDS")]
    pub(crate) think: Option<Seconds>,
    /// The pieces that attack and travel, separated by commas [default: all]
    #[arg(long, value_name = "PIECES", value_delimiter = ',', value_parser = word::<PieceName>())]
    pub(crate) piece: Vec<PieceName>,
    /// How many blockers stand in the way, for distance and route.
    #[arg(skip)]
    pub(crate) blockers: Option<Blockers>,
    /// How many pieces are read out, the kings among them: 3 to 32; more than 10
    /// come out of games [default: 5]
    #[arg(long, value_name = "N", help_heading = FEW)]
    pub(crate) pieces: Option<FewPieces>,
    /// How many plies are played on and read aloud [default: 4]
    #[arg(long, value_name = "N", help_heading = FEW)]
    pub(crate) plies: Option<FewPlies>,
    /// Kinds of question, separated by commas, or all [default: whereabouts, attacks and
    /// legality]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = AskedKind::parser(),
          help_heading = FEW)]
    pub(crate) ask: Vec<Text<AskedKind>>,
    /// Questions over each position [default: 2]
    #[arg(long, value_name = "N", help_heading = FEW)]
    pub(crate) questions: Option<Questions>,
    /// How many looks at the board are allowed.
    #[arg(skip)]
    pub(crate) looks: Option<Looks>,
    /// Whether it finds where the course begins.
    #[arg(skip)]
    pub(crate) place: bool,
    /// Whether the questions are taught.
    #[arg(skip)]
    pub(crate) teach: bool,
    /// Whether think times follow the learner.
    #[arg(skip)]
    pub(crate) follow: bool,
    /// Take the pieces that are left late in a game of this PGN file, and what was played on
    #[arg(long, value_name = "FILE", help_heading = FEW)]
    #[serde(serialize_with = "as_shown")]
    pub(crate) from: Option<PathBuf>,
    /// The positions that are taken, a line each.
    #[arg(skip)]
    pub(crate) fen: Option<String>,
    /// Which game of that file [default: the first that gets down to so few pieces]
    #[arg(long, value_name = "N", help_heading = FEW)]
    pub(crate) game: Option<Text<Numbers>>,
}

/// So many rounds over one's own positions have plies of their own.
const MOST_PLAYED_ON: usize = 64;

const FEW: &str = "For few";
/// The options for few pieces.
const FOR_FEW: [&str; 8] = [
    "pieces",
    "plies",
    "ask",
    "questions",
    "looks",
    "from",
    "fen",
    "game",
];
/// The options for questions on the empty board, and the kinds that heed them.
const FOR_KINDS: [(&str, &[Kind]); 3] = [
    ("side", &[Kind::Name, Kind::Place]),
    (
        "piece",
        &[Kind::Span, Kind::Crossing, Kind::Distance, Kind::Route],
    ),
    ("blockers", &[Kind::Distance, Kind::Route]),
];

/// A piece that attacks and travels, by its FEN letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[repr(u8)]
pub(crate) enum PieceName {
    Knight = b'N',
    Bishop = b'B',
    Rook = b'R',
    Queen = b'Q',
    King = b'K',
    Pawn = b'P',
}

impl SessionArguments for Arguments {
    fn from_keys(keys: &mut Keys<'_>) -> Arguments {
        if !keys.has("kinds") {
            keys.refuse(&[], key_missing("kinds"));
        }
        Arguments {
            resume: false,
            options: keys.take(),
        }
    }

    fn asked(&self) -> Result<Asked<'_>, Failure> {
        Ok(Asked {
            resume: self.resume,
            options: GivenOptions::of(&self.options)?,
            ..Asked::default()
        })
    }

    fn files(&self) -> &[PathBuf] {
        self.options.from.as_slice()
    }

    fn files_mut(&mut self) -> &mut [PathBuf] {
        self.options.from.as_mut_slice()
    }
}

impl ExerciseArguments for Arguments {
    fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        let (options, asked) = (&self.options, self.asked()?);
        if options.kinds.is_empty() && !options.place {
            let kinds = DrillKind::names().filter_map(|name| Page::of("kinds").row(name));
            return Err(Failure::Usage(words::drill_of_what(kinds)));
        }
        let plan = if options.place {
            placement::plan(shared)?
        } else if options.asks_few(&asked.options)? {
            Plan::Few(options.few(shared)?)
        } else {
            Plan::Drill(options.drill(&asked.options, shared, records)?)
        };
        Prepared::new(plan, Vec::new(), asked, shared)
    }

    /// Whoever gets the sheet is asked the same, whatever was weak before.
    fn on_paper(&self, shared: &Shared, _: &[Record]) -> Result<Prepared, Failure> {
        self.prepare(shared, &[])
    }
}

impl Options {
    /// Tells whether a few pieces are asked for, and sees to it that every option that is given is for
    /// what is asked.
    fn asks_few(&self, given: &GivenOptions) -> Result<bool, Failure> {
        let few = self.kinds.contains(&DrillKind::more());
        let kinds = DrillKind::kinds(&self.kinds);
        if few && !kinds.is_empty() {
            return Err(Failure::usage(words::FEW_ALONE));
        }
        if !few {
            return match given.first_of(&FOR_FEW) {
                Some(option) => Err(Failure::Usage(words::option_of_few(option))),
                None => Ok(false),
            };
        }
        if let Some(option) = given.first_of(&FOR_KINDS.map(|(option, _)| option)) {
            return Err(Failure::Usage(words::option_of_the_empty_board(option)));
        }
        if self.game.is_some() && self.from.is_none() {
            return Err(Failure::usage(words::GAME_WITHOUT_FROM));
        }
        Ok(true)
    }

    /// Settles a drill of the empty board.
    fn drill(
        &self,
        given: &GivenOptions,
        shared: &Shared,
        records: &[Record],
    ) -> Result<DrillSettings, Failure> {
        let kinds = DrillKind::kinds(&self.kinds);
        let asks = |some: &[Kind]| kinds.iter().any(|kind| some.contains(kind));
        for (option, heeding) in FOR_KINDS {
            if given.first_of(&[option]).is_some() && !asks(heeding) {
                return Err(Failure::Usage(words::option_of_kinds(option, heeding)));
            }
        }
        let letters = self.piece.iter().map(|piece| char::from(*piece as u8));
        let mut pieces: Vec<char> = letters.collect();
        let pawns_alone = !pieces.is_empty() && pieces.iter().all(|piece| *piece == 'P');
        // A pawn is White's or Black's.
        pieces.extend(pieces.contains(&'P').then_some('p'));
        if pawns_alone && asks(&[Kind::Distance, Kind::Route]) {
            return Err(Failure::usage(words::PAWNS_DO_NOT_TRAVEL));
        }
        // Where the questions are chosen beforehand, what is weak is among them.
        let part = shared.part.as_ref();
        let chosen = part.map_or_else(Vec::new, |part| part.chosen.clone());
        let weak = if chosen.is_empty() {
            weak(records, &kinds)
        } else {
            Vec::new()
        };
        Ok(DrillSettings {
            kinds,
            count: self.count.unwrap_or(Count::nearest(20)),
            view: self.side.unwrap_or(Views::Both),
            think_millis: self.think.map(Seconds::millis),
            pieces,
            blockers: self.blockers.unwrap_or(Blockers::nearest(0)),
            seed: shared.seed()?,
            weak,
            chosen,
            teach: self.teach,
            follow: self.follow,
        })
    }

    /// Settles a drill of few pieces.
    fn few(&self, shared: &Shared) -> Result<FewSettings, Failure> {
        let pieces = self.pieces.unwrap_or(FewPieces::nearest(5));
        let plies = self.plies.unwrap_or(FewPlies::nearest(4));
        let count = self.count.unwrap_or(Count::nearest(20));
        let per_round = self.questions.unwrap_or(Questions::nearest(2));
        Ok(FewSettings {
            pieces,
            plies,
            count,
            per_round,
            ask: kinds_asked(&self.ask),
            think_millis: self.think.map(Seconds::millis),
            looks: self.looks,
            seed: shared.seed()?,
            from: if self.fen.is_some() || self.from.is_some() {
                let rounds = count.size().div_ceil(per_round.size());
                Some(self.excerpts(pieces.size(), plies.size(), rounds, shared)?)
            } else if pieces.size() > MOST_DRAWN {
                let mut scripts =
                    any_excerpts(pieces.size(), plies.size(), &mut Vec::new(), shared)?;
                Dice::new(shared.seed()?, DRAWING).shuffle(&mut scripts);
                Some(scripts)
            } else {
                None
            },
            follow: self.follow,
        })
    }

    /// Cuts positions out of the game that was chosen, or of the first that has any; positions without a move are taken
    /// as they are, all of them, and played on from, otherwise in each round.
    fn excerpts(
        &self,
        pieces: usize,
        plies: usize,
        rounds: usize,
        shared: &Shared,
    ) -> Result<Vec<Script>, Failure> {
        let pick = Pick {
            files: self.from.iter().cloned().collect(),
            fen: self.fen.clone(),
            game: self.game,
            ..Pick::default()
        };
        let mut found: Result<Vec<Script>, (usize, PlanError)> = Ok(Vec::new());
        let (mut last, mut own) = (None, Vec::new());
        pick.walk(shared, |picked| {
            let number = picked.passage.number;
            if picked.is_position() {
                own.push(picked.reading.game.start);
                return Ok(true);
            }
            let chosen = last.insert(picked);
            let line = chosen.reading.game.main_line();
            found = excerpts(&line, pieces, plies).map_err(|error| (number, error));
            Ok(found.is_err())
        })?;
        if !own.is_empty() {
            let rounds = rounds.min(MOST_PLAYED_ON).max(own.len());
            let (turns, seed) = (own.iter().cycle().take(rounds), shared.seed()?);
            let played = (0..).zip(turns);
            return Ok({ played }
                .map(|(round, start)| played_on(start, plies, seed, round))
                .collect());
        }
        if let Some(chosen) = last {
            chosen.tell_notes(shared.plain);
        }
        found.map_err(|(game, error)| {
            let file = self.from.as_deref();
            let file = shown(file.unwrap_or(Path::new(words::WRITTEN_HERE)));
            Failure::Unusable(words::about_game(&file, game, &error.to_string()))
        })
    }
}
