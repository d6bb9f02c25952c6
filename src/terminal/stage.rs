//! The alternate screen of the terminal: what is shown there is kept in no scrollback, and what stood
//! before stands again afterwards.

use std::io::{self, Write};
use std::panic;
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

/// Saves the cursor, turns to the alternate screen and clears it (xterm's control sequences, private
/// mode 1049). A terminal without one passes over it.
pub(super) const ENTER: &str = "\x1b[?1049h";
/// Turns back, and puts the cursor where it was.
pub(super) const LEAVE: &str = "\x1b[?1049l";

/// Whether this process has turned the terminal to its alternate screen.
static ENTERED: AtomicBool = AtomicBool::new(false);

/// Notes that the terminal is being turned to its alternate screen; from now on a panic turns it back
/// before it is told.
pub(super) fn note_entered() {
    static HOOK: Once = Once::new();
    HOOK.call_once(|| {
        let tell = panic::take_hook();
        panic::set_hook(Box::new(move |panic| {
            restore();
            tell(panic);
        }));
    });
    ENTERED.store(true, Ordering::SeqCst);
}

/// Notes that the terminal is being turned back, and returns whether there is need.
pub(super) fn note_left() -> bool {
    ENTERED.swap(false, Ordering::SeqCst)
}

/// Turns the terminal back wherever the program ends.
pub(super) fn restore() {
    if note_left() {
        let mut out = io::stdout();
        // Nobody is left who could be told that it failed.
        let _ = out.write_all(LEAVE.as_bytes()).and_then(|()| out.flush());
    }
}
