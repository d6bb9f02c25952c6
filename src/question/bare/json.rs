//! How pairs of squares and journeys stand in the JSON of a subject.

#![expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands every field over by reference"
)]

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use shakmaty::{Bitboard, Square};

use super::super::json::{squares, text};
use crate::board::PieceAt;

/// Two different squares as a list of two.
pub(super) mod pair {
    use super::{Deserialize, Deserializer, Serializer, Square, de};
    use crate::board::Pair;

    pub(crate) fn serialize<S: Serializer>(pair: &Pair, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(pair.squares().map(|square| square.to_string()))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Pair, D::Error> {
        let names = <[String; 2]>::deserialize(from)?;
        let square = |name: &String| name.parse::<Square>().map_err(de::Error::custom);
        Pair::new(square(&names[0])?, square(&names[1])?)
            .ok_or_else(|| de::Error::custom("the two squares are one"))
    }
}

/// Two pieces as a list of two.
pub(super) mod pieces {
    use super::{Deserialize, Deserializer, PieceAt, Serializer, de};

    pub(crate) fn serialize<S: Serializer>(
        pieces: &[PieceAt; 2],
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.collect_seq(pieces.map(|piece| piece.to_string()))
    }

    pub(crate) fn deserialize<'de, D>(from: D) -> Result<[PieceAt; 2], D::Error>
    where
        D: Deserializer<'de>,
    {
        let names = <[String; 2]>::deserialize(from)?;
        let piece = |name: &String| name.parse::<PieceAt>().map_err(de::Error::custom);
        Ok([piece(&names[0])?, piece(&names[1])?])
    }
}

/// A journey by its piece, its square and what stands in its way.
pub(super) mod journey {
    use super::{Bitboard, Deserialize, Deserializer, PieceAt, Serialize, Serializer, Square, de};
    use super::{squares, text};
    use crate::board::Travel;

    #[derive(Serialize, Deserialize)]
    struct Subject {
        #[serde(rename = "man", with = "text")]
        piece: PieceAt,
        #[serde(with = "text")]
        to: Square,
        #[serde(with = "squares", default)]
        blockers: Bitboard,
    }

    pub(crate) fn serialize<S: Serializer>(travel: &Travel, to: S) -> Result<S::Ok, S::Error> {
        let subject = Subject {
            piece: travel.piece(),
            to: travel.to(),
            blockers: travel.blockers(),
        };
        subject.serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Travel, D::Error> {
        let subject = Subject::deserialize(from)?;
        Travel::new(subject.piece, subject.to, subject.blockers).map_err(de::Error::custom)
    }
}
