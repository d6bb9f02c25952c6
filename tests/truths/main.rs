//! What is true: of positions, games and the bare board, against sources outside the project.

mod bare_board;
mod bare_outside;
mod bare_replies;
mod counted;
mod legality;
mod mating;
mod outside;
#[path = "../shared/published.rs"]
mod published;
mod questions;
mod spoken;
