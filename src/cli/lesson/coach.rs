//! A lesson that a coach wrote: a file in TOML, all of whose faults are told before anything of it is held.

use std::cell::Cell;
use std::path::{Path, PathBuf};

use serde::Deserialize;

use crate::cli::archives;
use crate::cli::failure::{Failure, shown};
use crate::cli::places;
use crate::cli::request::{LessonPart, Outline, OwnQuestion, Request, seed_of_part};
use crate::cli::shared::Shared;
use crate::cli::toml_file::{Faults, Keys, Tables, TomlFile};
use crate::exercise::bound::Within;
use crate::exercise::{Dice, Extent, extent};
use crate::learner::Record;
use crate::voice::{clean, commands, lesson as words};

/// The most parts that a lesson has; more were written by no coach.
const MOST_PARTS: usize = 100;
/// The most questions of its own that a part has.
const MOST_QUESTIONS: usize = 100;
/// What the dice are rolled for when parts are shuffled.
const SHUFFLING: u64 = u64::MAX - 3;
/// The options of every command, which are the learner's and not the lesson's.
const LEARNERS: [&str; 10] = [
    "learner", "class", "data", "plain", "color", "speak", "speech", "list", "letters", "resume",
];

/// What a lesson file says of the lesson as a whole.
#[derive(Default, Deserialize)]
#[serde(default)]
struct Head {
    title: Option<String>,
    notes: Option<String>,
    shuffle: bool,
}

/// What a part says of itself, beside the keys of its exercise.
#[derive(Default, Deserialize)]
#[serde(default)]
struct PartHead {
    exercise: Option<String>,
    heading: Option<String>,
    notes: Option<String>,
    pass: Option<Within<1, 100_000>>,
    until_passed: bool,
    seed: Option<u64>,
}

/// What the parts of a lesson file are tried with.
struct Trial<'a> {
    file: &'a TomlFile,
    shared: &'a Shared,
    /// What the learner has answered before; `None` where nothing is tried.
    records: Option<&'a [Record]>,
    /// Where the chance of all parts comes from.
    seed: u64,
    /// What the parts that were tried come to.
    extent: Cell<Extent>,
}

/// A lesson as its file says it, and what it comes to where it was tried.
pub(super) struct Written {
    pub(super) outline: Outline,
    pub(super) extent: Extent,
}

/// Reads a lesson file and sees to it that every part of it can be held by a learner with these records; without
/// any, no part is tried. The faults are told; the last one that is told is returned.
pub(super) fn read(
    path: &Path,
    seed: u64,
    records: Option<&[Record]>,
    shared: &Shared,
) -> Result<Written, Failure> {
    let no_lesson = || Failure::Unusable(words::no_lesson(&shown(path)));
    if archives::is_named_as_games(path) && (path.exists() || places::is_demo(path)) {
        return Err(no_lesson());
    }
    let file = TomlFile::read(path)?;
    let table = match file.table() {
        Ok(table) => table,
        Err(_) if file.begins_as_games() => return Err(no_lesson()),
        Err(fault) => return Err(file.failure(&fault)),
    };
    let mut faults = Faults::default();
    let mut keys = Keys::new(&table, 0..0, &mut faults);
    let head: Head = keys.take();
    let tables = keys.tables("part", MOST_PARTS);
    keys.refuse_others(commands::no_such_key);
    let trial = Trial {
        file: &file,
        shared,
        records,
        seed,
        extent: Cell::default(),
    };
    let parts = trial.parts(tables, keys.faults);
    if parts.is_empty() && faults.count == 0 {
        faults.add(0..0, words::NO_PART);
    }
    file.refuse(&faults)?;
    let mut shuffled = Vec::new();
    if head.shuffle {
        shuffled.extend(0..parts.len());
        Dice::new(seed, SHUFFLING).shuffle(&mut shuffled);
    }
    Ok(Written {
        outline: Outline {
            title: head.title,
            notes: head.notes,
            parts,
            shuffled,
            start: None,
        },
        extent: trial.extent.get(),
    })
}

impl Trial<'_> {
    fn parts(&self, tables: Tables<'_>, faults: &mut Faults) -> Vec<LessonPart> {
        let mut parts = Vec::new();
        for ((table, span), number) in tables.into_iter().zip(1..) {
            let mut keys = Keys::new(table, span, faults);
            parts.extend(self.part(&mut keys, seed_of_part(self.seed, number, 1)));
        }
        parts
    }

    /// Reads the part, and tries it as it will be held; `seed` is where its chance comes from, unless it
    /// names another seed. Adds all that is wrong with it.
    fn part(&self, keys: &mut Keys<'_>, seed: u64) -> Option<LessonPart> {
        let before = keys.faults.count;
        let head: PartHead = keys.take();
        let mut request = request(keys, head.exercise.as_deref())?;
        let exercise = request.exercise();
        for file in request.files_mut() {
            if let Err(reason) = self.file_of_games(file) {
                keys.refuse(&["files", "from"], reason);
            }
        }
        // What is left out because it is at fault may be what it cannot be held without; a key that is
        // none takes nothing from the part, and neither does one that another stands in for.
        let is_whole = keys.faults.count == before;
        for [key, other] in [["line", "files"], ["fen", "files"], ["fen", "file"]] {
            if keys.has(key) && keys.has(other) {
                let said = commands::options_conflict(key, other);
                keys.refuse(&[key], words::in_keys(&said, &[key, other]));
            }
        }
        let questions = keys.tables("part.question", MOST_QUESTIONS);
        if !questions.is_empty() && !matches!(request, Request::Replay(_)) {
            keys.refuse(&["question"], words::QUESTIONS_OF_A_REPLAY);
        }
        let (mut own, mut read, of) = (Vec::new(), Vec::new(), questions.len());
        for (table, span) in questions {
            let mut keys = Keys::new(table, span.clone(), keys.faults);
            let before = keys.faults.count;
            let question: OwnQuestion = keys.take();
            keys.refuse_others(commands::no_such_key);
            if keys.faults.count == before {
                own.push(question);
                read.push((table, span));
            }
        }
        keys.refuse_others(|key, known| {
            if LEARNERS.contains(&key) {
                words::learners_own(key)
            } else {
                words::no_such_key(key, exercise, known)
            }
        });
        let part = LessonPart {
            heading: head.heading.unwrap_or_else(|| exercise.to_owned()),
            notes: head.notes,
            request,
            seed: head.seed,
            chosen: Vec::new(),
            own,
            pass: head.pass.map(Within::size),
            until_passed: head.until_passed,
        };
        if part.until_passed && part.pass.is_none() {
            keys.refuse(&["until_passed"], words::UNTIL_PASSED_WITHOUT_PASS);
        }
        if let Some(records) = self.records {
            let tried = is_whole.then(|| self.extent(&part, records, seed));
            self.judge(&part, tried, (keys, &read), of - read.len());
        }
        (keys.faults.count == before).then_some(part)
    }

    /// Tells why the part cannot be held as it was tried, where its keys let it be tried at all; what is wrong with
    /// questions of its own, of which so many more could not be read; and whether they are enough for its pass mark.
    fn judge<'a>(
        &self,
        part: &LessonPart,
        tried: Option<Result<Extent, Failure>>,
        (keys, questions): (&mut Keys<'a>, &Tables<'a>),
        unread: usize,
    ) {
        let mut asked = tried.as_ref().and_then(|_| part.asks_alone());
        // What is wrong with them wherever they are asked.
        let wrong = part.own.iter().enumerate();
        let wrong = wrong.filter_map(|(at, own)| Some((at, own.read(None).err()?)));
        let mut wrong: Vec<_> = wrong.collect();
        match tried {
            Some(Err(Failure::OwnQuestions(all))) => wrong = all,
            Some(Err(failure)) => {
                let said = clean(&failure.told(false));
                let named = words::options_in(&said, &keys.known).map(|(_, key)| key);
                let usual = match failure {
                    Failure::Unusable(_) | Failure::SearchStopped => {
                        &["line", "fen", "files", "from"][..]
                    }
                    _ => &["kinds", "exercise"],
                };
                let at: Vec<&str> = named.chain(usual.iter().copied()).collect();
                keys.refuse(&at, words::in_keys(&said, &keys.known));
            }
            Some(Ok(extent)) => {
                let so_far = self.extent.get();
                self.extent.set(Extent {
                    questions: so_far.questions + extent.questions,
                    millis: so_far.millis + extent.millis,
                });
                asked = Some(extent.questions);
            }
            None => {}
        }
        for (at, (key, said)) in wrong {
            let (table, span) = questions[at].clone();
            Keys::new(table, span, keys.faults).refuse(&[key], said);
        }
        if let (Some(pass), Some(asked)) = (part.pass, asked.map(|asked| asked + unread))
            && pass > asked
        {
            keys.refuse(&["pass"], words::pass_too_high(pass, asked));
        }
    }

    /// Finds a file of games that a part names: beside the lesson's file, or a demo file where none is
    /// there. It is named so that it stays right from whatever folder the lesson goes on.
    fn file_of_games(&self, file: &mut PathBuf) -> Result<(), String> {
        if file.as_os_str() == "-" {
            return Err(words::INPUT_IS_FOR_REPLIES.to_owned());
        }
        let said = |failure: Failure| clean(&failure.told(false));
        let beside = self.file.beside(file);
        let found = match beside.metadata() {
            Ok(found) if found.is_file() || found.is_dir() => beside,
            Ok(_) => return Err(said(places::no_file(&beside))),
            Err(_) => places::demo_path(file).unwrap_or(beside),
        };
        *file = places::lasting(&found).map_err(said)?;
        Ok(())
    }

    /// Counts the questions of a part that count, and the time it takes.
    fn extent(&self, part: &LessonPart, records: &[Record], seed: u64) -> Result<Extent, Failure> {
        let seed = part.seed.unwrap_or(seed);
        let shared = (self.shared).of_part(part.in_session(String::new()), Some(seed));
        let plan = part.request.prepare(&shared, records)?.plan;
        Ok(extent(&mut plan.on_paper()?))
    }
}

/// Reads the keys of the exercise that is named.
fn request(keys: &mut Keys<'_>, exercise: Option<&str>) -> Option<Request> {
    let Some(exercise) = exercise else {
        if !keys.has("exercise") {
            keys.refuse(&[], words::exercise_missing(Request::EXERCISES));
        }
        return None;
    };
    let request = Request::from_keys(exercise, keys);
    if request.is_none() {
        keys.refuse(&[], words::no_exercise(exercise, Request::EXERCISES));
    }
    request
}
