//! Characters that hide in a text, steer what shows it, or pile up.

use icu_properties::props::DefaultIgnorableCodePoint;
use icu_properties::{CodePointSetData, CodePointSetDataBorrowed};
use unicode_normalization::char::is_combining_mark;

/// What Unicode calls ignorable by default: joiners, directional marks, selectors, fillers, tags.
const IGNORABLE: CodePointSetDataBorrowed<'static> =
    CodePointSetData::new::<DefaultIgnorableCodePoint>();

/// Tells whether a character shows nothing of its own or could steer a terminal: control characters,
/// ends of lines, marks between lines, what is ignorable by default, and the blank of braille.
#[must_use]
pub fn is_unseen(c: char) -> bool {
    !matches!(c, ' '..='~')
        && (c.is_control()
            || matches!(
                c,
                '\u{2028}' | '\u{2029}' | '\u{2800}' | '\u{fff9}'..='\u{fffb}'
            )
            || IGNORABLE.contains(c))
}

/// Counts the marks that are put over, under or behind a letter, so that no tower of them stands in the
/// lines above and below.
#[derive(Clone, Copy, Debug, Default)]
pub struct Marks(usize);

impl Marks {
    /// A Hebrew letter of a verse can have four; names have two or three.
    const MOST: usize = 4;

    /// Takes the next character of a text, and tells whether it may stand there.
    pub fn fit(&mut self, c: char) -> bool {
        if c.is_ascii() || !is_combining_mark(c) {
            self.0 = 0;
            return true;
        }
        self.0 += 1;
        self.0 <= Marks::MOST
    }
}
