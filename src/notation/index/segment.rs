//! The parts of a segment, and the directory that tells where they lie.

use super::super::Field;

/// The most games in a segment.
pub(super) const MOST_GAMES: usize = 1 << 18;
/// The most bytes of text in a segment, save that the last game's are added.
pub(super) const MOST_TEXT: usize = 4 << 20;
/// Set in the length of a game that is too long and was cut.
pub(super) const TOO_LONG: u32 = 1 << 31;

/// A part of a segment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// For each game the text of a field: its number from 1, or 0 for none (u32).
    Field(Field),
    /// For each game how many bytes stand before it (u64).
    Offset,
    /// For each game its line (u64).
    Line,
    /// For each game its column (u32).
    Column,
    /// For each game its length in bytes (u32).
    Length,
    /// Where each text ends (u32).
    Ends,
    /// The texts.
    Text,
}

impl Part {
    /// How many parts there are.
    pub(super) const COUNT: usize = 15;

    /// All parts, in the order of the file.
    pub(super) fn all() -> impl Iterator<Item = Part> {
        let others = [
            Part::Offset,
            Part::Line,
            Part::Column,
            Part::Length,
            Part::Ends,
            Part::Text,
        ];
        Field::ALL.into_iter().map(Part::Field).chain(others)
    }

    /// Returns which part it is.
    pub(super) const fn place(self) -> usize {
        match self {
            Part::Field(field) => field as usize,
            Part::Offset => 9,
            Part::Line => 10,
            Part::Column => 11,
            Part::Length => 12,
            Part::Ends => 13,
            Part::Text => 14,
        }
    }
}

/// Where a segment lies and how much it holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Segment {
    pub(super) position: u64,
    pub(super) games: u32,
    pub(super) texts: u32,
    pub(super) text_bytes: u32,
    pub(super) checksums: [u32; Part::COUNT],
}

impl Segment {
    /// How many bytes an entry of the directory takes.
    pub(super) const ENTRY: usize = 8 + 3 * 4 + 4 * Part::COUNT;

    pub(super) const fn checksum(&self, part: Part) -> u32 {
        self.checksums[part.place()]
    }

    pub(super) const fn set_checksum(&mut self, part: Part, checksum: u32) {
        self.checksums[part.place()] = checksum;
    }

    /// Returns the length of a part in bytes.
    pub(super) const fn len(&self, part: Part) -> usize {
        let games = self.games as usize;
        match part {
            Part::Field(_) | Part::Column | Part::Length => games * 4,
            Part::Offset | Part::Line => games * 8,
            Part::Ends => self.texts as usize * 4,
            Part::Text => self.text_bytes as usize,
        }
    }

    /// Returns where a part begins in the file.
    pub(super) fn begin(&self, part: Part) -> u64 {
        let before = Part::all().take(part.place());
        self.position + before.map(|part| self.len(part) as u64).sum::<u64>()
    }

    pub(super) fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = self.position.to_le_bytes().to_vec();
        for number in [self.games, self.texts, self.text_bytes] {
            bytes.extend(number.to_le_bytes());
        }
        for checksum in self.checksums {
            bytes.extend(checksum.to_le_bytes());
        }
        bytes
    }

    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Segment> {
        let (position, rest) = bytes.split_first_chunk()?;
        let mut numbers = numbers(rest);
        let mut segment = Segment {
            position: u64::from_le_bytes(*position),
            games: numbers.next()?,
            texts: numbers.next()?,
            text_bytes: numbers.next()?,
            checksums: [0; Part::COUNT],
        };
        for checksum in &mut segment.checksums {
            *checksum = numbers.next()?;
        }
        Some(segment)
    }
}

/// The checksum of a directory and of whether offsets are places in the file.
pub(super) fn directory_checksum(directory: &[u8], as_written: u8) -> u32 {
    let mut hasher = crc32fast::Hasher::new();
    hasher.update(directory);
    hasher.update(&[as_written]);
    hasher.finalize()
}

/// Reads numbers of four bytes.
pub(super) fn numbers(bytes: &[u8]) -> impl Iterator<Item = u32> {
    let (chunks, _) = bytes.as_chunks();
    chunks.iter().map(|chunk| u32::from_le_bytes(*chunk))
}
