//! What is handed out or handed in, made from what sessions said and learners answered.

mod page;
pub(crate) mod progress;
pub(crate) mod sheet;
