//! Looking games up in an index.

use std::cell::OnceCell;
use std::io::{self, Read, Seek, SeekFrom};
use std::ops::{ControlFlow, RangeInclusive};

use super::super::{Field, Finder, Heading, Span};
use super::MAGIC;
use super::segment::{MOST_GAMES, Part, Segment, TOO_LONG, numbers};

/// The longest directory that is believed, in bytes: that of 10 million segments.
const LONGEST_DIRECTORY: u64 = 10_000_000 * Segment::ENTRY as u64;
/// The most bytes of text that a segment can hold.
const LONGEST_TEXT: u32 = 1 << 30;

/// An index that can be looked into.
#[derive(Debug)]
pub struct Index<R> {
    file: R,
    segments: Vec<Segment>,
    as_written: bool,
}

/// A game that an index knows.
#[derive(Clone, Debug)]
pub struct Entry<'a> {
    /// The fields by which it is listed: players, date, result, event. The others are left out.
    pub heading: Heading<'a>,
    /// Where it stands; its number alone where no more was asked for.
    pub span: Span,
}

impl<R: Read + Seek> Index<R> {
    /// Opens the index of the file that `key` stands for; `None` when this is another file's, or one
    /// of another version, or damaged.
    pub fn open(mut file: R, key: &[u8]) -> Option<Index<R>> {
        let mut head = vec![0; MAGIC.len() + 4 + key.len()];
        file.read_exact(&mut head).ok()?;
        let len = u32::try_from(key.len()).ok()?.to_le_bytes();
        if head != [&MAGIC, len.as_slice(), key].concat() {
            return None;
        }
        let end = file.seek(SeekFrom::End(-21)).ok()?;
        let mut tail = [0; 21];
        file.read_exact(&mut tail).ok()?;
        let (checksum, rest) = tail.split_first_chunk()?;
        let (as_written, rest) = rest.split_first()?;
        let (len, magic) = rest.split_first_chunk()?;
        let len = u64::from_le_bytes(*len);
        if magic != MAGIC || len > end.min(LONGEST_DIRECTORY) {
            return None;
        }
        file.seek(SeekFrom::Start(end - len)).ok()?;
        let mut directory = vec![0; usize::try_from(len).ok()?];
        file.read_exact(&mut directory).ok()?;
        if crc32fast::hash(&directory) != u32::from_le_bytes(*checksum) {
            return None;
        }
        let entries = directory.chunks(Segment::ENTRY).map(Segment::from_bytes);
        let segments: Vec<Segment> = entries.collect::<Option<_>>()?;
        let sane = |segment: &Segment| {
            segment.games as usize <= MOST_GAMES
                && segment.text_bytes <= LONGEST_TEXT
                && segment.texts as usize <= MOST_GAMES * Field::ALL.len()
        };
        segments.iter().all(sane).then_some(Index {
            file,
            segments,
            as_written: *as_written == 1,
        })
    }

    /// Tells whether [`Span::offset`] is a place in the file (unpacked).
    #[must_use]
    pub const fn is_as_written(&self) -> bool {
        self.as_written
    }

    /// Counts the games.
    #[must_use]
    pub fn games(&self) -> usize {
        let games = self.segments.iter().map(|segment| segment.games as usize);
        games.sum()
    }

    /// Gives the games of these `numbers` that `finder` finds to `take`, in the order of the file, until
    /// that breaks off; `with_place` when their place is wanted too.
    ///
    /// # Errors
    ///
    /// When the index cannot be read or is damaged. What has been given by then is right.
    pub fn find(
        &mut self,
        finder: &Finder,
        numbers: &RangeInclusive<usize>,
        with_place: bool,
        mut take: impl FnMut(&Entry<'_>) -> ControlFlow<()>,
    ) -> io::Result<()> {
        let mut first = 1;
        for segment in &self.segments {
            let games = segment.games as usize;
            let from = (*numbers.start()).max(first);
            let to = (*numbers.end()).min(first + games - 1);
            if from <= to {
                let mut open = Open::new(&mut self.file, segment, with_place)?;
                for number in from..=to {
                    let game = number - first;
                    if open.fits(finder, game)? && take(&open.entry(game, number)?).is_break() {
                        return Ok(());
                    }
                }
            }
            first += games;
        }
        Ok(())
    }
}

/// The fields of an entry's heading.
const LISTED: [Field; 5] = [
    Field::White,
    Field::Black,
    Field::Date,
    Field::Result,
    Field::Event,
];

/// A segment of which parts have been read.
struct Open<'a, R> {
    file: &'a mut R,
    segment: &'a Segment,
    fields: [OnceCell<Vec<u32>>; 9],
    ends: Vec<u32>,
    text: String,
    /// Whether each text fits, by what is asked of it, as far as that is known.
    known: [Vec<Option<bool>>; 9],
    places: Option<Places>,
    with_place: bool,
}

/// The columns that tell where games stand.
struct Places {
    offsets: Vec<u64>,
    lines: Vec<u64>,
    columns: Vec<u32>,
    lengths: Vec<u32>,
}

impl<'a, R: Read + Seek> Open<'a, R> {
    fn new(file: &'a mut R, segment: &'a Segment, with_place: bool) -> io::Result<Open<'a, R>> {
        let ends = numbers(&part(file, segment, Part::Ends)?).collect();
        let text = String::from_utf8(part(file, segment, Part::Text)?).map_err(|_| damaged())?;
        Ok(Open {
            file,
            segment,
            fields: Default::default(),
            ends,
            text,
            known: Default::default(),
            places: None,
            with_place,
        })
    }

    fn column(&mut self, field: Field) -> io::Result<&[u32]> {
        let cell = &self.fields[field as usize];
        if cell.get().is_none() {
            let bytes = part(self.file, self.segment, Part::Field(field))?;
            let _ = cell.set(numbers(&bytes).collect());
        }
        Ok(cell.get().map_or(&[], Vec::as_slice))
    }

    fn fits(&mut self, finder: &Finder, game: usize) -> io::Result<bool> {
        let mut failed = None;
        let fits = finder.finds_by(|field| match self.fits_field(finder, game, field) {
            Ok(fits) => fits,
            Err(error) => {
                failed = Some(error);
                false
            }
        });
        failed.map_or(Ok(fits), Err)
    }

    fn fits_field(&mut self, finder: &Finder, game: usize, field: Field) -> io::Result<bool> {
        let number = *self.column(field)?.get(game).ok_or_else(damaged)? as usize;
        let known = &mut self.known[asked_as(field) as usize];
        if known.is_empty() {
            known.resize(self.ends.len() + 1, None);
        }
        if let Some(fits) = *known.get(number).ok_or_else(damaged)? {
            return Ok(fits);
        }
        let fits = finder.fits(field, self.text(number)?);
        self.known[asked_as(field) as usize][number] = Some(fits);
        Ok(fits)
    }

    fn text(&self, number: usize) -> io::Result<Option<&str>> {
        let Some(at) = number.checked_sub(1) else {
            return Ok(None);
        };
        let end = *self.ends.get(at).ok_or_else(damaged)? as usize;
        let begin = at
            .checked_sub(1)
            .map_or(0, |before| self.ends[before] as usize);
        self.text.get(begin..end).map(Some).ok_or_else(damaged)
    }

    fn entry(&mut self, game: usize, number: usize) -> io::Result<Entry<'_>> {
        for field in LISTED {
            self.column(field)?;
        }
        let span = if self.with_place {
            self.place(game, number)?
        } else {
            Span::numbered(number)
        };
        let mut texts = [None; 9];
        for field in LISTED {
            let column = self.fields[field as usize].get();
            let number = *column
                .and_then(|column| column.get(game))
                .ok_or_else(damaged)?;
            texts[field as usize] = self.text(number as usize)?;
        }
        Ok(Entry {
            heading: Heading::from_fields(|field| texts[field as usize]),
            span,
        })
    }

    fn place(&mut self, game: usize, number: usize) -> io::Result<Span> {
        if self.places.is_none() {
            let (file, segment) = (&mut *self.file, self.segment);
            self.places = Some(Places {
                offsets: long_numbers(&part(file, segment, Part::Offset)?),
                lines: long_numbers(&part(file, segment, Part::Line)?),
                columns: numbers(&part(file, segment, Part::Column)?).collect(),
                lengths: numbers(&part(file, segment, Part::Length)?).collect(),
            });
        }
        let Some(places) = &self.places else {
            return Err(damaged());
        };
        let found = places
            .offsets
            .get(game)
            .zip(places.lines.get(game))
            .zip(places.columns.get(game).zip(places.lengths.get(game)));
        let ((offset, line), (column, length)) = found.ok_or_else(damaged)?;
        let len = (length & !TOO_LONG) as usize;
        Ok(Span {
            number,
            line: usize::try_from(*line).map_err(|_| damaged())?,
            column: *column as usize,
            offset: *offset,
            too_long: length & TOO_LONG != 0,
            bytes: 0..len,
        })
    }
}

/// Returns the first of the fields of which the same is asked.
const fn asked_as(field: Field) -> Field {
    match field {
        Field::White | Field::Black => Field::White,
        Field::Event | Field::Site => Field::Event,
        Field::Opening | Field::Variation => Field::Opening,
        Field::Date | Field::Result | Field::Eco => field,
    }
}

/// Reads a part of a segment and sees to it that it is whole.
fn part<R: Read + Seek>(file: &mut R, segment: &Segment, part: Part) -> io::Result<Vec<u8>> {
    file.seek(SeekFrom::Start(segment.begin(part)))?;
    let mut bytes = vec![0; segment.len(part)];
    file.read_exact(&mut bytes)?;
    if crc32fast::hash(&bytes) == segment.checksum(part) {
        Ok(bytes)
    } else {
        Err(damaged())
    }
}

fn long_numbers(bytes: &[u8]) -> Vec<u64> {
    let (chunks, _) = bytes.as_chunks();
    chunks
        .iter()
        .map(|chunk| u64::from_le_bytes(*chunk))
        .collect()
}

fn damaged() -> io::Error {
    io::Error::new(io::ErrorKind::InvalidData, "the index is damaged")
}
