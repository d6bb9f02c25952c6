//! The languages whose piece letters a learner may reply with.

use std::str::FromStr;

/// Each language with its letters for pawn, knight, bishop, rook, queen and king.
///
/// Source: PGN standard 1994.03.12, 8.2.3.2.
const TABLE: [(&str, &[u8; 6]); 17] = [
    ("czech", b"PJSVDK"),
    ("danish", b"BSLTDK"),
    ("dutch", b"OPLTDK"),
    ("english", b"PNBRQK"),
    ("estonian", b"PROVLK"),
    ("finnish", b"PRLTDK"),
    ("french", b"PCFTDR"),
    ("german", b"BSLTDK"),
    ("hungarian", b"GHFBVK"),
    ("icelandic", b"PRBHDK"),
    ("italian", b"PCATDR"),
    ("norwegian", b"BSLTDK"),
    ("polish", b"PSGWHK"),
    ("portuguese", b"PCBTDR"),
    ("romanian", b"PCNTDR"),
    ("spanish", b"PCATDR"),
    ("swedish", b"BSLTDK"),
];

const ENGLISH: &[u8; 6] = b"PNBRQK";

/// A language by its piece letters.
///
/// ```
/// use sansvoir::notation::Language;
///
/// let german: Language = "german".parse()?;
/// assert_eq!(german.moves_to_english("Sf3 exd8D"), "Nf3 exd8Q");
/// assert_eq!(german.moves_to_english("O-O Nf3"), "O-O Nf3");
/// # Ok::<(), sansvoir::notation::NoLanguage>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Language {
    name: &'static str,
    letters: &'static [u8; 6],
}

/// A language that the table does not have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the piece letters of \"{0}\" are not known here: name one of {names}", names = Language::names().collect::<Vec<_>>().join(", "))]
pub struct NoLanguage(String);

impl Language {
    /// Walks the names of all languages.
    pub fn names() -> impl Iterator<Item = &'static str> {
        TABLE.into_iter().map(|(name, _)| name)
    }

    /// Returns the language's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.name
    }

    /// Brings moves, or men with their squares, into English letters. A word with a capital letter that
    /// the language does not have is left as it is, and so is a FEN, whose letters are English.
    #[must_use]
    pub fn moves_to_english(self, text: &str) -> String {
        let changed = |word: &str| {
            let is_fen = word.matches('/').count() == 7;
            if is_fen || word.starts_with("O-O") {
                return None;
            }
            word.chars().map(|letter| self.letter(letter)).collect()
        };
        each_word(text, changed)
    }

    /// Brings letters that stand for men into English ones and keeps whether they are capital; words
    /// are left as they are.
    #[must_use]
    pub fn men_to_english(self, text: &str) -> String {
        let alone = |letter: char| {
            let english = self.letter(letter.to_ascii_uppercase())?;
            Some(if letter.is_ascii_lowercase() {
                english.to_ascii_lowercase()
            } else {
                english
            })
        };
        let changed = |word: &str| {
            let mut letters = word.chars();
            match (letters.next()?, letters.next(), letters.next()) {
                (letter, None, _) if letter.is_ascii_alphabetic() => {
                    alone(letter).map(String::from)
                }
                // White's or Black's, as in wN.
                (side @ ('w' | 'b'), Some(letter @ 'A'..='Z'), None) => {
                    alone(letter).map(|letter| format!("{side}{letter}"))
                }
                _ if word.chars().all(|letter| letter.is_ascii_uppercase()) => {
                    word.chars().map(alone).collect()
                }
                _ => None,
            }
        };
        each_word(text, changed)
    }

    /// Brings a capital letter into English; all else stays as it is. `None` for a capital of no man.
    fn letter(self, letter: char) -> Option<char> {
        if !letter.is_ascii_uppercase() {
            return Some(letter);
        }
        let at = self
            .letters
            .iter()
            .position(|own| char::from(*own) == letter)?;
        Some(char::from(ENGLISH[at]))
    }
}

/// Changes each word of a text, and leaves what stands between the words.
fn each_word(text: &str, changed: impl Fn(&str) -> Option<String>) -> String {
    text.split_inclusive(|c: char| c.is_whitespace() || matches!(c, ',' | ';'))
        .map(|part| {
            let word = part.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, ',' | ';'));
            let behind = &part[word.len()..];
            changed(word).map_or_else(|| part.to_owned(), |word| word + behind)
        })
        .collect()
}

impl FromStr for Language {
    type Err = NoLanguage;

    fn from_str(name: &str) -> Result<Language, NoLanguage> {
        TABLE
            .into_iter()
            .find(|(known, _)| known.eq_ignore_ascii_case(name))
            .map(|(name, letters)| Language { name, letters })
            .ok_or_else(|| NoLanguage(name.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// PGN standard 1994.03.12, 8.2.3.2.
    #[test]
    fn the_table_holds_the_languages_of_the_standard_with_letters_that_differ() {
        assert_eq!(TABLE.len(), 17);
        for (name, letters) in TABLE {
            for (at, letter) in letters.iter().enumerate() {
                assert!(!letters[..at].contains(letter), "{name}");
            }
        }
    }

    #[test]
    fn the_reader_of_games_knows_the_same_letters() {
        use super::super::letters::LetterSet;
        for set in LetterSet::others() {
            for name in set.languages {
                let language: Language = name.parse().unwrap();
                assert_eq!(&language.letters[1..], set.text().as_bytes(), "{name}");
            }
        }
    }

    #[test]
    fn men_are_brought_into_english_letters() {
        let table = [
            ("german", "S", "N"),
            ("german", "s", "n"),
            ("german", "wL", "wB"),
            ("german", "SBB", "NPP"),
            ("german", "white knight", "white knight"),
            ("german", "b", "p"),
            ("french", "weiss C", "weiss N"),
            ("spanish", "A, T", "B, R"),
        ];
        for (language, said, wanted) in table {
            let language: Language = language.parse().unwrap();
            assert_eq!(language.men_to_english(said), wanted);
        }
    }

    #[test]
    fn moves_and_placements_are_brought_into_english_letters() {
        let table = [
            ("german", "Sf3, Lxc3 0-0", "Nf3, Bxc3 0-0"),
            ("german", "Kg1 Dd1 a2 / Ke8", "Kg1 Qd1 a2 / Ke8"),
            ("french", "Rg1 Dd1 / Re8", "Kg1 Qd1 / Ke8"),
            ("spanish", "cxd8=T+", "cxd8=R+"),
            ("german", "4k3/8/8/8/8/8/8/4K3 w", "4k3/8/8/8/8/8/8/4K3 w"),
            ("english", "Nf3", "Nf3"),
        ];
        for (language, said, wanted) in table {
            let language: Language = language.parse().unwrap();
            assert_eq!(language.moves_to_english(said), wanted);
        }
        assert!("Klingon".parse::<Language>().is_err());
    }
}
