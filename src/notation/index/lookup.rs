//! Looking games up in an index.

use std::io::{self, Read, Seek, SeekFrom};
use std::ops::{ControlFlow, RangeInclusive};

use super::super::{Field, Finder, Heading, Span};
use super::MAGIC;
use super::segment::{MOST_GAMES, Part, Segment, TOO_LONG, directory_checksum};

/// The longest directory that is believed, in bytes: that of 100,000 segments, whose texts take 400 GB.
const LONGEST_DIRECTORY: u64 = 100_000 * Segment::ENTRY as u64;
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
        if directory_checksum(&directory, *as_written) != u32::from_le_bytes(*checksum) {
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
                let mut open = Open::new(&mut self.file, segment, from == to)?;
                let mut asked = open.asked(finder)?;
                for number in from..=to {
                    let game = number - first;
                    if open.fits(finder, &mut asked, game)?
                        && take(&open.entry(game, number, with_place)?).is_break()
                    {
                        return Ok(());
                    }
                }
            }
            first += games;
        }
        Ok(())
    }
}

/// A segment of which parts have been read, as they lie in the file.
struct Open<'a, R> {
    file: &'a mut R,
    segment: &'a Segment,
    ends: Vec<u8>,
    text: String,
    /// The columns that entries are made of, as far as they were asked for.
    columns: [Option<Vec<u8>>; Part::COUNT],
    /// Where one column after the other is read when no more than one entry is made.
    scratch: Vec<u8>,
    for_one: bool,
}

/// A way to meet a condition: one of its fields must fit.
struct AskedOf {
    fields: Vec<(Field, Vec<u8>)>,
    /// Whether each text fits, by its number, as far as that is known; at 0 whether none does.
    known: Vec<Option<bool>>,
}

impl<'a, R: Read + Seek> Open<'a, R> {
    /// Reads the texts of a segment; `for_one` when at most one entry will be made.
    fn new(file: &'a mut R, segment: &'a Segment, for_one: bool) -> io::Result<Open<'a, R>> {
        let ends = part(file, segment, Part::Ends)?;
        let text = String::from_utf8(part(file, segment, Part::Text)?).map_err(|_| damaged())?;
        Ok(Open {
            file,
            segment,
            ends,
            text,
            columns: Default::default(),
            scratch: Vec::new(),
            for_one,
        })
    }

    fn column(&mut self, part_of: Part) -> io::Result<&[u8]> {
        if self.for_one {
            read_part(self.file, self.segment, part_of, &mut self.scratch)?;
            return Ok(&self.scratch);
        }
        if self.columns[part_of.place()].is_none() {
            self.columns[part_of.place()] = Some(self.part(part_of)?);
        }
        Ok(self.columns[part_of.place()].as_deref().unwrap_or_default())
    }

    fn part(&mut self, part_of: Part) -> io::Result<Vec<u8>> {
        part(self.file, self.segment, part_of)
    }

    /// Reads what the finder asks of: for each condition the ways to meet it.
    fn asked(&mut self, finder: &Finder) -> io::Result<Vec<Vec<AskedOf>>> {
        let mut way = |fields: &&[Field]| {
            let columns = fields
                .iter()
                .map(|field| Ok((*field, self.part(Part::Field(*field))?)));
            Ok(AskedOf {
                fields: columns.collect::<io::Result<_>>()?,
                known: vec![None; self.segment.texts as usize + 1],
            })
        };
        let condition = |ways: &[&[Field]]| ways.iter().map(&mut way).collect();
        finder.asked().map(condition).collect()
    }

    fn fits(&self, finder: &Finder, asked: &mut [Vec<AskedOf>], game: usize) -> io::Result<bool> {
        for ways in asked {
            if !self.meets(finder, ways, game)? {
                return Ok(false);
            }
        }
        Ok(true)
    }

    fn meets(&self, finder: &Finder, ways: &mut [AskedOf], game: usize) -> io::Result<bool> {
        for AskedOf { fields, known } in ways {
            for (field, column) in fields {
                let text = number(column, game)? as usize;
                let known = known.get_mut(text).ok_or_else(damaged)?;
                let fits = match *known {
                    Some(fits) => fits,
                    None => *known.insert(finder.fits(*field, self.text(text)?)),
                };
                if fits {
                    return Ok(true);
                }
            }
        }
        Ok(false)
    }

    fn text(&self, text: usize) -> io::Result<Option<&str>> {
        let Some(at) = text.checked_sub(1) else {
            return Ok(None);
        };
        let begin = match at.checked_sub(1) {
            Some(before) => number(&self.ends, before)?,
            None => 0,
        };
        let span = begin as usize..number(&self.ends, at)? as usize;
        self.text.get(span).map(Some).ok_or_else(damaged)
    }

    fn entry(&mut self, game: usize, number_of_game: usize, place: bool) -> io::Result<Entry<'_>> {
        let span = if place {
            self.place(game, number_of_game)?
        } else {
            Span::numbered(number_of_game)
        };
        let mut numbers = [0; Field::LISTED.len()];
        for (text, field) in numbers.iter_mut().zip(Field::LISTED) {
            *text = number(self.column(Part::Field(field))?, game)?;
        }
        let mut texts = [None; Field::ALL.len()];
        for (text, field) in numbers.into_iter().zip(Field::LISTED) {
            texts[field as usize] = self.text(text as usize)?;
        }
        Ok(Entry {
            heading: Heading::from_fields(|field| texts[field as usize]),
            span,
        })
    }

    fn place(&mut self, game: usize, number_of_game: usize) -> io::Result<Span> {
        let offset = long_number(self.column(Part::Offset)?, game)?;
        let line = long_number(self.column(Part::Line)?, game)?;
        let column = number(self.column(Part::Column)?, game)?;
        let length = number(self.column(Part::Length)?, game)?;
        Ok(Span {
            number: number_of_game,
            line: usize::try_from(line).map_err(|_| damaged())?,
            column: column as usize,
            offset,
            too_long: length & TOO_LONG != 0,
            bytes: 0..(length & !TOO_LONG) as usize,
        })
    }
}

fn part<R: Read + Seek>(file: &mut R, segment: &Segment, part: Part) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    read_part(file, segment, part, &mut bytes)?;
    Ok(bytes)
}

/// Reads a part of a segment into `bytes` and sees to it that it is whole.
fn read_part<R: Read + Seek>(
    file: &mut R,
    segment: &Segment,
    part: Part,
    bytes: &mut Vec<u8>,
) -> io::Result<()> {
    file.seek(SeekFrom::Start(segment.begin(part)))?;
    bytes.resize(segment.len(part), 0);
    file.read_exact(bytes)?;
    if crc32fast::hash(bytes) == segment.checksum(part) {
        Ok(())
    } else {
        Err(damaged())
    }
}

fn number(column: &[u8], at: usize) -> io::Result<u32> {
    let (numbers, _) = column.as_chunks();
    let bytes = numbers.get(at).ok_or_else(damaged)?;
    Ok(u32::from_le_bytes(*bytes))
}

fn long_number(column: &[u8], at: usize) -> io::Result<u64> {
    let (numbers, _) = column.as_chunks();
    let bytes = numbers.get(at).ok_or_else(damaged)?;
    Ok(u64::from_le_bytes(*bytes))
}

fn damaged() -> io::Error {
    io::Error::new(io::ErrorKind::InvalidData, "the index is damaged")
}
