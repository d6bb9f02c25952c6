//! Values that several commands read from the command line.

use std::time::Duration;

use clap::builder::{PossibleValuesParser, TypedValueParser};

use crate::exercise::bound::MILLIS;
use crate::question::Kind;

/// Reads a time in seconds, with or without a fraction.
pub(super) fn seconds(text: &str) -> Result<Duration, String> {
    text.parse::<f64>()
        .ok()
        .filter(|seconds| *seconds > 0.0)
        .and_then(|seconds| Duration::try_from_secs_f64(seconds).ok())
        .filter(|time| MILLIS.check(millis(*time)).is_ok())
        .ok_or_else(|| "write a number of seconds, as in 5 or 2.5".to_owned())
}

/// Counts the milliseconds of a time.
pub(super) fn millis(time: Duration) -> u64 {
    u64::try_from(time.as_millis()).unwrap_or(u64::MAX)
}

/// One word of `--ask`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum AskedKinds {
    /// Every kind.
    All,
    /// One kind.
    One(Kind),
}

pub(super) fn asked_kinds() -> impl TypedValueParser<Value = AskedKinds> {
    let names = Kind::LINE.into_iter().map(Kind::name).chain(["all"]);
    PossibleValuesParser::new(names)
        .map(|name| name.parse().map_or(AskedKinds::All, AskedKinds::One))
}

impl AskedKinds {
    /// Returns the kinds that were asked for, in the order of the climb; without any, the three that
    /// ask for the piece, its reach and its moves.
    pub(super) fn all_of(asked: Option<&[AskedKinds]>) -> Vec<Kind> {
        let asked = asked.unwrap_or(&[
            AskedKinds::One(Kind::Whereabouts),
            AskedKinds::One(Kind::Attacks),
            AskedKinds::One(Kind::Legality),
        ]);
        let all = asked.contains(&AskedKinds::All);
        Kind::LINE
            .into_iter()
            .filter(|kind| all || asked.contains(&AskedKinds::One(*kind)))
            .collect()
    }
}
