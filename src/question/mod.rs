//! The questions. Each kind is a file of its own that says what is asked, what is true and
//! why, what it gives away of others, and how one worth asking is drawn; a row of the registry names it.
//! Reading and grading a reply depend only on the form of the answer, which few kinds share.
//!
//! A question knows no wording. Its truth is computed from the position, never stored:
//!
//! ```
//! use sansvoir::game::{Line, Start};
//! use sansvoir::question::{LineQuestion, Mark, Occupant, Scene, Verdict};
//!
//! let line = Line::new(Start::standard());
//! let scene = Scene::new(&line, 0);
//! let question = LineQuestion::Occupant(Occupant { square: "d8".parse()? });
//! let reply = question.read(scene, "black queen").expect("a piece");
//! assert_eq!(Mark::new(&question.truth(scene), &reply).verdict, Verdict::Right);
//! # Ok::<(), shakmaty::ParseSquareError>(())
//! ```

pub mod bare;

mod choice;
pub(crate) mod dice;
mod grade;
mod journey;
mod json;
mod kind;
pub(crate) mod line;
pub mod mating;
mod registry;

mod scene;
mod sight;
mod truth;
mod variety;
mod written;

use serde::{Deserialize, Serialize};

pub use crate::reply::{CapturedPieces, Form, ImpossibleMove, MoveSaid, Reply, Wings};
pub use choice::Views;
pub(crate) use choice::{BareChoice, Choice};
pub use dice::Dice;
pub use grade::{Mark, Tally, Verdict};
pub use journey::{Departure, Journey, Leg};
pub(crate) use json::text;
pub(crate) use kind::{BareKind, Disclosure, LineKind, Share};
pub use line::*;
pub use registry::{BareQuestion, Kind, LineQuestion, LineWhy};
pub(crate) use registry::{each_bare, each_line};
pub use scene::Scene;
pub use sight::{Ray, Sight};
pub use truth::{Always, Truth};
pub use written::WrittenError;

pub use crate::rules::{Attempt, Illegal, Judge, ParseAttemptError, Reason, pinned};

/// Any question; in JSON, its `kind` and its `subject`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Question {
    /// Over a position reached by a line.
    Line(LineQuestion),
    /// Over the bare board.
    Bare(BareQuestion),
}

/// Why the truth is what it is, held against what the learner said; `voice` puts it into words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// Over a position reached by a line.
    Line(LineWhy),
    /// Over the bare board.
    Bare(BareWhy),
}

/// What a question over the bare board is explained by: all of it follows from the question itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BareWhy {
    /// The question.
    pub question: BareQuestion,
    /// The squares in detail, where squares were asked for.
    pub tally: Tally,
    /// What the learner said.
    pub reply: Option<Reply>,
}

impl Why {
    /// Tells whether the reason names the right answer already, and more fully.
    pub const fn names_truth(&self) -> bool {
        matches!(self, Why::Line(LineWhy::Played(_)))
    }

    /// Returns the illegal moves of the reply, with their reasons.
    pub fn refused(&self) -> &[Refused] {
        match self {
            Why::Line(LineWhy::Checks(why) | LineWhy::Captures(why)) => &why.refused,
            Why::Line(LineWhy::Mate(why)) => &why.effects.refused,
            Why::Line(LineWhy::Played(why)) if why.elsewhere.is_none() => why.refused.as_slice(),
            Why::Line(_) | Why::Bare(_) => &[],
        }
    }
}

impl Question {
    /// Returns the kind.
    pub const fn kind(&self) -> Kind {
        match self {
            Question::Line(question) => question.kind(),
            Question::Bare(question) => question.kind(),
        }
    }
}
