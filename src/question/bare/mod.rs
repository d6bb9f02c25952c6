//! The questions over the bare board. They need no line: each knows all of its own truth.
//!
//! ```
//! use sansvoir::question::{BareQuestion, Verdict};
//!
//! let json = r#"{"kind":"distance","subject":{"man":"Na1","to":"h8","blockers":[]}}"#;
//! let question: BareQuestion = serde_json::from_str(json)?;
//! let reply = question.form().read("6").expect("a number of moves");
//! assert_eq!(question.mark(&reply).verdict, Verdict::Right);
//! # Ok::<(), serde_json::Error>(())
//! ```

mod aligned;
mod between;
mod color;
mod crossing;
mod distance;
mod json;
mod name;
mod place;
mod route;
mod span;

use serde::{Deserialize, Serialize};

pub use aligned::{Aligned, AlignedWhy};
pub use between::{Aside, Between, BetweenWhy, NoBetween};
pub use color::{Color, ColorWhy};
pub use crossing::{Crossing, CrossingWhy, NoCrossing};
pub use distance::{Distance, TravelWhy};
pub use name::{Name, NameWhy, NamedInstead};
pub use place::{CountedInstead, Place, PlaceWhy};
pub use route::{Route, RouteWhy};
pub use span::{Span, SpanWhy};

use super::{Form, Kind, Mark, Reply, Truth};

/// A question over the bare board; in JSON, its `kind` and its `subject`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", content = "subject", rename_all = "lowercase")]
pub enum BareQuestion {
    /// What a marked square is called.
    Name(Name),
    /// Where a square lies.
    Place(Place),
    /// Whether a square is light or dark.
    Color(Color),
    /// Which line two squares share.
    Aligned(Aligned),
    /// What lies between two squares.
    Between(Between),
    /// What two men both attack.
    Crossing(Crossing),
    /// What a man attacks on the empty board.
    Span(Span),
    /// In how few moves a man gets to a square.
    Distance(Distance),
    /// By which squares it gets there.
    Route(Route),
}

/// Why the truth is what it is, held against what the learner said; `voice` puts it into words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BareWhy {
    /// The counted files and rows, and the square that was named instead.
    Name(NameWhy),
    /// The counted files and rows, and the square that lies where the learner counted.
    Place(PlaceWhy),
    /// The parity sum.
    Color(ColorWhy),
    /// How far the squares lie apart, and the line's ends.
    Aligned(AlignedWhy),
    /// The squares in order, and where the others lie.
    Between(BetweenWhy),
    /// What each man sees of the squares.
    Crossing(CrossingWhy),
    /// The man's lines, and the edges that cut them.
    Span(SpanWhy),
    /// A shortest route, and how many there are.
    Distance(TravelWhy),
    /// The same, and the first fault of the learner's route.
    Route(RouteWhy),
}

impl BareQuestion {
    /// Returns the kind.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        match self {
            BareQuestion::Name(_) => Kind::Name,
            BareQuestion::Place(_) => Kind::Place,
            BareQuestion::Color(_) => Kind::Color,
            BareQuestion::Aligned(_) => Kind::Aligned,
            BareQuestion::Between(_) => Kind::Between,
            BareQuestion::Crossing(_) => Kind::Crossing,
            BareQuestion::Span(_) => Kind::Span,
            BareQuestion::Distance(_) => Kind::Distance,
            BareQuestion::Route(_) => Kind::Route,
        }
    }

    /// Returns the form that a reply must have.
    #[must_use]
    pub const fn form(&self) -> Form {
        match self {
            BareQuestion::Name(_) => Form::Square,
            BareQuestion::Place(_) => Form::Place,
            BareQuestion::Color(_) => Form::Color,
            BareQuestion::Aligned(_) => Form::Line,
            BareQuestion::Between(_) | BareQuestion::Crossing(_) | BareQuestion::Span(_) => {
                Form::Squares
            }
            BareQuestion::Distance(_) => Form::Distance,
            BareQuestion::Route(_) => Form::Route,
        }
    }

    /// Computes the right answer.
    #[must_use]
    pub fn truth(&self) -> Truth {
        match self {
            BareQuestion::Name(question) => question.truth(),
            BareQuestion::Place(question) => question.truth(),
            BareQuestion::Color(question) => question.truth(),
            BareQuestion::Aligned(question) => question.truth(),
            BareQuestion::Between(question) => question.truth(),
            BareQuestion::Crossing(question) => question.truth(),
            BareQuestion::Span(question) => question.truth(),
            BareQuestion::Distance(question) => question.truth(),
            BareQuestion::Route(question) => question.truth(),
        }
    }

    /// Grades a reply; any legal shortest route is right.
    ///
    /// # Panics
    ///
    /// When the reply was not read in the form of the question ([`BareQuestion::form`]).
    #[must_use]
    pub fn mark(&self, reply: &Reply) -> Mark {
        match (self, reply) {
            (BareQuestion::Route(question), Reply::Route(said)) => question.mark(said),
            _ => Mark::new(&self.truth(), reply),
        }
    }

    /// Explains the right answer to a learner who gave `reply`, or nothing when it was given up.
    #[must_use]
    pub fn why(&self, mark: &Mark, reply: Option<&Reply>) -> BareWhy {
        let tally = &mark.tally;
        match self {
            BareQuestion::Name(question) => BareWhy::Name(question.why(reply)),
            BareQuestion::Place(question) => BareWhy::Place(question.why(reply)),
            BareQuestion::Color(question) => BareWhy::Color(question.why()),
            BareQuestion::Aligned(question) => BareWhy::Aligned(question.why()),
            BareQuestion::Between(question) => BareWhy::Between(question.why(tally)),
            BareQuestion::Crossing(question) => BareWhy::Crossing(question.why(tally)),
            BareQuestion::Span(question) => BareWhy::Span(question.why(tally)),
            BareQuestion::Distance(question) => BareWhy::Distance(question.why()),
            BareQuestion::Route(question) => BareWhy::Route(question.why(reply)),
        }
    }
}
