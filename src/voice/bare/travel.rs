//! Why a piece needs so many moves to a square, by which route, or why it never gets there.

use shakmaty::{Role, Square};

use crate::board::{Misstep, Pair, PieceAt, SquareColor, Travel, Unreachable};
use crate::question::bare::{Distance, Route, RouteWhy};

use super::super::line::way::not_attacked;
use super::super::naming::{capital, count, list, role};
use super::super::words::BareWords;
use super::lines::{apart, shade};
use super::{kind, placed};

impl BareWords for Distance {
    fn ask(self) -> String {
        format!(
            "{}: in how few moves does it reach {}, if ever?",
            traveler(self.travel),
            self.travel.to()
        )
    }

    fn tell(self) -> String {
        fewest(self.travel)
    }

    fn explain(travel: &Travel) -> Vec<String> {
        let never = { travel.unreachable() }.map(|reason| never(*travel, reason));
        { never.into_iter() }
            .chain(reason(*travel))
            .chain(shortest(*travel))
            .collect()
    }
}

impl BareWords for Route {
    fn ask(self) -> String {
        format!(
            "{}: name the squares of one shortest route to {}, or say never.",
            traveler(self.travel),
            self.travel.to()
        )
    }

    fn tell(self) -> String {
        let mut said = fewest(self.travel);
        if let Some(route) = shortest(self.travel) {
            said = format!("{said} {route}");
        }
        said
    }

    /// The route itself is told with the truth, so that a key on paper holds one.
    fn explain(why: &RouteWhy) -> Vec<String> {
        let travel = why.travel;
        // Where a step went wrong, the number of moves is beside the point.
        let counted = match why.misstep {
            None | Some(Misstep::Detour { .. }) => reason(travel),
            Some(
                Misstep::NotItsWay { .. }
                | Misstep::Held { .. }
                | Misstep::Blocked { .. }
                | Misstep::EndsElsewhere(_),
            ) => None,
        };
        let never = { travel.unreachable() }.map(|reason| never(travel, reason));
        why.misstep
            .map(|misstep| fault(travel, misstep))
            .into_iter()
            .chain(never)
            .chain(counted)
            .collect()
    }
}

/// Names the piece and what is in its way.
fn traveler(travel: Travel) -> String {
    let piece = placed(travel.piece());
    let blockers = travel.blockers();
    // A knight jumps over pieces, so only their squares are closed to it.
    let closed = if travel.piece().piece().role == Role::Knight {
        "may not take"
    } else {
        "may neither take nor pass"
    };
    match blockers.count() {
        0 => format!("A {piece}, the board empty"),
        1 => format!(
            "A {piece}, with a piece on {} that it {closed}",
            list(blockers)
        ),
        _ => format!(
            "A {piece}, with pieces on {} that it {closed}",
            list(blockers)
        ),
    }
}

/// Says in how few moves the piece gets there.
fn fewest(travel: Travel) -> String {
    let piece = kind(travel.piece());
    let (from, to) = (travel.piece().square(), travel.to());
    let blockers = travel.blockers();
    let subject = match blockers.count() {
        0 => format!("A {piece}"),
        1 => format!("With a piece on {}, a {piece}", list(blockers)),
        _ => format!("With pieces on {}, a {piece}", list(blockers)),
    };
    match travel.fewest() {
        Some(moves) => format!(
            "{subject} takes {} from {from} to {to}.",
            count(moves as usize, "move", "moves")
        ),
        None => format!("{subject} never gets from {from} to {to}."),
    }
}

/// Tells one shortest route and how many there are; nothing where there is none.
fn shortest(travel: Travel) -> Option<String> {
    let route = travel.route();
    let [from, over @ .., to] = route.as_slice() else {
        return None;
    };
    if over.is_empty() {
        return Some(format!("One move leads from {from} to {to}."));
    }
    let which = match travel.routes() {
        1 => "The only shortest route".to_owned(),
        routes => format!("One of {routes} shortest routes"),
    };
    Some(format!(
        "{which} goes from {from} over {} to {to}.",
        list(over)
    ))
}

/// Tells why it takes so many moves, where there is more to tell than the one move.
fn reason(travel: Travel) -> Option<String> {
    let moves = travel.fewest().filter(|moves| *moves > 1)?;
    match travel.piece().piece().role {
        Role::Knight => Some(colors(travel, moves)),
        Role::King => greater_count(travel, moves),
        Role::Bishop | Role::Rook | Role::Queen => Some(turns(travel, moves)),
        Role::Pawn => None,
    }
}

fn greater_count(travel: Travel, moves: u32) -> Option<String> {
    let pair = Pair::new(travel.piece().square(), travel.to())?;
    let apart = apart(pair);
    let greater = pair.files_apart().max(pair.ranks_apart());
    Some(if moves == greater {
        format!("{apart}, and a king takes as many moves as the greater count.")
    } else {
        format!(
            "{apart}: {greater} on the empty board, the greater count, but what stands in the way \
             makes it {moves}."
        )
    })
}

fn colors(travel: Travel, moves: u32) -> String {
    let (from, to) = (travel.piece().square(), travel.to());
    let (first, last) = (SquareColor::of(from), SquareColor::of(to));
    let both = if first == last {
        format!("{from} and {to} are both {}", shade(first))
    } else {
        format!("{from} is {} and {to} is {}", shade(first), shade(last))
    };
    let number = if moves.is_multiple_of(2) {
        "even"
    } else {
        "odd"
    };
    format!(
        "A knight changes color with every move, and {both}: the number of moves has to be {number}."
    )
}

/// Tells why a line piece does not get there at once.
fn turns(travel: Travel, moves: u32) -> String {
    let piece = travel.piece();
    let name = role(piece.piece().role);
    if let Some(by) = in_the_way(travel) {
        return format!("A piece on {by} closes the straight way, so the {name} goes round.");
    }
    let unjoined = capital(&not_attacked(piece.piece(), piece.square(), travel.to()));
    if moves == 2 {
        format!("{unjoined}, so the {name} has to turn once.")
    } else {
        format!("{unjoined}, and every way with one turn is closed.")
    }
}

/// The nearest blocker on the piece's own line to the square; `None` where it has no such line.
fn in_the_way(travel: Travel) -> Option<Square> {
    let piece = travel.piece();
    let pair = Pair::new(piece.square(), travel.to())?;
    let goes_so = piece
        .attacks(shakmaty::Bitboard::EMPTY)
        .contains(travel.to());
    pair.between()
        .find(|at| goes_so && travel.blockers().contains(*at))
}

fn never(travel: Travel, reason: Unreachable) -> String {
    let piece = travel.piece();
    let (from, to, name) = (piece.square(), travel.to(), role(piece.piece().role));
    match reason {
        Unreachable::Held => {
            format!("A piece stands on {to} itself, and the {name} may not take it.")
        }
        Unreachable::OtherColor => format!(
            "A bishop stays on the color of its square: {from} is {}, {to} is {}.",
            shade(SquareColor::of(from)),
            shade(SquareColor::of(to))
        ),
        Unreachable::ShutOff => shut_off(travel),
    }
}

/// Tells which blockers shut the piece in, or its square off.
fn shut_off(travel: Travel) -> String {
    let piece = travel.piece();
    let (from, to, name) = (piece.square(), travel.to(), role(piece.piece().role));
    if travel.steps(from).is_empty() {
        return format!("The {name} on {from} has no move: {}.", held(travel, piece));
    }
    // These pieces go back as they go there: what keeps the piece from leaving the square keeps it out.
    match PieceAt::new(piece.piece(), to) {
        Some(there) if travel.steps(to).is_empty() => format!(
            "No move of a {name} leads to {to}: {}.",
            held(travel, there)
        ),
        Some(_) | None => format!(
            "{} no route from {from} to {to}.",
            match travel.blockers().single_square() {
                Some(square) => format!("The piece on {square} leaves"),
                None => format!("The pieces on {} leave", list(travel.blockers())),
            }
        ),
    }
}

/// Names the blockers that hold every square next on the piece's way.
fn held(travel: Travel, piece: PieceAt) -> String {
    let next = piece.attacks(travel.blockers()) & travel.blockers();
    match next.single_square() {
        Some(square) => format!("a piece stands on {square}"),
        None => format!("pieces stand on {}", list(next)),
    }
}

/// Tells the first fault of a route.
fn fault(travel: Travel, misstep: Misstep) -> String {
    let piece = travel.piece().piece();
    let name = role(piece.role);
    match misstep {
        Misstep::NotItsWay { from, to } if from == to => {
            format!("The route names {to} twice in a row, and every move leads to another square.")
        }
        Misstep::NotItsWay { from, to } => {
            format!("{}.", capital(&not_attacked(piece, from, to)))
        }
        Misstep::Held { from, to } => format!(
            "From {from} the {name} cannot go to {to}: a piece stands there that it may not take."
        ),
        Misstep::Blocked { from, to, by } => {
            format!(
                "From {from} the {name} cannot go to {to}: the piece on {by} stands in the way."
            )
        }
        Misstep::EndsElsewhere(square) => {
            format!("The route ends on {square}, not on {}.", travel.to())
        }
        Misstep::Detour { moves, fewest } => {
            format!("The route gets there in {moves} moves, but {fewest} would do.")
        }
    }
}
