//! Sentences spoken by the user's own speech command, while the session goes on.

use std::collections::VecDeque;
use std::process::Stdio;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use super::attend::{PATIENCE, Spoken, attend, command};
use crate::voice::clean_line;

/// How the user wants to hear sentences. Options fill it, and whatever else knows the user's habits.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SpeechWish {
    /// Whether sentences are spoken.
    pub speak: bool,
    /// The command that speaks what comes through its standard input: the program and its arguments.
    /// Without it, usual ones are tried.
    pub command: Option<Vec<String>>,
    /// The command that writes what comes through its standard input into a sound file.
    pub file_command: Option<Vec<String>>,
}

/// A command that speaks, and one that silences what it started, where that is needed.
#[derive(Clone, Debug)]
struct Speaker {
    words: Vec<String>,
    silence: Option<Vec<String>>,
}

/// Why nothing more is spoken. It is told once; the session goes on without sound.
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

/// The commands that are tried in turn where the user names none. What `spd-say` speaks goes on in
/// another process, so it is silenced by a command too (its manual page); that `say` reads standard
/// input is from memory.
fn usual() -> VecDeque<Speaker> {
    let words = |words: &[&str]| words.iter().map(ToString::to_string).collect();
    VecDeque::from([
        Speaker {
            words: words(&["spd-say", "--wait", "--pipe-mode"]),
            silence: Some(words(&["spd-say", "--cancel"])),
        },
        Speaker {
            words: words(&["espeak-ng", "--stdin"]),
            silence: None,
        },
        Speaker {
            words: words(&["say"]),
            silence: None,
        },
    ])
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
        let speakers = command.map_or_else(usual, |words| {
            VecDeque::from([Speaker {
                words,
                silence: None,
            }])
        });
        let worker = Worker {
            speakers,
            is_usual,
            patience,
            shared: Arc::clone(&shared),
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

    /// Returns, once, why nothing more is spoken.
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
}

impl Worker {
    fn run(mut self, heard: &Receiver<(u64, String)>, told: &Sender<SpeechTrouble>) {
        let mut works = false;
        for (generation, sentence) in heard {
            while self.is_current(generation)
                && let Some(speaker) = self.speakers.front()
            {
                match self.speak(speaker, &sentence, generation) {
                    Spoken::Done => {
                        works = true;
                        break;
                    }
                    Spoken::CutOff => break,
                    Spoken::Trouble(trouble) => {
                        self.speakers.pop_front();
                        // A usual command that never worked makes room for the next one.
                        let next = self.is_usual && !works && !self.speakers.is_empty();
                        if !next {
                            self.speakers.clear();
                            let _ = told.send(self.final_word(trouble));
                        }
                    }
                }
            }
            self.shared.waiting.fetch_sub(1, Ordering::SeqCst);
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

    fn speak(&self, speaker: &Speaker, sentence: &str, generation: u64) -> Spoken {
        let is_stale = || !self.is_current(generation);
        let spoken = attend(&speaker.words, sentence, self.patience, is_stale);
        if let (Spoken::CutOff, Some(silence)) = (&spoken, &speaker.silence) {
            quietly(silence);
        }
        spoken
    }
}

/// Runs a short command whose result does not matter, and does not wait for it.
fn quietly(words: &[String]) {
    let Ok(mut command) = command(words) else {
        return;
    };
    command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    if let Ok(mut child) = command.spawn() {
        thread::spawn(move || child.wait());
    }
}
