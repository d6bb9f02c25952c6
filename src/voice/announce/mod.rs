//! Announcing moves: the four styles, and how several plies make lines.

mod long;
pub(super) mod spelled;
mod words;

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::game::Ply;

/// How moves are announced. Every style tells as much as the game's score does and no more: a
/// capture does not name the piece that was taken, so that one style is not easier than another;
/// only `long` always names the square that a piece leaves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Announce {
    /// English words: "Move 14, White: knight to f3, check."
    #[default]
    Words,
    /// Standard algebraic notation (PGN standard, 8.2.3): "14. Nf3+".
    San,
    /// Long algebraic notation, with the square that the piece leaves: "14. Ng1-f3+".
    Long,
    /// The file, rank, piece and castling words of the FIDE Laws' Appendix D; the words for taking,
    /// check, checkmate, en passant and promotion are ours, as the appendix gives none.
    Spelled,
}

impl Announce {
    /// Every style.
    pub const ALL: [Announce; 4] = [
        Announce::Words,
        Announce::San,
        Announce::Long,
        Announce::Spelled,
    ];

    /// Returns the style's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Announce::Words => "words",
            Announce::San => "san",
            Announce::Long => "long",
            Announce::Spelled => "spelled",
        }
    }

    /// Describes the style, for help, in a clause that begins small.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Announce::Words => "moves in words, such as White: knight to f3, check",
            Announce::San => "standard algebraic notation, such as 14. Nf3+",
            Announce::Long => "both squares of every move, such as 14. Ng1-f3+",
            Announce::Spelled => {
                "the file, rank, piece and castling words of the FIDE Laws' Appendix D, such as \
                 Springer to Felix drei; the words from, to, takes on, en passant, becomes, check and \
                 checkmate are our own"
            }
        }
    }

    /// Announces one ply with its number: "Move 14, Black: knight to f6." or "14... Nf6".
    #[must_use]
    pub fn ply(self, ply: &Ply) -> String {
        self.line(std::slice::from_ref(ply))
    }

    /// Announces plies in order, a line for each move number.
    #[must_use]
    pub fn plies(self, plies: &[Ply]) -> Vec<String> {
        plies
            .chunk_by(|one, next| one.number.number == next.number.number)
            .map(|plies| self.line(plies))
            .collect()
    }

    /// Names one ply inside a sentence: "White's move 14, knight to f3" or "14. Nf3".
    #[must_use]
    pub fn named(self, ply: &Ply) -> String {
        match self {
            Announce::Words | Announce::Spelled => {
                format!("{}, {}", super::naming::move_of(ply.number), self.bare(ply))
            }
            Announce::San | Announce::Long => self.ply(ply),
        }
    }

    /// Announces the move itself, without its number and its side.
    fn bare(self, ply: &Ply) -> String {
        match self {
            Announce::Words => words::English.announce(ply),
            Announce::San => ply.san.to_string(),
            Announce::Long => long::announce(ply),
            Announce::Spelled => spelled::AppendixD.announce(ply),
        }
    }

    /// Announces the plies of one move number.
    fn line(self, plies: &[Ply]) -> String {
        let Some(first) = plies.first() else {
            return String::new();
        };
        match self {
            Announce::Words | Announce::Spelled => {
                let told: Vec<String> = plies.iter().map(|ply| self.told(ply)).collect();
                format!("Move {}, {}", first.number.number, told.join(" "))
            }
            Announce::San | Announce::Long => {
                let moves: Vec<String> = plies.iter().map(|ply| self.bare(ply)).collect();
                format!("{} {}", first.number, moves.join(" "))
            }
        }
    }

    fn told(self, ply: &Ply) -> String {
        format!("{}: {}.", super::naming::side(ply.side()), self.bare(ply))
    }
}

/// Words in which a move can be announced.
trait Vocabulary {
    /// Names a piece.
    fn piece(&self, role: shakmaty::Role) -> &'static str;
    /// Names a square.
    fn square(&self, square: shakmaty::Square) -> String;
    /// Names castling.
    fn castling(&self, wing: shakmaty::CastlingSide) -> &'static str;

    /// Announces a move in these words.
    fn announce(&self, ply: &Ply) -> String
    where
        Self: Sized,
    {
        words::announce(self, ply)
    }
}

impl fmt::Display for Announce {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A name that no style has.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is no way to announce moves: choose words, san, long or spelled")]
pub struct ParseAnnounceError(String);

impl FromStr for Announce {
    type Err = ParseAnnounceError;

    fn from_str(name: &str) -> Result<Announce, ParseAnnounceError> {
        Announce::ALL
            .into_iter()
            .find(|style| style.name() == name)
            .ok_or_else(|| ParseAnnounceError(name.to_owned()))
    }
}

#[cfg(test)]
mod tests;
