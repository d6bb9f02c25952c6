//! One run of a speech command: a sentence in, its end awaited, its misbehavior noticed.

use std::io::{self, PipeReader, Read, Write};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::SpeechTrouble;
use crate::voice::clean_name;

/// A sentence takes no longer than this and so much for each letter: five times what the slowest
/// voice needs.
pub(super) const PATIENCE: Duration = Duration::from_secs(10);
/// How often a speaking command is looked at.
const GLANCE: Duration = Duration::from_millis(5);
/// A command may write so many bytes beside speaking.
const FLOOD: usize = 64 * 1024;
/// So many bytes of what it writes are kept, for its error.
const WORDS_KEPT: usize = 400;
const PATIENCE_PER_LETTER: Duration = Duration::from_millis(500);
/// No voice speaks a letter in less.
const LEAST_PER_LETTER: Duration = Duration::from_millis(5);

/// How the speaking of one sentence ended.
pub(super) enum Spoken {
    Done,
    /// The command ended well, but so soon and with such words that perhaps nothing was heard.
    Doubtful(SpeechTrouble),
    CutOff,
    Trouble(SpeechTrouble),
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
        let sentence = format!("{sentence}\n");
        // A command may end without reading all; how it ends tells whether that was right. One that reads
        // nothing would hold up a long sentence.
        thread::spawn(move || input.write_all(sentence.as_bytes()));
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
            Ok(Some(status)) if status.success() => {
                let at_once = begun.elapsed() < LEAST_PER_LETTER.saturating_mul(letters);
                return match ear.complaint(sentence).filter(|_| at_once) {
                    Some(words) => Spoken::Doubtful(SpeechTrouble::Unheard { command, words }),
                    None => Spoken::Done,
                };
            }
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
        let words = self.words();
        if words.is_empty() {
            status.to_string()
        } else {
            format!("{status}: {}", words.trim_end_matches(['.', '!']))
        }
    }

    /// The first line that a command wrote, where it was not the sentence itself.
    fn complaint(&self, sentence: &str) -> Option<String> {
        let words = self.raw_words();
        let first = clean_name(words.lines().find(|line| !line.trim().is_empty())?);
        (!words.contains(sentence)).then_some(first)
    }

    fn words(&self) -> String {
        clean_name(&self.raw_words())
    }

    fn raw_words(&self) -> String {
        // Another process may hold the pipe open for good: its end is not waited for.
        for _ in 0..10 {
            if self.listening.is_finished() {
                break;
            }
            thread::sleep(GLANCE);
        }
        match self.words.lock() {
            Ok(words) => String::from_utf8_lossy(&words).into_owned(),
            Err(_) => String::new(),
        }
    }
}

/// The program of a command, as it is told.
pub(super) fn named(words: &[String]) -> String {
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
pub(super) fn command(words: &[String]) -> io::Result<Command> {
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
