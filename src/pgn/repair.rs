//! What an export changes in a game's text, token by token.

use serde::Serialize;

use super::export::with_moves;
use super::fault::Reason;
use super::lost::Cost;
use super::passage::{Passage, Places};
use super::reading::Reading;
use super::signs::{split_number, strip};
use super::text::shown;
use super::token::Kind;
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
        let (text, written) = with_moves(&self.game);
        let mut places = Places::new(passage);
        let nodes = self.game.ids().map(|id| self.game.node(id).place);
        let mut moves = nodes.zip(written).peekable();
        let mut repairs = Vec::new();
        for token in Tokens::new(passage).filter(|token| token.kind == Kind::Word) {
            let place = places.of(token.span.start);
            // Two moves may stand in one word.
            let here = std::iter::from_fn(|| moves.next_if(|(node, _)| *node == place));
            let after: Vec<String> = here.map(|(_, written)| written).collect();
            let said = passage.decoded(token.span);
            let before = strip(split_number(&said).1).0;
            if !after.is_empty() && [before] != after[..] {
                repairs.push(Repair {
                    place,
                    before: shown(before),
                    after: after.join(" "),
                    reason: None,
                });
            }
        }
        let result = text.split_whitespace().next_back().unwrap_or_default();
        let remarks = (self.faults.iter())
            .filter(|fault| fault.cost == Cost::Nothing)
            .filter(|fault| !matches!(fault.reason, Reason::Respelled(_)));
        for fault in remarks {
            let reason = Some(fault.reason.to_string());
            // A change and why it is made are told as one.
            if let Some(change) = repairs
                .iter_mut()
                .find(|repair: &&mut Repair| repair.place == fault.place && repair.reason.is_none())
            {
                change.reason = reason;
                continue;
            }
            repairs.push(Repair {
                place: fault.place,
                before: fault.token.clone(),
                after: match fault.reason {
                    Reason::NoResult | Reason::ResultsDiffer { .. } | Reason::ResultInWords(_) => {
                        result.to_owned()
                    }
                    // It stays as it is.
                    Reason::ResultAgainstBoard { .. } | Reason::Doubtful { .. } => {
                        fault.token.clone()
                    }
                    _ if fault.reason.concerns_encoding() => fault.token.clone(),
                    _ => String::new(),
                },
                reason,
            });
        }
        repairs.sort_by_key(|repair| repair.place);
        repairs
    }
}
