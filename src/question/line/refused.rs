//! Illegal moves in a reply.

use super::super::{MoveSaid, Reply, Scene};
use super::LegalityWhy;
use crate::rules::MoveFault;

/// An illegal move that was named, and why it is illegal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Its squares are certain, and so is its one reason.
    Illegal(LegalityWhy),
    /// It is illegal whichever piece was meant.
    Impossible {
        /// The word that names it.
        word: String,
        /// What is wrong with it.
        fault: MoveFault,
    },
}

impl Refused {
    /// Finds the illegal moves of a reply; `scene` is where they would be played.
    pub(super) fn all(scene: Scene<'_>, reply: Option<&Reply>) -> Vec<Refused> {
        let said = reply.map_or(&[][..], Reply::moves).iter();
        said.filter_map(|said| match said {
            MoveSaid::Named(attempt) => {
                let why = LegalityWhy::new(scene, *attempt);
                why.blame.is_some().then_some(Refused::Illegal(why))
            }
            MoveSaid::Impossible { word, fault } => Some(Refused::Impossible {
                word: word.clone(),
                fault: fault.clone(),
            }),
        })
        .collect()
    }
}
