//! The options of `ahead`.

use std::time::Duration;

use clap::Args;

use super::super::arguments::{AskedKinds, asked_kinds, seconds};
use super::super::named;
use super::super::pick::Pick;
use super::super::replay::Manner;
use crate::exercise::{Show, bound};
use crate::question::Kind;

/// Calculate: a position is given, the next plies are read, questions are asked about their end
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(crate) struct Arguments {
    #[command(flatten)]
    pub(super) pick: Pick,
    /// Go on where the last unfinished session of ahead stopped, with its settings
    #[arg(long, conflicts_with_all = ["player", "event", "opening", "result", "since", "until",
                                      "random"])]
    pub(in crate::cli) resume: bool,
    #[command(flatten)]
    pub(super) course: Course,
    #[command(flatten)]
    pub(super) manner: Manner,
}

/// What makes a session the one it is; it stays as it was when the session is resumed.
#[derive(Args, Debug)]
pub(super) struct Course {
    /// How a position is given: diagram, list (the pieces are read out) or none (the game is read up
    /// to it) [default: diagram]
    #[arg(long, value_name = "HOW", hide_possible_values = true, help_heading = CALCULATING,
          value_parser = named(&[("diagram", Show::Diagram), ("list", Show::List),
                                 ("none", Show::None)]))]
    pub(super) show: Option<Show>,
    /// How many plies are read from each position [default: as many as your answers speak for]
    #[arg(long, value_name = "N", help_heading = CALCULATING,
          value_parser = clap::value_parser!(u16).range(bound::PLIES.range()))]
    pub(super) plies: Option<u16>,
    /// Find forced mates within N moves, 1 to 4, instead: say every move against the best defence
    #[arg(long, value_name = "N", help_heading = CALCULATING,
          value_parser = clap::value_parser!(u32).range(bound::WITHIN.range()),
          conflicts_with_all = ["plies", "ask", "questions"])]
    pub(super) mate: Option<u32>,
    /// How many rounds, each with a position of its own [default: 5]
    #[arg(long, value_name = "N", help_heading = CALCULATING,
          value_parser = clap::value_parser!(u16).range(bound::ROUNDS.range()))]
    pub(super) count: Option<u16>,
    /// Take positions from the sidelines too
    #[arg(long, help_heading = CALCULATING)]
    pub(super) sidelines: bool,
    /// Kinds of question, separated by commas, or all [default: whereabouts, attacks and
    /// legality]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = asked_kinds(),
          help_heading = ASKING)]
    pub(super) ask: Option<Vec<AskedKinds>>,
    /// Questions over each position, 1 to 3 [default: 2]
    #[arg(long, value_name = "N", help_heading = ASKING,
          value_parser = clap::value_parser!(u8).range(bound::PER_ROUND.range()))]
    pub(super) questions: Option<u8>,
    /// The time to think; a right reply after it stays right and is marked late
    #[arg(long, value_name = "SECONDS", value_parser = seconds, help_heading = ASKING)]
    pub(super) think: Option<Duration>,
    /// How many looks at the board are allowed [default: any number, each counted]
    #[arg(long, value_name = "N", help_heading = ASKING,
          value_parser = clap::value_parser!(u32).range(bound::LOOKS.range()))]
    pub(super) looks: Option<u32>,
}

const CALCULATING: &str = "Calculating";
const ASKING: &str = "Asking";

const HELP: &str = "\
Without --plies, the plies follow all your answers in ahead: one more after a right answer, fewer \
after one that is not, so that three in four come out right. Positions are those from which \
something happens: captures, checks, lines that open or close.
With --game all or N-M, each round takes another game. Without a choice of game, the first one that \
you have not finished here is taken; with --mate, all of them are searched, in order, for positions \
that you have not solved.

Examples:
  sansvoir ahead games-demo/club-evening.pgn --count 3
  sansvoir ahead games-demo/club-evening.pgn --game all --mate 2 --show list";

impl Arguments {
    /// Tells whether games come through standard input.
    pub(crate) fn takes_input(&self) -> bool {
        self.pick.takes_input()
    }
}

impl Course {
    pub(super) fn show(&self) -> Show {
        self.show.unwrap_or(Show::Diagram)
    }

    pub(super) fn rounds(&self) -> usize {
        self.count.map_or(5, usize::from)
    }

    pub(super) fn per_round(&self) -> usize {
        self.questions.map_or(2, usize::from)
    }

    pub(super) fn kinds(&self) -> Vec<Kind> {
        AskedKinds::all_of(self.ask.as_deref())
    }
}
