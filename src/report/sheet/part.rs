//! What a sheet is made of: an exercise, or the parts of a lesson one after the other.

use crate::exercise::bound::Millis;
use crate::exercise::{Answered, Ask, Output, Show};
use crate::learner::GameRef;
use crate::voice::Voice;

/// What a sheet holds, in the order of the exercise.
#[derive(Clone, Debug)]
pub(crate) enum SheetItem {
    /// What is read aloud, or said around it.
    Told(Output),
    /// A question.
    Question(Box<SheetQuestion>),
}

/// A question of a sheet with its answer.
#[derive(Clone, Debug)]
pub(crate) struct SheetQuestion {
    /// Its number, counted through the whole sheet from 1.
    pub(crate) number: usize,
    /// The question as it is put.
    pub(crate) ask: Ask,
    /// What came of it: given up on a sheet that is made, and so told with its truth and why it is so.
    pub(crate) answered: Answered,
}

/// An exercise on a sheet.
#[derive(Clone, Debug)]
pub(crate) struct SheetPart {
    /// What it is headed with, where it is a part of a lesson, and what is read out before it.
    pub(crate) heading: Option<(String, Vec<String>)>,
    /// The exercise's name in the journal.
    pub(crate) exercise: &'static str,
    /// The game that it is about, where it is one.
    pub(crate) game: Option<GameRef>,
    /// How it is told.
    pub(crate) voice: Voice,
    /// The time to think over each question, where one is wished for.
    pub(crate) think: Option<Millis>,
    /// The silence after each reading, in milliseconds, where one is wished for.
    pub(crate) pace: Option<u64>,
    /// How many plies are heard in it.
    pub(crate) plies: usize,
    /// What it says and asks, in order.
    pub(crate) items: Vec<SheetItem>,
}

impl SheetPart {
    /// Returns the questions.
    pub(crate) fn questions(&self) -> impl Iterator<Item = &SheetQuestion> {
        self.items.iter().filter_map(|item| match item {
            SheetItem::Question(question) => Some(&**question),
            SheetItem::Told(_) => None,
        })
    }

    /// Returns the same, to be marked otherwise.
    pub(crate) fn questions_mut(&mut self) -> impl Iterator<Item = &mut SheetQuestion> {
        self.items.iter_mut().filter_map(|item| match item {
            SheetItem::Question(question) => Some(&mut **question),
            SheetItem::Told(_) => None,
        })
    }

    /// Tells whether something is read aloud in it that the page of questions must not show.
    pub(super) fn is_read(&self) -> bool {
        self.items.iter().any(|item| match item {
            SheetItem::Told(Output::Heard(_) | Output::Told(_)) => true,
            SheetItem::Told(Output::Given(given)) => given.show != Show::Diagram,
            SheetItem::Told(_) | SheetItem::Question(_) => false,
        })
    }
}

/// Returns the questions of all parts.
pub(crate) fn questions(parts: &[SheetPart]) -> impl Iterator<Item = &SheetQuestion> {
    parts.iter().flat_map(SheetPart::questions)
}
