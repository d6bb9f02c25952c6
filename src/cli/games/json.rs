//! A game as one line of JSON.

use std::borrow::Cow;
use std::fmt::Write;
use std::path::Path;

use serde::{Serialize, Serializer};
use shakmaty::CastlingMode;

use crate::game::{GameResult, Tags, fen_of};
use crate::pgn::{Cost, Fault, Passage, Reading, Repair, Trust};
use crate::voice::clean;

/// What `games --format json` writes for one game.
#[derive(Serialize)]
pub(super) struct Entry<'a> {
    file: Cow<'a, str>,
    number: usize,
    line: usize,
    tags: TagMap<'a>,
    variant: &'static str,
    start: String,
    #[serde(rename = "final")]
    last: String,
    plies: usize,
    sidelines: usize,
    result: &'static str,
    trust: Trust,
    #[serde(skip_serializing_if = "Option::is_none")]
    letters: Option<&'static str>,
    faults: Vec<FaultEntry<'a>>,
}

impl<'a> Entry<'a> {
    pub(super) fn new(file: &'a Path, passage: &Passage, check: &'a Reading) -> Entry<'a> {
        Entry {
            file: file.to_string_lossy(),
            number: passage.number,
            line: passage.line,
            tags: TagMap(&check.game.tags),
            variant: match check.game.start.mode() {
                CastlingMode::Standard => "standard",
                CastlingMode::Chess960 => "chess960",
            },
            start: check.game.start.fen(),
            last: fen_of(&check.end),
            plies: check.plies,
            sidelines: check.sidelines,
            result: check.game.result.unwrap_or(GameResult::Unknown).marker(),
            trust: check.trust(),
            letters: check.letters.as_ref().map(|letters| letters.letters),
            faults: check.faults.iter().map(FaultEntry::new).collect(),
        }
    }
}

/// Writes what an export changes as one line.
pub(super) fn repair(file: &Path, game: usize, repair: &Repair) -> serde_json::Result<String> {
    #[derive(Serialize)]
    struct Told<'a> {
        file: Cow<'a, str>,
        game: usize,
        #[serde(flatten)]
        repair: &'a Repair,
    }
    let file = file.to_string_lossy();
    line(&Told { file, game, repair })
}

/// Writes a value as one line. Nothing is lost from what the file holds, but what could steer
/// a terminal is escaped (RFC 8259, section 7): outside strings, JSON has no such characters.
pub(super) fn line(entry: &impl Serialize) -> serde_json::Result<String> {
    let json = serde_json::to_string(entry)?;
    let is_plain = |c: &u8| matches!(c, b' '..=b'~');
    if json.as_bytes().iter().all(is_plain) {
        return Ok(json);
    }
    let mut line = String::with_capacity(json.len());
    for c in json.chars() {
        if !matches!(c, ' '..='~') && clean(c.encode_utf8(&mut [0; 4])).is_empty() {
            for unit in c.encode_utf16(&mut [0; 2]) {
                // Writing into a text cannot fail.
                let _ = write!(line, "\\u{unit:04x}");
            }
        } else {
            line.push(c);
        }
    }
    Ok(line)
}

/// A fault, with its place in the file.
#[derive(Serialize)]
struct FaultEntry<'a> {
    line: usize,
    column: usize,
    ply: usize,
    token: &'a str,
    reason: String,
    /// Whether the game was kept up to here and no further.
    kept_up_to_here: bool,
}

impl<'a> FaultEntry<'a> {
    fn new(fault: &'a Fault) -> FaultEntry<'a> {
        FaultEntry {
            line: fault.place.line,
            column: fault.place.column,
            ply: fault.ply,
            token: &fault.token,
            reason: fault.reason.to_string(),
            kept_up_to_here: fault.cost == Cost::Moves,
        }
    }
}

/// The tags as an object, in the order of the file; of a tag given twice the first counts.
struct TagMap<'a>(&'a Tags);

impl Serialize for TagMap<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let is_first = |(at, (name, _)): &(usize, (_, _))| {
            !self.0.iter().take(*at).any(|(before, _)| before == *name)
        };
        let tags = self.0.iter().enumerate().filter(is_first);
        to.collect_map(tags.map(|(_, tag)| tag))
    }
}
