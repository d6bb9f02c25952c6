//! Damage to a text, from a seed: the same seed damages the same way on every machine.

use sansvoir::exercise::Dice;

/// No text grows longer than this, in bytes.
const LONGEST: usize = 100_000;

/// A stream of damaged texts.
pub(crate) struct Damage<'a> {
    dice: Dice,
    seeds: &'a [Vec<u8>],
    words: &'a [&'a str],
}

impl<'a> Damage<'a> {
    pub(crate) fn new(seed: u64, seeds: &'a [Vec<u8>], words: &'a [&'a str]) -> Damage<'a> {
        Damage {
            dice: Dice::new(seed, 0),
            seeds,
            words,
        }
    }

    /// Takes a seed, or a piece of it, and damages it in one to eight places.
    pub(crate) fn text(&mut self) -> Vec<u8> {
        let mut text = self.seed();
        if self.dice.chance(1, 2) {
            text = self.piece(&text);
        }
        for _ in 0..=self.dice.below(8) {
            self.damage(&mut text);
        }
        text.truncate(LONGEST);
        text
    }

    fn damage(&mut self, text: &mut Vec<u8>) {
        let at = self.dice.below(text.len() + 1);
        match self.dice.below(7) {
            0 if at < text.len() => text[at] ^= 1 << self.dice.below(8),
            1 => {
                let end = (at + 1 + self.dice.below(40)).min(text.len());
                text.drain(at..end);
            }
            2 => {
                let piece = self.piece(text);
                text.splice(at..at, piece);
            }
            3 => {
                let other = self.seed();
                let piece = self.piece(&other);
                text.splice(at..at, piece);
            }
            4 => {
                let piece = self.word().repeat(1 + self.dice.below(300));
                text.splice(at..at, piece);
            }
            5 => {
                let byte = u8::try_from(self.dice.below(256)).expect("below 256");
                text.insert(at, byte);
            }
            _ => {
                let word = self.word();
                text.splice(at..at, word);
            }
        }
    }

    fn seed(&mut self) -> Vec<u8> {
        self.dice.pick(self.seeds).cloned().unwrap_or_default()
    }

    fn word(&mut self) -> Vec<u8> {
        self.dice
            .pick(self.words)
            .map_or_else(Vec::new, |word| word.as_bytes().to_vec())
    }

    /// Cuts a piece out of a text, most often a short one.
    fn piece(&mut self, text: &[u8]) -> Vec<u8> {
        let from = self.dice.below(text.len() + 1);
        let rest = text.len() - from;
        let most = if self.dice.chance(1, 4) {
            rest
        } else {
            rest.min(400)
        };
        text[from..from + self.dice.below(most + 1)].to_vec()
    }
}
