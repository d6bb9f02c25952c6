//! Calculation: positions chosen because something happens, plies that follow the learner, and mates.

mod interest;
mod learner;
mod mates;
pub(crate) mod pace;
mod sessions;
