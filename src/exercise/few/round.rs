//! One round: a start, and the plies played on.

use super::super::dice::Dice;
use super::super::round::Round;
use super::plies::play_on;
use super::position::draw;
use super::settings::{FewError, FewSettings};
use crate::game::Line;

/// Makes round `number`, counted from 0, which asks no more than `left` questions. Its number and the
/// settings fix all of it.
pub(super) fn round(settings: &FewSettings, lines: &[Line], number: usize, left: usize) -> Round {
    let mut dice = Dice::new(settings.seed, number as u64);
    let line = if lines.is_empty() {
        let start = draw(settings.pieces, &mut dice);
        play_on(&start, settings.plies, &mut dice)
    } else {
        lines[number % lines.len()].clone()
    };
    let most = settings.per_round.clamp(1, left);
    Round::new(line, 0, &settings.kinds(), most, dice.own_seed())
}

impl FewSettings {
    /// Plays the lines from a game through, and sees that a drill without them can be drawn.
    pub(super) fn lines(&self) -> Result<Vec<Line>, FewError> {
        match &self.from {
            None if super::PIECES.contains(&self.pieces) => Ok(Vec::new()),
            None => Err(FewError::Pieces { asked: self.pieces }),
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
                pieces: 5,
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
                |number: &usize| round(&settings, &[], *number, 1).questions.count() == wanted;
            let with = (0..600).filter(has).count();
            // Few pieces leave little to take after the captures of the plies played on, and now and
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
