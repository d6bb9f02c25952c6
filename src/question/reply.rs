//! Reading a reply: first read, then graded. What cannot be read costs nothing.

use shakmaty::{Bitboard, Board, CastlingMode, Chess, Color, Piece, Role, Square};

use crate::board::{Alignment, Seen, SquareColor};
use crate::reply::{self, MoveSaid, Unread};
use crate::rules::{Language, MoveFault};

use super::{Attempt, CapturedPieces, Wings};

/// What the learner said, once read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reply {
    /// A square.
    Square(Square),
    /// The piece has left the board.
    Gone,
    /// A piece of a named side, or `None` for an empty square.
    Piece(Option<Piece>),
    /// A piece whose side was left unsaid.
    Role(Role),
    /// A set of squares.
    Squares(Bitboard),
    /// Legal or not.
    Legal(bool),
    /// Every piece's square.
    Placement(Board),
    /// A set of moves, legal or not.
    Moves(MovesNamed),
    /// One move, legal or not.
    Move(Attempt),
    /// One move that is illegal whichever piece was meant.
    NobodysMove(Nobodys),
    /// No move.
    NoMove,
    /// A number of points.
    Points(i32),
    /// A set of wings.
    Wings(Wings),
    /// Pieces by their roles.
    Taken(CapturedPieces),
    /// Files from the left and rows from the bottom.
    Place(Seen),
    /// Light or dark.
    Color(SquareColor),
    /// Which line two squares share.
    Line(Alignment),
    /// A number of moves.
    Distance(u32),
    /// The squares of a route, in order, with or without the one where it starts.
    Route(Vec<Square>),
    /// The piece never gets there.
    Never,
}

impl Reply {
    /// Returns the one square that it stands for, when the board is seen from a side.
    #[must_use]
    pub const fn square(&self, view: Color) -> Option<Square> {
        match self {
            Reply::Square(square) => Some(*square),
            Reply::Place(seen) => Some(seen.square(view)),
            _ => None,
        }
    }
}

/// Moves as a reply names them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MovesNamed {
    /// Those whose squares are certain, legal or not, in the order of their squares.
    pub attempts: Vec<Attempt>,
    /// Those that are illegal whichever piece was meant.
    pub nobodys: Vec<Nobodys>,
}

/// A move that no piece of the side to move can make: none has its name, or several have and none goes
/// there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Nobodys {
    /// The word that names it.
    pub word: String,
    /// What is wrong with it.
    pub fault: MoveFault,
}

impl MovesNamed {
    fn new(said: Vec<MoveSaid>, mode: CastlingMode) -> MovesNamed {
        let mut named = MovesNamed::default();
        for said in said {
            match one_named(said, mode) {
                Ok(attempt) => named.attempts.push(attempt),
                Err(nobodys) => {
                    if !named.nobodys.contains(&nobodys) {
                        named.nobodys.push(nobodys);
                    }
                }
            }
        }
        named.attempts.sort_unstable();
        named.attempts.dedup();
        named
    }

    /// Returns how many moves are named.
    pub(super) fn len(&self) -> usize {
        self.attempts.len() + self.nobodys.len()
    }
}

/// Names a move by its squares, where they are certain.
fn one_named(said: MoveSaid, mode: CastlingMode) -> Result<Attempt, Nobodys> {
    match said {
        MoveSaid::Legal(mv) => Ok(Attempt::of(mv, mode)),
        MoveSaid::Illegal {
            meant: Some(attempt),
            ..
        } => Ok(attempt),
        MoveSaid::Illegal {
            word,
            fault,
            meant: None,
        } => Err(Nobodys { word, fault }),
    }
}

/// The form that a reply must have, known from the question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Form {
    /// One square, or that the piece is gone.
    SquareOrGone,
    /// A piece, or that there is none.
    Piece,
    /// Any number of squares, none included.
    Squares,
    /// Legal or illegal.
    Legal,
    /// Every piece's square.
    Placement,
    /// Any number of moves, none included.
    Moves,
    /// One move, or none.
    MoveOrNone,
    /// One move.
    Move,
    /// A number of points, with or without its sign.
    Points,
    /// Short, long, both or none.
    Wings,
    /// Pieces by their letters or names, or none.
    Taken,
    /// One square.
    Square,
    /// Files from the left and rows from the bottom.
    Place,
    /// Light or dark.
    Color,
    /// File, rank, diagonal or none.
    Line,
    /// A number of moves, or never.
    Distance,
    /// The squares of a route in order, or never.
    Route,
}

impl Form {
    /// All forms.
    pub const ALL: [Form; 17] = [
        Form::SquareOrGone,
        Form::Piece,
        Form::Squares,
        Form::Legal,
        Form::Placement,
        Form::Moves,
        Form::MoveOrNone,
        Form::Move,
        Form::Points,
        Form::Wings,
        Form::Taken,
        Form::Square,
        Form::Place,
        Form::Color,
        Form::Line,
        Form::Distance,
        Form::Route,
    ];

    /// The chance that a learner who saw nothing would be wholly right; see
    /// [`Kind::guess`](super::Kind::guess).
    pub(super) const fn guess(self) -> f64 {
        match self {
            Form::Legal | Form::Color => 1.0 / 2.0,
            // Short, long, both or none; a file, a rank, a diagonal or none.
            Form::Wings | Form::Line => 1.0 / 4.0,
            // A small whole number: most that come up lie within a span of about ten.
            Form::Points | Form::Distance => 1.0 / 10.0,
            // Twelve kinds of piece, or none.
            Form::Piece => 1.0 / 13.0,
            // A position of the demo games has about thirty moves, as a test counts.
            Form::MoveOrNone | Form::Move => 1.0 / 30.0,
            Form::SquareOrGone | Form::Square | Form::Place => 1.0 / 64.0,
            // Lists, of which there are too many to hit upon the right one.
            Form::Squares | Form::Moves | Form::Taken | Form::Placement | Form::Route => 0.0,
        }
    }

    /// Reads a reply that needs no position, as people write it or say it; a move would be one of the
    /// standard starting position.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in this form.
    pub fn read(self, text: &str) -> Result<Reply, Unread> {
        self.read_in(text, &Chess::default(), CastlingMode::Standard)
    }

    /// Reads a reply generously, as people write it or say it; moves are read as moves of `position`,
    /// legal or not.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in this form.
    pub fn read_in(
        self,
        text: &str,
        position: &Chess,
        mode: CastlingMode,
    ) -> Result<Reply, Unread> {
        if let Some(wish) = reply::wish(text) {
            return Err(wish);
        }
        self.written(text, position, mode).or_else(|unread| {
            let said = self.spoken(text).ok_or_else(|| unread.clone())?;
            self.written(&said, position, mode)
                .map_err(|heard| match (&unread, &heard) {
                    // What was understood, but for the number, is worth more than what was not.
                    (Unread::NoMan(_), Unread::HowMany(_)) => heard,
                    _ => unread,
                })
        })
    }

    /// Brings what one says into writing.
    fn spoken(self, text: &str) -> Option<String> {
        match self {
            Form::SquareOrGone | Form::Squares | Form::Square | Form::Route => {
                reply::mouth::squares(text)
            }
            Form::Piece | Form::Taken => reply::mouth::pieces(text),
            Form::Placement => reply::mouth::placement(text),
            Form::Wings => reply::mouth::wings(text),
            Form::Points | Form::Place | Form::Distance => reply::mouth::numbers(text),
            // Moves are brought into writing where they are read.
            Form::Moves
            | Form::MoveOrNone
            | Form::Move
            | Form::Legal
            | Form::Color
            | Form::Line => None,
        }
    }

    /// Brings the piece letters of a language in a reply into those of English, where a reply of this
    /// form can have any. The language's letters come first: a B of German is a pawn.
    #[must_use]
    pub fn in_english(self, text: &str, language: Language) -> String {
        match self {
            Form::Piece | Form::Taken => language.pieces_to_english(text),
            Form::Placement | Form::Moves | Form::MoveOrNone | Form::Move => {
                language.moves_to_english(text)
            }
            Form::SquareOrGone
            | Form::Squares
            | Form::Legal
            | Form::Points
            | Form::Wings
            | Form::Square
            | Form::Place
            | Form::Color
            | Form::Line
            | Form::Distance
            | Form::Route => text.to_owned(),
        }
    }

    fn written(self, text: &str, position: &Chess, mode: CastlingMode) -> Result<Reply, Unread> {
        let one = |said| match one_named(said, mode) {
            Ok(attempt) => Reply::Move(attempt),
            Err(nobodys) => Reply::NobodysMove(nobodys),
        };
        match self {
            Form::SquareOrGone => {
                reply::square_or_none(text).map(|square| square.map_or(Reply::Gone, Reply::Square))
            }
            Form::Piece => reply::piece(text).map(|piece| match piece {
                reply::PieceSaid::Whole(piece) => Reply::Piece(Some(piece)),
                reply::PieceSaid::Role(role) => Reply::Role(role),
                reply::PieceSaid::Empty => Reply::Piece(None),
            }),
            Form::Squares => reply::squares(text).map(Reply::Squares),
            Form::Legal => reply::legal(text).map(Reply::Legal),
            Form::Placement => reply::placement(text).map(Reply::Placement),
            Form::Moves => reply::moves_said(text, position, mode)
                .map(|said| Reply::Moves(MovesNamed::new(said, mode))),
            Form::MoveOrNone => reply::move_said_or_none(text, position, mode)
                .map(|said| said.map_or(Reply::NoMove, one)),
            Form::Move => reply::one_move_said(text, position, mode).map(one),
            Form::Points => reply::points(text).map(Reply::Points),
            Form::Wings => {
                reply::wings(text).map(|[short, long]| Reply::Wings(Wings { short, long }))
            }
            Form::Taken => {
                reply::pieces(text).map(|roles| Reply::Taken(roles.into_iter().collect()))
            }
            Form::Square => reply::one_square(text).map(Reply::Square),
            Form::Place => reply::place(text).map(Reply::Place),
            Form::Color => reply::color(text).map(Reply::Color),
            Form::Line => reply::line(text).map(Reply::Line),
            Form::Distance => {
                reply::distance(text).map(|moves| moves.map_or(Reply::Never, Reply::Distance))
            }
            Form::Route => reply::route(text).map(|route| route.map_or(Reply::Never, Reply::Route)),
        }
    }
}
