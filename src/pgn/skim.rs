//! Quick ways over text that cannot decide where a game ends. What they pass over, the lexer would have
//! read as tokens that change nothing; they stop at the start of a token.

use std::ops::Range;

use super::{brace, pair};

/// How many bytes are looked at in one go.
const STRIDE: usize = 32;
/// How many bytes are looked at one by one before the strides begin.
const FEW: usize = 16;

/// What a byte of movetext is to the skimmer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Class {
    /// A part of a move, a number or a glyph.
    Plain,
    Space,
    LineEnd,
    Brace,
    Open,
    Close,
    Hyphen,
    /// Anything that the lexer should look at.
    Loud,
}

const CLASSES: [Class; 256] = {
    let mut classes = [Class::Plain; 256];
    let mut byte = 0_u8;
    loop {
        classes[byte as usize] = match byte {
            b' ' | b'\t' | 0x0b | 0x0c | 0x1a => Class::Space,
            b'\n' | b'\r' => Class::LineEnd,
            b'{' => Class::Brace,
            b'(' => Class::Open,
            b')' => Class::Close,
            b'-' => Class::Hyphen,
            0..=0x1f | 0x80.. | b'*' | b'/' | b'[' | b';' | b'%' | b'}' => Class::Loud,
            _ => Class::Plain,
        };
        if byte == u8::MAX {
            break classes;
        }
        byte += 1;
    }
};

/// Passes over movetext, from the token at `at`, as long as it holds moves, numbers, glyphs, closed
/// comments and sidelines, and no blank line; counts in `depth` the sidelines that are open.
pub(super) fn movetext(text: &[u8], complete: bool, at: usize, depth: &mut usize) -> usize {
    // No token begins before `floor` that is not passed yet.
    let mut floor = at;
    let mut here = at;
    loop {
        // Between comments stand a few bytes, in bare movetext many.
        let few = plain_len(&text[here..]);
        here += few;
        if few == FEW {
            while let Some(stride) = text.get(here..=here + STRIDE)
                && is_quiet(stride)
            {
                here += STRIDE;
            }
        }
        let Some(byte) = text.get(here) else {
            return word_start(text, floor, here);
        };
        match CLASSES[usize::from(*byte)] {
            Class::Plain | Class::Space => {}
            Class::LineEnd => match next_line(text, here) {
                Some(line) => here = line,
                None => return space_start(text, floor, here),
            },
            Class::Brace => match comment(&text[here..], complete) {
                Some((len, true)) => {
                    here += len;
                    floor = here;
                }
                Some((_, false)) | None => return here,
            },
            Class::Open => {
                let glued = here > floor && !is_space(text[here - 1]);
                match text.get(here + 1) {
                    // A promotion in brackets.
                    _ if glued => return word_start(text, floor, here),
                    // An offer of a draw.
                    None | Some(b' ' | b'=') => return here,
                    Some(_) => {}
                }
                *depth += 1;
                here += 1;
                floor = here;
            }
            Class::Close => {
                *depth = depth.saturating_sub(1);
                here += 1;
                floor = here;
            }
            Class::Hyphen => match text.get(here + 1) {
                // It may be a result.
                None | Some(..=b'9' | 0x80..) => return word_start(text, floor, here),
                Some(_) => here += 1,
            },
            // It may be a space of Unicode, and go together with the spaces before.
            Class::Loud if *byte >= 0x80 && here > floor && is_space(text[here - 1]) => {
                return space_start(text, floor, here);
            }
            Class::Loud => return word_start(text, floor, here),
        }
    }
}

/// Measures a comment, most quickly one that stands on one line, and so holds no tag section.
fn comment(text: &[u8], complete: bool) -> Option<(usize, bool)> {
    match memchr::memchr3(b'}', b'\n', b'\r', text) {
        Some(end) if text[end] == b'}' => Some((end + 1, true)),
        _ => brace::comment(text, complete),
    }
}

/// Passes over well-formed tag pairs that stand each on a line of its own, and gives each one's name and
/// the place of its value to `take`.
pub(super) fn tag_lines(
    text: &[u8],
    mut at: usize,
    mut take: impl FnMut(&[u8], Range<usize>),
) -> usize {
    while let Some(pair) = text.get(at..).and_then(pair::plain) {
        let name = &text[at + pair.name.start..at + pair.name.end];
        take(name, at + pair.value.start..at + pair.value.end);
        let end = at + pair.end;
        at = match text[end..] {
            [b'\n', b'[', ..] => end + 1,
            [b'\r', b'\n', b'[', ..] => end + 2,
            _ => return end,
        };
    }
    at
}

/// Tells whether all but the last of these bytes change nothing. Written so that the compiler looks
/// at all of them at once.
#[allow(
    clippy::needless_bitwise_bool,
    clippy::manual_range_contains,
    reason = "a jump in the loop would keep the compiler from that"
)]
fn is_quiet(stride: &[u8]) -> bool {
    let Some((bytes, next)) = stride
        .first_chunk::<STRIDE>()
        .zip(stride[1..].first_chunk::<STRIDE>())
    else {
        return false;
    };
    let mut loud = false;
    for (byte, next) in bytes.iter().zip(next) {
        let (byte, next) = (*byte, *next);
        let goes_on = (byte == b'\n') & (next >= b'0') & (next < 0x80);
        loud |= (byte >= 0x80)
            | ((byte < b' ') & !goes_on)
            | (byte == b'(')
            | (byte == b')')
            | (byte == b'*')
            | (byte == b'/')
            | (byte == b'%')
            | (byte == b';')
            | (byte == b'[')
            | (byte == b'{')
            | (byte == b'}')
            | ((byte == b'-') & ((next <= b'9') | (next >= 0x80)));
    }
    !loud
}

/// Counts the plain bytes and spaces at the head of `text`, no further than [`FEW`].
fn plain_len(text: &[u8]) -> usize {
    let is_plain = |byte: &&u8| matches!(CLASSES[usize::from(**byte)], Class::Plain | Class::Space);
    text.iter().take(FEW).take_while(is_plain).count()
}

/// Returns where the line after this one begins, if it begins with text and is no `%` line.
fn next_line(text: &[u8], end: usize) -> Option<usize> {
    let line = match text[end..] {
        [b'\r', b'\n', ..] => end + 2,
        _ => end + 1,
    };
    let first = *text.get(line)?;
    match CLASSES[usize::from(first)] {
        Class::Space | Class::LineEnd => None,
        Class::Loud if first == b'%' || first >= 0x80 => None,
        _ => Some(line),
    }
}

fn is_space(byte: u8) -> bool {
    matches!(CLASSES[usize::from(byte)], Class::Space | Class::LineEnd)
}

/// Goes back from `here` to the start of its word, or of a glyph glued to it.
fn word_start(text: &[u8], floor: usize, here: usize) -> usize {
    let begins = |byte: &u8| is_space(*byte) || *byte == b'$';
    match text[floor..here].iter().rposition(begins) {
        None => floor,
        Some(at) if text[floor + at] == b'$' => floor + at,
        Some(at) => floor + at + 1,
    }
}

/// Goes back from `here` to the start of the white space that it stands in.
fn space_start(text: &[u8], floor: usize, here: usize) -> usize {
    let before = text[floor..here].iter().rposition(|byte| !is_space(*byte));
    before.map_or(floor, |word| floor + word + 1)
}
