//! The words of the kinds over a position reached by a line.

mod attacks;
mod effects;
pub(super) mod illegal;
mod journey;
mod legality;
mod points;
