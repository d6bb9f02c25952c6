//! Drawing questions over the bare board.

use super::settings::DrillSettings;
use crate::exercise::Dice;
use crate::question::{BareChoice, BareQuestion, Kind};

/// A question does not come again within so many draws.
const APART: usize = 4;
/// How often a draw is tried again when it does not fit.
const TRIES: usize = 64;

/// Draws the questions of a whole run: those that were chosen first, and then the kinds take turns in
/// random order; about one question in three is one that was weak before, where there is such a one of
/// its kind.
#[must_use]
pub fn deal(settings: &DrillSettings) -> Vec<BareQuestion> {
    let mut dice = Dice::new(settings.seed, 0);
    let mut choice = BareChoice {
        view: settings.view,
        pieces: &settings.pieces,
        blockers: settings.blockers,
        dice: &mut dice,
    };
    let mut turns: Vec<Kind> = Vec::new();
    let mut deck: Vec<BareQuestion> = settings.chosen.clone();
    deck.truncate(settings.count);
    while deck.len() < settings.count {
        if turns.is_empty() {
            // Those over a position are passed over, as elsewhere those over the bare board.
            let bare = settings
                .kinds
                .iter()
                .filter(|kind| Kind::BARE.contains(kind));
            turns.extend(bare);
            choice.dice.shuffle(&mut turns);
        }
        let Some(kind) = turns.pop() else { break };
        let lately = deck.len().saturating_sub(APART);
        let mut draw = || draw(kind, &settings.weak, &mut choice);
        let Some(mut question) = draw() else { continue };
        for _ in 0..TRIES {
            if !deck[lately..].contains(&question) {
                break;
            }
            question = draw().unwrap_or(question);
        }
        deck.push(question);
    }
    deck
}

fn draw(kind: Kind, weak: &[BareQuestion], choice: &mut BareChoice<'_>) -> Option<BareQuestion> {
    if choice.dice.chance(1, 3) {
        let weak = weak.iter().filter(|question| question.kind() == kind);
        let weak: Vec<&BareQuestion> = weak.collect();
        if let Some(question) = choice.dice.pick(&weak) {
            return Some(**question);
        }
    }
    BareQuestion::draw(kind, choice)
}
