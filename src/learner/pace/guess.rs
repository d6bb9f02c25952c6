//! The chance of a lucky guess.

use crate::question::Kind;

/// The chance that a learner who saw nothing would be wholly right, by the kind of question.
///
/// These are the shares of one right reply among those that fit the question, every one taken to be as
/// likely as the other; no source tells how learners guess, and a clever guess does better.
#[must_use]
pub const fn guess(kind: Kind) -> f64 {
    match kind {
        // Yes or no. A learner who sees nothing says that there is no check; who gives it is hardly
        // asked beyond that.
        Kind::Legality | Kind::Check | Kind::Color => 1.0 / 2.0,
        // Short, long, both or none; a file, a rank, a diagonal or none.
        Kind::Rights | Kind::Aligned => 1.0 / 4.0,
        // A small whole number: most that come up lie within a span of about ten.
        Kind::Exchange | Kind::Balance | Kind::Distance => 1.0 / 10.0,
        // Twelve kinds of man, or none.
        Kind::Occupant => 1.0 / 13.0,
        // One move; a position of the demo games has about thirty, as a test counts.
        Kind::Mate | Kind::Played => 1.0 / 30.0,
        // One of the squares.
        Kind::Whereabouts | Kind::Name | Kind::Place => 1.0 / 64.0,
        // Lists, of which there are too many to hit upon the right one.
        Kind::Standing
        | Kind::Attacks
        | Kind::Attackers
        | Kind::Moves
        | Kind::Checks
        | Kind::Captures
        | Kind::Hanging
        | Kind::Taken
        | Kind::Rebuild
        | Kind::Between
        | Kind::Span
        | Kind::Crossing
        | Kind::Route => 0.0,
    }
}
