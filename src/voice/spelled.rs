//! The words of the FIDE Laws' Appendix D, made to be heard without mistake, and the spoken language that
//! they bring into a sentence: they are German, all others English.

use shakmaty::{Role, Square};

/// The words that the appendix suggests for files, ranks and pieces, and prescribes for castling
/// (FIDE Laws of Chess 2023, Appendix D.2.1, in the Laws' own spelling without umlauts).
const FILES: [&str; 8] = [
    "Anna", "Bella", "Cesar", "David", "Eva", "Felix", "Gustav", "Hector",
];
const RANKS: [&str; 8] = [
    "eins", "zwei", "drei", "vier", "fuenf", "sechs", "sieben", "acht",
];
/// Pawn, knight, bishop, rook, queen and king.
const PIECES: [&str; 6] = ["Bauer", "Springer", "Laeufer", "Turm", "Dame", "Koenig"];
/// Castling short and long.
pub(super) const CASTLING: [&str; 2] = ["Kurze Rochade", "Lange Rochade"];

/// Names a piece.
pub(super) const fn piece(role: Role) -> &'static str {
    PIECES[role as usize - 1]
}

/// Names a square.
pub(super) fn square(square: Square) -> String {
    let (file, rank) = square.coords();
    format!("{} {}", FILES[usize::from(file)], RANKS[usize::from(rank)])
}

/// The spoken language in which words are to be spoken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SpokenLanguage {
    /// That of all sentences.
    English,
    /// That of the appendix's words.
    German,
}

/// Parts a sentence into runs of words of one spoken language, for a speech command that has a voice for each.
/// German words are brought into the spelling with umlauts, by which such a voice says them rightly.
pub(crate) fn spoken_languages(sentence: &str) -> Vec<(SpokenLanguage, String)> {
    let mut parts: Vec<(SpokenLanguage, String)> = Vec::new();
    let mut words = sentence.split(' ').peekable();
    while let Some(word) = words.next() {
        let (spoken_language, said) = match german(word, words.peek().copied()) {
            Some(said) => (SpokenLanguage::German, said),
            None => (SpokenLanguage::English, word.to_owned()),
        };
        match parts.last_mut() {
            Some((last, run)) if *last == spoken_language => {
                run.push(' ');
                run.push_str(&said);
            }
            _ => parts.push((spoken_language, said)),
        }
    }
    parts
}

/// Spells a word that is German. The files' words are names too, and German only with a rank behind them.
fn german(written: &str, next: Option<&str>) -> Option<String> {
    let word = bare(written);
    let mut castling = CASTLING.iter().flat_map(|both| both.split(' '));
    let is_german = if FILES.contains(&word) {
        next.is_some_and(|next| RANKS.contains(&bare(next)))
    } else {
        RANKS.contains(&word) || PIECES.contains(&word) || castling.any(|one| one == word)
    };
    is_german.then(|| written.replacen(word, with_umlauts(word), 1))
}

/// Spells a word of the appendix as a German voice says it rightly inside a sentence.
fn with_umlauts(word: &str) -> &str {
    match word {
        "fuenf" => "fünf",
        "Laeufer" => "Läufer",
        "Koenig" => "König",
        "Kurze" => "kurze",
        "Lange" => "lange",
        _ => word,
    }
}

/// A word without the marks of the sentence around it.
fn bare(written: &str) -> &str {
    written.trim_matches(|c: char| !c.is_alphanumeric())
}

#[cfg(test)]
mod tests {
    use super::*;
    use SpokenLanguage::{English, German};
    use shakmaty::CastlingSide;

    #[test]
    fn only_the_words_of_the_appendix_are_german() {
        let table: [(&str, &[(SpokenLanguage, &str)]); 6] = [
            (
                "Laeufer takes on Felix drei, check.",
                &[
                    (German, "Läufer"),
                    (English, "takes on"),
                    (German, "Felix drei,"),
                    (English, "check."),
                ],
            ),
            ("White: Berg, Anna.", &[(English, "White: Berg, Anna.")]),
            (
                "The piece stands on f3.",
                &[(English, "The piece stands on f3.")],
            ),
            (
                "Move 3, White: Bauer to Eva vier. Black: Koenig to Cesar fuenf.",
                &[
                    (English, "Move 3, White:"),
                    (German, "Bauer"),
                    (English, "to"),
                    (German, "Eva vier."),
                    (English, "Black:"),
                    (German, "König"),
                    (English, "to"),
                    (German, "Cesar fünf."),
                ],
            ),
            (
                "Kurze Rochade, check.",
                &[(German, "kurze Rochade,"), (English, "check.")],
            ),
            ("", &[(English, "")]),
        ];
        for (sentence, parts) in table {
            let said = spoken_languages(sentence);
            let said: Vec<_> = said
                .iter()
                .map(|(spoken_language, said)| (*spoken_language, said.as_str()))
                .collect();
            assert_eq!(said, parts, "{sentence}");
        }
    }

    #[test]
    fn every_word_of_the_appendix_is_spoken_as_german() {
        let squares = Square::ALL.map(square).into_iter();
        let others = PIECES.into_iter().chain(CASTLING).map(str::to_owned);
        for words in squares.chain(others) {
            let parts = spoken_languages(&words);
            assert!(matches!(parts[..], [(German, _)]), "{words}: {parts:?}");
        }
    }

    /// Source: FIDE Laws of Chess 2023, Appendix D.2.1.
    #[test]
    fn the_words_are_those_of_the_laws() {
        let diagonal = ["a1", "b2", "c3", "d4", "e5", "f6", "g7", "h8"];
        assert_eq!(
            diagonal.map(|name| square(name.parse().unwrap())),
            [
                "Anna eins",
                "Bella zwei",
                "Cesar drei",
                "David vier",
                "Eva fuenf",
                "Felix sechs",
                "Gustav sieben",
                "Hector acht"
            ]
        );
        assert_eq!(square(Square::F3), "Felix drei");
        assert_eq!(
            ['K', 'Q', 'R', 'B', 'N', 'P'].map(|letter| piece(Role::from_char(letter).unwrap())),
            ["Koenig", "Dame", "Turm", "Laeufer", "Springer", "Bauer"]
        );
        assert_eq!(CASTLING[CastlingSide::KingSide as usize], "Kurze Rochade");
        assert_eq!(CASTLING[CastlingSide::QueenSide as usize], "Lange Rochade");
    }
}
