//! Comments: where one ends, closed or not, and what it says.

use memchr::{memchr2, memchr2_iter};

use super::text::decoded;

/// How far behind a tag section a brace is looked for, to tell a comment that quotes a game from
/// one that was never closed.
const QUOTED: usize = 1 << 16;

/// The tags that plainly begin a tag section.
const FIRST_TAGS: [&[u8]; 8] = [
    b"Event", b"Site", b"Date", b"Round", b"White", b"Black", b"Result", b"FEN",
];

/// Returns the length of the comment at the head of `text` and whether it is closed, or `None`
/// where more text is needed.
///
/// A comment ends at its first `}` (PGN standard, 5). Where a blank line and a tag section come
/// first, the comment was forgotten open, and it ends before the tags; unless the next brace within
/// 64 KiB is a `}`: then the comment quotes a game.
pub(super) fn measure(text: &[u8], complete: bool) -> Option<(usize, bool)> {
    for mark in memchr2_iter(b'}', b'[', text) {
        if text[mark] == b'}' {
            return Some((mark + 1, true));
        }
        if begins_tags(text, mark) {
            return before_tags(text, mark, complete);
        }
    }
    complete.then_some((text.len(), false))
}

/// Decides about a comment that holds what looks like the first tag of a game at `tags`.
fn before_tags(text: &[u8], tags: usize, complete: bool) -> Option<(usize, bool)> {
    let end = text.len().min(tags + QUOTED);
    match memchr2(b'{', b'}', &text[tags..end]) {
        Some(at) if text[tags + at] == b'}' => Some((tags + at + 1, true)),
        Some(_) => Some((tags, false)),
        None if complete || end == tags + QUOTED => Some((tags, false)),
        None => None,
    }
}

/// Tells whether the bracket at `at` stands after a blank line and plainly begins a tag section.
pub(super) fn begins_tags(text: &[u8], at: usize) -> bool {
    let space = &text[text[..at].trim_ascii_end().len()..at];
    let after_blank_line = matches!(space.last(), Some(b'\n' | b'\r')) && line_ends(space) > 1;
    after_blank_line
        && FIRST_TAGS.iter().any(|name| {
            text[at + 1..].strip_prefix(*name).is_some_and(|rest| {
                rest[..rest.len().min(16)].trim_ascii_start().first() == Some(&b'"')
            })
        })
}

/// Counts line ends, no further than two.
pub(super) fn line_ends(space: &[u8]) -> usize {
    memchr2_iter(b'\n', b'\r', space)
        .filter(|at| !(space[*at] == b'\n' && *at > 0 && space[at - 1] == b'\r'))
        .take(2)
        .count()
}

/// Takes the marks off a comment; its line ends become LF. `None` where it holds white space at most.
pub(super) fn comment_text(token: &[u8]) -> Option<String> {
    let text = decoded(inside(token));
    let text = text.trim();
    if text.is_empty() {
        None
    } else if text.contains('\r') {
        Some(text.replace("\r\n", "\n").replace('\r', "\n"))
    } else {
        Some(text.to_owned())
    }
}

/// Takes the marks off a comment.
pub(super) fn inside(token: &[u8]) -> &[u8] {
    match token {
        [b'{', inside @ .., b'}'] | [b'{' | b';', inside @ ..] => inside,
        all => all,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comment_ends_at_its_first_brace() {
        assert_eq!(measure(b"{a {b} c}", true), Some((6, true)));
        assert_eq!(measure(b"{a\n[Event \"x\"]\n}", true), Some((16, true)));
    }

    #[test]
    fn a_comment_left_open_ends_before_the_next_tag_section() {
        for end in ["\n", "\r\n", "\r"] {
            let open = format!("{{a{end}{end}");
            let text = format!("{open}[Event \"x\"]{end}{end}1. e4 {{fine}} *");
            assert_eq!(measure(text.as_bytes(), true), Some((open.len(), false)));
        }
        assert_eq!(
            measure(b"{a\n\n[Event \"x\"] 1. e4 *", true),
            Some((4, false))
        );
        assert_eq!(measure(b"{a", true), Some((2, false)));
    }

    #[test]
    fn a_comment_may_quote_a_game() {
        let text = b"{see\n\n[Event \"x\"]\n\n1. e4 *} e5";
        assert_eq!(measure(text, true), Some((text.len() - 3, true)));
    }

    #[test]
    fn a_comment_that_may_go_on_is_not_decided() {
        assert_eq!(measure(b"{a", false), None);
        assert_eq!(measure(b"{a\n\n[Event \"x\"] 1. e4", false), None);
        assert_eq!(
            measure(b"{a\n\n[Event \"x\"] 1. e4 {", false),
            Some((4, false))
        );
    }
}
