//! The options of `recite`.

use std::time::Duration;

use clap::Args;
use shakmaty::Color;

use super::super::arguments::seconds;
use super::super::named;
use super::super::pick::Pick;
use super::super::telling::Wished;
use crate::exercise::{Sides, bound};
use crate::game::MoveNumber;
use crate::voice::Announce;

/// Say a game from memory, move by move
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(crate) struct Arguments {
    #[command(flatten)]
    pub(super) pick: Pick,
    /// Go on where the last unfinished recital stopped, with the settings that it began with
    #[arg(long, conflicts_with_all = ["player", "event", "opening", "result", "since", "until",
                                      "random"])]
    pub(super) resume: bool,
    #[command(flatten)]
    pub(super) course: Course,
    #[command(flatten)]
    pub(super) manner: Manner,
}

/// What makes a recital the one it is; it stays as it was when the recital is resumed.
#[derive(Args, Debug)]
pub(super) struct Course {
    /// Say this side's moves only, white or black; the other side's are read out [default: both]
    #[arg(long, value_name = "SIDE", hide_possible_values = true, help_heading = RECITING,
          value_parser = named(&[("white", Sides::White), ("black", Sides::Black),
                                 ("both", Sides::Both)]))]
    pub(super) side: Option<Sides>,
    /// The first move of the recital: 14. or 14 is White's, 14... Black's
    #[arg(long, value_name = "MOVE", help_heading = RECITING)]
    pub(super) from: Option<MoveNumber>,
    /// The last move of the recital
    #[arg(long, value_name = "MOVE", help_heading = RECITING)]
    pub(super) to: Option<MoveNumber>,
    /// After a first miss, name the piece that moves; without it, the word hint does so
    #[arg(long, help_heading = RECITING)]
    pub(super) hint: bool,
    /// Ask the whole position every N plies, and at the end [default: never]
    #[arg(long, value_name = "N", help_heading = RECITING,
          value_parser = clap::value_parser!(u32).range(bound::EVERY.range()))]
    pub(super) every: Option<u32>,
    /// The time to think; a right reply after it stays right and is marked late
    #[arg(long, value_name = "SECONDS", value_parser = seconds, help_heading = RECITING)]
    pub(super) think: Option<Duration>,
}

/// How moves and boards are told; it goes on as it was, and may change from one sitting to the next.
#[derive(Args, Debug)]
pub(super) struct Manner {
    /// How moves are announced [default: words]
    #[arg(long, value_name = "STYLE", help_heading = RECITING,
          value_parser = named(&[("words", Announce::Words), ("san", Announce::San),
                                 ("long", Announce::Long), ("spelled", Announce::Spelled)]))]
    announce: Option<Announce>,
    /// The side from which the board is shown [default: white]
    #[arg(long, value_name = "SIDE", help_heading = RECITING,
          value_parser = named(&[("white", Color::White), ("black", Color::Black)]))]
    view: Option<Color>,
}

impl Manner {
    pub(super) const fn wished(&self) -> Wished {
        Wished {
            announce: self.announce,
            view: self.view,
            pace: None,
        }
    }
}

const RECITING: &str = "Reciting";

const HELP: &str = "\
Each move has two tries; the second counts half, and so does a move said after the word hint.
What cannot be read, or could be two moves, costs nothing. Nothing is left to chance: --seed changes \
only which game --random draws.
At the prompt, again, question, look, hint, pass, help and stop can be said any time.
Without a choice of game, the first one that you have not finished is recited.

Examples:
  sansvoir recite games-demo/first-steps.pgn
  sansvoir recite games-demo/club-evening.pgn --game 3 --side white --every 10";
