//! Words of the movetext: numbers, moves, signs, results.

use shakmaty::{Move, Role};

use super::fault::Reason;
use super::illegal_move::IllegalMove;
use super::movetext::Movetext;
use super::signs::{self, outcome, split_number};
use super::token::Token;
use crate::game::{GameResult, MoveNumber, MoveOrNull, after_null};
use crate::rules::{MoveFault, Wording, resolve, wording};

/// No move with all its signs is longer, in bytes.
const LONGEST_MOVE: usize = 64;

/// En passant, said apart from its move (FIDE Laws, C.9).
const EN_PASSANT_MARKS: [&str; 4] = ["e.p.", "ep", "e.p", "ep."];

impl Movetext<'_> {
    pub(super) fn word(&mut self, token: &Token) {
        let bytes = self.text(token);
        if let Some(result) = outcome(bytes) {
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
        self.number(token, number);
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
        }
    }

    /// Compares a move number with the count, and says the first that disagrees.
    fn number(&mut self, token: &Token, said: Option<u32>) {
        let counted = MoveNumber::next_in(self.line().position());
        if let Some(said) = said
            && said != counted.number.get()
            && !self.number_said
        {
            self.number_said = true;
            self.remark(token, Reason::Number { said, counted });
        }
    }

    fn move_or_sign(&mut self, token: &Token, word: &str) {
        let glyph = match word {
            // A novelty.
            "N" if !self.square_follows() => Some(146),
            // A diagram.
            "D" if !self.square_follows() => Some(220),
            sign => signs::glyph(sign),
        };
        if let Some(nag) = glyph {
            return self.annotate(token, &[nag]);
        }
        if word.len() > LONGEST_MOVE {
            return self.cut(token, MoveFault::Unreadable.into());
        }
        let (bare, nags) = signs::strip(word);
        if EN_PASSANT_MARKS.contains(&bare) {
            let is_said_of = |step| matches!(step, MoveOrNull::Move(Move::EnPassant { .. }));
            if !self.line().last.is_some_and(is_said_of) {
                self.remark(token, Reason::EnPassantMark);
            }
            return self.annotate(token, &nags);
        }
        if matches!(bare, "+" | "++" | "#") {
            // A check mark that stands apart from its move.
            return self.annotate(token, &nags);
        }
        if !self.in_sideline() && self.game.result.is_some() {
            return self.cut(token, Reason::AfterResult);
        }
        match wording(bare, self.letters) {
            Some(Wording::Null) if !self.in_sideline() => self.cut(token, Reason::NullOnMainLine),
            Some(Wording::Null) => match after_null(self.line().position()) {
                Some(after) => {
                    self.line().set(after);
                    self.play(token, MoveOrNull::Null, &nags);
                }
                None => self.cut(token, MoveFault::Pass.into()),
            },
            Some(said) => match resolve(said, self.line().position()) {
                Ok(mv) => {
                    let says_pawn =
                        matches!(said, Wording::Piece(said) if said.role == Some(Role::Pawn));
                    if says_pawn && mv.role() == Role::Bishop {
                        self.remark(token, Reason::BishopInLowerCase);
                    }
                    self.line().play(mv);
                    self.play(token, MoveOrNull::Move(mv), &nags);
                }
                Err(fault) => self.no_move(token, said, fault),
            },
            None if word.chars().any(char::is_alphanumeric) => {
                self.cut(token, MoveFault::Unreadable.into());
            }
            None => self.remark(token, Reason::Sign),
        }
    }

    /// Ends the line at a text that reads as a move and gives none.
    fn no_move(&mut self, token: &Token, said: Wording, fault: MoveFault) {
        let reason = if self.game.start_is_assumed() {
            Reason::StartUnknown
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
    use crate::pgn::fault::Faults;
    use crate::pgn::token::{Kind, Tokens};

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
            || ["N", "D", "+", "++", "#", "e.p.", "ep", "e.p", "ep."].contains(&rest)
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
            let passage = Passage {
                number: 1,
                line: 1,
                column: 1,
                text: pieces.concat().into_bytes(),
                too_long: false,
            };
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
