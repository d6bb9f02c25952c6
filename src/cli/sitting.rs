//! One sitting: the loop between a session, the learner at the terminal, and the journal.

mod page;

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use super::aloud::Aloud;
use super::failure::Failure;
use super::something_was_told;
use crate::exercise::{Awaits, Earlier, Ending, Input, Output, Session};
use crate::learner::{AnswerRecord, Appended, EndRecord, GameRef, Record, SessionLock, Stamp};
use crate::question::Verdict;
use crate::terminal::{Capabilities, Listener, Said, SaidLine, Screen, Tone, Way, now};
use crate::voice::{Voice, asides};
pub(super) use page::Page;

/// What a sitting needs beside its session.
pub(super) struct Sitting {
    pub(super) screen: Screen,
    pub(super) listener: Rc<RefCell<Listener>>,
    pub(super) manner: Capabilities,
    /// What is spoken, and how replies are understood.
    pub(super) aloud: Aloud,
    pub(super) voice: Voice,
    /// The session in the journal, which nobody else goes on with meanwhile.
    pub(super) held: SessionLock,
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
    /// Whether the learner leaves.
    pub(super) leaving: bool,
    /// Whether Ctrl-C made an end.
    pub(super) interrupted: bool,
    /// What has come of the learner's last input so far.
    pub(super) page: Page,
}

impl Sitting {
    /// Holds a session from its beginning, or from where an earlier sitting had stopped, to its end. Where the
    /// screen can be wiped, it is held on the alternate screen, and how it went is told on the normal one.
    pub(super) fn hold(
        mut self,
        mut session: Session,
        earlier: Option<Earlier>,
    ) -> Result<(), Failure> {
        let opening = match earlier {
            Some(earlier) => session.resume(earlier),
            None => session.begin(),
        };
        let session = &mut session;
        if self.can_wipe() {
            if something_was_told() {
                self.wait_for_enter(asides::BEGIN_PROMPT)?;
            }
            self.screen.enter()?;
        }
        self.take(session, opening)?;
        while session.awaits() != Awaits::Nothing {
            self.tell_of_speech()?;
            let input = match self.hear(session.awaits())? {
                None => Input::Stop,
                Some(line) => {
                    if line.dropped > 0 {
                        self.aside(asides::CUT_SHORT)?;
                    }
                    self.aloud.interrupt(self.manner.way);
                    self.aloud.understood(Input::read(&line.text, line.millis))
                }
            };
            let outputs = session.hear(input);
            self.take(session, outputs)?;
            if self.page.holds_what_answers(session.awaits()) {
                self.wait_and_wipe()?;
                let question = session.hear(Input::Question);
                self.take(session, question)?;
            }
        }
        self.screen.leave()?;
        if self.interrupted || self.listener.borrow().is_to_end() {
            self.aloud.silence();
        }
        self.tell_of_speech()
    }

    /// Hears the next line; `None` where the learner leaves.
    fn hear(&mut self, awaits: Awaits) -> Result<Option<SaidLine>, Failure> {
        let warning = match awaits {
            Awaits::Reply => asides::INTERRUPTED_QUESTION,
            Awaits::GoOn | Awaits::Nothing => asides::INTERRUPTED,
        };
        if self.leaving {
            return Ok(None);
        }
        self.said(warning, |sitting| sitting.listen(awaits))
    }

    /// Listens until something is said: one Ctrl-C warns, and a second one in a row is leave-taking, as
    /// the end of the input is.
    fn said(
        &mut self,
        warning: &str,
        listen: impl Fn(&mut Self) -> Result<Said, Failure>,
    ) -> Result<Option<SaidLine>, Failure> {
        let mut warned = false;
        loop {
            match listen(self)? {
                Said::Line(line) => {
                    self.screen.note_read();
                    return Ok(Some(line));
                }
                Said::End => return Ok(None),
                Said::Interrupt if warned => {
                    self.interrupted = true;
                    return Ok(None);
                }
                Said::Interrupt => {
                    warned = true;
                    self.aloud.silence();
                    self.aside(warning)?;
                }
            }
        }
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
    pub(super) fn listen(&mut self, awaits: Awaits) -> Result<Said, Failure> {
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
                let rest = self.listener.borrow_mut().rest(pace.unwrap_or_default());
                Ok(rest.unwrap_or_else(enter))
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
    fn take(&mut self, session: &Session, outputs: Vec<Output>) -> Result<(), Failure> {
        self.write_down(session, &outputs)?;
        self.page = Page::default();
        for output in outputs {
            if self.leaving && session.awaits() != Awaits::Nothing {
                return Ok(());
            }
            self.aloud.say(self.voice, &output);
            if self.can_wipe() {
                self.show(session, &output)?;
            } else {
                if let Output::Given(given) = &output {
                    self.turn_to(given);
                }
                self.say(&output)?;
            }
        }
        Ok(())
    }

    /// Writes down what was answered, and that the session is over.
    fn write_down(&mut self, session: &Session, outputs: &[Output]) -> Result<(), Failure> {
        for output in outputs {
            if let Output::Answered(answered) = output {
                let (stamp, game) = (self.stamp(), self.game.clone());
                let answer = AnswerRecord::new(stamp, self.exercise, game, answered);
                self.keep(Record::Answer(Box::new(answer)))?;
            }
        }
        let ending = outputs.iter().find_map(|output| match output {
            Output::Ended(ending) => Some(*ending),
            _ => None,
        });
        if let Some(ending) = ending {
            self.end(session, ending != Ending::Stopped)?;
        }
        Ok(())
    }

    fn say(&mut self, output: &Output) -> Result<(), Failure> {
        let mut lines = self.voice.say(output);
        // A table that is wider than the screen is said in sentences.
        if matches!(output, Output::Summary(_))
            && lines.iter().any(|line| !self.screen.fits_in_columns(line))
        {
            let in_sentences = Voice {
                plain: true,
                ..self.voice
            };
            lines = in_sentences.say(output);
        }
        let last = lines.len().saturating_sub(1);
        for (n, line) in lines.iter().enumerate() {
            if self.screen.is_full_before(line) {
                self.wait_for_enter(asides::MORE_PROMPT)?;
            }
            self.screen.say(tone(output, n == 0, n == last), line)?;
        }
        Ok(())
    }

    fn end(&mut self, session: &Session, finished: bool) -> Result<(), Failure> {
        self.keep(Record::End(EndRecord {
            stamp: self.stamp(),
            finished,
            heard: session.heard(),
            looks: session.looks(),
        }))
    }

    /// Writes a record down; it is on the disk when this returns.
    pub(super) fn keep(&mut self, record: Record) -> Result<(), Failure> {
        match self.held.append(record).map_err(Failure::unusable)? {
            Appended::Plainly => Ok(()),
            Appended::AfterTornLine => self.aside(asides::TORN_LINE),
            Appended::WithLostRecords => self.aside(asides::WRITTEN_ANEW),
        }
    }

    /// Stamps a record with the present time.
    pub(super) fn stamp(&self) -> Stamp {
        Stamp::new(now(), self.held.session())
    }
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
        Output::Answered(answered) if first => match answered.mark.verdict {
            Verdict::Right => Tone::Right,
            Verdict::Part | Verdict::Wrong | Verdict::Pass => Tone::NotRight,
        },
        _ => Tone::Plain,
    }
}
