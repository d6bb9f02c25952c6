//! A long text on a terminal, a screenful at a time.

use std::env;
use std::io::{self, Write};
use std::process::{Command, Stdio};

use anstream::adapter::strip_str;

use super::wrap::{print_styled, wrapped};

/// Shows a text that may hold styles: with the learner's own pager where it is `paged` and longer than the screen,
/// and otherwise as it is.
///
/// # Errors
///
/// When it cannot be written.
pub(crate) fn show_pages(text: &str, styled: bool, paged: bool) -> io::Result<()> {
    let size = terminal_size::terminal_size().filter(|_| paged);
    if let Some((width, height)) = size {
        let bare = strip_str(text).to_string();
        let lines = bare.lines().flat_map(|line| wrapped(line, width.0.into()));
        let lines: Vec<_> = lines.collect();
        if lines.len() >= height.0.into() && page(&(lines.join("\n") + "\n")) {
            return Ok(());
        }
    }
    print_styled(text, false, !styled)
}

/// Hands a text to the pager that `PAGER` names, else to the system's usual one; tells whether there is one.
fn page(text: &str) -> bool {
    let usual = if cfg!(windows) { "more" } else { "less" };
    let named = env::var("PAGER").unwrap_or_default();
    let mut words = shell_words::split(&named).unwrap_or_default();
    if words.is_empty() {
        words.push(usual.to_owned());
    }
    let pager = Command::new(&words[0])
        .args(&words[1..])
        .stdin(Stdio::piped())
        .spawn();
    let Ok(mut pager) = pager else {
        return false;
    };
    // Ctrl-C is for the pager.
    let _ = ctrlc::set_handler(|| {});
    if let Some(mut input) = pager.stdin.take() {
        // Who has read enough leaves before the end.
        let _ = input.write_all(text.as_bytes());
    }
    pager.wait().is_ok_and(|status| status.success())
}
