//! What is wrong with a game's text, and where.

use std::fmt;
use std::ops::Range;

use shakmaty::{Color, Square};

use super::illegal_move::IllegalMove;
use super::lost::Cost;
use super::tag_pair::TagPairFlaw;
use crate::game::{GameResult, MoveNumber, Place, StartError};
use crate::rules::{MoveFault, side_name};

/// Something in a game's text that is not as it should be.
///
/// As text it reads `line:column: game, move "token": reason`, ready to stand after a file's name and a colon.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The game in its file, counted from 1.
    pub game: usize,
    /// Where the token stands in the file.
    pub place: Place,
    /// The token's bytes in the passage.
    pub span: Range<usize>,
    /// How many plies had been played there, from the start of the game.
    pub ply: usize,
    /// The move that was due there; `None` among the tags.
    pub number: Option<MoveNumber>,
    /// The token, cut short when it is long, without control characters.
    pub token: String,
    /// What is wrong, and what to do about it.
    pub reason: Reason,
    /// What the fault cost.
    pub cost: Cost,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Reason {
    /// A word is no legal move, or no move at all.
    #[error(transparent)]
    Move(#[from] MoveFault),
    /// A move is understood and illegal.
    #[error(transparent)]
    Illegal(#[from] Box<IllegalMove>),
    /// A move of Chess960 that does not fit the array that was taken for the missing start.
    #[error(
        "this does not fit the usual array, and without a FEN tag nobody can tell how the pieces stood: add it"
    )]
    StartUnknown,
    /// A null move stands on the main line.
    #[error("no side may pass on the main line: write the move that was played")]
    NullOnMainLine,
    /// A lower-case b was taken for a bishop.
    #[error("read as a bishop's move, since no pawn of the b-file can make it: write a capital B")]
    BishopInLowerCase,
    /// The move number does not agree with the moves before it.
    #[error(
        "move number {said}, but by the moves before it {counted} is due: look for a move that is missing or too many"
    )]
    Number {
        /// The number in the text.
        said: u32,
        /// The number by count.
        counted: MoveNumber,
    },
    /// A word that holds neither a letter nor a digit is no sign that is known here.
    #[error("this sign has no meaning here: write a comment, or $ and a number")]
    Sign,
    /// `e.p.` stands after something else than a capture en passant.
    #[error("the move before was no capture en passant: delete the mark")]
    EnPassantMark,
    /// A capture is written where nothing is taken.
    #[error("this takes nothing: delete the x, or look before it for a move that is missing")]
    TakesNothing,
    /// A mate is written where none is.
    #[error("this is no mate: write + for a check, or look before it for a move that is missing")]
    NoMate,
    /// A number says that Black moves where White does.
    #[error("the number says that Black moves, but White is to move: {remedy}", remedy = if *begins {
        "the game begins with Black's move, so add White's, or a FEN tag with the position"
    } else {
        "look for a move that is missing or too many"
    })]
    BlackBeforeWhite {
        /// Whether it stands before the first move.
        begins: bool,
    },
    /// A side castles whose king is not at home.
    #[error("castling is meant, but {}'s king stands on {king}: look at the moves before", side_name(*color))]
    CastlingFrom {
        /// The side.
        color: Color,
        /// Where its king stands.
        king: Square,
    },
    /// A letter of another alphabet stands for the one that it looks like.
    #[error("the {0} in this is another alphabet's letter that looks the same: type it anew")]
    LookAlike(char),
    /// Two moves are glued together.
    #[error("two moves in one word, read one after the other: put a space between them")]
    Glued,
    /// A move in descriptive notation.
    #[error("this is descriptive notation, which is not read: write the square, as in e4 for P-K4")]
    Descriptive,
    /// Prose that stands among the moves or between the games.
    #[error("this is prose and is passed over: put it in braces, so that it is a comment")]
    Prose,
    /// Tags of HTML that were left in a file.
    #[error("what is left of a web page is passed over: delete it")]
    Markup,
    /// A side gives up in words.
    #[error("read as the result {}: write that", .0.marker())]
    ResultInWords(GameResult),
    /// Words that are understood and not of the standard's spelling; this is the first.
    #[error("{} not in standard notation and {} read as meant, this the first: sansvoir games FILE --export OUT writes them so",
        if *.0 == 1 { "a word is".to_owned() } else { format!("{} words are", .0) },
        if *.0 == 1 { "is" } else { "are" })]
    Respelled(usize),
    /// The piece letters fit several languages, which give other moves.
    #[error("the piece letters are {} as well as {}, with other moves, {remedy}", languages[0], languages[1..].join(" or "),
        remedy = taken.map_or("and nothing here tells which: write them in English".to_owned(), |taken| format!("and are read as {taken}")))]
    Doubtful {
        /// The languages.
        languages: Vec<&'static str>,
        /// The one that is taken.
        taken: Option<&'static str>,
    },
    /// The text makes sense in another encoding.
    #[error("this is text in {0}: read the file with --encoding {0}")]
    Encoding(&'static str),
    /// The text was taken for Windows-1252 and written as UTF-8.
    #[error(
        "this is text in {0} that was saved as UTF-8 as if it were windows-1252: save it as windows-1252, and read that with --encoding {0}"
    )]
    EncodedTwice(&'static str),
    /// A tag's value looks like names in another encoding.
    #[error(
        "this looks garbled: if it should be \"{names}\", read the file with --encoding {encoding}, else name its encoding so"
    )]
    Garbled {
        /// The encoding that it may be in.
        encoding: &'static str,
        /// What it would be then.
        names: String,
    },
    /// An export has said here that the moves from here on are lost.
    #[error("moves were lost here when the game was exported: add them, and delete the comment")]
    LostBefore,
    /// A numeric annotation glyph is out of range.
    #[error("an annotation glyph is $ and a number from 0 to 255")]
    Glyph,
    /// A glyph or a sign has no move to stand at.
    #[error("no move stands before this annotation: put it after its move")]
    NothingToAnnotate,
    /// A comment is not closed.
    #[error("this comment is not closed: write }} where it ends")]
    OpenComment,
    /// A closing brace has no comment to close.
    #[error("no comment is open here: delete the brace")]
    StrayBrace,
    /// A closing parenthesis has no sideline to close.
    #[error("no sideline is open here: delete the parenthesis")]
    StrayParenthesis,
    /// A sideline is not closed.
    #[error(
        "this sideline is not closed, so all that follows belongs to it: write ) where it ends"
    )]
    OpenSideline,
    /// A sideline has no move to replace.
    #[error("no move stands before this sideline: put it after the move that it replaces")]
    NothingToReplace,
    /// A sideline without a move.
    #[error("this sideline has no move: write one, or a comment in braces")]
    EmptySideline,
    /// Moves stand after the result.
    #[error(
        "moves after the result are left out: delete the result before them, or put a blank line between the games"
    )]
    AfterResult,
    /// More than one result.
    #[error("a second result: keep the one that is right")]
    SecondResult,
    /// The game is longer than 16 MiB.
    #[error(
        "this game, or a tag or comment in it, is longer than 16 MiB; all from here to the next tag section is left out: close what is open, or split the game"
    )]
    TooLong,
    /// No result at the end.
    #[error("the result is missing at the end: write 1-0, 0-1, 1/2-1/2 or *")]
    NoResult,
    /// The `Result` tag and the movetext differ.
    #[error("the Result tag says {tag:?}, the end of the moves {}: make them agree", movetext.marker())]
    ResultsDiffer {
        /// The tag's value.
        tag: String,
        /// The result in the movetext.
        movetext: GameResult,
    },
    /// The result is not that of the position at the end.
    #[error("the last position ends the game by the Laws with {}, the result says {}: correct it, or look for a move that is missing or wrong", due.marker(), movetext.marker())]
    ResultAgainstBoard {
        /// The result by the Laws.
        due: GameResult,
        /// The result in the movetext.
        movetext: GameResult,
    },
    /// A tag pair that could be understood although something is missing.
    #[error(transparent)]
    FlawedTagPair(#[from] TagPairFlaw),
    /// A name that is not made of letters, digits and underscores.
    #[error("a tag's name is made of letters, digits and underscores")]
    TagName,
    /// A tag is given twice.
    #[error("the tag {name} is given twice: keep one; the first counts")]
    TagTwice {
        /// The tag's name.
        name: String,
    },
    /// Brackets that hold no tag pair.
    #[error("this is no tag pair: write [Name \"value\"]")]
    UnreadableTagPair,
    /// A tag pair among the moves.
    #[error("a tag pair among the moves is left out: put it before the first move")]
    TagPairAmongMoves,
    /// The game is of a variant that is not known here.
    #[error("the variant {name:?} is not played here: standard chess and Chess960 are")]
    Variant {
        /// The variant's name.
        name: String,
    },
    /// The start position cannot be used.
    #[error(transparent)]
    Start(#[from] StartError),
    /// The set-up position is announced and missing.
    #[error("the SetUp tag promises a position, but there is no FEN tag: add it")]
    NoFen,
    /// A FEN stands beside `[SetUp "0"]`.
    #[error(
        "the SetUp tag denies the position that the FEN tag gives: write [SetUp \"1\"]; the FEN counts"
    )]
    SetUpDenied,
    /// A FEN without all of its fields.
    #[error(
        "this FEN has {0} of its six fields: write all; White to move, no castling, no capture en passant, and move 1 are taken for what is missing"
    )]
    FenFields(usize),
    /// A best move that is none, or that is to be avoided.
    #[error("bm and am name moves of the position: {0}")]
    MoveOfPosition(MoveFault),
    /// A castling right that the position does not allow.
    #[error(
        "the castling field has {letter}, but its king or its rook is not at home: delete the {letter}; it is read without"
    )]
    CastlingRight {
        /// The letter.
        letter: char,
    },
    /// No pawn can just have gone over the square that the en passant field names.
    #[error(
        "no pawn can have gone two squares over {0} on the last move: write - for it; it is read so"
    )]
    EnPassantSquare(Square),
    /// The castling rights make sense in Chess960 only.
    #[error(
        "these castling rights are those of Chess960, and it is read so: add [Variant \"Chess960\"]"
    )]
    Chess960Unsaid,
    /// Chess960 without a start position.
    #[error(
        "this game of Chess960 has no FEN tag, so nobody can tell how the pieces stood: add it; the usual array is tried"
    )]
    Chess960WithoutFen,
    /// Another reader of PGN reads other moves.
    #[error(
        "a second PGN reader does not read the same moves from here on, so they are left out: write them in standard notation, as in Nf3"
    )]
    ReadOtherwise,
    /// The game has more faults than are listed.
    #[error("this game has more faults than these; correct these first")]
    More,
}

impl Reason {
    /// Tells whether a word could not be read as a legal move.
    pub(super) const fn concerns_a_move(&self) -> bool {
        matches!(
            self,
            Reason::Move(_)
                | Reason::Illegal(_)
                | Reason::StartUnknown
                | Reason::LookAlike(_)
                | Reason::BishopInLowerCase
                | Reason::CastlingFrom { .. }
        )
    }

    /// Tells whether the text is, or seems to be, in another encoding than it was read in.
    pub const fn concerns_encoding(&self) -> bool {
        matches!(
            self,
            Reason::Encoding(_) | Reason::EncodedTwice(_) | Reason::Garbled { .. }
        )
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: game {}", self.place, self.game)?;
        if let Some(number) = self.number {
            write!(f, ", move {number}")?;
        }
        if !self.token.is_empty() {
            let after = if self.number.is_some() { "" } else { "," };
            write!(f, "{after} \"{}\"", self.token)?;
        }
        write!(f, ": {}", self.reason)
    }
}

impl std::error::Error for Fault {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_reads_as_place_game_move_token_and_reason() {
        let fault = Fault {
            game: 3,
            place: Place::new(7, 12),
            span: 90..92,
            ply: 4,
            number: None,
            token: "$300".to_owned(),
            reason: Reason::Glyph,
            cost: Cost::Nothing,
        };
        assert_eq!(
            fault.to_string(),
            "7:12: game 3, \"$300\": an annotation glyph is $ and a number from 0 to 255"
        );
    }
}
