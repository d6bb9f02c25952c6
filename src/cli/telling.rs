//! How a session is told: it goes on as it was begun, unless an option says otherwise.

use std::time::Duration;

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::arguments::millis;
use super::shared::Shared;
use crate::exercise::bound::{self, OutOfBounds, read_with_check};
use crate::voice::{Announce, Voice};

/// How a session is told. The journal keeps it, so that another process goes on in the same way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self")]
pub(super) struct Telling {
    announce: Announce,
    #[serde(with = "Side")]
    view: Color,
    pace_millis: Option<u64>,
}

read_with_check!(Telling);

/// A side as the journal writes it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Color", rename_all = "lowercase")]
enum Side {
    White,
    Black,
}

/// What the options of this run say of it.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Wished {
    pub(super) announce: Option<Announce>,
    pub(super) view: Option<Color>,
    pub(super) pace: Option<Duration>,
}

impl Telling {
    /// Settles how a session is told: as the options say, else as it was begun, else as the config file
    /// says.
    pub(super) fn new(wished: Wished, begun: Option<Telling>, shared: &Shared) -> Telling {
        let config = &shared.config;
        let begun = begun.unwrap_or(Telling {
            announce: config.announce.unwrap_or_default(),
            view: config.view.unwrap_or(Color::White),
            pace_millis: None,
        });
        Telling {
            announce: wished.announce.unwrap_or(begun.announce),
            view: wished.view.unwrap_or(begun.view),
            pace_millis: wished.pace.map(millis).or(begun.pace_millis),
        }
    }

    fn check(self) -> Result<(), OutOfBounds> {
        bound::MILLIS.check_given(self.pace_millis)
    }

    /// The time between two readings; without it, Enter goes on.
    pub(super) fn pace(self) -> Option<Duration> {
        self.pace_millis.map(Duration::from_millis)
    }

    pub(super) fn voice(self, shared: &Shared) -> Voice {
        Voice {
            announce: self.announce,
            view: self.view,
            plain: shared.plain,
            list: shared.speaking.list,
        }
    }
}
