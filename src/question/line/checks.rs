//! Every legal move that gives check.

use serde::{Deserialize, Serialize};
use shakmaty::{Chess, Move, Position};

use super::super::{Attempt, Deed, Reply, Scene, Truth};
use super::Refused;

/// Asks for every legal move that gives check (FIDE 3.9.1); not to be asked where a promotion is
/// among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Checks {}

/// What the moves do that were forgotten, and those that were named without need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeedsWhy {
    /// The right moves that were not named.
    pub missed: Vec<Deed>,
    /// The legal moves that should not have been named.
    pub extra: Vec<Deed>,
    /// The illegal ones.
    pub refused: Vec<Refused>,
}

impl DeedsWhy {
    pub(super) fn new(scene: Scene<'_>, truth: &Truth, reply: Option<&Reply>) -> DeedsWhy {
        let said: &[Attempt] = match reply {
            Some(Reply::Moves(said)) => &said.attempts,
            Some(Reply::Move(said)) => std::slice::from_ref(said),
            _ => &[],
        };
        let right: &[Attempt] = match truth {
            Truth::Moves { moves } => moves,
            _ => &[],
        };
        let only_in = |these: &[Attempt], others: &[Attempt]| {
            let alone = these.iter().filter(|attempt| !others.contains(attempt));
            alone.filter_map(|attempt| deed(scene, *attempt)).collect()
        };
        DeedsWhy {
            missed: only_in(right, said),
            extra: only_in(said, right),
            refused: Refused::all(scene, reply),
        }
    }
}

fn deed(scene: Scene<'_>, attempt: Attempt) -> Option<Deed> {
    let mode = scene.line().start().mode();
    let legal = scene.position().legal_moves().into_iter();
    legal
        .into_iter()
        .find(|mv| Attempt::of(*mv, mode) == attempt)
        .map(|mv| Deed::new(scene.position(), mv, mode))
}

/// Lists the legal moves that pass a test, in the order of their squares.
pub(super) fn legal(scene: Scene<'_>, test: impl Fn(&Chess, Move) -> bool) -> Truth {
    let position = scene.position();
    let mode = scene.line().start().mode();
    let moves = position.legal_moves().into_iter();
    Truth::moves(
        moves
            .filter(|mv| test(position, *mv))
            .map(|mv| Attempt::of(mv, mode)),
    )
}

/// The position after a legal move.
pub(super) fn after(position: &Chess, mv: Move) -> Chess {
    let mut after = position.clone();
    after.play_unchecked(mv);
    after
}

impl Checks {
    pub(super) fn truth(scene: Scene<'_>) -> Truth {
        legal(scene, |position, mv| after(position, mv).is_check())
    }
}
