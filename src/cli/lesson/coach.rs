//! A lesson that a coach wrote: a file in TOML, all of whose faults are told before anything of it is held.

use std::path::Path;

use clap::CommandFactory;
use toml::de::DeValue;

use super::super::failure::{Failure, shown};
use super::super::shared::Shared;
use super::super::toml_text::{Fault, Faults, TomlText, Value};
use super::super::{Cli, demo, places, tell};
use super::outline::{Outline, Part};
use super::seed_of_part;
use super::written::Written;
use crate::learner::Record;
use crate::voice;

/// The keys of the file.
const KEYS: [&str; 3] = ["title", "notes", "part"];
/// The most parts that a lesson has; more were written by no coach.
const MOST_PARTS: usize = 100;

/// What the parts of a lesson file are tried with.
pub(super) struct Trial<'a> {
    pub(super) text: &'a TomlText,
    pub(super) shared: &'a Shared,
    /// What the learner has answered before.
    pub(super) records: &'a [Record],
    /// The command line of the program, where the options of every exercise stand.
    pub(super) program: clap::Command,
    /// Where the chance of all parts comes from.
    seed: u64,
}

/// Reads a lesson file and sees to it that every part of it can be held by a learner with these records.
/// The faults are told; the last one that is told is returned.
pub(super) fn outline(
    file: &Path,
    seed: u64,
    records: &[Record],
    shared: &Shared,
) -> Result<Outline, Failure> {
    let no_lesson = || Failure::Unusable(voice::lesson::no_lesson(&shown(file)));
    if places::is_named_as_games(file) && (file.exists() || demo::is_meant(file)) {
        return Err(no_lesson());
    }
    let text = TomlText::read(file)?;
    let table = match text.table() {
        Ok(table) => table,
        Err(_) if text.begins_as_games() => return Err(no_lesson()),
        Err(fault) => return Err(text.failure(&fault)),
    };
    let mut program = Cli::command();
    program.build();
    let trial = Trial {
        text: &text,
        shared,
        records,
        program,
        seed,
    };
    let mut outline = Outline::default();
    let mut faults = Faults::default();
    for (key, value) in &table {
        match key.get_ref().as_ref() {
            "title" => outline.title = faults.unless(TomlText::string(value)).map(str::to_owned),
            "notes" => outline.notes = faults.unless(TomlText::string(value)).map(str::to_owned),
            "part" => outline.parts = trial.parts(value, &mut faults),
            _ => faults.add(TomlText::unknown(key, &KEYS)),
        }
    }
    if outline.parts.is_empty() && faults.count() == 0 {
        let reason = "this lesson has no part: write [[part]], and below it exercise = \"replay\"";
        faults.add(Fault::at(0..0, reason));
    }
    refusal(file, &text, &faults, shared.plain).map_or(Ok(outline), Err)
}

/// Tells the first faults; returns the last of what there is to tell.
fn refusal(file: &Path, text: &TomlText, faults: &Faults, plain: bool) -> Option<Failure> {
    let (first, more) = faults.told();
    let mut told: Vec<Failure> = first.iter().map(|fault| text.failure(fault)).collect();
    if more > 0 {
        let more = voice::lesson::more_faults(&shown(file), more);
        told.push(Failure::Unusable(more));
    }
    let last = told.pop();
    for failure in told {
        tell(&format!("sansvoir: {}", failure.told(plain)));
    }
    last
}

impl Trial<'_> {
    fn parts(&self, value: &Value<'_>, faults: &mut Faults) -> Vec<Part> {
        let wanted = |value: &Value<'_>| {
            let reason = "write each part below a line [[part]]";
            Fault::at(value.span(), reason)
        };
        let DeValue::Array(tables) = value.get_ref() else {
            faults.add(wanted(value));
            return Vec::new();
        };
        if let Some(table) = tables.get(MOST_PARTS) {
            let reason = voice::lesson::too_many_parts(tables.len(), MOST_PARTS);
            faults.add(Fault::at(table.span(), reason));
            return Vec::new();
        }
        let mut parts = Vec::new();
        for (table, number) in tables.iter().zip(1..) {
            let DeValue::Table(keys) = table.get_ref() else {
                faults.add(wanted(table));
                continue;
            };
            let written = Written {
                trial: self,
                keys,
                span: table.span(),
                seed: seed_of_part(self.seed, number),
            };
            parts.extend(written.part(faults));
        }
        parts
    }
}
