//! The options of `drill`.

use std::time::Duration;

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::super::arguments::seconds;
use super::super::failure::Failure;
use super::super::named;
use super::few::Few;
use crate::exercise::{DrillSettings, Views, bound};
use crate::question::{BareQuestion, Kind};

/// Questions on the empty board: squares, colors, lines, and how the pieces travel
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(crate) struct Arguments {
    /// Kinds of question on the empty board, separated by commas; or few, for a handful of pieces
    #[arg(value_name = "KINDS", value_delimiter = ',', value_parser = subjects(),
          required_unless_present = "resume")]
    subjects: Vec<Subject>,
    /// Go on with the drill that was left unfinished last, with its settings
    #[arg(long)]
    pub(in crate::cli) resume: bool,
    #[command(flatten)]
    pub(super) course: Course,
    #[command(flatten)]
    pub(super) few: Few,
}

/// What makes a drill the one it is; it stays as it was when the drill is resumed.
#[derive(Args, Debug)]
pub(super) struct Course {
    /// How many questions [default: 20]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(bound::COUNT.range()))]
    pub(super) count: Option<u16>,
    /// The side from which squares are seen, for name and place: white, black or both [default: both]
    #[arg(long, value_name = "SIDE", hide_possible_values = true,
          value_parser = named(&[("white", Views::White), ("black", Views::Black),
                                 ("both", Views::Both)]))]
    pub(super) view: Option<Views>,
    /// The time to think [default: each kind's own; 5 for name, place and color]
    #[arg(long, value_name = "SECONDS", value_parser = seconds)]
    pub(super) think: Option<Duration>,
    /// The pieces that attack and travel, separated by commas [default: all]
    #[arg(long = "piece", value_name = "PIECES", value_delimiter = ',',
          value_parser = named(&[("knight", 'N'), ("bishop", 'B'), ("rook", 'R'), ("queen", 'Q'),
                                 ("king", 'K'), ("pawn", 'P')]))]
    pub(super) piece: Option<Vec<char>>,
    /// How many blockers stand in the way, for distance and route [default: 0]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(bound::BLOCKERS.range()))]
    pub(super) blockers: Option<u8>,
}

const HELP: &str = "\
What is missed, or slower than the think time, comes again after three others, twice at most; and \
in later drills about one question in three is one that was missed or slow before.

What to do next is told by one rule, accuracy first, then speed. Of the kinds with ten first answers \
or more, the one with the fewest right decides: below 8 in 10, take more time; below 9 in 10, the \
same again; from 9 in 10 on, go faster until half of the right ones come within half the think time; \
then the next kind.

Examples:
  sansvoir drill name,color --count 10
  sansvoir drill few --pieces 5 --plies 4 --from games-demo/club-evening.pgn";

/// One word of KINDS.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Subject {
    /// A kind over the bare board.
    Bare(Kind),
    /// A few pieces.
    Few,
}

fn subjects() -> impl TypedValueParser<Value = Subject> {
    let names = Kind::BARE.into_iter().map(Kind::name).chain(["few"]);
    PossibleValuesParser::new(names).map(|name| name.parse().map_or(Subject::Few, Subject::Bare))
}

impl Arguments {
    /// Tells whether a game comes through standard input.
    pub(crate) fn takes_input(&self) -> bool {
        self.few.takes_input()
    }

    /// Returns the kinds over the bare board that are asked for, in the order of the climb.
    pub(super) fn kinds(&self) -> Vec<Kind> {
        let asked = |kind: &Kind| self.subjects.contains(&Subject::Bare(*kind));
        Kind::BARE.into_iter().filter(asked).collect()
    }

    /// Tells whether a few pieces are asked for, and nothing else beside them.
    pub(super) fn asks_few(&self) -> Result<bool, Failure> {
        let few = self.subjects.contains(&Subject::Few);
        if few && !self.kinds().is_empty() {
            return Err(Failure::Usage(
                "few stands alone: drill the empty board in a run of its own".to_owned(),
            ));
        }
        match self.few.given() {
            Some(option) if !few => Err(Failure::Usage(format!(
                "{option} is for few, which is not asked here: leave it out, or drill few"
            ))),
            _ => Ok(few),
        }
    }

    /// Settles the drill, with what was weak before and what was chosen beforehand.
    pub(super) fn settings(
        &self,
        seed: u64,
        weak: Vec<BareQuestion>,
        chosen: Vec<BareQuestion>,
    ) -> Result<DrillSettings, Failure> {
        let kinds = self.kinds();
        let asks = |some: &[Kind]| kinds.iter().any(|kind| some.contains(kind));
        let course = &self.course;
        if course.view.is_some() && !asks(&[Kind::Name, Kind::Place]) {
            return Err(needless("--view", "name or place"));
        }
        if course.blockers.is_some() && !asks(&[Kind::Distance, Kind::Route]) {
            return Err(needless("--blockers", "distance or route"));
        }
        let with_pieces = [Kind::Span, Kind::Crossing, Kind::Distance, Kind::Route];
        if course.piece.is_some() && !asks(&with_pieces) {
            return Err(needless("--piece", "span, crossing, distance or route"));
        }
        let pieces = course.pieces();
        if asks(&[Kind::Distance, Kind::Route])
            && !pieces.is_empty()
            && pieces.iter().all(|piece| matches!(piece, 'P' | 'p'))
        {
            return Err(Failure::Usage(
                "a pawn does not travel: name another piece with --piece, or drill span".to_owned(),
            ));
        }
        Ok(DrillSettings {
            kinds: kinds.clone(),
            count: course.count.map_or(20, usize::from),
            view: course.view.unwrap_or(Views::Both),
            think_millis: course.think.map(super::super::arguments::millis),
            pieces,
            blockers: course.blockers.map_or(0, usize::from),
            seed,
            weak,
            chosen,
        })
    }
}

impl Course {
    /// Names an option that makes no sense over a few pieces, where one is given.
    pub(super) const fn needless_for_few(&self) -> Option<&'static str> {
        if self.view.is_some() {
            Some("--view")
        } else if self.piece.is_some() {
            Some("--piece")
        } else if self.blockers.is_some() {
            Some("--blockers")
        } else {
            None
        }
    }

    /// The pieces by their FEN letters; a pawn is White's or Black's.
    fn pieces(&self) -> Vec<char> {
        let mut pieces = self.piece.clone().unwrap_or_default();
        if pieces.contains(&'P') {
            pieces.push('p');
        }
        pieces
    }
}

fn needless(option: &str, kinds: &str) -> Failure {
    Failure::Usage(format!(
        "{option} is for {kinds}, which is not asked here: leave it out"
    ))
}
