//! The decision where a game ends, token by token.

use std::collections::BTreeSet;
use std::ops::Range;

use super::comment::line_ends;
use super::heading::Values;
use super::signs::outcome;
use super::skim;
use super::tag_pair::{self, TagPair};
use super::token::{Kind, Lexer, Token};

/// What of a game has been seen, the later the more.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Seen {
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

/// The decision, as far as it has come.
#[derive(Debug)]
pub(super) struct Split {
    pub(super) seen: Seen,
    /// The names of the tags before `named_to`, where a tag behind a blank line made that count.
    names: BTreeSet<Vec<u8>>,
    named_to: usize,
    /// Whether a blank line stands between here and the last token that is no comment.
    pub(super) blank: bool,
    /// Where the comments begin that belong to the next game, if one follows.
    pub(super) preface: Option<usize>,
    /// How many sidelines are open.
    depth: usize,
    /// Whether a move number beyond 1 has been seen.
    numbered: bool,
    /// The values of the tags.
    pub(super) values: Values,
    /// Before this byte it is in vain to skip ahead.
    skip_from: usize,
}

impl Split {
    pub(super) const fn new() -> Split {
        Split {
            seen: Seen::Nothing,
            names: BTreeSet::new(),
            named_to: 0,
            blank: false,
            preface: None,
            depth: 0,
            numbered: false,
            values: Values::new(),
            skip_from: 0,
        }
    }

    /// Returns where this game ends, where that is plain at the token at `at` already.
    pub(super) fn skip_ahead(&mut self, lexer: Lexer<'_>, at: usize) -> Option<usize> {
        if self.seen != Seen::Movetext
            || self.blank
            || self.preface.is_some()
            || at < self.skip_from
        {
            return None;
        }
        match skim::to_next_game(lexer.text, at) {
            Ok(end) => Some(end),
            Err(from) => {
                self.skip_from = from;
                None
            }
        }
    }

    /// Passes over tokens that can decide nothing, and returns where the next one begins.
    pub(super) fn skim(&mut self, lexer: Lexer<'_>, at: usize) -> usize {
        if self.blank || self.preface.is_some() || !matches!(self.seen, Seen::Nothing | Seen::Tags)
        {
            return at;
        }
        skim::tag_lines(lexer.text, at, |name, value| {
            self.values.take(&lexer.text[name], value);
            self.seen = Seen::Tags;
        })
    }

    /// Takes one more token and tells where this game ends, if the token shows it.
    pub(super) fn boundary(&mut self, lexer: Lexer<'_>, token: &Token) -> Option<usize> {
        let bytes = &lexer.text[token.span.clone()];
        match token.kind {
            Kind::Space => {
                self.blank |= line_ends(bytes) > 1;
                return None;
            }
            Kind::Prose => {
                self.preface = None;
                return None;
            }
            Kind::Escape | Kind::LineComment | Kind::Brace { closed: true } => {
                if self.blank {
                    self.preface.get_or_insert(token.span.start);
                }
                return None;
            }
            Kind::Brace { closed: false } => {
                self.seen = self.seen.max(Seen::OpenComment);
                self.values.ended = true;
                // Such a comment ends with a blank line, or with the file.
                self.blank = true;
                self.preface = None;
                return None;
            }
            Kind::Pair | Kind::Bracket => {
                if self.tags_begin_a_game(lexer, token) {
                    return Some(self.preface.unwrap_or(token.span.start));
                }
                if let Some(pair) = pair_of(lexer, token) {
                    self.values.take(&lexer.text[pair.name], pair.value);
                }
            }
            Kind::Word => {
                let is_result = outcome(bytes).is_some() && ends_games(lexer, token);
                let begins = match self.seen {
                    Seen::Result => !is_result && (self.blank || counts_from_1(bytes)),
                    _ if !(self.numbered && self.blank && self.depth == 0) => false,
                    _ => is_first(bytes) && lexer.starts_line(token.span.start),
                };
                if begins {
                    return Some(self.preface.unwrap_or(token.span.start));
                }
                self.numbered |= matches!(bytes, [b'2'..=b'9', ..] | [b'1', b'0'..=b'9', ..]);
                if is_result && self.depth == 0 {
                    self.seen = Seen::Result;
                }
            }
            Kind::Open => self.depth += 1,
            Kind::Close => self.depth = self.depth.saturating_sub(1),
            Kind::DrawOffer | Kind::Nag | Kind::StrayBrace | Kind::Markup => {}
        }
        if token.kind.is_movetext() {
            self.seen = self.seen.max(Seen::Movetext);
        }
        self.blank = false;
        self.preface = None;
        None
    }

    /// Tells whether the game has a tag of this name before this one.
    fn is_given(&mut self, lexer: Lexer<'_>, token: &Token, name: &[u8]) -> bool {
        while self.named_to < token.span.start
            && let Some(before) = lexer.token(self.named_to)
        {
            let pair = pair_of(lexer, &before);
            self.names
                .extend(pair.map(|pair| lexer.text[pair.name].to_vec()));
            self.named_to = before.span.end;
        }
        self.names.contains(name)
    }

    fn tags_begin_a_game(&mut self, lexer: Lexer<'_>, token: &Token) -> bool {
        let is_pair = token.kind == Kind::Pair;
        match self.seen {
            Seen::Nothing | Seen::OpenComment => {
                self.seen = Seen::Tags;
                false
            }
            Seen::Tags if self.blank => pair_of(lexer, token).is_some_and(|pair| {
                let name = &lexer.text[pair.name];
                name == b"Event" || self.is_given(lexer, token, name)
            }),
            Seen::Tags => false,
            Seen::Movetext => is_pair,
            Seen::Result => is_pair || lexer.starts_line(token.span.start),
        }
    }
}

/// Reads a tag pair, and places its parts in the text.
fn pair_of(lexer: Lexer<'_>, token: &Token) -> Option<TagPair> {
    let at = token.span.start;
    let is_pair = token.kind == Kind::Pair;
    let pair = is_pair.then(|| tag_pair::read(&lexer.text[token.span.clone()], true).ok())??;
    Some(pair.behind(at))
}

/// Tells whether a result may end a game before its moves go on: one with a colon before a blank line alone, since
/// the clocks in comments are full of colons, and looking at each takes long.
fn ends_games(lexer: Lexer<'_>, token: &Token) -> bool {
    let Range { start, end } = token.span;
    let behind = &lexer.text[end..];
    let is_blank = matches!(
        behind,
        [b'\n', b'\n', ..] | [b'\r', b'\n', b'\r', b'\n', ..]
    );
    is_blank || !lexer.text[start..end].contains(&b':')
}

/// Tells whether this is the number of White's first move.
fn is_first(word: &[u8]) -> bool {
    word.starts_with(b"1.") && !word.starts_with(b"1..")
}

fn counts_from_1(word: &[u8]) -> bool {
    word.strip_prefix(b"1").is_some_and(|rest| {
        rest.is_empty() || rest.starts_with(b".") || rest.starts_with("…".as_bytes())
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Where a token begins, and what is known there: what was seen, whether behind a blank line, how many
    /// sidelines are open.
    type State = (usize, Seen, bool, usize);

    /// Where the first game ends, and every state on the way in which a token was looked at; at the lexer's
    /// pace, or skimming and skipping ahead.
    fn walk(text: &[u8], quick: bool) -> (Option<usize>, Vec<State>) {
        let lexer = Lexer::whole(text, true);
        let mut split = Split::new();
        let mut at = 0;
        let mut states = Vec::new();
        loop {
            if quick {
                if let Some(end) = split.skip_ahead(lexer, at) {
                    return (Some(end), states);
                }
                at = split.skim(lexer, at);
            }
            states.push((at, split.seen, split.blank, split.depth));
            let Some(token) = lexer.token(at) else {
                return (None, states);
            };
            if let Some(end) = split.boundary(lexer, &token) {
                return (Some(end), states);
            }
            at = token.span.end;
        }
    }

    fn piece() -> impl Strategy<Value = &'static str> {
        prop::sample::select(vec![
            "[Event \"A\"]\n",
            "[White \"B \\\" C\"]\r\n",
            "[Broken\n",
            "1. ",
            "e4 ",
            "e5\n",
            "O-O ",
            "0-0 ",
            "1-0",
            "1/2-1/2 ",
            "* ",
            "½ ",
            "\n",
            "\n\n",
            "\r\n",
            "\r",
            " ",
            "\t",
            "{",
            "}",
            "{[%clk 0:01:00]} ",
            "{a\nb}",
            "{see\n\n[Event \"Q\"] *} ",
            "{open\n\n[Event \"R\"]\n",
            "(",
            ")",
            "; x\n",
            "%",
            "$1",
            "$",
            "e8(Q)",
            "(=)",
            "\u{a0}",
            "\u{feff}",
            "♘f3 ",
            "-",
            "e2-e4 ",
            "/",
            "1-0\n\n[White \"D\"]\n",
            "½-½ ",
            "1:0 ",
            "1 - 0 ",
            "0.5-0.5 ",
            "\n\n1. d4 d5 2. c4 ",
            "Round two\n",
            "[Site \"E\"]\n",
            "; {\n",
            "\n%} ",
            "\u{1a}",
            "\u{1}",
            "Nf3 Nf6 Ng1 Ng8 Nf3 Nf6 Ng1 Ng8 Nf3 Nf6 Ng1 Ng8\n12. Nf3 ",
        ])
    }

    /// Pieces of which games are made that may be skipped, and what must keep it from that.
    fn plain_piece() -> impl Strategy<Value = &'static str> {
        prop::sample::select(vec![
            "1. e4 ",
            "e5\n",
            "1 - 0 ",
            "\n \n1. d4 d5 2. c4 ",
            "O-O ",
            "$1 ",
            "(1. d4 d5) ",
            "{so} ",
            "{[%eval -0.5]} ",
            "{quoted \"so\"} ",
            "\n\n{so}\nA fine day {\n",
            "<b> ",
            "{open ",
            "} ",
            "; x {\n",
            "; } x\n",
            "; [Event \"A\"]\n",
            "\n%{ \" \n",
            "\n\n{preface}",
            "\n\n",
            "\r",
            "1-0",
            "0-1 ",
            "*",
            "½ ",
            "1–0 ",
            "e4",
            "\n\n[Event \"A\"]\n\n",
            "\n\n[Event \"A\"]\n[White \"B\"]\n\n",
            "\r\n\r\n[Event \"A\"]\r\n\r\n",
            "\n[White \"B\"]\n",
            "1-0\n\n[Event \"A\"]\n\n",
            "*\n\n[Event \"A\"]\n\n",
        ])
    }

    /// The states of both walks, which must end at the same place.
    fn both(text: &str) -> (Vec<State>, Vec<State>) {
        let (end, slow) = walk(text.as_bytes(), false);
        let (quick_end, quick) = walk(text.as_bytes(), true);
        assert_eq!(quick_end, end, "{text:?}");
        (slow, quick)
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 4000, ..crate::random::kept() })]

        #[test]
        fn skipping_ahead_ends_where_the_lexer_finds_the_end(pieces in proptest::collection::vec(plain_piece(), 0..24)) {
            both(&pieces.concat());
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 1000, ..crate::random::kept() })]

        /// Each state that the skimmer shows is one that the lexer comes through as well.
        #[test]
        fn skimming_and_skipping_decide_as_the_lexer_does(pieces in proptest::collection::vec(piece(), 0..60)) {
            let text = pieces.concat();
            let (slow, quick) = both(&text);
            for state in quick {
                prop_assert!(slow.contains(&state), "{:?} {:?}", state, text);
            }
        }
    }
}
