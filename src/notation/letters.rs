//! Piece letters of other languages.

/// The letters for knight, bishop, rook, queen and king, and the languages that use them.
///
/// Source: PGN standard 1994.03.12, 8.2.3.2 (there with the pawn's letter first). The pawn's letter is
/// left out: a pawn's move is written without one.
const TABLE: [(&[u8; 5], &[&str]); 12] = [
    (b"JSVDK", &["Czech"]),
    (b"SLTDK", &["Danish", "German", "Norwegian", "Swedish"]),
    (b"PLTDK", &["Dutch"]),
    (b"ROVLK", &["Estonian"]),
    (b"RLTDK", &["Finnish"]),
    (b"CFTDR", &["French"]),
    (b"HFBVK", &["Hungarian"]),
    (b"RBHDK", &["Icelandic"]),
    (b"CATDR", &["Italian", "Spanish"]),
    (b"SGWHK", &["Polish"]),
    (b"CBTDR", &["Portuguese"]),
    (b"CNTDR", &["Romanian"]),
];

const ENGLISH: &[u8; 5] = b"NBRQK";

/// The languages whose piece letters a game was read with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letters {
    /// The languages with which the whole game is legal; with each of them the moves are the same.
    pub languages: Vec<&'static str>,
    /// The letters of the first of them for knight, bishop, rook, queen and king.
    pub letters: &'static str,
}

/// One language's set of letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct LetterSet {
    letters: &'static [u8; 5],
    pub(super) languages: &'static [&'static str],
}

impl LetterSet {
    pub(super) const ENGLISH: LetterSet = LetterSet {
        letters: ENGLISH,
        languages: &["English"],
    };

    /// Walks the sets that are not English.
    pub(super) fn others() -> impl Iterator<Item = LetterSet> {
        TABLE
            .iter()
            .map(|(letters, languages)| LetterSet { letters, languages })
    }

    pub(super) fn is_english(self) -> bool {
        self.letters == ENGLISH
    }

    pub(super) fn text(self) -> &'static str {
        std::str::from_utf8(self.letters).expect("the letters are ASCII")
    }

    /// Writes a move with the English letters, or returns `None` where it has a capital that is
    /// not in this set.
    pub(super) fn to_english(self, word: &str) -> Option<String> {
        word.chars()
            .map(|char| match char {
                'A'..='Z' => {
                    let at = self.letters.iter().position(|l| char::from(*l) == char)?;
                    Some(char::from(ENGLISH[at]))
                }
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
        let count: usize = LetterSet::others().map(|set| set.languages.len()).sum();
        assert_eq!(count, 16, "seventeen with English");
        for set in LetterSet::others() {
            for (at, letter) in set.text().char_indices() {
                assert!(!set.text()[..at].contains(letter), "{set:?}");
            }
        }
    }

    #[test]
    fn a_language_is_put_into_english() {
        let german = LetterSet::others().nth(1).unwrap();
        assert_eq!(german.to_english("Sgxf3+").as_deref(), Some("Ngxf3+"));
        assert_eq!(german.to_english("e8=D#").as_deref(), Some("e8=Q#"));
        assert_eq!(german.to_english("Nf3"), None);
        assert_eq!(german.to_english("e4").as_deref(), Some("e4"));
    }
}
