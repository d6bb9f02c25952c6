//! Pieces' ways in words, and the questions that are answered by them, the whole board among them.

use shakmaty::{Color, Square};

use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{
    CapturedPieces, Departure, Found, Journey, Leg, Occupant, OccupantWhy, Rebuild, RebuildWhy,
    Standing, StandingWhy, Taken, TakenWhy, Truth, Whereabouts, WhereaboutsWhy,
};
use crate::voice::naming::{
    becoming, count, list, piece_named, piece_on, pieces_counted, role, roles, side, stands_on,
};
use crate::voice::words::LineWords;

/// How many moves of one piece are told; of a longer way, the last ones.
const TOLD: usize = 6;

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
        let nothing = || vec!["No piece stood there at the start.".to_owned()];
        let said = why
            .said
            .iter()
            .map(|(square, found)| there_is(*square, found));
        said.chain(why.journey.as_ref().map_or_else(nothing, way))
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
        let found = match &why.found {
            Found::Piece(journey) => steps(journey),
            Found::Left(departure) => left(departure),
            Found::NeverHeld => "No piece has stood there since the start.".to_owned(),
        };
        why.before.iter().map(left).chain([found]).collect()
    }
}

impl LineWords for Standing {
    fn ask(self, _: &Stand) -> String {
        let (side, role) = (side(self.color), role(self.role));
        format!("On which squares does {side} have a {role}? Name every one.")
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, set, role) = (side(self.color), truth.set(), role(self.role));
        match set.count() {
            0 => format!("{side} has no {}.", roles(self.role)),
            1 => format!("{side} has a {role} on {}.", list(set)),
            _ => format!("{side} has {} on {}.", roles(self.role), list(set)),
        }
    }

    fn explain(why: &StandingWhy) -> Vec<String> {
        let missed = why.missed.iter().map(steps);
        let extra = |(square, found): &_| there_is(*square, found);
        missed.chain(why.extra.iter().map(extra)).collect()
    }
}

impl LineWords for Taken {
    fn ask(self, _: &Stand) -> String {
        let side = side(self.color);
        format!(
            "Which of {side}'s pieces have been taken since the start? Name them without their squares, or none."
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let pieces = truth.taken();
        let pieces = pieces_counted(CapturedPieces::ORDER.map(|role| (role, pieces.of(role))));
        format!("{} has lost {pieces}.", side(self.color))
    }

    fn explain(why: &TakenWhy) -> Vec<String> {
        let extra = why.extra.iter().map(|(kind, taken)| match taken {
            0 => format!("No {} has been taken.", role(*kind)),
            1 => format!("Only one {} has been taken.", role(*kind)),
            _ => format!("Only {taken} {} have been taken.", roles(*kind)),
        });
        why.missed.iter().flat_map(way).chain(extra).collect()
    }
}

/// Tells the whole way of a piece: where it went, and who took it.
fn way(journey: &Journey) -> Vec<String> {
    let taken = journey.end.as_ref().map(|end| taken(journey, end));
    [steps(journey)].into_iter().chain(taken).collect()
}

/// Tells where a piece went, in one sentence.
fn steps(journey: &Journey) -> String {
    let (name, home) = (piece_named(journey.piece), journey.home);
    let (skipped, told) = journey
        .legs
        .split_at(journey.legs.len().saturating_sub(TOLD));
    let clauses = list(told.iter().map(leg));
    let first = skipped.last().map(|leg| (leg.to, leg.ply.number.number));
    match (first, journey.stayed.map(|stayed| stayed.number)) {
        (None, Some(number)) if told.is_empty() => {
            format!("{name} castled on move {number} and stayed on {home} then.")
        }
        (None, None) if told.is_empty() => format!("{name} has stood on {home} from the start."),
        (None, _) => format!("{name} went from {home} {clauses}."),
        (Some((to, number)), _) => {
            format!("{name} from {home} had come to {to} by move {number} and then went {clauses}.")
        }
    }
}

fn leg(leg: &Leg) -> String {
    let Leg { ply, to } = leg;
    let is_castling = ply.mv.is_castle();
    let castling = if is_castling { " by castling" } else { "" };
    let (number, becoming) = (ply.number.number, becoming(ply.mv.promotion()));
    format!("to {to} on move {number}{castling}{becoming}")
}

fn taken(journey: &Journey, end: &Ply) -> String {
    let is_en_passant = end.mv.is_en_passant();
    let how = if is_en_passant { " en passant" } else { "" };
    let place = if journey.legs.is_empty() {
        "there".to_owned()
    } else {
        format!("on {}", journey.last_square())
    };
    let (by, number) = (piece_named(end.piece()), end.number.number);
    format!("{by} took it{how} {place} on move {number}.")
}

/// Tells briefly what there is on a square that was not asked for.
fn there_is(square: Square, found: &Found) -> String {
    match found {
        Found::Piece(journey) => {
            format!("On {square} stands {}.", piece_named(journey.piece_now()))
        }
        Found::Left(departure) => format!("Nothing stands on {square}: {}", left(departure)),
        Found::NeverHeld => format!("Nothing stands on {square}, and nothing has since the start."),
    }
}

fn left(departure: &Departure) -> String {
    let (name, number) = (piece_named(departure.piece), departure.number.number);
    match departure.to {
        Some(to) => format!("{name} left it for {to} on move {number}."),
        None => format!("{name} was taken there on move {number}."),
    }
}

/// How many pieces of each list are named; the board itself is shown beside.
const LISTED: usize = 8;
/// How many pieces of each list are explained.
const EXPLAINED: usize = 3;

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

    /// Lists the pieces that are missing, too many or wrong, and tells the ways of a few.
    fn explain(why: &RebuildWhy) -> Vec<String> {
        // Nothing was placed at all: the board that is shown says everything.
        if why.right == 0 && why.extra.is_empty() && why.wrong_piece.is_empty() {
            return Vec::new();
        }
        let mut said = Vec::new();
        let missing = why.missing.iter();
        let names = missing.map(|journey| piece_on(journey.piece_now(), journey.last_square()));
        said.extend(listed("Missing", names));
        // A piece that never moved has no way to tell.
        let has_moved = |journey: &&Journey| !journey.legs.is_empty();
        let moved = why.missing.iter().filter(has_moved);
        said.extend(moved.take(EXPLAINED).map(steps));
        let extra = why.extra.iter();
        let names = extra.map(|(at, piece, _)| piece_on(*piece, *at));
        said.extend(listed("Too many", names));
        let told = why.extra.iter().take(EXPLAINED);
        said.extend(told.map(|(at, _, found)| there_is(*at, found)));
        let wrong = why.wrong_piece.iter();
        let names = wrong.map(|(at, piece, _)| piece_on(*piece, *at));
        said.extend(listed("The wrong piece", names));
        for (at, _, journey) in why.wrong_piece.iter().take(EXPLAINED) {
            let piece = piece_named(journey.piece_now());
            said.push(format!("On {at} stands {piece}."));
            said.extend(has_moved(&journey).then(|| steps(journey)));
        }
        said
    }
}

/// Lists some of the names under a heading, and counts the rest.
fn listed(heading: &str, names: impl ExactSizeIterator<Item = String>) -> Option<String> {
    let rest = names.len().saturating_sub(LISTED);
    let more = (rest > 0).then(|| format!("{rest} more"));
    let names = list(names.take(LISTED).chain(more));
    (!names.is_empty()).then(|| format!("{heading}: {names}."))
}
