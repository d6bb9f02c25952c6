//! Floor 1: the questions. Each kind is a file of its own that says what is asked, what is true and
//! why; reading and grading a reply depend only on the form of the answer, which few kinds share.
//!
//! A question asks nothing of how it was chosen and knows no wording. Its truth is computed from the
//! position, never stored:
//!
//! ```
//! use sansvoir::game::{Line, Start};
//! use sansvoir::question::{Mark, Occupant, Question, Scene, Verdict};
//!
//! let line = Line::new(Start::standard());
//! let scene = Scene::new(&line, 0);
//! let question = Question::Occupant(Occupant { square: "d8".parse()? });
//! let truth = question.truth(scene);
//! let reply = truth.form().read("black queen").expect("a man");
//! assert_eq!(Mark::new(&truth, &reply).verdict, Verdict::Right);
//! # Ok::<(), shakmaty::ParseSquareError>(())
//! ```

mod attackers;
mod attacks;
pub mod bare;
mod check;
mod grade;
mod illegal;
mod journey;
mod json;
mod kind;
mod legality;
mod moves;
mod occupant;
mod rebuild;
mod reply;
mod scene;
mod sight;
mod standing;
mod truth;
mod whereabouts;

use serde::{Deserialize, Serialize};
use shakmaty::Board;

pub use attackers::{Attackers, AttackersWhy, Looker};
pub use attacks::{Attacks, AttacksWhy};
pub use bare::{BareQuestion, BareWhy};
pub use check::Check;
pub use grade::{Mark, Tally, Verdict};
pub use illegal::{Attempt, Illegal, Judge, NoAttempt, Reason, pinned};
pub use journey::{Capture, Departure, Journey, Leg};
pub use kind::{Kind, NoKind};
pub use legality::{Blame, Legality, LegalityWhy, Since};
pub use moves::{Moves, MovesWhy};
pub use occupant::{Found, Occupant};
pub use rebuild::{Rebuild, RebuildWhy};
pub use reply::{Form, Reply};
pub use scene::Scene;
pub use sight::{Ray, Sight};
pub use standing::{Standing, StandingWhy};
pub use truth::{Is, Truth};
pub use whereabouts::Whereabouts;

/// A question over a position reached by a line; in JSON, its `kind` and its `subject`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", content = "subject", rename_all = "lowercase")]
pub enum Question {
    /// Where a man stands now.
    Whereabouts(Whereabouts),
    /// What stands on a square.
    Occupant(Occupant),
    /// Where a side's men of one role stand.
    Standing(Standing),
    /// What a man attacks.
    Attacks(Attacks),
    /// What attacks a square.
    Attackers(Attackers),
    /// Where a man can go.
    Moves(Moves),
    /// Whether a move is legal.
    Legality(Legality),
    /// Who gives check.
    Check(Check),
    /// Where every man stands.
    Rebuild(Rebuild),
}

/// Why the truth is what it is, held against what the learner said; `voice` puts it into words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// The man's whole way; `None` where no man stood on that square.
    Whereabouts(Option<Journey>),
    /// How the square came by its man, or lost it.
    Occupant(Found),
    /// The ways of the forgotten men.
    Standing(StandingWhy),
    /// How far the man sees.
    Attacks(AttacksWhy),
    /// Who sees the square.
    Attackers(AttackersWhy),
    /// What binds the man.
    Moves(MovesWhy),
    /// What forbids the move.
    Legality(LegalityWhy),
    /// Who sees the king.
    Check(AttackersWhy),
    /// Which men were misplaced.
    Rebuild(RebuildWhy),
}

impl Question {
    /// Returns the kind.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        match self {
            Question::Whereabouts(_) => Kind::Whereabouts,
            Question::Occupant(_) => Kind::Occupant,
            Question::Standing(_) => Kind::Standing,
            Question::Attacks(_) => Kind::Attacks,
            Question::Attackers(_) => Kind::Attackers,
            Question::Moves(_) => Kind::Moves,
            Question::Legality(_) => Kind::Legality,
            Question::Check(_) => Kind::Check,
            Question::Rebuild(_) => Kind::Rebuild,
        }
    }

    /// Computes the right answer from the scene.
    #[must_use]
    pub fn truth(&self, scene: Scene<'_>) -> Truth {
        match self {
            Question::Whereabouts(question) => question.truth(scene),
            Question::Occupant(question) => question.truth(scene),
            Question::Standing(question) => question.truth(scene),
            Question::Attacks(question) => question.truth(scene),
            Question::Attackers(question) => question.truth(scene),
            Question::Moves(question) => question.truth(scene),
            Question::Legality(question) => question.truth(scene),
            Question::Check(Check {}) => Check::truth(scene),
            Question::Rebuild(Rebuild {}) => Rebuild::truth(scene),
        }
    }

    /// Explains the right answer to a learner who gave `reply`, or nothing when it was given up.
    #[must_use]
    pub fn why(&self, scene: Scene<'_>, mark: &Mark, reply: Option<&Reply>) -> Why {
        let tally = &mark.tally;
        match self {
            Question::Whereabouts(question) => Why::Whereabouts(question.why(scene)),
            Question::Occupant(question) => Why::Occupant(question.why(scene)),
            Question::Standing(_) => Why::Standing(Standing::why(scene, tally)),
            Question::Attacks(question) => Why::Attacks(question.why(scene, tally)),
            Question::Attackers(question) => Why::Attackers(question.why(scene, tally)),
            Question::Moves(question) => Why::Moves(question.why(scene, tally)),
            Question::Legality(question) => Why::Legality(question.why(scene)),
            Question::Check(Check {}) => Why::Check(Check::why(scene, tally)),
            Question::Rebuild(Rebuild {}) => {
                let nothing = Board::empty();
                let said = match reply {
                    Some(Reply::Placement(board)) => board,
                    _ => &nothing,
                };
                Why::Rebuild(Rebuild::why(scene, tally, said))
            }
        }
    }
}
