//! The strict pass over a game's movetext: every token is played, known, or a fault.

use std::borrow::Cow;

use shakmaty::Position;

use super::comment::comment_text;
use super::fault::Reason;
use super::faults::Faults;
use super::lost::{Cost, Lost};
use super::open_line::OpenLine;
use super::passage::{Passage, Places};
use super::signs::outcome;
use super::text::{decoded, shown};
use super::token::{Kind, Token};
use super::tokens::Tokens;
use super::used_letters::UsedLetters;
use crate::game::{Game, GameEnd, GameResult, MoveNumber, MoveOrNull, Node};
use crate::rules::LetterSet;

/// The glyph of a diagram (see `signs`).
pub(super) const DIAGRAM: u8 = 220;

/// The pass, as far as it has come.
#[derive(Clone, Debug)]
pub(super) struct Movetext<'a> {
    passage: &'a Passage,
    /// The passage as text, where all of it is UTF-8.
    whole: Option<&'a str>,
    pub(super) tokens: Tokens<'a>,
    pub(super) game: Game,
    pub(super) faults: Faults<'a>,
    /// Words and comments that were left out behind a fault.
    pub(super) skipped: usize,
    /// How many sidelines have a move.
    pub(super) sidelines: usize,
    pub(super) letters: LetterSet,
    /// The main line, and on it the sidelines that are open.
    pub(super) lines: Vec<OpenLine>,
    /// The last result inside a sideline.
    pub(super) inner_result: Option<GameResult>,
    /// Where the result stands.
    pub(super) result_at: Option<Token>,
    /// A result that was said in words.
    pub(super) said_result: Option<(Token, GameResult)>,
    /// The first word of another spelling than the standard's, and how many there are.
    respelled: Option<(Token, (usize, MoveNumber), usize)>,
    pub(super) used: UsedLetters,
    /// How many moves have been played that are written with letters of another language.
    pub(super) foreign: usize,
    /// How many moves have been played, those of sidelines included.
    pub(super) moves: usize,
    /// After how many moves the game is given up, where it can be read so far, and why.
    pub(super) doubt: Option<(usize, Reason)>,
    /// What was left out behind faults.
    pub(super) lost: Vec<Lost>,
    comment_open: bool,
    /// The places of the moves, where the game is kept.
    places: Option<Places<'a>>,
}

impl<'a> Movetext<'a> {
    /// Begins where the tags end. A game `without_moves` is read for its result only. A pass that `keeps`
    /// puts moves, glyphs and comments in the game.
    pub(super) fn new(
        passage: &'a Passage,
        tokens: Tokens<'a>,
        mut game: Game,
        faults: Faults<'a>,
        without_moves: bool,
        keeps: bool,
    ) -> Movetext<'a> {
        if keeps {
            // Rather too little room than too much: most of the text may be comments.
            game.reserve((passage.text.len() / 16).min(4096));
        }
        Movetext {
            passage,
            whole: std::str::from_utf8(&passage.text).ok(),
            tokens,
            lines: vec![OpenLine::main(&game.start, without_moves)],
            game,
            faults,
            skipped: 0,
            sidelines: 0,
            letters: LetterSet::ENGLISH,
            inner_result: None,
            result_at: None,
            said_result: None,
            respelled: None,
            used: UsedLetters::default(),
            foreign: 0,
            moves: 0,
            doubt: None,
            lost: Vec::new(),
            comment_open: false,
            places: keeps.then(|| Places::new(passage)),
        }
    }

    /// Reads on to the end; on `trial` no further than the main line is legal, and the end can be read later.
    pub(super) fn run(&mut self, trial: bool) {
        while let Some(token) = self.tokens.next() {
            self.token(&token);
            if trial && self.lines[0].cut {
                return;
            }
        }
        if !trial {
            self.finish();
        }
    }

    /// How far a game reaches of which all is legal.
    pub(super) const ALL: (usize, usize) = (usize::MAX, 0);

    /// Tells how far the game is legal: so many plies of the main line, and moves of all lines.
    pub(super) fn reach(&self) -> (usize, usize) {
        if self.faults.concern_moves {
            (self.lines[0].ply, self.moves)
        } else {
            Movetext::ALL
        }
    }

    pub(super) fn line(&mut self) -> &mut OpenLine {
        self.lines
            .last_mut()
            .expect("the main line is never closed")
    }

    pub(super) fn in_sideline(&self) -> bool {
        self.lines.len() > 1 || self.lines[0].left_out > 0
    }

    pub(super) fn text(&self, token: &Token) -> &'a [u8] {
        &self.passage.text[token.span.clone()]
    }

    /// Decodes a word.
    pub(super) fn decoded(&self, token: &Token) -> Cow<'a, str> {
        let word = self.whole.and_then(|whole| whole.get(token.span.clone()));
        word.map_or_else(|| decoded(self.text(token)), Cow::Borrowed)
    }

    /// Remarks something of the whole game at its first word.
    pub(super) fn remark_at_first_move(&mut self, reason: Reason) {
        let mut words = Tokens::new(self.passage).filter(|token| token.kind == Kind::Word);
        let first = words
            .next()
            .unwrap_or_else(|| Token::end_of(&self.passage.text));
        self.faults.add(&first, None, reason, Cost::Nothing);
    }

    pub(super) fn remark(&mut self, token: &Token, reason: Reason) {
        self.fault(token, reason, Cost::Nothing);
    }

    /// Remarks the first of its sort.
    pub(super) fn remark_once(&mut self, token: &Token, reason: Reason) {
        if self.faults.are_without(&reason) {
            self.remark(token, reason);
        }
    }

    /// Remarks something of the whole game where its first moves are lost.
    pub(super) fn remark_at_first_loss(&mut self, reason: Reason) {
        let kind = Kind::Word;
        let span = self.faults.first_costly().map(|fault| fault.span.clone());
        if let Some(span) = span {
            self.faults
                .add(&Token { kind, span }, None, reason, Cost::Nothing);
        }
    }

    /// Counts a word that is not written as in the standard.
    pub(super) fn respell(&mut self, token: &Token) {
        let line = self.line();
        let due = (line.ply, MoveNumber::next_in(line.position()));
        let (.., count) = (self.respelled).get_or_insert_with(|| (token.clone(), due, 0));
        *count += 1;
    }

    fn fault(&mut self, token: &Token, reason: Reason, cost: Cost) {
        let line = self.line();
        let due = (line.ply, MoveNumber::next_in(line.position()));
        self.faults.add(token, Some(due), reason, cost);
    }

    /// Ends the line at hand with a fault.
    pub(super) fn cut(&mut self, token: &Token, reason: Reason) {
        let cost = if self.in_sideline() {
            Cost::Sideline
        } else {
            Cost::Moves
        };
        let doubt = self.doubt.take().map(|(_, doubt)| doubt);
        self.fault(token, doubt.unwrap_or(reason), cost);
        self.lose(token);
        self.line().cut = true;
    }

    /// Notes that from here on the line is left out.
    fn lose(&mut self, token: &Token) {
        let line = self.line();
        let after = line.node.or(line.replaced);
        let text = token.span.start..self.passage.text.len();
        self.lost.push(Lost { after, text });
    }

    pub(super) fn token(&mut self, token: &Token) {
        match token.kind {
            Kind::Space | Kind::Escape | Kind::DrawOffer => {}
            Kind::Brace { .. } | Kind::LineComment => self.comment(token),
            Kind::Pair => self.remark(token, Reason::TagPairAmongMoves),
            Kind::Bracket => self.bracket(token),
            Kind::StrayBrace => self.remark(token, Reason::StrayBrace),
            Kind::Open => self.open(token),
            Kind::Close => self.close(token),
            Kind::Markup => self.remark_once(token, Reason::Markup),
            Kind::Prose if self.line().cut => self.skipped += 1,
            Kind::Prose => self.remark_once(token, Reason::Prose),
            Kind::Nag => self.nag(token),
            Kind::Word => self.word(token),
        }
    }

    /// A bracket that is not closed takes the rest of its line, and with it any moves there.
    fn bracket(&mut self, token: &Token) {
        let text = self.text(token);
        if matches!(text, b"[#]" | b"[D]" | b"[Diagram]") {
            self.respell(token);
            return self.annotate(token, &[DIAGRAM]);
        }
        let takes_moves = !text.ends_with(b"]") && text[1..].iter().any(u8::is_ascii_alphanumeric);
        if takes_moves && self.game.result.is_none() && !self.line().cut {
            self.cut(token, Reason::UnreadableTagPair);
        } else {
            self.remark(token, Reason::UnreadableTagPair);
        }
    }

    fn comment(&mut self, token: &Token) {
        if token.kind == (Kind::Brace { closed: false }) {
            self.comment_open = true;
            self.fault(token, Reason::OpenComment, Cost::Moves);
        }
        let bytes = self.text(token);
        if !self.line().cut
            && let Some(cost) = Lost::said_in(bytes)
        {
            self.fault(token, Reason::LostBefore, cost);
        }
        if self.places.is_none() && !self.line().cut {
            return;
        }
        let Some(text) = comment_text(bytes) else {
            return;
        };
        let in_sideline = self.in_sideline();
        let line = self.line();
        match line.last {
            _ if line.cut => self.skipped += 1,
            Some(_) => self.note(|node| node.comments.push(text)),
            None if in_sideline => line.preface.push(text),
            None => self.game.preface.push(text),
        }
    }

    fn open(&mut self, token: &Token) {
        let line = self.line();
        if line.cut {
            line.left_out += 1;
            return;
        }
        let mut sideline = line.sideline(token);
        if line.last.is_none() {
            self.fault(token, Reason::NothingToReplace, Cost::Sideline);
            self.lose(token);
            sideline.cut = true;
        }
        self.lines.push(sideline);
    }

    fn close(&mut self, token: &Token) {
        if !self.in_sideline() {
            self.remark(token, Reason::StrayParenthesis);
            return;
        }
        let line = self.line();
        if line.left_out > 0 {
            line.left_out -= 1;
            return;
        }
        let Some(closed) = self.lines.pop() else {
            return;
        };
        if closed.cut {
            // Of those that go on to the end, the last one belongs to the line that ends here.
            let end = self.passage.text.len();
            if let Some(open) = self.lost.iter_mut().rfind(|lost| lost.text.end == end) {
                open.text.end = token.span.start;
            }
        }
        if closed.cut || closed.last.is_some() {
            return;
        }
        self.remark(token, Reason::EmptySideline);
        self.note(|node| {
            node.comments.extend(closed.preface);
            node.nags.extend(closed.nags);
        });
    }

    /// Notes something beside the last move of the line, where the game is kept.
    fn note(&mut self, note: impl FnOnce(&mut Node)) {
        if let Some(node) = self.line().node {
            note(self.game.node_mut(node));
        }
    }

    fn nag(&mut self, token: &Token) {
        let digits = std::str::from_utf8(&self.text(token)[1..]).unwrap_or_default();
        match digits.parse() {
            Ok(nag) => self.annotate(token, &[nag]),
            Err(_) => self.remark(token, Reason::Glyph),
        }
    }

    pub(super) fn annotate(&mut self, token: &Token, nags: &[u8]) {
        if nags.is_empty() {
            return;
        }
        let in_sideline = self.in_sideline();
        let line = self.line();
        match line.last {
            _ if line.cut => self.skipped += 1,
            Some(_) => self.note(|node| node.nags.extend(nags)),
            None if in_sideline => line.nags.extend(nags),
            None => self.remark(token, Reason::NothingToAnnotate),
        }
    }

    pub(super) fn play(&mut self, token: &Token, step: MoveOrNull, nags: &[u8]) {
        let line = self
            .lines
            .last_mut()
            .expect("the main line is never closed");
        if line.last.is_none() && line.opened.is_some() {
            self.sidelines += 1;
        }
        line.node = self.places.as_mut().map(|places| {
            let place = places.of(token.span.start);
            let id = match (line.node, line.replaced) {
                (None, Some(replaced)) => self.game.branch(replaced, step, place),
                (before, _) => self.game.go_on(before, step, place),
            };
            let node = self.game.node_mut(id);
            node.preface = std::mem::take(&mut line.preface);
            node.nags = std::mem::take(&mut line.nags);
            node.nags.extend(nags);
            id
        });
        line.last = Some(step);
        line.ply += 1;
        self.moves += 1;
    }

    fn finish(&mut self) {
        let outermost = self.lines.get(1).and_then(|line| line.opened.clone());
        if let Some(opened) = outermost {
            if !self.comment_open {
                self.fault(&opened, Reason::OpenSideline, Cost::Moves);
            }
            self.lines.truncate(1);
            self.game.result = self.game.result.or(self.inner_result);
        }
        if let Some((first, due, count)) = self.respelled.take() {
            let reason = Reason::Respelled(count);
            self.faults.add(&first, Some(due), reason, Cost::Nothing);
        }
        if let Some((token, result)) = self.said_result.take() {
            self.remark(&token, Reason::ResultInWords(result));
            self.game.result = self.game.result.or(Some(result));
        }
        let nowhere = Token::end_of(&self.passage.text);
        if self.passage.too_long {
            self.fault(&nowhere, Reason::TooLong, Cost::Moves);
            return;
        }
        match self.game.result {
            None if self.comment_open => {}
            None => self.remark(&nowhere, Reason::NoResult),
            Some(movetext) => {
                let tag = self.game.tags.known("Result").map(str::trim);
                if let Some(tag) = tag.filter(|tag| outcome(tag.as_bytes()) != Some(movetext)) {
                    let tag = shown(tag);
                    self.remark(&nowhere, Reason::ResultsDiffer { tag, movetext });
                }
                let position = self.lines[0].position();
                let over = GameEnd::of(position, &[])
                    // Games are older than that rule.
                    .filter(|end| *end != GameEnd::SeventyFiveMoves);
                let due = over.map_or(movetext, |end| end.result(position.turn()));
                if due != movetext && movetext != GameResult::Unknown {
                    let at = self.result_at.take().unwrap_or(nowhere);
                    self.remark(&at, Reason::ResultAgainstBoard { due, movetext });
                }
            }
        }
    }
}
