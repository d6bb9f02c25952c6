//! Where a question stands: a line and the number of plies played from its start.

use shakmaty::{Board, Chess, Position, Square};

use crate::game::{Line, Ply, TrackedPiece};
use crate::rules::{Judge, Past};

/// A line, looked at after some of its plies.
#[derive(Clone, Copy, Debug)]
pub struct Scene<'a> {
    line: &'a Line,
    plies: usize,
}

impl<'a> Scene<'a> {
    /// Looks at `line` after `plies` plies.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that.
    pub fn new(line: &'a Line, plies: usize) -> Scene<'a> {
        assert!(plies <= line.len(), "a scene lies on its line");
        Scene { line, plies }
    }

    /// Returns the whole line, beyond the scene too.
    pub const fn line(self) -> &'a Line {
        self.line
    }

    /// Returns the number of plies played.
    pub const fn plies(self) -> usize {
        self.plies
    }

    /// Returns the plies played so far.
    pub fn played(self) -> &'a [Ply] {
        &self.line.plies()[..self.plies]
    }

    /// Returns the position looked at.
    pub fn position(self) -> &'a Chess {
        self.line.position(self.plies)
    }

    /// Prepares to judge moves in the position looked at.
    pub fn judge(self) -> Judge<'a> {
        let start = Past::new(self.line.start());
        let past = { self.played().iter() }.fold(start, |past, ply| past.after(ply.mv));
        Judge::new(self.position(), past)
    }

    /// Returns the pieces on the board.
    pub fn board(self) -> &'a Board {
        self.position().board()
    }

    /// Returns the piece on a square.
    pub fn piece_on(self, square: Square) -> Option<&'a TrackedPiece> {
        self.line.roster().piece_on(square, self.plies)
    }
}
