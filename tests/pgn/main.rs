//! PGN to games and back: reading, collections of any size, export.

mod collections;
mod export;
#[path = "../shared/held.rs"]
mod held;
mod made_up;
#[path = "../shared/passages.rs"]
mod passages;
#[path = "../shared/program.rs"]
mod program;
mod reading;
#[cfg(unix)]
#[path = "../shared/terminal.rs"]
mod screen;
#[path = "../shared/unharmed.rs"]
mod unharmed;
