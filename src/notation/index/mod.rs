//! An index of a collection: where each game begins, and the fields by which it is found.
//!
//! The games lie in segments of up to 262,144. A segment holds its values column by column, so that a
//! search reads no more than it asks for, and each text once. Every part carries a checksum (CRC-32);
//! what does not agree is no index.
//!
//! ```text
//! magic, length of the key (u32), key, segments, directory, checksum of it and of the next byte (u32),
//! whether offsets are places in the file (u8), length of the directory (u64), magic
//! ```
//!
//! All numbers are little-endian.

mod lookup;
mod segment;
mod writer;

pub use lookup::{Entry, Index};
pub use writer::IndexWriter;

/// The first and the last bytes of an index; the digit is the version.
const MAGIC: [u8; 8] = *b"sansvoi1";
