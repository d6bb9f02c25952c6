//! What a reply means, once read, or what is wrong with one that cannot be read.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use shakmaty::{Bitboard, Board, ByRole, Color, Piece, Role, Square};

use crate::board::{Alignment, Seen, SquareColor};
use crate::rules::{Attempt, MoveFault};

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
    Moves(Vec<MoveSaid>),
    /// One move, legal or not.
    Move(MoveSaid),
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
    pub fn square(&self, view: Color) -> Option<Square> {
        match self {
            Reply::Square(square) => Some(*square),
            Reply::Place(seen) => Some(seen.square(view)),
            _ => None,
        }
    }

    /// Returns the points that it names.
    pub const fn points(&self) -> Option<i32> {
        match self {
            Reply::Points(points) => Some(*points),
            _ => None,
        }
    }

    /// Returns the moves that it names.
    pub(crate) fn moves(&self) -> &[MoveSaid] {
        match self {
            Reply::Moves(moves) => moves,
            Reply::Move(mv) => std::slice::from_ref(mv),
            _ => &[],
        }
    }
}

/// A move as a reply names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MoveSaid {
    /// Its squares are certain; it is legal or not.
    Named(Attempt),
    /// It is illegal whichever piece was meant.
    Impossible(ImpossibleMove),
}

/// A move that no piece of the side to move can make: none has its name, or several have and none goes
/// there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ImpossibleMove {
    /// The word that names it.
    pub word: String,
    /// What is wrong with it.
    pub fault: MoveFault,
}

impl MoveSaid {
    /// Returns the move by its squares, where they are certain.
    pub const fn squares(&self) -> Option<Attempt> {
        match self {
            MoveSaid::Named(attempt) => Some(*attempt),
            MoveSaid::Impossible(_) => None,
        }
    }
}

/// Pieces counted by their roles; as text, their English letters in the order of their value: `NPP`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct CapturedPieces(ByRole<u8>);

impl CapturedPieces {
    /// The roles in the order in which they are written; a king is never taken.
    pub const ORDER: [Role; 5] = [
        Role::Queen,
        Role::Rook,
        Role::Bishop,
        Role::Knight,
        Role::Pawn,
    ];

    /// Returns how many pieces of a role there are.
    pub fn of(self, role: Role) -> usize {
        usize::from(*self.0.get(role))
    }

    /// Counts the pieces that both hold, and those that either holds.
    pub(crate) fn shared(self, other: CapturedPieces) -> (usize, usize) {
        CapturedPieces::ORDER
            .into_iter()
            .fold((0, 0), |(both, all), role| {
                let (one, other) = (self.of(role), other.of(role));
                (both + one.min(other), all + one.max(other))
            })
    }
}

impl FromIterator<Role> for CapturedPieces {
    fn from_iter<I: IntoIterator<Item = Role>>(roles: I) -> CapturedPieces {
        let mut captured = CapturedPieces::default();
        for role in roles {
            let count = captured.0.get_mut(role);
            *count = count.saturating_add(1);
        }
        captured
    }
}

impl fmt::Display for CapturedPieces {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for role in CapturedPieces::ORDER {
            for _ in 0..self.of(role) {
                write!(f, "{}", role.upper_char())?;
            }
        }
        Ok(())
    }
}

/// A letter that names no piece that can be taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{0}' names no piece that can be taken: write Q, R, B, N and P, as in NPP")]
pub struct ParseCapturedError(char);

impl FromStr for CapturedPieces {
    type Err = ParseCapturedError;

    fn from_str(text: &str) -> Result<CapturedPieces, ParseCapturedError> {
        let role = |letter: char| {
            Role::from_char(letter.to_ascii_lowercase())
                .filter(|role| *role != Role::King)
                .ok_or(ParseCapturedError(letter))
        };
        text.chars().map(role).collect()
    }
}

/// A set of wings; in JSON, a list of `short` and `long`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Wings {
    /// The king's wing.
    pub short: bool,
    /// The queen's wing.
    pub long: bool,
}

impl Wings {
    /// Returns the names of the wings, the short one first.
    pub fn names(self) -> impl Iterator<Item = &'static str> {
        [(self.short, "short"), (self.long, "long")]
            .into_iter()
            .filter_map(|(held, name)| held.then_some(name))
    }
}

impl Serialize for Wings {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(self.names())
    }
}

impl<'de> Deserialize<'de> for Wings {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Wings, D::Error> {
        let mut wings = Wings::default();
        for name in Vec::<String>::deserialize(from)? {
            match name.as_str() {
                "short" => wings.short = true,
                "long" => wings.long = true,
                other => return Err(de::Error::unknown_variant(other, &["short", "long"])),
            }
        }
        Ok(wings)
    }
}

/// A reply that cannot be read, and the first word that is to blame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Nothing was said.
    Nothing,
    /// The word names no square.
    NoSquare(String),
    /// One square is wanted, and several were named.
    OneSquareWanted(usize),
    /// The word names no piece.
    NoPiece(String),
    /// The word is neither legal nor illegal.
    NeitherLegalNorIllegal(String),
    /// The word is neither a piece with its square nor a FEN.
    NoPlacement(String),
    /// The word is no move of the position, or not one alone.
    NoMove(String, MoveFault),
    /// One move is wanted, and another number was named.
    OneMoveWanted(usize),
    /// The text is no number of points.
    NoPoints(String),
    /// The word names no wing.
    NoWing(String),
    /// Two pieces were put on one square.
    SquareTwice(Square),
    /// The pieces of Black were not told apart from those of White.
    NoSides,
    /// The text does not give two numbers from 1 to 8.
    NoPlace(String),
    /// The word is neither light nor dark.
    NeitherLightNorDark(String),
    /// The word names no line: file, rank, diagonal or none.
    NoLine(String),
    /// The text is neither a number of moves nor `never`.
    NoDistance(String),
    /// The word names several pieces and does not say how many.
    HowMany(String),
    /// The learner seems to give the question up.
    GivesUp,
    /// The learner seems to want to leave.
    Leaves,
}
