//! A piece's way in words.

use shakmaty::{Color, Role, Square};

use crate::game::Ply;
use crate::question::{Departure, Found, Journey, Leg};
use crate::voice::naming::{list, piece_named, role, side};

/// How many moves of one piece are told; of a longer way, the last ones.
const TOLD: usize = 6;

/// Tells the whole way of a piece: where it went, and who took it.
pub(super) fn way(journey: &Journey) -> Vec<String> {
    let mut said = vec![steps(journey)];
    said.extend(journey.end.as_ref().map(|end| taken(journey, end)));
    said
}

/// Tells where a piece went, in one sentence.
pub(super) fn steps(journey: &Journey) -> String {
    let name = piece_named(journey.piece);
    let (skipped, told) = journey
        .legs
        .split_at(journey.legs.len().saturating_sub(TOLD));
    let clauses = list(told.iter().map(clause));
    match (skipped.last(), told.is_empty()) {
        (_, true) => match journey.stayed {
            Some(number) => format!(
                "{name} castled on move {} and stayed on {} then.",
                number.number, journey.home
            ),
            None => format!("{name} has stood on {} from the start.", journey.home),
        },
        (None, false) => format!("{name} went from {} {clauses}.", journey.home),
        (Some(leg), false) => format!(
            "{name} from {} had come to {} by move {} and then went {clauses}.",
            journey.home, leg.to, leg.number.number
        ),
    }
}

fn clause(leg: &Leg) -> String {
    let castling = if leg.castling { " by castling" } else { "" };
    let promotion = leg
        .promotion
        .map_or_else(String::new, |kind| format!(", becoming a {}", role(kind)));
    format!(
        "to {} on move {}{castling}{promotion}",
        leg.to, leg.number.number
    )
}

fn taken(journey: &Journey, end: &Ply) -> String {
    let how = if end.mv.is_en_passant() {
        " en passant"
    } else {
        ""
    };
    let place = if journey.legs.is_empty() {
        "there".to_owned()
    } else {
        format!("on {}", journey.last_square())
    };
    format!(
        "{} took it{how} {place} on move {}.",
        piece_named(end.mv.role().of(end.side())),
        end.number.number
    )
}

/// Tells how a square came by its piece, or lost it.
pub(super) fn found(found: &Found) -> Vec<String> {
    match found {
        Found::Piece(journey) => vec![steps(journey)],
        Found::Left(departure) => vec![left(departure)],
        Found::NeverHeld => vec!["No piece has stood there since the start.".to_owned()],
    }
}

/// Tells briefly what there is on a square that was named without need.
pub(super) fn there_is(square: Square, found: &Found) -> String {
    match found {
        Found::Piece(journey) => {
            format!("On {square} stands {}.", piece_named(journey.piece_now()))
        }
        Found::Left(departure) => format!("Nothing stands on {square}: {}", left(departure)),
        Found::NeverHeld => format!("Nothing stands on {square}, and nothing has since the start."),
    }
}

fn left(departure: &Departure) -> String {
    let name = piece_named(departure.piece);
    let number = departure.number.number;
    match departure.to {
        Some(to) => format!("{name} left it for {to} on move {number}."),
        None => format!("{name} was taken there on move {number}."),
    }
}

/// Names a side's own piece: "its own knight" is said of pieces that stand in each other's way.
pub(super) fn of(color: Color, owner: Color, kind: Role) -> String {
    if color == owner {
        format!("its own {}", role(kind))
    } else {
        format!("{}'s {}", side(color), role(kind))
    }
}
