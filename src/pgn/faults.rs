//! Where the faults of one game are gathered.

use super::cursor::Cursor;
use super::fault::shown;
use super::token::{Kind, Lexer, Token};
use super::{Cost, Fault, Passage, Reason};
use crate::game::{MoveNumber, Place};

/// The most faults that are listed of one game, those that cost moves aside.
const MOST: usize = 100;

/// The tokens of a passage that are neither space nor escape.
#[derive(Clone, Debug)]
pub(super) struct Tokens<'a> {
    lexer: Lexer<'a>,
    at: usize,
}

impl<'a> Tokens<'a> {
    pub(super) fn new(passage: &'a Passage) -> Tokens<'a> {
        Tokens {
            lexer: Lexer::whole(&passage.text, passage.column == 1),
            at: 0,
        }
    }

    /// Returns the text that follows the token read last.
    pub(super) fn ahead(&self) -> &'a [u8] {
        &self.lexer.text[self.at..]
    }
}

impl Iterator for Tokens<'_> {
    type Item = Token;

    fn next(&mut self) -> Option<Token> {
        // Between two words stands one space, as a rule.
        if let Some([b' ', b'!'..=b'~']) = self.lexer.text.get(self.at..self.at + 2) {
            self.at += 1;
        }
        loop {
            let token = self.lexer.token(self.at)?;
            self.at = token.span.end;
            if !matches!(token.kind, Kind::Space | Kind::Escape) {
                return Some(token);
            }
        }
    }
}

/// The places of a passage's bytes in the file, counted from one to the next that is asked for.
#[derive(Clone, Debug)]
pub(super) struct Places<'a> {
    passage: &'a Passage,
    counted: usize,
    cursor: Cursor,
}

impl<'a> Places<'a> {
    pub(super) const fn new(passage: &'a Passage) -> Places<'a> {
        Places {
            passage,
            counted: 0,
            cursor: Cursor::new(Place::new(passage.line, passage.column)),
        }
    }

    /// Returns the place of the byte at `at`, where a token begins or ends.
    pub(super) fn of(&mut self, at: usize) -> Place {
        if at < self.counted {
            *self = Places::new(self.passage);
        }
        self.cursor.advance(&self.passage.text[self.counted..at]);
        self.counted = at;
        self.cursor.place()
    }
}

/// The faults of one game, in the order in which they are found.
#[derive(Clone, Debug)]
pub(super) struct Faults<'a> {
    passage: &'a Passage,
    places: Places<'a>,
    list: Vec<Fault>,
    remarks: usize,
    /// Where the fault stands that stands for all that are not listed.
    more: Option<usize>,
    concern_moves: bool,
}

impl<'a> Faults<'a> {
    pub(super) const fn new(passage: &'a Passage) -> Faults<'a> {
        Faults {
            passage,
            places: Places::new(passage),
            list: Vec::new(),
            remarks: 0,
            more: None,
            concern_moves: false,
        }
    }

    /// Adds a fault. Beyond [`MOST`], one stands for all the others, at the greatest cost of them.
    pub(super) fn add(
        &mut self,
        token: &Token,
        due: Option<(usize, MoveNumber)>,
        reason: Reason,
        cost: Cost,
    ) {
        self.concern_moves |= reason.concerns_a_move();
        if cost != Cost::Moves {
            self.remarks += 1;
            if let Some(more) = self.more {
                let more = &mut self.list[more];
                more.cost = more.cost.max(cost);
                return;
            }
        }
        let reason = if self.remarks > MOST && cost != Cost::Moves {
            self.more = Some(self.list.len());
            Reason::More
        } else {
            reason
        };
        let span = token.span.clone();
        let place = self.places.of(span.start);
        // No more of a long token is decoded than can be shown.
        let mut end = span.end.min(span.start + 400);
        while end < span.end && matches!(self.passage.text[end], 0x80..=0xbf) {
            end -= 1;
        }
        let first_line = self.passage.decoded(span.start..end);
        let first_line = first_line.lines().next().unwrap_or_default();
        self.list.push(Fault {
            game: self.passage.number,
            place,
            span,
            ply: due.map_or(0, |(ply, _)| ply),
            number: due.map(|(_, number)| number),
            token: shown(first_line),
            reason,
            cost,
        });
    }

    /// Tells whether a word has been found that is no legal move.
    pub(super) const fn concern_moves(&self) -> bool {
        self.concern_moves
    }

    /// Counts all that was found, listed or not.
    #[cfg(test)]
    pub(super) fn count(&self) -> usize {
        self.list.len() + self.remarks
    }

    /// Returns the faults in the order of the text.
    pub(super) fn into_sorted(mut self) -> Vec<Fault> {
        self.list.sort_by_key(|fault| fault.span.start);
        self.list
    }
}
