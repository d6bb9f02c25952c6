//! A man's way in words.

use shakmaty::{Color, Role, Square};

use crate::question::{Capture, Departure, Found, Journey, Leg};
use crate::voice::naming::{list, man, role, side};

/// How many moves of one man are told; of a longer way, the last ones.
const TOLD: usize = 6;

/// Tells the whole way of a man: where it went, and who took it.
pub(super) fn way(journey: &Journey) -> Vec<String> {
    let mut said = vec![steps(journey)];
    said.extend(journey.end.as_ref().map(|end| taken(journey, end)));
    said
}

/// Tells where a man went, in one sentence.
pub(super) fn steps(journey: &Journey) -> String {
    let name = man(journey.piece);
    let (skipped, told) = journey
        .legs
        .split_at(journey.legs.len().saturating_sub(TOLD));
    let clauses = list(told.iter().map(|leg| clause(leg, journey.piece.role)));
    match (skipped.last(), told.is_empty()) {
        (_, true) => format!("{name} never left {}.", journey.home),
        (None, false) => format!("{name} went from {} {clauses}.", journey.home),
        (Some(leg), false) => format!(
            "{name} from {} had come to {} by move {} and then went {clauses}.",
            journey.home, leg.to, leg.number.number
        ),
    }
}

fn clause(leg: &Leg, kind: Role) -> String {
    let castling = match (leg.castling, kind) {
        (false, _) => "",
        (true, Role::King) => ", castling,",
        (true, Role::Pawn | Role::Knight | Role::Bishop | Role::Rook | Role::Queen) => {
            ", as its king castled,"
        }
    };
    let promotion = leg
        .promotion
        .map_or_else(String::new, |kind| format!(", becoming a {},", role(kind)));
    format!(
        "to {}{castling}{promotion} on move {}",
        leg.to, leg.number.number
    )
}

fn taken(journey: &Journey, end: &Capture) -> String {
    let how = if end.en_passant { " en passant" } else { "" };
    let place = if journey.legs.is_empty() {
        "there".to_owned()
    } else {
        format!("on {}", end.on)
    };
    format!(
        "{} took it{how} {place} on move {}.",
        man(end.by),
        end.number.number
    )
}

/// Tells how a square came by its man, or lost it.
pub(super) fn found(found: &Found) -> Vec<String> {
    match found {
        Found::Man(journey) => vec![steps(journey)],
        Found::Left(departure) => vec![left(departure)],
        Found::NeverHeld => vec!["No man ever stood there.".to_owned()],
    }
}

/// Tells briefly what there is on a square that was named without need.
pub(super) fn there_is(square: Square, found: &Found) -> String {
    match found {
        Found::Man(journey) => format!("On {square} stands {}.", man(journey.piece_now())),
        Found::Left(departure) => format!("{square} is empty: {}", left(departure)),
        Found::NeverHeld => format!("{square} is empty, and no man ever stood there."),
    }
}

fn left(departure: &Departure) -> String {
    let name = man(departure.piece);
    let number = departure.number.number;
    match departure.to {
        Some(to) => format!("{name} left it for {to} on move {number}."),
        None => format!("{name} was taken there on move {number}."),
    }
}

/// Names a side's own man: "its own knight" is said of men that stand in each other's way.
pub(super) fn of(color: Color, owner: Color, kind: Role) -> String {
    if color == owner {
        format!("its own {}", role(kind))
    } else {
        format!("{}'s {}", side(color), role(kind))
    }
}
