//! A sitting by ear: what is spoken, and how replies are understood.

use std::borrow::Cow;
use std::cell::RefCell;
use std::rc::Rc;
use std::thread;
use std::time::Duration;

use super::failure::{Failure, note_told};
use crate::exercise::{Input, Mouth, Output, Uttered};
use crate::question::Form;
use crate::reply::Unread;
use crate::rules::Language;
use crate::terminal::{Listener, Said, SaidLine, Screen, Speech, SpeechError, Tone, Way};
use crate::voice::{Voice, asides, by_mouth, for_the_ear};

/// What a sitting needs for the ear.
pub(super) struct Aloud {
    speech: Option<Rc<Speech>>,
    language: Option<Language>,
    /// The question that was put last: the form of its reply, its number, and how many there are.
    asked: Option<(Form, usize, usize)>,
}

/// How long the keyboard is waited for between two looks at the speech.
const GLANCE: Duration = Duration::from_millis(20);

impl Aloud {
    /// Gets ready for a sitting with replies whose piece letters are of this language.
    pub(super) const fn new(speech: Option<Rc<Speech>>, language: Option<Language>) -> Aloud {
        Aloud {
            speech,
            language,
            asked: None,
        }
    }

    /// Speaks what a session says.
    pub(super) fn say(&mut self, voice: Voice, output: &Output) {
        if let Output::AskOpen(_) = output {
            self.asked = None;
        }
        if let Output::Ask(ask) | Output::AskAgain(ask) = output {
            self.asked = Some((ask.form, ask.number, ask.of));
        }
        if let Some(speech) = &self.speech {
            for sentence in voice.for_the_ear(output) {
                speech.say(&sentence);
            }
        }
    }

    /// Speaks what is said beside the session.
    pub(super) fn aside(&self, sentence: &str) {
        if let Some(speech) = &self.speech {
            speech.say(&for_the_ear(sentence));
        }
    }

    /// Cuts off what is spoken, because the learner goes on. The lines of a pipe are no sign of that.
    pub(super) fn interrupt(&self, way: Way) {
        if way != Way::Piped {
            self.silence();
        }
    }

    /// Returns, once, why nothing more is spoken.
    pub(super) fn trouble(&self) -> Option<SpeechError> {
        self.speech.as_ref().and_then(|speech| speech.error())
    }

    /// Silences all, whoever listens: the learner leaves.
    pub(super) fn silence(&self) {
        if let Some(speech) = &self.speech {
            speech.hush();
        }
    }

    /// Waits until all is spoken; whoever types meanwhile has heard enough, and what was typed is
    /// returned.
    pub(super) fn wait(&self, listener: &mut Listener, way: Way) -> Result<Option<Said>, Failure> {
        let Some(speech) = &self.speech else {
            return Ok(None);
        };
        while speech.is_speaking() {
            if let Some(said) = glance(Some(&mut *listener), way)? {
                speech.hush();
                return Ok(Some(said));
            }
        }
        Ok(None)
    }

    /// Brings the piece letters of a reply into those in which replies are read and kept.
    pub(super) fn understood(&self, input: Input) -> Input {
        match (input, self.language) {
            (Input::Reply { text, millis }, Some(language)) => Input::Reply {
                text: match self.asked {
                    Some((form, ..)) => form.in_english(&text, language),
                    None => language.moves_to_english(&text),
                },
                millis,
            },
            (input, _) => input,
        }
    }

    /// The prompt while a question stands; where all is plain, it tells which question that is.
    pub(super) fn reply_prompt(&self, voice: Voice) -> Cow<'static, str> {
        match self.asked {
            Some((_, number, of)) if voice.plain && of > 1 => {
                asides::numbered_prompt(number, of).into()
            }
            Some(_) | None => asides::REPLY_PROMPT.into(),
        }
    }
}

/// Says what stands beside the sittings, to the eye and to the ear.
pub(super) struct Announcer {
    pub(super) screen: Screen,
    pub(super) aloud: Aloud,
}

impl Announcer {
    /// Says a sentence.
    pub(super) fn say(&mut self, tone: Tone, sentence: &str) -> Result<(), Failure> {
        note_told();
        self.aloud.aside(sentence);
        Ok(self.screen.say(tone, sentence)?)
    }

    /// Waits for the next thing said at a prompt. What is heard counts once it is confirmed, where it is a word of
    /// the prompt or one of these.
    pub(super) fn line(
        &mut self,
        listener: &RefCell<Listener>,
        prompt: &str,
        words: &[&str],
    ) -> Result<Said, Failure> {
        let mut mouth = Mouth::default();
        listener.borrow().attend(None, false);
        loop {
            let line = match listener.borrow_mut().line(&mut self.screen, prompt)? {
                Said::Line(line) if line.heard || mouth.confirms(&line.text) => line,
                said => return Ok(said),
            };
            self.aloud.silence();
            let error = listener.borrow().hearing_error();
            if let Some(error) = error {
                self.say(Tone::Aside, &error.to_string())?;
            }
            let is_known = |said: &str| words.contains(&said).then(|| said.to_owned());
            match mouth.hear(&line.text, None, |said| {
                is_known(said).ok_or(Unread::Nothing)
            }) {
                Uttered::Line(text) => return Ok(Said::Line(SaidLine { text, ..line })),
                Uttered::SaidBack(text) => self.say(Tone::Aside, &by_mouth::said_back(&text))?,
                Uttered::TakenBack => self.say(Tone::Aside, by_mouth::TAKEN_BACK)?,
                Uttered::Nothing | Uttered::Unread(_) => {}
            }
        }
    }
}

/// Waits at the very end until all is spoken. A line or Ctrl-C cuts it off; that the input has ended
/// does not.
pub(super) fn hear_out(
    speech: &Speech,
    listener: Option<&Rc<RefCell<Listener>>>,
    way: Way,
) -> Result<(), Failure> {
    let mut ended = false;
    while speech.is_speaking() {
        let mut listener = listener.map(|listener| listener.borrow_mut());
        let way = if ended { Way::Piped } else { way };
        match glance(listener.as_deref_mut(), way)? {
            None => {}
            Some(Said::End) => ended = true,
            Some(Said::Line(_) | Said::Interrupt) => speech.hush(),
        }
    }
    Ok(())
}

/// Waits a moment for the learner. The lines of a pipe are left for their questions.
fn glance(listener: Option<&mut Listener>, way: Way) -> Result<Option<Said>, Failure> {
    match (listener, way) {
        (Some(listener), Way::Edited | Way::Prompted) => Ok(listener.pause(GLANCE)?),
        (Some(listener), Way::Piped) => Ok(listener.rest(GLANCE)),
        (None, _) => {
            thread::sleep(GLANCE);
            Ok(None)
        }
    }
}
