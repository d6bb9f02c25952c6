//! A trainer for chess without sight of the board.

pub mod game;
pub mod learner;
pub mod notation;
pub mod question;
pub mod session;
pub mod terminal;
pub mod voice;
