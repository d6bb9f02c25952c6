//! Reading a reply: first read, then graded. What cannot be read costs nothing.

use shakmaty::{Bitboard, Board, CastlingMode, Chess, Move, Piece, Role, Square};

use crate::board::{Alignment, Seen, SquareColor};
use crate::notation::Language;
use crate::notation::reply::{self, Unread};

use super::{Attempt, Haul, Wings};

/// What the learner said, once read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reply {
    /// A square.
    Square(Square),
    /// The man has left the board.
    Gone,
    /// A man of a named side, or `None` for an empty square.
    Piece(Option<Piece>),
    /// A man whose side was left unsaid.
    Role(Role),
    /// A set of squares.
    Squares(Bitboard),
    /// Legal or not.
    Legal(bool),
    /// Every man's square.
    Placement(Board),
    /// A set of legal moves, in the order of their squares.
    Moves(Vec<Attempt>),
    /// One legal move.
    Move(Attempt),
    /// No move.
    NoMove,
    /// A number of points.
    Points(i32),
    /// A set of wings.
    Wings(Wings),
    /// Men by their roles.
    Taken(Haul),
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
    /// The man never gets there.
    Never,
}

/// The form that a reply must have, known from the question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Form {
    /// One square, or that the man is gone.
    SquareOrGone,
    /// A man, or that there is none.
    Piece,
    /// Any number of squares, none included.
    Squares,
    /// Legal or illegal.
    Legal,
    /// Every man's square.
    Placement,
    /// Any number of legal moves, none included.
    Moves,
    /// One legal move, or none.
    MoveOrNone,
    /// One legal move.
    Move,
    /// A number of points, with or without its sign.
    Points,
    /// Short, long, both or none.
    Wings,
    /// Men by their letters or names, or none.
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

    /// Reads a reply generously, as people write it or say it.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in this form.
    ///
    /// # Panics
    ///
    /// In a form of moves, which are read in a position: [`Form::read_in`].
    pub fn read(self, text: &str) -> Result<Reply, Unread> {
        self.read_written(text).or_else(|unread| {
            let said = self.spoken(text).ok_or_else(|| unread.clone())?;
            self.read_written(&said).map_err(|_| unread)
        })
    }

    /// Brings what one says into writing.
    fn spoken(self, text: &str) -> Option<String> {
        match self {
            Form::SquareOrGone | Form::Squares | Form::Square | Form::Route => {
                reply::mouth::squares(text)
            }
            Form::Piece | Form::Taken => reply::mouth::men(text),
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
            Form::Piece | Form::Taken => language.men_to_english(text),
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

    fn read_written(self, text: &str) -> Result<Reply, Unread> {
        match self {
            Form::SquareOrGone => {
                reply::square_or_none(text).map(|square| square.map_or(Reply::Gone, Reply::Square))
            }
            Form::Piece => reply::man(text).map(|man| match man {
                reply::ManSaid::Whole(piece) => Reply::Piece(Some(piece)),
                reply::ManSaid::Role(role) => Reply::Role(role),
                reply::ManSaid::Empty => Reply::Piece(None),
            }),
            Form::Squares => reply::squares(text).map(Reply::Squares),
            Form::Legal => reply::legal(text).map(Reply::Legal),
            Form::Placement => reply::placement(text).map(Reply::Placement),
            Form::Moves | Form::MoveOrNone | Form::Move => {
                panic!("a move is read in its position")
            }
            Form::Points => reply::points(text).map(Reply::Points),
            Form::Wings => {
                reply::wings(text).map(|[short, long]| Reply::Wings(Wings { short, long }))
            }
            Form::Taken => reply::men(text).map(|roles| Reply::Taken(roles.into_iter().collect())),
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

    /// Reads a reply generously; moves are read as moves of `position`.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in this form, and says of a move why it is none.
    pub fn read_in(
        self,
        text: &str,
        position: &Chess,
        mode: CastlingMode,
    ) -> Result<Reply, Unread> {
        let named = |mv: Move| Attempt::of(mv, mode);
        match self {
            Form::Moves => reply::moves(text, position, mode).map(|moves| {
                let mut moves: Vec<Attempt> = moves.into_iter().map(named).collect();
                moves.sort_unstable();
                moves.dedup();
                Reply::Moves(moves)
            }),
            Form::MoveOrNone => reply::move_or_none(text, position, mode)
                .map(|mv| mv.map_or(Reply::NoMove, |mv| Reply::Move(named(mv)))),
            Form::Move => reply::one_move(text, position, mode).map(|mv| Reply::Move(named(mv))),
            Form::SquareOrGone
            | Form::Piece
            | Form::Squares
            | Form::Legal
            | Form::Placement
            | Form::Points
            | Form::Wings
            | Form::Taken
            | Form::Square
            | Form::Place
            | Form::Color
            | Form::Line
            | Form::Distance
            | Form::Route => self.read(text),
        }
    }
}
