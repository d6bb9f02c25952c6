//! Why a piece needs so many moves to a square, by which route, or why it never gets there.

use shakmaty::{Bitboard, Role};

use crate::board::{Misstep, Pair, PieceAt, Travel, Unreachable};
use crate::question::bare::ShortestWay;
use crate::question::{BareWhy, Reply};
use crate::voice::movement::not_attacked;
use crate::voice::naming::{capital, count, list, role};
use crate::voice::words::BareWords;

use super::attacks::{kind, placed};
use super::lines::{measure, parity, shade};

impl<const ROUTE: bool> BareWords for ShortestWay<ROUTE> {
    const RULE: &'static str = if ROUTE {
        "Go back from the goal: from which squares does the piece get there in one move? Take one \
        that it reaches in few moves itself."
    } else {
        "Take the squares that the piece reaches in one move, then those that it reaches from \
        there, until the goal is among them. A knight changes the color of its square with every \
        move, a bishop never."
    };

    fn ask(self) -> String {
        let (traveler, to) = (traveler(self.travel), self.travel.to());
        if ROUTE {
            format!("{traveler}: name the squares of one shortest route to {to}, or say never.")
        } else {
            format!("{traveler}: in how few moves does it reach {to}, if ever?")
        }
    }

    fn tell(self) -> String {
        let fewest = fewest(self.travel);
        match shortest(self.travel).filter(|_| ROUTE) {
            Some(route) => format!("{fewest} {route}"),
            None => fewest,
        }
    }

    fn explain(self, why: &BareWhy) -> Vec<String> {
        let travel = self.travel;
        let (misstep, stays) = match &why.reply {
            Some(Reply::Route(said)) => (travel.misstep(said), None),
            Some(Reply::Distance(0)) => (None, Some(travel.piece().square())),
            _ => (None, None),
        };
        let stays = stays.map(|from| format!("Without a move it stays on {from}."));
        // Where a step went wrong, the number of moves is beside the point.
        let counted = match misstep {
            None | Some(Misstep::Detour { .. }) => reason(travel, why),
            Some(_) => None,
        };
        // The route that was asked for is told with the truth, so that a key on paper holds one.
        let route = shortest(travel).filter(|_| !ROUTE);
        let fault = misstep.map(|misstep| fault(travel, misstep));
        let said = [stays, fault, never(travel), counted, route];
        said.into_iter().flatten().collect()
    }
}

/// Names pieces that are in the way: "a piece on c6", "pieces on c2 and b3".
fn pieces_on(squares: Bitboard) -> String {
    let some = if squares.count() == 1 {
        "a piece"
    } else {
        "pieces"
    };
    format!("{some} on {}", list(squares))
}

/// Names the piece and what is in its way.
fn traveler(travel: Travel) -> String {
    let piece = placed(travel.piece());
    // A knight jumps over pieces, so only their squares are closed to it.
    let closed = if travel.piece().piece().role == Role::Knight {
        "may not take"
    } else {
        "may neither take nor pass"
    };
    match travel.blockers() {
        Bitboard::EMPTY => format!("A {piece}, the board empty"),
        held => format!("A {piece}, with {} that it {closed}", pieces_on(held)),
    }
}

/// Says in how few moves the piece gets there.
fn fewest(travel: Travel) -> String {
    let (piece, from, to) = (kind(travel.piece()), travel.piece().square(), travel.to());
    let subject = match travel.blockers() {
        Bitboard::EMPTY => format!("A {piece}"),
        held => format!("With {}, a {piece}", pieces_on(held)),
    };
    let takes = travel.fewest().map_or_else(
        || "never gets".to_owned(),
        |moves| format!("takes {}", count(moves, "move", "moves")),
    );
    format!("{subject} {takes} from {from} to {to}.")
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
    let over = list(over);
    Some(format!("{which} goes from {from} over {over} to {to}."))
}

/// Tells why it takes so many moves, where there is more to tell than the one move.
fn reason(travel: Travel, why: &BareWhy) -> Option<String> {
    let moves = travel.fewest().filter(|moves| *moves > 1)?;
    match travel.piece().piece().role {
        // To who names an even number for an even one, it says nothing that it has to be even.
        Role::Knight => match why.reply {
            Some(Reply::Distance(said)) if said.abs_diff(moves) % 2 == 1 => {
                Some(colors(travel, moves))
            }
            Some(Reply::Distance(1)) => Some(unjoined(travel) + "."),
            Some(_) => None,
            None => Some(colors(travel, moves)),
        },
        Role::King => larger_number(travel, moves),
        Role::Bishop | Role::Rook | Role::Queen => Some(turns(travel, moves)),
        Role::Pawn => None,
    }
}

fn larger_number(travel: Travel, moves: u32) -> Option<String> {
    let pair = Pair::new(travel.piece().square(), travel.to())?;
    let larger = pair.files_apart().max(pair.ranks_apart());
    Some(if moves == larger {
        let (to, away) = (pair.to(), measure(pair));
        format!("{to} is {away} away, and a king needs the larger of the two numbers.")
    } else {
        let empty = count(larger, "move", "moves");
        let make = match travel.blockers().count() {
            1 => "piece in the way makes",
            _ => "pieces in the way make",
        };
        format!("On the empty board it takes {empty}; the {make} it {moves}.")
    })
}

fn colors(travel: Travel, moves: u32) -> String {
    let (from, to) = (travel.piece().square(), travel.to());
    let (first, last, number) = (shade(from), shade(to), parity(moves));
    let both = if first == last {
        format!("{from} and {to} are both {first}")
    } else {
        format!("{from} is {first} and {to} is {last}")
    };
    format!(
        "A knight changes color with every move, and {both}: the number of moves has to be {number}."
    )
}

/// Says that the piece does not go there in one move, as a sentence without its stop.
fn unjoined(travel: Travel) -> String {
    let piece = travel.piece();
    capital(&not_attacked(piece.piece(), piece.square(), travel.to()))
}

/// Tells why a line piece does not get there at once.
fn turns(travel: Travel, moves: u32) -> String {
    let (piece, from, to) = (travel.piece(), travel.piece().square(), travel.to());
    let name = role(piece.piece().role);
    // The nearest blocker on the piece's own line to the square, where it has such a line.
    let on_line = piece.attacks(Bitboard::EMPTY).contains(to);
    let mut between = Pair::new(from, to).into_iter().flat_map(Pair::between);
    if let Some(by) = between.find(|at| on_line && travel.blockers().contains(*at)) {
        return format!("A piece on {by} closes the straight way, so the {name} goes round.");
    }
    let unjoined = unjoined(travel);
    if moves == 2 {
        format!("{unjoined}, so the {name} needs one stop.")
    } else {
        format!("{unjoined}, and every way with one stop is blocked.")
    }
}

/// Tells why the piece never gets there; `None` where it does.
fn never(travel: Travel) -> Option<String> {
    let (from, to) = (travel.piece().square(), travel.to());
    Some(match travel.unreachable()? {
        Unreachable::Held => {
            let name = role(travel.piece().piece().role);
            format!("A piece stands on {to} itself, and the {name} may not take it.")
        }
        Unreachable::OtherColor => {
            let (here, there) = (shade(from), shade(to));
            format!("A bishop stays on the color of its square: {from} is {here}, {to} is {there}.")
        }
        Unreachable::ShutOff => shut_off(travel),
    })
}

/// Tells which blockers shut the piece in, or its square off.
fn shut_off(travel: Travel) -> String {
    let piece = travel.piece();
    let (from, to, name) = (piece.square(), travel.to(), role(piece.piece().role));
    // The blockers that hold every square next on the piece's way.
    let next = |piece: PieceAt| pieces_on(piece.attacks(travel.blockers()) & travel.blockers());
    if travel.steps(from).is_empty() {
        let next = next(piece);
        return format!("The {name} on {from} has no move because of {next}.");
    }
    // These pieces go back as they go there: what keeps the piece from leaving the square keeps it out.
    let there = PieceAt::new(piece.piece(), to).filter(|_| travel.steps(to).is_empty());
    if let Some(next) = there.map(next) {
        return format!("No move of a {name} leads to {to} because of {next}.");
    }
    let blockers = pieces_on(travel.blockers());
    format!("No route leads from {from} to {to} past {blockers}.")
}

/// Tells the first fault of a route.
fn fault(travel: Travel, misstep: Misstep) -> String {
    let piece = travel.piece().piece();
    let (name, end) = (role(piece.role), travel.to());
    let cannot =
        |from, to, reason: &str| format!("From {from} the {name} cannot go to {to}: {reason}.");
    match misstep {
        Misstep::NotItsWay { from, to } if from == to => {
            format!("You named {to} twice in a row, and every move leads to another square.")
        }
        Misstep::NotItsWay { from, to } => cannot(from, to, &not_attacked(piece, from, to)),
        Misstep::Held { from, to } => cannot(from, to, "a piece stands there that it may not take"),
        Misstep::Blocked { from, to, by } => {
            cannot(from, to, &format!("the piece on {by} stands in the way"))
        }
        Misstep::EndsElsewhere(square) => format!("Your route ends on {square}, not on {end}."),
        Misstep::Detour { moves, .. } => format!("Your route gets there in {moves} moves."),
    }
}
