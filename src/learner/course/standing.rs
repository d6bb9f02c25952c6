//! How a learner stands at a step.

/// What passes a step: accuracy first, then pace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PassMark {
    /// At least so many right ones.
    pub right: usize,
    /// Among so many of the latest answers.
    pub of: usize,
    /// The median time of those right ones may be so many milliseconds at most.
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
        /// The median time of the right ones among the latest answers.
        median_millis: u64,
    },
    /// Passed; it stays so until fewer than [`LOST`] of the latest answers are right.
    Passed {
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are.
        of: usize,
        /// The median time of those right ones.
        median_millis: u64,
    },
}

/// A step that was passed is lost again when fewer of the latest twenty answers are right.
///
/// A learner who is right nineteen times in twenty would otherwise fall back now and then by chance
/// (no source; a binomial count gives less than 1 window in 3,000 with fewer than 15 right, against 1
/// in 13 with fewer than 18).
pub const LOST: usize = 15;

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
