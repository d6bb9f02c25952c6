//! How a learner stands at a step.

use jiff::Timestamp;

/// What passes a step: accuracy first, then pace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PassMark {
    /// At least so many right ones.
    pub right: usize,
    /// Among so many of the latest answers.
    pub of: usize,
    /// Half of those right ones within so many milliseconds; an answer whose time is not known is not.
    pub within_millis: u64,
}

/// How a learner stands at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// No answer yet.
    Untried,
    /// Not accurate enough yet, or not asked often enough.
    Answering {
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are, as many as the mark needs at most.
        of: usize,
    },
    /// Accurate enough, and too slow yet.
    Accurate {
        /// The median time of the right ones among the latest answers; `None` where too few of them
        /// have a time that is known.
        median_millis: Option<u64>,
    },
    /// Passed; it stays so until fewer than [`LOST`] of the latest answers are right.
    Passed {
        /// When the mark was first met, since the step was last lost.
        on: Timestamp,
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are.
        of: usize,
        /// The median time of those right ones, as far as it is known.
        median_millis: Option<u64>,
    },
}

/// A step that was passed is lost again when fewer of the latest twenty answers are right.
///
/// What comes back later is what a learner knows worst, so that the latest answers look worse than the
/// learner is; and chance plays its part. The number is our own choice (no source): by a binomial count,
/// a learner who is right nine times in ten has fewer than 12 right in 1 window of 16,000, one who
/// guesses at a yes or no in 3 of 4.
pub const LOST: usize = 12;

impl Standing {
    /// Tells whether the step is passed.
    #[must_use]
    pub const fn is_passed(self) -> bool {
        match self {
            Standing::Passed { .. } => true,
            Standing::Untried | Standing::Answering { .. } | Standing::Accurate { .. } => false,
        }
    }
}
