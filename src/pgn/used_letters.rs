//! The letters that a game is written with.

/// The capital letters that moves begin and end with, a bit each.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct UsedLetters(u32);

impl UsedLetters {
    /// Notes the letters of a move.
    #[inline]
    pub(super) fn note(&mut self, said: &str) {
        let ends = [said.as_bytes().first(), said.as_bytes().last()];
        for letter in ends
            .into_iter()
            .flatten()
            .filter(|end| end.is_ascii_uppercase())
        {
            self.0 |= 1 << (letter & 31);
        }
    }

    /// Tells whether a move begins or ends with a capital letter.
    pub(super) const fn have(self, letter: u8) -> bool {
        self.0 >> (letter & 31) & 1 == 1
    }

    /// Tells whether no other language can make other moves of a game that is legal in English.
    pub(super) fn are_surely_english(self) -> bool {
        // Only English has a Q; other letters stand in every long game.
        self.have(b'Q') || !b"PNBRK".iter().any(|letter| self.have(*letter))
    }
}
