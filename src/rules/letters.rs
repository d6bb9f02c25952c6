//! Piece letters of other languages.

/// The letters for pawn, knight, bishop, rook, queen and king, and the languages that use them.
///
/// Source: PGN standard 1994.03.12, 8.2.3.2.
const TABLE: [LetterSet; 13] = [
    LetterSet::ENGLISH,
    LetterSet::of("PJSVDK", &["Czech"]),
    LetterSet::of("BSLTDK", &["Danish", "German", "Norwegian", "Swedish"]),
    LetterSet::of("OPLTDK", &["Dutch"]),
    LetterSet::of("PROVLK", &["Estonian"]),
    LetterSet::of("PRLTDK", &["Finnish"]),
    LetterSet::of("PCFTDR", &["French"]),
    LetterSet::of("GHFBVK", &["Hungarian"]),
    LetterSet::of("PRBHDK", &["Icelandic"]),
    LetterSet::of("PCATDR", &["Italian", "Spanish"]),
    LetterSet::of("PSGWHK", &["Polish"]),
    LetterSet::of("PCBTDR", &["Portuguese"]),
    LetterSet::of("PCNTDR", &["Romanian"]),
];

/// The languages whose piece letters a game was read with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letters {
    /// The languages with which the whole game is legal; with each of them the moves are the same.
    pub languages: Vec<&'static str>,
    /// The letters of the first of them for knight, bishop, rook, queen and king.
    pub letters: &'static str,
}

/// One set of letters, and the languages that have it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct LetterSet {
    letters: &'static str,
    pub(crate) languages: &'static [&'static str],
}

impl LetterSet {
    pub(crate) const ENGLISH: LetterSet = LetterSet::of("PNBRQK", &["English"]);

    const fn of(letters: &'static str, languages: &'static [&'static str]) -> LetterSet {
        LetterSet { letters, languages }
    }

    /// Walks all sets.
    pub(crate) fn all() -> impl Iterator<Item = LetterSet> {
        TABLE.into_iter()
    }

    /// Walks the sets that are not English.
    pub(crate) fn others() -> impl Iterator<Item = LetterSet> {
        LetterSet::all().filter(|set| !set.is_english())
    }

    pub(crate) fn is_english(self) -> bool {
        self == LetterSet::ENGLISH
    }

    /// The letters that a game is written with: a pawn's move is written without one.
    pub(crate) fn text(self) -> &'static str {
        &self.letters[1..]
    }

    /// The English letter for the piece that this capital stands for; `None` for a capital of no piece.
    pub(crate) fn english(self, capital: char) -> Option<char> {
        let at = self.letters.find(capital)?;
        LetterSet::ENGLISH.letters[at..].chars().next()
    }

    /// Writes a move with the English letters, or returns `None` where it has a capital that is
    /// not in this set.
    pub(crate) fn to_english(self, word: &str) -> Option<String> {
        word.chars()
            .map(|char| match char {
                'A'..='Z' => self.english(char).filter(|letter| *letter != 'P'),
                _ => Some(char),
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_holds_the_languages_of_the_standard() {
        let count: usize = LetterSet::all().map(|set| set.languages.len()).sum();
        assert_eq!(count, 17);
        for set in LetterSet::all() {
            for (at, letter) in set.letters.char_indices() {
                assert!(!set.letters[..at].contains(letter), "{set:?}");
            }
        }
    }

    #[test]
    fn a_language_is_put_into_english() {
        let german = LetterSet::others().nth(1).unwrap();
        assert_eq!(german.to_english("Sgxf3+").as_deref(), Some("Ngxf3+"));
        assert_eq!(german.to_english("e8=D#").as_deref(), Some("e8=Q#"));
        assert_eq!(german.to_english("Nf3"), None);
        assert_eq!(german.to_english("Be4"), None, "no move names a pawn");
        assert_eq!(german.to_english("e4").as_deref(), Some("e4"));
    }
}
