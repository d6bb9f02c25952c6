//! Placement: from where on a learner needs the course, found by few questions.

use std::convert::Infallible;

use serde::{Deserialize, Serialize};

use super::answers::Answered;
use super::asking::Asking;
use super::bound::Looks;
use super::drill::{DrillSettings, deal};
use super::few::{FewSettings, round};
use super::past::Past;
use super::round::{Round, show};
use super::settings::{PlanError, Show};
use super::step::{Ending, Exercise, KindTimes, Rules, Step};
use crate::game::Line;
use crate::question::BareQuestion;

/// A stage is decided by two answers of one sort, so that it asks three questions at most.
///
/// A test that adapts stops by certainty, and not by a count: for half a logit it takes 20 questions in
/// all at 70 % success (Linacre, Rasch Measurement Transactions 20:2; Weiss & Kingsbury 1984).
const DECIDED: usize = 2;
/// No further stage is begun after so many milliseconds, so that ten minutes suffice.
const LONGEST: u64 = 510_000;
/// What a verdict takes to be read, and a ply to be heard, in milliseconds; our own guess.
const READING: u64 = 4_000;
const HEARING: u64 = 2_000;

/// What a placement asks, from the easiest stage on. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlacementSettings {
    /// The stages.
    pub stages: Vec<Stage>,
}

/// What one stage asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Stage {
    /// Questions over the bare board.
    Bare(DrillSettings),
    /// Questions over pieces read out, or over positions of games, which are shown.
    Line(FewSettings),
}

/// How far a placement has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Climb {
    /// The stage that is asked next; `None` where the learner's place is found.
    pub next: Option<usize>,
    /// The highest stage that held.
    pub held: Option<usize>,
}

/// Climbs so many stages by these answers, each with its stage and whether it was right: two stages at a
/// time while they hold; where one fails, the next one is tried all the same, and where that fails too it
/// goes back to one that was passed over.
pub fn climb(stages: usize, answers: &[(usize, bool)]) -> Climb {
    let outcome = |stage: usize| {
        let count = |wanted| answers.iter().filter(|a| **a == (stage, wanted)).count();
        let decided = |right: bool| (count(right) >= DECIDED).then_some(right);
        decided(true).or(decided(false))
    };
    let begun = answers.last().map(|(stage, _)| *stage);
    let held = (0..stages)
        .rev()
        .find(|stage| outcome(*stage) == Some(true));
    let above = held.map_or(0, |held| held + 1);
    let failed = (above..stages).find(|stage| outcome(*stage) == Some(false));
    let next = match (begun.filter(|stage| outcome(*stage).is_none()), failed) {
        (Some(stage), _) => Some(stage),
        (None, None) if held.is_none() => Some(0),
        (None, None) => Some((above + 1).min(stages - 1)),
        (None, Some(failed)) if failed + 1 < stages && outcome(failed + 1).is_none() => {
            Some(failed + 1)
        }
        (None, Some(_)) => Some(above),
    };
    Climb {
        next: next.filter(|next| outcome(*next).is_none()),
        held,
    }
}

/// A placement that is held.
#[derive(Debug)]
pub struct Placement {
    stages: Vec<Source>,
    round: Option<Round>,
    /// The stage of every question that was put.
    asked: Vec<usize>,
}

/// What a stage draws its questions from.
#[derive(Debug)]
enum Source {
    Bare(Vec<BareQuestion>),
    Line(FewSettings, Vec<Line>),
}

impl Source {
    fn new(stage: Stage) -> Result<Source, PlanError> {
        Ok(match stage {
            Stage::Bare(settings) => Source::Bare(deal(&settings, 2 * DECIDED - 1)),
            Stage::Line(settings) => {
                let lines = settings.lines()?;
                Source::Line(settings, lines)
            }
        })
    }
}

impl Placement {
    /// The most questions.
    pub const MOST: usize = 20;

    /// About how long it has taken.
    fn millis(past: &Past) -> u64 {
        let answers = past.answers.iter();
        let answered: u64 = answers
            .map(|answer| answer.millis.unwrap_or(0) + READING)
            .sum();
        answered + past.heard as u64 * HEARING
    }

    /// Asks the next question of a stage.
    fn ask(&mut self, stage: usize, past: &Past) -> Option<Step<Infallible>> {
        let before = self.asked.iter().filter(|at| **at == stage).count();
        let count = (self.asked.len() + 1, Placement::MOST);
        let step = match &self.stages[stage] {
            Source::Bare(questions) => {
                let question = *questions.get(before)?;
                Step::ask(Asking::bare(question, count, false))
            }
            Source::Line(settings, lines) => {
                // Some numbers have no question, and no number comes twice.
                let mut rounds = (before..).step_by(2 * DECIDED - 1).take(100);
                let round = rounds.find_map(|number| round(settings, lines, number, true, 1))?;
                let round = round.counted_on(self.asked.len(), Placement::MOST);
                let place = round.place.clone();
                self.round = Some(round);
                let how = if settings.from.is_some() {
                    Show::Diagram
                } else {
                    Show::List
                };
                show(place, (past.rounds() + 1, None), None, how)
            }
        };
        self.asked.push(stage);
        Some(step)
    }
}

impl Exercise for Placement {
    type Plan = PlacementSettings;
    type Opening = bool;
    type Told = Infallible;
    type Summary = ();

    fn new(settings: PlacementSettings) -> Result<Placement, PlanError> {
        let stages = settings.stages.into_iter().map(Source::new);
        let stages: Vec<Source> = stages.collect::<Result<_, _>>()?;
        if stages.is_empty() {
            return Err(PlanError::NothingToAsk);
        }
        Ok(Placement {
            stages,
            round: None,
            asked: Vec::new(),
        })
    }

    fn rules(&self) -> Rules {
        Rules {
            kind_times: KindTimes::None,
            looks: Some(Looks::nearest(0)),
            ..Rules::default()
        }
    }

    fn opening(&self, _: &Past, again: bool) -> bool {
        again
    }

    fn next(&mut self, past: &Past) -> Step<Infallible> {
        if let Some(step) = self.round.as_mut().and_then(Round::next) {
            return step;
        }
        self.round = None;
        let asked = self.asked.iter().copied();
        let right = past.answers.iter().map(Answered::is_right);
        let answers: Vec<(usize, bool)> = asked.zip(right).collect();
        let is_over = answers.len() >= Placement::MOST || Placement::millis(past) > LONGEST;
        let next = climb(self.stages.len(), &answers).next.filter(|_| !is_over);
        next.and_then(|stage| self.ask(stage, past))
            .unwrap_or(Step::End(Ending::Asked))
    }

    fn summary(&self, _: &Past) {}
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Climbs ten stages with a learner who knows those below `level`, save some of the answers.
    fn climbed(level: usize, slips: &[usize]) -> (Vec<usize>, Option<usize>) {
        let mut answers = Vec::new();
        while let Some(stage) = climb(10, &answers).next {
            let slips = slips.contains(&answers.len());
            answers.push((stage, (stage < level) != slips));
        }
        let stages = answers.iter().map(|(stage, _)| *stage);
        (stages.collect(), climb(10, &answers).held)
    }

    #[test]
    fn the_climb_is_quick_and_finds_every_level() {
        for level in 0..=10 {
            let (asked, held) = climbed(level, &[]);
            assert_eq!(held, level.checked_sub(1), "{asked:?}");
            assert!(asked.len() <= 18, "{asked:?}");
        }
        assert_eq!(climbed(10, &[]).0, [0, 0, 2, 2, 4, 4, 6, 6, 8, 8, 9, 9]);
    }

    #[test]
    fn it_goes_back_only_where_two_stages_in_a_row_fail() {
        // The second question of stage 2 is missed, and the third: stage 3 shows that it is known.
        let (asked, held) = climbed(10, &[2, 3]);
        assert_eq!(held, Some(9));
        assert_eq!(asked[..8], [0, 0, 2, 2, 3, 3, 5, 5]);
        let (asked, held) = climbed(2, &[]);
        assert_eq!((asked, held), (vec![0, 0, 2, 2, 3, 3, 1, 1], Some(1)));
    }
}
