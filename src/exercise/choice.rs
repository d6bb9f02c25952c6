//! Choosing what is worth asking at a checkpoint.

use super::dice::Dice;
use crate::question::{Choice, Disclosure, Kind, LineQuestion, Scene};

/// How often a draw is tried again when its answer is given away by another question.
const TRIES: usize = 12;
/// No checkpoint has more questions than these, whatever a journal that was edited by hand asks for.
const MOST: usize = 64;
/// A whole board to rebuild, among questions of other kinds, comes once in so many draws.
const REBUILD_ONE_IN: usize = 6;

/// Chooses up to `count` questions of the given kinds, and never more than 64.
///
/// They are about pieces and squares that the last plies touched, with about one in five about others;
/// none is answered by the last spoken move, and none gives another away. Fewer come back where the
/// position does not hold so many. The same scene, kinds, count and dice choose the same questions.
#[must_use]
pub fn choose(
    scene: Scene<'_>,
    kinds: &[Kind],
    count: usize,
    dice: &mut Dice,
) -> Vec<LineQuestion> {
    let count = count.min(MOST);
    let strict = choose_strictly(scene, kinds, count, true, dice);
    if strict.is_empty() {
        // The kinds that were asked for have nothing better here.
        return choose_strictly(scene, kinds, count, false, dice);
    }
    strict
}

fn choose_strictly(
    scene: Scene<'_>,
    kinds: &[Kind],
    count: usize,
    strict: bool,
    dice: &mut Dice,
) -> Vec<LineQuestion> {
    let mut choice = Choice::new(scene, strict, dice);
    let mut chosen: Vec<(LineQuestion, Disclosure)> = Vec::new();
    let mut deck = Vec::new();
    for _ in 0..count * TRIES {
        if chosen.len() == count {
            break;
        }
        let Some(kind) = deal(&mut deck, kinds, choice.dice) else {
            break;
        };
        if kind == Kind::Rebuild && kinds.len() > 1 && !choice.dice.chance(1, REBUILD_ONE_IN) {
            continue;
        }
        let Some(question) = LineQuestion::draw(kind, &mut choice) else {
            continue;
        };
        let disclosure = question.disclosure(scene);
        let new = chosen.iter().all(|(other, _)| *other != question);
        if new && chosen.iter().all(|(_, other)| !disclosure.spoils(other)) {
            chosen.push((question, disclosure));
        }
    }
    chosen.sort_by_key(|(_, disclosure)| disclosure.comes_last());
    chosen.into_iter().map(|(question, _)| question).collect()
}

/// Deals the kinds like cards from a shuffled deck, so that each has its turn.
fn deal(deck: &mut Vec<Kind>, kinds: &[Kind], dice: &mut Dice) -> Option<Kind> {
    if deck.is_empty() {
        deck.extend_from_slice(kinds);
        dice.shuffle(deck);
    }
    deck.pop()
}
