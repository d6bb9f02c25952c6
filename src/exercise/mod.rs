//! Floor 2: the exercises. Each is a plain state machine: it reads no clock, no random source, no file and
//! no terminal. A [`Session`] holds one: it is given [`Input`]s and yields [`Output`]s without wording.

mod ahead;
pub mod bound;
mod choice;
mod drill;
mod few;
mod hardness;
mod input;
mod itinerary;
mod mates;
mod output;
mod past;
mod plan;
mod posed;
mod recite;
mod replay;
mod round;
mod script;
mod session;
mod settings;
mod staircase;
mod step;
mod summary;
mod think;

use crate::question::dice;

pub use crate::question::Views;
pub use ahead::{Ahead, AheadError, AheadSettings, Show};
pub use choice::choose;
pub use dice::Dice;
pub use drill::{Advice, Confusion, Drill, DrillSettings, DrillSummary, SquareCount, deal};
pub use few::{Few, FewError, FewSettings, PIECES, draw, excerpts, play_on};
pub use hardness::{Hardness, Lines};
pub use input::Input;
pub use mates::{Mates, MatesError, MatesSettings, Problem, Search, Searched};
pub use output::{
    Answered, Ask, Asked, Checkpoint, Ending, Given, Heard, Help, OfAhead, OfDrill, OfFew, OfGame,
    OfMates, Opening, Output, RoundPieces, Setting, Shown, Stand, Told,
};
pub use past::Past;
pub use plan::{OverGame, Plan, PlanError};
pub use recite::{
    Elsewhere, Missed, MixUp, Recite, ReciteSettings, ReciteSummary, Sides, Slip, Tries,
};
pub use replay::Replay;
pub use script::{Cut, Passage, Script, ScriptError};
pub use session::{Awaits, Earlier, EarlierAnswer, Session, questions};
pub use settings::{By, Checkpoints, Settings, Stop};
pub use staircase::{START, Staircase, presented};
pub use step::{Exercise, Step};
pub(crate) use summary::median;
pub use summary::{KindCount, Own, RoundsSummary, Summary};
pub use think::ThinkTimes;
