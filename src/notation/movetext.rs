//! The strict pass over a game's movetext: every token is played, known, or a fault.

use std::borrow::Cow;

use shakmaty::{CastlingMode, Chess, Move, Position};

use super::faults::{Faults, Placed, Tokens};
use super::glyphs;
use super::letters::LetterSet;
use super::outcome::{outcome, split_number};
use super::passage::decode;
use super::resolve::{Resolved, resolve};
use super::token::Kind;
use super::wording::{Wording, wording};
use super::{Cost, MoveFault, Passage, Reason};
use crate::game::{Game, GameResult, MoveNumber, NodeId, Step, after_null};

/// No move with all its signs is longer, in bytes.
const LONGEST_MOVE: usize = 64;

/// The pass, as far as it has come.
#[derive(Clone, Debug)]
pub(super) struct Movetext<'a> {
    passage: &'a Passage,
    pub(super) tokens: Tokens<'a>,
    pub(super) game: Game,
    pub(super) faults: Faults<'a>,
    /// Words and comments that were left out behind a fault.
    pub(super) skipped: usize,
    letters: LetterSet,
    mode: CastlingMode,
    /// The main line, and on it the sidelines that are open.
    lines: Vec<OpenLine>,
    /// The last result inside a sideline.
    inner_result: Option<GameResult>,
    number_said: bool,
    comment_open: bool,
}

/// A line that is being read.
#[derive(Clone, Debug)]
struct OpenLine {
    position: Chess,
    /// The position before the last move: a sideline starts there.
    before: Chess,
    last: Option<NodeId>,
    /// The move that the line replaces; `None` for the main line.
    replaced: Option<NodeId>,
    ply: usize,
    opened: Option<Placed>,
    /// Comments and glyphs that stand before the first move of a sideline.
    preface: Vec<String>,
    nags: Vec<u8>,
    /// Whether a fault has ended the line.
    cut: bool,
    /// How many sidelines are open behind the fault.
    left_out: usize,
}

impl<'a> Movetext<'a> {
    /// Begins where the tags end. A game `without_moves` is read for its result only.
    pub(super) fn new(
        passage: &'a Passage,
        tokens: Tokens<'a>,
        game: Game,
        faults: Faults<'a>,
        without_moves: bool,
    ) -> Movetext<'a> {
        let position = game.start.position().clone();
        Movetext {
            passage,
            tokens,
            mode: game.start.mode(),
            lines: vec![OpenLine {
                before: position.clone(),
                position,
                last: None,
                replaced: None,
                ply: 0,
                opened: None,
                preface: Vec::new(),
                nags: Vec::new(),
                cut: without_moves,
                left_out: 0,
            }],
            game,
            faults,
            skipped: 0,
            letters: LetterSet::ENGLISH,
            inner_result: None,
            number_said: false,
            comment_open: false,
        }
    }

    /// Reads with other piece letters.
    pub(super) fn with_letters(mut self, letters: LetterSet) -> Movetext<'a> {
        self.letters = letters;
        self
    }

    /// Reads to the end; with `all_or_nothing` no further than the first word that is no legal move.
    pub(super) fn run(&mut self, first: Option<Placed>, all_or_nothing: bool) {
        let mut next = first.or_else(|| self.tokens.next());
        while let Some(token) = next {
            self.token(&token);
            if all_or_nothing && self.faults.concern_moves() {
                return;
            }
            next = self.tokens.next();
        }
        self.finish();
    }

    fn line(&mut self) -> &mut OpenLine {
        self.lines
            .last_mut()
            .expect("the main line is never closed")
    }

    fn in_sideline(&self) -> bool {
        self.lines.len() > 1 || self.lines[0].left_out > 0
    }

    fn text(&self, token: &Placed) -> &'a [u8] {
        &self.passage.text[token.span.clone()]
    }

    fn remark(&mut self, token: &Placed, reason: Reason) {
        self.fault(token, reason, Cost::Nothing);
    }

    fn fault(&mut self, token: &Placed, reason: Reason, cost: Cost) {
        let line = self.line();
        let due = (line.ply, MoveNumber::next_in(&line.position));
        self.faults.add(token, Some(due), reason, cost);
    }

    /// Ends the line at hand with a fault.
    fn cut(&mut self, token: &Placed, reason: Reason) {
        let cost = if self.in_sideline() {
            Cost::Sideline
        } else {
            Cost::Moves
        };
        self.fault(token, reason, cost);
        self.line().cut = true;
    }

    fn token(&mut self, token: &Placed) {
        match token.kind {
            Kind::Space | Kind::Escape | Kind::DrawOffer => {}
            Kind::Brace { .. } | Kind::LineComment => self.comment(token),
            Kind::Pair => self.remark(token, Reason::PairAmongMoves),
            Kind::Bracket => self.remark(token, Reason::NoPair),
            Kind::StrayBrace => self.remark(token, Reason::StrayBrace),
            Kind::Open => self.open(token),
            Kind::Close => self.close(token),
            Kind::Nag => self.nag(token),
            Kind::Word => self.word(token),
        }
    }

    fn comment(&mut self, token: &Placed) {
        if token.kind == (Kind::Brace { closed: false }) {
            self.comment_open = true;
            self.fault(token, Reason::OpenComment, Cost::Moves);
        }
        let text = comment_text(self.text(token));
        if text.is_empty() {
            return;
        }
        let in_sideline = self.in_sideline();
        let line = self.line();
        match line.last {
            _ if line.cut => self.skipped += 1,
            Some(last) => self.game.node_mut(last).comments.push(text),
            None if in_sideline => line.preface.push(text),
            None => self.game.preface.push(text),
        }
    }

    fn open(&mut self, token: &Placed) {
        let line = self.line();
        if line.cut {
            line.left_out += 1;
            return;
        }
        let mut sideline = OpenLine {
            position: line.before.clone(),
            before: line.before.clone(),
            last: None,
            replaced: line.last,
            ply: line.ply.saturating_sub(1),
            opened: Some(token.clone()),
            preface: Vec::new(),
            nags: Vec::new(),
            cut: false,
            left_out: 0,
        };
        if line.last.is_none() {
            self.fault(token, Reason::NothingToReplace, Cost::Sideline);
            sideline.cut = true;
        }
        self.lines.push(sideline);
    }

    fn close(&mut self, token: &Placed) {
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
        if closed.cut || closed.last.is_some() {
            return;
        }
        self.remark(token, Reason::EmptySideline);
        if let Some(last) = self.line().last {
            let node = self.game.node_mut(last);
            node.comments.extend(closed.preface);
            node.nags.extend(closed.nags);
        }
    }

    fn nag(&mut self, token: &Placed) {
        let digits = std::str::from_utf8(&self.text(token)[1..]).unwrap_or_default();
        match digits.parse() {
            Ok(nag) => self.annotate(token, &[nag]),
            Err(_) => self.remark(token, Reason::Glyph),
        }
    }

    fn annotate(&mut self, token: &Placed, nags: &[u8]) {
        let in_sideline = self.in_sideline();
        let line = self.line();
        match line.last {
            _ if line.cut => self.skipped += 1,
            Some(last) => self.game.node_mut(last).nags.extend(nags),
            None if in_sideline => line.nags.extend(nags),
            None => self.remark(token, Reason::NothingToAnnotate),
        }
    }

    fn word(&mut self, token: &Placed) {
        let bytes = self.text(token);
        if let Some(result) = outcome(bytes) {
            return self.result(token, result);
        }
        if self.line().cut {
            self.skipped += 1;
            return;
        }
        let word = match std::str::from_utf8(bytes) {
            Ok(word) => Cow::Borrowed(word),
            Err(_) => Cow::Owned(decode(bytes)),
        };
        let (number, rest) = split_number(&word);
        if let Some(result) = outcome(rest.as_bytes()) {
            return self.result(token, result);
        }
        self.number(token, number);
        if !rest.is_empty() {
            self.move_or_sign(token, rest);
        }
    }

    fn result(&mut self, token: &Placed, result: GameResult) {
        if self.in_sideline() {
            self.inner_result = Some(result);
        } else if self.game.result.is_some() {
            self.remark(token, Reason::SecondResult);
        } else {
            self.game.result = Some(result);
        }
    }

    /// Compares a move number with the count, and says the first that disagrees.
    fn number(&mut self, token: &Placed, said: Option<u32>) {
        let counted = MoveNumber::next_in(&self.line().position);
        if let Some(said) = said
            && said != counted.number.get()
            && !self.number_said
        {
            self.number_said = true;
            self.remark(token, Reason::Number { said, counted });
        }
    }

    fn move_or_sign(&mut self, token: &Placed, word: &str) {
        if let Some(nag) = glyphs::glyph(word) {
            return self.annotate(token, &[nag]);
        }
        if let Some(nag) = glyphs::letter_glyph(word).filter(|_| !self.square_follows()) {
            return self.annotate(token, &[nag]);
        }
        match word {
            "e.p." | "ep" | "e.p" | "ep." => return self.en_passant_mark(token),
            // Check marks that stand apart from their move.
            "+" | "++" | "#" => return,
            _ => {}
        }
        if word.len() > LONGEST_MOVE {
            return self.cut(token, MoveFault::Unreadable.into());
        }
        let (bare, nags) = glyphs::strip(word);
        if !self.in_sideline() && self.game.result.is_some() {
            return self.cut(token, Reason::AfterResult);
        }
        match wording(bare, self.letters) {
            Some(Wording::Null) if !self.in_sideline() => self.cut(token, Reason::NullOnMainLine),
            Some(Wording::Null) => match after_null(&self.line().position) {
                Some(after) => self.play(token, Step::Null, after, &nags),
                None => self.cut(token, MoveFault::Pass.into()),
            },
            Some(said) => {
                let mode = self.mode;
                match resolve(said, &self.line().position, mode) {
                    Ok(resolved) => self.make(token, resolved, &nags),
                    Err(fault) => self.cut(token, fault.into()),
                }
            }
            None if word.chars().any(char::is_alphanumeric) => {
                self.cut(token, MoveFault::Unreadable.into());
            }
            None => self.remark(token, Reason::Sign),
        }
    }

    fn make(&mut self, token: &Placed, resolved: Resolved, nags: &[u8]) {
        if resolved.small_bishop {
            self.remark(token, Reason::BishopInLowerCase);
        }
        let mut after = self.line().position.clone();
        after.play_unchecked(resolved.mv);
        self.play(token, Step::Move(resolved.mv), after, nags);
    }

    fn play(&mut self, token: &Placed, step: Step, after: Chess, nags: &[u8]) {
        let line = self
            .lines
            .last_mut()
            .expect("the main line is never closed");
        let id = match (line.last, line.replaced) {
            (None, Some(replaced)) => self.game.branch(replaced, step, token.place),
            (before, _) => self.game.go_on(before, step, token.place),
        };
        let node = self.game.node_mut(id);
        node.preface = std::mem::take(&mut line.preface);
        node.nags = std::mem::take(&mut line.nags);
        node.nags.extend(nags);
        line.before = std::mem::replace(&mut line.position, after);
        line.last = Some(id);
        line.ply += 1;
    }

    /// Tells whether a move without a letter follows, so that a letter before it may be its own.
    fn square_follows(&self) -> bool {
        let next = self.tokens.ahead().trim_ascii_start();
        matches!(
            next,
            [b'a'..=b'h' | b'x', b'a'..=b'h' | b'x' | b'1'..=b'8', ..]
        ) || matches!(next, [b'1'..=b'8', b'a'..=b'h' | b'x', ..])
    }

    fn en_passant_mark(&mut self, token: &Placed) {
        let last = self.line().last;
        let step = last.map(|last| self.game.node(last).step);
        if !matches!(step, Some(Step::Move(Move::EnPassant { .. }))) {
            self.remark(token, Reason::EnPassantMark);
        }
    }

    fn finish(&mut self) {
        let outermost = self.lines.get(1).and_then(|line| line.opened.clone());
        let unclosed = outermost.is_some();
        if let Some(opened) = outermost
            && !self.comment_open
        {
            self.fault(&opened, Reason::OpenSideline, Cost::Moves);
        }
        self.lines.truncate(1);
        if unclosed && self.game.result.is_none() {
            self.game.result = self.inner_result;
        }
        let end = self.passage.text.len();
        let nowhere = Placed {
            kind: Kind::Space,
            span: end..end,
            place: self.tokens.end(),
        };
        match self.game.result {
            None if self.comment_open => {}
            None => self.remark(&nowhere, Reason::NoResult),
            Some(movetext) => {
                let tag = self.game.tags.known("Result").map(str::trim);
                if let Some(tag) = tag.filter(|tag| outcome(tag.as_bytes()) != Some(movetext)) {
                    let tag = super::fault::shown(tag);
                    self.remark(&nowhere, Reason::ResultsDiffer { tag, movetext });
                }
            }
        }
    }
}

/// Takes the marks off a comment; its line ends become LF.
pub(super) fn comment_text(token: &[u8]) -> String {
    let inside = match token {
        [b'{', inside @ .., b'}'] | [b'{' | b';', inside @ ..] => inside,
        all => all,
    };
    let text = decode(inside);
    let text = text.trim();
    if text.contains('\r') {
        text.replace("\r\n", "\n").replace('\r', "\n")
    } else {
        text.to_owned()
    }
}
