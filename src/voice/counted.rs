//! Truths about moves, points, wings and men without their squares, in sentences.

use shakmaty::Color;

use crate::question::{Attempt, Haul, LineQuestion, Played, Rights, Taken, Wings};

use super::naming::{count, list, men_counted, side, squares_of};

/// Names the moves that a question asks for.
pub(super) fn moves(question: LineQuestion, moves: &[Attempt]) -> String {
    let named = list(moves.iter().map(|mv| squares_of(*mv)));
    let (none, one, several) = match question {
        LineQuestion::Captures(_) => (
            "No capture is legal.",
            "The only legal capture is",
            "The legal captures are",
        ),
        LineQuestion::Mate(mate) if !mate.is_at_once() => (
            "No move mates in time.",
            "The move that mates in time is",
            "The moves that mate in time are",
        ),
        LineQuestion::Mate(_) => (
            "No move mates.",
            "The move that mates is",
            "The moves that mate are",
        ),
        LineQuestion::Checks(_)
        | LineQuestion::Whereabouts(_)
        | LineQuestion::Occupant(_)
        | LineQuestion::Standing(_)
        | LineQuestion::Attacks(_)
        | LineQuestion::Attackers(_)
        | LineQuestion::Moves(_)
        | LineQuestion::Legality(_)
        | LineQuestion::Check(_)
        | LineQuestion::Hanging(_)
        | LineQuestion::Exchange(_)
        | LineQuestion::Balance(_)
        | LineQuestion::Rights(_)
        | LineQuestion::Taken(_)
        | LineQuestion::Played(_)
        | LineQuestion::Rebuild(_) => (
            "No move gives check.",
            "The move that gives check is",
            "The moves that give check are",
        ),
    };
    match moves.len() {
        0 => none.to_owned(),
        1 => format!("{one} {named}."),
        _ => format!("{several} {named}."),
    }
}

/// Says what the points mean.
pub(super) fn points(question: LineQuestion, points: i32) -> String {
    let number = points.unsigned_abs() as usize;
    let amount = count(number, "point", "points");
    if let LineQuestion::Exchange(asked) = question {
        let square = asked.square;
        return match points {
            0 => format!("Taking on {square} wins nothing and loses nothing."),
            1.. => format!("Taking on {square} wins {amount}."),
            ..0 => format!("Taking on {square} loses {amount}."),
        };
    }
    match points {
        0 => "Material is even: 0 points.".to_owned(),
        1.. => format!("{} is {amount} ahead.", side(Color::White)),
        ..0 => format!("{} is {amount} ahead: -{number}.", side(Color::Black)),
    }
}

/// Names the wings on which a side may still castle.
pub(super) fn wings(question: LineQuestion, wings: Wings) -> String {
    let LineQuestion::Rights(Rights { color }) = question else {
        unreachable!("no other question asks for wings")
    };
    if wings == Wings::default() {
        return format!("{} has no right to castle any more.", side(color));
    }
    format!("{} may still castle {}.", side(color), list(wings.names()))
}

/// Names the men that were taken.
pub(super) fn taken(question: LineQuestion, pieces: Haul) -> String {
    let LineQuestion::Taken(Taken { color }) = question else {
        unreachable!("no other question asks for men that were taken")
    };
    let men = men_counted(Haul::ORDER.map(|role| (role, pieces.of(role))));
    format!("{} has lost {men}.", side(color))
}

/// Names the move that was played.
pub(super) fn played(question: LineQuestion, attempt: Attempt) -> String {
    let LineQuestion::Played(Played { color, number }) = question else {
        unreachable!("no other question asks for a move of the score")
    };
    format!(
        "{}'s move {number} was {}.",
        side(color),
        squares_of(attempt)
    )
}
