//! The splitter: where one game ends and the next begins.

use std::collections::VecDeque;
use std::io::{self, Read};

use encoding_rs::Encoding;

use super::block::{Block, Span};
use super::comment;
use super::passage::{Cursor, Passage};
use super::source::Source;
use super::split::{Seen, Split};
use super::token::{Kind, Lexer};
use crate::game::Place;

/// The longest game that is read, in bytes: 16 MiB. Of a longer one its beginning is kept.
const LONGEST_GAME: usize = 16 << 20;

/// The most games in a block: so many are no longer than their tags.
const MOST_IN_BLOCK: usize = 2048;

/// How much is kept of a game that is too long, in bytes: 64 KiB.
const KEPT: usize = 64 << 10;

/// The games of a file, one by one, each as its own text. Memory is held for a few games at a time.
///
/// This alone decides where a game begins, for every use of a file:
///
/// - A tag pair after movetext begins a game, wherever on a line it stands. So does a tag pair
///   after a blank line that names `Event`, or a tag that this game has already, once more: a
///   game may have tags and no moves.
/// - A line of prose before a game or behind its result is no game of its own.
/// - A comment begins nothing, whatever it holds; a comment that was forgotten open ends where a
///   blank line and a tag section come before its brace (a `}` that is the next brace within
///   64 KiB of those tags closes it all the same: the comment quotes a game).
/// - A comment, and a `%` line, after a blank line and straight before a game belong to that game.
/// - A blank line inside movetext ends nothing, unless the first line behind it that is no prose counts from `1.`
///   again, outside of sidelines and after a number beyond 1.
/// - A result ends a game when movetext follows that stands after a blank line or counts from 1
///   again. Otherwise what follows is still the same game (and a fault there). A result
///   inside a sideline ends nothing.
///
/// A file of blank lines and comments alone holds no game. A game that is longer than
/// 16 MiB ends after its first 64 KiB (and less, where a token stands across), and the next
/// one begins where a tag section follows a blank line.
///
/// Where the reader fails, the games before are given first, then the failure. The game that breaks
/// off there is left out, unless it has come to its result.
///
/// ```
/// use sansvoir::pgn::Collection;
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
    state: State,
    split: Split,
    /// Where in the game at hand the next token begins.
    at: usize,
    line_start: bool,
    done: bool,
    /// Games that have been split off and not been given.
    read: VecDeque<Passage>,
}

/// Between what the splitter stands.
#[derive(Clone, Copy, Debug)]
enum State {
    /// After a game, or before the first.
    Between,
    /// Inside a game.
    Inside,
    /// Behind the kept part of a game that is too long; nothing begins before the byte `from`.
    Lost { from: usize },
}

/// What the text that has been read gives.
enum Next {
    /// A game.
    Game(Span),
    /// So many bytes more are needed to tell.
    Short(usize),
    /// There is no game any more.
    End,
}

impl<R: Read> Collection<R> {
    /// Splits the text that `reader` gives. UTF-16 is recognized by its byte-order mark.
    pub const fn new(reader: R) -> Collection<R> {
        Collection {
            source: Source::new(reader),
            cursor: Cursor::new(Place::new(1, 1)),
            number: 0,
            state: State::Between,
            split: Split::new(),
            at: 0,
            line_start: true,
            done: false,
            read: VecDeque::new(),
        }
    }

    /// Reads the text in an encoding that it does not tell by itself. Without this each field is
    /// UTF-8, and where it cannot be that, Windows-1252.
    pub fn encoded_in(mut self, encoding: &'static Encoding) -> Collection<R> {
        self.source.decode_as(encoding);
        self
    }

    /// Reads the games of which the text is there, at least one, and goes on reading in `spare`, a
    /// buffer that is no longer needed. Returns `None` after the last.
    ///
    /// # Errors
    ///
    /// What the reader says, after the games before it; that the file is no text.
    pub fn block(&mut self, spare: Vec<u8>) -> Option<io::Result<Block>> {
        let mut games = Vec::new();
        while !self.done && games.len() < MOST_IN_BLOCK {
            match self.step() {
                Next::Game(span) => games.push(span),
                Next::Short(more) if games.is_empty() => {
                    if let Err(error) = self.source.fill(more) {
                        self.done = true;
                        return Some(Err(error));
                    }
                }
                Next::Short(_) => break,
                Next::End => self.done = true,
            }
        }
        if games.is_empty() {
            return self.source.broken.take().map(Err);
        }
        let text = self.source.hand_over(spare);
        Some(Ok(Block { text, games }))
    }

    /// Decides by the text that is there.
    fn step(&mut self) -> Next {
        loop {
            let next = match self.state {
                State::Between => self.begin(),
                State::Inside => Some(self.inside()),
                State::Lost { from } => self.find_next(from),
            };
            if let Some(next) = next {
                return next;
            }
        }
    }

    /// Moves to the next token that is not white space; a game begins there.
    fn begin(&mut self) -> Option<Next> {
        let lexer = Lexer {
            text: self.source.text(),
            line_start: true,
            complete: self.source.complete,
        };
        // Most games begin with a tag, straight after the game before: that is read only once.
        let is_tag = lexer.text.first() == Some(&b'[');
        let first = if is_tag { None } else { lexer.token(0) };
        let space = match first {
            _ if is_tag => 0,
            Some(token) if token.kind == Kind::Space => token.span.end,
            Some(_) => 0,
            None if lexer.complete => return Some(Next::End),
            // Space that may go on can be taken piece by piece.
            None if lexer.text.first().is_some_and(u8::is_ascii_whitespace) => {
                lexer.text.len() - lexer.text.trim_ascii_start().len()
            }
            // What is so long is no space.
            None if lexer.text.len() > LONGEST_GAME => 0,
            None => return Some(Next::Short(lexer.text.len())),
        };
        if space > 0 {
            self.pass(space);
        } else {
            self.state = State::Inside;
            self.split = Split::new();
            self.at = 0;
            self.line_start = self.cursor.place.column == 1;
        }
        None
    }

    /// Leaves text behind.
    fn pass(&mut self, len: usize) {
        self.cursor.advance(&self.source.text()[..len]);
        self.source.start += len;
    }

    /// Looks for the end of the game at hand.
    fn inside(&mut self) -> Next {
        let text = self.source.text();
        let view = &text[..text.len().min(LONGEST_GAME)];
        let lexer = Lexer {
            text: view,
            line_start: self.line_start,
            complete: self.source.complete && view.len() == text.len(),
        };
        let end = loop {
            if let Some(end) = self.split.skip_ahead(lexer, self.at) {
                break end;
            }
            self.at = self.split.skim(lexer, self.at);
            match lexer.token(self.at) {
                Some(token) => match self.split.boundary(lexer, &token) {
                    Some(end) => break end,
                    None => self.at = token.span.end,
                },
                None if lexer.complete => {
                    // What stands before a break is a game only when it has come to its result.
                    if self.source.broken.is_some() && self.split.seen != Seen::Result {
                        return Next::End;
                    }
                    break self.at;
                }
                // After a result, it is the next game that is too long.
                None if view.len() < text.len()
                    && self.split.seen == Seen::Result
                    && (self.split.blank || view[self.at] == b'[') =>
                {
                    break self.split.preface.unwrap_or(self.at);
                }
                None if view.len() < text.len() => {
                    let kept = kept_len(lexer);
                    self.state = State::Lost {
                        from: self.at - kept,
                    };
                    return Next::Game(self.game(kept, true));
                }
                None => {
                    // No more than shows whether the game is too long.
                    let most = LONGEST_GAME + 1 - view.len();
                    return Next::Short((view.len() - self.at).clamp(1, most));
                }
            }
        };
        self.state = State::Between;
        if self.split.seen == Seen::Nothing {
            return Next::End;
        }
        Next::Game(self.game(end, false))
    }

    fn game(&mut self, len: usize, too_long: bool) -> Span {
        let Place { line, column } = self.cursor.place;
        let start = self.source.start;
        self.pass(len);
        self.number += 1;
        let mut values = self.split.values.clone();
        // The tags may reach beyond what is kept.
        values.keep(len);
        Span {
            number: self.number,
            line,
            column,
            bytes: start..start + len,
            too_long,
            values,
        }
    }

    /// Looks for the next tag section after a game that is too long.
    fn find_next(&mut self, from: usize) -> Option<Next> {
        /// The most that is looked back for a blank line, and forward for a tag's name.
        const AROUND: usize = 1024;
        let text = self.source.text();
        let complete = self.source.complete;
        let sure = if complete {
            text.len()
        } else {
            text.len().saturating_sub(AROUND)
        };
        let from = from.min(sure);
        let found = memchr::memchr_iter(b'[', &text[from..sure])
            .map(|bracket| from + bracket)
            .find(|bracket| comment::begins_tags(text, *bracket));
        let passed = match found {
            Some(tags) => tags,
            None if complete => text.len(),
            None => sure.saturating_sub(AROUND),
        };
        self.pass(passed);
        if found.is_some() || complete {
            self.state = State::Between;
            return None;
        }
        self.state = State::Lost {
            from: sure - passed,
        };
        Some(Next::Short(1))
    }
}

/// How much of a game that is too long is kept: whole tokens.
fn kept_len(lexer: Lexer<'_>) -> usize {
    let mut kept = 0;
    while let Some(token) = lexer.token(kept)
        && token.span.end <= KEPT
    {
        kept = token.span.end;
    }
    kept
}

impl<R: Read> Iterator for Collection<R> {
    type Item = io::Result<Passage>;

    fn next(&mut self) -> Option<io::Result<Passage>> {
        while self.read.is_empty() {
            let block = match self.block(Vec::new())? {
                Ok(block) => block,
                Err(error) => return Some(Err(error)),
            };
            let passages = block.games().iter().map(|span| block.passage(span));
            self.read.extend(passages);
        }
        self.read.pop_front().map(Ok)
    }
}
