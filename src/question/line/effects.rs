//! Every legal move that gives check or captures, a move that mates, at once or by force within a few moves,
//! and what moves do.

use serde::{Deserialize, Serialize};
use shakmaty::{Chess, Move, Position, Role};

use super::super::mating::{self, after, checks};
use super::super::{
    Attempt, Choice, Departure, LineKind, MoveSaid, Reply, Scene, Share, Tally, Truth,
};
use super::Refused;
use crate::game::{Line, Ply, Start};

/// Asks for every legal move of one sort: those that give check, or the captures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EveryMove<const CHECKING: bool> {}

/// Asks for every legal move that gives check (FIDE 3.9.1); not to be asked where a promotion is
/// among them.
pub type Checks = EveryMove<true>;

/// Asks for every legal capture, en passant among them; not to be asked where a promotion is among
/// them.
pub type Captures = EveryMove<false>;

/// A legal move and what it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MoveEffect {
    /// The move.
    pub ply: Ply,
    /// The position after it.
    pub after: Chess,
    /// How a piece went from the arrival square, where that is empty since.
    pub left: Option<Departure>,
    /// A legal move with which the other side goes on, the king's before all others; `None` where
    /// it has none.
    pub answer: Option<Ply>,
}

/// What the moves do that were missed, and those that were named wrongly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MoveEffectsWhy {
    /// The right moves that were not named.
    pub missed: Vec<MoveEffect>,
    /// The legal moves that should not have been named.
    pub extra: Vec<MoveEffect>,
    /// The illegal ones.
    pub refused: Vec<Refused>,
}

impl MoveEffect {
    /// Finds what a move does where it is legal; the other side goes on with the move that `answer` finds
    /// in the position after it.
    fn new(
        scene: Scene<'_>,
        attempt: Attempt,
        answer: impl FnOnce(&Chess) -> Option<Move>,
    ) -> Option<MoveEffect> {
        let position = scene.position();
        let mut moves = position.legal_moves().into_iter();
        let mv = moves.find(|mv| Attempt::of(*mv, position) == attempt)?;
        let after = after(position, mv);
        let ply = Ply::new(position, mv);
        Some(MoveEffect {
            left: Departure::from(scene, ply.to()).filter(|_| ply.taken().is_none()),
            ply,
            answer: answer(&after).map(|answer| Ply::new(&after, answer)),
            after,
        })
    }
}

impl MoveEffectsWhy {
    /// Holds a reply against the truth. A move that was named wrongly is met by the move that
    /// `answer` finds in the position after it.
    fn new(
        scene: Scene<'_>,
        truth: &Truth,
        reply: Option<&Reply>,
        answer: impl Fn(&Chess) -> Option<Move>,
    ) -> MoveEffectsWhy {
        let said = reply.map_or(&[][..], Reply::moves).iter();
        let said: Vec<Attempt> = said.filter_map(MoveSaid::squares).collect();
        let right = truth.attempts();
        let missed = right.iter().filter(|attempt| !said.contains(attempt));
        let missed = missed.filter_map(|attempt| MoveEffect::new(scene, *attempt, any_answer));
        let extra = said.iter().filter(|attempt| !right.contains(attempt));
        let extra = extra.filter_map(|attempt| MoveEffect::new(scene, *attempt, &answer));
        MoveEffectsWhy {
            missed: missed.collect(),
            extra: extra.collect(),
            refused: Refused::all(scene, reply),
        }
    }
}

fn any_answer(after: &Chess) -> Option<Move> {
    let answers = after.legal_moves();
    let kings = answers.iter().find(|answer| answer.role() == Role::King);
    kings.or_else(|| answers.first()).copied()
}

/// Lists legal moves in the order of their squares.
fn listed(scene: Scene<'_>, moves: impl IntoIterator<Item = Move>) -> Truth {
    let moves = moves.into_iter();
    Truth::moves(moves.map(|mv| Attempt::of(mv, scene.position())))
}

/// A question about all legal moves of one sort, unless a promotion is among them. Where there is no
/// such move it comes only where it is `believable` that there is one.
fn drawn<K: LineKind>(
    question: K,
    believable: impl Fn(Scene<'_>) -> bool,
    choice: &mut Choice<'_>,
) -> Option<K> {
    let truth = question.truth(choice.scene);
    let moves = truth.attempts();
    if moves.iter().any(|mv| mv.promotion.is_some()) {
        return None;
    }
    let is_fair = !choice.strict || !moves.is_empty() || believable(choice.scene);
    is_fair.then_some(question)
}

impl<const CHECKING: bool> LineKind for EveryMove<CHECKING> {
    const VARIED: bool = false;

    const TELLS_CHECK: bool = true;

    const MOVES: Share = Share::All;

    type Why = MoveEffectsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        if CHECKING {
            listed(scene, checks(scene.position()).map(|(mv, _)| mv))
        } else {
            listed(scene, scene.position().capture_moves())
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> MoveEffectsWhy {
        MoveEffectsWhy::new(scene, &self.truth(scene), reply, any_answer)
    }

    fn draw(choice: &mut Choice<'_>) -> Option<EveryMove<CHECKING>> {
        drawn(EveryMove {}, |_| true, choice)
    }
}

/// Asks for a move that mates (FIDE 5.1.1); any one that does so in time is right. Not to be asked where
/// a promotion is among them.
///
/// In JSON `{}` asks for a mate at once, and `{"in":3}` for a move that forces mate within three moves of
/// the side to move, itself counted, whatever the other side replies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mate {
    /// Within so many moves; 1 for a mate at once.
    #[serde(rename = "in", default = "once", skip_serializing_if = "is_once")]
    pub within: u32,
}

const fn once() -> u32 {
    1
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
const fn is_once(within: &u32) -> bool {
    *within == 1
}

/// Why a move mates in time, or does not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MateWhy {
    /// The number of moves asked about.
    pub within: u32,
    /// The moves; one that does not mate in time has for its answer a reply that escapes.
    pub effects: MoveEffectsWhy,
    /// The moves of both sides up to the mate, the defence holding out as long as it can.
    pub way: Vec<Ply>,
}

impl Mate {
    /// Asks for a mate at once.
    pub const AT_ONCE: Mate = Mate { within: once() };

    /// Tells whether the move has to mate at once.
    pub const fn is_at_once(self) -> bool {
        is_once(&self.within)
    }

    /// A first move alone explains nothing where the other side still has replies: the way to the
    /// mate does.
    fn way(self, scene: Scene<'_>) -> Vec<Ply> {
        let mut line = Line::new(Start::new(scene.position().clone()));
        for mv in mating::way(scene.position(), self.within) {
            line.push(mv).expect("the search plays legal moves");
        }
        line.plies().to_vec()
    }
}

impl LineKind for Mate {
    const VARIED: bool = false;

    const TELLS_CHECK: bool = true;

    const MOVES: Share = Share::All;

    type Why = MateWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        if !self.is_at_once() {
            return listed(scene, mating::keys(scene.position(), self.within));
        }
        let mates = checks(scene.position()).filter(|(_, after)| after.is_checkmate());
        listed(scene, mates.map(|(mv, _)| mv))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> MateWhy {
        let answer = |after: &_| {
            let left = self.within.saturating_sub(1);
            let escape = mating::escape(after, left).filter(|_| left > 0);
            escape.or_else(|| any_answer(after))
        };
        let truth = self.truth(scene);
        let mut effects = MoveEffectsWhy::new(scene, &truth, reply, answer);
        if truth.attempts().is_empty() && reply.is_none_or(|reply| reply.moves().is_empty()) {
            // What comes nearest to a mate that is not there is a check.
            let checks = Checks {}.truth(scene);
            let near = checks.attempts().iter();
            effects.extra = near
                .filter_map(|attempt| MoveEffect::new(scene, *attempt, answer))
                .collect();
        }
        MateWhy {
            within: self.within,
            effects,
            way: self.way(scene),
        }
    }

    /// A mate that is not there is asked for only where some move gives check.
    fn draw(choice: &mut Choice<'_>) -> Option<Mate> {
        let some_check = |scene: Scene<'_>| !Checks {}.truth(scene).attempts().is_empty();
        drawn(Mate::AT_ONCE, some_check, choice)
    }
}
