//! What is said beside a session: prompts, and what became of a file.

use crate::game::MoveNumber;
use crate::learner::Appended;
use crate::rules::Letters;

use super::clean::clean_name;
use super::naming::{self, count, either, move_of};
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

/// Says that games were appended to a file, and how the last of them, which has this number there, is gone through.
pub(crate) fn game_kept(file: &str, games: usize, last: usize) -> String {
    let games = count(games, "game is", "games are");
    format!(
        "{games} kept in {file}. To hear the last with questions: sansvoir replay {file} --game {last}"
    )
}

/// Offers to go through a game that was kept.
pub(crate) const HEAR_IT_AGAIN: &str =
    "You can hear it again now, with questions; stop leaves it for another time.";
/// Said where neither that was taken nor left.
pub(crate) const ANOTHER_TIME: &str =
    "It is left for another time: the command above lets you hear it.";

/// Says why a game could not be kept in a file, and that it is not lost.
pub(crate) fn not_kept(reason: &str) -> String {
    format!(
        "the game cannot be written there ({reason}); it is in your journal: sansvoir play --resume with \
         --out and another file"
    )
}

/// Says at which rating an opponent plays that cannot play at the one wished for.
pub(crate) fn opponent_plays_at(rating: Option<u32>) -> String {
    match rating {
        Some(rating) => format!("Your opponent plays at {rating}, the nearest that it can."),
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
pub(crate) const ENTER_WANTED: &str =
    "Press Enter first; then help says what can be said. stop ends.";

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

/// Says that a learner's answers to a sheet are in the journal, and nothing was entered for that one.
pub(crate) fn entered_before(learner: &str) -> String {
    format!(
        "{}: these answers are in the journal already.",
        clean_name(learner)
    )
}

/// Says that a part of a lesson cannot stand on paper, and why.
pub(crate) fn not_on_paper(number: usize, heading: &str, reason: &str) -> String {
    format!(
        "Part {number}, {}, is left out of the sheet: {reason}.",
        clean_name(heading)
    )
}

/// Said when the learner stopped a search for mates.
pub(crate) const SEARCH_STOPPED: &str = "The search for mates was stopped; nothing was asked.";

/// Said before a game that is read without a question, though some were wished for.
pub(crate) const NOTHING_WORTH_ASKING: &str = "Of this game none of these is worth asking: what is read tells the \
     answer, or it is nearly always the same.";

/// Says that some positions were not searched to the end.
pub(crate) fn given_up(positions: usize) -> String {
    let positions = count(positions, "position", "positions");
    format!("{positions} would have taken too long to search, and nothing was asked there.")
}

/// Says that a position claims a mate which is not there.
pub(crate) fn no_mate_there(name: &str, within: u32) -> String {
    let depth = count(within, "move", "moves");
    format!("{name}: a mate is claimed here, and there is none within {depth}.")
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

/// Says how far a game with a fault is kept, that its end is not to be trusted, and with which command it is checked.
pub(crate) fn kept_up_to(plies: usize, last: Option<MoveNumber>, check: &str) -> String {
    let Some(last) = last.map(move_of) else {
        return "No move of this game could be kept.".to_owned();
    };
    let plies = naming::plies(plies);
    format!(
        "The game is broken: it ends here after {last} ({plies}), which is not where it was ended; {check} tells why."
    )
}

/// Says how much was understood or dropped in a game, and with which command it is checked.
pub(crate) fn mended(things: usize, check: &str) -> String {
    let things = count(things, "thing was", "things were");
    format!("{things} mended in this game: {check} tells each.")
}

/// Said where games are wanted and neither the command nor the config file names any.
pub(crate) const DEMO_GAMES: &str = "No file was named, so a demo game is taken. Name a PGN file of your own, or \
                              keep it as yours with sansvoir games --add FILE.";

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

/// Says whose journals are here beside those of a class.
pub(crate) fn not_of_the_class(names: &[String]) -> String {
    let learners = count(names.len(), "learner has", "learners have");
    let names = naming::list(names);
    format!("{learners} a journal here and no place in this class: {names}.")
}

/// Said where a lesson cannot be told to hold because the search for its mates was stopped.
pub(crate) const NOT_SEARCHED_THROUGH: &str = "the search for mates was stopped, so nobody knows whether there is one: let it come to its end";

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
