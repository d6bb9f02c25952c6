//! A trainer for chess without sight of the board.
pub mod game;
