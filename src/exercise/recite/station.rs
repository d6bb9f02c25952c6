//! What is done on the way through a game.

use super::ReciteSettings;
use crate::game::Line;

/// One thing that is done on the way through the game; the number is the plies played before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Station {
    /// The next ply is read out.
    ReadOut(usize),
    /// The next ply is asked.
    Say(usize),
    /// The whole position is asked: which checkpoint, counted from 1.
    Place(usize, usize),
}

/// What is done on the way through a line. The whole position is asked at the end too.
pub(super) fn stations(line: &Line, settings: &ReciteSettings) -> Vec<Station> {
    let mut stations = Vec::new();
    let mut number = 0;
    for (n, ply) in line.plies().iter().enumerate() {
        stations.push(if settings.sides.says(ply.side()) {
            Station::Say(n)
        } else {
            Station::ReadOut(n)
        });
        let played = n + 1;
        let due = |every: usize| played.is_multiple_of(every) || played == line.len();
        if settings.every.is_some_and(due) {
            number += 1;
            stations.push(Station::Place(played, number));
        }
    }
    stations
}
