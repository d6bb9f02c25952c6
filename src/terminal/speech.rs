//! Sentences spoken by the user's own speech command, while the session goes on.

use std::collections::VecDeque;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::attend::{PATIENCE, Spoken, attend};
use super::speaker::Speaker;
use crate::voice::{SpokenLanguage, clean_line};

/// Why nothing more is spoken, or perhaps not heard. It is told once; the session goes on.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SpeechTrouble {
    /// None of the usual commands is there.
    #[error(
        "Nothing is spoken: no speech command is installed. Install espeak-ng or speech-dispatcher, or \
         name another command with --speech."
    )]
    NoCommand,
    /// The user's command cannot be run.
    #[error("Nothing is spoken: {command} cannot be run ({reason}). See what --speech names.")]
    NotRun {
        /// The command.
        command: String,
        /// What the system says.
        reason: String,
    },
    /// The command ended with an error.
    #[error("Nothing more is spoken: {command} failed ({reason}). Try the command alone.")]
    Failed {
        /// The command.
        command: String,
        /// How it ended, and its own words.
        reason: String,
    },
    /// The command does not end.
    #[error(
        "Nothing more is spoken: {command} did not end in {seconds} seconds. Try the command alone."
    )]
    Hung {
        /// The command.
        command: String,
        /// How long it was waited for.
        seconds: u64,
    },
    /// The command ends well, but at once, and complains: as where there is no sound device.
    #[error(
        "Perhaps nothing is heard: {command} ended at once and wrote \"{words}\". See whether there is \
         a sound device."
    )]
    Unheard {
        /// The command.
        command: String,
        /// The first line that it wrote.
        words: String,
    },
    /// The command writes without end.
    #[error("Nothing more is spoken: {command} writes without end. Try the command alone.")]
    Flooded {
        /// The command.
        command: String,
    },
}

/// Speaks sentences one after the other in a thread of its own. Nothing here waits for sound.
#[derive(Debug)]
pub struct Speech {
    sentences: Option<Sender<(u64, String)>>,
    trouble: Receiver<SpeechTrouble>,
    shared: Arc<SharedState>,
    worker: Option<JoinHandle<()>>,
}

#[derive(Debug, Default)]
struct SharedState {
    /// Sentences of an earlier generation are not spoken any more.
    generation: AtomicU64,
    /// How many sentences were handed over and are not done.
    waiting: AtomicUsize,
    closing: AtomicBool,
}

impl Speech {
    /// Gets ready to speak with this command, the program first, or with a usual one.
    #[must_use]
    pub fn new(command: Option<Vec<String>>) -> Speech {
        Speech::with_patience(command, PATIENCE)
    }

    /// The same with another time that a command has for a sentence, beside what its letters take.
    #[must_use]
    pub fn with_patience(command: Option<Vec<String>>, patience: Duration) -> Speech {
        let (sentences, heard) = mpsc::channel();
        let (told, trouble) = mpsc::channel();
        let shared = Arc::new(SharedState::default());
        let is_usual = command.is_none();
        let speakers = command.map_or_else(Speaker::usual, |words| {
            VecDeque::from([Speaker::new(words)])
        });
        let worker = Worker {
            speakers,
            is_usual,
            patience,
            shared: Arc::clone(&shared),
            works: false,
            in_vain: Duration::ZERO,
            doubted: false,
        };
        Speech {
            sentences: Some(sentences),
            trouble,
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
        let gone = match &self.sentences {
            Some(sentences) => sentences.send((generation, sentence)).is_err(),
            None => true,
        };
        if gone {
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
    pub fn trouble(&self) -> Option<SpeechTrouble> {
        self.trouble.try_recv().ok()
    }
}

impl Drop for Speech {
    fn drop(&mut self) {
        self.shared.closing.store(true, Ordering::SeqCst);
        self.hush();
        self.sentences = None;
        if let Some(worker) = self.worker.take() {
            let _ = worker.join();
        }
    }
}

struct Worker {
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

/// So many times its patience a command may be cut off before it ends its first sentence.
const IN_VAIN: u32 = 3;

impl Worker {
    fn run(mut self, heard: &Receiver<(u64, String)>, told: &Sender<SpeechTrouble>) {
        for (generation, sentence) in heard {
            while self.is_current(generation)
                && let Some(mut speaker) = self.speakers.pop_front()
            {
                let begun = Instant::now();
                let spoken = self.speak(&mut speaker, &sentence, generation);
                match self.judged(spoken, &speaker, begun.elapsed()) {
                    done @ (Spoken::Done | Spoken::Doubtful(_)) => {
                        self.works = true;
                        if let (Spoken::Doubtful(doubt), false) = (done, self.doubted) {
                            self.doubted = true;
                            let _ = told.send(doubt);
                        }
                        self.speakers.push_front(speaker);
                        break;
                    }
                    Spoken::CutOff => {
                        self.speakers.push_front(speaker);
                        break;
                    }
                    Spoken::Trouble(trouble) => {
                        // A usual command that never worked makes room for the next one.
                        let next = self.is_usual && !self.works && !self.speakers.is_empty();
                        if !next {
                            self.speakers.clear();
                            let _ = told.send(self.final_word(trouble));
                        }
                        self.in_vain = Duration::ZERO;
                    }
                }
            }
            self.shared.waiting.fetch_sub(1, Ordering::SeqCst);
        }
    }

    /// Takes a command for one that hangs if it never came to an end in all the time that the learner
    /// left it between replies.
    fn judged(&mut self, spoken: Spoken, speaker: &Speaker, took: Duration) -> Spoken {
        match spoken {
            Spoken::CutOff if !self.works => {
                self.in_vain += took;
                let limit = self.patience * IN_VAIN;
                if self.in_vain < limit {
                    return Spoken::CutOff;
                }
                let seconds = limit.as_secs();
                let command = speaker.name();
                Spoken::Trouble(SpeechTrouble::Hung { command, seconds })
            }
            spoken => spoken,
        }
    }

    fn final_word(&self, trouble: SpeechTrouble) -> SpeechTrouble {
        match trouble {
            SpeechTrouble::NotRun { .. } if self.is_usual => SpeechTrouble::NoCommand,
            other => other,
        }
    }

    fn is_current(&self, generation: u64) -> bool {
        self.shared.generation.load(Ordering::SeqCst) == generation
    }

    fn speak(&self, speaker: &mut Speaker, sentence: &str, generation: u64) -> Spoken {
        let is_stale = || !self.is_current(generation);
        let mut whole = Spoken::Done;
        for (spoken_language, said) in speaker.parts(sentence) {
            let attend = |speaker: &Speaker| {
                attend(
                    speaker.words(spoken_language),
                    &said,
                    self.patience,
                    is_stale,
                )
            };
            let mut spoken = attend(speaker);
            // No German voice is no reason to fall silent.
            if let (SpokenLanguage::German, Spoken::Trouble(_)) = (spoken_language, &spoken)
                && speaker.forget_german()
            {
                spoken = attend(speaker);
            }
            match spoken {
                Spoken::Done => {}
                doubtful @ Spoken::Doubtful(_) => whole = doubtful,
                Spoken::CutOff => {
                    speaker.silence();
                    return Spoken::CutOff;
                }
                Spoken::Trouble(trouble) => return Spoken::Trouble(trouble),
            }
        }
        whole
    }
}
