//! What is said of files of games: lists and finds, checks and exports, and how far a game can be trusted.

use std::borrow::Cow;
use std::fmt::Write;

use crate::pgn::{Cost, Fault, Field, Heading, Lost, Repair, Trust};

use super::clean::cleaned_name;
use super::naming::{self, capital, count, move_of};

/// Says how far a game in a list can be trusted, where it is not clean.
pub(crate) const fn trust(trust: Trust) -> Option<&'static str> {
    match trust {
        Trust::Clean => None,
        Trust::Mended => Some("mended"),
        Trust::Broken => Some("broken"),
    }
}

/// Names a game in a list: number, date, result, players, event.
pub(crate) fn listed(number: usize, heading: &Heading<'_>) -> String {
    let tag = |field| named_in(heading, field);
    let or_unknown = |field| tag(field).unwrap_or("?".into());
    let [date, white, black] = [Field::Date, Field::White, Field::Black].map(or_unknown);
    let moves = first_moves(heading);
    let result = ended(heading).unwrap_or("*".into());
    // Of a collection, some hundred thousand lines are written.
    let mut line = String::with_capacity(120);
    let _ = write!(line, "{number:>4}  {date:<10}  {result:<7}  ");
    match moves {
        Some(moves) => line += &moves,
        None => line.extend([&*white, " - ", &*black]),
    }
    if let Some(event) = tag(Field::Event) {
        line.extend([", ", &*event]);
    }
    line
}

/// Returns how a game ended: by its tag, else by the last word of its text.
pub(super) fn ended<'a>(heading: &Heading<'a>) -> Option<Cow<'a, str>> {
    let tag = named_in(heading, Field::Result).filter(|tag| tag != "*");
    tag.or_else(|| Some(heading.result()?.marker().into()))
}

/// Returns how the moves begin of a game without tags, cleaned.
pub(super) fn first_moves(heading: &Heading<'_>) -> Option<String> {
    let moves = heading.first_moves()?;
    let moves = cleaned_name(&moves);
    Some(moves.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// Says how a game of a list is heard.
pub(crate) fn how_to_hear(file: &str) -> String {
    format!(
        "sansvoir replay {file} reads the first to you, with the board hidden; --game N takes another."
    )
}

/// Says of a listed game in which file it stands.
pub(crate) fn in_file(file: &str, game: &str) -> String {
    format!("{file}: {game}")
}

/// Returns a field of a heading, cleaned, where it says something.
pub(super) fn named_in<'a>(heading: &Heading<'a>, field: Field) -> Option<Cow<'a, str>> {
    let value = match heading.known(field)? {
        Cow::Borrowed(value) => cleaned_name(value),
        Cow::Owned(value) => cleaned_name(&value).into_owned().into(),
    };
    (!value.is_empty()).then_some(value)
}

/// Sums up a check of games: how many of them are mended, and how many broken.
pub(crate) fn checked(
    games: usize,
    plies: usize,
    faults: usize,
    [mended, broken]: [usize; 2],
) -> String {
    let clean = games - mended - broken;
    let games = count(games, "game", "games");
    let (plies, faults) = (naming::plies(plies), count(faults, "fault", "faults"));
    format!(
        "{games} with {plies}: {faults}; {clean} clean, {mended} mended, {broken} broken (moves lost)."
    )
}

/// Adds to a game in a list how far it can be trusted.
pub(crate) fn with_trust(trust: &str, plain: bool) -> String {
    if plain {
        format!(" {}.", capital(trust))
    } else {
        format!(" [{trust}]")
    }
}

/// Says of how many games in a long list it was told how far they can be trusted.
pub(crate) fn trust_told(games: usize) -> String {
    format!(
        "Of the first {games} games it is told which are mended or broken: --check tells it of all."
    )
}

/// Says why a place of one's own games is left out.
pub(crate) fn left_out(reason: &str, place: &str) -> String {
    format!(
        "{reason}. It is left out of your own games: sansvoir games --remove \"{place}\" forgets it."
    )
}

/// Says where one's own games are taken from now.
pub(crate) fn own_games(places: &[String]) -> String {
    match places {
        [] => {
            "No games of your own are named any more: where no FILE is named, demo games are taken."
                .to_owned()
        }
        places => format!(
            "Your own games, for all learners here: {}. sansvoir replay reads them to you, one after the other.",
            places.join("; ")
        ),
    }
}

/// Says how many games were left out because nobody knows their date.
pub(crate) fn without_date(games: usize) -> String {
    let (games, are) = (
        count(games, "game", "games"),
        if games == 1 { "is" } else { "are" },
    );
    format!("{games} without a date {are} left out.")
}

/// Counts a player's games by colors and results: won, drawn, lost.
pub(crate) fn player_counts([white, black]: [usize; 2], [won, drawn, lost]: [usize; 3]) -> String {
    let games = count(white + black, "game", "games");
    let open = white + black - won - drawn - lost;
    format!(
        "{games}: {white} with White, {black} with Black; {won} won, {drawn} drawn, {lost} lost, {open} without a result."
    )
}

/// Says what an export writes in place of what stands in a file.
pub(crate) fn repaired(file: &str, game: usize, repair: &Repair) -> String {
    let Repair {
        place,
        before,
        after,
        reason,
    } = repair;
    let done = match (before.as_str(), after.as_str()) {
        ("", "") => "mended".to_owned(),
        ("", after) => format!("{after} is added"),
        (before, "") => format!("\"{before}\" is mended or left out"),
        (before, after) if before == after => format!("\"{before}\" is left as it is"),
        (before, after) => format!("{after} is written for \"{before}\""),
    };
    let reason = reason
        .as_ref()
        .map_or_else(String::new, |reason| format!(" ({reason})"));
    format!("{file}:{place}: game {game}: {done}{reason}.")
}

/// Says how many games were written, and how many of them lack moves.
pub(crate) fn exported(games: usize, cut: usize) -> String {
    let written = format!("{} written", count(games, "game", "games"));
    match cut {
        0 => format!("{written}."),
        _ => format!("{written}, {cut} of them only in part."),
    }
}

/// The comment in an exported game where moves are lost, with what stood there.
pub(crate) fn lost_moves(fault: &Fault, text: &str) -> String {
    let begins = if fault.cost == Cost::Sideline {
        Lost::SIDELINE
    } else {
        Lost::MOVES
    };
    let there = if text.is_empty() {
        String::new()
    } else {
        format!(" There stood: {text}")
    };
    format!("{begins} {}{there}", lost_at(fault))
}

/// Names the move where something was lost, the word that stands there, and the reason.
fn lost_at(fault: &Fault) -> String {
    let at = fault.number.map(move_of);
    let token = (!fault.token.is_empty()).then(|| format!("\"{}\"", fault.token));
    let place: Vec<String> = [at, token].into_iter().flatten().collect();
    let reason = reason(fault);
    match place.as_slice() {
        [] => capital(&reason),
        place => format!("{}: {reason}", place.join(", ")),
    }
}

/// Says what is wrong as the end of a sentence.
pub(super) fn reason(fault: &Fault) -> String {
    let said = fault.reason.to_string();
    let stop = if said.ends_with('?') { "" } else { "." };
    said + stop
}

/// Says how far the reading of a large file has come; `left` is in seconds.
pub(crate) fn read_so_far(
    bytes: u64,
    of: Option<u64>,
    games: usize,
    faults: usize,
    left: Option<u64>,
) -> String {
    let megabytes = |bytes: u64| bytes.div_ceil(1_000_000);
    let (read, games) = (megabytes(bytes), count(games, "game", "games"));
    let of = of.map_or_else(String::new, |of| format!(" of {}", megabytes(of)));
    let faults = match faults {
        0 => String::new(),
        _ => format!(", {}", count(faults, "fault", "faults")),
    };
    let left = left.map(|left| format!("; about {} left", count(left, "second", "seconds")));
    let left = left.unwrap_or_default();
    format!("Read {read}{of} MB: {games}{faults}{left}.")
}
