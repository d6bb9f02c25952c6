//! The wings on which a side may castle.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use shakmaty::{CastlingSide, Color, Position};

use super::Scene;

/// A set of wings; in JSON, a list of `short` and `long`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Wings {
    /// The king's wing.
    pub short: bool,
    /// The queen's wing.
    pub long: bool,
}

impl Wings {
    /// The wings on which a side has not lost its right to castle (FIDE 3.8.2.1).
    #[must_use]
    pub fn of(scene: Scene<'_>, color: Color) -> Wings {
        let castles = scene.position().castles();
        Wings {
            short: castles.has(color, CastlingSide::KingSide),
            long: castles.has(color, CastlingSide::QueenSide),
        }
    }

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
                other => return Err(D::Error::unknown_variant(other, &["short", "long"])),
            }
        }
        Ok(wings)
    }
}
