//! How squares, pieces, moves and sets of squares stand in JSON: as the text that chess players write.

#![expect(
    clippy::ref_option,
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands every field over by reference"
)]

use std::fmt::Display;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use shakmaty::{Piece, Role};

use crate::board::Pair;

fn parsed<T: FromStr<Err: Display>, E: de::Error>(text: &str) -> Result<T, E> {
    text.parse().map_err(E::custom)
}

/// One value as text, by its `Display` and `FromStr`.
pub(crate) mod text {
    use super::{Deserialize, Deserializer, Display, FromStr, Serializer, parsed};

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
        parsed(&String::deserialize(from)?)
    }
}

/// Several values as a list of texts: moves, or squares in the order a1, b1, … h8.
pub(super) mod texts {
    use super::{Deserialize, Deserializer, Display, FromStr, Serializer, parsed};

    pub(crate) fn serialize<T, S: Serializer>(values: &T, to: S) -> Result<S::Ok, S::Error>
    where
        T: Clone + IntoIterator<Item: Display>,
    {
        to.collect_seq(values.clone().into_iter().map(|value| value.to_string()))
    }

    pub(crate) fn deserialize<'de, T, D: Deserializer<'de>>(from: D) -> Result<T, D::Error>
    where
        T: IntoIterator<Item: FromStr<Err: Display>> + FromIterator<T::Item>,
    {
        let texts = Vec::<String>::deserialize(from)?;
        texts.iter().map(|text| parsed(text)).collect()
    }
}

/// Reads a list of two texts.
pub(super) fn two<'de, T, D: Deserializer<'de>>(from: D) -> Result<[T; 2], D::Error>
where
    T: FromStr<Err: Display>,
{
    let [one, other] = <[String; 2]>::deserialize(from)?;
    Ok([parsed(&one)?, parsed(&other)?])
}

/// Two different squares as a list of two.
pub(super) mod pair {
    use super::{Deserializer, Pair, Serializer, de, texts, two};

    pub(crate) fn serialize<S: Serializer>(pair: &Pair, to: S) -> Result<S::Ok, S::Error> {
        texts::serialize(&pair.squares(), to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Pair, D::Error> {
        let [one, other] = two(from)?;
        Pair::new(one, other).ok_or_else(|| de::Error::custom("the two squares are one"))
    }
}

/// A piece as its FEN letter, or `null` for an empty square.
pub(super) mod piece {
    use super::{Deserialize, Deserializer, Piece, Serialize, Serializer, de};

    pub(crate) fn serialize<S: Serializer>(
        piece: &Option<Piece>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        piece.map(Piece::char).serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<Piece>, D::Error> {
        let letter = Option::<char>::deserialize(from)?;
        let piece = letter.map(|letter| Piece::from_char(letter).ok_or("no FEN letter"));
        piece.transpose().map_err(de::Error::custom)
    }
}

/// A role by its English name.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Role", rename_all = "lowercase")]
pub(super) enum RoleName {
    Pawn,
    Knight,
    Bishop,
    Rook,
    Queen,
    King,
}
