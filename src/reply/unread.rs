//! What is wrong with a reply that cannot be read.

use shakmaty::Square;

use crate::rules::MoveFault;

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
