//! What is said to a learner who answers by mouth.

use super::naming::count;

/// Asks whether this was said.
pub(crate) fn said_back(text: &str) -> String {
    format!("{text}?")
}

/// Said when nothing is left of what was said back.
pub(crate) const TAKEN_BACK: &str = "Taken back. Say it again.";

/// What else can be said by mouth.
pub(crate) const HELP: &str = "By mouth: what was understood is said back; yes counts it, no or wrong takes it \
    back. go on stands for Enter alone. Files are anna, bella, cesar, david, eva, felix, gustav and hector, unless the config \
    file says otherwise: say eva four, knight felix three, castles short. Leave a second of silence between two \
    utterances; a list may come in several.";

/// Says how many answers by mouth there are, and how often something misheard was taken back.
pub(crate) fn counted(heard: u64, taken_back: u64) -> String {
    format!(
        "By mouth: {}; {} taken back.",
        count(heard, "answer", "answers"),
        count(taken_back, "utterance was", "utterances were"),
    )
}
