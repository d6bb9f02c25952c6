//! Which move was played, in words.

use crate::exercise::Stand;
use crate::question::{Played, PlayedWhy, Truth};
use crate::voice::Announce;
use crate::voice::naming::{list, side, squares_of};
use crate::voice::words::LineWords;

use super::refused::refused;

impl LineWords for Played {
    fn ask(self, _: &Stand) -> String {
        format!("What was {}'s move {}?", side(self.color), self.number)
    }

    fn tell(self, truth: &Truth) -> String {
        let named = list(truth.attempts().iter().map(|attempt| squares_of(*attempt)));
        format!("{}'s move {} was {named}.", side(self.color), self.number)
    }

    fn explain(why: &PlayedWhy) -> Vec<String> {
        let mut said: Vec<String> = why.refused.iter().map(refused).collect();
        said.push(format!("It was {}.", Announce::Words.named(&why.ply)));
        said
    }
}
