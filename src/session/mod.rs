//! Floor 2: sessions. A session is a plain state machine: it reads no clock, no random source, no
//! file and no terminal. It is given [`Input`]s and yields [`Output`]s without wording.

mod input;
mod output;
mod summary;

pub use input::Input;
pub use output::{Answered, Ask, Heard, Opening, Output, Setting};
pub use summary::{KindCount, Past, Summary};
