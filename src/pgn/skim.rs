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
//! - no other word is a result, and no line begins with the number 1: behind the one, and behind a blank line with the
//!   other, movetext can begin a game too.

use std::ops::Range;
use std::sync::LazyLock;

use memchr::memmem::Finder;
use memchr::{memchr, memchr_iter, memchr2, memchr3_iter, memrchr2, memrchr3};

use super::tag_pair;

/// Passes over well-formed tag pairs that stand each on a line of its own, and gives the places of each one's
/// name and value to `take`.
pub(super) fn tag_lines(
    text: &[u8],
    mut at: usize,
    mut take: impl FnMut(Range<usize>, Range<usize>),
) -> usize {
    while let Some(pair) = text.get(at..).and_then(tag_pair::plain) {
        let pair = pair.behind(at);
        take(pair.name, pair.value);
        at = match text[pair.end..] {
            [b'\n', b'[', ..] => pair.end + 1,
            [b'\r', b'\n', b'[', ..] => pair.end + 2,
            _ => return pair.end,
        };
    }
    at
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
    let [name @ .., b' '] = text else {
        return None;
    };
    let len = name
        .iter()
        .rev()
        .take_while(|byte| byte.is_ascii_alphanumeric());
    let tags = name.len().checked_sub(1 + len.count())?;
    (matches!(name[tags..], [b'[', _, ..]) && text[..tags].last() == Some(&b'\n')).then_some(tags)
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
        && FIRST_MOVE.find(movetext).is_none()
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

/// A line that may count its moves from 1.
static FIRST_MOVE: LazyLock<Finder<'static>> = LazyLock::new(|| Finder::new("\n1."));

static BLANK_LINE: LazyLock<Finder<'static>> = LazyLock::new(|| Finder::new("\n\n"));

/// Tells whether this may hold a result in any of the spellings of [`outcome`](super::outcome::outcome), or such a line
/// behind another mark than `\n`.
fn holds_result(text: &[u8]) -> bool {
    let in_ascii = memchr3_iter(b'*', b'-', b'/', text).any(|sign| {
        let beside = (&text[..sign], &text[sign + 1..]);
        match text[sign] {
            b'-' => matches!(
                beside,
                ([.., b'1'] | [.., b'.', b'5'], [b'0', ..])
                    | ([.., b'0' | b'2'], [b'1', ..])
                    | ([.., b'0'..=b'2', b' '], [b' ', ..])
            ),
            b'/' => matches!(beside, ([.., b'1'], [b'2', ..])),
            _ => true,
        }
    });
    // Before a blank line one may have a colon; a half, or a dash, is not in ASCII.
    let is_break =
        |end: usize| text[end..].starts_with(b"\r\n\r\n") || text[end..].starts_with(b"\r1.");
    in_ascii
        || BLANK_LINE.find(text).is_some()
        || memchr_iter(b'\r', text).any(is_break)
        || memchr2(0xbd, 0xe2, text).is_some()
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
            "1. e4 1:0\n\n1. d4 1-0",
            "1. e4 ; so 1-0",
            "1. e4\n\n%so 1-0",
            "1. e4 1 - 0 1. d4 1-0",
            "1. e4 1/2 - 1/2 1. d4 1-0",
            "1. e4 0.5-0.5 1. d4 1-0",
            "1. e4 e5 2. d4\n \n1. d4",
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
