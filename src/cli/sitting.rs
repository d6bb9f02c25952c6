//! One sitting: the loop between a session, the learner at the terminal, and the journal.

use std::cell::RefCell;
use std::rc::Rc;
use std::thread;
use std::time::Duration;

use super::aloud::Aloud;
use super::failure::Failure;
use crate::learner::{AnswerRecord, EndRecord, GameRef, Held, Record, Stamp, Tail};
use crate::question::{Truth, Verdict};
use crate::session::{Answered, Awaits, Heard, Input, Output, Recital, Session, Show, Shown};
use crate::terminal::{Listener, Manner, Said, SaidLine, Screen, Tone, Way, now};
use crate::voice::{Voice, asides};

/// What a sitting needs beside its session.
pub(super) struct Sitting {
    pub(super) screen: Screen,
    pub(super) listener: Rc<RefCell<Listener>>,
    pub(super) manner: Manner,
    /// What is spoken, and how replies are understood.
    pub(super) aloud: Aloud,
    pub(super) voice: Voice,
    /// The session in the journal, which nobody else goes on with meanwhile.
    pub(super) held: Held,
    /// The exercise's name there.
    pub(super) exercise: &'static str,
    pub(super) game: Option<GameRef>,
    /// The games of an exercise that goes from one to another: each position names its own.
    pub(super) games: Vec<GameRef>,
    /// The time between two readings; without it, Enter goes on.
    pub(super) pace: Option<Duration>,
    /// How many plies stay readable on the screen.
    pub(super) trail: usize,
    /// The position that stays on the screen while plies are read from it.
    pub(super) before_eyes: Option<Output>,
}

impl Sitting {
    /// Holds a session from the outputs that open it to its end.
    pub(super) fn hold(
        mut self,
        session: &mut impl Session,
        opening: Vec<Output>,
    ) -> Result<(), Failure> {
        let mut interrupted = false;
        self.take(session, opening)?;
        while session.awaits() != Awaits::Nothing {
            self.tell_of_speech()?;
            let input = match self.listen(session.awaits())? {
                Said::Interrupt if !interrupted => {
                    interrupted = true;
                    self.aloud.silence();
                    self.aside(asides::INTERRUPTED)?;
                    continue;
                }
                said @ (Said::Interrupt | Said::End) => {
                    interrupted = said == Said::Interrupt;
                    let outputs = session.hear(Input::Stop);
                    self.take(session, outputs)?;
                    break;
                }
                Said::Line(line) => {
                    if line.dropped > 0 {
                        self.aside(asides::CUT_SHORT)?;
                    }
                    self.aloud.interrupt(self.manner.way);
                    self.aloud.understood(Input::read(&line.text, line.millis))
                }
            };
            interrupted = false;
            let outputs = session.hear(input);
            self.take(session, outputs)?;
        }
        if interrupted {
            self.aloud.silence();
        }
        self.tell_of_speech()
    }

    /// Tells, once, why nothing more is spoken.
    fn tell_of_speech(&mut self) -> Result<(), Failure> {
        match self.aloud.trouble() {
            Some(trouble) => Ok(self.screen.say(Tone::Aside, &trouble.to_string())?),
            None => Ok(()),
        }
    }

    fn aside(&mut self, sentence: &str) -> Result<(), Failure> {
        self.aloud.aside(sentence);
        Ok(self.screen.say(Tone::Aside, sentence)?)
    }

    /// Waits for the learner, or for the pace while nothing is asked.
    fn listen(&mut self, awaits: Awaits) -> Result<Said, Failure> {
        if awaits == Awaits::Reply {
            let prompt = self.aloud.reply_prompt(self.voice);
            return Ok(self.listener.borrow_mut().line(&mut self.screen, &prompt)?);
        }
        // The pace is counted from the end of what is spoken.
        if self.pace.is_some()
            && let Some(said) = self
                .aloud
                .wait(&mut self.listener.borrow_mut(), self.manner.way)?
        {
            return Ok(said);
        }
        match (self.manner.way, self.pace) {
            // The lines of a pipe are replies: reading on takes none of them.
            (Way::Piped, pace) => {
                thread::sleep(pace.unwrap_or_default());
                Ok(enter())
            }
            (Way::Edited | Way::Prompted, Some(pace)) => Ok(self
                .listener
                .borrow_mut()
                .pause(pace)?
                .unwrap_or_else(enter)),
            (Way::Edited | Way::Prompted, None) => Ok(self
                .listener
                .borrow_mut()
                .line(&mut self.screen, asides::GO_ON_PROMPT)?),
        }
    }

    /// Takes what the session puts out: what belongs in the journal is on the disk before it is said.
    fn take(&mut self, session: &impl Session, outputs: Vec<Output>) -> Result<(), Failure> {
        let mut stopped = false;
        for output in outputs {
            match &output {
                Output::Answered(answered) => {
                    let (stamp, game) = (self.stamp(), self.game.clone());
                    let answer = AnswerRecord::new(stamp, self.exercise, game, answered);
                    self.keep(Record::Answer(Box::new(answer)))?;
                }
                Output::Stopped => stopped = true,
                // The last word of every session.
                Output::Summary(_)
                | Output::DrillSummary(_)
                | Output::FewSummary(_)
                | Output::AheadSummary(_)
                | Output::MatesSummary(_)
                | Output::Recite(Recital::Summary(_)) => {
                    self.end(session, !stopped)?;
                }
                Output::Shown(shown) => self.turn_to(shown),
                _ => {}
            }
            self.aloud.say(self.voice, &output);
            match &output {
                Output::Heard(heard) if self.can_wipe() => self.show_plies(session, heard)?,
                Output::Board { .. } if self.can_wipe() => {
                    self.say(&output)?;
                    self.wait_and_wipe()?;
                }
                // The board is hidden again before anything else is asked.
                Output::Answered(answered)
                    if shows_the_board(answered)
                        && session.awaits() == Awaits::Reply
                        && self.can_wipe() =>
                {
                    self.say(&output)?;
                    self.wait_and_wipe()?;
                }
                _ => self.say(&output)?,
            }
        }
        Ok(())
    }

    /// Shows plies alone on the screen, with no more before them than the trail allows; and when a
    /// question comes, no more than the trail stays at all.
    fn show_plies(&mut self, session: &impl Session, heard: &Heard) -> Result<(), Failure> {
        self.wipe()?;
        let older = self.trail.saturating_sub(heard.plies.len());
        if older > 0 {
            let trail = session.trail();
            let older = trail.len().saturating_sub(heard.plies.len()).min(older);
            self.say(&Output::Again(trail[..older].to_vec()))?;
        }
        self.say(&Output::Heard(heard.clone()))?;
        if session.awaits() == Awaits::Reply && heard.plies.len() > self.trail {
            self.wait_and_wipe()?;
            let trail = session.trail();
            let stays = &trail[trail.len().saturating_sub(self.trail)..];
            if !stays.is_empty() {
                self.say(&Output::Again(stays.to_vec()))?;
            }
        }
        Ok(())
    }

    /// Turns to another position: what was read before is over, and the answers are about its game.
    fn turn_to(&mut self, shown: &Shown) {
        if let Some(game) = self.games.get(shown.game) {
            self.game = Some(game.clone());
        }
        let stays = shown.show == Show::Diagram;
        self.before_eyes = stays.then(|| Output::Shown(Box::new(shown.clone())));
    }

    /// Wipes the screen, but for the position that stays before the eyes.
    fn wipe(&mut self) -> Result<(), Failure> {
        self.screen.wipe()?;
        match self.before_eyes.clone() {
            Some(position) => self.say(&position),
            None => Ok(()),
        }
    }

    fn can_wipe(&self) -> bool {
        self.manner.wipes && self.manner.way == Way::Edited
    }

    fn wait_and_wipe(&mut self) -> Result<(), Failure> {
        self.listener
            .borrow_mut()
            .line(&mut self.screen, asides::WIPE_PROMPT)?;
        self.aloud.interrupt(self.manner.way);
        self.wipe()
    }

    fn say(&mut self, output: &Output) -> Result<(), Failure> {
        let lines = self.voice.say(output);
        let last = lines.len().saturating_sub(1);
        for (n, line) in lines.iter().enumerate() {
            self.screen.say(tone(output, n == 0, n == last), line)?;
        }
        Ok(())
    }

    fn end(&mut self, session: &impl Session, finished: bool) -> Result<(), Failure> {
        self.keep(Record::End(EndRecord {
            stamp: self.stamp(),
            finished,
            heard: session.heard(),
            looks: session.looks(),
        }))
    }

    /// Writes a record down; it is on the disk when this returns.
    pub(super) fn keep(&mut self, record: Record) -> Result<(), Failure> {
        match self.held.keep(record).map_err(Failure::unusable)? {
            Tail::Whole => Ok(()),
            Tail::Sealed => self.aside(asides::TORN_LINE),
            Tail::Anew => self.aside(asides::WRITTEN_ANEW),
        }
    }

    /// Stamps a record with the present time.
    pub(super) fn stamp(&self) -> Stamp {
        Stamp::new(now(), self.held.session())
    }
}

/// Tells whether the right answer is the whole board, drawn.
fn shows_the_board(answered: &Answered) -> bool {
    matches!(answered.truth, Truth::Placement { .. }) && answered.mark.verdict != Verdict::Right
}

/// Enter alone, said by the clock.
fn enter() -> Said {
    Said::Line(SaidLine {
        text: String::new(),
        dropped: 0,
        millis: 0,
    })
}

/// The tone of one line of an output: questions and verdicts stand out.
fn tone(output: &Output, first: bool, last: bool) -> Tone {
    match output {
        Output::Ask(_) | Output::AskAgain(_) if last => Tone::Question,
        Output::Recite(Recital::Say { .. }) => Tone::Question,
        Output::Answered(answered) if first => match answered.mark.verdict {
            Verdict::Right => Tone::Right,
            Verdict::Part | Verdict::Wrong | Verdict::Pass => Tone::NotRight,
        },
        _ => Tone::Plain,
    }
}
