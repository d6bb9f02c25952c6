//! Names of players as people write them.

use std::borrow::Cow;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// How near a name must come to the one that is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nearness {
    /// Every wanted word is one of the name's.
    Whole,
    /// Every wanted word begins one of the name's, or an initial of the name begins the word.
    Beginning,
    /// Every wanted word is one of the name's but for a letter or two.
    Misspelt,
}

/// Tells whether a name has all the wanted words, in any order.
pub(super) fn fits(name: &str, wanted: &Wanted, nearness: Nearness) -> bool {
    if nearness != Nearness::Misspelt && !wanted.firsts.iter().all(|first| may_hold(name, *first)) {
        return false;
    }
    let folded = fold(name);
    let (parts, joined) = (words(&folded, true), words(&folded, false));
    let own: Vec<String> = parts.into_iter().chain(joined).collect();
    let has = |wanted: &Vec<String>| {
        wanted
            .iter()
            .all(|wanted| own.iter().any(|word| fits_word(word, wanted, nearness)))
    };
    let has_whole = |wanted: &Vec<String>| {
        // Two initials are nobody's name.
        nearness != Nearness::Beginning
            || wanted.iter().any(|wanted| {
                own.iter()
                    .any(|word| word.len() > 1 && word.starts_with(wanted.as_str()))
            })
    };
    [&wanted.parted, &wanted.joined]
        .into_iter()
        .any(|wanted| has(wanted) && has_whole(wanted))
}

/// A name that is looked for, made ready.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    /// Its words, parted at hyphens and apostrophes too.
    parted: Vec<String>,
    /// Its words, joined there.
    joined: Vec<String>,
    /// The first letters of the words.
    firsts: Vec<u8>,
}

impl Wanted {
    pub(super) fn new(name: &str) -> Wanted {
        let folded = fold(name);
        let joined = words(&folded, false);
        Wanted {
            parted: words(&folded, true),
            firsts: joined.iter().map(|word| word.as_bytes()[0]).collect(),
            joined,
        }
    }
}

/// Tells whether some word of the name begins with the letter wanted, or with one that may turn out to
/// be it without its accent. Most names are ruled out by this.
fn may_hold(name: &str, first: u8) -> bool {
    let mut before = b' ';
    !first.is_ascii()
        || name.bytes().any(|byte| {
            let begins = !std::mem::replace(&mut before, byte).is_ascii_alphanumeric();
            begins && (!byte.is_ascii() || byte.to_ascii_lowercase() == first)
        })
}

fn fits_word(word: &str, wanted: &str, nearness: Nearness) -> bool {
    /// In a word so long, two letters may be wrong.
    const LONG: usize = 6;
    match nearness {
        Nearness::Whole => word == wanted,
        Nearness::Beginning => {
            word.starts_with(wanted) || (word.chars().count() == 1 && wanted.starts_with(word))
        }
        Nearness::Misspelt => {
            let wrong = if wanted.len() < LONG { 1 } else { 2 };
            wanted.len() > 2 && strsim::osa_distance(word, wanted) <= wrong
        }
    }
}

/// The words of a folded name, in which ae, oe and ue are the letters that they stand for.
fn words(name: &str, parts: bool) -> Vec<String> {
    let between = |c: char| c.is_whitespace() || matches!(c, ',' | '.' | ';' | '(' | ')');
    let joins = |c: char| {
        matches!(
            c,
            '-' | '\'' | '’' | '‘' | '`' | '´' | '\u{2010}'..='\u{2013}'
        )
    };
    let words = name.split(|c| between(c) || (parts && joins(c)));
    let words = words.map(|word| {
        word.replace(joins, "")
            .replace("ae", "a")
            .replace("oe", "o")
            .replace("ue", "u")
    });
    words.filter(|word| !word.is_empty()).collect()
}

/// Takes away what does not matter when names are compared: case, accents, crossbars and ligatures.
pub(super) fn fold(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        return if text.bytes().any(|byte| byte.is_ascii_uppercase()) {
            text.to_ascii_lowercase().into()
        } else {
            text.into()
        };
    }
    let mut folded = String::with_capacity(text.len());
    for char in text.nfkd().filter(|char| !is_combining_mark(*char)) {
        for small in char.to_lowercase() {
            match small {
                'ø' => folded.push('o'),
                'ł' => folded.push('l'),
                'đ' | 'ð' => folded.push('d'),
                'ħ' => folded.push('h'),
                'ı' => folded.push('i'),
                'ß' => folded.push_str("ss"),
                'æ' => folded.push_str("ae"),
                'œ' => folded.push_str("oe"),
                'þ' => folded.push_str("th"),
                // A capital I with a dot becomes two in small letters.
                other if is_combining_mark(other) => {}
                other => folded.push(other),
            }
        }
    }
    folded.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_found_however_it_is_written() {
        let whole = [
            ("Vachier", "Vachier-Lagrave, Maxime"),
            ("maxime vachier lagrave", "Vachier-Lagrave, Maxime"),
            ("vachierlagrave", "Vachier-Lagrave, Maxime"),
            ("OKelly", "O'Kelly de Galway, Alberic"),
            ("O’Kelly", "OKelly"),
            ("mueller", "Müller, Karsten"),
            ("Muller", "Mueller"),
            ("Grossmann", "Großmann"),
            ("Sorensen", "Sørensen, S."),
            ("lukasz", "Łukasz"),
            ("Tamsin Quill", "QUILL,TAMSIN"),
        ];
        for (wanted, name) in whole {
            assert!(
                fits(name, &Wanted::new(wanted), Nearness::Whole),
                "{wanted}: {name}"
            );
        }
        for (wanted, name) in [
            ("Qui", "Quill, Tamsin"),
            ("T Quill", "Quill, Tamsin"),
            ("Tamsin Quill", "Quill, T."),
        ] {
            assert!(
                !fits(name, &Wanted::new(wanted), Nearness::Whole),
                "{wanted}: {name}"
            );
            assert!(
                fits(name, &Wanted::new(wanted), Nearness::Beginning),
                "{wanted}: {name}"
            );
        }
        assert!(!fits(
            "T. Q.",
            &Wanted::new("Tamsin Quill"),
            Nearness::Beginning
        ));
        assert!(fits(
            "Quill, Tamsin",
            &Wanted::new("Quil Tamzin"),
            Nearness::Misspelt
        ));
        assert!(!fits(
            "Orrin Vale",
            &Wanted::new("Quill"),
            Nearness::Misspelt
        ));
    }
}
