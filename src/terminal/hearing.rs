//! What the learner says, heard by a speech recognizer of the user's that writes a line for each utterance.

use std::fs;
use std::io::{self, BufRead, BufReader};
use std::rc::Rc;
use std::sync::mpsc::TryRecvError;
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use tempfile::TempDir;

use super::process::{OutputEnd, Process, named};
use super::speech::Speech;
use crate::reply::{DICTIONARY, Form, Grammar, NOISE_WORDS};
use crate::voice::clean_name;

/// A recognizer writes what it heard so long behind the last sound: what comes sooner behind what was spoken here
/// is the program's own voice. (Measured: 0.46 to 0.65 s with pocketsphinx.)
const ECHO: Duration = Duration::from_millis(700);
/// So long a command may write nothing before that is told.
const SILENT: Duration = Duration::from_mins(1);

/// So long its last words are waited for, which come by a way of their own.
const LAST_WORDS: Duration = Duration::from_millis(200);

/// Why nothing is heard any more. It is told once; the keyboard goes on.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum HearingError {
    /// The config file names no command.
    #[error(
        "Nothing is heard: name a command that hears with hearing in the config file; sansvoir help \
         by-ear says which. The keyboard goes on."
    )]
    NoCommand,
    /// The command cannot be run.
    #[error("Nothing is heard: {command} cannot be run ({reason}). The keyboard goes on.")]
    NotRun {
        /// The command.
        command: String,
        /// What the system says.
        reason: String,
    },
    /// The command ended.
    #[error(
        "Nothing more is heard: {command} has ended ({reason}). Try it alone; the keyboard goes on."
    )]
    Ended {
        /// The command.
        command: String,
        /// Its own last words.
        reason: String,
    },
    /// The command has not written anything.
    #[error(
        "{command} has heard nothing for {seconds} seconds: see whether there is a microphone. The \
         keyboard goes on."
    )]
    Silent {
        /// The command.
        command: String,
        /// How long it was waited for.
        seconds: u64,
    },
    /// The command writes without end.
    #[error("Nothing more is heard: {command} writes without end. The keyboard goes on.")]
    Flooded {
        /// The command.
        command: String,
    },
}

/// How a recognizer is listened to.
#[derive(Debug, Default)]
pub(crate) struct Manner {
    /// The words of the grammars.
    pub(crate) grammar: Grammar,
    /// Whether the learner hears the program through headphones, so that the microphone does not.
    pub(crate) headphones: bool,
    /// So long a silence counts as yes to what is said back.
    pub(crate) silence: Option<Duration>,
}

/// A running recognizer; its process ends with this value.
#[derive(Debug)]
pub struct Hearing {
    command: String,
    process: Option<Process>,
    /// The last line that it complained with.
    complaint: Arc<Mutex<String>>,
    /// Reads what it complains.
    complaints: JoinHandle<()>,
    error: Option<HearingError>,
    manner: Manner,
    speech: Option<Rc<Speech>>,
    /// The grammars and the dictionary.
    folder: TempDir,
    /// The form of the reply that is awaited.
    form: Option<Form>,
    /// What the command was told last.
    told: String,
    /// When the program was last heard speaking.
    spoke: Option<Instant>,
    /// Since when silence is a yes.
    asked: Option<Instant>,
    /// Since when nothing was written at all.
    unheard: Option<Instant>,
}

impl Hearing {
    /// Starts a command, in whose words `GRAMMAR` and `WORDS` stand for a file with the whole grammar and one with
    /// its dictionary. What `speech` speaks is not listened to.
    ///
    /// # Errors
    ///
    /// [`HearingError::NotRun`]
    pub(crate) fn start(
        words: &[String],
        manner: Manner,
        speech: Option<Rc<Speech>>,
    ) -> Result<Hearing, HearingError> {
        let command = named(words);
        let complaint = Arc::new(Mutex::new(String::new()));
        let start = || {
            let folder = tempfile::tempdir()?;
            let (grammar, dictionary) =
                (folder.path().join("grammar"), folder.path().join("words"));
            fs::write(&grammar, manner.grammar.whole())?;
            fs::write(&dictionary, DICTIONARY)?;
            let files = |word: &String| {
                word.replace("GRAMMAR", &grammar.to_string_lossy())
                    .replace("WORDS", &dictionary.to_string_lossy())
            };
            let words: Vec<String> = words.iter().map(files).collect();
            let (reader, writer) = io::pipe()?;
            let process = Process::start(&words, writer.into(), Some)?;
            let last = Arc::clone(&complaint);
            let complaints = thread::spawn(move || {
                // It may complain as long as it likes, and the last line tells most.
                for line in BufReader::new(reader).lines().map_while(Result::ok) {
                    if let (false, Ok(mut last)) = (line.trim().is_empty(), last.lock()) {
                        *last = line;
                    }
                }
            });
            Ok((folder, process, complaints))
        };
        let (folder, process, complaints) =
            start().map_err(|error: io::Error| HearingError::NotRun {
                command: command.clone(),
                reason: error.to_string(),
            })?;
        Ok(Hearing {
            command,
            process: Some(process),
            complaint,
            complaints,
            error: None,
            manner,
            speech,
            folder,
            form: None,
            told: String::new(),
            spoke: None,
            asked: None,
            unheard: Some(Instant::now()),
        })
    }

    /// Says which form of reply is awaited, if any, and whether silence is a yes from now on.
    pub(super) fn attend(&mut self, form: Option<Form>, is_asked: bool) {
        self.form = form;
        self.asked = is_asked.then(Instant::now);
    }

    /// Returns, once, why nothing more is heard.
    pub(super) fn error(&mut self) -> Option<HearingError> {
        self.error.take()
    }

    /// Returns what was heard since the last look, where that is no noise: an utterance, `yes` for a silence that
    /// counts as one, or nothing but an error behind it.
    pub(super) fn next(&mut self) -> Option<String> {
        self.process.as_ref()?;
        let now = Instant::now();
        let speech = self.speech.as_ref().filter(|_| !self.manner.headphones);
        let is_speaking = speech.is_some_and(|speech| speech.is_speaking());
        if is_speaking {
            self.spoke = Some(now);
            self.asked = self.asked.map(|_| now);
        }
        self.tell(is_speaking);
        let is_echo = self.spoke.is_some_and(|spoke| now - spoke < ECHO);
        let process = self.process.as_mut()?;
        loop {
            match process.output.try_recv() {
                Ok(line) => {
                    self.unheard = None;
                    let is_noise = line
                        .split_whitespace()
                        .any(|word| NOISE_WORDS.contains(&word));
                    if !(is_echo || is_noise || line.is_empty()) {
                        self.asked = None;
                        return Some(line);
                    }
                }
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    let command = self.command.clone();
                    self.error = Some(match process.why_ended() {
                        OutputEnd::Flood => HearingError::Flooded { command },
                        OutputEnd::Closed => HearingError::Ended {
                            command,
                            reason: self.last_words(),
                        },
                    });
                    self.process = None;
                    return Some(String::new());
                }
            }
        }
        if self.unheard.is_some_and(|since| now - since > SILENT) {
            self.unheard = None;
            self.error = Some(HearingError::Silent {
                command: self.command.clone(),
                seconds: SILENT.as_secs(),
            });
            return Some(String::new());
        }
        let (silence, asked) = (self.manner.silence?, self.asked?);
        (now - asked > silence).then(|| {
            self.asked = None;
            "yes".to_owned()
        })
    }

    /// Tells the command to rest while the program speaks, and else for which form it listens.
    fn tell(&mut self, is_speaking: bool) {
        let order = if is_speaking {
            "rest".to_owned()
        } else {
            let name = self.form.map_or("prompt", Into::into);
            let file = self.folder.path().join(name);
            if !file.exists() {
                // A grammar that cannot be written does not change which one is used.
                let _ = fs::write(&file, self.manner.grammar.of(self.form.as_slice()));
            }
            format!("listen {name} {}", file.display())
        };
        if let Some(process) = self.process.as_ref().filter(|_| order != self.told) {
            process.say(order.clone());
            self.told = order;
        }
    }

    fn last_words(&self) -> String {
        let end = Instant::now() + LAST_WORDS;
        while !self.complaints.is_finished() && Instant::now() < end {
            thread::sleep(Duration::from_millis(1));
        }
        let last = self.complaint.lock();
        let last = last.map_or_else(|_| String::new(), |last| clean_name(&last));
        if last.is_empty() {
            "without a word".to_owned()
        } else {
            last
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recognizer_that_hangs_is_told_of_once_and_costs_nothing_else() {
        let words = ["sh", "-c", "exec sleep 1000"].map(str::to_owned);
        let mut hearing = Hearing::start(&words, Manner::default(), None).unwrap();
        // It does not read what it is told, however much that is.
        for number in 0..10_000 {
            hearing.attend((number % 2 == 0).then_some(Form::Square), false);
            assert_eq!(hearing.next(), None);
        }
        hearing.unheard = Instant::now().checked_sub(SILENT + Duration::from_secs(1));
        assert_eq!(hearing.next().as_deref(), Some(""));
        assert!(matches!(
            hearing.error(),
            Some(HearingError::Silent { seconds: 60, .. })
        ));
        assert_eq!((hearing.next(), hearing.error()), (None, None));
    }
}
