//! Every legal move that gives check.

use serde::{Deserialize, Serialize};
use shakmaty::{Chess, Move, Position};

use super::super::{
    Attempt, Choice, Form, LineKind, MoveEffect, MoveSaid, Reply, Scene, Secret, Tally, Truth,
};
use super::Refused;

/// Asks for every legal move that gives check (FIDE 3.9.1); not to be asked where a promotion is
/// among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Checks {}

/// What the moves do that were forgotten, and those that were named without need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MoveEffectsWhy {
    /// The right moves that were not named.
    pub missed: Vec<MoveEffect>,
    /// The legal moves that should not have been named.
    pub extra: Vec<MoveEffect>,
    /// The illegal ones.
    pub refused: Vec<Refused>,
}

impl MoveEffectsWhy {
    pub(super) fn new(scene: Scene<'_>, truth: &Truth, reply: Option<&Reply>) -> MoveEffectsWhy {
        let said = reply.map_or(&[][..], Reply::moves).iter();
        let said: Vec<Attempt> = said.filter_map(MoveSaid::squares).collect();
        let right = truth.attempts();
        let only_in = |these: &[Attempt], others: &[Attempt]| {
            let alone = these.iter().filter(|attempt| !others.contains(attempt));
            alone
                .filter_map(|attempt| effect(scene, *attempt))
                .collect()
        };
        MoveEffectsWhy {
            missed: only_in(right, &said),
            extra: only_in(&said, right),
            refused: Refused::all(scene, reply),
        }
    }
}

fn effect(scene: Scene<'_>, attempt: Attempt) -> Option<MoveEffect> {
    let mode = scene.line().start().mode();
    let legal = scene.position().legal_moves().into_iter();
    legal
        .into_iter()
        .find(|mv| Attempt::of(*mv, mode) == attempt)
        .map(|mv| MoveEffect::new(scene.position(), mv, mode))
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

/// A question about all legal moves of one sort, unless a promotion is among them. Where there is no
/// such move it comes once in three times, so that `none` is one answer among others; and then only
/// where it is `believable` that there is one.
pub(super) fn drawn<K: LineKind>(
    question: K,
    believable: impl Fn(Scene<'_>) -> bool,
    choice: &mut Choice<'_>,
) -> Option<K> {
    let truth = question.truth(choice.scene);
    let moves = truth.attempts();
    if moves.iter().any(|mv| mv.promotion.is_some()) {
        return None;
    }
    if choice.strict && moves.is_empty() {
        let over = choice.scene.position().legal_moves().is_empty();
        if over || !believable(choice.scene) || !choice.dice.chance(1, 3) {
            return None;
        }
    }
    Some(question)
}

impl LineKind for Checks {
    const FORM: Form = Form::Moves;

    type Why = MoveEffectsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        legal(scene, |position, mv| after(position, mv).is_check())
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> MoveEffectsWhy {
        MoveEffectsWhy::new(scene, &self.truth(scene), reply)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.tells_moves();
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Checks> {
        drawn(Checks {}, |_| true, choice)
    }
}
