//! Sheets: the questions of an exercise, away from the program.
//!
//! A sheet is made by the exercise's own session, in which every question is given up: so its
//! questions, their order and their truths are those of the live exercise with the same seed. Replays
//! and drills of few pieces ask the same whatever is answered. A drill over the bare board asks again
//! what was missed: for a sheet it is held without returns ([`Session::on_paper`]), which is
//! the course of a learner who misses nothing.
//!
//! [`Session::on_paper`]: crate::exercise::Session::on_paper

mod entry;
mod html;
mod layout;
mod part;
mod questions;
mod script;
mod text;

pub(crate) use entry::{Entry, EntryFault};
pub(crate) use html::html;
pub(crate) use layout::{Sheet, Side};
pub(crate) use part::{SheetPart, questions};
pub(crate) use questions::{hold, json, name, session_name};
pub(crate) use script::{Cue, cues, script};
pub(crate) use text::{Marks, text};
