//! The exercises. Each is a plain state machine: it reads no clock, no random source, no file and
//! no terminal. A [`Session`] holds one: it is given [`Input`]s and yields [`Output`]s without wording.

mod ahead;
mod answers;
mod asking;
mod awaited;
mod beside;
pub mod bound;
mod checkpoints;
mod draft;
mod drill;
mod few;
mod guide;
mod hardness;
mod hearing;
mod input;
mod mates;
mod mouth;
pub mod opponent;
mod output;
mod over_game;
mod past;
mod placement;
mod plan;
pub mod play;
mod recite;
mod registry;
mod replay;
mod round;
mod said;
mod score;
mod script;
mod session;
mod settings;
mod staircase;
mod step;
mod tries;

pub use crate::question::{Dice, Views};
pub use ahead::{Ahead, AheadSettings, AheadSummary};
pub use answers::{Answered, Dialogue, Mistaken, RoundsSummary, Setting, Tries};
pub use asking::{Ask, Asked, Coordinates, Stand, TurnStand};
pub use awaited::Awaited;
pub use beside::{Beside, OpenQuestion};
pub use checkpoints::{Checkpoints, Stop};
pub use drill::{Advice, Drill, DrillSettings, DrillSummary, Example, TAUGHT_AT_ONCE, deal};
pub use few::{Few, FewSettings, MOST_DRAWN, excerpts, played_on};
pub use guide::Guided;
pub use hardness::Hardness;
pub use input::Input;
pub use mates::{Mates, MatesSettings, MatesSummary, MovesPlayed, Problem, Search, Searched};
pub(crate) use mouth::{Mouth, Uttered};
pub use output::{Heard, Help, NotHere, Output, PromptWord, Summary};
pub use over_game::{GameOpening, OverGame};
pub use past::Past;
pub use placement::{Climb, Placement, PlacementSettings, Stage, climb};
pub use play::{
    BoardShown, Costly, GameSettings, GameSummary, Play, PlayOpening, PlaySettings, PlaySummary,
    PlayTold, TurnSummary, few as few_to_play,
};
pub use recite::{MixUp, Recite, ReciteOpening, ReciteSettings, ReciteSummary, ReciteTold, Sides};
pub(crate) use registry::exercises;
pub use registry::{Held, Opening, OwnSummary, Plan, Told};
pub use replay::{Replay, ReplaySummary, Settings, Turn};
pub use round::choose;
pub use said::{Cost, Countermove, GameWord, Said};
pub use score::Score;
pub(crate) use score::median;
pub use script::{Cut, Script, ScriptError};
pub use session::{Awaits, Earlier, EarlierAnswer, Extent, Session, extent};
pub use settings::{By, PlanError, Show};
pub use staircase::{START, Staircase, presented};
pub use step::{Begun, Ending, Exercise, GivenPosition, KindTimes, Rules, Step, ThinkTimes};
pub use tries::{Elsewhere, Missed, Slip};
