//! A board without coordinates, one square marked, seen from one side.

use crate::session::Ask;

/// Draws the board of a question that marks a square; nothing for all others.
pub(in super::super) fn marked_board(_: &Ask, _: bool) -> Vec<String> {
    Vec::new()
}
