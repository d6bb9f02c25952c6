//! One tag pair, `[Name "value"]` (PGN standard, 8.1), well formed or nearly so.

use std::borrow::Cow;
use std::ops::Range;

use super::text::decoded;

/// The longest name of a tag, and the most white space beside it, in bytes.
const LONGEST_NAME: usize = 255;

/// What no name of a tag holds, beside white space.
const NO_NAME: &[u8] = b"\"[](){};%$<>\\";

/// How far a value's end is looked for byte by byte.
const SHORT_VALUE: usize = 24;

/// A tag pair's parts, as spans from its `[` on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct TagPair {
    pub(super) name: Range<usize>,
    pub(super) value: Range<usize>,
    /// Where the pair ends.
    pub(super) end: usize,
    pub(super) flaw: Option<TagPairFlaw>,
}

impl TagPair {
    /// Places the parts in a text in which the pair begins at `at`.
    pub(super) fn behind(self, at: usize) -> TagPair {
        TagPair {
            name: at + self.name.start..at + self.name.end,
            value: at + self.value.start..at + self.value.end,
            end: at + self.end,
            flaw: self.flaw,
        }
    }
}

/// What a tag pair lacks that could be understood nevertheless.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TagPairFlaw {
    /// A quotation mark inside the value has no backslash before it.
    #[error("a quotation mark inside a tag's value: write \\\" for it")]
    BareQuote,
    /// The value's closing quotation mark is missing.
    #[error("the tag's closing quotation mark is missing: write \"] at its end")]
    NoClosingQuote,
    /// The closing bracket is missing.
    #[error("the tag's closing bracket is missing: write ] at its end")]
    NoBracket,
}

/// Why there is no pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TagPairError {
    /// More text is needed to tell.
    Short,
    /// The bracket holds something else.
    Other,
}

/// Reads the tag pair at the head of `text` if it is written as nearly all are: `[Name "value"]` without
/// an escape.
#[inline]
pub(super) fn plain(text: &[u8]) -> Option<TagPair> {
    let [b'[', name @ ..] = text else {
        return None;
    };
    let is_plain = |byte: &&u8| byte.is_ascii_alphanumeric() || **byte == b'_';
    let len = name.iter().take_while(is_plain).count();
    let [b' ', b'"', value @ ..] = &name[len..] else {
        return None;
    };
    if !(1..=LONGEST_NAME).contains(&len) {
        return None;
    }
    // Most values are so short that a search made ready takes longer.
    let few = &value[..value.len().min(SHORT_VALUE)];
    let mark = few
        .iter()
        .position(|byte| matches!(byte, b'"' | b'\n' | b'\r'));
    let mark = mark.or_else(|| memchr::memchr3(b'"', b'\n', b'\r', value))?;
    let escaped = mark > 0 && value[mark - 1] == b'\\';
    (matches!(value[mark..], [b'"', b']', ..]) && !escaped).then_some(TagPair {
        name: 1..1 + len,
        value: len + 3..len + 3 + mark,
        end: len + 3 + mark + 2,
        flaw: None,
    })
}

/// Reads the tag pair at the head of `text`, which begins with `[`.
pub(super) fn read(text: &[u8], complete: bool) -> Result<TagPair, TagPairError> {
    if let Some(pair) = plain(text) {
        return Ok(pair);
    }
    let name = blanks(text, 1);
    let name = name..name
        + text[name..]
            .iter()
            .take(LONGEST_NAME + 1)
            .take_while(|byte| !byte.is_ascii_whitespace() && !NO_NAME.contains(byte))
            .count();
    let quote = blanks(text, name.end);
    match text.get(quote) {
        None if !complete && name.len() <= LONGEST_NAME => return Err(TagPairError::Short),
        Some(b'"') if (1..=LONGEST_NAME).contains(&name.len()) => {}
        _ => return Err(TagPairError::Other),
    }
    let value = quote + 1;
    let mut last_quote = None;
    let mut at = value;
    let (value_end, end, flaw) = loop {
        let found = memchr::memchr3(b'"', b'\n', b'\r', &text[at..]).map(|found| at + found);
        match found {
            None if !complete => return Err(TagPairError::Short),
            Some(mark) if text[mark] == b'"' => {
                let next = blanks(text, mark + 1);
                match text.get(next) {
                    None if !complete => return Err(TagPairError::Short),
                    Some(b']') if closes(text, value, mark, next) => {
                        break (mark, next + 1, last_quote.map(|_| TagPairFlaw::BareQuote));
                    }
                    // The next pair begins although this one lacks its bracket.
                    Some(b'[') if !escaped(text, value, mark) => {
                        break (mark, mark + 1, Some(TagPairFlaw::NoBracket));
                    }
                    _ => {}
                }
                if !escaped(text, value, mark) {
                    last_quote = Some(mark);
                }
                at = mark + 1;
            }
            line_end => {
                let line_end = line_end.unwrap_or(text.len());
                if let Some(mark) = last_quote {
                    // The pair ends where its line does, if next to nothing stands there, so that a
                    // mistyped bracket does not become movetext.
                    let is_bare = text[mark + 1..line_end].trim_ascii().len() <= 2;
                    let end = if is_bare { line_end } else { mark + 1 };
                    break (mark, end, Some(TagPairFlaw::NoBracket));
                }
                let line = text[value..line_end].trim_ascii_end();
                let line = line.strip_suffix(b"]").unwrap_or(line);
                let value_end = value + line.len();
                break (value_end, line_end, Some(TagPairFlaw::NoClosingQuote));
            }
        }
    };
    let value = value..value_end;
    Ok(TagPair {
        name,
        value,
        end,
        flaw,
    })
}

/// Tells whether the mark closes the value: it is not escaped, or nothing else on the line could.
fn closes(text: &[u8], value: usize, mark: usize, bracket: usize) -> bool {
    if !escaped(text, value, mark) {
        return true;
    }
    let line = &text[bracket + 1..];
    let blanks = line
        .iter()
        .take(8)
        .take_while(|b| matches!(b, b' ' | b'\t'));
    matches!(line.get(blanks.count()), None | Some(b'\n' | b'\r'))
}

fn escaped(text: &[u8], value: usize, mark: usize) -> bool {
    let backslashes = text[value..mark]
        .iter()
        .rev()
        .take_while(|b| **b == b'\\')
        .count();
    backslashes % 2 == 1
}

fn blanks(text: &[u8], from: usize) -> usize {
    let space = text[from.min(text.len())..]
        .iter()
        .take(LONGEST_NAME)
        .take_while(|byte| byte.is_ascii_whitespace());
    from + space.count()
}

/// Decodes a value: `\"` is a quotation mark, `\\` a backslash (PGN standard, 7).
#[inline]
pub(super) fn unescape(value: &[u8]) -> Cow<'_, str> {
    let text = decoded(value);
    if memchr::memchr(b'\\', text.as_bytes()).is_none() {
        return text;
    }
    let mut plain = String::with_capacity(text.len());
    let mut chars = text.chars().peekable();
    while let Some(char) = chars.next() {
        let escapes = char == '\\';
        match chars.next_if(|next| escapes && matches!(next, '"' | '\\')) {
            Some(literal) => plain.push(literal),
            None => plain.push(char),
        }
    }
    plain.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (&str, String, &str, Option<TagPairFlaw>) {
        let pair = super::read(text.as_bytes(), true).unwrap();
        let value = unescape(&text.as_bytes()[pair.value]).into_owned();
        (&text[pair.name], value, &text[pair.end..], pair.flaw)
    }

    #[test]
    fn a_pair_may_be_spread_out_or_pressed_together() {
        for text in [
            "[Event \"x\"]",
            "[Event\"x\"]",
            "[ Event\t\"x\" ]",
            "[\nEvent\r\n\"x\"\n]",
        ] {
            assert_eq!(read(text), ("Event", "x".to_owned(), "", None), "{text:?}");
        }
    }

    #[test]
    fn escapes_in_a_value_are_resolved() {
        let (_, value, rest, flaw) = read(r#"[Event "the \"big\" one \\ two"] e4"#);
        assert_eq!(
            (value.as_str(), rest, flaw),
            (r#"the "big" one \ two"#, " e4", None)
        );
    }

    #[test]
    fn a_value_may_end_in_a_backslash() {
        assert_eq!(read(r#"[Site "C:\chess\"]"#).1, r"C:\chess\");
        assert_eq!(read(r#"[Site "C:\"]"#).1, r"C:\");
    }

    #[test]
    fn flawed_pairs_are_understood_and_named() {
        let flaw = |text| read(text).3;
        assert_eq!(
            read("[Event \"the \"big\" one\"]\n"),
            (
                "Event",
                "the \"big\" one".to_owned(),
                "\n",
                Some(TagPairFlaw::BareQuote)
            )
        );
        assert_eq!(
            flaw("[Event \"x]\n[Site \"y\"]"),
            Some(TagPairFlaw::NoClosingQuote)
        );
        assert_eq!(read("[Event \"x]\n").1, "x");
        assert_eq!(flaw("[Event \"x\"\n"), Some(TagPairFlaw::NoBracket));
        assert_eq!(read("[Event \"x\")\ne4").2, "\ne4");
        assert_eq!(read("[Event \"x\" [Site \"y\"]").2, " [Site \"y\"]");
        assert_eq!(read("[Event \"x\" 1. e4").2, " 1. e4");
    }

    #[test]
    fn what_is_no_pair_is_told_apart_from_what_is_cut_short() {
        for text in ["[]", "[Event]", "[%clk 0:01]", "[[", "[Event x]"] {
            assert_eq!(
                super::read(text.as_bytes(), false),
                Err(TagPairError::Other),
                "{text}"
            );
        }
        for text in ["[", "[Ev", "[Event ", "[Event \"x", "[Event \"x\""] {
            assert_eq!(
                super::read(text.as_bytes(), false),
                Err(TagPairError::Short),
                "{text}"
            );
        }
    }
}
