//! The demo files, which the program carries with it: what it recommends works in every folder.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};

use super::failure::shown;
use super::tell;
use crate::voice::asides;

/// The games that are taken where none were named.
pub(super) const CLUB: &str = "games-demo/club-evening.pgn";
/// The folder that the demo files are named with.
const FOLDER: &str = "games-demo";

/// A demo file.
struct Demo {
    name: &'static str,
    text: &'static str,
    /// Whether it was said that it comes with the program; once is enough.
    said: AtomicBool,
}

impl Demo {
    const fn new(name: &'static str, text: &'static str) -> Demo {
        Demo {
            name,
            text,
            said: AtomicBool::new(false),
        }
    }
}

static DEMOS: [Demo; 5] = [
    Demo::new(
        "club-evening.pgn",
        include_str!("../../games-demo/club-evening.pgn"),
    ),
    Demo::new(
        "first-steps.pgn",
        include_str!("../../games-demo/first-steps.pgn"),
    ),
    Demo::new(
        "dialects.pgn",
        include_str!("../../games-demo/dialects.pgn"),
    ),
    Demo::new(
        "first-lesson.toml",
        include_str!("../../games-demo/first-lesson.toml"),
    ),
    Demo::new(
        "club-group.toml",
        include_str!("../../games-demo/club-group.toml"),
    ),
];

/// Finds the demo file of this name, with its folder or without, where no such file is on the disk.
fn find(path: &Path) -> Option<&'static Demo> {
    let name = path.strip_prefix(FOLDER).unwrap_or(path);
    let found = DEMOS.iter().find(|demo| Path::new(demo.name) == name);
    found.filter(|_| !path.exists())
}

/// Returns the text of a demo file, for where no such file is on the disk, and says that it is read.
pub(super) fn text(path: &Path) -> Option<&'static str> {
    let demo = find(path)?;
    if !demo.said.swap(true, Ordering::Relaxed) {
        tell(&asides::from_the_program(&shown(path)));
    }
    Some(demo.text)
}

/// Says that a demo game is taken because none was named; of its file there is no more to say then.
pub(super) fn say_default() {
    tell(asides::DEMO_GAMES);
    if let Some(demo) = find(Path::new(CLUB)) {
        demo.said.store(true, Ordering::Relaxed);
    }
}

/// Tells whether a demo file is meant.
pub(super) fn is_meant(path: &Path) -> bool {
    find(path).is_some()
}

/// Returns the usual path of the demo file that a lesson file means by `name`, if it means one.
pub(super) fn path(name: &str) -> Option<PathBuf> {
    find(Path::new(name)).map(|demo| Path::new(FOLDER).join(demo.name))
}
