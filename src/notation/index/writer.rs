//! Writing an index while a collection is read, in bounded memory.

use std::hash::BuildHasher;
use std::io::{self, Write};
use std::ops::Range;

use hashbrown::{DefaultHashBuilder, HashTable};

use super::super::pair::unescape;
use super::super::{Block, Field, Heading, Span};
use super::MAGIC;
use super::segment::{MOST_GAMES, MOST_TEXT, Part, Segment, TOO_LONG, directory_checksum};

/// Writes an index, game by game, in the order of the file.
#[derive(Debug)]
pub struct IndexWriter<W> {
    out: W,
    written: u64,
    directory: Vec<u8>,
    fields: [Vec<u32>; 9],
    /// For each field its value in the game before, as written, and that text's number.
    last: [(Vec<u8>, u32); 9],
    offsets: Vec<u64>,
    lines: Vec<u64>,
    columns: Vec<u32>,
    lengths: Vec<u32>,
    games: usize,
    texts: Texts,
}

/// The texts of a segment, each once, numbered from 1. Few bytes for each, and those close together, so
/// that looking one up seldom waits for memory.
#[derive(Debug, Default)]
struct Texts {
    entries: HashTable<Entry>,
    hasher: DefaultHashBuilder,
    ends: Vec<u32>,
    text: Vec<u8>,
}

/// A text by its number and its place.
#[derive(Clone, Copy, Debug)]
struct Entry {
    number: u32,
    begin: u32,
    end: u32,
}

impl<W: Write> IndexWriter<W> {
    /// Begins the index of the file that `key` stands for.
    ///
    /// # Errors
    ///
    /// What the writer says.
    pub fn new(mut out: W, key: &[u8]) -> io::Result<IndexWriter<W>> {
        let len = u32::try_from(key.len()).map_err(io::Error::other)?;
        let head = [&MAGIC, len.to_le_bytes().as_slice(), key].concat();
        out.write_all(&head)?;
        Ok(IndexWriter {
            out,
            written: head.len() as u64,
            directory: Vec::new(),
            fields: Default::default(),
            last: Default::default(),
            offsets: Vec::new(),
            lines: Vec::new(),
            columns: Vec::new(),
            lengths: Vec::new(),
            games: 0,
            texts: Texts::default(),
        })
    }

    /// Adds the games of the next block.
    ///
    /// # Errors
    ///
    /// What the writer says.
    pub fn add(&mut self, block: &Block) -> io::Result<()> {
        for span in &block.games {
            self.add_game(block, span)?;
        }
        Ok(())
    }

    fn add_game(&mut self, block: &Block, span: &Span) -> io::Result<()> {
        if let Some(value) = block.written_values(span) {
            for field in Field::ALL {
                let number = value(field).map_or(0, |value| self.number_as_written(field, value));
                self.fields[field as usize].push(number);
            }
        } else {
            let heading = Heading::of(block.text(span));
            for field in Field::ALL {
                let number = heading
                    .get(field)
                    .map_or(0, |text| self.texts.number(text.as_bytes()));
                self.fields[field as usize].push(number);
            }
        }
        let length = u32::try_from(span.bytes.len()).map_err(io::Error::other)?;
        let mark = if span.too_long { TOO_LONG } else { 0 };
        let column = u32::try_from(span.column).unwrap_or(u32::MAX);
        self.offsets.push(span.offset);
        self.lines.push(span.line as u64);
        self.columns.push(column);
        self.lengths.push(length | mark);
        self.games += 1;
        if self.games >= MOST_GAMES || self.texts.text.len() >= MOST_TEXT {
            self.close_segment()?;
        }
        Ok(())
    }

    /// Ends the index and returns the writer, flushed. `as_written` tells whether the games' offsets are
    /// places in the file (unpacked).
    ///
    /// # Errors
    ///
    /// What the writer says.
    pub fn finish(mut self, as_written: bool) -> io::Result<W> {
        self.close_segment()?;
        let checksum = directory_checksum(&self.directory, u8::from(as_written));
        self.out.write_all(&self.directory)?;
        self.out.write_all(&checksum.to_le_bytes())?;
        self.out.write_all(&[u8::from(as_written)])?;
        self.out
            .write_all(&(self.directory.len() as u64).to_le_bytes())?;
        self.out.write_all(&MAGIC)?;
        self.out.flush()?;
        Ok(self.out)
    }

    /// Returns the number of the text that `value` stands for.
    fn number_as_written(&mut self, field: Field, value: &[u8]) -> u32 {
        // Games that stand together share much.
        let (last, number) = &self.last[field as usize];
        if *number > 0 && last == value {
            return *number;
        }
        // Of plain ASCII nothing needs to be decoded.
        let is_plain = |byte: &u8| byte.is_ascii() && *byte != b'\\';
        let number = if value.iter().all(is_plain) {
            self.texts.number(value)
        } else {
            self.texts.number(unescape(value).as_bytes())
        };
        let (last, last_number) = &mut self.last[field as usize];
        last.clear();
        last.extend_from_slice(value);
        *last_number = number;
        number
    }

    fn close_segment(&mut self) -> io::Result<()> {
        if self.games == 0 {
            return Ok(());
        }
        let small = |len: usize| u32::try_from(len).map_err(io::Error::other);
        let mut segment = Segment {
            position: self.written,
            games: small(self.games)?,
            texts: small(self.texts.ends.len())?,
            text_bytes: small(self.texts.text.len())?,
            ..Segment::default()
        };
        for part in Part::all() {
            let bytes = match part {
                Part::Field(field) => short(&self.fields[field as usize]),
                Part::Offset => long(&self.offsets),
                Part::Line => long(&self.lines),
                Part::Column => short(&self.columns),
                Part::Length => short(&self.lengths),
                Part::Ends => short(&self.texts.ends),
                Part::Text => self.texts.text.clone(),
            };
            segment.set_checksum(part, crc32fast::hash(&bytes));
            self.out.write_all(&bytes)?;
            self.written += bytes.len() as u64;
        }
        self.directory.extend(segment.to_bytes());
        let columns = [&mut self.columns, &mut self.lengths];
        for column in self.fields.iter_mut().chain(columns) {
            column.clear();
        }
        self.offsets.clear();
        self.lines.clear();
        self.games = 0;
        self.texts.clear();
        for (_, number) in &mut self.last {
            *number = 0;
        }
        Ok(())
    }
}

impl Texts {
    /// Returns the number of a text, in UTF-8, which is entered where it is new.
    fn number(&mut self, text: &[u8]) -> u32 {
        let Texts {
            entries,
            hasher,
            ends,
            text: all,
        } = self;
        let hash = hasher.hash_one(text);
        if let Some(entry) = entries.find(hash, |entry| all[entry.span()] == *text) {
            return entry.number;
        }
        // A segment's text is far from 4 GiB.
        let small = |len: usize| u32::try_from(len).unwrap_or(u32::MAX);
        let begin = small(all.len());
        all.extend_from_slice(text);
        let end = small(all.len());
        ends.push(end);
        let number = small(ends.len());
        let entry = Entry { number, begin, end };
        entries.insert_unique(hash, entry, |entry| hasher.hash_one(&all[entry.span()]));
        number
    }

    fn clear(&mut self) {
        self.entries.clear();
        self.ends.clear();
        self.text.clear();
    }
}

impl Entry {
    /// Returns where the text stands among all.
    const fn span(self) -> Range<usize> {
        self.begin as usize..self.end as usize
    }
}

fn short(numbers: &[u32]) -> Vec<u8> {
    numbers
        .iter()
        .flat_map(|number| number.to_le_bytes())
        .collect()
}

fn long(numbers: &[u64]) -> Vec<u8> {
    numbers
        .iter()
        .flat_map(|number| number.to_le_bytes())
        .collect()
}
