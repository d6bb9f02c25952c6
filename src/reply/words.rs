//! The words of a reply: how it is split into them, and those that mean the same whatever is asked.

use super::meaning::Unread;

/// Splits a reply into its words: by white space, slashes, commas, semicolons and the word "and".
pub(super) fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | '/' | '!'))
        .filter(|word| !word.is_empty() && !word.eq_ignore_ascii_case("and"))
}

/// Brings the text of one short answer into small letters, without the stop at its end and without
/// the words around what it says: "It is a diagonal." becomes "diagonal".
pub(super) fn plain(text: &str) -> String {
    const AROUND: [&str; 15] = [
        "it", "it's", "its", "is", "was", "has", "been", "they", "are", "a", "an", "the", "same",
        "on", "in",
    ];
    let small = text.to_lowercase();
    let small = small.trim().trim_end_matches(['.', '!']);
    let telling = small
        .split_whitespace()
        .filter(|word| !AROUND.contains(word));
    let telling: Vec<&str> = telling.collect();
    if telling.is_empty() {
        small.to_owned()
    } else {
        telling.join(" ")
    }
}

/// Tells whether a text says no, which answers no question of where or what.
pub(super) fn refuses(text: &str) -> bool {
    matches!(plain(text).as_str(), "no" | "nope" | "nein")
}

/// Tells whether a text names the empty set.
pub(super) fn means_none(text: &str) -> bool {
    const NONE: [&str; 9] = [
        "none", "-", "\u{2013}", "\u{2014}", "nothing", "nowhere", "gone", "taken", "captured",
    ];
    const NO: [&str; 16] = [
        "check", "checks", "mate", "mates", "capture", "captures", "move", "moves", "square",
        "squares", "man", "men", "piece", "pieces", "one", "wing",
    ];
    let said = plain(text);
    let no_such = said.strip_prefix("no ").is_some_and(|of| NO.contains(&of));
    NONE.contains(&said.as_str()) || said == "not check" || no_such || refuses(text)
}

/// Tells whether a text says that a piece never gets there.
pub(super) fn means_never(text: &str) -> bool {
    refuses(text)
        || matches!(
            plain(text).as_str(),
            "never" | "none" | "-" | "\u{2013}" | "\u{2014}" | "no way" | "impossible" | "nie"
        )
}

/// Tells whether a text says that something has not moved.
pub fn still_there(text: &str) -> bool {
    const STILL: [&str; 11] = [
        "still there",
        "there",
        "there still",
        "square",
        "still square",
        "unmoved",
        "not moved",
        "never moved",
        "hasn't moved",
        "still at home",
        "at home",
    ];
    STILL.contains(&plain(text).as_str())
}

/// Returns what a text seems to wish for that answers nothing: to give the question up, or to leave.
/// Nothing is done at such a word but to name the right one.
pub fn wish(text: &str) -> Option<Unread> {
    match text
        .trim()
        .trim_end_matches(['.', '!'])
        .to_lowercase()
        .as_str()
    {
        "?" | "??" | "???" | "idk" | "dunno" | "don't know" | "i don't know" | "i dont know"
        | "no idea" | "give up" | "i give up" | "wei\u{df} nicht" | "keine ahnung" => {
            Some(Unread::GivesUp)
        }
        "quit" | "exit" | "bye" | ":q" | "ende" => Some(Unread::Leaves),
        _ => None,
    }
}
