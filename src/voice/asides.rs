//! What is said beside a session: prompts, lists of games, and what became of a file.

use std::borrow::Cow;
use std::fmt::Write as _;

use crate::game::MoveNumber;
use crate::pgn::{Fault, Field, Heading};
use crate::rules::Letters;

use super::clean::cleaned_name;
use super::duration::duration;
use super::naming::{capital, count, move_of};

/// The prompt while a question stands.
pub const REPLY_PROMPT: &str = "Your reply: ";
/// The prompt while a question stands, with the question's number.
#[must_use]
pub fn numbered_prompt(number: usize, of: usize) -> String {
    format!("{number} of {of}. {REPLY_PROMPT}")
}

/// The prompt while nothing is asked.
pub const GO_ON_PROMPT: &str = "Enter reads on: ";
/// The prompt before what is on the screen is wiped.
pub const WIPE_PROMPT: &str = "Enter wipes this: ";
/// The prompt while a verdict is read, before something else is shown.
pub const READ_PROMPT: &str = "Enter goes on: ";
/// The prompt where the screen is full and more is to come.
pub const MORE_PROMPT: &str = "Enter tells the rest: ";
/// The prompt before an exercise takes the screen.
pub const BEGIN_PROMPT: &str = "Enter begins: ";

/// Said after the first Ctrl-C where nothing is asked.
pub const INTERRUPTED: &str =
    "Ctrl-C once more stops. Everything answered is kept; Enter alone goes on.";
/// Said after the first Ctrl-C while a question stands.
pub const INTERRUPTED_QUESTION: &str =
    "Ctrl-C once more stops. Everything answered is kept; the question still stands.";

/// Said where only Enter is waited for and something else was typed.
pub const ENTER_WANTED: &str = "Here Enter alone goes on, and stop ends.";

/// Said when a reply was longer than any reply can be.
pub const CUT_SHORT: &str = "That line was too long; only its beginning was read.";

/// Said once when the journal's last line was found torn.
pub const TORN_LINE: &str = "The last line of the journal had been cut off, as by a power failure. \
    It is marked as such; everything before it is kept.";

/// Said when the journal was deleted or replaced while a session went on.
pub const WRITTEN_ANEW: &str = "The journal was deleted or replaced in the meantime. Everything of this \
    session is kept and has been written again; what else stood there has to come from a copy.";

/// Shown at the end while sentences are still being spoken.
pub const STILL_SPEAKING: &str = "The last sentences are still being spoken; Enter ends that.";

/// Said when a game came through standard input and no terminal is there to reply from.
pub const NO_TERMINAL: &str = "The game comes through standard input and there is no terminal to \
    reply from: the reading stops at the first question. Name a file to reply through a pipe.";

/// Said when all games that could be chosen have been finished before.
pub const ALL_FINISHED: &str =
    "You have finished every one of these games; the first is read again.";

/// Said when a sheet is made of a game that came through standard input.
pub const SHEET_FROM_INPUT: &str = "The game comes through standard input: the command on the sheet \
    makes it again only with the same game there, and answers cannot be entered. Name a file for that.";

/// Said behind the written replies that could not be read.
pub const NOTHING_ENTERED: &str =
    "Nothing was entered: correct these lines and enter the file again.";

/// Said when the same replies to the same sheet are in the journal.
pub const ENTERED_ALREADY: &str = "these answers to this sheet are in the journal already: nothing was \
    entered; --force enters them once more";

/// Said when the learner stopped a search for mates.
pub const SEARCH_STOPPED: &str = "The search for mates was stopped; nothing was asked.";

/// Says that some positions were not searched to the end.
#[must_use]
pub fn given_up(positions: usize) -> String {
    format!(
        "{} would have taken too long to search and {} left out.",
        count(positions, "position", "positions"),
        if positions == 1 { "was" } else { "were" }
    )
}

/// Says that no mate was found, how far the search went, and what to do.
#[must_use]
pub fn no_mate(within: u32, games: usize, positions: usize, known: usize) -> String {
    let depth = count(within as usize, "move", "moves");
    let searched = format!(
        "searched {} of {} to a depth of {depth}",
        count(positions, "position", "positions"),
        count(games, "game", "games")
    );
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
#[must_use]
pub fn sound_made(questions: usize, millis: u64) -> String {
    format!(
        "{} in a sound of {}; where each begins stands in the text file beside it.",
        count(questions, "question", "questions"),
        duration(millis)
    )
}

/// Says what is kept of a sound file that could not be finished.
#[must_use]
pub fn sound_cut_short(questions: usize) -> String {
    match questions {
        0 => "What was written before the first question is a whole sound file.".to_owned(),
        last => format!("What was written up to question {last} is a whole sound file."),
    }
}

/// Says that a game was read with the piece letters of another language.
#[must_use]
pub fn letters(letters: &Letters) -> String {
    let languages = match letters.languages.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [others @ .., last] => format!("{} or {last}", others.join(", ")),
    };
    let spaced: Vec<String> = letters.letters.chars().map(String::from).collect();
    format!(
        "The moves are written with {languages} piece letters ({} for knight, bishop, rook, queen \
         and king) and read so.",
        spaced.join(" ")
    )
}

/// Says how far a game with a fault is kept.
#[must_use]
pub fn kept_up_to(plies: usize, last: Option<MoveNumber>) -> String {
    match last {
        None => "No move of this game could be kept.".to_owned(),
        Some(last) => format!(
            "The game is kept up to {} ({}).",
            move_of(last),
            count(plies, "ply", "plies")
        ),
    }
}

/// Names a game in a list: number, date, result, players, event.
#[must_use]
pub fn listed(number: usize, heading: &Heading<'_>) -> String {
    let tag = |field| named_in(heading, field);
    let or_unknown = |field| tag(field).unwrap_or("?".into());
    let mut line = String::with_capacity(120);
    // Writing into a text cannot fail.
    let _ = write!(line, "{number:>4}  ");
    padded(&mut line, &or_unknown(Field::Date), 12);
    padded(&mut line, &tag(Field::Result).unwrap_or("*".into()), 9);
    line.push_str(&or_unknown(Field::White));
    line.push_str(" - ");
    line.push_str(&or_unknown(Field::Black));
    if let Some(event) = tag(Field::Event) {
        line.push_str(", ");
        line.push_str(&event);
    }
    line
}

/// Says of a listed game in which file it stands.
#[must_use]
pub fn in_file(file: &str, game: &str) -> String {
    format!("{file}: {game}")
}

/// Said where games are wanted and neither the command nor the config file names any.
pub const DEMO_GAMES: &str = "No file was named, so a demo game is taken. Name a PGN file of your own, or \
                              let games in the config file name yours.";

/// Says that a demo file is read that is no file on the disk.
#[must_use]
pub fn from_the_program(file: &str) -> String {
    format!("{file}: no such file is here, so the demo file that comes with the program is read.")
}

/// Says that a learner has no journal yet, where others have one, and whose names are near.
#[must_use]
pub fn new_learner(name: &str, near: &[String]) -> String {
    let new = format!("{name} has no journal yet: this is a new name here.");
    match near {
        [] => new,
        near => format!("{new} Near it: {}.", near.join(", ")),
    }
}

/// Said where a lesson cannot be told to hold because the search for its mates was stopped.
pub const NOT_SEARCHED_THROUGH: &str = "the search for mates was stopped, so nobody knows whether there is one: let it come to its end";

/// Returns a field of a heading, cleaned, where it says something.
pub(super) fn named_in<'a>(heading: &Heading<'a>, field: Field) -> Option<Cow<'a, str>> {
    let value = match heading.known(field)? {
        Cow::Borrowed(value) => cleaned_name(value),
        Cow::Owned(value) => cleaned_name(&value).into_owned().into(),
    };
    (!value.is_empty()).then_some(value)
}

/// Adds a text and at least two spaces, up to `width` in all.
fn padded(line: &mut String, text: &str, width: usize) {
    line.push_str(text);
    let spaces = width.saturating_sub(text.chars().count()).max(2);
    line.extend(std::iter::repeat_n(' ', spaces));
}

/// Sums up a check of games.
#[must_use]
pub fn checked(games: usize, plies: usize, faults: usize, cut: usize) -> String {
    format!(
        "{} with {}: {}; {} lost moves.",
        count(games, "game", "games"),
        count(plies, "ply", "plies"),
        count(faults, "fault", "faults"),
        if cut == 1 {
            "1 game".to_owned()
        } else {
            format!("{cut} games")
        },
    )
}

/// Says how many games were written, and how many of them lack moves.
#[must_use]
pub fn exported(games: usize, cut: usize) -> String {
    let written = format!("{} written", count(games, "game", "games"));
    match cut {
        0 => format!("{written}."),
        _ => format!("{written}, {cut} of them only in part."),
    }
}

/// The comment in an exported game where its moves end before their time.
#[must_use]
pub fn lost_moves(fault: &Fault) -> String {
    format!("The moves from here on are lost. {}", lost_at(fault))
}

/// The comment at the head of an exported game of whose sidelines moves are lost.
#[must_use]
pub fn lost_sidelines(faults: &[&Fault]) -> Option<String> {
    let lost = match faults {
        [] => return None,
        [only] => format!("Moves of a sideline are lost. {}", lost_at(only)),
        [first, ..] => format!(
            "Moves of {} are lost. The first: {}",
            count(faults.len(), "sideline", "sidelines"),
            lost_at(first)
        ),
    };
    Some(lost)
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
#[must_use]
pub fn read_so_far(
    bytes: u64,
    of: Option<u64>,
    games: usize,
    faults: usize,
    left: Option<u64>,
) -> String {
    let megabytes = |bytes: u64| bytes.div_ceil(1_000_000);
    let mut said = match of {
        Some(of) => format!("Read {} of {} MB", megabytes(bytes), megabytes(of)),
        None => format!("Read {} MB", megabytes(bytes)),
    };
    said.push_str(": ");
    said.push_str(&count(games, "game", "games"));
    if faults > 0 {
        said.push_str(", ");
        said.push_str(&count(faults, "fault", "faults"));
    }
    if let Some(left) = left {
        said.push_str("; about ");
        said.push_str(&count(
            usize::try_from(left).unwrap_or(usize::MAX),
            "second",
            "seconds",
        ));
        said.push_str(" left");
    }
    said.push('.');
    said
}

/// Says that no session of an exercise was left unfinished.
#[must_use]
pub fn nothing_unfinished(exercise: &str) -> String {
    let session = session_of(exercise);
    format!("there is no unfinished {session} to go on with: leave out --resume")
}

/// Says that a session that goes on does so with the settings that it began with.
#[must_use]
pub fn not_as_begun(exercise: &str, option: &str) -> String {
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

fn session_of(exercise: &str) -> &str {
    match exercise {
        "recite" => "recital",
        "ahead" => "session of ahead",
        command => command,
    }
}
