//! Short lines out of a game, from where only a few pieces are left.

use shakmaty::Position;

use super::super::round::{can_be_shown, last_asked};
use super::super::script::Script;
use super::super::settings::PlanError;
use crate::game::Line;

/// How far apart two positions of the same game stand at least, in plies.
const APART: usize = 4;

/// Cuts lines of up to `plies` plies out of `line`, from positions with `pieces` pieces or fewer, in the
/// order of the game and not overlapping.
///
/// A line is shorter only where the game ends too soon for one of full length. No line ends with the
/// game over, and none starts where a pawn can be taken en passant, which a list of pieces does not
/// tell.
///
/// # Errors
///
/// [`PlanError::TooManyPieces`] when the game never gets down to so few pieces, and
/// [`PlanError::NothingPlayedOn`] when nothing is played on from there.
pub fn excerpts(line: &Line, pieces: usize, plies: usize) -> Result<Vec<Script>, PlanError> {
    let count = |at: usize| line.position(at).board().occupied().count();
    let fewest = count(line.len());
    if fewest > pieces {
        return Err(PlanError::TooManyPieces {
            asked: pieces,
            fewest,
        });
    }
    let end = last_asked(line);
    let starts = || {
        let few = (0..=end).filter(|at| count(*at) <= pieces && can_be_shown(line, *at));
        few.filter(|at| !line.position(*at).legal_moves().is_empty())
    };
    let mut cuts = Vec::new();
    let mut free = 0;
    for from in starts().filter(|from| from + plies <= end) {
        if from >= free {
            cuts.push((from, from + plies));
            free = from + plies.max(APART);
        }
    }
    if cuts.is_empty() {
        let first = starts().find(|from| *from < end);
        cuts.extend(first.map(|from| (from, end)));
    }
    if cuts.is_empty() {
        return Err(PlanError::NothingPlayedOn { pieces });
    }
    Ok(cuts
        .into_iter()
        .map(|(from, to)| Script::of_line(&line.cut(from, to)))
        .collect())
}
