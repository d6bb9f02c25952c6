//! The position that a game or a line starts from.

use shakmaty::fen::{Fen, ParseFenError};
use shakmaty::{CastlingMode, Chess, EnPassantMode, FromSetup, Position, PositionError};

/// A start position and the castling rules that hold from there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Start {
    position: Chess,
}

/// Why a FEN cannot start a game.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StartError {
    /// The text is no FEN.
    #[error("\"{fen}\" is no FEN ({reason}): give the six fields of the PGN standard, 16.1")]
    Unreadable {
        /// The text as given.
        fen: String,
        /// What the reader of FENs says.
        reason: ParseFenError,
    },
    /// The FEN is readable, but no game of chess can go on from it.
    #[error("no game can start from \"{fen}\" ({reason})")]
    Unplayable {
        /// The FEN as given.
        fen: String,
        /// What the rules say.
        reason: String,
    },
}

impl Start {
    /// Wraps a position that the rules library has accepted; it knows its castling rules.
    pub const fn new(position: Chess) -> Start {
        Start { position }
    }

    /// Returns the usual array of standard chess.
    pub fn standard() -> Start {
        Start::new(Chess::new())
    }

    /// Reads a FEN under the castling rules of `mode`.
    ///
    /// More pieces than a game can bring forth, and checks that no last move could have given, are let
    /// through: composed positions have them, and every question about them has its answer.
    ///
    /// # Errors
    ///
    /// [`StartError`] when the text is no FEN or the position cannot be played on from.
    pub fn from_fen(fen: &str, mode: CastlingMode) -> Result<Start, StartError> {
        let setup =
            Fen::from_ascii(fen.trim().as_bytes()).map_err(|reason| StartError::Unreadable {
                fen: fen.to_owned(),
                reason,
            })?;
        setup
            .into_position::<Chess>(mode)
            .or_else(PositionError::ignore_too_much_material)
            .or_else(PositionError::ignore_impossible_check)
            .or_else(PositionError::ignore_invalid_ep_square)
            .map(Start::new)
            .map_err(|error| StartError::Unplayable {
                fen: fen.to_owned(),
                reason: error.to_string(),
            })
    }

    /// Returns the castling rules in force.
    pub fn mode(&self) -> CastlingMode {
        self.position.castles().mode()
    }

    /// Returns the position itself.
    pub const fn position(&self) -> &Chess {
        &self.position
    }

    /// Tells whether this is the usual array of standard chess.
    pub fn is_usual(&self) -> bool {
        self.mode().is_standard() && self.position == Chess::new()
    }

    /// Writes the FEN, with an en passant square where a pawn stands ready to take: whether it may, and why not,
    /// can still be asked.
    pub fn fen(&self) -> String {
        Fen::from_position(&self.position, EnPassantMode::PseudoLegal).to_string()
    }
}

/// Returns the position after the side to move has passed, or `None` where it stands in check.
///
/// The move number goes up after Black, as it does after a move.
pub fn after_null(position: &Chess) -> Option<Chess> {
    if position.is_check() {
        return None;
    }
    let mut setup = position.to_setup(EnPassantMode::Legal);
    if setup.turn.is_black() {
        setup.fullmoves = setup.fullmoves.saturating_add(1);
    }
    setup.swap_turn();
    Chess::from_setup(setup, position.castles().mode())
        .or_else(PositionError::ignore_too_much_material)
        .or_else(PositionError::ignore_impossible_check)
        .ok()
}

/// Writes the FEN of a position, its en passant square only where the capture is legal.
pub fn fen_of(position: &Chess) -> String {
    Fen::from_position(position, EnPassantMode::Legal).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_side_that_passes_hands_over_the_move() {
        let start = Start::standard();
        let once = after_null(start.position()).unwrap();
        let twice = after_null(&once).unwrap();
        let array = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR";
        assert_eq!(fen_of(&once), format!("{array} b KQkq - 0 1"));
        assert_eq!(fen_of(&twice), format!("{array} w KQkq - 0 2"));
    }

    #[test]
    fn a_side_in_check_cannot_pass() {
        let checked = Start::from_fen("4k3/8/8/8/8/8/8/K3R3 b - - 0 1", CastlingMode::Standard);
        assert_eq!(after_null(checked.unwrap().position()), None);
    }

    #[test]
    fn passing_gives_up_en_passant() {
        let fen = "4k3/8/8/8/4Pp2/8/8/4K3 b - e3 0 1";
        let start = Start::from_fen(fen, CastlingMode::Standard).unwrap();
        let passed = after_null(start.position()).unwrap();
        assert_eq!(fen_of(&passed), "4k3/8/8/8/4Pp2/8/8/4K3 w - - 0 2");
    }

    #[test]
    fn a_pawn_that_may_not_take_en_passant_stands_ready_all_the_same() {
        let fen = "8/8/8/K1pP3r/8/8/8/4k3 w - c6 0 2";
        let start = Start::from_fen(fen, CastlingMode::Standard).unwrap();
        assert_eq!(start.fen(), fen);
        assert_eq!(fen_of(start.position()), fen.replace("c6", "-"));
    }

    #[test]
    fn a_side_may_pass_with_more_pieces_than_a_game_brings_forth() {
        let fen = "6QQ/8/8/PPPPPPPP/8/8/k7/6K1 w - - 0 1";
        let start = Start::from_fen(fen, CastlingMode::Standard).unwrap();
        assert!(after_null(start.position()).is_some());
    }
}
