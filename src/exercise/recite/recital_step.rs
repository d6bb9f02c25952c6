//! What is done on the way through a game.

use super::ReciteSettings;
use crate::game::Line;

/// One thing that is done on the way through the game; the number is the plies played before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum RecitalStep {
    /// The next ply is read out.
    ReadOut(usize),
    /// The next ply is asked.
    Say(usize),
    /// The whole position is asked: which checkpoint, counted from 1.
    Place(usize, usize),
}

/// What is done on the way through a line. The whole position is asked at the end too.
pub(super) fn recital_steps(line: &Line, settings: &ReciteSettings) -> Vec<RecitalStep> {
    let mut recital_steps = Vec::new();
    let mut number = 0;
    for (n, ply) in line.plies().iter().enumerate() {
        recital_steps.push(if settings.sides.says(ply.side()) {
            RecitalStep::Say(n)
        } else {
            RecitalStep::ReadOut(n)
        });
        let played = n + 1;
        let due = |every: usize| played.is_multiple_of(every) || played == line.len();
        if settings.every.is_some_and(due) {
            number += 1;
            recital_steps.push(RecitalStep::Place(played, number));
        }
    }
    recital_steps
}
