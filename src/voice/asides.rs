//! What is said beside a session: prompts, lists of games, and what became of a file.

use std::borrow::Cow;
use std::fmt::Write;

use crate::game::MoveNumber;
use crate::learner::Appended;
use crate::pgn::{Cost, Fault, Field, Heading, Lost, Repair, Trust};
use crate::rules::Letters;

use super::clean::cleaned_name;
use super::naming::{self, capital, count, either, move_of};
use super::time::duration;

/// The prompt while a question stands.
pub(crate) const REPLY_PROMPT: &str = "Your reply: ";
/// The prompt while a question stands, with the question's number.
pub(crate) fn numbered_prompt(number: usize, of: usize) -> String {
    format!("{number} of {of}. {REPLY_PROMPT}")
}

/// The prompt while nothing is asked.
pub(crate) const GO_ON_PROMPT: &str = "Enter reads on: ";
/// The prompt before what is on the screen is wiped.
pub(crate) const WIPE_PROMPT: &str = "Enter wipes this: ";
/// The prompt while a verdict is read, before something else is shown.
pub(crate) const READ_PROMPT: &str = "Enter goes on: ";
/// The prompt while the truth of what was missed waits.
pub(crate) const TRUTH_PROMPT: &str = "Enter tells why: ";
/// The prompt where the screen is full and more is to come.
pub(crate) const MORE_PROMPT: &str = "Enter tells the rest: ";
/// The prompt before an exercise takes the screen.
pub(crate) const BEGIN_PROMPT: &str = "Enter begins: ";

/// Said where an empty board is to stay before the eyes and none can be drawn.
pub(crate) const NOTHING_DRAWN: &str =
    "Nothing is drawn here, so --board empty shows no board; all else goes on as usual.";

/// Says that games were appended to a file, and how they are gone through.
pub(crate) fn game_kept(file: &str, games: usize) -> String {
    let games = count(games, "game is", "games are");
    format!("{games} kept in {file}. Hear it again with questions: sansvoir replay {file}")
}

/// Offers to go through a game that was kept.
pub(crate) const HEAR_IT_AGAIN: &str =
    "You can hear it again now, with questions; stop leaves it for another time.";

/// Says why a game could not be kept in a file, and that it is not lost.
pub(crate) fn not_kept(reason: &str) -> String {
    format!(
        "the game cannot be written there ({reason}); it is in your journal: sansvoir play --resume with \
         --out and another file"
    )
}

/// Says at which rating an engine plays that cannot play at the one wished for.
pub(crate) fn engine_plays_at(rating: Option<u32>) -> String {
    match rating {
        Some(rating) => format!("The engine plays at {rating}, the nearest that it can."),
        None => "The engine cannot be limited: it plays at its full strength.".to_owned(),
    }
}

/// Says what an engine did, and how the game goes on.
pub(crate) fn engine_failed(reason: &str) -> String {
    format!(
        "{reason}. The game is kept: sansvoir play --resume goes on with it, --opponent own against the \
         program itself"
    )
}

/// Said after the first Ctrl-C where nothing is asked.
pub(crate) const INTERRUPTED: &str =
    "Ctrl-C once more stops. Everything answered is kept; Enter alone goes on.";
/// Said after the first Ctrl-C while a question stands.
pub(crate) const INTERRUPTED_QUESTION: &str =
    "Ctrl-C once more stops. Everything answered is kept; the question still stands.";

/// Said where only Enter is waited for and something else was typed.
pub(crate) const ENTER_WANTED: &str = "Here Enter alone goes on, and stop ends.";

/// Said when a reply was longer than any reply can be.
pub(crate) const CUT_SHORT: &str = "That line was too long; only its beginning was read.";

/// Said once when the journal's last line was found torn.
pub(super) const TORN_LINE: &str = "The last line of the journal had been cut off, as by a power failure. \
    It is marked as such; everything before it is kept.";

/// Said when the journal was deleted or replaced while a session went on.
pub(super) const WRITTEN_ANEW: &str = "The journal was deleted or replaced in the meantime. Everything of this \
    session is kept and has been written again; what else stood there has to come from a copy.";

/// Says what was found of the journal when a record was appended, where that is not as it was left.
pub(crate) const fn appended(found: Appended) -> Option<&'static str> {
    match found {
        Appended::Plainly => None,
        Appended::AfterTornLine => Some(TORN_LINE),
        Appended::WithLostRecords => Some(WRITTEN_ANEW),
    }
}

/// Shown at the end while sentences are still being spoken.
pub(crate) const STILL_SPEAKING: &str =
    "The last sentences are still being spoken; Enter ends that.";

/// Said when a game came through standard input and no terminal is there to reply from.
pub(crate) const NO_TERMINAL: &str = "The game comes through standard input and there is no terminal to \
    reply from: the reading stops at the first question. Name a file to reply through a pipe.";

/// Said when all games that could be chosen have been finished before.
pub(crate) const ALL_FINISHED: &str =
    "You have finished every one of these games; the one least lately read is read again.";

/// Said when a sheet is made of a game that came through standard input.
pub(crate) const SHEET_FROM_INPUT: &str = "The game comes through standard input: the command on the sheet \
    makes it again only with the same game there, and answers cannot be entered. Name a file for that.";

/// Said behind the written replies that could not be read.
pub(crate) const NOTHING_ENTERED: &str =
    "Nothing was entered: correct these lines and enter the file again.";

/// Said when the same replies to the same sheet are in the journal.
pub(crate) const ENTERED_ALREADY: &str = "these answers to this sheet are in the journal already: nothing was \
    entered";

/// Said when the learner stopped a search for mates.
pub(crate) const SEARCH_STOPPED: &str = "The search for mates was stopped; nothing was asked.";

/// Says that some positions were not searched to the end.
pub(crate) fn given_up(positions: usize) -> String {
    let positions = count(positions, "position", "positions");
    format!("{positions} would have taken too long to search, and nothing was asked there.")
}

/// Says that no mate was found, how far the search went, and what to do.
pub(crate) fn no_mate(within: u32, games: usize, positions: usize, known: usize) -> String {
    let depth = count(within, "move", "moves");
    let positions = count(positions, "position", "positions");
    let games = count(games, "game", "games");
    let searched = format!("searched {positions} of {games} to a depth of {depth}");
    if known > 0 {
        format!(
            "no mate is left that you have not found before ({searched}): choose other games, or use \
             another --learner"
        )
    } else {
        format!(
            "no position has a forced mate within {depth} ({searched}): choose other games, or give \
             --mate a larger number, up to 4"
        )
    }
}

/// Says that a sound file is done.
pub(crate) fn sound_made(questions: usize, millis: u64) -> String {
    let (questions, long) = (count(questions, "question", "questions"), duration(millis));
    format!(
        "{questions} in a sound of {long}; where each begins stands in the text file beside it."
    )
}

/// Says what is kept of a sound file that could not be finished.
pub(crate) fn sound_cut_short(questions: usize) -> String {
    match questions {
        0 => "What was written before the first question is a whole sound file.".to_owned(),
        last => format!("What was written up to question {last} is a whole sound file."),
    }
}

/// Says that a game was read with the piece letters of another language.
pub(crate) fn letters(letters: &Letters) -> String {
    let languages = either(&letters.languages);
    let mut spaced = String::new();
    for letter in letters.letters.chars() {
        // A small letter belongs to the one before.
        let begins = letter.is_uppercase() && !spaced.is_empty();
        spaced.extend(begins.then_some(' ').into_iter().chain([letter]));
    }
    format!(
        "The moves are written with {languages} piece letters ({spaced} for knight, bishop, rook, \
         queen and king) and read so."
    )
}

/// Says how far a game with a fault is kept, and that its end is not to be trusted.
pub(crate) fn kept_up_to(plies: usize, last: Option<MoveNumber>) -> String {
    let Some(last) = last.map(move_of) else {
        return "No move of this game could be kept.".to_owned();
    };
    let plies = naming::plies(plies);
    format!(
        "The game is broken: it ends here after {last} ({plies}), which is not where it was ended."
    )
}

/// Says that more was understood or dropped in a game than was told.
pub(crate) fn more_mended(more: usize) -> String {
    let more = count(more, "more thing was", "more things were");
    format!("{more} mended in this game: sansvoir games FILE --game N --check tells each.")
}

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
    let result = tag(Field::Result).unwrap_or("*".into());
    // Of a collection, some hundred thousand lines are written.
    let mut line = String::with_capacity(120);
    let _ = write!(line, "{number:>4}  {date:<10}  {result:<7}  ");
    line.extend([&*white, " - ", &*black]);
    if let Some(event) = tag(Field::Event) {
        line.extend([", ", &*event]);
    }
    line
}

/// Says of a listed game in which file it stands.
pub(crate) fn in_file(file: &str, game: &str) -> String {
    format!("{file}: {game}")
}

/// Said where games are wanted and neither the command nor the config file names any.
pub(crate) const DEMO_GAMES: &str = "No file was named, so a demo game is taken. Name a PGN file of your own, or \
                              let games in the config file name yours.";

/// Says that a demo file is read that is no file on the disk.
pub(crate) fn from_the_program(file: &str) -> String {
    format!("{file}: no such file is here, so the demo file that comes with the program is read.")
}

/// Says that a learner has no journal yet, where others have one, and whose names are near.
pub(crate) fn new_learner(name: &str, near: &[String]) -> String {
    let new = format!("{name} has no journal yet: this is a new name here.");
    match near {
        [] => new,
        near => format!("{new} Near it: {}.", near.join(", ")),
    }
}

/// Said where a lesson cannot be told to hold because the search for its mates was stopped.
pub(crate) const NOT_SEARCHED_THROUGH: &str = "the search for mates was stopped, so nobody knows whether there is one: let it come to its end";

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

/// Says that a place of one's own games is gone.
pub(crate) fn gone(place: &str) -> String {
    format!("{place} is gone and is left out: sansvoir games --remove \"{place}\" forgets it.")
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

/// Says that no session of an exercise was left unfinished.
pub(crate) fn nothing_unfinished(exercise: &str) -> String {
    let session = session_of(exercise);
    format!("there is no unfinished {session} to go on with: leave out --resume")
}

/// Says that a session that goes on does so with the settings that it began with.
pub(crate) fn not_as_begun(exercise: &str, option: &str) -> String {
    let session = session_of(exercise);
    let option = match option {
        "kinds" => "the kinds".to_owned(),
        option => format!("--{option}"),
    };
    format!(
        "--resume goes on with the settings that the {session} began with: leave out {option}, or leave out \
         --resume to start over"
    )
}

pub(super) fn session_of(exercise: &str) -> &str {
    match exercise {
        "recite" => "recital",
        "play" => "game",
        "ahead" => "session of ahead",
        command => command,
    }
}
