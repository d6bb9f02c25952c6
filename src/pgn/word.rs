//! Words of the movetext: numbers, moves, signs, results.

use shakmaty::{Chess, File, Move, Position, Role, Square};

use super::fault::Reason;
use super::illegal_move::IllegalMove;
use super::movetext::{DIAGRAM, Movetext};
use super::prose;
use super::signs::{self, outcome, split_number};
use super::token::Token;
use crate::game::{GameResult, MoveNumber, MoveOrNull, after_null};
use crate::rules::{LetterSet, MoveFault, Wording, resolve, standard, wording};

/// No move with all its signs is longer, in bytes.
const LONGEST_MOVE: usize = 64;

/// En passant, said apart from its move (FIDE Laws, C.9).
const EN_PASSANT_MARKS: [&str; 4] = ["e.p.", "ep", "e.p", "ep."];

/// Check and mate, said in words apart from their move.
const CHECKS: [&str; 9] = [
    "+", "++", "#", "ch", "ch.", "check", "mate", "dblch", "disch",
];

/// Capitals of the Latin, the Cyrillic and the Greek alphabet that look the same.
const ALIKE: [&str; 9] = ["AАΑ", "BВΒ", "CС", "EЕΕ", "HНΗ", "KКΚ", "NΝ", "OОΟ", "PРΡ"];

/// Finds the letter of a word that is a move with another one that looks the same.
fn look_alike(bare: &str, letters: LetterSet) -> Option<char> {
    let is_wrong = |letter: &char| {
        let mut same = ALIKE.iter().filter(|same| same.contains(*letter));
        let mut meant = same.next().into_iter().flat_map(|same| same.chars());
        meant.any(|meant| {
            wording(
                &bare.replace(*letter, meant.encode_utf8(&mut [0; 4])),
                letters,
            )
            .is_some()
        })
    };
    let is_short = bare.len() <= LONGEST_MOVE / 2 && !(bare.is_ascii() && letters.is_english());
    bare.chars().filter(|_| is_short).find(is_wrong)
}

impl Movetext<'_> {
    pub(super) fn word(&mut self, token: &Token) {
        let bytes = self.text(token);
        if let Some(result) = outcome(bytes) {
            if !matches!(bytes, b"1-0" | b"0-1" | b"1/2-1/2" | b"*") {
                self.respell(token);
            }
            return self.result(token, result);
        }
        if self.line().cut {
            self.skipped += 1;
            return;
        }
        let word = self.decoded(token);
        let (number, rest) = split_number(&word);
        if let Some(result) = outcome(rest.as_bytes()) {
            return self.result(token, result);
        }
        if let Some(said) = number {
            let periods = &word.as_bytes()[..word.len() - rest.len()];
            let is_black = matches!(periods, [.., b'.', b'.'] | [.., 0x80..=0xff]);
            self.number(token, said, is_black);
        }
        if !rest.is_empty() {
            self.move_or_sign(token, rest);
        }
    }

    fn result(&mut self, token: &Token, result: GameResult) {
        if self.in_sideline() {
            self.inner_result = Some(result);
        } else if self.game.result.is_some() {
            self.remark(token, Reason::SecondResult);
        } else {
            self.game.result = Some(result);
            self.result_at = Some(token.clone());
        }
    }

    /// Compares a move number with the count, and says the first that disagrees.
    fn number(&mut self, token: &Token, said: u32, is_black: bool) {
        let begins = self.line().ply == 0;
        let position = self.line().position();
        let counted = MoveNumber::next_in(position);
        if said != counted.number.get() {
            self.remark_once(token, Reason::Number { said, counted });
        } else if is_black && position.turn().is_white() {
            self.remark_once(token, Reason::BlackBeforeWhite { begins });
        }
    }

    fn move_or_sign(&mut self, token: &Token, word: &str) {
        let is_english = self.letters.is_english();
        let glyph = match word {
            // A novelty.
            "N" if !self.square_follows() => Some(146),
            "D" if is_english || !self.square_follows() => Some(DIAGRAM),
            "#D" | "Diagram" | "Diag" | "Dia" => Some(DIAGRAM),
            sign => signs::glyph(sign),
        };
        if let Some(nag) = glyph {
            if word.contains(char::is_alphabetic) {
                self.respell(token);
            }
            return self.annotate(token, &[nag]);
        }
        let (bare, nags) = signs::strip(word);
        let plain = if is_english { standard(bare) } else { None };
        if plain.is_none() && EN_PASSANT_MARKS.contains(&bare) {
            let is_said_of = |step| matches!(step, MoveOrNull::Move(Move::EnPassant { .. }));
            if !self.line().last.is_some_and(is_said_of) {
                self.remark(token, Reason::EnPassantMark);
            }
            return self.annotate(token, &nags);
        }
        if plain.is_none() && CHECKS.contains(&bare) {
            // A check mark that stands apart from its move.
            return self.annotate(token, &nags);
        }
        let in_dialect = || wording(bare, self.letters);
        let said = plain.or_else(|| (word.len() <= LONGEST_MOVE).then(in_dialect)?);
        let Some(said) = said else {
            return self.no_wording(token, word, &nags);
        };
        if !self.in_sideline() && self.game.result.is_some() {
            return self.cut(token, Reason::AfterResult);
        }
        if is_english {
            self.used.note(bare);
        }
        let is_doubtful = |(after, _): &(usize, Reason)| *after <= self.moves;
        if self.doubt.as_ref().is_some_and(is_doubtful) {
            return self.cut(token, MoveFault::Unreadable.into());
        }
        if said == Wording::Null {
            return self.null(token, &nags);
        }
        match resolve(said, self.line().position()) {
            Ok(mv) => {
                let marks_agree = match said {
                    Wording::Piece(said) => {
                        if said.role == Some(Role::Pawn) && mv.role() == Role::Bishop {
                            self.remark(token, Reason::BishopInLowerCase);
                        }
                        if said.capture && !mv.is_capture() && !mv.is_castle() {
                            self.remark(token, Reason::TakesNothing);
                        }
                        let is_own = |letter: char| self.letters.english(letter) == Some(letter);
                        self.foreign += usize::from(!is_english && !bare.chars().all(is_own));
                        said.capture >= mv.is_capture() && said.role.is_some()
                    }
                    Wording::Castle(_) | Wording::Null => true,
                };
                if is_english && (plain.is_none() || !marks_agree) {
                    self.respell(token);
                }
                self.line().play(mv);
                self.play(token, MoveOrNull::Move(mv), &nags);
                if bare.as_bytes().last() == Some(&b'#') && !self.line().position().is_checkmate() {
                    self.remark(token, Reason::NoMate);
                }
            }
            Err(fault) => {
                if !self.glued(token, word, bare) {
                    self.no_move(token, said, fault);
                }
            }
        }
    }

    fn null(&mut self, token: &Token, nags: &[u8]) {
        match after_null(self.line().position()) {
            _ if !self.in_sideline() => self.cut(token, Reason::NullOnMainLine),
            Some(after) => {
                self.line().set(after);
                self.play(token, MoveOrNull::Null, nags);
            }
            None => self.cut(token, MoveFault::Pass.into()),
        }
    }

    /// Makes what can be made of a word that is no move in any spelling.
    fn no_wording(&mut self, token: &Token, word: &str, nags: &[u8]) {
        let (bare, _) = signs::strip(word);
        let is_over = !self.in_sideline() && self.game.result.is_some();
        if !is_over && let Some(mv) = self.capture_by_files(bare) {
            self.respell(token);
            self.line().play(mv);
            return self.play(token, MoveOrNull::Move(mv), nags);
        }
        if self.glued(token, word, bare) {
            return;
        }
        let turn = self.line().position().turn();
        let (before, ahead) = (self.tokens.before(token), self.tokens.ahead());
        if let Some(result) = prose::said_result(before, word, ahead, turn) {
            if !self.in_sideline() {
                self.said_result.get_or_insert((token.clone(), result));
            }
            return;
        }
        let is_word = prose::is_word(word) || matches!(word, "A" | "a" | "I");
        if is_word || (is_over && word == "ff") || prose::is_in_prose(before, word, ahead) {
            return self.remark_once(token, Reason::Prose);
        }
        if word.chars().any(char::is_alphanumeric) {
            let reason = match word {
                _ if is_over => Reason::AfterResult,
                word if prose::is_descriptive(word) => Reason::Descriptive,
                _ => look_alike(bare, self.letters)
                    .map_or(MoveFault::Unreadable.into(), Reason::LookAlike),
            };
            return self.cut(token, reason);
        }
        self.remark(token, Reason::Sign);
    }

    /// Finds the one capture of a pawn that two files name, as in `ed` or `exd`.
    fn capture_by_files(&self, bare: &str) -> Option<Move> {
        let files: Vec<char> = bare.chars().filter(|c| !matches!(c, 'x' | ':')).collect();
        let [from, to] = files[..] else {
            return None;
        };
        let [from, to] = [File::from_char(from)?, File::from_char(to)?];
        let moves = self.lines.last()?.position().legal_moves();
        let mut fitting = moves.into_iter().filter(|mv| {
            mv.role() == Role::Pawn
                && mv.is_capture()
                && mv.promotion().is_none()
                && mv.from().is_some_and(|square| square.file() == from)
                && mv.to().file() == to
        });
        let one = fitting.next()?;
        fitting.next().is_none().then_some(one)
    }

    /// Plays two moves that stand in one word, where there is one way to part them.
    fn glued(&mut self, token: &Token, word: &str, bare: &str) -> bool {
        // The two longest moves, as in Nb1xd2+.
        const LONGEST: usize = 14;
        let is_over = self.game.result.is_some() && !self.in_sideline();
        if !bare.is_ascii() || !(4..=LONGEST).contains(&bare.len()) || is_over {
            return false;
        }
        let letters = self.letters;
        let after = |text: &str, position: &Chess| {
            let mv = resolve(wording(text, letters)?, position).ok()?;
            let mut after = position.clone();
            after.play_unchecked(mv);
            Some(after)
        };
        let position = self.line().position().clone();
        let parts = |at: &usize| {
            let (first, second) = bare.split_at(*at);
            after(first, &position).is_some_and(|between| after(second, &between).is_some())
        };
        let mut ways = (2..=bare.len() - 2).filter(parts);
        let (Some(at), None) = (ways.next(), ways.next()) else {
            return false;
        };
        self.remark(token, Reason::Glued);
        let (first, second) = word.split_at(at);
        self.move_or_sign(token, first);
        self.move_or_sign(token, second);
        true
    }

    /// Ends the line at a text that reads as a move and gives none.
    fn no_move(&mut self, token: &Token, said: Wording, fault: MoveFault) {
        let position = self.line().position();
        let (color, king) = (position.turn(), position.board().king_of(position.turn()));
        let is_away = |king: &Square| *king != color.fold_wb(Square::E1, Square::E8);
        let reason = if self.game.start_is_assumed() {
            Reason::StartUnknown
        } else if matches!(said, Wording::Castle(_))
            && self.game.start.mode().is_standard()
            && let Some(king) = king.filter(is_away)
        {
            Reason::CastlingFrom { color, king }
        } else {
            IllegalMove::find(said, &fault, self.line())
                .map_or_else(|| fault.into(), |illegal| Box::new(illegal).into())
        };
        self.cut(token, reason);
    }

    /// Tells whether a move without a letter follows, so that a letter before it may be its own.
    fn square_follows(&self) -> bool {
        let next = self.tokens.ahead().trim_ascii_start();
        matches!(
            next,
            [b'a'..=b'h' | b'x', b'a'..=b'h' | b'x' | b'1'..=b'8', ..]
        ) || matches!(next, [b'1'..=b'8', b'a'..=b'h' | b'x', ..])
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::game::{Game, Start, Tags};
    use crate::pgn::Passage;
    use crate::pgn::faults::Faults;
    use crate::pgn::token::Kind;
    use crate::pgn::tokens::Tokens;

    /// What can be seen to have come of a token.
    fn trace(pass: &Movetext<'_>) -> (usize, usize, usize, usize) {
        let nodes = pass.game.ids().count();
        let pending = pass
            .lines
            .iter()
            .map(|line| line.nags.len() + line.preface.len())
            .sum();
        (nodes, pass.faults.count(), pass.skipped, pending)
    }

    fn is_known(word: &str) -> bool {
        let (number, rest) = split_number(word);
        outcome(rest.as_bytes()).is_some()
            || (rest.is_empty() && (number.is_some() || !word.is_empty()))
            || signs::glyph(rest).is_some()
            || ["N", "D", "e.p.", "ep", "e.p", "ep."].contains(&rest)
            || CHECKS.contains(&rest)
    }

    fn piece() -> impl Strategy<Value = &'static str> {
        prop::sample::select(vec![
            "e4 ", "e5 ", "Nf3 ", "Nc6", "d4!", "exd4", "0-0", "1.", "1... ", "{", "}", "(", ")",
            " ", "\n", "*", "1-0", "$1", "$999", ";", "%", "?!", "+-", "--", "N ", "b", "e8(Q)",
            "[x]", "\u{e9}", "=", "e.p. ",
        ])
    }

    proptest! {
        #![proptest_config(crate::random::kept())]

        #[test]
        fn no_word_is_lost(pieces in proptest::collection::vec(piece(), 0..120)) {
            let passage = Passage::alone(pieces.concat());
            let tokens = Tokens::new(&passage);
            let game = Game::new(Tags::default(), Start::standard());
            let faults = Faults::new(&passage);
            let mut pass = Movetext::new(&passage, tokens, game, faults, false, true);
            while let Some(token) = pass.tokens.next() {
                let before = trace(&pass);
                pass.token(&token);
                let word = passage.decoded(token.span.clone());
                let traced = trace(&pass) != before;
                prop_assert!(token.kind != Kind::Word || traced || is_known(&word), "{word:?} left no trace");
            }
        }
    }
}
