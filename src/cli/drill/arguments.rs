//! The options of `drill`.

use std::time::Duration;

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::super::arguments::seconds;
use super::super::failure::Failure;
use super::super::named;
use crate::question::{BareQuestion, Kind};
use crate::session::{DrillSettings, Views};

/// Questions over the bare board: squares, colors, lines, and how the men travel
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(crate) struct Arguments {
    /// Kinds of question, parted by commas
    #[arg(value_name = "KINDS", value_delimiter = ',', value_parser = bare_kinds(),
          required_unless_present = "resume")]
    pub(super) kinds: Vec<Kind>,
    /// Go on with the drill that was left unfinished last, with its settings
    #[arg(long)]
    pub(super) resume: bool,
    #[command(flatten)]
    pub(super) course: Course,
}

/// What makes a drill the one it is; it stays as it was when the drill is resumed.
#[derive(Args, Debug)]
pub(super) struct Course {
    /// How many questions [default: 20]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub(super) count: Option<u16>,
    /// The side from which squares are seen, for name and place: white, black or both [default: both]
    #[arg(long, value_name = "SIDE", hide_possible_values = true,
          value_parser = named(&[("white", Views::White), ("black", Views::Black),
                                 ("both", Views::Both)]))]
    pub(super) view: Option<Views>,
    /// The time to think [default: each kind's own; 5 for name, place and color]
    #[arg(long, value_name = "SECONDS", value_parser = seconds)]
    pub(super) think: Option<Duration>,
    /// The men that attack and travel, parted by commas [default: all]
    #[arg(long, value_name = "MEN", value_delimiter = ',',
          value_parser = named(&[("knight", 'N'), ("bishop", 'B'), ("rook", 'R'), ("queen", 'Q'),
                                 ("king", 'K'), ("pawn", 'P')]))]
    pub(super) man: Option<Vec<char>>,
    /// How many blockers stand in the way, for distance and route [default: 0]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(0..=16))]
    pub(super) blockers: Option<u8>,
}

const HELP: &str = "\
What is missed, or slower than the think time, comes again after three others, twice at most; and
in later drills about one question in three is one that was missed or slow before.

What to do next is told by one rule, accuracy first, then speed. Of the kinds with ten first answers
or more, the one with the fewest right decides: below 8 in 10, take more time; below 9 in 10, the
same again; from 9 in 10 on, go faster until half of the right ones come within half the think time;
then the next kind.

Examples:
  sansvoir drill name,color --count 10
  sansvoir drill distance,route --man knight --blockers 3";

fn bare_kinds() -> impl TypedValueParser<Value = Kind> {
    PossibleValuesParser::new(Kind::BARE.map(Kind::name)).try_map(|name| name.parse::<Kind>())
}

impl Arguments {
    /// Settles the drill, with what was weak before.
    pub(super) fn settings(
        &self,
        seed: u64,
        weak: Vec<BareQuestion>,
    ) -> Result<DrillSettings, Failure> {
        let asks = |kinds: &[Kind]| self.kinds.iter().any(|kind| kinds.contains(kind));
        let course = &self.course;
        if course.view.is_some() && !asks(&[Kind::Name, Kind::Place]) {
            return Err(needless("--view", "name or place"));
        }
        if course.blockers.is_some() && !asks(&[Kind::Distance, Kind::Route]) {
            return Err(needless("--blockers", "distance or route"));
        }
        let with_men = [Kind::Span, Kind::Crossing, Kind::Distance, Kind::Route];
        if course.man.is_some() && !asks(&with_men) {
            return Err(needless("--man", "span, crossing, distance or route"));
        }
        let men = course.men();
        if asks(&[Kind::Distance, Kind::Route])
            && !men.is_empty()
            && men.iter().all(|man| matches!(man, 'P' | 'p'))
        {
            return Err(Failure::Usage(
                "a pawn does not travel: name another man with --man, or drill span".to_owned(),
            ));
        }
        Ok(DrillSettings {
            kinds: Kind::BARE
                .into_iter()
                .filter(|kind| self.kinds.contains(kind))
                .collect(),
            count: course.count.map_or(20, usize::from),
            view: course.view.unwrap_or(Views::Both),
            think_millis: course.think.map(super::super::arguments::millis),
            men,
            blockers: course.blockers.map_or(0, usize::from),
            seed,
            weak,
        })
    }

    /// Sees to it that what is given with `--resume` is that of the drill that goes on.
    pub(super) fn agree_with(
        &self,
        settings: &DrillSettings,
        seed: Option<u64>,
    ) -> Result<(), Failure> {
        let course = &self.course;
        let kinds = self.kinds.iter().all(|kind| settings.kinds.contains(kind));
        let same = [
            (
                "the kinds",
                self.kinds.is_empty() || (kinds && self.kinds.len() >= settings.kinds.len()),
            ),
            (
                "--count",
                course
                    .count
                    .is_none_or(|count| usize::from(count) == settings.count),
            ),
            (
                "--view",
                course.view.is_none_or(|view| view == settings.view),
            ),
            (
                "--think",
                course.think.is_none_or(|think| {
                    Some(super::super::arguments::millis(think)) == settings.think_millis
                }),
            ),
            (
                "--man",
                course.man.is_none() || course.men() == settings.men,
            ),
            (
                "--blockers",
                course
                    .blockers
                    .is_none_or(|count| usize::from(count) == settings.blockers),
            ),
            ("--seed", seed.is_none_or(|seed| seed == settings.seed)),
        ];
        Failure::unless_same("drill", &same)
    }
}

impl Course {
    /// The men by their FEN letters; a pawn is White's or Black's.
    fn men(&self) -> Vec<char> {
        let mut men = self.man.clone().unwrap_or_default();
        if men.contains(&'P') {
            men.push('p');
        }
        men
    }
}

fn needless(option: &str, kinds: &str) -> Failure {
    Failure::Usage(format!(
        "{option} is for {kinds}, which is not asked here: leave it out"
    ))
}
