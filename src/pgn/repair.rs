//! What an export changes in a game's text, token by token.

use serde::Serialize;

use super::export::export;
use super::fault::{Cost, Reason};
use super::passage::{Passage, Places};
use super::reading::Reading;
use super::signs::{outcome, split_number, strip};
use super::text::shown;
use super::token::{Kind, Lexer};
use super::tokens::Tokens;
use crate::game::Place;

/// One change: what stood at a place, and what is written for it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Repair {
    /// Where it stood.
    #[serde(flatten)]
    pub place: Place,
    /// What stood there; empty where something was missing.
    pub before: String,
    /// What is written; empty where it is left out.
    pub after: String,
    /// Why, where it is more than another spelling.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}

impl Reading {
    /// Lists what an export of the game changes, in the order of the text: words in another spelling, and what
    /// was remarked. What lost moves is none of it.
    pub fn repairs(&self, passage: &Passage) -> Vec<Repair> {
        let text = export(&self.game);
        let movetext = text.split_once("\n\n").map_or("", |(_, moves)| moves);
        let mut places = Places::new(passage);
        let mut written = moves(movetext);
        let mut nodes = self
            .game
            .ids()
            .map(|id| self.game.node(id).place)
            .peekable();
        let mut repairs = Vec::new();
        for token in Tokens::new(passage) {
            let place = places.of(token.span.start);
            let mut after = Vec::new();
            // Two moves may stand in one word.
            let end = places.of(token.span.end);
            while nodes.next_if(|node| (place..end).contains(node)).is_some() {
                after.extend(written.next());
            }
            let said = passage.decoded(token.span);
            let before = strip(split_number(&said).1).0;
            if token.kind == Kind::Word && !after.is_empty() && [before] != after[..] {
                let (before, after, reason) = (shown(before), after.join(" "), None);
                repairs.push(Repair {
                    place,
                    before,
                    after,
                    reason,
                });
            }
        }
        let result = movetext.split_whitespace().next_back().unwrap_or_default();
        for fault in &self.faults {
            let after = match fault.reason {
                Reason::Respelled(_) => continue,
                Reason::NoResult | Reason::ResultsDiffer { .. } | Reason::ResultInWords(_) => {
                    result
                }
                _ => "",
            };
            if fault.cost == Cost::Nothing {
                let (before, after, reason) = (
                    fault.token.clone(),
                    after.to_owned(),
                    Some(fault.reason.to_string()),
                );
                repairs.push(Repair {
                    place: fault.place,
                    before,
                    after,
                    reason,
                });
            }
        }
        repairs.sort_by_key(|repair| repair.place);
        repairs
    }
}

/// The moves of a text in export format.
fn moves(movetext: &str) -> impl Iterator<Item = &str> {
    let lexer = Lexer::whole(movetext.as_bytes(), true);
    let mut at = 0;
    let tokens = std::iter::from_fn(move || {
        let token = lexer.token(at)?;
        at = token.span.end;
        Some(token)
    });
    tokens
        .filter(|token| token.kind == Kind::Word)
        .filter_map(|token| {
            let (_, word) = split_number(&movetext[token.span.clone()]);
            (!word.is_empty() && outcome(word.as_bytes()).is_none()).then_some(word)
        })
}
