//! A search for mates as the learner sees it: how it goes on, when it is to stop, and what is solved already.

use std::collections::HashSet;
use std::time::{Duration, Instant};

use crate::cli::failure::tell;
use crate::cli::shared::answers;
use crate::exercise::Input;
use crate::learner::Record;
use crate::question::{Kind, Verdict};
use crate::terminal::{Capabilities, Listener, Progress, Said, Way};
use crate::voice::{STOP_SEARCHING, searching};

/// The time that one look at the keyboard takes.
const GLANCE: Duration = Duration::from_millis(1);
/// The time between two looks at the keyboard.
const LISTENING: Duration = Duration::from_millis(50);

/// The positions from which the learner has found the mate before.
pub(crate) fn solved(records: &[Record], exercise: &str) -> HashSet<String> {
    let solved = answers(records).filter(|answer| {
        answer.exercise == exercise && answer.kind == Kind::Mate && answer.verdict == Verdict::Right
    });
    solved
        .filter_map(|answer| answer.position.clone())
        .collect()
}

/// Tells how a long search goes, and hears when it is to stop.
pub(crate) struct Watch<'a> {
    /// Where replies come from; `None` where nothing can be heard.
    listener: Option<&'a mut Listener>,
    manner: Capabilities,
    begun: Instant,
    listened: Instant,
    progress: Progress,
}

impl<'a> Watch<'a> {
    pub(crate) fn new(listener: Option<&'a mut Listener>, manner: Capabilities) -> Watch<'a> {
        let now = Instant::now();
        Watch {
            listener,
            manner,
            begun: now,
            listened: now,
            progress: Progress::begin(),
        }
    }

    pub(crate) fn go_on(&mut self, within: u32, game: usize, positions: usize) -> bool {
        if self.listened.elapsed() < LISTENING {
            return true;
        }
        self.listened = Instant::now();
        if self.progress.is_due() {
            let seconds = self.begun.elapsed().as_secs();
            tell(&searching(within, game, positions, seconds));
            if self.listener.is_some() {
                tell(STOP_SEARCHING);
            }
        }
        !self.is_stopped()
    }

    /// The lines of a pipe are replies, and none of them is taken here.
    fn is_stopped(&mut self) -> bool {
        let Some(listener) = &mut self.listener else {
            return false;
        };
        match self.manner.way {
            Way::Piped => listener.rest(Duration::ZERO).is_some(),
            Way::Edited | Way::Prompted => match listener.pause(GLANCE) {
                Ok(Some(Said::Line(line))) => Input::read(&line.text, 0) == Input::Stop,
                Ok(Some(Said::Interrupt | Said::End)) | Err(_) => true,
                Ok(None) => false,
            },
        }
    }
}
