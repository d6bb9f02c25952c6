//! A line whose end has not been read yet.

use shakmaty::Chess;

use super::faults::Placed;
use crate::game::NodeId;

/// A line that is being read.
#[derive(Clone, Debug)]
pub(super) struct OpenLine {
    pub(super) position: Chess,
    /// The position before the last move: a sideline starts there.
    pub(super) before: Chess,
    pub(super) last: Option<NodeId>,
    /// The move that the line replaces; `None` for the main line.
    pub(super) replaced: Option<NodeId>,
    pub(super) ply: usize,
    pub(super) opened: Option<Placed>,
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
    pub(super) fn main(start: &Chess, cut: bool) -> OpenLine {
        OpenLine {
            position: start.clone(),
            before: start.clone(),
            last: None,
            replaced: None,
            ply: 0,
            opened: None,
            preface: Vec::new(),
            nags: Vec::new(),
            cut,
            left_out: 0,
        }
    }

    /// Opens a sideline that replaces the last move of this line.
    pub(super) fn sideline(&self, opened: &Placed) -> OpenLine {
        OpenLine {
            replaced: self.last,
            ply: self.ply.saturating_sub(1),
            opened: Some(opened.clone()),
            ..OpenLine::main(&self.before, false)
        }
    }
}
