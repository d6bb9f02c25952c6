//! A move that mates, at once or by force within a few moves, or that there is none.

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::super::{
    Attempt, Choice, Form, LineKind, MoveEffect, Reply, Scene, Secret, Tally, Truth, mating,
};
use super::checks::{Checks, MoveEffectsWhy, after, drawn, legal};
use crate::game::{Line, Ply, Start};

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
    /// Where more than one move is needed, the moves of both sides up to the mate, the defence holding
    /// out as long as it can.
    pub way: Vec<Ply>,
}

impl Mate {
    /// Asks for a mate at once.
    pub const AT_ONCE: Mate = Mate { within: once() };

    /// Tells whether the move has to mate at once.
    #[must_use]
    pub const fn is_at_once(self) -> bool {
        is_once(&self.within)
    }

    /// A first move alone explains nothing where the other side still has replies: the way to the
    /// mate does.
    fn way(self, scene: Scene<'_>) -> Vec<Ply> {
        let start = Start::new(scene.line().start().mode(), scene.position().clone());
        let mut line = Line::new(start);
        for mv in mating::way(scene.position(), self.within) {
            line.push(mv).expect("the search plays legal moves");
        }
        line.plies().to_vec()
    }

    fn find_escape(self, scene: Scene<'_>, effect: &mut MoveEffect) {
        let (position, mode) = (scene.position(), scene.line().start().mode());
        let mut moves = position.legal_moves().into_iter();
        let Some(mv) = moves.find(|mv| Attempt::of(*mv, mode) == effect.legal_move.attempt) else {
            return;
        };
        let after = after(position, mv);
        if let Some(escape) = mating::escape(&after, self.within.saturating_sub(1)) {
            effect.meet(&after, escape, mode);
        }
    }
}

impl LineKind for Mate {
    const FORM: Form = Form::MoveOrNone;

    type Why = MateWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        if self.is_at_once() {
            return legal(scene, |position, mv| after(position, mv).is_checkmate());
        }
        let mode = scene.line().start().mode();
        let keys = mating::keys(scene.position(), self.within);
        Truth::moves(keys.into_iter().map(|key| Attempt::of(key, mode)))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> MateWhy {
        let mut why = MateWhy {
            within: self.within,
            effects: MoveEffectsWhy::new(scene, &self.truth(scene), reply),
            way: Vec::new(),
        };
        if !self.is_at_once() {
            for effect in &mut why.effects.extra {
                self.find_escape(scene, effect);
            }
            why.way = self.way(scene);
        }
        why
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.tells_moves();
    }

    /// A mate that is not there is asked for only where some move gives check.
    fn draw(choice: &mut Choice<'_>) -> Option<Mate> {
        let some_check = |scene: Scene<'_>| !Checks {}.truth(scene).attempts().is_empty();
        drawn(Mate::AT_ONCE, some_check, choice)
    }
}
