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

/// A name that is looked for, made ready: its words, parted at hyphens and apostrophes, and joined there.
#[derive(Clone, Debug)]
pub(super) struct Wanted([Vec<String>; 2]);

impl Wanted {
    pub(super) fn new(name: &str) -> Wanted {
        let folded = fold(name);
        Wanted([true, false].map(|parts| {
            let words = spelled(&folded, parts);
            words.split_whitespace().map(str::to_owned).collect()
        }))
    }

    /// Tells whether a name has all the words, in any order.
    pub(super) fn fits(&self, name: &str, nearness: Nearness) -> bool {
        if nearness != Nearness::Misspelt && !self.may_fit(name.as_bytes()) {
            return false;
        }
        let folded = fold(name);
        let own = spelled(&folded, true) + " " + &spelled(&folded, false);
        let has = |wanted: &String, is_it: &dyn Fn(&str, &str) -> bool| {
            own.split_whitespace().any(|word| is_it(word, wanted))
        };
        let is_near = |word: &str, wanted: &str| fits_word(word, wanted, nearness);
        // Two initials are nobody's name.
        let is_begun = |word: &str, wanted: &str| word.len() > 1 && word.starts_with(wanted);
        self.0.iter().any(|words| {
            words.iter().all(|wanted| has(wanted, &is_near))
                && (nearness != Nearness::Beginning
                    || words.iter().any(|wanted| has(wanted, &is_begun)))
        })
    }

    /// Tells whether a word of the name begins with each letter wanted, or with one that may turn out to be it
    /// without its accent. Most names are ruled out by this.
    fn may_fit(&self, name: &[u8]) -> bool {
        let begins = |first: u8| {
            let mut before = b' ';
            name.iter().any(|byte| {
                let is_inside = std::mem::replace(&mut before, *byte).is_ascii_alphanumeric();
                !is_inside && (*byte >= 0xc0 || byte.to_ascii_lowercase() == first)
            })
        };
        let mut firsts = self.0[1].iter().map(|word| word.as_bytes()[0]);
        firsts.all(|first| !first.is_ascii() || begins(first))
    }
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

/// The words of a folded name with blanks between, in which ae, oe and ue are the letters that they stand for.
fn spelled(folded: &str, parts: bool) -> String {
    let mut words = String::with_capacity(folded.len());
    for c in folded.chars() {
        match c {
            '-' | '\'' | '’' | '‘' | '`' | '´' | '\u{2010}'..='\u{2013}' => {
                words.extend(parts.then_some(' '));
            }
            ',' | '.' | ';' | '(' | ')' => words.push(' '),
            'e' if words.ends_with(['a', 'o', 'u']) => {}
            other => words.push(other),
        }
    }
    words
}

/// Takes away too all that is no letter and no digit, as in `Queen's Gambit` and `Caro-Kann`.
pub(super) fn joined(text: &str) -> String {
    let folded = fold(text);
    folded.chars().filter(|c| c.is_alphanumeric()).collect()
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
                Wanted::new(wanted).fits(name, Nearness::Whole),
                "{wanted}: {name}"
            );
        }
        for (wanted, name) in [
            ("Qui", "Quill, Tamsin"),
            ("T Quill", "Quill, Tamsin"),
            ("Tamsin Quill", "Quill, T."),
        ] {
            assert!(
                !Wanted::new(wanted).fits(name, Nearness::Whole),
                "{wanted}: {name}"
            );
            assert!(
                Wanted::new(wanted).fits(name, Nearness::Beginning),
                "{wanted}: {name}"
            );
        }
        assert!(!Wanted::new("Tamsin Quill").fits("T. Q.", Nearness::Beginning));
        assert!(Wanted::new("Quil Tamzin").fits("Quill, Tamsin", Nearness::Misspelt));
        assert!(!Wanted::new("Quill").fits("Orrin Vale", Nearness::Misspelt));
    }
}
