//! Sentences spoken by the user's own speech command, while the session goes on.

use std::collections::VecDeque;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::speaker::{Speaker, SpeechError, Spoken, hung, run};
use crate::voice::{SpokenLanguage, clean_line};

/// So many times its patience a command may be cut off before it ends its first sentence.
const IN_VAIN: u32 = 3;

/// Speaks sentences one after the other in a thread of its own. Nothing here waits for sound.
#[derive(Debug)]
pub struct Speech {
    sentences: Option<Sender<(u64, String)>>,
    errors: Receiver<SpeechError>,
    shared: Arc<SharedState>,
    worker: Option<JoinHandle<()>>,
}

#[derive(Debug, Default)]
struct SharedState {
    /// Sentences of an earlier generation are not spoken any more.
    generation: AtomicU64,
    /// How many sentences were handed over and are not done.
    waiting: AtomicUsize,
}

impl Speech {
    /// The time that a command usually has for a sentence, beside what its letters take.
    pub const PATIENCE: Duration = Duration::from_secs(10);

    /// Gets ready to speak with this command, the program first, or with a usual one; it has this time for a
    /// sentence, beside what its letters take.
    pub fn new(command: Option<Vec<String>>, patience: Duration) -> Speech {
        let (sentences, heard) = mpsc::channel();
        let (told, errors) = mpsc::channel();
        let shared = Arc::new(SharedState::default());
        let speakers = command.map_or_else(Speaker::usual, |words| [Speaker::new(words)].into());
        let worker = {
            let shared = Arc::clone(&shared);
            thread::spawn(move || work(speakers, patience, &shared, heard, &told))
        };
        Speech {
            sentences: Some(sentences),
            errors,
            shared,
            worker: Some(worker),
        }
    }

    /// Hands a sentence over and returns at once.
    pub fn say(&self, sentence: &str) {
        let sentence = clean_line(sentence);
        if sentence.is_empty() {
            return;
        }
        let generation = self.shared.generation.load(Ordering::SeqCst);
        self.shared.waiting.fetch_add(1, Ordering::SeqCst);
        let sent = (self.sentences.as_ref()).map(|to| to.send((generation, sentence)));
        if !matches!(sent, Some(Ok(()))) {
            self.shared.waiting.store(0, Ordering::SeqCst);
        }
    }

    /// Cuts off what is being spoken, and drops what was to follow.
    pub fn hush(&self) {
        self.shared.generation.fetch_add(1, Ordering::SeqCst);
    }

    /// Tells whether something is still to be heard.
    pub fn is_speaking(&self) -> bool {
        self.shared.waiting.load(Ordering::SeqCst) > 0
    }

    /// Returns, once, why nothing more is spoken, or perhaps not heard.
    pub fn error(&self) -> Option<SpeechError> {
        self.errors.try_recv().ok()
    }
}

impl Drop for Speech {
    fn drop(&mut self) {
        self.hush();
        self.sentences = None;
        if let Some(worker) = self.worker.take() {
            let _ = worker.join();
        }
    }
}

/// Speaks what is heard with the first of the speakers; of several, those are tried in turn until one works.
fn work(
    mut speakers: VecDeque<Speaker>,
    patience: Duration,
    shared: &SharedState,
    heard: Receiver<(u64, String)>,
    told: &Sender<SpeechError>,
) {
    let is_usual = speakers.len() > 1;
    // Whether a sentence ever came to its end, and how long the command was at those that were cut off before.
    let (mut works, mut in_vain) = (false, Duration::ZERO);
    let mut doubted = false;
    for (generation, sentence) in heard {
        let is_stale = || shared.generation.load(Ordering::SeqCst) != generation;
        while !is_stale()
            && let Some(speaker) = speakers.front_mut()
        {
            let begun = Instant::now();
            let spoken = speaker.speak(&sentence, |words, said| {
                run(words, said, patience, is_stale)
            });
            works |= matches!(spoken, Spoken::Done | Spoken::Doubtful(_));
            let error = match spoken {
                Spoken::Done => break,
                Spoken::Doubtful(doubt) => {
                    if !std::mem::replace(&mut doubted, true) {
                        let _ = told.send(doubt);
                    }
                    break;
                }
                Spoken::CutOff => {
                    speaker.silence();
                    in_vain += begun.elapsed();
                    let limit = patience * IN_VAIN;
                    if works || in_vain < limit {
                        break;
                    }
                    // It never came to an end in all the time that the learner left it between replies.
                    hung(speaker.command(SpokenLanguage::English), limit)
                }
                Spoken::Failed(error) => error,
            };
            in_vain = Duration::ZERO;
            speakers.pop_front();
            // A usual command that never worked makes room for the next one.
            if !is_usual || works || speakers.is_empty() {
                speakers.clear();
                let _ = told.send(match error {
                    SpeechError::NotRun { .. } if is_usual => SpeechError::NoCommand,
                    error => error,
                });
            }
        }
        shared.waiting.fetch_sub(1, Ordering::SeqCst);
    }
}
