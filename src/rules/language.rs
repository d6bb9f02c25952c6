//! Languages and their piece letters.

use std::str::FromStr;

/// The letters for pawn, knight, bishop, rook, queen and king, and the languages that use them.
///
/// Source: PGN standard 1994.03.12, 8.2.3.2, up to Romanian; the others, which it leaves out, are common knowledge. The
/// second letter of the Russian king is a small one.
const TABLE: [LetterSet; 18] = [
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
    LetterSet::of("EAFKVŞ", &["Turkish"]),
    LetterSet::of("ПКСЛФКр", &["Russian", "Ukrainian"]),
    LetterSet::of("ПКОТДЦ", &["Bulgarian"]),
    LetterSet::of("ПСЛТДК", &["Serbian"]),
    LetterSet::of("ΣΙΑΠΒΡ", &["Greek"]),
];

/// The languages whose piece letters a game was read with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letters {
    /// The languages with which the game is legal, as far as it is read; with each of them the moves are the same.
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

    /// Walks all sets, the English one first.
    pub(crate) fn all() -> impl Iterator<Item = LetterSet> {
        TABLE.into_iter()
    }

    pub(crate) fn is_english(self) -> bool {
        self == LetterSet::ENGLISH
    }

    /// The letters that a game is written with: a pawn's move is written without one.
    pub(crate) fn text(self) -> &'static str {
        self.letters.split_at(self.pawn().len_utf8()).1
    }

    /// Brings a capital letter into English; all else stays as it is. `None` for a capital of no piece.
    pub(crate) fn english(self, letter: char) -> Option<char> {
        if !letter.is_uppercase() {
            return Some(letter);
        }
        let at = self.letters.chars().position(|own| own == letter)?;
        LetterSet::ENGLISH.letters.chars().nth(at)
    }

    fn pawn(self) -> char {
        self.letters.chars().next().unwrap_or('P')
    }

    /// Writes the king of two letters as a sign that is no letter.
    fn with_one_king(word: &str) -> String {
        word.replace("Кр", "♔")
    }

    /// Writes a move with the English letters, or returns `None` where it has a capital that is
    /// not in this set.
    pub(crate) fn to_english(self, word: &str) -> Option<String> {
        let english = |letter| self.english(letter).filter(|letter| *letter != 'P');
        LetterSet::with_one_king(word)
            .chars()
            .map(english)
            .collect()
    }
}

/// A language by its piece letters.
///
/// ```
/// use sansvoir::rules::Language;
///
/// let german: Language = "german".parse()?;
/// assert_eq!(german.moves_to_english("Sf3 exd8D"), "Nf3 exd8Q");
/// assert_eq!(german.moves_to_english("O-O Nf3"), "O-O Nf3");
/// # Ok::<(), sansvoir::rules::UnknownLanguage>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Language {
    name: &'static str,
    letters: LetterSet,
}

/// A language that the table does not have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the piece letters of \"{0}\" are not known here: name one of {names}", names = Language::names().join(", "))]
pub struct UnknownLanguage(String);

impl Language {
    /// Returns the names of all languages, in the order of the alphabet.
    pub fn names() -> Vec<&'static str> {
        let mut names: Vec<&str> = Language::all().map(Language::name).collect();
        names.sort_unstable();
        names
    }

    fn all() -> impl Iterator<Item = Language> {
        TABLE.into_iter().flat_map(|letters| {
            let named = move |name: &&'static str| Language { name, letters };
            letters.languages.iter().map(named)
        })
    }

    /// Returns the language's name.
    pub const fn name(self) -> &'static str {
        self.name
    }

    /// Brings moves, or pieces with their squares, into English letters. A word with a capital letter that
    /// the language does not have is left as it is, and so are a FEN, whose letters are English, and a
    /// word without a number, such as the name of a side.
    pub fn moves_to_english(self, text: &str) -> String {
        let changed = |word: &str| {
            let is_fen = word.matches('/').count() == 7;
            let is_word = !word.contains(|c: char| c.is_ascii_digit());
            if is_fen || is_word {
                return None;
            }
            LetterSet::with_one_king(word)
                .chars()
                .map(|letter| self.letters.english(letter))
                .collect()
        };
        each_word(text, changed)
    }

    /// Brings letters that stand for pieces into English ones and keeps whether they are capital; words
    /// are left as they are.
    pub fn pieces_to_english(self, text: &str) -> String {
        let alone = |letter: char| {
            let capital = letter.to_uppercase().next()?;
            let english = self.letters.english(capital)?;
            Some(if letter.is_lowercase() {
                english.to_ascii_lowercase()
            } else {
                english
            })
        };
        let changed = |word: &str| {
            let mut letters = word.chars();
            match (letters.next()?, letters.next(), letters.next()) {
                (letter, None, _) if letter.is_alphabetic() => alone(letter).map(String::from),
                // White's or Black's, as in wN.
                (side @ ('w' | 'b'), Some(letter), None) if letter.is_uppercase() => {
                    alone(letter).map(|letter| format!("{side}{letter}"))
                }
                _ if word.chars().all(char::is_uppercase) => word.chars().map(alone).collect(),
                _ => None,
            }
        };
        each_word(text, changed)
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
    type Err = UnknownLanguage;

    fn from_str(name: &str) -> Result<Language, UnknownLanguage> {
        Language::all()
            .find(|language| language.name.eq_ignore_ascii_case(name))
            .ok_or_else(|| UnknownLanguage(name.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_holds_the_languages_of_the_standard() {
        let count: usize = TABLE.iter().map(|set| set.languages.len()).sum();
        assert_eq!(count, 23);
        for set in TABLE {
            let letters = LetterSet::with_one_king(set.letters);
            for (at, letter) in letters.char_indices() {
                assert!(!letters[..at].contains(letter), "{set:?}");
            }
        }
    }

    #[test]
    fn a_language_is_put_into_english() {
        let german = LetterSet::all().nth(2).unwrap();
        assert_eq!(german.to_english("Sgxf3+").as_deref(), Some("Ngxf3+"));
        assert_eq!(german.to_english("e8=D#").as_deref(), Some("e8=Q#"));
        assert_eq!(german.to_english("Nf3"), None);
        assert_eq!(german.to_english("Be4"), None, "no move names a pawn");
        assert_eq!(german.to_english("e4").as_deref(), Some("e4"));
    }

    #[test]
    fn every_language_of_the_standard_is_known_by_its_name() {
        let names = Language::names();
        assert_eq!(names.len(), 23);
        assert_eq!(names[..3], ["Bulgarian", "Czech", "Danish"]);
        for name in names {
            let language: Language = name.to_lowercase().parse().unwrap();
            assert_eq!(language.name(), name);
        }
    }

    #[test]
    fn pieces_are_brought_into_english_letters() {
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
            assert_eq!(language.pieces_to_english(said), wanted);
        }
    }

    #[test]
    fn moves_and_placements_are_brought_into_english_letters() {
        let table = [
            ("german", "Sf3, Lxc3 0-0", "Nf3, Bxc3 0-0"),
            ("german", "Kg1 Dd1 a2 / Ke8", "Kg1 Qd1 a2 / Ke8"),
            (
                "german",
                "Schwarz: Ke8 Sf6 Weiß: Ke1",
                "Schwarz: Ke8 Nf6 Weiß: Ke1",
            ),
            ("german", "O-O Springer f3", "O-O Springer f3"),
            ("french", "Rg1 Dd1 / Re8", "Kg1 Qd1 / Ke8"),
            ("spanish", "cxd8=T+", "cxd8=R+"),
            ("german", "4k3/8/8/8/8/8/8/4K3 w", "4k3/8/8/8/8/8/8/4K3 w"),
            ("russian", "Крg1 Фd1 О-О", "♔g1 Qd1 О-О"),
            ("turkish", "Şg1 Af3", "Kg1 Nf3"),
            ("english", "Nf3", "Nf3"),
        ];
        for (language, said, wanted) in table {
            let language: Language = language.parse().unwrap();
            assert_eq!(language.moves_to_english(said), wanted);
        }
        assert!("Klingon".parse::<Language>().is_err());
    }
}
