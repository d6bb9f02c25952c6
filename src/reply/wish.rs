//! What people type who want to give up or to leave, and do not know the word for it here.

use super::Unread;

/// Returns what a text seems to wish for that answers nothing: to give the question up, or to leave.
/// Nothing is done at such a word but to name the right one.
#[must_use]
pub fn wish(text: &str) -> Option<Unread> {
    const GIVES_UP: [&str; 13] = [
        "?",
        "??",
        "???",
        "idk",
        "dunno",
        "don't know",
        "i don't know",
        "i dont know",
        "no idea",
        "give up",
        "i give up",
        "wei\u{df} nicht",
        "keine ahnung",
    ];
    const LEAVES: [&str; 5] = ["quit", "exit", "bye", ":q", "ende"];
    let text = text.trim().trim_end_matches(['.', '!']).to_lowercase();
    if GIVES_UP.contains(&text.as_str()) {
        Some(Unread::GivesUp)
    } else if LEAVES.contains(&text.as_str()) {
        Some(Unread::Leaves)
    } else {
        None
    }
}
