//! For each kind, the questions that can be asked in a scene, the worthwhile ones told apart.

use shakmaty::{Bitboard, Color, Position, Role, Square};

use crate::question::{
    Attackers, Attacks, Balance, Captures, Check, Checks, Kind, LineQuestion, Mate, Moves,
    Occupant, Rebuild, Scene, Standing, Whereabouts,
};

use super::super::dice::Dice;
use super::heat::Heat;
use super::{counted, legality};

/// Draws a question of one kind: four in five about what the last plies touched, the others about
/// men and squares that they left alone. `strict` keeps out what the last spoken move answers.
pub(super) fn draw(
    kind: Kind,
    scene: Scene<'_>,
    heat: &Heat,
    strict: bool,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let spoken = if strict { heat.spoken } else { Bitboard::EMPTY };
    match kind {
        Kind::Whereabouts => whereabouts(scene, heat, strict, dice),
        Kind::Occupant => {
            let hot = heat.squares & !spoken;
            let cold = scene.board().occupied() & !heat.squares & !spoken;
            pick(hot, cold, dice).map(|square| LineQuestion::Occupant(Occupant { square }))
        }
        Kind::Standing => standing(scene, heat, spoken, dice),
        Kind::Attacks => {
            let men = pieces_mostly(scene, scene.board().occupied(), dice);
            pick(men & heat.men, men & !heat.men, dice)
                .map(|square| LineQuestion::Attacks(Attacks { square }))
        }
        Kind::Attackers => attackers(scene, heat, dice),
        Kind::Moves => {
            let own = pieces_mostly(scene, scene.position().us(), dice);
            pick(own & heat.men, own & !heat.men, dice)
                .map(|square| LineQuestion::Moves(Moves { square }))
        }
        Kind::Legality => legality::draw(scene, heat, dice),
        Kind::Check => {
            (!strict || check_is_unspoken(scene)).then_some(LineQuestion::Check(Check {}))
        }
        Kind::Checks => counted::moves(LineQuestion::Checks(Checks {}), scene, strict, dice),
        Kind::Captures => counted::moves(LineQuestion::Captures(Captures {}), scene, strict, dice),
        Kind::Hanging => counted::hanging(scene, dice),
        Kind::Mate => counted::moves(LineQuestion::Mate(Mate::AT_ONCE), scene, strict, dice),
        Kind::Exchange => counted::exchange(scene, heat, dice),
        Kind::Balance => counted::balance(LineQuestion::Balance(Balance {}), scene, strict, dice),
        Kind::Rights => counted::rights(scene, heat, strict, dice),
        Kind::Taken => counted::taken(scene, strict, dice),
        Kind::Played => counted::played(scene, heat, strict, dice),
        Kind::Rebuild => Some(LineQuestion::Rebuild(Rebuild {})),
        // Nothing of the line bears on the bare board.
        Kind::Name
        | Kind::Place
        | Kind::Color
        | Kind::Aligned
        | Kind::Between
        | Kind::Span
        | Kind::Crossing
        | Kind::Distance
        | Kind::Route => None,
    }
}

/// Picks a touched square four times in five, where there is one, and else an untouched one.
pub(super) fn pick(hot: Bitboard, cold: Bitboard, dice: &mut Dice) -> Option<Square> {
    let want_hot = dice.chance(4, 5);
    let pool = if hot.is_empty() || (!want_hot && cold.any()) {
        cold
    } else {
        hot
    };
    let squares: Vec<Square> = pool.into_iter().collect();
    dice.pick(&squares).copied()
}

/// Leaves the pawns out three times in four: there are many of them, and they see little.
fn pieces_mostly(scene: Scene<'_>, men: Bitboard, dice: &mut Dice) -> Bitboard {
    let pieces = men & !scene.board().pawns();
    if pieces.any() && dice.chance(3, 4) {
        pieces
    } else {
        men
    }
}

fn whereabouts(
    scene: Scene<'_>,
    heat: &Heat,
    strict: bool,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let last_ply = scene.plies().checked_sub(1);
    let mut hot = Bitboard::EMPTY;
    let mut cold = Bitboard::EMPTY;
    for man in scene.line().roster().men() {
        let last_step = man.steps(scene.plies()).last().map(|step| step.ply);
        let taken = man.taken_by.filter(|ply| *ply < scene.plies());
        let changed = last_step.max(taken);
        if strict && changed.is_some() && changed == last_ply {
            continue;
        }
        match changed {
            Some(ply) if ply >= heat.since => hot.add(man.home),
            _ => cold.add(man.home),
        }
    }
    pick(hot, cold, dice).map(|man| LineQuestion::Whereabouts(Whereabouts { man }))
}

/// A role of a side, unless its only man is the one that the last move spoke of.
fn standing(
    scene: Scene<'_>,
    heat: &Heat,
    spoken: Bitboard,
    dice: &mut Dice,
) -> Option<LineQuestion> {
    let board = scene.board();
    let (mut hot, mut cold) = (Vec::new(), Vec::new());
    for color in Color::ALL {
        for role in Role::ALL {
            let men = board.by_piece(role.of(color));
            if men.is_empty() || men.is_subset(spoken) {
                continue;
            }
            let pool = if (men & heat.men).any() {
                &mut hot
            } else {
                &mut cold
            };
            pool.push(LineQuestion::Standing(Standing { color, role }));
        }
    }
    let pool = if hot.is_empty() || (!cold.is_empty() && dice.chance(1, 5)) {
        &cold
    } else {
        &hot
    };
    dice.pick(pool).copied()
}

/// A square and a side; five times in six one that some man of that side attacks or guards.
fn attackers(scene: Scene<'_>, heat: &Heat, dice: &mut Dice) -> Option<LineQuestion> {
    let board = scene.board();
    let color = *dice.pick(&Color::ALL)?;
    let reached: Bitboard = Square::ALL
        .into_iter()
        .filter(|square| board.attacks_to(*square, color, board.occupied()).any())
        .collect();
    let pool = if dice.chance(5, 6) { reached } else { !reached };
    let men = board.occupied() | heat.squares;
    pick(pool & heat.squares, pool & men & !heat.squares, dice)
        .map(|square| LineQuestion::Attackers(Attackers { color, square }))
}

/// Announcing a move tells of the check that the moved man gives, and of no check; only a check
/// from behind it is still a question.
fn check_is_unspoken(scene: Scene<'_>) -> bool {
    let checkers = scene.position().checkers();
    match scene.played().last() {
        Some(ply) => checkers.without(ply.to()).any(),
        None => true,
    }
}
