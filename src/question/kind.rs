//! What a kind of question knows: one file a kind implements it, and one row of the registry names it. And
//! which questions give each other away.

use shakmaty::{Bitboard, Color, Square};

use super::choice::{BareChoice, Choice};
use super::{Form, Mark, Reply, Scene, Tally, Truth};
use crate::game::TrackedPiece;
use crate::reply::Unread;

/// A kind of question over a position reached by a line.
pub trait LineKind: Copy {
    /// Whether the same question has the same answer through much of a game, so that it is asked only as often as
    /// the answers vary.
    const VARIED: bool = true;

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

    /// Tells whether it can be asked there.
    fn fits(self, _: Scene<'_>) -> bool {
        true
    }

    /// Explains it to a learner who gave `reply`, or nothing when it was given up.
    fn why(self, scene: Scene<'_>, tally: &Tally, reply: Option<&Reply>) -> Self::Why;

    /// Reads a reply of the kind's form; moves are read in the position looked at.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in the form.
    fn read(self, form: Form, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        form.read_in(text, scene.position())
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
pub(crate) trait BareKind: Copy {
    /// Computes the right answer.
    fn truth(self) -> Truth;

    /// Grades a reply.
    fn mark(self, reply: &Reply) -> Mark {
        Mark::new(&self.truth(), reply)
    }

    /// Returns the squares that the question is about.
    fn subject_squares(self) -> Vec<Square>;

    /// Returns the side from which the board is seen, where that matters.
    fn view(self) -> Option<Color> {
        None
    }

    /// Draws a question that is worth asking.
    fn draw(choice: &mut BareChoice<'_>) -> Self;
}

/// How much an answer tells of a matter that several kinds of question have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Share {
    /// Nothing.
    Nothing,
    /// It is about some of it, which an answer about all of it gives away.
    Some,
    /// It is about all of it.
    All,
}

/// What a question with its answer makes known, and what it wants to hear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Disclosure {
    /// The squares whose pieces become known.
    pub(super) tells: Bitboard,
    /// The squares whose pieces are asked for.
    pub(super) asks: Bitboard,
    /// The piece whose ways are asked for: what it attacks, where it can go.
    pub(super) ways_of: Option<Square>,
    /// Whether the answer says something about checks to the king.
    pub(super) tells_check: bool,
    /// How much is said of the moves, the material and the game.
    shares: [Share; 3],
    /// Whether the whole board is asked for, which no other answer gives away.
    whole_board: bool,
}

impl Disclosure {
    /// What a truth makes known, whatever the question, which says something of checks or not, and so
    /// much of the moves, the material and the game.
    pub(super) fn new(truth: &Truth, tells_check: bool, shares: [Share; 3]) -> Disclosure {
        let mut known = truth.set() | truth.optional();
        if let Truth::Square(square) = truth {
            known.add(*square);
        }
        for attempt in truth.attempts() {
            known |= Bitboard::from(attempt.from).with(attempt.to);
        }
        Disclosure {
            tells: known,
            asks: known,
            ways_of: None,
            tells_check,
            shares,
            whole_board: matches!(truth, Truth::Placement { .. }),
        }
    }

    /// Naming a square tells of it, and asks for it.
    pub(super) fn names(&mut self, square: Square) {
        self.tells = Bitboard::from(square);
        self.asks = self.tells;
    }

    /// Naming a piece's square tells that it stands there, and so do the own pieces that it guards.
    pub(super) fn asks_ways(&mut self, from: Square, truth: &Truth) {
        self.tells = truth.optional().with(from);
        self.asks = Bitboard::EMPTY;
        self.ways_of = Some(from);
    }

    /// Tells whether one of two questions gives the other away.
    pub(crate) fn spoils(&self, other: &Disclosure) -> bool {
        if self.whole_board || other.whole_board {
            return self.whole_board && other.whole_board;
        }
        let pieces = (self.tells & other.asks) | (self.asks & other.tells);
        let ways = self.ways_of.is_some() && self.ways_of == other.ways_of;
        let mut shares = self.shares.into_iter().zip(other.shares);
        pieces.any()
            || ways
            || (self.tells_check && other.tells_check)
            || shares
                .any(|(one, other)| one.max(other) == Share::All && one.min(other) > Share::Nothing)
    }

    /// Tells whether the question has to come last, because its answer gives all others away.
    pub(crate) const fn comes_last(&self) -> bool {
        self.whole_board
    }
}
