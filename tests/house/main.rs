//! What the project says of itself: its layers, its README, its demo games.

mod demo_games;
mod layers;
mod random;
mod readme;
