//! The exercises. Each is a plain state machine: it reads no clock, no random source, no file and
//! no terminal. A [`Session`] holds one: it is given [`Input`]s and yields [`Output`]s without wording.

mod ahead;
mod answers;
mod asking;
pub mod bound;
mod drill;
mod few;
mod hardness;
mod input;
mod mates;
pub mod opponent;
mod output;
mod past;
mod plan;
pub mod play;
mod recite;
mod replay;
mod round;
mod script;
mod session;
mod settings;
mod staircase;
mod step;
mod tries;

pub use crate::question::{Dice, Views};
pub use ahead::Ahead;
pub(crate) use answers::median;
pub use answers::{Answered, KindCount, RoundsSummary, Setting, Tries};
pub use drill::{Advice, Confusion, Drill, DrillSummary, deal};
pub use few::{Few, excerpts};
pub use hardness::Hardness;
pub use input::Input;
pub use mates::{Mates, Search, Searched};
pub use output::{
    AheadOpening, Ask, Asked, DrillOpening, Ending, FewOpening, GameOpening, GivenPosition, Heard,
    MatesOpening, Opening, Output, OwnSummary, Stand, Summary, Told,
};
pub use past::Past;
pub use plan::{OverGame, Plan};
pub use recite::{MixUp, Recite, ReciteSummary};
pub use replay::Replay;
pub use round::choose;
pub use script::{Cut, Script, ScriptError};
pub use session::{Awaits, Earlier, EarlierAnswer, Session, questions};
pub use settings::{
    AheadSettings, By, Checkpoints, DrillSettings, FewSettings, MatesSettings, PlanError, Problem,
    ReciteSettings, Settings, Show, Sides, Stop,
};
pub use staircase::{START, Staircase, presented};
pub use step::{Exercise, Step, ThinkTimes};
pub use tries::{Elsewhere, Missed, Slip};
