//! Think times that were wished for, kind by kind.

use crate::question::Kind;

/// Think times of kinds, in milliseconds, that stand where an exercise has none of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ThinkTimes(Vec<(Kind, u64)>);

impl ThinkTimes {
    /// Returns the think time of a kind, where one is wished for.
    #[must_use]
    pub fn of(&self, kind: Kind) -> Option<u64> {
        let wished = self.0.iter().find(|(of, _)| *of == kind);
        wished.map(|(_, millis)| *millis)
    }
}

impl FromIterator<(Kind, u64)> for ThinkTimes {
    fn from_iter<T: IntoIterator<Item = (Kind, u64)>>(times: T) -> ThinkTimes {
        ThinkTimes(times.into_iter().collect())
    }
}
