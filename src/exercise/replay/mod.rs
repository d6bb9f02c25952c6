//! The main job: a game is read aloud, the board hidden, and checkpoints ask.

mod hear;
mod resume;

use shakmaty::{Chess, Position};

use crate::game::{GameResult, Line, Ply, Tags};
use crate::question::{Form, LineQuestion, Scene};

use super::choice::choose;
use super::chronicle::Chronicle;
use super::dice::Dice;
use super::itinerary::{Itinerary, Spot};
use super::output::{Answered, Ask, Asked, Checkpoint, Heard, Opening, Output, Stand};
use super::posed::{self, Effort, Posed};
use super::round::Round;
use super::script::{Script, ScriptError};
use super::settings::{By, Settings};
use super::summary::Past;
use super::{Session, ThinkTimes};

pub use resume::Progress;

/// A replay in progress.
///
/// It is driven by [`Replay::begin`] or [`Replay::resume`] once, and then by [`Session::hear`] for as
/// long as [`Session::awaits`] says that it awaits something.
#[derive(Debug)]
pub struct Replay {
    script: Script,
    settings: Settings,
    tags: Tags,
    result: Option<GameResult>,
    itinerary: Itinerary,
    /// The line that is being read.
    line: Line,
    spot: Spot,
    /// How many checkpoints have been opened.
    opened: usize,
    round: Option<Round>,
    chronicle: Chronicle,
    think: ThinkTimes,
    over: bool,
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
            line: script.line(script.passages()[0].line)?,
            spot: Spot {
                passage: 0,
                plies: script.passages()[0].from,
            },
            script,
            settings,
            tags,
            result,
            opened: 0,
            round: None,
            chronicle: Chronicle::default(),
            think: ThinkTimes::default(),
            over: false,
        })
    }

    /// Takes the think times of kinds that stand where the settings have none.
    #[must_use]
    pub fn with_think_times(mut self, think: ThinkTimes) -> Replay {
        self.think = think;
        self
    }

    /// Begins: tells what will be read, and asks at once where that is no ply.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(false)];
        if self.itinerary.plies() == 0 {
            self.arrive(&mut outputs);
        }
        outputs
    }

    fn scene(&self) -> Scene<'_> {
        Scene::new(&self.line, self.spot.plies)
    }

    fn opening(&self, resumed: bool) -> Output {
        Output::Opening(Box::new(Opening {
            tags: self.tags.clone(),
            start: self.line.start().clone(),
            first: self.line.plies().first().map(|ply| ply.number),
            plies: self.itinerary.plies(),
            checkpoints: self.itinerary.checkpoints().len(),
            resumed,
        }))
    }

    /// Reads on: one ply, one move or all up to the next checkpoint, but never past the end of a
    /// passage.
    fn go_on(&mut self, outputs: &mut Vec<Output>) {
        if let Some(form) = self.form() {
            outputs.push(Output::ReplyWanted(form));
            return;
        }
        let end = self.passage_end();
        let next_stop = self.next_checkpoint().unwrap_or(end);
        let first = self.spot.plies;
        let last = match self.settings.by {
            By::Ply => first + 1,
            By::Move => first + 1 + usize::from(self.line.plies()[first].side().is_white()),
            By::Checkpoint => end,
        };
        self.spot.plies = last.min(end).min(next_stop);
        outputs.push(Output::Heard(Heard {
            plies: self.line.plies()[first..self.spot.plies].to_vec(),
            stalemate: self.scene().position().is_stalemate(),
        }));
        self.arrive(outputs);
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

    /// Sees what there is to do at this spot: ask, change the passage, or end.
    fn arrive(&mut self, outputs: &mut Vec<Output>) {
        if self.next_checkpoint() == Some(self.spot.plies) {
            let questions = self.open_checkpoint();
            if !questions.is_empty() {
                self.round = Some(Round::new(questions, 0));
                outputs.extend(self.ask().map(Output::Ask));
                return;
            }
        }
        if self.spot.plies == self.passage_end() {
            self.next_passage(outputs);
        }
    }

    /// Chooses the questions of the next checkpoint, which is here.
    fn open_checkpoint(&mut self) -> Vec<LineQuestion> {
        let number = self.opened;
        self.opened += 1;
        self.questions(self.scene(), number)
    }

    fn questions(&self, scene: Scene<'_>, checkpoint: usize) -> Vec<LineQuestion> {
        let mut dice = Dice::new(self.settings.seed, checkpoint as u64);
        choose(
            scene,
            &self.settings.ask,
            self.settings.questions,
            &mut dice,
        )
    }

    /// Counts the questions that the checkpoint at the end of a line alone has.
    pub(super) fn questions_at_end(&self) -> usize {
        self.questions(Scene::new(&self.line, self.line.len()), 0)
            .len()
    }

    /// Returns all plies heard of the line that is being read.
    pub(super) fn all_heard(&self) -> &[Ply] {
        &self.line.plies()[..self.spot.plies]
    }

    /// Returns the position after the plies heard.
    pub(super) fn position(&self) -> &Chess {
        self.scene().position()
    }

    fn next_passage(&mut self, outputs: &mut Vec<Output>) {
        let left = self
            .itinerary
            .passage(self.spot.passage)
            .map(|passage| passage.line);
        let number = self.spot.passage + 1;
        let Some(passage) = self.itinerary.passage(number).copied() else {
            let result = self.result;
            self.finish(Output::Finished { result }, outputs);
            return;
        };
        self.go_to(Spot {
            passage: number,
            plies: passage.from,
        });
        if let Some(parent) = passage.leaves {
            outputs.push(Output::SidelineBegins {
                instead_of: self.play(parent).plies()[passage.from],
                plies: self.line.len() - passage.from,
            });
        } else if left != Some(passage.line) {
            outputs.push(Output::SidelineEnds {
                back_after: self.line.plies()[passage.from - 1],
            });
        }
    }

    fn play(&self, line: usize) -> Line {
        self.script
            .line(line)
            .expect("every line was played through when the replay was made")
    }

    fn go_to(&mut self, spot: Spot) {
        let line = |number| self.itinerary.passage(number).map(|passage| passage.line);
        if line(spot.passage) != line(self.spot.passage)
            && let Some(number) = line(spot.passage)
        {
            self.line = self.play(number);
        }
        self.spot = spot;
    }

    /// The question that stands, in its scene.
    fn posed(&self) -> Option<(LineQuestion, Scene<'_>)> {
        let question = self.round.as_ref()?.standing()?;
        Some((question, self.scene()))
    }

    fn form(&self) -> Option<Form> {
        self.posed().map(|posed| posed.form())
    }

    fn ask(&self) -> Option<Ask> {
        let posed = self.posed()?;
        let (number, of) = self.round.as_ref()?.count();
        let man = match posed.0 {
            LineQuestion::Whereabouts(question) => self.line.roster().man(question.man),
            _ => None,
        };
        let stand = Stand {
            checkpoint: Some(Checkpoint {
                number: self.opened,
                of: self.itinerary.checkpoints().len(),
            }),
            turn: self.scene().position().turn(),
            man: man.map(|man| man.piece),
            chess960: self.line.start().mode().is_chess960(),
        };
        Some(Ask {
            asked: Asked::Line(posed.0, stand),
            number,
            of,
            form: posed.form(),
        })
    }

    fn reply(&mut self, text: &str, millis: u64, outputs: &mut Vec<Output>) {
        let effort = self.effort(millis);
        match self.posed().map(|posed| posed::reply(&posed, text, effort)) {
            None => outputs.push(Output::NothingAsked {
                text: text.to_owned(),
            }),
            Some(Err(unread)) => outputs.push(unread),
            Some(Ok(answered)) => self.answered(answered, outputs),
        }
    }

    fn pass(&mut self, millis: u64, outputs: &mut Vec<Output>) {
        let effort = self.effort(millis);
        match self.posed().map(|posed| posed::pass(&posed, effort)) {
            None => outputs.push(Output::NothingAsked {
                text: "pass".to_owned(),
            }),
            Some(answered) => self.answered(answered, outputs),
        }
    }

    fn effort(&self, millis: u64) -> Effort {
        Effort {
            millis,
            late: self.think_millis().is_some_and(|think| millis > think),
            looks: self.chronicle.new_looks(),
            seen_ago: self.seen_ago(),
        }
    }

    /// The think time of the question that stands.
    fn think_millis(&self) -> Option<u64> {
        let standing = self.round.as_ref().and_then(Round::standing);
        let wished = standing.and_then(|question| self.think.of(question.kind()));
        self.settings.think_millis.or(wished)
    }

    /// The plies since the board was last seen: without a look, all of the line, whose start is known.
    fn seen_ago(&self) -> usize {
        self.chronicle
            .seen_at()
            .map_or(self.spot.plies, |heard| self.heard().saturating_sub(heard))
    }

    /// Notes that the board was seen after `heard` plies, before this replay took over.
    pub(super) fn seen_before(&mut self, heard: usize) {
        self.chronicle.see(heard);
    }

    /// Returns after how many plies the board was last seen; `None` where it never was.
    pub(super) fn seen_at(&self) -> Option<usize> {
        self.chronicle.seen_at()
    }

    fn answered(&mut self, answered: Answered, outputs: &mut Vec<Output>) {
        self.note(Past::from(&answered));
        outputs.push(Output::Answered(Box::new(answered)));
        if let Some(round) = &mut self.round {
            round.go_on();
        }
        if let Some(ask) = self.ask() {
            outputs.push(Output::Ask(ask));
        } else {
            self.round = None;
            self.arrive(outputs);
        }
    }

    fn note(&mut self, past: Past) {
        let last = self.all_heard().last().map(|ply| ply.number);
        self.chronicle.answer(past, self.heard(), last);
    }

    /// How many looks may still be taken; `None` for any number.
    fn looks_left(&self) -> Option<u32> {
        let left = |looks: u32| looks.saturating_sub(self.looks());
        self.settings.looks.map(left)
    }

    fn look(&mut self) -> Output {
        let left = self.looks_left();
        if left == Some(0) {
            return Output::NoLookLeft;
        }
        self.chronicle.look(self.heard());
        let position = self.scene().position();
        Output::Board {
            board: position.board().clone(),
            turn: position.turn(),
            looks_left: left.map(|left| left - 1),
        }
    }

    fn finish(&mut self, last_word: Output, outputs: &mut Vec<Output>) {
        self.over = true;
        let finished = last_word.is_end();
        outputs.push(last_word);
        let position = finished.then(|| self.position());
        let summary = self.chronicle.summary(self.heard(), position);
        outputs.push(Output::Summary(Box::new(summary)));
    }
}
