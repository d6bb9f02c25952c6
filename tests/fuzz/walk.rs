//! A learner whose replies come from dice: right, wrong, unreadable, and what the prompt offers.

use sansvoir::exercise::Dice;
use serde_json::Value;

use crate::replies;

/// Lines to type.
pub(crate) struct Walk<'a> {
    pub(crate) dice: &'a mut Dice,
    /// The right replies to the questions, in their order.
    pub(crate) known: &'a [String],
}

/// What the prompt offers.
const OFFERED: &[&str] = &[
    "",
    "",
    "",
    "again",
    "again 3",
    "again all",
    "look",
    "look",
    "pass",
    "why",
    "question",
    "help",
];

impl Walk<'_> {
    /// Says what is right and nothing else.
    pub(crate) fn straight(self) -> String {
        self.known
            .iter()
            .fold(String::new(), |typed, reply| typed + reply + "\n")
    }

    /// Says anything, and at times stops.
    pub(crate) fn astray(self) -> String {
        let mut typed = String::new();
        let mut known = self.known.iter();
        for _ in 0..3 + self.dice.below(20) {
            let reply = match self.dice.below(8) {
                0..=2 => self.dice.pick(OFFERED).map(|word| (*word).to_owned()),
                3 => {
                    let words =
                        (0..=self.dice.below(4)).filter_map(|_| self.dice.pick(replies::WORDS));
                    Some(words.copied().collect::<Vec<_>>().join(" "))
                }
                4 => (self.dice.pick(&replies::seeds()))
                    .map(|reply| String::from_utf8_lossy(reply).into_owned()),
                _ => known.next().cloned(),
            };
            typed += &reply.unwrap_or_else(|| "e4".to_owned());
            typed.push('\n');
        }
        if self.dice.chance(1, 2) {
            typed += "stop\n";
        }
        typed
    }
}

/// The reply that is right by what an answer's record holds; `None` where the record does not say one.
pub(crate) fn right(record: &Value) -> Option<String> {
    if record["type"] != "answer" {
        return None;
    }
    let (name, value) = record["expected"]
        .as_object()?
        .iter()
        .find(|(name, _)| *name != "optional" && *name != "reason" && *name != "by")?;
    let listed = |parted: &str| {
        let list: Vec<&str> = value.as_array()?.iter().filter_map(Value::as_str).collect();
        Some(if list.is_empty() {
            "none".to_owned()
        } else {
            list.join(parted)
        })
    };
    let text = |value: &Value| Some(value.as_str()?.to_owned());
    match name.as_str() {
        "squares" | "wings" => listed(" "),
        "moves" if record["kind"] == "mate" => Some(value[0].as_str().unwrap_or("none").to_owned()),
        "moves" if value.is_array() => listed(" "),
        "gone" => Some("gone".to_owned()),
        "piece" if value.is_null() => Some("empty".to_owned()),
        "pieces" => {
            let each: Vec<String> = value.as_str()?.chars().map(String::from).collect();
            Some(if each.is_empty() {
                "none".to_owned()
            } else {
                each.join(" ")
            })
        }
        "legal" => Some(if value == true { "yes" } else { "no" }.to_owned()),
        "points" => Some(value.to_string()),
        "square" | "piece" | "move" | "placement" | "color" => text(value),
        _ => None,
    }
}
