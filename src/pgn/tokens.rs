//! The tokens of one game, one after the other.

use super::passage::Passage;
use super::token::{Kind, Lexer, Token};

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

    /// Returns the text before a token.
    pub(super) fn before(&self, token: &Token) -> &'a [u8] {
        &self.lexer.text[..token.span.start]
    }

    /// Goes on at another byte.
    pub(super) const fn go_to(&mut self, at: usize) {
        self.at = at;
    }

    /// Returns the text that follows the token read last.
    #[inline]
    pub(super) fn ahead(&self) -> &'a [u8] {
        &self.lexer.text[self.at..]
    }
}

impl Iterator for Tokens<'_> {
    type Item = Token;

    #[inline]
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
