//! A whole board in words, one of which could not be read: a typo costs a word, not the line.

use crate::reply::Unread;

/// With more words than these that cannot be read, a line is said anew.
const MOST_UNREAD: usize = 3;
/// A word of so many letters without a digit is no typo of a piece with its square.
const LONG: usize = 4;

/// What stands before and behind the word that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Draft {
    before: String,
    after: String,
}

impl Draft {
    /// Keeps what could be read of a text, where that is all but a few words; `read` tells the next one.
    pub(super) fn of(text: &str, read: impl Fn(&str) -> Option<Unread>) -> Option<Draft> {
        let mut first = None;
        let mut rest = text.to_owned();
        for _ in 0..=MOST_UNREAD {
            let word = match read(&rest) {
                None => return first,
                Some(Unread::NoPlacement(word)) => word,
                Some(_) => return None,
            };
            let is_long = word.len() >= LONG && !word.contains(|char: char| char.is_ascii_digit());
            let draft = Draft::around(&rest, &word).filter(|_| !is_long)?;
            rest = draft.filled("");
            first = first.or(Some(draft));
        }
        None
    }

    /// Finds a whole word in a text.
    fn around(text: &str, word: &str) -> Option<Draft> {
        let parts = |char: char| char.is_whitespace() || ",;.:/".contains(char);
        let mut found = text.match_indices(word).map(|(at, _)| Draft {
            before: text[..at].to_owned(),
            after: text[at + word.len()..].to_owned(),
        });
        found.find(|draft| {
            draft.before.chars().next_back().is_none_or(parts)
                && draft.after.chars().next().is_none_or(parts)
        })
    }

    /// Puts in what was said for the word: nothing for `none`. Who names both sides says all anew.
    pub(super) fn mended(&self, said: &str) -> String {
        let small = said.trim().to_lowercase();
        let names_sides = |name: &str| small.contains(name);
        if ["/", "white", "black"].into_iter().any(names_sides) {
            return said.to_owned();
        }
        self.filled(if matches!(&*small, "none" | "-") {
            ""
        } else {
            said.trim()
        })
    }

    fn filled(&self, word: &str) -> String {
        format!("{}{word}{}", self.before, self.after)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::question::Form;

    fn draft(text: &str) -> Option<Draft> {
        Draft::of(text, |text| Form::Placement.read(text).err())
    }

    #[test]
    fn all_but_the_word_that_cannot_be_read_is_kept() {
        let kept = draft("Kg1 Qd11 a2, b2 / Ke8 a7").unwrap();
        assert_eq!(kept.mended("Qd1"), "Kg1 Qd1 a2, b2 / Ke8 a7");
        assert_eq!(kept.mended("none"), "Kg1  a2, b2 / Ke8 a7");
        let anew = "white Kg1, black Ke8";
        assert_eq!(kept.mended(anew), anew);
    }

    #[test]
    fn the_next_word_that_cannot_be_read_is_asked_for_after_the_first() {
        let kept = draft("Kg1 x9 / Ke8 y9").unwrap();
        let next = draft(&kept.mended("Rb1")).unwrap();
        assert_eq!(next.mended("a7"), "Kg1 Rb1 / Ke8 a7");
    }

    #[test]
    fn a_line_of_which_little_is_read_is_said_anew() {
        for text in [
            "x1 x2 x9 y9 z9 / Ke8",
            "nothing at all",
            "white kings e1 black king e8",
            "Kg1 x9 Ke8",
        ] {
            assert_eq!(draft(text), None, "{text}");
        }
    }
}
