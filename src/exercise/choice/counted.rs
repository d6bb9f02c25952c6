//! Questions about legal moves as a whole, material, rights to castle and the score: which of them are
//! worth asking in a scene.

use shakmaty::{Bitboard, Color, Position, Square};

use crate::game::Ply;
use crate::question::{
    Exchange, Hanging, Kind, LineQuestion, Played, Rights, Scene, Taken, Truth, Wings,
};

use super::super::dice::Dice;
use super::candidates::pick;
use super::heat::Heat;

/// A question about all legal moves of one sort, unless a promotion is among them. Where there is no
/// such move it comes once in three times, so that `none` is one answer among others; and a mate that
/// is not there is asked for only where some move gives check.
pub(super) fn moves(
    question: LineQuestion,
    scene: Scene<'_>,
    strict: bool,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let moves = listed(question, scene);
    if moves.iter().any(|promotes| *promotes) {
        return None;
    }
    if strict && moves.is_empty() {
        let over = scene.position().legal_moves().is_empty();
        let checks = LineQuestion::Checks(crate::question::Checks {});
        let idle = question.kind() == Kind::Mate && listed(checks, scene).is_empty();
        if over || idle || !dice.chance(1, 3) {
            return None;
        }
    }
    Some(question)
}

/// For each move that the question asks for, whether it is a promotion.
fn listed(question: LineQuestion, scene: Scene<'_>) -> Vec<bool> {
    match question.truth(scene) {
        Truth::Moves { moves } => moves.iter().map(|mv| mv.promotion.is_some()).collect(),
        _ => Vec::new(),
    }
}

/// A side, four times in five one that has hanging men.
pub(super) fn hanging(scene: Scene<'_>, dice: &mut Dice) -> Option<LineQuestion> {
    let sides = Color::ALL.map(|color| LineQuestion::Hanging(Hanging { color }));
    let (hot, cold): (Vec<LineQuestion>, Vec<LineQuestion>) = sides
        .into_iter()
        .partition(|question| question.truth(scene) != Truth::squares(Bitboard::EMPTY));
    rather(&hot, &cold, dice)
}

/// A square where the side to move can take.
pub(super) fn exchange(scene: Scene<'_>, heat: &Heat, dice: &mut Dice) -> Option<LineQuestion> {
    let them = scene.position().them().into_iter();
    let targets: Bitboard = them
        .filter(|square: &Square| Exchange::can_begin(scene, *square))
        .collect();
    pick(targets & heat.squares, targets & !heat.squares, dice)
        .map(|square| LineQuestion::Exchange(Exchange { square }))
}

/// The balance, and seldom where no man has been taken or has become another.
pub(super) fn balance(
    question: LineQuestion,
    scene: Scene<'_>,
    strict: bool,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let changed = |ply: &Ply| ply.mv.is_capture() || ply.mv.is_promotion();
    let uneven = question.truth(scene) != Truth::Points { points: 0 };
    let worthwhile = uneven || scene.played().iter().any(changed);
    (worthwhile || !strict || dice.chance(1, 5)).then_some(question)
}

/// A side, four times in five one that has a right to castle or has lost one lately. A king's own
/// move, spoken last, answers by itself; so does a start without any right.
pub(super) fn rights(
    scene: Scene<'_>,
    heat: &Heat,
    strict: bool,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let spoken = |color: Color| {
        let last = scene.played().last();
        last.is_some_and(|ply| ply.side() == color && ply.mv.role() == shakmaty::Role::King)
    };
    let wings = |plies, color| Wings::of(Scene::new(scene.line(), plies), color);
    let none = Wings::default();
    let sides = Color::ALL.into_iter();
    let (hot, cold): (Vec<Color>, Vec<Color>) = sides
        .filter(|color| !strict || (!spoken(*color) && wings(0, *color) != none))
        .partition(|color| wings(heat.since, *color) != none);
    rather(&hot, &cold, dice).map(|color| LineQuestion::Rights(Rights { color }))
}

/// A side, four times in five one that has lost men, and not only to the move that was spoken last.
pub(super) fn taken(scene: Scene<'_>, strict: bool, dice: &mut Dice) -> Option<LineQuestion> {
    let lost = |color: Color, plies: usize| {
        let captures = scene.played()[..plies].iter();
        { captures }.any(|ply| ply.side() != color && ply.mv.is_capture())
    };
    let before = scene.plies().saturating_sub(1);
    let sides = Color::ALL.into_iter();
    let (hot, cold): (Vec<Color>, Vec<Color>) = sides
        .filter(|color| !strict || lost(*color, before) == lost(*color, scene.plies()))
        .partition(|color| lost(*color, scene.plies()));
    rather(&hot, &cold, dice).map(|color| LineQuestion::Taken(Taken { color }))
}

/// A move of the score, four times in five one of the last plies, never the one spoken last.
pub(super) fn played(
    scene: Scene<'_>,
    heat: &Heat,
    strict: bool,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let spoken = scene.plies().saturating_sub(usize::from(strict));
    let numbers: Vec<Played> = scene.played()[..spoken]
        .iter()
        .map(|ply| Played::at(ply.number))
        .collect();
    let (cold, hot) = numbers.split_at(heat.since.min(spoken));
    rather(hot, cold, dice).map(LineQuestion::Played)
}

/// Picks one of the better things four times in five, where there is one.
fn rather<T: Copy>(hot: &[T], cold: &[T], dice: &mut Dice) -> Option<T> {
    let pool = if hot.is_empty() || (!cold.is_empty() && dice.chance(1, 5)) {
        cold
    } else {
        hot
    };
    dice.pick(pool).copied()
}
