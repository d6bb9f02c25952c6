//! Pieces' ways in words, and the questions that are answered by them, the whole board among them.

use shakmaty::{Color, Piece, Role, Square};

use crate::exercise::Stand;
use crate::game::{MoveNumber, Ply};
use crate::question::{
    CapturedPieces, Departure, Found, Journey, Leg, Occupant, OccupantWhy, Rebuild, RebuildWhy,
    Standing, StandingWhy, Taken, TakenWhy, Truth, Whereabouts, WhereaboutsWhy,
};
use crate::voice::naming::{
    becoming, count, departed, en_passant, groups, list, piece_named, pieces_counted, role, roles,
    sentence, side, stands_on,
};
use crate::voice::words::LineWords;

/// How many moves of one piece are told; of a longer way, the last ones.
const TOLD: usize = 4;

impl LineWords for Whereabouts {
    fn ask(self, stand: &Stand) -> String {
        let home = self.piece;
        let piece = stand.piece.map_or_else(
            || format!("The piece that stood on {home} at the start"),
            |piece| format!("{} from {home}", piece_named(piece)),
        );
        format!("{piece}: where does it stand now?")
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Square(square) => format!("The piece stands on {square}."),
            _ => "The piece is gone: it was taken.".to_owned(),
        }
    }

    fn explain(why: &WhereaboutsWhy) -> Vec<String> {
        let Some(journey) = &why.journey else {
            return vec!["No piece stood there at the start.".to_owned()];
        };
        let Some((at, found)) = &why.said else {
            return match journey.legs.len() {
                0 if why.said_gone => vec!["It was not taken and has not moved.".to_owned()],
                _ if why.said_gone => {
                    vec![format!("It was not taken: it {}.", went(journey, 0, None))]
                }
                _ => way(journey),
            };
        };
        let been = journey.legs.iter().rposition(|leg| leg.to == *at);
        let known = been.map_or(0, |leg| leg + 1);
        let (put, rest) = match (journey.legs.len() - known, &journey.end) {
            _ if been.is_none() && journey.home != *at => (held(found), way(journey)),
            (0, Some(end)) => (took(end, "it", "there"), Vec::new()),
            _ => {
                let went = went(journey, known, Some(*at));
                (format!("it {went}"), taken(journey).into_iter().collect())
            }
        };
        [format!("You put it on {at}: {put}.")]
            .into_iter()
            .chain(rest)
            .collect()
    }
}

impl LineWords for Occupant {
    fn ask(self, _: &Stand) -> String {
        format!("What stands on {}?", self.square)
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Piece(Some(piece)) => stands_on(*piece, self.square),
            _ => format!("No piece stands on {}.", self.square),
        }
    }

    fn explain(why: &OccupantWhy) -> Vec<String> {
        let before = why.before.as_ref().map(|before| sentence(&left(before)));
        let found = match &why.found {
            Found::Piece(journey) => came(journey, before.is_some()),
            found => sentence(&held(found)),
        };
        let side = "The piece is right, the side is not.".to_owned();
        let side = why.wrong_side.then_some(side);
        let elsewhere = why
            .elsewhere
            .map(|(Piece { color, role }, on)| Standing { color, role }.tell(&Truth::squares(on)));
        let said = [side, before, Some(found), elsewhere];
        said.into_iter().flatten().collect()
    }
}

impl LineWords for Standing {
    fn ask(self, _: &Stand) -> String {
        let (side, role) = (side(self.color), role(self.role));
        if self.role == Role::King {
            return format!("On which square does {side}'s king stand?");
        }
        format!("On which squares does {side} have a {role}? Name every one.")
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, set, role) = (side(self.color), truth.set(), role(self.role));
        match set.count() {
            0 => format!("{side} has no {role}."),
            1 => format!("{side} has a {role} on {}.", list(set)),
            _ => format!("{side} has {role}s on {}.", list(set)),
        }
    }

    fn explain(why: &StandingWhy) -> Vec<String> {
        // A move that is told of the square that was named tells how the piece came to the other.
        let told = |journey: &&Journey| {
            !why.extra.iter().any(|(_, found)| {
                matches!(found, Found::Left(departure) if departure.to == Some(journey.last_square())
                    && departure.piece == journey.piece_now())
            })
        };
        let missed: Vec<&Journey> = why.missed.iter().filter(told).collect();
        let extra = why.extra.iter();
        let extra = extra.map(|(square, found)| format!("Not {square}: {}.", held(found)));
        all_came(&missed).into_iter().chain(extra).collect()
    }
}

impl LineWords for Taken {
    fn ask(self, stand: &Stand) -> String {
        let side = side(self.color);
        let start = if stand.start_shown {
            "position that was shown"
        } else {
            "start"
        };
        format!(
            "Which of {side}'s pieces have been taken since the {start}? Name them without their squares, or none."
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let pieces = truth.taken();
        let pieces = pieces_counted(CapturedPieces::ORDER.map(|role| (role, pieces.of(role))));
        format!("{} has lost {pieces}.", side(self.color))
    }

    fn explain(why: &TakenWhy) -> Vec<String> {
        let missed = groups(&why.missed, |one, other| one.piece == other.piece);
        let missed = missed.iter().filter_map(|alike| lost(alike));
        let extra = why.extra.iter().flat_map(|(piece, taken, there)| {
            let Piece { color, role: kind } = *piece;
            let [one, many] = [role(kind).to_owned(), roles(kind)];
            let taken = match taken {
                0 => format!("No {one} has been taken."),
                1 => format!("Only one {one} has been taken."),
                _ => format!("Only {taken} {many} have been taken."),
            };
            // Where pawns stand is too much to tell, and where none is left nothing.
            let is_told = there.any() && kind != Role::Pawn;
            let there =
                is_told.then(|| Standing { color, role: kind }.tell(&Truth::squares(*there)));
            let promoted = why.promoted.iter();
            let promoted = promoted.filter(|way| way.piece_now() == *piece);
            let promoted = promoted.map(|way| {
                let (on, home) = (way.last_square(), way.home);
                format!("The {one} on {on} was the pawn from {home}, and counts as a pawn.")
            });
            let promoted: Vec<String> = promoted.collect();
            let taken = promoted.is_empty().then_some(taken);
            promoted.into_iter().chain(taken).chain(there)
        });
        missed.chain(extra).collect()
    }
}

/// Tells how pieces of one role were taken: who took a single one, and where and when the last ones of several were.
fn lost(alike: &[&Journey]) -> Option<String> {
    let (kind, many) = (role(alike.first()?.piece.role), alike.len());
    if let [journey] = alike {
        let (home, on) = (journey.home, journey.last_square());
        let from = (home != on).then(|| format!(" from {home}"));
        let what = format!("the {kind}{}", from.unwrap_or_default());
        let took = took(journey.end.as_ref()?, &what, &format!("on {on}"));
        return Some(sentence(&took));
    }
    let places = alike[many.saturating_sub(TOLD)..].iter();
    let places = list(places.filter_map(|journey| {
        let number = journey.end.as_ref()?.number.number;
        Some(format!("on {} on move {number}", journey.last_square()))
    }));
    let last = if many > TOLD {
        format!(" last {TOLD}")
    } else {
        String::new()
    };
    Some(format!("The{last} {kind}s were taken {places}."))
}

/// Tells the whole way of a piece: where it went, and who took it.
fn way(journey: &Journey) -> Vec<String> {
    if let ([], None, Some(end)) = (journey.legs.as_slice(), journey.stayed, &journey.end) {
        let took = took(end, "it", "there");
        return vec![format!("It never moved from {}; {took}.", journey.home)];
    }
    let steps = format!("{} {}.", piece_named(journey.piece), went(journey, 0, None));
    [steps].into_iter().chain(taken(journey)).collect()
}

/// Tells where a piece went after its first `known` moves, as what is said of it in a sentence that may have `named` a
/// square already.
fn went(journey: &Journey, known: usize, named: Option<Square>) -> String {
    let home = journey.home;
    let legs = &journey.legs[known..];
    let (skipped, told) = legs.split_at(legs.len().saturating_sub(TOLD));
    let clauses = told.iter().enumerate().map(|(at, told_leg)| {
        let ends = told_leg.ply.mv.promotion().is_some() && at + 2 == told.len();
        leg(told_leg) + if ends { "," } else { "" }
    });
    let clauses = list(clauses);
    match (skipped.last(), journey.stayed) {
        (_, Some(MoveNumber { number, .. })) if told.is_empty() => {
            format!("castled on move {number} and stayed on {home} then")
        }
        (_, None) if told.is_empty() && named.is_some() => {
            "has stood there from the start".to_owned()
        }
        (_, None) if told.is_empty() => format!("has stood on {home} from the start"),
        (Some(Leg { ply, to }), _) => {
            let number = ply.number.number;
            format!("had come to {to} by move {number} and then went {clauses}")
        }
        (None, _) if named.is_some() => format!("went from there {clauses}"),
        (None, _) => format!("went from {home} {clauses}"),
    }
}

fn leg(leg: &Leg) -> String {
    format!("to {} {}", leg.to, when(leg))
}

/// Tells on which move a piece came to a square, and what it did besides.
fn when(leg: &Leg) -> String {
    let castles = leg.ply.mv.is_castle();
    let castling = if castles { " by castling" } else { "" };
    let becoming = becoming(leg.ply.mv.promotion());
    format!("on move {}{castling}{becoming}", leg.ply.number.number)
}

/// Tells from where a piece came to the square where it stands; `None` where it has never left it.
fn last_step(journey: &Journey, named: Option<Square>) -> Option<String> {
    let (last, before) = journey.legs.split_last()?;
    let from = before.last().map_or(journey.home, |leg| leg.to);
    let from = match named {
        Some(named) if named == from => "there".to_owned(),
        _ => from.to_string(),
    };
    Some(format!("from {from} to {} {}", last.to, when(last)))
}

/// Tells how a piece came to the square that was asked about, by its name where another one was told of.
fn came(journey: &Journey, by_name: bool) -> String {
    let who = if by_name {
        piece_named(journey.piece)
    } else {
        "It".to_owned()
    };
    let Some((last, before)) = journey.legs.split_last() else {
        return format!("{who} {}.", went(journey, 0, Some(journey.home)));
    };
    let from = before.last().map_or(journey.home, |leg| leg.to);
    format!("{who} came from {from} {}.", when(last))
}

/// Tells how pieces of one kind came to their squares: the whole way of one, the last moves of several.
fn all_came(journeys: &[&Journey]) -> Vec<String> {
    if let [journey] = journeys {
        return way(journey);
    }
    let (moved, stood): (Vec<&Journey>, Vec<&Journey>) = journeys
        .iter()
        .partition(|journey| !journey.legs.is_empty());
    let has = if stood.len() == 1 { "has" } else { "have" };
    let on = list(stood.iter().map(|journey| journey.home));
    let steps = list(moved.iter().filter_map(|journey| last_step(journey, None)));
    let kind = |all: &[&Journey]| Some(kind(all.first()?.piece_now(), all.len()));
    let stood =
        kind(&stood).map(|kind| format!("{kind} on {on} {has} stood there from the start."));
    let moved = kind(&moved).map(|kind| format!("{kind} went {steps}."));
    stood.into_iter().chain(moved).collect()
}

/// Names one or several pieces of a kind with their side: "White's pawns".
fn kind(piece: Piece, number: usize) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{}{plural}", piece_named(piece))
}

/// Tells who took a piece at the end of its way.
fn taken(journey: &Journey) -> Option<String> {
    let place = match journey.legs.last() {
        Some(leg) => format!("on {}", leg.to),
        None => "there".to_owned(),
    };
    Some(took(journey.end.as_ref()?, "it", &place) + ".")
}

/// Tells who took `what`, in a clause.
fn took(end: &Ply, what: &str, place: &str) -> String {
    let (by, how, number) = (piece_named(end.piece()), en_passant(end), end.number.number);
    format!("{by} took {what}{how} {place} on move {number}")
}

/// Tells briefly what there is on a square that was not asked for, in a clause.
fn held(found: &Found) -> String {
    match found {
        Found::Piece(journey) => {
            let (name, home) = (piece_named(journey.piece_now()), journey.home);
            match journey.legs.as_slice() {
                [] => format!("{name} stands there"),
                _ => format!("{name} from {home} stands there"),
            }
        }
        Found::Left(departure) => left(departure),
        Found::NeverHeld => "nothing has stood there since the start".to_owned(),
    }
}

fn left(departure: &Departure) -> String {
    departed(departure, &piece_named(departure.piece), None)
}

/// How many pieces of each list are told; the board itself is shown beside.
const LISTED: usize = 8;

impl LineWords for Rebuild {
    fn ask(self, _: &Stand) -> String {
        "Where does every piece stand? Name White's pieces, then Black's.".to_owned()
    }

    fn tell(self, truth: &Truth) -> String {
        let [white, black] = [Color::White, Color::Black].map(|color| {
            let pieces = match truth {
                Truth::Placement(placement) => placement.by_color(color).count(),
                _ => 0,
            };
            count(pieces, "piece", "pieces")
        });
        format!("White has {white}, Black has {black}.")
    }

    fn explain(why: &RebuildWhy) -> Vec<String> {
        // Nothing was placed at all: the board that is shown says everything.
        if why.right == 0 && why.misplaced.is_empty() && why.extra.is_empty() {
            return Vec::new();
        }
        let misplaced = why.misplaced.iter().map(|(at, journey)| {
            let stands = match last_step(journey, Some(*at)) {
                Some(step) => format!("it went {step}"),
                None => format!("it stands on {}", journey.last_square()),
            };
            put(journey.piece_now(), *at, &stands)
        });
        let extra = why.extra.iter().map(|extra| {
            let left = extra.left.map(|left| match left.to {
                Some(_) if left.now.is_none() => {
                    departed(&left, "it", None) + " and was taken later"
                }
                _ => departed(&left, "it", None),
            });
            let reason = left.unwrap_or_else(|| held(&extra.found));
            put(extra.piece, extra.at, &reason)
        });
        // What stands on a square where another was put has been told.
        let mut missing = why.missing.clone();
        missing.retain(|(at, _)| why.extra.iter().all(|extra| extra.at != *at));
        let named = &missing[..missing.len().min(LISTED)];
        let more = missing.len() - named.len();
        let more = (more > 0).then(|| format!("{more} more"));
        let alike = groups(named, |one, other| one.1 == other.1);
        let several = |group: &Vec<&(Square, Piece)>| {
            let on = list(group.iter().map(|(at, _)| *at));
            format!("{} on {on}", kind(group[0].1, group.len()))
        };
        let missing = list(alike.iter().map(several).chain(more));
        let missing = (!missing.is_empty()).then(|| format!("Missing: {missing}."));
        misplaced
            .take(LISTED)
            .chain(extra.take(LISTED))
            .chain(missing)
            .collect()
    }
}

/// Says what is wrong with a piece that was put on a square.
fn put(piece: Piece, at: Square, reason: &str) -> String {
    format!("You put {} on {at}: {reason}.", piece_named(piece))
}
