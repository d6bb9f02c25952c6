//! Floor 5: what is handed out or handed in, made from what sessions said and learners answered.

pub mod progress;
pub mod sheet;
