//! What a kind of question knows: one file a kind implements it, and one row of the registry names it.

use shakmaty::{Color, Square};

use super::choice::{BareChoice, Choice};
use super::disclosure::{Disclosure, Share};
use super::{Form, Mark, Reply, Scene, Tally, Truth};
use crate::game::TrackedPiece;
use crate::reply::Unread;

/// A kind of question over a position reached by a line.
pub trait LineKind: Copy {
    /// The form that a reply must have.
    const FORM: Form;

    /// The chance of a lucky guess.
    const GUESS: f64 = Self::FORM.guess();

    /// The think time in milliseconds, where none is wished for.
    const THINK_MILLIS: u64 = 60_000;

    /// Whether the answer says something about checks to the king.
    const TELLS_CHECK: bool = false;

    /// How much the answer says about the pieces' attacks and legal moves.
    const MOVES: Share = Share::Nothing;

    /// How much the answer says about the number of pieces.
    const MATERIAL: Share = Share::Nothing;

    /// How much the answer, or the reason for it, says about the moves played.
    const GAME: Share = Share::Nothing;

    /// Why the truth is what it is, held against what the learner said.
    type Why;

    /// Computes the right answer.
    fn truth(self, scene: Scene<'_>) -> Truth;

    /// Explains it to a learner who gave `reply`, or nothing when it was given up.
    fn why(self, scene: Scene<'_>, tally: &Tally, reply: Option<&Reply>) -> Self::Why;

    /// Reads a reply; moves are read in the position looked at.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in the form.
    fn read(self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        Self::FORM.read_in(text, scene.position(), scene.mode())
    }

    /// Returns the one piece that the question is about.
    fn piece(self, _: Scene<'_>) -> Option<&TrackedPiece> {
        None
    }

    /// Tells what the question and its answer give away of others, beyond the squares of the truth and
    /// the shares above.
    fn disclose(self, _: &mut Disclosure, _: &Truth, _: Scene<'_>) {}

    /// Draws a question that is worth asking; `None` where there is none.
    fn draw(choice: &mut Choice<'_>) -> Option<Self>;
}

/// A kind of question over the bare board. It needs no line: it knows all of its own truth.
pub trait BareKind: Copy {
    /// The form that a reply must have.
    const FORM: Form;

    /// The think time in milliseconds, where none is wished for.
    const THINK_MILLIS: u64;

    /// Why the truth is what it is, held against what the learner said.
    type Why;

    /// Computes the right answer.
    fn truth(self) -> Truth;

    /// Grades a reply.
    fn mark(self, reply: &Reply) -> Mark {
        Mark::new(&self.truth(), reply)
    }

    /// Explains it to a learner who gave `reply`, or nothing when it was given up.
    fn why(self, tally: &Tally, reply: Option<&Reply>) -> Self::Why;

    /// Returns the squares that the question is about.
    fn subject_squares(self) -> Vec<Square>;

    /// Returns the side from which the board is seen, where that matters.
    fn view(self) -> Option<Color> {
        None
    }

    /// Draws a question that is worth asking.
    fn draw(choice: &mut BareChoice<'_>) -> Self;
}
