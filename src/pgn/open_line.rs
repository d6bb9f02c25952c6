//! A line whose end has not been read yet.

use shakmaty::{Chess, Move, Position};

use super::token::Token;
use crate::game::{MoveOrNull, NodeId, Start};
use crate::rules::Past;

/// A line that is being read.
#[derive(Clone, Debug)]
pub(super) struct OpenLine {
    /// The position, and what the line has left behind beside it.
    here: (Chess, Past),
    /// The same before the last move, where a sideline starts.
    before: (Chess, Past),
    /// What was played last.
    pub(super) last: Option<MoveOrNull>,
    /// The node of it, where the game is kept.
    pub(super) node: Option<NodeId>,
    /// The move that the line replaces; `None` for the main line.
    pub(super) replaced: Option<NodeId>,
    pub(super) ply: usize,
    pub(super) opened: Option<Token>,
    /// Comments and glyphs that stand before the first move of a sideline.
    pub(super) preface: Vec<String>,
    pub(super) nags: Vec<u8>,
    /// Whether a fault has ended the line.
    pub(super) cut: bool,
    /// How many sidelines are open behind the fault.
    pub(super) left_out: usize,
}

impl OpenLine {
    /// Opens the main line; it is cut from the start where no move of it can be played.
    pub(super) fn main(start: &Start, cut: bool) -> OpenLine {
        OpenLine::new(&(start.position().clone(), Past::new(start)), cut)
    }

    fn new(start: &(Chess, Past), cut: bool) -> OpenLine {
        OpenLine {
            here: start.clone(),
            before: start.clone(),
            last: None,
            node: None,
            replaced: None,
            ply: 0,
            opened: None,
            preface: Vec::new(),
            nags: Vec::new(),
            cut,
            left_out: 0,
        }
    }

    /// Returns the position at the end of the line.
    pub(super) const fn position(&self) -> &Chess {
        &self.here.0
    }

    /// Returns what the line has left behind beside its position.
    pub(super) const fn past(&self) -> Past {
        self.here.1
    }

    /// Plays a legal move.
    pub(super) fn play(&mut self, mv: Move) {
        self.before.clone_from(&self.here);
        let (position, past) = &mut self.here;
        position.play_unchecked(mv);
        *past = past.after(mv);
    }

    /// Goes on from another position.
    pub(super) fn set(&mut self, after: Chess) {
        let past = self.past();
        self.before = std::mem::replace(&mut self.here, (after, past));
    }

    /// Opens a sideline that replaces the last move of this line.
    pub(super) fn sideline(&self, opened: &Token) -> OpenLine {
        OpenLine {
            replaced: self.node,
            ply: self.ply.saturating_sub(1),
            opened: Some(opened.clone()),
            ..OpenLine::new(&self.before, false)
        }
    }
}
