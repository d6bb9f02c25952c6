//! Quick ways over text that cannot decide where a game ends. What they pass over, the lexer would have
//! read as tokens that change nothing; they stop at the start of a token.
//!
//! [`to_next_game`] goes from the first moves of a game to the next game in one go, where it is plain that
//! nothing between can begin one. A tag pair outside of comments ends the movetext before it. Between the moves and
//! the next quotation mark no tag pair can stand, so the pair that this mark belongs to is the next game's first,
//! provided that:
//!
//! - no comment is open there: going back, the first brace is a closing one, or there is none;
//! - the token before it is a word, so that no comment there goes with the next game;
//! - no other word is a result: behind one, movetext can begin a game too.

use std::ops::Range;

use memchr::{memchr, memchr2, memchr3_iter, memrchr2, memrchr3};

use super::{comment, tag_pair};

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
            b' ' | b'\t' | 0x0b | 0x0c | 0x1a | 0 => Class::Space,
            b'\n' | b'\r' => Class::LineEnd,
            b'{' => Class::Brace,
            b'(' => Class::Open,
            b')' => Class::Close,
            b'-' | b':' => Class::Hyphen,
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
            Class::Brace => match comment_len(&text[here..], complete) {
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
fn comment_len(text: &[u8], complete: bool) -> Option<(usize, bool)> {
    match memchr::memchr3(b'}', b'\n', b'\r', text) {
        Some(end) if text[end] == b'}' => Some((end + 1, true)),
        _ => comment::measure(text, complete),
    }
}

/// Passes over well-formed tag pairs that stand each on a line of its own, and gives the places of each one's
/// name and value to `take`.
pub(super) fn tag_lines(
    text: &[u8],
    mut at: usize,
    mut take: impl FnMut(Range<usize>, Range<usize>),
) -> usize {
    while let Some(pair) = text.get(at..).and_then(tag_pair::plain) {
        let placed = |part: Range<usize>| at + part.start..at + part.end;
        take(placed(pair.name), placed(pair.value));
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
            | (((byte == b'-') | (byte == b':')) & ((next <= b'9') | (next >= 0x80)));
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

/// Returns where the next game begins, or from where on it is worth while to try again. The movetext of a
/// game is known to go on with the token at `at`.
pub(super) fn to_next_game(text: &[u8], at: usize) -> Result<usize, usize> {
    let Some(quote) = memchr(b'"', &text[at..]) else {
        return Err(text.len());
    };
    let here = &text[at..];
    first_tag(&here[..quote])
        .filter(|tags| is_plain(&here[..*tags]))
        .map(|tags| at + tags)
        .ok_or(at + quote + 1)
}

/// Returns where the tag begins that a text ends with, up to its quotation mark: `[Name ` on a new line.
fn first_tag(text: &[u8]) -> Option<usize> {
    let name = text.strip_suffix(b" ")?;
    let len = name
        .iter()
        .rev()
        .take_while(|byte| byte.is_ascii_alphanumeric());
    let tags = name.len().checked_sub(1 + len.count())?;
    (matches!(name[tags..], [b'[', _, ..]) && text[..tags].ends_with(b"\n")).then_some(tags)
}

/// Tells whether all of this movetext belongs to one game, and nothing of it to the game that follows.
fn is_plain(movetext: &[u8]) -> bool {
    let movetext = movetext.trim_ascii_end();
    let ends_with_word = movetext
        .last()
        .is_some_and(|last| last.is_ascii_alphanumeric() || *last == b'*');
    let braces = memrchr2(b'{', b'}', movetext);
    let is_open = braces.is_some_and(|brace| movetext[brace] == b'{');
    ends_with_word
        && !is_open
        && ends_outside_lines(movetext)
        && !holds_result(before_last_word(movetext))
}

/// Tells whether the last line is neither an escaped one nor a comment.
fn ends_outside_lines(movetext: &[u8]) -> bool {
    let line = match memrchr3(b'\n', b'\r', b';', movetext) {
        Some(end) if movetext[end] != b'\n' => return false,
        Some(end) => &movetext[end + 1..],
        None => movetext,
    };
    !line.starts_with(b"%")
}

fn before_last_word(movetext: &[u8]) -> &[u8] {
    let space = movetext.iter().rposition(u8::is_ascii_whitespace);
    &movetext[..space.unwrap_or(0)]
}

/// Tells whether this may hold a result in any of the spellings of [`outcome`](super::outcome::outcome).
fn holds_result(text: &[u8]) -> bool {
    let in_ascii = memchr3_iter(b'*', b'-', b'/', text).any(|sign| {
        let beside = (text[sign.saturating_sub(1)], text.get(sign + 1));
        match text[sign] {
            b'-' => matches!(beside, (b'1', Some(b'0')) | (b'0' | b'2', Some(b'1'))),
            b'/' => matches!(beside, (b'1', Some(b'2'))),
            _ => true,
        }
    });
    // A clock reads almost so.
    let with_colon = memchr::memchr_iter(b':', text).any(|sign| {
        let beside = (text[sign.saturating_sub(1)], text.get(sign + 1));
        let ends = text
            .get(sign + 2)
            .is_none_or(|next| !next.is_ascii_digit() && *next != b':');
        matches!(beside, (b'1', Some(b'0')) | (b'0', Some(b'1'))) && ends
    });
    // A half, or a dash, in UTF-8.
    in_ascii || with_colon || memchr2(0xbd, 0xe2, text).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    const NEXT: &str = "\n\n[Event \"B\"]\n";

    fn ahead(movetext: &str) -> Result<usize, usize> {
        to_next_game(format!("{movetext}{NEXT}").as_bytes(), 0)
    }

    #[test]
    fn what_is_plain_is_passed_over_up_to_the_next_tags() {
        for movetext in [
            "1. e4 e5 1-0",
            "1. e4 {a plan} (1. d4 {; [%eval -0.5]} d5) e5 $1\n2. Nf3 *",
            "1. e4 O-O-O Nf3",
            "1. e4 } ; {\ne5 {x} 0-1",
            "{Grünfeld} 1. d4 1/2-1/2",
        ] {
            assert_eq!(ahead(movetext), Ok(movetext.len() + 2), "{movetext}");
        }
    }

    #[test]
    fn what_may_begin_a_game_or_go_with_the_next_one_is_left_to_the_lexer() {
        for movetext in [
            "1. e4 {an open comment 1-0",
            "1. e4 {a comment at the end}",
            "1. e4 *\n\n1. d4 *",
            "1. e4 1-0 1. d4 1-0",
            "1. e4 1/2 1. d4 1-0",
            "1. e4 ½ 1. d4 1-0",
            "1. e4 1–0 1. d4 1-0",
            "1. e4 1:0 1. d4 1-0",
            "1. e4 ; so 1-0",
            "1. e4\n\n%so 1-0",
            "1. e4\r\r%so 1-0",
            "1. e4 {see [Event",
        ] {
            assert!(ahead(movetext).is_err(), "{movetext}");
        }
    }

    #[test]
    fn a_skip_in_vain_is_tried_again_behind_the_mark_that_stopped_it() {
        assert_eq!(to_next_game(b"e4 {\"so\"} e5", 0), Err(5));
        assert_eq!(to_next_game(b"e4 {\"so\"} e5", 5), Err(8));
        assert_eq!(to_next_game(b"e4 {\"so\"} e5", 8), Err(12));
    }
}
