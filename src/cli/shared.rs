//! The options that every command takes, and what they stand for.

use std::cell::{OnceCell, RefCell};
use std::path::{Path, PathBuf};
use std::rc::Rc;

use clap::{Args, ColorChoice};

use super::aloud::{self, Aloud, Announcer};
use super::class::Class;
use super::config::Config;
use super::failure::{Failure, tell};
use super::request::OwnQuestion;
use super::values::{CommandWords, Seconds, Text, quoted};
use crate::exercise::ThinkTimes;
use crate::learner::{
    AnswerRecord, BrokenLines, Journal, LearnerName, Record, Unfinished, unfinished,
    unfinished_session,
};
use crate::question::BareQuestion;
use crate::reply::Grammar;
use crate::terminal::{
    Capabilities, Hearing, HearingError, Listener, Manner, Screen, Speech, Tone, Way, data_folder,
    environment_speaks_of_color, seed,
};
use crate::voice::{self, asides, clean_line, commands as words};

/// The options that every command takes.
#[derive(Args, Clone)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "most are options of their own"
)]
pub(crate) struct Shared {
    /// Whose answers are kept; progress takes several [default: learner]
    #[arg(long, global = true, value_name = "NAME", help_heading = SHARED)]
    learner: Vec<LearnerName>,
    /// A class file: its pupils alone are learners then, each with what it says of them
    #[arg(long = "class", global = true, value_name = "FILE", help_heading = SHARED)]
    class_file: Option<PathBuf>,
    /// The folder of the journals.
    #[arg(long, global = true, value_name = "DIR", help_heading = SHARED,
          help = "The folder of the journals [default: $SANSVOIR_DATA, else your system's data folder]")]
    data: Option<PathBuf>,
    /// Where all chance comes from: the same number asks the same questions
    #[arg(long, global = true, value_name = "N", help_heading = SHARED)]
    pub(super) seed: Option<u64>,
    /// For screen readers and pipes: no color, no cursor movement, no drawing
    #[arg(id = "plain", long = "plain", global = true, num_args = 0..=1, require_equals = true,
          value_name = "true|false", default_missing_value = "true", hide_possible_values = true,
          overrides_with = "plain", action = clap::ArgAction::Set, help_heading = SHARED)]
    pub(super) plain_wish: Option<bool>,
    /// Color: auto, always or never [default: auto]
    #[arg(long, global = true, value_name = "WHEN", hide_possible_values = true, help_heading = SHARED)]
    color: Option<ColorChoice>,
    /// Speak every sentence with a speech command of this system
    #[arg(long, global = true, help_heading = EAR)]
    speak: bool,
    /// That command with its arguments, which gets each sentence through its standard input
    #[arg(long, global = true, value_name = "COMMAND", help_heading = EAR)]
    speech: Option<CommandWords>,
    /// Take replies by mouth too, from the command that hearing in the config file names
    #[arg(long, global = true, help_heading = EAR)]
    hear: bool,
    /// Whether all is told in plain text.
    #[arg(skip)]
    pub(super) plain: bool,
    /// Whether a miniature is replayed because no command was named.
    #[arg(skip)]
    pub(super) miniature: bool,
    /// What the config file says.
    #[arg(skip)]
    pub(super) config: Rc<Config>,
    /// The class.
    #[arg(skip)]
    pub(super) class: Option<Rc<Class>>,
    /// The seed that was drawn because none was given.
    #[arg(skip)]
    drawn: OnceCell<u64>,
    /// The one listener of this process, from its first use on.
    #[arg(skip)]
    ear: Rc<OnceCell<Rc<RefCell<Listener>>>>,
    /// The one speech of this process, where it speaks.
    #[arg(skip)]
    mouth: Rc<OnceCell<Option<Rc<Speech>>>>,
    /// The part of a lesson that is held now; `None` outside lessons.
    #[arg(skip)]
    pub(super) part: Option<PartOfLesson>,
}

/// What an exercise must know when it is a part of a lesson.
#[derive(Clone, Debug)]
pub(super) struct PartOfLesson {
    /// The name of its session in the journal.
    pub(super) session: String,
    /// The questions over the bare board that were chosen beforehand.
    pub(super) chosen: Vec<BareQuestion>,
    /// The questions that a coach wrote.
    pub(super) own: Vec<OwnQuestion>,
}

const SHARED: &str = "Shared by all commands";
const EAR: &str = "By ear and mouth";

impl Shared {
    /// Heeds the config file, where no option tells. What the environment says of color comes first too.
    pub(super) fn heed(&mut self, config: Config) {
        self.plain = self.plain_wish.unwrap_or(config.plain);
        if self.color.is_none() && !environment_speaks_of_color() {
            self.color = Some(config.color);
        }
        self.config = Rc::new(config);
    }

    /// Reads the class file, where one is named; the learners who are named must be of the class.
    pub(super) fn join_class(&mut self) -> Result<(), Failure> {
        if let Some(path) = &self.class_file {
            self.class = Some(Rc::new(Class::read(path)?));
            for name in self.learner.clone() {
                self.config = self.of_learner(&name)?.config;
            }
        }
        Ok(())
    }

    /// Returns the same for one learner, who must be of the class where there is one.
    pub(super) fn of_learner(&self, name: &LearnerName) -> Result<Shared, Failure> {
        let mut of_learner = self.clone();
        of_learner.learner = vec![name.clone()];
        if let Some(class) = &self.class {
            let pupil = class.pupil(name)?;
            pupil.settle(Rc::make_mut(&mut of_learner.config));
        }
        Ok(of_learner)
    }

    /// Returns the seed that was given, or one drawn once for this run.
    pub(super) fn seed(&self) -> Result<u64, Failure> {
        if let Some(seed) = self.seed.or_else(|| self.drawn.get().copied()) {
            return Ok(seed);
        }
        let drawn = seed()
            .map_err(|error| Failure::Unusable(words::no_random_number(&error.to_string())))?;
        Ok(*self.drawn.get_or_init(|| drawn))
    }

    /// Tells how to behave at this terminal.
    pub(super) fn manner(&self) -> Capabilities {
        Capabilities::of_this_process(self.plain, self.color.unwrap_or_default())
    }

    /// Opens standard output.
    pub(super) fn screen(&self) -> Screen {
        Screen::standard(self.manner())
    }

    /// Opens standard input.
    pub(super) fn listener(&self) -> Result<Rc<RefCell<Listener>>, Failure> {
        if let Some(listener) = self.ear.get() {
            return Ok(listener.clone());
        }
        let mut listener = Listener::standard(self.manner())?;
        if self.hear {
            match self.hearing() {
                Ok(hearing) => listener.listen_to(hearing),
                Err(error) => self.screen().say(Tone::Aside, &error.to_string())?,
            }
        }
        let listener = Rc::new(RefCell::new(listener));
        Ok(self.ear.get_or_init(|| listener).clone())
    }

    /// Starts the command that hears.
    fn hearing(&self) -> Result<Hearing, HearingError> {
        let command = self.config.hearing.as_ref();
        let CommandWords(words) = command.ok_or(HearingError::NoCommand)?;
        let manner = Manner {
            grammar: self.grammar(),
            headphones: self.config.headphones,
            silence: self.config.silence.map(Seconds::time),
        };
        Hearing::start(words, manner, self.speech())
    }

    /// Returns the words of the grammars of what can be said.
    pub(super) fn grammar(&self) -> Grammar {
        let letters = self.config.letters.as_ref();
        Grammar {
            files: self.config.files,
            german: letters.is_some_and(|Text(language)| language.name() == "German"),
        }
    }

    /// Tells whether sentences are spoken.
    pub(super) const fn speaks(&self) -> bool {
        self.speak || self.speech.is_some()
    }

    /// Returns what speaks, where sentences are spoken.
    fn speech(&self) -> Option<Rc<Speech>> {
        let speech = self.mouth.get_or_init(|| {
            let wished = self.speech.as_ref().or(self.config.speech.as_ref());
            let command = wished.map(|CommandWords(words)| words.clone());
            self.speaks()
                .then(|| Rc::new(Speech::new(command, Speech::PATIENCE)))
        });
        speech.clone()
    }

    /// Gets ready to speak a sitting and to hear its replies.
    pub(super) fn aloud(&self) -> Aloud {
        let letters = self.config.letters.map(|Text(language)| language);
        Aloud::new(self.speech(), letters)
    }

    /// Gets ready to say what stands beside a sitting.
    pub(super) fn announcer(&self) -> Announcer {
        Announcer {
            screen: self.screen(),
            aloud: self.aloud(),
        }
    }

    /// Waits, at the end of an exercise that speaks, until all is spoken; whoever types has heard enough.
    pub(super) fn hear_out(&self) -> Result<(), Failure> {
        let Some(Some(speech)) = self.mouth.get() else {
            return Ok(());
        };
        let way = self.manner().way;
        if speech.is_speaking() && way != Way::Piped && self.ear.get().is_some() {
            self.screen().say(Tone::Aside, asides::STILL_SPEAKING)?;
        }
        aloud::hear_out(speech, self.ear.get(), way)?;
        match speech.error() {
            Some(error) => Ok(self.screen().say(Tone::Aside, &error.to_string())?),
            None => Ok(()),
        }
    }

    /// Finds the session to go on with: that of its part of a lesson, or else the one of this exercise
    /// that was left last.
    pub(super) fn unfinished<'a>(
        &self,
        records: &'a [Record],
        exercise: &str,
    ) -> Option<Unfinished<'a>> {
        match &self.part {
            Some(part) => unfinished_session(records, &part.session),
            None => unfinished(records, exercise),
        }
    }

    /// Returns the same for a part of a lesson, all of whose chance comes from `seed`.
    pub(super) fn of_part(&self, part: PartOfLesson, seed: Option<u64>) -> Shared {
        Shared {
            seed,
            part: Some(part),
            ..self.clone()
        }
    }

    /// Returns the think times that the config file wishes for.
    pub(super) fn think_times(&self) -> ThinkTimes {
        let millis = |time: Seconds| u64::from(time.millis().get());
        let wished = self.config.think.iter();
        ThinkTimes {
            of_kinds: wished.map(|(kind, time)| (*kind, millis(*time))).collect(),
            lengthen: self.part.is_some(),
            more: self.config.more_time.map_or(0, millis),
        }
    }

    /// Returns the learner's name.
    pub(super) fn learner(&self) -> Result<LearnerName, Failure> {
        if self.class.is_some() && self.learner.is_empty() {
            return Err(Failure::usage(words::WHICH_PUPIL));
        }
        match &self.learners()[..] {
            [learner] => Ok(learner.clone()),
            _ => Err(Failure::usage(words::SEVERAL_LEARNERS)),
        }
    }

    /// Returns the command of the learner's next lesson, with the learner and the class as options of this run name them.
    pub(super) fn lesson_command(&self) -> String {
        let mut words = vec!["sansvoir".to_owned(), "lesson".to_owned()];
        if let [name] = &self.learner[..] {
            words.extend(["--learner".to_owned(), name.to_string()]);
        }
        if let Some(path) = &self.class_file {
            words.extend(["--class".to_owned(), path.to_string_lossy().into_owned()]);
        }
        quoted(&words)
    }

    /// Tells whether a learner is named.
    pub(super) const fn names_any(&self) -> bool {
        !self.learner.is_empty()
    }

    /// Returns the names of all learners who were named, each once.
    pub(super) fn learners(&self) -> Vec<LearnerName> {
        let mut names: Vec<LearnerName> = Vec::new();
        for name in &self.learner {
            if !names.contains(name) {
                names.push(name.clone());
            }
        }
        if names.is_empty() {
            names.push(match &self.config.learner {
                Some(Text(name)) => name.clone(),
                None => "learner".parse().expect("this is a name"),
            });
        }
        names
    }

    /// Finds the folder of the journals.
    pub(super) fn data(&self) -> Result<PathBuf, Failure> {
        Ok(data_folder(self.data.as_deref())?)
    }

    /// Finds the learner's journal.
    ///
    /// Where it is a new one among others, that is said: the name may be misspelt.
    pub(super) fn journal(&self) -> Result<Journal, Failure> {
        let (folder, learner) = (self.data()?, self.learner()?);
        let journal = Journal::open(&folder, &learner)?;
        if self.class.is_none() && !journal.path().exists() {
            let others = LearnerName::all_in(&folder)?;
            if !others.is_empty() {
                let shown = |name: &LearnerName| clean_line(&name.to_string());
                let near = others.iter().filter(|other| other.is_near(&learner));
                let near: Vec<String> = near.map(shown).collect();
                tell(&asides::new_learner(&shown(&learner), &near));
            }
        }
        Ok(journal)
    }
}

/// Reads a journal, and tells which of its lines are broken.
pub(super) fn records(journal: &Journal) -> Result<Vec<Record>, Failure> {
    let contents = journal.read()?;
    tell_broken(journal.path(), &contents.broken);
    Ok(contents.records)
}

/// Returns all answers of a journal, oldest first.
pub(super) fn answers(records: &[Record]) -> impl Iterator<Item = &AnswerRecord> {
    records.iter().filter_map(Record::answer)
}

/// Tells the first broken lines of a journal, and how many more there are.
pub(super) fn tell_broken(path: &Path, broken: &BrokenLines) {
    let path = path.display();
    for line in &broken.first {
        tell(&format!("{path}:{line}"));
    }
    if broken.count > broken.first.len() {
        let more = voice::progress::more_broken_lines(broken.count - broken.first.len());
        tell(&format!("{path}: {more}"));
    }
}
