//! Writing an index while a collection is read, in bounded memory.

use std::collections::HashMap;
use std::io::{self, Write};

use super::super::{Field, Heading, Span};
use super::MAGIC;
use super::segment::{MOST_GAMES, MOST_TEXT, Part, Segment, TOO_LONG};

/// Writes an index, game by game, in the order of the file.
#[derive(Debug)]
pub struct IndexWriter<W> {
    out: W,
    written: u64,
    directory: Vec<u8>,
    fields: [Vec<u32>; 9],
    last: [u32; 9],
    offsets: Vec<u64>,
    lines: Vec<u64>,
    columns: Vec<u32>,
    lengths: Vec<u32>,
    games: usize,
    numbers: HashMap<Box<str>, u32>,
    ends: Vec<u32>,
    text: String,
    spans: Vec<std::ops::Range<usize>>,
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
            last: [0; 9],
            offsets: Vec::new(),
            lines: Vec::new(),
            columns: Vec::new(),
            lengths: Vec::new(),
            games: 0,
            numbers: HashMap::new(),
            ends: Vec::new(),
            text: String::new(),
            spans: Vec::new(),
        })
    }

    /// Adds the next game.
    ///
    /// # Errors
    ///
    /// What the writer says.
    pub fn add(&mut self, span: &Span, heading: &Heading<'_>) -> io::Result<()> {
        for field in Field::ALL {
            let number = match heading.get(field) {
                None => 0,
                Some(text) => self.number(field, text),
            };
            self.fields[field as usize].push(number);
        }
        let length = u32::try_from(span.bytes.len()).map_err(io::Error::other)?;
        let mark = if span.too_long { TOO_LONG } else { 0 };
        let column = u32::try_from(span.column).unwrap_or(u32::MAX);
        self.offsets.push(span.offset);
        self.lines.push(span.line as u64);
        self.columns.push(column);
        self.lengths.push(length | mark);
        self.games += 1;
        if self.games >= MOST_GAMES || self.text.len() >= MOST_TEXT {
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
        let checksum = crc32fast::hash(&self.directory);
        self.out.write_all(&self.directory)?;
        self.out.write_all(&checksum.to_le_bytes())?;
        self.out.write_all(&[u8::from(as_written)])?;
        self.out
            .write_all(&(self.directory.len() as u64).to_le_bytes())?;
        self.out.write_all(&MAGIC)?;
        self.out.flush()?;
        Ok(self.out)
    }

    /// Returns the number of a text in this segment.
    fn number(&mut self, field: Field, text: &str) -> u32 {
        // Games that stand together share much.
        let last = self.last[field as usize];
        if let Some(span) = (last as usize)
            .checked_sub(1)
            .and_then(|at| self.spans.get(at))
            && self.text[span.clone()] == *text
        {
            return last;
        }
        let number = self.numbers.get(text).copied();
        let number = number.unwrap_or_else(|| self.enter(text));
        self.last[field as usize] = number;
        number
    }

    /// Enters a text that is new in this segment.
    fn enter(&mut self, text: &str) -> u32 {
        let begin = self.text.len();
        self.text.push_str(text);
        self.spans.push(begin..self.text.len());
        // A segment's text is far from 4 GiB.
        let short = |len: usize| u32::try_from(len).unwrap_or(u32::MAX);
        self.ends.push(short(self.text.len()));
        let number = short(self.spans.len());
        self.numbers.insert(text.into(), number);
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
            texts: small(self.spans.len())?,
            text_bytes: small(self.text.len())?,
            ..Segment::default()
        };
        for part in Part::all() {
            let bytes = match part {
                Part::Field(field) => short(&self.fields[field as usize]),
                Part::Offset => long(&self.offsets),
                Part::Line => long(&self.lines),
                Part::Column => short(&self.columns),
                Part::Length => short(&self.lengths),
                Part::Ends => short(&self.ends),
                Part::Text => self.text.as_bytes().to_vec(),
            };
            segment.set_checksum(part, crc32fast::hash(&bytes));
            self.out.write_all(&bytes)?;
            self.written += bytes.len() as u64;
        }
        self.directory.extend(segment.to_bytes());
        let columns = [&mut self.columns, &mut self.lengths, &mut self.ends];
        for column in self.fields.iter_mut().chain(columns) {
            column.clear();
        }
        self.offsets.clear();
        self.lines.clear();
        self.games = 0;
        self.numbers.clear();
        self.text.clear();
        self.spans.clear();
        self.last = [0; 9];
        Ok(())
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
