//! The options of `replay`.

use std::str::FromStr;
use std::time::Duration;

use clap::Args;
use shakmaty::Color;

use super::super::arguments::{AskedKinds, asked_kinds, seconds};
use super::super::named;
use super::super::pick::Pick;
use super::super::telling::Wished;
use crate::exercise::{By, bound};
use crate::game::MoveNumber;
use crate::voice::Announce;

/// Hear a game with the board hidden and answer at checkpoints
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(crate) struct Arguments {
    #[command(flatten)]
    pub(super) pick: Pick,
    /// Go on where the last unfinished replay stopped, with the settings that it began with
    #[arg(long, conflicts_with_all = ["player", "event", "opening", "result", "since", "until",
                                      "random"])]
    pub(in crate::cli) resume: bool,
    #[command(flatten)]
    pub(super) course: Course,
    #[command(flatten)]
    pub(super) manner: Manner,
}

impl Arguments {
    /// Tells whether the game comes through standard input.
    pub(crate) fn takes_input(&self) -> bool {
        self.pick.takes_input()
    }
}

/// What makes a replay the one it is; it stays as it was when the replay is resumed.
#[derive(Args, Debug)]
pub(super) struct Course {
    /// What one Enter reads: ply, move or checkpoint [default: move]
    #[arg(long, value_name = "STRETCH", hide_possible_values = true, help_heading = READING,
          value_parser = named(&[("ply", By::Ply), ("move", By::Move),
                                 ("checkpoint", By::Checkpoint)]))]
    pub(super) by: Option<By>,
    /// The first move that is read: 14. or 14 is White's, 14... Black's
    #[arg(long, value_name = "MOVE", help_heading = READING)]
    pub(super) from: Option<MoveNumber>,
    /// The last move that is read
    #[arg(long, value_name = "MOVE", help_heading = READING)]
    pub(super) to: Option<MoveNumber>,
    /// Read the sidelines too, each where it branches off
    #[arg(long, help_heading = READING)]
    pub(super) sidelines: bool,
    /// Plies that stay readable, and that `again` says again [default: 2]
    #[arg(long, value_name = "N", help_heading = READING,
          value_parser = clap::value_parser!(u16).range(bound::TRAIL.range()))]
    pub(super) trail: Option<u16>,
    /// A checkpoint every N plies, and at the end [default: 8]
    #[arg(long, value_name = "N", conflicts_with = "at", help_heading = ASKING,
          value_parser = clap::value_parser!(u32).range(bound::EVERY.range()))]
    pub(super) every: Option<u32>,
    /// Checkpoints after these moves only, as in 10,14...,end
    #[arg(long, value_name = "MOVES", value_delimiter = ',', help_heading = ASKING)]
    pub(super) at: Option<Vec<AtMove>>,
    /// Kinds of question, separated by commas, or all [default: whereabouts, attacks and
    /// legality]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = asked_kinds(),
          help_heading = ASKING)]
    pub(super) ask: Option<Vec<AskedKinds>>,
    /// Questions at each checkpoint [default: 3]
    #[arg(long, value_name = "N", help_heading = ASKING,
          value_parser = clap::value_parser!(u8).range(bound::QUESTIONS.range()))]
    pub(super) questions: Option<u8>,
    /// The time to think; a right reply after it stays right and is marked late
    #[arg(long, value_name = "SECONDS", value_parser = seconds, help_heading = ASKING)]
    pub(super) think: Option<Duration>,
    /// How many looks at the board are allowed [default: any number, each counted]
    #[arg(long, value_name = "N", help_heading = ASKING,
          value_parser = clap::value_parser!(u32).range(bound::LOOKS.range()))]
    pub(super) looks: Option<u32>,
}

/// How a replay is read out; it goes on as it was, and may change from one sitting to the next.
#[derive(Args, Debug)]
pub(crate) struct Manner {
    /// Read on by itself, with so many seconds between; without it, Enter goes on
    #[arg(long, value_name = "SECONDS", value_parser = seconds, help_heading = READING)]
    pace: Option<Duration>,
    /// How moves are announced [default: words]
    #[arg(long, value_name = "STYLE", help_heading = READING,
          value_parser = named(&[("words", Announce::Words), ("san", Announce::San),
                                 ("long", Announce::Long), ("spelled", Announce::Spelled)]))]
    announce: Option<Announce>,
    /// The side from which the board is shown [default: white]
    #[arg(long, value_name = "SIDE", help_heading = READING,
          value_parser = named(&[("white", Color::White), ("black", Color::Black)]))]
    view: Option<Color>,
}

impl Manner {
    pub(in super::super) const fn wished(&self) -> Wished {
        Wished {
            announce: self.announce,
            view: self.view,
            pace: self.pace,
        }
    }
}

const READING: &str = "Reading";
const ASKING: &str = "Asking";

const HELP: &str = "\
At the prompt, Enter goes on; again, question, look, pass, help and stop can be said any time.
Without a choice of game, the first one that you have not finished is read.
On a terminal, moves older than the trail are wiped, all moves when a question comes, and each \
verdict once it has been read. They stand on its alternate screen, where it has one, and no \
scrollback keeps them; how it went is told on the normal screen.
With --announce spelled, files, ranks, pieces and castling are said in the words that the FIDE Laws \
of Chess give for players who cannot see; the words for captures, check and mate are our own.

Examples:
  sansvoir replay games-demo/club-evening.pgn
  sansvoir replay games-demo/club-evening.pgn --game 3 --ask all --every 6 --think 20";

/// One word of `--at`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum AtMove {
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
        number.map_err(|error| format!("{error}; end is the end of the game"))
    }
}
