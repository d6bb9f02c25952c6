//! The questions over a position reached by a line. They stand in a [`Scene`].

mod attackers;
mod attacks;
mod balance;
mod captures;
mod check;
mod checks;
mod exchange;
mod hanging;
mod legality;
mod mate;
mod moves;
mod occupant;
mod played;
mod rebuild;
mod refused;
mod rights;
mod standing;
mod taken;
mod whereabouts;

use serde::{Deserialize, Serialize};
use shakmaty::Board;

pub use attackers::{Attackers, AttackersWhy, Looker};
pub use attacks::{Attacks, AttacksWhy};
pub use balance::{Balance, BalanceWhy, worth};
pub use captures::Captures;
pub use check::Check;
pub use checks::{Checks, DeedsWhy};
pub use exchange::{Declined, Exchange, ExchangeWhy, Taking};
pub use hanging::{Hanging, HangingWhy, Watched};
pub use legality::{Blame, Legality, LegalityWhy, Since};
pub use mate::{Mate, MateWhy};
pub use moves::{Closed, Moves, MovesWhy};
pub use occupant::{Found, Occupant};
pub use played::{Played, PlayedWhy};
pub use rebuild::{Rebuild, RebuildWhy};
pub use refused::Refused;
pub use rights::{Rights, RightsWhy};
pub use standing::{Standing, StandingWhy};
pub use taken::{Taken, TakenWhy};
pub use whereabouts::Whereabouts;

use super::{Form, Journey, Kind, Mark, Reply, Scene, Truth};
use crate::reply::{self, Unread};

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
    /// Every legal move that gives check.
    Checks(Checks),
    /// Every legal capture.
    Captures(Captures),
    /// A side's men that are attacked and not guarded.
    Hanging(Hanging),
    /// A move that mates at once, or that there is none.
    Mate(Mate),
    /// What taking on a square wins.
    Exchange(Exchange),
    /// The balance of material.
    Balance(Balance),
    /// The wings on which a side may still castle some day.
    Rights(Rights),
    /// A side's men that have left the board.
    Taken(Taken),
    /// The move played at a given move number.
    Played(Played),
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
    /// What the moves do.
    Checks(DeedsWhy),
    /// What the moves take, or not.
    Captures(DeedsWhy),
    /// Who attacks and who guards the men.
    Hanging(HangingWhy),
    /// What the moves do, and what meets them.
    Mate(MateWhy),
    /// The line of captures.
    Exchange(ExchangeWhy),
    /// Each side's men, counted.
    Balance(BalanceWhy),
    /// When the rights were lost.
    Rights(RightsWhy),
    /// The ways of the men that were taken.
    Taken(TakenWhy),
    /// The move.
    Played(PlayedWhy),
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
            LineQuestion::Checks(_) => Kind::Checks,
            LineQuestion::Captures(_) => Kind::Captures,
            LineQuestion::Hanging(_) => Kind::Hanging,
            LineQuestion::Mate(_) => Kind::Mate,
            LineQuestion::Exchange(_) => Kind::Exchange,
            LineQuestion::Balance(_) => Kind::Balance,
            LineQuestion::Rights(_) => Kind::Rights,
            LineQuestion::Taken(_) => Kind::Taken,
            LineQuestion::Played(_) => Kind::Played,
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
            LineQuestion::Checks(Checks {}) => Checks::truth(scene),
            LineQuestion::Captures(Captures {}) => Captures::truth(scene),
            LineQuestion::Hanging(question) => question.truth(scene),
            LineQuestion::Mate(question) => question.truth(scene),
            LineQuestion::Exchange(question) => question.truth(scene),
            LineQuestion::Balance(Balance {}) => Balance::truth(scene),
            LineQuestion::Rights(question) => question.truth(scene),
            LineQuestion::Taken(question) => question.truth(scene),
            LineQuestion::Played(question) => question.truth(scene),
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
            LineQuestion::Checks(Checks {}) => LineWhy::Checks(self.deeds(scene, reply)),
            LineQuestion::Captures(Captures {}) => LineWhy::Captures(self.deeds(scene, reply)),
            LineQuestion::Hanging(question) => LineWhy::Hanging(question.why(scene, tally)),
            LineQuestion::Mate(question) => {
                LineWhy::Mate(question.why(scene, self.deeds(scene, reply)))
            }
            LineQuestion::Exchange(question) => LineWhy::Exchange(question.why(scene)),
            LineQuestion::Balance(Balance {}) => LineWhy::Balance(Balance::why(scene)),
            LineQuestion::Rights(question) => LineWhy::Rights(question.why(scene)),
            LineQuestion::Taken(question) => LineWhy::Taken(question.why(scene)),
            LineQuestion::Played(question) => LineWhy::Played(question.why(scene, reply)),
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
    fn deeds(self, scene: Scene<'_>, reply: Option<&Reply>) -> DeedsWhy {
        DeedsWhy::new(scene, &self.truth(scene), reply)
    }

    /// Returns the form that a reply must have.
    #[must_use]
    pub const fn form(&self) -> Form {
        match self {
            LineQuestion::Whereabouts(_) => Form::SquareOrGone,
            LineQuestion::Occupant(_) => Form::Piece,
            LineQuestion::Standing(_)
            | LineQuestion::Attacks(_)
            | LineQuestion::Attackers(_)
            | LineQuestion::Moves(_)
            | LineQuestion::Check(_)
            | LineQuestion::Hanging(_) => Form::Squares,
            LineQuestion::Legality(_) => Form::Legal,
            LineQuestion::Checks(_) | LineQuestion::Captures(_) => Form::Moves,
            LineQuestion::Mate(_) => Form::MoveOrNone,
            LineQuestion::Exchange(_) | LineQuestion::Balance(_) => Form::Points,
            LineQuestion::Rights(_) => Form::Wings,
            LineQuestion::Taken(_) => Form::Taken,
            LineQuestion::Played(_) => Form::Move,
            LineQuestion::Rebuild(_) => Form::Placement,
        }
    }

    /// Reads a reply generously; moves are read in the position in which they would be played.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in the question's form.
    pub fn read(&self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        let mode = scene.line().start().mode();
        match self {
            LineQuestion::Whereabouts(question) if reply::still_there(text) => {
                Ok(Reply::Square(question.man))
            }
            LineQuestion::Moves(question) => self.form().read(&question.arrivals(scene, text)),
            LineQuestion::Played(question) => {
                self.form().read_in(text, question.before(scene), mode)
            }
            _ => self.form().read_in(text, scene.position(), mode),
        }
    }
}
