//! How a recital went.

use crate::exercise::answers::Answered;
use crate::exercise::tries::{Elsewhere, Slip, missed};
use crate::game::{Line, MoveNumber, Ply};
use crate::question::Verdict;

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
    /// In a game that is learned in chunks, the plies from the start that were said together without a slip,
    /// and their last move.
    pub learned: Option<(usize, Option<MoveNumber>)>,
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
    pub(super) fn new(line: &Line, answers: &[Answered], learned: Option<usize>) -> ReciteSummary {
        let said: Vec<(usize, &Answered)> = (answers.iter())
            .filter(|answered| answered.counts())
            .filter_map(said_at)
            .collect();
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
            learned: learned.map(|plies| {
                let last = plies.checked_sub(1).map(|last| line.plies()[last].number);
                (plies, last)
            }),
        }
    }
}

/// The plies before the move that was to be said; `None` for a whole position.
pub(super) fn said_at(answered: &Answered) -> Option<(usize, &Answered)> {
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
