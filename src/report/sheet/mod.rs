//! Sheets: the questions of an exercise, away from the program.
//!
//! A sheet is made by the exercise's own session, in which every question is given up: so its
//! questions, their order and their truths are those of the live exercise with the same seed. Replays
//! and drills of few men ask the same whatever is answered. A drill over the bare board asks again
//! what was missed: for a sheet it is held without returns ([`Drill::without_returns`]), which is
//! the course of a learner who misses nothing.
//!
//! [`Drill::without_returns`]: crate::session::Drill::without_returns

mod drawing;
mod html;
mod json;
mod markdown;
mod name;
mod paper;

use crate::session::{Answered, Ask, Awaits, Input, Output, Session};

pub use html::{Side, html};
pub use json::json;
pub use markdown::markdown;
pub use name::name;
pub use paper::{Block, Picture, Scene, Sheet};

/// What a sheet holds, in the order of the exercise.
#[derive(Clone, Debug)]
pub enum Part {
    /// What is read aloud, or said around it.
    Told(Output),
    /// A question.
    Asked(Box<Item>),
}

/// A question of a sheet with its answer.
#[derive(Clone, Debug)]
pub struct Item {
    /// Its number, counted through the whole sheet from 1.
    pub number: usize,
    /// The question as it is put.
    pub ask: Ask,
    /// The question given up, which tells its truth and why it is so.
    pub given_up: Answered,
}

/// Holds a session from the outputs that open it to its end, every question given up.
pub fn parts(session: &mut dyn Session, opening: Vec<Output>) -> Vec<Part> {
    let mut parts = Vec::new();
    let mut number = 0;
    let mut standing = None;
    let mut outputs = opening;
    loop {
        for output in outputs {
            match output {
                Output::Ask(ask) => standing = Some(ask),
                Output::Answered(given_up) => {
                    let Some(ask) = standing.take() else { continue };
                    number += 1;
                    let given_up = *given_up;
                    parts.push(Part::Asked(Box::new(Item {
                        number,
                        ask,
                        given_up,
                    })));
                }
                told => parts.push(Part::Told(told)),
            }
        }
        outputs = session.hear(match session.awaits() {
            Awaits::Nothing => return parts,
            Awaits::GoOn => Input::GoOn,
            Awaits::Reply => Input::Pass { millis: 0 },
        });
    }
}
