//! The wings on which a side may castle.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

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
                other => return Err(D::Error::unknown_variant(other, &["short", "long"])),
            }
        }
        Ok(wings)
    }
}
