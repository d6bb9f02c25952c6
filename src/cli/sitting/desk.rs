//! Where a sitting is held: the terminal with its screen and its sound, and the journal.

use std::cell::RefCell;
use std::path::PathBuf;
use std::rc::Rc;
use std::time::Duration;

use shakmaty::Board;

use super::engine::EngineOpponent;
use crate::cli::aloud::Aloud;
use crate::cli::failure::Failure;
use crate::exercise::{Awaits, GivenPosition, Input, Mouth, Output, Session, Show, Uttered};
use crate::learner::{GameRef, Record, SessionLock, Stamp};
use crate::question::{Form, Verdict};
use crate::reply::Unread;
use crate::terminal::{Capabilities, Listener, Said, SaidLine, Screen, Tone, Way, now};
use crate::voice::{Voice, asides, by_mouth, diagram};

/// What a sitting needs beside its session: the terminal, the journal, and how things are said.
pub(crate) struct Desk {
    pub(crate) screen: Screen,
    pub(crate) listener: Rc<RefCell<Listener>>,
    pub(crate) manner: Capabilities,
    /// What is spoken, and how replies are understood.
    pub(crate) aloud: Aloud,
    pub(crate) voice: Voice,
    /// The session in the journal, which nobody else goes on with meanwhile.
    pub(crate) held: SessionLock,
    /// The exercise's name there.
    pub(crate) exercise: &'static str,
    pub(crate) game: Option<GameRef>,
    /// The games of an exercise that goes from one to another: each position names its own.
    pub(crate) games: Vec<GameRef>,
    /// The learner's name.
    pub(crate) learner: String,
    /// The engine that plays against the learner; `None` for the program's own opponent.
    pub(crate) engine: Option<EngineOpponent>,
    /// The file to which games that were played are appended.
    pub(crate) out: Option<PathBuf>,
    /// That games were kept there, to be told at the end.
    pub(crate) kept: Option<String>,
    /// The time between two readings; without it, Enter goes on.
    pub(crate) pace: Option<Duration>,
    /// The position that stays on the screen while plies are read from it.
    pub(crate) before_eyes: Option<Output>,
    /// Whether the learner leaves.
    pub(crate) leaving: bool,
    /// Whether Ctrl-C made an end.
    pub(crate) interrupted: bool,
    /// Whether something stands on the screen that has to be read before it goes.
    pub(crate) unread: bool,
    /// What was heard and is not confirmed yet.
    pub(crate) mouth: Mouth,
    /// The milliseconds that the question has stood which stands now, at prompts that were left without a reply.
    pub(crate) spent: u64,
}

impl Desk {
    /// Hears what the learner says next.
    pub(super) fn hear(&mut self, session: &Session) -> Result<Input, Failure> {
        self.unread = false;
        let awaits = session.awaits();
        let warning = match awaits {
            Awaits::Reply => asides::INTERRUPTED_QUESTION,
            Awaits::GoOn | Awaits::Truth | Awaits::Opponent | Awaits::Nothing => {
                asides::INTERRUPTED
            }
        };
        if self.leaving {
            return Ok(Input::Stop);
        }
        let said = self.said(warning, Some(session), |desk| desk.listen(awaits))?;
        let Some(line) = said else {
            return Ok(Input::Stop);
        };
        if line.dropped > 0 {
            self.aside(asides::CUT_SHORT)?;
        }
        self.aloud.interrupt(self.manner.way);
        let spent = match awaits {
            Awaits::Reply => line.millis.saturating_add(self.spent),
            _ => 0,
        };
        let input = Input::read(&line.text, spent);
        let replies = matches!(input, Input::Reply { .. } | Input::Pass { .. });
        self.spent = if replies { 0 } else { spent };
        Ok(self.aloud.understood(input))
    }

    /// Listens until something is said: one Ctrl-C warns, and a second one in a row is leave-taking, as
    /// the end of the input is. What is heard is said back until it is confirmed.
    fn said(
        &mut self,
        warning: &str,
        session: Option<&Session>,
        listen: impl Fn(&mut Self) -> Result<Said, Failure>,
    ) -> Result<Option<SaidLine>, Failure> {
        let form = session.and_then(Session::form);
        let (mut warned, mut waited, mut uttered) = (false, 0, 0);
        loop {
            let is_asked = self.mouth.takes_silence();
            self.listener.borrow().attend(form, is_asked);
            match listen(self)? {
                Said::Line(line) if line.heard || self.mouth.confirms(&line.text) => {
                    self.aloud.silence();
                    self.tell_of_speech()?;
                    waited += line.millis;
                    let read = |said: &str| session.ok_or(Unread::Nothing)?.in_writing(said);
                    match self.mouth.hear(&line.text, form, read) {
                        Uttered::Nothing => {}
                        Uttered::Line(text) => {
                            self.screen.note_read();
                            let millis = if uttered > 0 { uttered } else { waited };
                            return Ok(Some(SaidLine {
                                text,
                                millis,
                                ..line
                            }));
                        }
                        Uttered::SaidBack(text) => {
                            uttered = waited;
                            self.aside(&by_mouth::said_back(&text))?;
                        }
                        Uttered::TakenBack => self.aside(by_mouth::TAKEN_BACK)?,
                        Uttered::Unread(unread) => {
                            for said in self.voice.say(&Output::Unread {
                                unread,
                                form: form.unwrap_or(Form::Square),
                                kept: false,
                            }) {
                                self.aside(&said)?;
                            }
                        }
                    }
                }
                Said::Line(mut line) => {
                    self.mouth.forget();
                    self.screen.note_read();
                    line.millis += waited;
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

    /// Waits for the learner, or for the pace while nothing is asked.
    pub(super) fn listen(&mut self, awaits: Awaits) -> Result<Said, Failure> {
        let mut listener = self.listener.borrow_mut();
        if awaits == Awaits::Reply {
            let prompt = self.aloud.reply_prompt(self.voice);
            return Ok(listener.line(&mut self.screen, &prompt)?);
        }
        if awaits == Awaits::Truth {
            return Ok(listener.line(&mut self.screen, asides::TRUTH_PROMPT)?);
        }
        // The pace is counted from the end of what is spoken.
        if self.pace.is_some()
            && let Some(said) = self.aloud.wait(&mut listener, self.manner.way)?
        {
            return Ok(said);
        }
        let said = match (self.manner.way, self.pace) {
            // The lines of a pipe are replies: reading on takes none of them.
            (Way::Piped, pace) => listener.rest(pace.unwrap_or_default()),
            (Way::Edited | Way::Prompted, Some(pace)) => listener.pause(pace)?,
            (Way::Edited | Way::Prompted, None) => {
                Some(listener.line(&mut self.screen, asides::GO_ON_PROMPT)?)
            }
        };
        // Where the clock goes on, it is as if Enter alone were typed.
        Ok(said.unwrap_or_else(|| Said::Line(SaidLine::default())))
    }

    pub(super) fn say(&mut self, output: &Output) -> Result<(), Failure> {
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

    pub(super) fn aside(&mut self, sentence: &str) -> Result<(), Failure> {
        self.aloud.aside(sentence);
        Ok(self.screen.say(Tone::Aside, sentence)?)
    }

    /// Tells, once, why nothing more is spoken, and why nothing more is heard.
    pub(super) fn tell_of_speech(&mut self) -> Result<(), Failure> {
        let hearing = self.listener.borrow().hearing_error();
        if let Some(error) = hearing {
            self.aside(&error.to_string())?;
        }
        match self.aloud.trouble() {
            Some(trouble) => Ok(self.screen.say(Tone::Aside, &trouble.to_string())?),
            None => Ok(()),
        }
    }

    /// Writes a record down; it is on the disk when this returns.
    pub(crate) fn keep(&mut self, record: Record) -> Result<(), Failure> {
        let found = asides::appended(self.held.append(record)?);
        found.map_or(Ok(()), |said| self.aside(said))
    }

    /// Stamps a record with the present time.
    pub(crate) fn stamp(&self) -> Stamp {
        Stamp::new(now(), self.held.session())
    }

    pub(super) fn can_wipe(&self) -> bool {
        self.manner.wipes && self.manner.way == Way::Edited
    }

    /// Turns to another position: what was read before is over, and the answers are about its game.
    pub(super) fn turn_to(&mut self, given: &GivenPosition) {
        let game = given.game.and_then(|game| self.games.get(game));
        self.game = game.cloned().or(self.game.take());
        let stays = given.show == Show::Diagram;
        self.before_eyes = stays.then(|| Output::Given(Box::new(given.clone())));
    }

    /// Wipes the screen, but for the position or the empty board that stays before the eyes.
    pub(super) fn wipe(&mut self) -> Result<(), Failure> {
        self.screen.wipe()?;
        if self.voice.empty_board {
            let rows = diagram(&Board::empty(), self.voice.view);
            return Ok(self.screen.say(Tone::Plain, &rows.join("\n"))?);
        }
        match self.before_eyes.clone() {
            Some(position) => self.say(&position),
            None => Ok(()),
        }
    }

    pub(super) fn wait_and_wipe(&mut self) -> Result<(), Failure> {
        self.wait_for_enter(asides::WIPE_PROMPT)?;
        self.wipe()
    }

    /// Leaves the alternate screen, once what stands there has been read.
    pub(super) fn leave(&mut self) -> Result<(), Failure> {
        if self.screen.is_entered() && self.unread {
            self.wait_for_enter(asides::READ_PROMPT)?;
        }
        Ok(self.screen.leave()?)
    }

    /// Waits until the learner has read what stands on the screen, or leaves.
    pub(super) fn wait_for_enter(&mut self, prompt: &str) -> Result<(), Failure> {
        self.wait_for_enter_at(|desk| {
            let mut listener = desk.listener.borrow_mut();
            Ok(listener.line(&mut desk.screen, prompt)?)
        })
    }

    pub(super) fn wait_for_enter_at(
        &mut self,
        listen: impl Fn(&mut Self) -> Result<Said, Failure>,
    ) -> Result<(), Failure> {
        self.unread = false;
        while !self.leaving {
            let said = self.said(asides::INTERRUPTED, None, &listen)?;
            match said.map(|line| Input::read(&line.text, 0)) {
                None | Some(Input::Stop) => self.leaving = true,
                Some(Input::GoOn) => break,
                Some(_) => self.aside(asides::ENTER_WANTED)?,
            }
        }
        self.aloud.interrupt(self.manner.way);
        Ok(())
    }
}

/// The tone of one line of an output: questions and verdicts stand out.
fn tone(output: &Output, first: bool, last: bool) -> Tone {
    match output {
        Output::Ask(_) | Output::AskAgain(_) | Output::AskOpen(_) if last => Tone::Question,
        Output::Answered(answered) if first => match answered.mark.verdict {
            Verdict::Right => Tone::Right,
            Verdict::Part | Verdict::Wrong | Verdict::Pass => Tone::NotRight,
        },
        _ => Tone::Plain,
    }
}
