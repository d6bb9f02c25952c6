//! The splitter: where one game ends and the next begins.

use std::io::{self, BufRead};

use super::cursor::Cursor;
use super::outcome::outcome;
use super::source::Source;
use super::token::{Kind, Lexer, Token};
use super::{Passage, pair};
use crate::game::Place;

/// The games of a file, one by one, each as its own text. Memory is held for one game at a time.
///
/// This alone decides where a game begins, for every use of a file:
///
/// - A tag pair after movetext begins a game, wherever on a line it stands. So does a tag pair
///   after a blank line that names `Event`, or the tag that this game began with, once more: a
///   game may have tags and no moves.
/// - A comment begins nothing, whatever it holds; a comment that was forgotten open ends where a
///   blank line and a tag section come before its brace (a `}` that is the next brace within
///   64 KiB of those tags closes it all the same: the comment quotes a game).
/// - A comment, and a `%` line, after a blank line and straight before a game belong to that game.
/// - A blank line inside movetext ends nothing.
/// - A result ends a game when movetext follows that stands after a blank line or counts from 1
///   again. Otherwise what follows is still the same game (and a fault there). A result
///   inside a sideline ends nothing.
///
/// A file of blank lines and comments alone holds no game.
///
/// ```
/// use sansvoir::notation::Collection;
///
/// let file = "[Event \"Club evening\"]\n\n1. e4 e5 *\n\n[Event \"Return game\"]\n\n1. d4 *\n";
/// let games: Vec<_> = Collection::new(file.as_bytes()).collect::<Result<_, _>>()?;
/// assert_eq!(games.len(), 2);
/// assert_eq!((games[1].number, games[1].line), (2, 5));
/// # Ok::<_, std::io::Error>(())
/// ```
#[derive(Debug)]
pub struct Collection<R> {
    source: Source<R>,
    cursor: Cursor,
    number: usize,
    failed: bool,
}

impl<R: BufRead> Collection<R> {
    /// Splits the text that `reader` gives. UTF-16 is recognized by its byte-order mark.
    pub const fn new(reader: R) -> Collection<R> {
        Collection {
            source: Source::new(reader),
            cursor: Cursor::new(Place::new(1, 1)),
            number: 0,
            failed: false,
        }
    }

    fn passage(&mut self) -> io::Result<Option<Passage>> {
        if !self.skip_space()? {
            return Ok(None);
        }
        let line_start = self.cursor.place().column == 1;
        let mut split = Split::default();
        let mut at = 0;
        let end = loop {
            let lexer = Lexer {
                text: self.source.text(),
                line_start,
                complete: self.source.is_complete(),
            };
            match lexer.token(at) {
                Some(token) => match split.boundary(lexer, &token) {
                    Some(end) => break end,
                    None => at = token.span.end,
                },
                None if lexer.complete => break at,
                None => self.source.fill(lexer.text.len() - at)?,
            }
        };
        let text = self.source.text()[..end].to_vec();
        let Place { line, column } = self.cursor.place();
        self.source.consume(end);
        if split.holds_nothing() {
            return Ok(None);
        }
        self.cursor.advance(&text);
        self.number += 1;
        Ok(Some(Passage {
            number: self.number,
            line,
            column,
            text,
        }))
    }

    /// Moves to the next token that is not white space, and tells whether there is one.
    fn skip_space(&mut self) -> io::Result<bool> {
        loop {
            let lexer = Lexer {
                text: self.source.text(),
                line_start: true,
                complete: self.source.is_complete(),
            };
            match lexer.token(0) {
                Some(Token {
                    kind: Kind::Space,
                    span,
                }) => {
                    self.cursor.advance(&lexer.text[span.clone()]);
                    self.source.consume(span.end);
                }
                Some(_) => return Ok(true),
                None if lexer.complete => return Ok(false),
                None => self.source.fill(lexer.text.len())?,
            }
        }
    }
}

impl<R: BufRead> Iterator for Collection<R> {
    type Item = io::Result<Passage>;

    fn next(&mut self) -> Option<io::Result<Passage>> {
        if self.failed {
            return None;
        }
        let next = self.passage().transpose();
        self.failed = matches!(next, None | Some(Err(_)));
        next
    }
}

/// What of a game has been seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Seen {
    /// Comments and `%` lines at most.
    #[default]
    Nothing,
    /// An unclosed comment.
    OpenComment,
    /// Tags.
    Tags,
    /// Movetext.
    Movetext,
    /// A result.
    Result,
}

/// The decision where a game ends, token by token.
#[derive(Debug, Default)]
struct Split {
    seen: Seen,
    /// The name of the first tag.
    first_tag: Vec<u8>,
    /// Whether a blank line stands between here and the last token that is no comment.
    blank: bool,
    /// Where the comments begin that belong to the next game, if one follows.
    preface: Option<usize>,
    /// How many sidelines are open.
    depth: usize,
}

impl Split {
    const fn holds_nothing(&self) -> bool {
        matches!(self.seen, Seen::Nothing)
    }

    /// Takes one more token and tells where this game ends, if the token shows it.
    fn boundary(&mut self, lexer: Lexer<'_>, token: &Token) -> Option<usize> {
        let bytes = &lexer.text[token.span.clone()];
        match token.kind {
            Kind::Space => {
                self.blank |= line_ends(bytes) > 1;
                return None;
            }
            Kind::Escape | Kind::LineComment | Kind::Brace { closed: true } => {
                if self.blank {
                    self.preface.get_or_insert(token.span.start);
                }
                return None;
            }
            Kind::Brace { closed: false } => {
                if self.seen == Seen::Nothing {
                    self.seen = Seen::OpenComment;
                }
                // Such a comment ends with a blank line, or with the file.
                self.blank = true;
                self.preface = None;
                return None;
            }
            Kind::Pair | Kind::Bracket => {
                if self.tags_begin_a_game(lexer, token) {
                    return Some(self.preface.unwrap_or(token.span.start));
                }
            }
            Kind::Word => {
                let is_result = outcome(bytes).is_some();
                if self.seen == Seen::Result && !is_result && (self.blank || counts_from_1(bytes)) {
                    return Some(self.preface.unwrap_or(token.span.start));
                }
                if self.seen != Seen::Result {
                    self.seen = Seen::Movetext;
                }
                if is_result && self.depth == 0 {
                    self.seen = Seen::Result;
                }
            }
            Kind::Open | Kind::Close | Kind::DrawOffer | Kind::Nag | Kind::StrayBrace => {
                if token.kind == Kind::Open {
                    self.depth += 1;
                } else if token.kind == Kind::Close {
                    self.depth = self.depth.saturating_sub(1);
                }
                if self.seen != Seen::Result {
                    self.seen = Seen::Movetext;
                }
            }
        }
        self.blank = false;
        self.preface = None;
        None
    }

    fn tags_begin_a_game(&mut self, lexer: Lexer<'_>, token: &Token) -> bool {
        let text = &lexer.text[token.span.clone()];
        let pair = (token.kind == Kind::Pair).then(|| pair::pair(text, true).ok());
        let name = pair.flatten().map(|pair| &text[pair.name]);
        match (self.seen, name) {
            (Seen::Nothing | Seen::OpenComment, name) => {
                self.seen = Seen::Tags;
                self.first_tag = name.unwrap_or_default().to_vec();
                false
            }
            (Seen::Tags, Some(name)) => self.blank && (name == self.first_tag || name == b"Event"),
            (Seen::Tags | Seen::Movetext, None) => false,
            (Seen::Movetext | Seen::Result, Some(_)) => true,
            (Seen::Result, None) => lexer.starts_line(token.span.start),
        }
    }
}

/// Counts line ends, no further than two.
fn line_ends(space: &[u8]) -> usize {
    memchr::memchr2_iter(b'\n', b'\r', space)
        .filter(|at| !(space[*at] == b'\n' && *at > 0 && space[at - 1] == b'\r'))
        .take(2)
        .count()
}

fn counts_from_1(word: &[u8]) -> bool {
    word.strip_prefix(b"1").is_some_and(|rest| {
        rest.is_empty() || rest.starts_with(b".") || rest.starts_with("…".as_bytes())
    })
}
