//! Floor 2: sessions. A session is a plain state machine: it reads no clock, no random source, no
//! file and no terminal. It is given [`Input`]s and yields [`Output`]s without wording.

mod choice;
mod dice;
mod few;
mod input;
mod itinerary;
mod output;
mod posed;
mod replay;
mod round;
mod script;
mod settings;
mod summary;

pub use choice::choose;
pub use dice::Dice;
pub use few::{Few, FewError, FewSettings, MEN, draw, excerpts, play_on};
pub use input::Input;
pub use output::{Answered, Ask, Asked, FewOpening, Heard, Men, Opening, Output, Setting, Stand};
pub use replay::{Awaits, Progress, Replay};
pub use script::{Cut, Passage, Script, ScriptError};
pub use settings::{By, Checkpoints, Settings, Stop};
pub use summary::{FewSummary, KindCount, Past, Summary};
