//! Sentences spoken by the user's own speech command, while the session goes on.

use std::collections::VecDeque;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::speaker::{Speaker, SpeechError, Spoken, run};
use crate::voice::clean_line;

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
    #[must_use]
    pub fn new(command: Option<Vec<String>>, patience: Duration) -> Speech {
        let (sentences, heard) = mpsc::channel();
        let (told, errors) = mpsc::channel();
        let shared = Arc::new(SharedState::default());
        let speakers = command.map_or_else(Speaker::usual, |words| {
            VecDeque::from([Speaker::new(words)])
        });
        let worker = Worker {
            is_usual: speakers.len() > 1,
            speakers,
            patience,
            shared: Arc::clone(&shared),
            works: false,
            in_vain: Duration::ZERO,
            doubted: false,
        };
        Speech {
            sentences: Some(sentences),
            errors,
            shared,
            worker: Some(thread::spawn(move || worker.run(&heard, &told))),
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
    #[must_use]
    pub fn is_speaking(&self) -> bool {
        self.shared.waiting.load(Ordering::SeqCst) > 0
    }

    /// Returns, once, why nothing more is spoken, or perhaps not heard.
    #[must_use]
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

struct Worker {
    /// The command that speaks, and those that may take its place.
    speakers: VecDeque<Speaker>,
    is_usual: bool,
    patience: Duration,
    shared: Arc<SharedState>,
    /// Whether a sentence ever came to its end.
    works: bool,
    /// How long the command was at sentences that were cut off, while none came to its end.
    in_vain: Duration,
    /// Whether it was told that perhaps nothing is heard.
    doubted: bool,
}

impl Worker {
    fn run(mut self, heard: &Receiver<(u64, String)>, told: &Sender<SpeechError>) {
        for (generation, sentence) in heard {
            let shared = Arc::clone(&self.shared);
            let is_stale = || shared.generation.load(Ordering::SeqCst) != generation;
            while !is_stale()
                && let Some(speaker) = self.speakers.front_mut()
            {
                let begun = Instant::now();
                let spoken = speaker.speak(&sentence, |words, said| {
                    run(words, said, self.patience, is_stale)
                });
                let error = match spoken {
                    Spoken::Done => {
                        self.works = true;
                        break;
                    }
                    Spoken::Doubtful(doubt) => {
                        self.works = true;
                        if !std::mem::replace(&mut self.doubted, true) {
                            let _ = told.send(doubt);
                        }
                        break;
                    }
                    Spoken::CutOff => {
                        speaker.silence();
                        self.in_vain += begun.elapsed();
                        let limit = self.patience * IN_VAIN;
                        if self.works || self.in_vain < limit {
                            break;
                        }
                        // It never came to an end in all the time that the learner left it between replies.
                        speaker.hung(limit)
                    }
                    Spoken::Failed(error) => error,
                };
                self.in_vain = Duration::ZERO;
                self.speakers.pop_front();
                // A usual command that never worked makes room for the next one.
                if !self.is_usual || self.works || self.speakers.is_empty() {
                    self.speakers.clear();
                    let _ = told.send(match error {
                        SpeechError::NotRun { .. } if self.is_usual => SpeechError::NoCommand,
                        error => error,
                    });
                }
            }
            shared.waiting.fetch_sub(1, Ordering::SeqCst);
        }
    }
}
