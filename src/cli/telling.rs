//! How a session is told: it goes on as it was begun, unless an option says otherwise.

use std::time::Duration;

use clap::Args;
use serde::{Deserialize, Serialize};

use super::shared::Shared;
use super::values::{Seconds, Side, word};
use crate::voice::{Announce, Voice};

/// What the options of this run say of how moves and boards are told; it goes on as it was, and may change
/// from one sitting to the next.
#[derive(Args, Clone, Copy, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct TellingOptions {
    /// How moves are announced [default: words]
    #[arg(long, value_name = "STYLE", help_heading = TELLING, value_parser = word::<Announce>())]
    announce: Option<Announce>,
    /// The side from which the board is shown [default: white]
    #[arg(long, value_name = "SIDE", help_heading = TELLING, value_parser = word::<Side>())]
    view: Option<Side>,
}

/// What the options of this run say of how fast is read.
#[derive(Args, Clone, Copy, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct PaceOption {
    /// Read on by itself, with so many seconds between; without it, Enter goes on
    #[arg(long, value_name = "SECONDS", help_heading = TELLING)]
    pace: Option<Seconds>,
}

const TELLING: &str = "Reading aloud";

/// How a session is told. The journal keeps it, so that another process goes on in the same way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Telling {
    announce: Announce,
    view: Side,
    pace: Option<Seconds>,
}

impl Telling {
    /// Settles how a session is told: as the options say, else as it was begun, else as the config file
    /// says.
    pub(super) fn new(
        options: TellingOptions,
        pace: PaceOption,
        begun: Option<Telling>,
        shared: &Shared,
    ) -> Telling {
        let config = &shared.config;
        let begun = begun.unwrap_or(Telling {
            announce: config.announce.unwrap_or_default(),
            view: config.view.unwrap_or(Side::White),
            pace: None,
        });
        Telling {
            announce: options.announce.unwrap_or(begun.announce),
            view: options.view.unwrap_or(begun.view),
            pace: pace.pace.or(begun.pace),
        }
    }

    /// The time between two readings; without it, Enter goes on.
    pub(super) fn pace(self) -> Option<Duration> {
        self.pace.map(Seconds::time)
    }

    pub(super) fn voice(self, shared: &Shared) -> Voice {
        Voice {
            announce: self.announce,
            view: self.view.into(),
            plain: shared.plain,
            list: shared.config.list,
        }
    }
}
