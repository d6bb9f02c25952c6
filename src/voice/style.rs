//! How things are said.

use shakmaty::{Board, Color};

use super::announce::Announce;
use super::boards::{List, diagram, pieces_listed};

/// How things are said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Voice {
    /// How moves are announced.
    pub announce: Announce,
    /// The side from which the board is drawn.
    pub view: Color,
    /// Whether everything is said in sentences, nothing drawn, for screen readers and pipes.
    pub plain: bool,
    /// How pieces are listed where they are told and not drawn.
    pub list: List,
    /// Whether an empty board stays before the eyes while all else is wiped.
    pub empty_board: bool,
    /// What the session is held for.
    pub occasion: Occasion,
}

/// What a session is held for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Occasion {
    /// For itself.
    Itself,
    /// It is a part of a lesson, which says by itself how to go on.
    Lesson,
    /// It is a miniature: the mate that is asked for at its end is there.
    Miniature,
}

impl Voice {
    /// The same voice, speaking: nothing is drawn, and moves are said in words.
    pub(crate) fn aloud(mut self) -> Voice {
        self.plain = true;
        if self.announce != Announce::Spelled {
            self.announce = Announce::Words;
        }
        self
    }

    /// Shows a board: drawn for those who look, a list of pieces where everything is plain.
    pub(crate) fn board(self, board: &Board) -> Vec<String> {
        if self.plain {
            pieces_listed(board, self.list)
        } else {
            diagram(board, self.view)
        }
    }
}
