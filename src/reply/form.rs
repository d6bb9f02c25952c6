//! The forms of replies, and how a reply is read in each. What cannot be read costs nothing.

use shakmaty::Chess;
use strum::{EnumString, IntoStaticStr, VariantArray};

use super::meaning::{Reply, Unread};
use super::words::{wish, words};
use super::{moves, pieces, short, spoken, squares};
use crate::rules::Language;

/// The form that a reply must have, known from the question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, EnumString, IntoStaticStr, VariantArray)]
#[strum(serialize_all = "kebab-case")]
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
    /// Reads a reply that needs no position, as people write it or say it; a move would be one of the
    /// standard starting position.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in this form.
    pub fn read(self, text: &str) -> Result<Reply, Unread> {
        self.read_in(text, &Chess::default())
    }

    /// Reads a reply generously, as people write it or say it; moves are read as moves of `position`,
    /// legal or not.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in this form.
    pub fn read_in(self, text: &str, position: &Chess) -> Result<Reply, Unread> {
        if let Some(wish) = wish(text) {
            return Err(wish);
        }
        self.written(text, position).or_else(|unread| {
            let said = self.spoken(text).ok_or_else(|| unread.clone())?;
            self.written(&said, position)
                .map_err(|heard| match (&unread, &heard) {
                    // What was understood, but for the number, is worth more than what was not.
                    (Unread::NoPiece(_), Unread::HowMany(_)) => heard,
                    _ => unread,
                })
        })
    }

    /// Tells whether a reply can be said in several utterances, one after the other.
    pub(crate) const fn adds_up(self) -> bool {
        matches!(
            self,
            Form::Squares | Form::Placement | Form::Moves | Form::Wings | Form::Taken | Form::Route
        )
    }

    /// Brings a reply that was heard into the writing that is said back, graded and kept.
    pub(crate) fn in_writing(self, text: &str, position: &Chess) -> String {
        let written = match self {
            Form::Moves | Form::MoveOrNone | Form::Move => moves::in_writing(text, position),
            Form::Legal => match short::legal(text) {
                Some(Reply::Legal(false)) => Some("illegal".to_owned()),
                Some(_) => Some("legal".to_owned()),
                None => None,
            },
            _ => self.spoken(text),
        };
        written.unwrap_or_else(|| text.to_owned())
    }

    /// Brings what one says into writing.
    fn spoken(self, text: &str) -> Option<String> {
        match self {
            Form::SquareOrGone | Form::Squares | Form::Square | Form::Route => {
                spoken::squares(text)
            }
            Form::Piece | Form::Taken => spoken::pieces(text),
            Form::Placement => spoken::placement(text),
            Form::Wings => spoken::wings(text),
            Form::Points | Form::Place | Form::Distance => spoken::numbers(text),
            // Moves are brought into writing where they are read; the others are short.
            _ => None,
        }
    }

    /// Brings the piece letters of a language in a reply into those of English, where a reply of this
    /// form can have any. The language's letters come first: a B of German is a pawn.
    pub fn in_english(self, text: &str, language: Language) -> String {
        match self {
            Form::Piece | Form::Taken => language.pieces_to_english(text),
            Form::Placement | Form::Moves | Form::MoveOrNone | Form::Move => {
                language.moves_to_english(text)
            }
            // No other form has letters of pieces.
            _ => text.to_owned(),
        }
    }

    fn written(self, text: &str, position: &Chess) -> Result<Reply, Unread> {
        if words(text).next().is_none() {
            return Err(Unread::Nothing);
        }
        let whole = |said: Option<Reply>, unread: fn(String) -> Unread| {
            said.ok_or_else(|| unread(text.trim().to_owned()))
        };
        match self {
            Form::SquareOrGone => squares::square_or_gone(text),
            Form::Piece => pieces::piece(text),
            Form::Squares => squares::squares(text).map(Reply::Squares),
            Form::Legal => whole(short::legal(text), Unread::NeitherLegalNorIllegal),
            Form::Placement => pieces::placement(text).map(Reply::Placement),
            Form::Moves => moves::moves(text, position).map(Reply::Moves),
            Form::MoveOrNone => moves::move_or_none(text, position)
                .map(|said| said.map_or(Reply::NoMove, Reply::Move)),
            Form::Move => moves::move_or_none(text, position)?
                .map(Reply::Move)
                .ok_or(Unread::OneMoveWanted(0)),
            Form::Points => whole(short::points(text), Unread::NoPoints),
            Form::Wings => short::wings(text).map(Reply::Wings),
            Form::Taken => pieces::captured(text).map(Reply::Taken),
            Form::Square => squares::one_square(text).map(Reply::Square),
            Form::Place => whole(short::place(text), Unread::NoPlace),
            Form::Color => whole(short::color(text), Unread::NeitherLightNorDark),
            Form::Line => whole(short::line(text), Unread::NoLine),
            Form::Distance => whole(short::distance(text), Unread::NoDistance),
            Form::Route => squares::route(text),
        }
    }
}
