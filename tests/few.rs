//! A few men read out, plies played on, questions over them: the promises, counted over many seeds.

mod published;

#[path = "few/excerpts.rs"]
mod excerpts;
#[path = "few/lines.rs"]
mod lines;
#[path = "few/positions.rs"]
mod positions;
#[path = "few/sessions.rs"]
mod sessions;
