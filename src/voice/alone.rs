//! What is said where the program is called alone on a terminal.

use shakmaty::Color;

use super::asides::session_of;
use super::naming::{plies, side};

/// Said a first time, before a miniature.
pub(crate) const WELCOME: [&str; 3] = [
    "This is chess without sight of the board. Try it: five minutes are enough.",
    "A short game is read to you and no board is shown. Follow it in your mind, as far as you can; its last \
     move is yours to find.",
    "It is counted in plies: a ply is one move of one side.",
];

/// Asks for the mate at the end of a miniature.
pub(super) fn mate(turn: Color) -> String {
    format!("{} mates now. Which move?", side(turn))
}

/// The prompt where something is on offer.
pub(crate) const PROMPT: &str = "Your choice: ";

/// Said after the first Ctrl-C there.
pub(crate) const INTERRUPTED: &str = "Ctrl-C once more ends; everything answered is kept.";

/// Says how one's own games are read.
pub(crate) const OWN_GAMES: &str = "Nearly every chess program and server saves games as PGN files. sansvoir \
    games my-games.pgn lists those in such a file, and sansvoir games --add my-games.pgn keeps it as yours: \
    sansvoir replay then reads them to you, one after the other.";

/// Says what was done in a miniature, of which so many plies were heard.
pub(crate) fn done(heard: usize, found: bool, looks: u32) -> String {
    let heard = plies(heard);
    match (found, looks) {
        (true, 0) => format!(
            "You have followed {heard} and found the mate, all without a board: that is blindfold chess."
        ),
        (true, _) => {
            format!(
                "You have followed {heard} and found the mate. The next time, try it without a look."
            )
        }
        (false, looks) => format!(
            "You have listened to {heard}{}. Finding the mate comes with practice, and a lesson \
             begins where you are now.",
            if looks == 0 { " without a board" } else { "" }
        ),
    }
}

/// Offers to go on with the exercise that was stopped last, or else a lesson, which may be the first.
pub(crate) fn offer(left: Option<&str>, is_new: bool) -> String {
    let first = match (left, is_new) {
        (Some(exercise), _) => {
            let session = session_of(exercise);
            format!("Enter goes on with the {session} where you stopped. l: a lesson.")
        }
        (None, true) => "Enter begins your first lesson, which finds your level.".to_owned(),
        (None, false) => "Enter begins today's lesson.".to_owned(),
    };
    format!("{first} m: a short game. g: your own games. stop: the end.")
}

/// Says once more what can be chosen.
pub(crate) fn choose(offer: &str) -> String {
    format!("That is not on offer. {offer}")
}
