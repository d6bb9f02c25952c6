//! Floor 2: sessions. A session is a plain state machine: it reads no clock, no random source, no
//! file and no terminal. It is given [`Input`]s and yields [`Output`]s without wording.

mod ahead;
pub mod bound;
mod choice;
mod chronicle;
mod dice;
mod drill;
mod few;
mod hardness;
mod input;
mod itinerary;
mod mates;
mod of_round;
mod output;
mod posed;
mod recite;
mod replay;
mod round;
mod script;
mod settings;
mod staircase;
mod summary;
mod think;

pub use ahead::{Ahead, AheadError, AheadSettings, Show};
pub use choice::choose;
pub use dice::Dice;
pub use drill::{
    Advice, Confusion, Drill, DrillPast, DrillSettings, DrillSummary, SquareCount, Views, deal,
    subject_squares, think_millis,
};
pub use few::{Few, FewError, FewSettings, MEN, draw, excerpts, play_on};
pub use hardness::{Hardness, Lines};
pub use input::Input;
pub use mates::{Mates, MatesError, MatesSettings, Problem, Search, Searched};
pub use output::{
    AheadOpening, Answered, Ask, Asked, Checkpoint, Defended, FewOpening, Heard, MatesOpening, Men,
    Opening, Output, Setting, Shown, Stand,
};
pub use recite::{
    Elsewhere, Missed, MixUp, Recital, Recite, RecitePast, ReciteSettings, ReciteSummary, Sides,
    Slip, Tries,
};
pub use replay::{Progress, Replay};
pub use script::{Cut, Passage, Script, ScriptError};
pub use settings::{By, Checkpoints, Settings, Stop};
pub use staircase::{START, Staircase, presented};
pub(crate) use summary::median;
pub use summary::{
    AheadSummary, FewSummary, KindCount, MatesSummary, Past, RoundsSummary, Summary,
};
pub use think::ThinkTimes;

use crate::game::Ply;

/// What a session waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awaits {
    /// [`Input::GoOn`]: more is to be read.
    GoOn,
    /// A reply to the question that stands.
    Reply,
    /// Nothing: the session is over.
    Nothing,
}

/// Counts the questions of a session that has opened with these outputs, by giving each of them up.
pub fn questions(session: &mut dyn Session, opening: Vec<Output>) -> usize {
    let mut asked = 0;
    let mut outputs = opening;
    loop {
        let answered = |output: &&Output| matches!(output, Output::Answered(_));
        asked += outputs.iter().filter(answered).count();
        outputs = session.hear(match session.awaits() {
            Awaits::Nothing => return asked,
            Awaits::GoOn => Input::GoOn,
            Awaits::Reply => Input::Pass { millis: 0 },
        });
    }
}

/// What every session can do once it has begun. It is given inputs for as long as it awaits something,
/// and its last output is a summary.
pub trait Session {
    /// Returns what the session waits for.
    fn awaits(&self) -> Awaits;

    /// Takes one input and returns what there is to say to it.
    fn hear(&mut self, input: Input) -> Vec<Output>;

    /// Returns how many plies have been heard.
    fn heard(&self) -> usize {
        0
    }

    /// Returns how many looks at the board have been taken.
    fn looks(&self) -> u32 {
        0
    }

    /// Returns the last plies heard of the line that is being read, oldest first.
    fn trail(&self) -> &[Ply] {
        &[]
    }
}
