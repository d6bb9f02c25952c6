//! One round: a start, the plies played on, and a replay of both.

use super::super::dice::Dice;
use super::super::replay::Replay;
use super::super::script::Script;
use super::super::settings::{By, Checkpoints, Settings, Stop};
use super::super::think::ThinkTimes;
use super::plies::play_on;
use super::position::draw;
use super::settings::{FewError, FewSettings};
use crate::game::{Line, Start, Tags};

/// One round of a drill. Its number and the settings fix all of it.
#[derive(Debug)]
pub(super) struct Round {
    /// Its number, counted from 0, with those left out that had no question.
    pub(super) number: usize,
    /// How many questions it has.
    pub(super) questions: usize,
    pub(super) replay: Replay,
    line: Line,
}

impl Round {
    /// Makes round `number`, which asks no more than `left` questions, where so many looks have been
    /// taken before.
    pub(super) fn new(
        settings: &FewSettings,
        lines: &[Line],
        number: usize,
        left: usize,
        looks: u32,
    ) -> Round {
        let mut dice = Dice::new(settings.seed, number as u64);
        let line = if lines.is_empty() {
            let start = draw(settings.men, &mut dice);
            play_on(&start, settings.plies, &mut dice)
        } else {
            lines[number % lines.len()].clone()
        };
        let settings = Settings {
            by: By::Move,
            checkpoints: Checkpoints::At(vec![Stop::End]),
            ask: settings.kinds(),
            questions: settings.per_round.clamp(1, left),
            trail: settings.trail,
            think_millis: settings.think_millis,
            looks: settings.looks.map(|all| all.saturating_sub(looks)),
            seed: own_seed(&mut dice),
        };
        let replay = Replay::new(Script::of_line(&line), settings, Tags::default(), None)
            .expect("the script of a line can be played");
        Round {
            number,
            questions: replay.questions_at_end(),
            replay,
            line,
        }
    }

    pub(super) fn with_think_times(mut self, think: ThinkTimes) -> Round {
        self.replay = self.replay.with_think_times(think);
        self
    }

    pub(super) const fn start(&self) -> &Start {
        self.line.start()
    }

    pub(super) fn plies(&self) -> usize {
        self.line.len()
    }
}

/// A seed of the round's own, or every round would roll the same questions.
fn own_seed(dice: &mut Dice) -> u64 {
    dice.below(1 << 31) as u64
}

impl FewSettings {
    /// Plays the lines from a game through, and sees that a drill without them can be drawn.
    pub(super) fn lines(&self) -> Result<Vec<Line>, FewError> {
        match &self.from {
            None if super::MEN.contains(&self.men) => Ok(Vec::new()),
            None => Err(FewError::Men { asked: self.men }),
            Some(scripts) if scripts.is_empty() => Err(FewError::NothingToAsk),
            Some(scripts) => (scripts.iter()).map(|script| Ok(script.line(0)?)).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::question::Kind;

    #[test]
    fn a_round_without_a_question_is_rare() {
        for (kind, plies) in Kind::LINE
            .into_iter()
            .flat_map(|kind| [(kind, 0), (kind, 4)])
        {
            let settings = FewSettings {
                men: 5,
                plies,
                count: 1,
                per_round: 1,
                ask: vec![kind],
                think_millis: None,
                looks: None,
                trail: 2,
                seed: 1,
                from: None,
            };
            let wanted = settings.kinds().len();
            let has =
                |number: &usize| Round::new(&settings, &[], *number, 1, 0).questions == wanted;
            let with = (0..600).filter(has).count();
            // Few men leave little to take after the captures of the plies played on, and now and
            // then a promotion is among the moves.
            let least = match kind {
                Kind::Exchange => 40,
                Kind::Checks | Kind::Captures | Kind::Mate => 540,
                _ => 595,
            };
            assert!(with >= least, "{kind} after {plies} plies: {with} of 600");
        }
    }
}
