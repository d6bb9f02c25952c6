//! The questions over a position reached by a line. They stand in a [`Scene`].

mod attackers;
mod attacks;
mod check;
mod legality;
mod moves;
mod occupant;
mod rebuild;
mod standing;
mod whereabouts;

use serde::{Deserialize, Serialize};
use shakmaty::Board;

pub use attackers::{Attackers, AttackersWhy, Looker};
pub use attacks::{Attacks, AttacksWhy};
pub use check::Check;
pub use legality::{Blame, Legality, LegalityWhy, Since};
pub use moves::{Moves, MovesWhy};
pub use occupant::{Found, Occupant};
pub use rebuild::{Rebuild, RebuildWhy};
pub use standing::{Standing, StandingWhy};
pub use whereabouts::Whereabouts;

use super::{Journey, Kind, Mark, Reply, Scene, Truth};

/// A question over a position reached by a line; in JSON, its `kind` and its `subject`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", content = "subject", rename_all = "lowercase")]
pub enum LineQuestion {
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
pub enum LineWhy {
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

impl LineQuestion {
    /// Returns the kind.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        match self {
            LineQuestion::Whereabouts(_) => Kind::Whereabouts,
            LineQuestion::Occupant(_) => Kind::Occupant,
            LineQuestion::Standing(_) => Kind::Standing,
            LineQuestion::Attacks(_) => Kind::Attacks,
            LineQuestion::Attackers(_) => Kind::Attackers,
            LineQuestion::Moves(_) => Kind::Moves,
            LineQuestion::Legality(_) => Kind::Legality,
            LineQuestion::Check(_) => Kind::Check,
            LineQuestion::Rebuild(_) => Kind::Rebuild,
        }
    }

    /// Computes the right answer from the scene.
    #[must_use]
    pub fn truth(&self, scene: Scene<'_>) -> Truth {
        match self {
            LineQuestion::Whereabouts(question) => question.truth(scene),
            LineQuestion::Occupant(question) => question.truth(scene),
            LineQuestion::Standing(question) => question.truth(scene),
            LineQuestion::Attacks(question) => question.truth(scene),
            LineQuestion::Attackers(question) => question.truth(scene),
            LineQuestion::Moves(question) => question.truth(scene),
            LineQuestion::Legality(question) => question.truth(scene),
            LineQuestion::Check(Check {}) => Check::truth(scene),
            LineQuestion::Rebuild(Rebuild {}) => Rebuild::truth(scene),
        }
    }

    /// Explains the right answer to a learner who gave `reply`, or nothing when it was given up.
    #[must_use]
    pub fn why(&self, scene: Scene<'_>, mark: &Mark, reply: Option<&Reply>) -> LineWhy {
        let tally = &mark.tally;
        match self {
            LineQuestion::Whereabouts(question) => LineWhy::Whereabouts(question.why(scene)),
            LineQuestion::Occupant(question) => LineWhy::Occupant(question.why(scene)),
            LineQuestion::Standing(_) => LineWhy::Standing(Standing::why(scene, tally)),
            LineQuestion::Attacks(question) => LineWhy::Attacks(question.why(scene, tally)),
            LineQuestion::Attackers(question) => LineWhy::Attackers(question.why(scene, tally)),
            LineQuestion::Moves(question) => LineWhy::Moves(question.why(scene, tally)),
            LineQuestion::Legality(question) => LineWhy::Legality(question.why(scene)),
            LineQuestion::Check(Check {}) => LineWhy::Check(Check::why(scene, tally)),
            LineQuestion::Rebuild(Rebuild {}) => {
                let nothing = Board::empty();
                let said = match reply {
                    Some(Reply::Placement(board)) => board,
                    _ => &nothing,
                };
                LineWhy::Rebuild(Rebuild::why(scene, tally, said))
            }
        }
    }
}
