//! The main job: a game is read aloud, the board hidden, and checkpoints ask.

use std::rc::Rc;

use super::choice::choose;
use super::dice::Dice;
use super::itinerary::{Itinerary, Spot};
use super::output::{Checkpoint, Ending, OfGame, Opening, Told};
use super::past::Past;
use super::round::Questions;
use super::script::{Script, ScriptError};
use super::settings::Settings;
use super::step::{Asking, Exercise, Place, Rules, Step, read_by};
use super::summary::Own;
use crate::game::{GameResult, Line, Tags};
use crate::question::Scene;

/// The reading of a game with its checkpoints.
#[derive(Debug)]
pub struct Replay {
    script: Script,
    settings: Settings,
    tags: Tags,
    result: Option<GameResult>,
    itinerary: Itinerary,
    /// The line that is being read.
    line: Rc<Line>,
    spot: Spot,
    /// How many checkpoints have been opened.
    opened: usize,
    questions: Questions,
}

impl Replay {
    /// Prepares a replay of `script`; the tags are told at the beginning, the result at the end.
    ///
    /// # Errors
    ///
    /// [`ScriptError`] when the script holds a line that cannot be played; scripts from
    /// [`Script::new`] and [`Script::of_line`] never do.
    pub fn new(
        script: Script,
        settings: Settings,
        tags: Tags,
        result: Option<GameResult>,
    ) -> Result<Replay, ScriptError> {
        script.check()?;
        Ok(Replay {
            itinerary: Itinerary::new(&script, &settings.checkpoints),
            line: Rc::new(script.line(script.passages()[0].line)?),
            spot: Spot {
                passage: 0,
                plies: script.passages()[0].from,
            },
            script,
            settings,
            tags,
            result,
            opened: 0,
            questions: Questions::default(),
        })
    }

    fn place(&self) -> Place {
        Place::new(self.line.clone(), self.spot.plies)
    }

    fn passage_end(&self) -> usize {
        self.itinerary
            .passage(self.spot.passage)
            .map_or(self.spot.plies, |passage| passage.to)
    }

    /// The plies at which this passage's next checkpoint stands, if it has one more.
    fn next_checkpoint(&self) -> Option<usize> {
        let next = self.itinerary.checkpoints().get(self.opened)?;
        (next.passage == self.spot.passage).then_some(next.plies)
    }

    /// Chooses the questions of the next checkpoint, which is here.
    fn open_checkpoint(&mut self) {
        let mut dice = Dice::new(self.settings.seed, self.opened as u64);
        self.opened += 1;
        let (kinds, most) = (&self.settings.ask, self.settings.questions);
        let scene = Scene::new(&self.line, self.spot.plies);
        self.questions = Questions::new(choose(scene, kinds, most, &mut dice));
    }

    /// Turns to the next passage: that a sideline begins or ends is told.
    fn next_passage(&mut self) -> Option<Step> {
        let left = self.itinerary.passage(self.spot.passage).copied();
        let number = self.spot.passage + 1;
        let Some(passage) = self.itinerary.passage(number).copied() else {
            let result = self.result;
            return Some(Step::End(Ending::Read(result)));
        };
        self.spot = Spot {
            passage: number,
            plies: passage.from,
        };
        let stays = left.is_some_and(|left| left.line == passage.line);
        if !stays {
            self.line = Rc::new(self.play(passage.line));
        }
        let told = if let Some(parent) = passage.leaves {
            Told::SidelineBegins {
                instead_of: self.play(parent).plies()[passage.from],
                plies: self.line.len() - passage.from,
            }
        } else if stays {
            return None;
        } else {
            Told::SidelineEnds {
                back_after: self.line.plies()[passage.from - 1],
            }
        };
        Some(Step::Tell { told, to: None })
    }

    fn play(&self, line: usize) -> Line {
        self.script
            .line(line)
            .expect("every line was played through when the replay was made")
    }
}

impl Exercise for Replay {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::free(self.settings.trail)
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        let first = self.script.line(0).ok();
        let first = first.as_ref().unwrap_or(&self.line);
        Opening::Replay(OfGame {
            tags: self.tags.clone(),
            start: first.start().clone(),
            first: first.plies().first().map(|ply| ply.number),
            plies: self.itinerary.plies(),
            checkpoints: self.itinerary.checkpoints().len(),
            resumed: again,
        })
    }

    fn next(&mut self, _: &Past) -> Step {
        loop {
            if let Some((question, count)) = self.questions.next() {
                let checkpoint = Checkpoint {
                    number: self.opened,
                    of: self.itinerary.checkpoints().len(),
                };
                let asking = Asking::over(question, self.place(), Some(checkpoint), count);
                return Step::Ask(asking);
            }
            if self.next_checkpoint() == Some(self.spot.plies) {
                self.open_checkpoint();
            } else if self.spot.plies < self.passage_end() {
                let from = self.place();
                let end = self.next_checkpoint().unwrap_or(self.passage_end());
                let read = read_by(self.settings.by, self.line.plies(), from.plies);
                self.spot.plies = read.min(end).min(self.passage_end());
                let to = self.spot.plies;
                return Step::Read { from, to };
            } else if let Some(step) = self.next_passage() {
                return step;
            }
        }
    }

    fn summary(&self, past: &Past) -> Own {
        Own::Replay {
            first_miss: past.first_miss(),
            longest_run: past.longest_run(),
        }
    }
}
