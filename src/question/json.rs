//! How squares, pieces, moves and sets of squares stand in JSON: as the text that chess players write.

#![expect(
    clippy::ref_option,
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands every field over by reference"
)]

use std::fmt::Display;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serializer, de};

/// One value as text, by its `Display` and `FromStr`.
pub(super) mod text {
    use super::{Deserialize, Deserializer, Display, FromStr, Serializer, de};

    pub(crate) fn serialize<T: Display, S: Serializer>(
        value: &T,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.collect_str(value)
    }

    pub(crate) fn deserialize<'de, T, D>(from: D) -> Result<T, D::Error>
    where
        T: FromStr<Err: Display>,
        D: Deserializer<'de>,
    {
        String::deserialize(from)?
            .parse()
            .map_err(de::Error::custom)
    }
}

/// A set of squares as a list, in the order a1, b1, … h8.
pub(super) mod squares {
    use super::{Deserialize, Deserializer, Serializer, de};
    use shakmaty::{Bitboard, Square};

    pub(crate) fn serialize<S: Serializer>(set: &Bitboard, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(set.into_iter().map(|square| square.to_string()))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Bitboard, D::Error> {
        Vec::<String>::deserialize(from)?
            .iter()
            .map(|text| text.parse::<Square>().map_err(de::Error::custom))
            .collect()
    }
}

/// Moves as a list of their UCI names.
pub(super) mod moves {
    use super::{Deserialize, Deserializer, Serializer, de};
    use crate::question::Attempt;

    pub(crate) fn serialize<S: Serializer>(moves: &[Attempt], to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(moves.iter().map(ToString::to_string))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Vec<Attempt>, D::Error> {
        Vec::<String>::deserialize(from)?
            .iter()
            .map(|text| text.parse().map_err(de::Error::custom))
            .collect()
    }
}

/// A piece as its FEN letter, or `null` for an empty square.
pub(super) mod piece {
    use super::{Deserialize, Deserializer, Serializer, de};
    use shakmaty::Piece;

    pub(crate) fn serialize<S: Serializer>(
        piece: &Option<Piece>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        match piece {
            Some(piece) => to.collect_str(&piece.char()),
            None => to.serialize_none(),
        }
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<Piece>, D::Error> {
        Option::<char>::deserialize(from)?
            .map(|letter| {
                Piece::from_char(letter).ok_or_else(|| de::Error::custom("no FEN letter"))
            })
            .transpose()
    }
}

/// A whole board as the first field of a FEN.
pub(super) mod placement {
    use super::{Deserialize, Deserializer, Serializer, de};
    use shakmaty::Board;

    pub(crate) fn serialize<S: Serializer>(board: &Board, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&board.board_fen())
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Board, D::Error> {
        Board::from_ascii_board_fen(String::deserialize(from)?.as_bytes())
            .map_err(de::Error::custom)
    }
}

/// A side as `white` or `black`.
pub(super) mod side {
    use super::{Deserialize, Deserializer, Serializer, de};
    use shakmaty::Color;

    pub(crate) fn serialize<S: Serializer>(side: &Color, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(side.fold_wb("white", "black"))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Color, D::Error> {
        match String::deserialize(from)?.as_str() {
            "white" => Ok(Color::White),
            "black" => Ok(Color::Black),
            other => Err(de::Error::unknown_variant(other, &["white", "black"])),
        }
    }
}

/// A role by its English name.
pub(super) mod role {
    use super::{Deserialize, Deserializer, Serializer, de};
    use shakmaty::Role;

    const NAMES: &[&str] = &["pawn", "knight", "bishop", "rook", "queen", "king"];

    pub(crate) fn serialize<S: Serializer>(role: &Role, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(NAMES[usize::from(*role) - 1])
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Role, D::Error> {
        let name = String::deserialize(from)?;
        Role::ALL
            .into_iter()
            .find(|role| NAMES[usize::from(*role) - 1] == name)
            .ok_or_else(|| de::Error::unknown_variant(&name, NAMES))
    }
}
