//! The spoken languages of a sentence: the words of the FIDE Laws' appendix are German, all others English.

use super::announce::spelled;

/// The spoken language in which words are to be spoken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpokenLanguage {
    /// That of all sentences.
    English,
    /// That of the appendix's words.
    German,
}

/// Parts a sentence into runs of words of one spoken language, for a speech command that has a voice for each.
/// German words are brought into the spelling with umlauts, by which such a voice says them rightly.
///
/// ```
/// use sansvoir::voice::{SpokenLanguage, spoken_languages};
///
/// let parts = spoken_languages("Laeufer takes on Felix drei, check.");
/// let parts: Vec<_> = parts.iter().map(|(language, words)| (*language, words.as_str())).collect();
/// assert_eq!(
///     parts,
///     [
///         (SpokenLanguage::German, "Läufer"),
///         (SpokenLanguage::English, "takes on"),
///         (SpokenLanguage::German, "Felix drei,"),
///         (SpokenLanguage::English, "check."),
///     ]
/// );
/// ```
#[must_use]
pub fn spoken_languages(sentence: &str) -> Vec<(SpokenLanguage, String)> {
    let words: Vec<&str> = sentence.split(' ').collect();
    let mut parts: Vec<(SpokenLanguage, String)> = Vec::new();
    for (n, word) in words.iter().enumerate() {
        let (spoken_language, said) = match german(word, words.get(n + 1).copied()) {
            Some(said) => (SpokenLanguage::German, said),
            None => (SpokenLanguage::English, (*word).to_owned()),
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
    let is_german = if spelled::is_file(word) {
        next.is_some_and(|next| spelled::is_rank(bare(next)))
    } else {
        spelled::is_rank(word) || spelled::is_of_a_move(word)
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

    #[test]
    fn only_the_words_of_the_appendix_are_german() {
        let table: [(&str, &[(SpokenLanguage, &str)]); 5] = [
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
        use super::super::announce::spelled::all_words;
        for words in all_words() {
            let parts = spoken_languages(&words);
            assert!(matches!(parts[..], [(German, _)]), "{words}: {parts:?}");
        }
    }
}
