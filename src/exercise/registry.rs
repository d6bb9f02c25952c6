//! The registry of exercises: one row each, from which all that goes over the exercises is made. An exercise
//! is written in a file or folder of its own ([`Exercise`]); its command is in `cli`, its words are in `voice`.

use serde::{Deserialize, Serialize};

use super::past::Past;
use super::script::Script;
use super::settings::PlanError;
use super::step::{Exercise, Rules, Step};

/// Hands the rows to a macro: each command, with the variant of its request and the exercises that it holds.
macro_rules! exercises {
    ($make:ident) => {
        $make! {
            replay Replay {
                /// A game is read, and checkpoints ask.
                Replay,
            }
            ahead Ahead {
                /// Plies are read from positions of games.
                Ahead,
                /// Mates are to be found.
                Mates,
            }
            play Play {
                /// Games against an opponent.
                Play,
            }
            drill Drill {
                /// Questions over the bare board.
                Drill,
                /// Questions over a few pieces.
                Few,
                /// Few questions of every stage find where a learner stands.
                Placement,
            }
            recite Recite {
                /// A game is said from memory.
                Recite,
            }
        }
    };
}
pub(crate) use exercises;

/// Makes the enums over the exercises.
macro_rules! enums {
    ($($command:ident $Command:ident { $($(#[$doc:meta])+ $Name:ident,)+ })+) => {
        /// An exercise with all its settings, as the journal keeps it.
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(rename_all = "lowercase")]
        pub enum Plan {
            $($($(#[$doc])+ $Name(<super::$Name as Exercise>::Plan),)+)+
        }

        /// What is about to be held, or goes on.
        #[derive(Clone, Debug)]
        pub enum Opening {
            $($($(#[$doc])+ $Name(<super::$Name as Exercise>::Opening),)+)+
        }

        /// What only one exercise tells.
        #[derive(Clone, Debug)]
        pub enum Told {
            $($($(#[$doc])+ $Name(<super::$Name as Exercise>::Told),)+)+
        }

        /// What only one exercise counts.
        #[expect(clippy::large_enum_variant, reason = "a session has one")]
        #[derive(Clone, Debug, PartialEq)]
        pub enum OwnSummary {
            $($($(#[$doc])+ $Name(<super::$Name as Exercise>::Summary),)+)+
        }

        /// An exercise that is held, whichever it is.
        #[derive(Debug)]
        pub enum Held {
            $($($(#[$doc])+ $Name(super::$Name),)+)+
        }

        $($(impl From<super::$Name> for Held {
            fn from(exercise: super::$Name) -> Held {
                Held::$Name(exercise)
            }
        })+)+

        impl Plan {
            /// Returns the name of its command.
            const fn command(&self) -> &'static str {
                match self {
                    $($(Plan::$Name(_))|+ => stringify!($command),)+
                }
            }

            /// Prepares what is planned.
            pub(super) fn held(self) -> Result<Held, PlanError> {
                Ok(match self {
                    $($(Plan::$Name(plan) => super::$Name::new(plan)?.into(),)+)+
                })
            }

            /// Returns the script whose main line is gone through, where there is one such.
            pub(super) fn script(&self) -> Option<&Script> {
                match self {
                    $($(Plan::$Name(plan) => super::$Name::script(plan),)+)+
                }
            }
        }

        impl Held {
            pub(super) fn rules(&self) -> Rules {
                match self {
                    $($(Held::$Name(exercise) => exercise.rules(),)+)+
                }
            }

            pub(super) fn opening(&self, past: &Past, again: bool) -> Opening {
                match self {
                    $($(Held::$Name(exercise) => Opening::$Name(exercise.opening(past, again)),)+)+
                }
            }

            pub(super) fn next(&mut self, past: &Past) -> Step<Told> {
                match self {
                    $($(Held::$Name(exercise) => exercise.next(past).telling(Told::$Name),)+)+
                }
            }

            pub(super) fn summary(&self, past: &Past) -> OwnSummary {
                match self {
                    $($(Held::$Name(exercise) => OwnSummary::$Name(exercise.summary(past)),)+)+
                }
            }
        }
    };
}
exercises!(enums);

impl Plan {
    /// Returns the exercise's name in the journal, which is that of its command where it has one.
    pub const fn exercise(&self) -> &'static str {
        match self {
            Plan::Placement(_) => "placement",
            _ => self.command(),
        }
    }
}
