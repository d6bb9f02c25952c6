//! The tokens of PGN text (PGN standard, 7): one lexer for the splitter and for the strict pass.

use std::ops::Range;

use super::comment;
use super::prose::{self, LONGEST_MARKUP, markup_len};
use super::signs::parted;
use super::tag_pair::{self, TagPairError};

/// How many bytes beyond a token its reading may depend on.
const BEYOND: usize = LONGEST_MARKUP;

/// What a stretch of text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// White space, line ends, byte-order marks.
    Space,
    /// A line that begins with `%` (PGN standard, 6).
    Escape,
    /// A comment in braces; not closed where the text or the game ends before its brace.
    Brace { closed: bool },
    /// A comment from `;` to the end of its line.
    LineComment,
    /// A tag pair, well formed or nearly so.
    Pair,
    /// Something in square brackets that is no tag pair.
    Bracket,
    /// `(`
    Open,
    /// `)`
    Close,
    /// A tag or a sign of HTML.
    Markup,
    /// A line of prose.
    Prose,
    /// `(=)`, the offer of a draw (FIDE Laws, C.12).
    DrawOffer,
    /// `$` and digits, maybe none.
    Nag,
    /// `}` without a comment to close.
    StrayBrace,
    /// Anything else: a move, a number, a result, a sign, or nonsense.
    Word,
}

impl Kind {
    /// Tells whether the tag section ends before such a token.
    pub(super) const fn is_movetext(self) -> bool {
        match self {
            Kind::Space
            | Kind::Escape
            | Kind::Brace { closed: true }
            | Kind::LineComment
            | Kind::Pair
            | Kind::Bracket
            | Kind::Markup
            | Kind::Prose => false,
            Kind::Brace { closed: false }
            | Kind::Open
            | Kind::Close
            | Kind::DrawOffer
            | Kind::Nag
            | Kind::StrayBrace
            | Kind::Word => true,
        }
    }
}

/// A stretch of text with its meaning to the lexer. Tokens tile the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub(super) kind: Kind,
    pub(super) span: Range<usize>,
}

impl Token {
    /// Stands for the end of a text, where nothing is left to be read.
    pub(super) fn end_of(text: &[u8]) -> Token {
        let end = text.trim_ascii_end().len();
        Token {
            kind: Kind::Space,
            span: end..end,
        }
    }
}

/// Reads tokens from a text that may still grow.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lexer<'a> {
    pub(super) text: &'a [u8],
    /// Whether the text begins at the start of a line.
    pub(super) line_start: bool,
    /// Whether the text is all there is.
    pub(super) complete: bool,
}

impl<'a> Lexer<'a> {
    /// Reads the text of a whole game.
    pub(super) const fn whole(text: &'a [u8], line_start: bool) -> Lexer<'a> {
        Lexer {
            text,
            line_start,
            complete: true,
        }
    }

    /// Returns the token that begins at `at`, or `None` at the end of the text and where more text
    /// is needed to tell.
    #[inline]
    pub(super) fn token(&self, at: usize) -> Option<Token> {
        let (kind, end) = self.read(at)?;
        (self.complete || end + BEYOND <= self.text.len()).then_some(Token {
            kind,
            span: at..end,
        })
    }

    #[inline]
    fn read(&self, at: usize) -> Option<(Kind, usize)> {
        let rest = &self.text[at..];
        if let Some(space) = spaces(rest) {
            return Some((Kind::Space, at + space));
        }
        let (kind, len) = match *rest.first()? {
            b'%' if self.starts_line(at) => (Kind::Escape, line_len(rest)),
            b';' => (Kind::LineComment, line_len(rest)),
            b'{' => {
                let (len, closed) = comment::measure(rest, self.complete)?;
                (Kind::Brace { closed }, len)
            }
            b'}' => (Kind::StrayBrace, 1),
            b'[' => match tag_pair::read(rest, self.complete) {
                Ok(pair) => (Kind::Pair, pair.end),
                Err(TagPairError::Short) => return None,
                Err(TagPairError::Other) => (Kind::Bracket, bracket_len(rest)),
            },
            b'(' => match draw_offer(rest) {
                Some(len) => (Kind::DrawOffer, len),
                None => (Kind::Open, 1),
            },
            b')' => (Kind::Close, 1),
            b'*' => (Kind::Word, 1),
            b'<' | b'&' if let Some(len) = markup_len(rest) => (Kind::Markup, len),
            b'$' => {
                let digits = rest[1..].iter().take_while(|b| b.is_ascii_digit()).count();
                (Kind::Nag, 1 + digits)
            }
            b'0' | b'1' | b'O' | b'o'
                if let [_, b' ' | b'/', ..] = rest
                    && let Some(len) = parted(rest) =>
            {
                (Kind::Word, len)
            }
            _ if self.starts_line(at) || self.heads_line(at) => {
                match prose::line(rest, self.complete)? {
                    0 => (Kind::Word, word_len(rest)),
                    len => (Kind::Prose, len),
                }
            }
            _ => (Kind::Word, word_len(rest)),
        };
        Some((kind, at + len))
    }

    /// Tells whether nothing but tags of HTML stands before this place in its line.
    #[inline]
    fn heads_line(&self, at: usize) -> bool {
        let before = &self.text[..at];
        if before.last() != Some(&b'>') {
            return false;
        }
        let line = before
            .iter()
            .rposition(|byte| matches!(byte, b'\n' | b'\r'));
        let mut tags = &before[line.map_or(0, |end| end + 1)..];
        while let Some(len) = tags.first().and_then(|_| markup_len(tags)) {
            tags = tags[len..].trim_ascii_start();
        }
        tags.is_empty()
    }

    #[inline]
    pub(super) fn starts_line(&self, at: usize) -> bool {
        match at.checked_sub(1) {
            Some(before) => matches!(self.text[before], b'\n' | b'\r'),
            None => self.line_start,
        }
    }
}

/// Returns the length of the white space at the head of `text`, or `None` where there is none.
#[inline]
fn spaces(text: &[u8]) -> Option<usize> {
    let mut len = 0;
    while let Some(more) = space_len(&text[len..]) {
        len += more;
    }
    (len > 0).then_some(len)
}

/// Returns the length of the one space at the head of `text`: ASCII white space, the zeros with which
/// a rescued file is filled up, the end-of-file mark of old systems, a byte-order mark, or a space of Unicode that pasted text brings along.
#[inline]
fn space_len(text: &[u8]) -> Option<usize> {
    match *text.first()? {
        b' ' | b'\t'..=b'\r' | 0x1a | 0 => Some(1),
        0xc2 if text.get(1) == Some(&0xa0) => Some(2),
        0xe2 if text.get(1) == Some(&0x80) => match *text.get(2)? {
            0x80..=0x8f | 0xa8 | 0xa9 | 0xaf => Some(3),
            _ => None,
        },
        0xef if text.get(1..3) == Some(b"\xbb\xbf") => Some(3),
        _ => None,
    }
}

fn line_len(text: &[u8]) -> usize {
    memchr::memchr2(b'\n', b'\r', text).unwrap_or(text.len())
}

/// Something in brackets ends with them, or with its line; where another bracket or a comment
/// comes first, it is the bracket alone.
fn bracket_len(text: &[u8]) -> usize {
    let end = text[1..]
        .iter()
        .position(|b| matches!(b, b']' | b'[' | b'{' | b'\n' | b'\r'));
    match end.map(|end| (end, text[end + 1])) {
        Some((end, b']')) => end + 2,
        Some((end, b'\n' | b'\r')) => end + 1,
        Some(_) => 1,
        None => text.len(),
    }
}

fn draw_offer(text: &[u8]) -> Option<usize> {
    let close = text.iter().take(9).position(|byte| *byte == b')')?;
    let inside = text[1..close].iter().filter(|byte| **byte != b' ');
    inside.eq(b"=").then_some(close + 1)
}

/// The bytes that a word plainly goes on with.
const GOES_ON: [bool; 256] = {
    let mut goes_on = [false; 256];
    let mut byte = b'!';
    while byte <= b'~' {
        goes_on[byte as usize] = !matches!(
            byte,
            b'{' | b'}' | b';' | b'(' | b')' | b'$' | b'*' | b'[' | b'<' | b'&'
        );
        byte += 1;
    }
    goes_on
};

#[inline]
fn word_len(text: &[u8]) -> usize {
    let mut len = 0;
    while let Some(byte) = text.get(len) {
        if GOES_ON[usize::from(*byte)] {
            len += 1;
            continue;
        }
        match byte {
            b'(' if is_promotion(&text[..len], &text[len..]) => {
                len += memchr::memchr(b')', &text[len..]).map_or(1, |close| close + 1);
            }
            b'{' | b'}' | b';' | b'(' | b')' | b'$' | b'*' => break,
            b'[' if len > 0 => break,
            b'<' | b'&' if markup_len(&text[len..]).is_some() => break,
            b if (*b <= b' ' || *b >= 0x80) && space_len(&text[len..]).is_some() => break,
            _ => len += 1,
        }
    }
    len.max(1)
}

/// Tells whether `after` opens as the `(Q)` of `e8(Q)` does.
fn is_promotion(before: &[u8], after: &[u8]) -> bool {
    let square = before.strip_suffix(b"=").unwrap_or(before);
    matches!(square, [.., b'a'..=b'h', b'1' | b'8'])
        && match after {
            [_, letter, b')', ..] => letter.is_ascii_alphabetic(),
            // A figurine, U+2654 to U+265F.
            [_, 0xe2, 0x99, 0x94..=0x9f, b')', ..] => true,
            _ => false,
        }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tokens(text: &str) -> Vec<(Kind, &str)> {
        let lexer = Lexer::whole(text.as_bytes(), true);
        let mut at = 0;
        let mut tokens = Vec::new();
        while let Some(token) = lexer.token(at) {
            assert_eq!(token.span.start, at, "tokens tile the text");
            assert!(token.span.end > at, "tokens are not empty");
            at = token.span.end;
            if token.kind != Kind::Space {
                tokens.push((token.kind, &text[token.span]));
            }
        }
        assert_eq!(at, text.len(), "nothing is left over");
        tokens
    }

    #[test]
    fn glued_tokens_come_apart() {
        use Kind::{Brace, Close, Nag, Open, Word};
        assert_eq!(
            tokens("1.e4$2Nf3{so}(e8(Q)d4)*"),
            [
                (Word, "1.e4"),
                (Nag, "$2"),
                (Word, "Nf3"),
                (Brace { closed: true }, "{so}"),
                (Open, "("),
                (Word, "e8(Q)d4"),
                (Close, ")"),
                (Word, "*"),
            ]
        );
    }

    #[test]
    fn a_draw_offer_is_no_sideline() {
        for offer in ["(=)", "( = )"] {
            assert_eq!(tokens(offer), [(Kind::DrawOffer, offer)]);
        }
        assert_eq!(tokens("(=")[0].0, Kind::Open);
    }

    #[test]
    fn a_percent_sign_escapes_only_at_the_start_of_a_line() {
        assert_eq!(
            tokens("%x y\n%z\r% (\ne4 % d4"),
            [
                (Kind::Escape, "%x y"),
                (Kind::Escape, "%z"),
                (Kind::Escape, "% ("),
                (Kind::Word, "e4"),
                (Kind::Word, "%"),
                (Kind::Word, "d4"),
            ]
        );
    }

    #[test]
    fn spaces_of_unicode_and_byte_order_marks_part_words() {
        assert_eq!(
            tokens("\u{feff}e4\u{a0}e5\u{2003}d4\u{200b}d5\u{1a}"),
            [
                (Kind::Word, "e4"),
                (Kind::Word, "e5"),
                (Kind::Word, "d4"),
                (Kind::Word, "d5"),
            ]
        );
    }

    #[test]
    fn brackets_that_hold_no_pair_are_told_apart() {
        assert_eq!(
            tokens("[Event \"x\"][Site] [%clk 1] [ ["),
            [
                (Kind::Pair, "[Event \"x\"]"),
                (Kind::Bracket, "[Site]"),
                (Kind::Bracket, "[%clk 1]"),
                (Kind::Bracket, "["),
                (Kind::Bracket, "["),
            ]
        );
    }

    proptest::proptest! {
        #![proptest_config(crate::random::kept())]

        #[test]
        fn tokens_tile_any_text(text in proptest::collection::vec(
            proptest::sample::select(b"{}()[]\"\\;%$*=Q1-0. \0\n\rea8N\xef\xbb\xbf\xe2\x99\x94\xc2\xa0E".to_vec()),
            0..80,
        )) {
            let lexer = Lexer::whole(&text, true);
            let mut at = 0;
            while let Some(token) = lexer.token(at) {
                assert!(token.span.start == at && token.span.end > at);
                at = token.span.end;
            }
            assert_eq!(at, text.len());
        }
    }
}
