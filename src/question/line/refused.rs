//! Illegal moves in a reply.

use super::super::reply::Nobodys;
use super::super::{Attempt, Reply, Scene};
use super::LegalityWhy;

/// An illegal move that was named, and why it is illegal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Its squares are certain, and so is its one reason.
    Illegal(LegalityWhy),
    /// It is illegal whichever piece was meant.
    Nobodys(Nobodys),
}

impl Refused {
    /// Finds the illegal moves of a reply; `scene` is where they would be played.
    pub(super) fn all(scene: Scene<'_>, reply: Option<&Reply>) -> Vec<Refused> {
        let (attempts, nobodys): (&[Attempt], &[Nobodys]) = match reply {
            Some(Reply::Moves(said)) => (&said.attempts, &said.nobodys),
            Some(Reply::Move(said)) => (std::slice::from_ref(said), &[]),
            Some(Reply::NobodysMove(said)) => (&[], std::slice::from_ref(said)),
            _ => (&[], &[]),
        };
        let attempts = attempts.iter();
        let illegal = attempts
            .map(|attempt| LegalityWhy::new(scene, *attempt))
            .filter(|why| why.blame.is_some())
            .map(Refused::Illegal);
        let nobodys = nobodys.iter().cloned().map(Refused::Nobodys);
        illegal.chain(nobodys).collect()
    }
}
