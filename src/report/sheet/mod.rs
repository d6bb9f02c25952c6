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
mod markdown;
mod questions;
mod script;

pub(crate) use entry::{Entry, EntryError};
pub(crate) use html::html;
pub(crate) use layout::{Sheet, Side};
pub(crate) use markdown::markdown;
pub(crate) use questions::{
    SheetItem, SheetQuestion, hold, items, json, name, questions, session_name,
};
pub(crate) use script::{Cue, cues, script};
