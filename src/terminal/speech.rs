//! Sentences spoken by the user's own speech command, while the session goes on.

use std::collections::VecDeque;
use std::io::{self, PipeReader, Read, Write};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{self, Receiver, Sender};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use crate::voice::{clean_line, clean_name};

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

/// How often a speaking command is looked at.
const GLANCE: Duration = Duration::from_millis(5);
/// A command may write so many bytes beside speaking.
const FLOOD: usize = 64 * 1024;
/// So many bytes of what it writes are kept, for its error.
const WORDS_KEPT: usize = 400;
/// A sentence takes no longer than this and so much for each letter: five times what the slowest
/// voice needs.
pub(super) const PATIENCE: Duration = Duration::from_secs(10);
const PATIENCE_PER_LETTER: Duration = Duration::from_millis(500);

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

/// How the speaking of one sentence ended.
pub(super) enum Spoken {
    Done,
    CutOff,
    Trouble(SpeechTrouble),
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

/// Runs a command with a sentence on its standard input, until it ends, is to stop, or does not behave.
pub(super) fn attend(
    words: &[String],
    sentence: &str,
    patience: Duration,
    is_to_stop: impl Fn() -> bool,
) -> Spoken {
    let command = named(words);
    let failed = |command: String, reason: String| {
        Spoken::Trouble(SpeechTrouble::Failed { command, reason })
    };
    let (mut child, ear) = match start(words) {
        Ok(started) => started,
        Err(error) => {
            let reason = error.to_string();
            return Spoken::Trouble(SpeechTrouble::NotRun { command, reason });
        }
    };
    if let Some(mut input) = child.stdin.take() {
        // A command may end without reading all; how it ends tells whether that was right.
        let _ = input.write_all(format!("{sentence}\n").as_bytes());
    }
    let letters = u32::try_from(sentence.chars().count()).unwrap_or(u32::MAX);
    let limit = patience + PATIENCE_PER_LETTER.saturating_mul(letters);
    let begun = Instant::now();
    loop {
        let ended = child.try_wait();
        if ear.flooded.load(Ordering::SeqCst) {
            end(&mut child);
            return Spoken::Trouble(SpeechTrouble::Flooded { command });
        }
        match ended {
            Ok(None) => {}
            Ok(Some(status)) if status.success() => return Spoken::Done,
            Ok(Some(status)) => return failed(command, ear.reason(status)),
            Err(error) => return failed(command, error.to_string()),
        }
        if is_to_stop() {
            end(&mut child);
            return Spoken::CutOff;
        }
        if begun.elapsed() > limit {
            end(&mut child);
            let seconds = limit.as_secs();
            return Spoken::Trouble(SpeechTrouble::Hung { command, seconds });
        }
        thread::sleep(GLANCE);
    }
}

/// What a command writes beside speaking.
struct Ear {
    words: Arc<Mutex<Vec<u8>>>,
    flooded: Arc<AtomicBool>,
    listening: JoinHandle<()>,
}

impl Ear {
    fn listen(mut pipe: PipeReader) -> Ear {
        let words = Arc::new(Mutex::new(Vec::new()));
        let flooded = Arc::new(AtomicBool::new(false));
        let (kept, too_much) = (Arc::clone(&words), Arc::clone(&flooded));
        let listening = thread::spawn(move || {
            let mut all = 0;
            let mut buffer = [0; 4096];
            while let Ok(read @ 1..) = pipe.read(&mut buffer) {
                all += read;
                if all > FLOOD {
                    too_much.store(true, Ordering::SeqCst);
                    return;
                }
                if let Ok(mut kept) = kept.lock() {
                    let room = WORDS_KEPT.saturating_sub(kept.len()).min(read);
                    kept.extend_from_slice(&buffer[..room]);
                }
            }
        });
        Ear {
            words,
            flooded,
            listening,
        }
    }

    /// Says how a command ended, in its own words where it left some.
    fn reason(&self, status: ExitStatus) -> String {
        // Another process may hold the pipe open for good: its end is not waited for.
        for _ in 0..10 {
            if self.listening.is_finished() {
                break;
            }
            thread::sleep(GLANCE);
        }
        let words = match self.words.lock() {
            Ok(words) => clean_name(&String::from_utf8_lossy(&words)),
            Err(_) => String::new(),
        };
        if words.is_empty() {
            status.to_string()
        } else {
            format!("{status}: {}", words.trim_end_matches(['.', '!']))
        }
    }
}

fn named(words: &[String]) -> String {
    clean_name(words.first().map_or("", String::as_str))
}

/// Starts a command whose output goes to our ear alone.
fn start(words: &[String]) -> io::Result<(Child, Ear)> {
    let (reader, writer) = io::pipe()?;
    let mut command = command(words)?;
    command
        .stdin(Stdio::piped())
        .stdout(writer.try_clone()?)
        .stderr(writer);
    let child = command.spawn()?;
    // Our own ends of the pipe must be gone before its end can be read.
    drop(command);
    Ok((child, Ear::listen(reader)))
}

/// A command in a group of its own, so that all that it starts ends with it, and Ctrl-C leaves it
/// alone.
fn command(words: &[String]) -> io::Result<Command> {
    let Some((program, arguments)) = words.split_first() else {
        return Err(io::Error::new(
            io::ErrorKind::InvalidInput,
            "no command is named",
        ));
    };
    let mut command = Command::new(program);
    command.args(arguments);
    #[cfg(unix)]
    {
        use std::os::unix::process::CommandExt;
        command.process_group(0);
    }
    Ok(command)
}

/// Ends a command and all that it started.
fn end(child: &mut Child) {
    #[cfg(unix)]
    {
        use rustix::process::{Pid, Signal, kill_process_group};
        let _ = kill_process_group(Pid::from_child(child), Signal::KILL);
    }
    let _ = child.kill();
    let _ = child.wait();
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
