//! A move that mates, at once or by force within a few moves, or that there is none.

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::super::{Attempt, Choice, Form, LineKind, Reply, Scene, Share, Tally, Truth, mating};
use super::effects::{Checks, MoveEffectsWhy, drawn, legal};
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
        let start = Start::new(scene.mode(), scene.position().clone());
        let mut line = Line::new(start);
        for mv in mating::way(scene.position(), self.within) {
            line.push(mv).expect("the search plays legal moves");
        }
        line.plies().to_vec()
    }
}

impl LineKind for Mate {
    const FORM: Form = Form::MoveOrNone;

    const TELLS_CHECK: bool = true;

    const MOVES: Share = Share::All;

    type Why = MateWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        if self.is_at_once() {
            return legal(scene, |position, mv| {
                mating::after(position, mv).is_checkmate()
            });
        }
        let keys = mating::keys(scene.position(), self.within).into_iter();
        Truth::moves(keys.map(|key| Attempt::of(key, scene.mode())))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> MateWhy {
        let truth = self.truth(scene);
        let (effects, way) = if self.is_at_once() {
            let effects = MoveEffectsWhy::new(scene, &truth, reply, |_| None);
            (effects, Vec::new())
        } else {
            let escape = |after: &_| mating::escape(after, self.within.saturating_sub(1));
            let effects = MoveEffectsWhy::new(scene, &truth, reply, escape);
            (effects, self.way(scene))
        };
        MateWhy {
            within: self.within,
            effects,
            way,
        }
    }

    /// A mate that is not there is asked for only where some move gives check.
    fn draw(choice: &mut Choice<'_>) -> Option<Mate> {
        let some_check = |scene: Scene<'_>| !Checks {}.truth(scene).attempts().is_empty();
        drawn(Mate::AT_ONCE, some_check, choice)
    }
}
