//! Sheets: the questions of an exercise, away from the program.
//!
//! A sheet is made by the exercise's own session, in which every question is given up: so its
//! questions, their order and their truths are those of the live exercise with the same seed. Replays
//! and drills of few pieces ask the same whatever is answered. A drill over the bare board asks again
//! what was missed: for a sheet it is held without returns ([`Drill::without_returns`]), which is
//! the course of a learner who misses nothing.
//!
//! [`Drill::without_returns`]: crate::exercise::Drill::without_returns

mod drawing;
mod entry;
mod html;
mod json;
mod markdown;
mod name;
mod paper;
mod sound;

use crate::exercise::{Answered, Ask, Awaits, Input, Output, Session};
use crate::question::Form;

pub use entry::{Entry, EntryFault, Written};
pub use html::{Side, html};
pub use json::json;
pub use markdown::markdown;
pub use name::{name, session_name};
pub use paper::{Block, Picture, Scene, Sheet};
pub use sound::{Beat, Pauses, beats, script};

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
    /// What came of it: given up on a sheet that is made, and so told with its truth and why it is so.
    pub answered: Answered,
}

/// A written reply that cannot be read.
#[derive(Clone, Debug)]
pub struct Unread {
    /// The number of its question.
    pub number: usize,
    /// What the session says of it.
    pub said: Output,
}

/// Holds a session from its beginning to its end, every question given up.
pub fn parts(session: &mut Session) -> Vec<Part> {
    hold(session, |_, _| None).0
}

/// Holds a session from its beginning to its end. `reply` gives the written reply to the
/// question of this number and form, or `None` where it is given up; so is a question whose reply cannot
/// be read, which is told beside the parts.
pub fn hold(
    session: &mut Session,
    reply: impl Fn(usize, Form) -> Option<String>,
) -> (Vec<Part>, Vec<Unread>) {
    let mut parts = Vec::new();
    let mut unread: Vec<Unread> = Vec::new();
    let mut number = 0;
    let mut standing = None;
    let mut outputs = session.begin();
    loop {
        for output in outputs {
            match output {
                Output::Ask(ask) => {
                    number += 1;
                    standing = Some(ask);
                }
                Output::Answered(answered) => {
                    let Some(ask) = standing.take() else { continue };
                    let mut answered = *answered;
                    // Nobody knows how long an answer took on paper.
                    answered.millis = None;
                    parts.push(Part::Asked(Box::new(Item {
                        number,
                        ask,
                        answered,
                    })));
                }
                said @ Output::Unread { .. } => unread.push(Unread { number, said }),
                told => parts.push(Part::Told(told)),
            }
        }
        let was_unread = unread.last().is_some_and(|last| last.number == number);
        let written = standing.as_ref().and_then(|ask| reply(number, ask.form));
        let written = written.filter(|_| !was_unread);
        outputs = session.hear(match (session.awaits(), written) {
            (Awaits::Nothing, _) => return (parts, unread),
            (Awaits::GoOn, _) => Input::GoOn,
            (Awaits::Reply, None) => Input::Pass { millis: 0 },
            (Awaits::Reply, Some(text)) => Input::Reply { text, millis: 0 },
        });
    }
}
