//! The demo games, which the program carries with it: a lesson needs a game wherever it is held.

use std::path::Path;

/// The file that lessons take games from where the config file names none.
pub(super) const CLUB: &str = "games-demo/club-evening.pgn";

/// Returns the text of a demo file by its usual path, for where no such file is on the disk.
pub(super) fn text(path: &Path) -> Option<&'static [u8]> {
    (path == Path::new(CLUB))
        .then_some(include_bytes!("../../games-demo/club-evening.pgn").as_slice())
}
