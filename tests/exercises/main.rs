//! Exercises from beginning to end as state machines, and what a learner's answers lead to.

mod ahead;
mod choice;
mod course;
mod drill;
mod few;
mod journal;
mod pace;
#[path = "../shared/passages.rs"]
mod passages;
#[path = "../shared/program.rs"]
mod program;
#[path = "../shared/published.rs"]
mod published;
mod recite;
mod replay;
mod replies;
