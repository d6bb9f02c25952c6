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
    fields: [Vec<u8>; 9],
    last: [u32; 9],
    offsets: Vec<u8>,
    lines: Vec<u8>,
    columns: Vec<u8>,
    lengths: Vec<u8>,
    games: usize,
    numbers: HashMap<Box<str>, u32>,
    ends: Vec<u8>,
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
            self.fields[field as usize].extend(number.to_le_bytes());
        }
        let length = u32::try_from(span.bytes.len()).map_err(io::Error::other)?;
        let mark = if span.too_long { TOO_LONG } else { 0 };
        let column = u32::try_from(span.column).unwrap_or(u32::MAX);
        self.offsets.extend(span.offset.to_le_bytes());
        self.lines.extend((span.line as u64).to_le_bytes());
        self.columns.extend(column.to_le_bytes());
        self.lengths.extend((length | mark).to_le_bytes());
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
        let number = match self.numbers.get(text) {
            Some(number) => *number,
            None => {
                let begin = self.text.len();
                self.text.push_str(text);
                self.spans.push(begin..self.text.len());
                // A segment's text is far from 4 GiB.
                let end = u32::try_from(self.text.len()).unwrap_or(u32::MAX);
                self.ends.extend(end.to_le_bytes());
                let number = u32::try_from(self.spans.len()).unwrap_or(u32::MAX);
                self.numbers.insert(text.into(), number);
                number
            }
        };
        self.last[field as usize] = number;
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
                Part::Field(field) => &self.fields[field as usize],
                Part::Offset => &self.offsets,
                Part::Line => &self.lines,
                Part::Column => &self.columns,
                Part::Length => &self.lengths,
                Part::Ends => &self.ends,
                Part::Text => self.text.as_bytes(),
            };
            segment.set_checksum(part, crc32fast::hash(bytes));
            self.out.write_all(bytes)?;
            self.written += bytes.len() as u64;
        }
        self.directory.extend(segment.to_bytes());
        let columns = [
            &mut self.offsets,
            &mut self.lines,
            &mut self.columns,
            &mut self.lengths,
            &mut self.ends,
        ];
        for column in self.fields.iter_mut().chain(columns) {
            column.clear();
        }
        self.games = 0;
        self.numbers.clear();
        self.text.clear();
        self.spans.clear();
        self.last = [0; 9];
        Ok(())
    }
}
