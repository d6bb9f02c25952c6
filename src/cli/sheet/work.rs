//! What a sheet is made of, set up: an exercise, or the parts of a lesson that paper can have.

use std::path::Path;

use super::form::Paper;
use crate::cli::failure::{Failure, tell};
use crate::cli::lesson;
use crate::cli::prepared::Prepared;
use crate::cli::request::{Outline, Request, seed_of_part};
use crate::cli::shared::Shared;
use crate::learner::Record;
use crate::question::Form;
use crate::report::sheet::{self, SheetPart};
use crate::voice::{asides, commands, lesson as words};

/// The numbers of the questions whose replies cannot be read, and what is said of each.
pub(super) type Unread = Vec<(usize, String)>;

/// An exercise, or a lesson.
pub(super) struct Work<'a> {
    /// The lesson; `None` for an exercise alone.
    pub(super) outline: Option<Outline>,
    pub(super) parts: Vec<WorkPart<'a>>,
    pub(super) seed: u64,
}

/// An exercise of it.
pub(super) struct WorkPart<'a> {
    /// Its number in its lesson, counted from 1.
    pub(super) number: usize,
    /// The same in the order in which the lesson is held.
    place: usize,
    pub(super) exercise: Prepared,
    /// What it is asked for by, where it stands alone.
    pub(super) request: Option<&'a Request>,
}

impl<'a> Work<'a> {
    /// Sets up what paper asks for, with what these records say of the learner.
    pub(super) fn of(
        paper: &'a Paper,
        shared: &Shared,
        records: &[Record],
    ) -> Result<Option<Work<'a>>, Failure> {
        Ok(match paper {
            Paper::Enter { .. } => None,
            Paper::Lesson { file } => Some(Work::of_lesson(file, shared)?),
            Paper::Ask(request) => {
                let exercise = request.on_paper(shared, records)?;
                Some(Work {
                    outline: None,
                    seed: exercise.seed,
                    parts: vec![WorkPart {
                        number: 1,
                        place: 1,
                        exercise,
                        request: Some(request),
                    }],
                })
            }
        })
    }

    /// Sets the parts of a lesson up, all alike for whoever gets them; a part that needs an answer at once, as a game,
    /// is left out, and that is told.
    fn of_lesson(file: &Path, shared: &Shared) -> Result<Work<'a>, Failure> {
        let seed = shared.seed()?;
        let outline = lesson::tried(file, seed, shared)?;
        let mut parts = Vec::new();
        for (place, at) in (1..).zip(outline.order()) {
            let (part, number) = (&outline.parts[at], at + 1);
            let of_lesson = part.in_session(String::new());
            let seed = part.seed.unwrap_or(seed_of_part(seed, number, 1));
            match part
                .request
                .on_paper(&shared.of_part(of_lesson, Some(seed)), &[])
            {
                Ok(exercise) => parts.push(WorkPart {
                    number,
                    place,
                    exercise,
                    request: None,
                }),
                Err(Failure::Usage(reason)) => {
                    tell(&asides::not_on_paper(place, &part.heading, &reason));
                }
                Err(other) => return Err(other),
            }
        }
        if parts.is_empty() {
            return Err(Failure::unusable(commands::NOTHING_ON_PAPER));
        }
        Ok(Work {
            outline: Some(outline),
            parts,
            seed,
        })
    }

    /// Returns the title of the sheet of a lesson.
    pub(super) fn title(&self) -> Option<String> {
        let outline = self.outline.as_ref()?;
        Some(words::sheet_title(outline.title.as_deref()))
    }

    /// Holds all of it: `reply` gives the written reply to the question of this number and form. Returns the parts, and
    /// for each question whose reply cannot be read its number and what is said of it.
    pub(super) fn hold(
        &self,
        shared: &Shared,
        reply: impl Fn(usize, Form) -> Option<String>,
    ) -> Result<(Vec<SheetPart>, Unread), Failure> {
        let (mut parts, mut unread, mut number) = (Vec::new(), Vec::new(), 0);
        for part in &self.parts {
            let exercise = &part.exercise;
            let mut held = exercise.plan.on_paper()?;
            let (items, of_part) = sheet::hold(&mut held, &mut number, &reply);
            let voice = exercise.telling.voice(shared);
            let said = of_part.into_iter();
            unread.extend(said.map(|(number, said)| (number, voice.say(&said).join(" "))));
            parts.push(SheetPart {
                heading: self.heading(part),
                exercise: exercise.plan.exercise(),
                game: exercise.game(),
                voice,
                think: held.rules().think_millis,
                pace: exercise.telling.pace_millis(),
                plies: held.heard(),
                items,
            });
        }
        Ok((parts, unread))
    }

    /// Heads a part, with what is read out before it: before the first also what stands before
    /// the lesson.
    fn heading(&self, of_work: &WorkPart<'_>) -> Option<(String, Vec<String>)> {
        let outline = self.outline.as_ref()?;
        let (part, place) = (&outline.parts[of_work.number - 1], of_work.place);
        let is_first = self.parts[0].place == place;
        let of_lesson = outline.notes.as_deref().filter(|_| is_first);
        let notes = of_lesson.into_iter().chain(part.notes.as_deref());
        let notes = notes.flat_map(words::notes).collect();
        let heading = words::part(place, outline.parts.len(), &part.heading, 1);
        Some((heading, notes))
    }
}
