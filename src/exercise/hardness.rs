//! What makes a question over a line hard: how long ago the board was seen, and what has happened since.

use serde::{Deserialize, Serialize};
use shakmaty::{Chess, Position};

use crate::game::{Line, Ply};
use crate::question::{LineQuestion, Ray, Scene};

/// What makes a question over a line hard, in plain figures; in JSON, the journal's `hardness` object.
///
/// All of them but `plies` can be computed again from the line's start and its moves, and `plies` tells
/// how far back the changes are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hardness {
    /// Plies heard since the board was last seen: since the last look, or else since the line's
    /// start, which is known. 0 where the learner looks at the very position.
    pub plies: u32,
    /// Pieces on the board that is asked about.
    #[serde(rename = "men")]
    pub pieces: u32,
    /// Captures in the line so far, en passant among them.
    pub captures: u32,
    /// How many plies ago the piece that is asked about moved last, 1 for the last ply; `None` where it
    /// has not moved in the line, or where no one piece is asked about.
    pub moved: Option<u32>,
    /// Lines of sight that were opened in those `plies`.
    pub opened: u32,
    /// Lines of sight that were closed in those `plies`.
    pub closed: u32,
    /// Of a checkpoint, the plies heard since the checkpoint before, or since a look that came later; `None`
    /// elsewhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stretch: Option<u32>,
}

/// Lines of sight that changed between two positions of a line.
///
/// A line of sight is one of the directions of a queen, rook or bishop that stands on the same square in
/// both positions and did not move in between: four of a rook or bishop, eight of a queen. It was
/// opened when the piece attacks more squares along it than before, and closed when it attacks fewer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Lines {
    /// How many see farther now.
    pub opened: u32,
    /// How many see less far now.
    pub closed: u32,
}

impl Hardness {
    /// Says what makes `question` hard where it stands, when the board was last seen so many plies ago.
    pub fn new(question: LineQuestion, scene: Scene<'_>, seen_ago: usize) -> Hardness {
        let plies = seen_ago.min(scene.plies());
        let lines = Lines::between(scene.line(), scene.plies() - plies, scene.plies());
        let last_step = question
            .piece(scene)
            .and_then(|piece| piece.steps(scene.plies()).last());
        Hardness {
            plies: number(plies),
            pieces: number(scene.board().occupied().count()),
            captures: number(scene.played().iter().filter_map(Ply::taken_on).count()),
            moved: last_step.map(|step| number(scene.plies() - step.ply)),
            opened: lines.opened,
            closed: lines.closed,
            stretch: None,
        }
    }
}

fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

impl Lines {
    /// Counts the lines of sight that changed on the way from the position after `from` plies to the
    /// one after `to` plies.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that.
    pub(super) fn between(line: &Line, from: usize, to: usize) -> Lines {
        let (before, after) = (line.position(from), line.position(to));
        let mut lines = Lines::default();
        for piece in line.roster().pieces() {
            let Some(square) = piece.square(to) else {
                continue;
            };
            let moved = piece.steps(to).last().is_some_and(|step| step.ply >= from);
            let attacks = |position: &Chess| position.board().attacks_from(square);
            if moved || attacks(before) == attacks(after) {
                continue;
            }
            // The edge alone leaves a line out, and that is the same in both.
            let rays = |position: &Chess| Ray::all(position.board(), square);
            for (then, now) in rays(before).iter().zip(&rays(after)) {
                lines.opened += u32::from(now.seen() > then.seen());
                lines.closed += u32::from(now.seen() < then.seen());
            }
        }
        lines
    }
}

#[cfg(test)]
mod tests {
    use shakmaty::Square;

    use super::*;
    use crate::pgn::{Collection, read};
    use crate::question::{Occupant, Whereabouts};

    fn line(moves: &str) -> Line {
        let passage = Collection::new(moves.as_bytes()).next().unwrap().unwrap();
        read(&passage).game.main_line()
    }

    fn occupant(line: &Line, square: Square, seen_ago: usize) -> Hardness {
        let scene = Scene::new(line, line.len());
        let question = LineQuestion::Occupant(Occupant { square });
        Hardness::new(question, scene, seen_ago)
    }

    #[test]
    fn a_pawn_that_leaves_its_square_opens_the_lines_behind_it() {
        let one_step = line("1. e4 *");
        // The bishop on f1 and the queen on d1 see along their diagonals.
        let expected = Lines {
            opened: 2,
            closed: 0,
        };
        assert_eq!(Lines::between(&one_step, 0, 1), expected);
        let closed_again = line("1. e4 a6 2. Ne2 *");
        // The rook on a8 sees a7 and a6, the rook on h1 sees g1; the knight stands where the pawn stood.
        let whole = Lines::between(&closed_again, 0, 3);
        assert_eq!((whole.opened, whole.closed), (2, 0));
        let last = Lines::between(&closed_again, 2, 3);
        assert_eq!((last.opened, last.closed), (1, 2));
    }

    #[test]
    fn a_piece_that_moved_itself_has_no_line_that_was_opened() {
        let moved = line("1. e4 e5 2. Bc4 *");
        let last = Lines::between(&moved, 2, 3);
        assert_eq!((last.opened, last.closed), (0, 0));
    }

    #[test]
    fn the_figures_tell_of_the_plies_since_the_board_was_seen() {
        let line = line("1. e4 d5 2. exd5 Qxd5 3. Nc3 *");
        let whole = occupant(&line, Square::D5, 5);
        assert_eq!((whole.plies, whole.pieces, whole.captures), (5, 30, 2));
        assert_eq!(whole.moved, Some(2));
        let looked = occupant(&line, Square::D5, 0);
        assert_eq!((looked.plies, looked.opened, looked.closed), (0, 0, 0));
        assert_eq!(looked.captures, 2, "captures are counted in the whole line");
        assert_eq!(occupant(&line, Square::A1, 5).moved, None);
        assert_eq!(occupant(&line, Square::D4, 5).moved, None);
    }

    #[test]
    fn a_piece_asked_by_its_home_is_followed() {
        let line = line("1. Nf3 d5 2. Ne5 a6 *");
        let question = LineQuestion::Whereabouts(Whereabouts { piece: Square::G1 });
        let hardness = Hardness::new(question, Scene::new(&line, 4), 4);
        assert_eq!(hardness.moved, Some(2));
    }
}
