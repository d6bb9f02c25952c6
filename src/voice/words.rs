//! What the words of a kind of question are: one file a kind, in `line` or `bare`.

use crate::exercise::Stand;
use crate::question::{BareKind, BareWhy, LineKind, Truth};

/// Stands before what a move does that the learner did not name.
pub(super) const MISSED: &str = "Missed: ";

/// The words of a kind over a position reached by a line.
pub(super) trait LineWords: LineKind {
    /// Asks. A question gives nothing away: the piece on a square is asked about without its role, a move
    /// by its squares.
    fn ask(self, stand: &Stand) -> String;

    /// Says the right answer in a sentence.
    fn tell(self, truth: &Truth) -> String;

    /// Explains it, one fact a line.
    fn explain(why: &Self::Why) -> Vec<String>;
}

/// The words of a kind over the bare board.
pub(super) trait BareWords: BareKind {
    /// The rule by which it is found, for a learner who is taught.
    const RULE: &'static str;

    /// Asks in a whole sentence that gives nothing away.
    fn ask(self) -> String;

    /// Says the right answer in a sentence that names its subject.
    fn tell(self) -> String;

    /// Explains it as a coach would, one fact a line, what matters most first.
    fn explain(self, why: &BareWhy) -> Vec<String>;

    /// Names the question in a list, its own square included.
    fn item(self) -> String {
        self.ask()
    }
}
