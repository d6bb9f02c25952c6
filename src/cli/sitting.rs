//! One sitting: the loop between a session, the learner at the terminal, and the journal.

use std::time::Duration;

use super::failure::Failure;
use crate::learner::{AnswerRecord, EndRecord, GameRef, Journal, Record, Stamp, Tail};
use crate::session::{Awaits, Input, Output, Replay};
use crate::terminal::{Listener, Said, Screen, now};
use crate::voice::{Voice, asides};

/// What a sitting needs beside its session.
pub(super) struct Sitting<'a> {
    pub(super) screen: Screen,
    pub(super) listener: Listener,
    pub(super) voice: Voice,
    pub(super) journal: &'a Journal,
    /// The session's name in the journal.
    pub(super) session: String,
    pub(super) exercise: &'static str,
    pub(super) game: Option<GameRef>,
    /// The time between two readings; without it, Enter goes on.
    pub(super) pace: Option<Duration>,
    /// How many plies stay readable on the screen.
    pub(super) trail: usize,
}

impl Sitting<'_> {
    /// Holds a session from the outputs that open it to its end, and writes that down.
    pub(super) fn hold(mut self, replay: &mut Replay, opening: Vec<Output>) -> Result<(), Failure> {
        let mut interrupted = false;
        self.say_all(replay, opening)?;
        while replay.awaits() != Awaits::Nothing {
            let input = match self.listen(replay.awaits())? {
                Said::Interrupt if !interrupted => {
                    interrupted = true;
                    self.screen.line(asides::INTERRUPTED)?;
                    continue;
                }
                Said::Interrupt | Said::End => Input::Stop,
                Said::Line { text, millis } => Input::read(&text, millis),
            };
            interrupted = false;
            let outputs = replay.hear(input);
            self.say_all(replay, outputs)?;
        }
        Ok(())
    }

    /// Waits for the learner, or for the pace where nothing is asked.
    fn listen(&mut self, awaits: Awaits) -> Result<Said, Failure> {
        let go_on = || Said::Line {
            text: String::new(),
            millis: 0,
        };
        if awaits == Awaits::Reply {
            return Ok(self.listener.line(asides::REPLY_PROMPT)?);
        }
        if let Some(pace) = self.pace {
            return Ok(self.listener.pause(pace)?.unwrap_or_else(go_on));
        }
        if self.listener.is_interactive() {
            Ok(self.listener.line(asides::GO_ON_PROMPT)?)
        } else {
            Ok(go_on())
        }
    }

    fn say_all(&mut self, replay: &Replay, outputs: Vec<Output>) -> Result<(), Failure> {
        for output in outputs {
            match &output {
                Output::Answered(answered) => {
                    let answer =
                        AnswerRecord::new(self.stamp(), self.exercise, self.game.clone(), answered);
                    self.keep(&Record::Answer(Box::new(answer)))?;
                }
                Output::Finished { .. } | Output::Stopped => {
                    let end = EndRecord {
                        stamp: self.stamp(),
                        finished: matches!(output, Output::Finished { .. }),
                        heard: replay.heard(),
                        looks: replay.looks(),
                    };
                    self.keep(&Record::End(end))?;
                }
                _ => {}
            }
            self.show(replay, &output)?;
        }
        Ok(())
    }

    /// Says an output; on a screen that can be wiped, what is older than the trail goes first.
    fn show(&mut self, replay: &Replay, output: &Output) -> Result<(), Failure> {
        match output {
            Output::Heard(heard) if self.screen.can_wipe() => {
                self.screen.wipe()?;
                let older = replay.trail().len().saturating_sub(heard.plies.len());
                if older > 0 {
                    let trail = replay.trail()[..older].to_vec();
                    self.say(&self.voice.say(&Output::Again(trail)))?;
                }
                self.say(&self.voice.say(output))?;
                if replay.awaits() == Awaits::Reply && heard.plies.len() > self.trail {
                    self.listener.line(asides::WIPE_PROMPT)?;
                    self.screen.wipe()?;
                    self.say(&self.voice.say(&Output::Again(replay.trail().to_vec())))?;
                }
                Ok(())
            }
            Output::Board { .. } if self.screen.can_wipe() => {
                self.say(&self.voice.say(output))?;
                self.listener.line(asides::WIPE_PROMPT)?;
                self.screen.wipe()?;
                Ok(())
            }
            _ => self.say(&self.voice.say(output)),
        }
    }

    fn say(&mut self, lines: &[String]) -> Result<(), Failure> {
        for line in lines {
            self.screen.line(line)?;
        }
        Ok(())
    }

    /// Writes a record down; it is on the disk when this returns.
    pub(super) fn keep(&mut self, record: &Record) -> Result<(), Failure> {
        match self.journal.append(record).map_err(Failure::unusable)? {
            Tail::Whole => {}
            Tail::Sealed => self.screen.line(asides::TORN_LINE)?,
        }
        Ok(())
    }

    pub(super) fn stamp(&self) -> Stamp {
        Stamp::new(now(), self.session.clone())
    }
}
