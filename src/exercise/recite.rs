//! A game from memory: the learner says move after move of it, with two tries at each, and at wished-for
//! places where every piece stands.

use std::rc::Rc;

use super::answers::Answered;
use super::asking::Asking;
use super::output::{Ending, GameOpening, Opening, OwnSummary, Told};
use super::past::{Past, Place};
use super::script::{Script, ScriptError};
use super::settings::ReciteSettings;
use super::step::{Exercise, Rules, Step};
use super::tries::{Elsewhere, Slip, missed};
use crate::game::{GameResult, Line, MoveNumber, Ply, Tags};
use crate::question::{LineQuestion, Rebuild, Verdict};

/// How many plies `again` says again.
const TRAIL: usize = 2;

/// The saying of a game from memory.
#[derive(Debug)]
pub struct Recite {
    line: Rc<Line>,
    settings: ReciteSettings,
    tags: Tags,
    result: Option<GameResult>,
    /// The plies that were said or read out.
    plies: usize,
    /// The plies after which the whole position was asked last.
    rebuilt: usize,
}

impl Recite {
    /// Prepares a recital of a script's main line; the tags are told at the beginning, the result at
    /// the end.
    ///
    /// # Errors
    ///
    /// [`ScriptError`] when the line cannot be played.
    pub fn new(
        script: &Script,
        settings: ReciteSettings,
        tags: Tags,
        result: Option<GameResult>,
    ) -> Result<Recite, ScriptError> {
        Ok(Recite {
            line: Rc::new(script.line(0)?),
            settings,
            tags,
            result,
            plies: 0,
            rebuilt: 0,
        })
    }

    /// Tells whether the whole position is asked after so many plies; at the end it is, where it is at all.
    fn is_rebuilt(&self, plies: usize) -> bool {
        let due = |every: usize| plies.is_multiple_of(every) || plies == self.line.len();
        self.settings.every.is_some_and(due)
    }

    /// Counts the whole positions that are asked in the first plies.
    fn rebuilds(&self, plies: usize) -> usize {
        (1..=plies).filter(|plies| self.is_rebuilt(*plies)).count()
    }

    /// Counts the moves that the learner says in the first plies.
    fn said(&self, plies: usize) -> usize {
        let played = self.line.plies()[..plies].iter();
        let says = |side| self.settings.sides.says(side);
        played.filter(|ply| says(ply.side())).count()
    }
}

impl Exercise for Recite {
    fn rules(&self) -> Rules {
        Rules {
            trail: TRAIL,
            think_millis: self.settings.think_millis,
            ..Rules::default()
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        Opening::Recite {
            game: GameOpening {
                tags: self.tags.clone(),
                start: self.line.start().clone(),
                first: self.line.plies().first().map(|ply| ply.number),
                plies: self.line.len(),
                checkpoints: self.rebuilds(self.line.len()),
                resumed: again,
            },
            sides: self.settings.sides,
        }
    }

    fn next(&mut self, _: &Past) -> Step {
        let (plies, all) = (self.plies, self.line.len());
        let place = Place::new(self.line.clone(), plies);
        if plies > self.rebuilt && self.is_rebuilt(plies) {
            self.rebuilt = plies;
            let checkpoint = (self.rebuilds(plies), self.rebuilds(all));
            let question = LineQuestion::Rebuild(Rebuild {});
            return Step::ask(Asking::over(question, place, Some(checkpoint), (1, 1)));
        }
        let Some(ply) = self.line.plies().get(plies) else {
            return Step::End(Ending::Read(self.result));
        };
        self.plies += 1;
        if self.settings.sides.says(ply.side()) {
            let count = (self.said(plies + 1), self.said(all));
            return Step::ask(Asking::next_move(place, count, self.settings.hint));
        }
        Step::Tell {
            told: Told::ReadOut(*ply),
            to: Some(Place::new(self.line.clone(), plies + 1)),
        }
    }

    fn summary(&self, past: &Past) -> OwnSummary {
        let summary = ReciteSummary::new(&self.line, &past.answers);
        OwnSummary::Recite(Box::new(summary))
    }
}

/// Slips that stand no farther apart than this many plies make a cluster.
const NEAR: usize = 6;

/// The facts of a recital, told at its end.
#[derive(Clone, Debug, PartialEq)]
pub struct ReciteSummary {
    /// How many moves were asked.
    pub asked: usize,
    /// How many were said at the first try, without a hint.
    pub first_try: usize,
    /// How many were said at the second try, or with the hint.
    pub helped: usize,
    /// How many were given up.
    pub passed: usize,
    /// The first move that was not said at the first try.
    pub first_slip: Option<Ply>,
    /// What was said in place of what, in the order of the game.
    pub mixed: Vec<MixUp>,
    /// Where to start again; `None` where no move slipped.
    pub again: Option<MoveNumber>,
}

/// A move that was said where another one was played.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MixUp {
    /// The words as typed.
    pub said: String,
    /// What was played.
    pub played: Ply,
    /// The move that was said, where it is legal there.
    pub legal: Option<Ply>,
    /// Where the game has it.
    pub elsewhere: Option<Elsewhere>,
}

impl ReciteSummary {
    /// Sums up the answers of a recital of a line.
    pub(super) fn new(line: &Line, answers: &[Answered]) -> ReciteSummary {
        let said: Vec<(usize, &Answered)> = answers.iter().filter_map(said_at).collect();
        let count = |verdict| {
            let of_it = |(_, answered): &&(usize, &Answered)| answered.mark.verdict == verdict;
            said.iter().filter(of_it).count()
        };
        let slips: Vec<usize> = (said.iter())
            .filter(|(_, answered)| !answered.is_right())
            .map(|(ply, _)| *ply)
            .collect();
        ReciteSummary {
            asked: said.len(),
            first_try: count(Verdict::Right),
            helped: count(Verdict::Part),
            passed: count(Verdict::Pass),
            first_slip: slips.first().map(|ply| line.plies()[*ply]),
            mixed: (said.iter())
                .flat_map(|(ply, answered)| mix_ups(line, *ply, answered))
                .collect(),
            again: start_again(&slips).map(|ply| line.plies()[ply].number),
        }
    }
}

/// The plies before the move that was to be said; `None` for a whole position.
fn said_at(answered: &Answered) -> Option<(usize, &Answered)> {
    answered.tries.as_ref()?;
    let plies = answered.setting.as_ref()?.moves.len();
    Some((plies - 1, answered))
}

/// The whole move before the first cluster of slips, or before the first slip where there is none.
fn start_again(slips: &[usize]) -> Option<usize> {
    let cluster = slips.windows(2).find(|pair| pair[1] - pair[0] <= NEAR);
    let first = cluster.map_or(slips.first(), |pair| pair.first())?;
    Some(first.saturating_sub(2))
}

fn mix_ups(line: &Line, ply: usize, answered: &Answered) -> impl Iterator<Item = MixUp> {
    let tries = answered.tries.iter().flat_map(|tries| &tries.said);
    tries.filter_map(move |said| {
        let missed = missed(line, ply, said).ok()??;
        Some(MixUp {
            said: missed.said,
            played: line.plies()[ply],
            legal: match missed.slip {
                Slip::NotPlayed(ply) => Some(ply),
                Slip::Illegal(_) | Slip::NoPiece(_) => None,
            },
            elsewhere: missed.elsewhere,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_starts_again_a_move_before_the_first_cluster() {
        assert_eq!(start_again(&[]), None);
        assert_eq!(start_again(&[1]), Some(0));
        assert_eq!(start_again(&[5, 30, 33, 60]), Some(28));
        assert_eq!(start_again(&[5, 30]), Some(3));
    }
}
