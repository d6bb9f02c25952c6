//! What the terminal allows.

use std::env;
use std::io::{self, IsTerminal};

use anstream::AutoStream;
use clap::ColorChoice;

/// How lines are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// From a terminal, with line editing.
    Edited,
    /// From a terminal, as it hands them over, after a prompt in plain text.
    Prompted,
    /// From a pipe or a file, without any prompt.
    Piped,
}

/// What the standard streams of this process allow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Capabilities {
    /// How lines are read.
    pub way: Way,
    /// Whether text is styled.
    pub styled: bool,
    /// Whether the screen may be wiped.
    pub wipes: bool,
}

/// Tells whether the environment says anything of color: `NO_COLOR`, `CLICOLOR` or `CLICOLOR_FORCE`.
pub(crate) fn environment_speaks_of_color() -> bool {
    ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE"]
        .into_iter()
        .any(|name| env::var_os(name).is_some_and(|value| !value.is_empty()))
}

impl Capabilities {
    /// Looks at the standard streams and the environment of this process.
    ///
    /// `plain` asks for text alone: no color, no cursor movement. Color is for a terminal, unless `NO_COLOR`,
    /// `CLICOLOR` or `TERM` speaks against it, where it is left to `Auto`; for a pipe and a file too with
    /// `Always`.
    pub fn of_this_process(plain: bool, color: ColorChoice) -> Capabilities {
        let out = io::stdout();
        let moves_cursor = moves_cursor(env::var("TERM").ok().as_deref(), cfg!(windows));
        let forced = env::var_os("CLICOLOR_FORCE").is_some_and(|force| force != "0");
        let colored = match color {
            // Under continuous integration the library takes every terminal for a colored one.
            ColorChoice::Auto => {
                AutoStream::choice(&out) != anstream::ColorChoice::Never && (moves_cursor || forced)
            }
            ColorChoice::Always => true,
            ColorChoice::Never => false,
        };
        let (reads, writes) = (io::stdin().is_terminal(), out.is_terminal());
        Capabilities::new(plain, colored, reads, writes, moves_cursor)
    }

    #[expect(clippy::fn_params_excessive_bools, reason = "five facts of one caller")]
    fn new(
        plain: bool,
        colored: bool,
        reads: bool,
        writes: bool,
        moves_cursor: bool,
    ) -> Capabilities {
        let screen = writes && moves_cursor && !plain;
        Capabilities {
            way: match (reads, screen) {
                (false, _) => Way::Piped,
                (true, true) => Way::Edited,
                (true, false) => Way::Prompted,
            },
            styled: colored && !plain,
            wipes: screen,
        }
    }
}

/// Tells whether a terminal of this name can move its cursor.
fn moves_cursor(term: Option<&str>, windows: bool) -> bool {
    match term {
        // The same names that the line editor declines.
        Some("" | "dumb" | "cons25" | "emacs") => false,
        Some(_) => true,
        None => windows,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_edited_only_between_two_terminals_that_move_their_cursor() {
        let way =
            |plain, reads, writes, moves| Capabilities::new(plain, true, reads, writes, moves).way;
        assert_eq!(way(false, true, true, true), Way::Edited);
        assert_eq!(way(true, true, true, true), Way::Prompted);
        assert_eq!(way(false, true, false, true), Way::Prompted);
        assert_eq!(way(false, true, true, false), Way::Prompted);
        for others in 0..8 {
            let (plain, writes, moves) = (others & 1 > 0, others & 2 > 0, others & 4 > 0);
            assert_eq!(way(plain, false, writes, moves), Way::Piped);
        }
    }

    #[test]
    fn plain_forbids_every_escape_even_where_color_is_wanted() {
        let capabilities = Capabilities::new(true, true, true, true, true);
        assert!(!capabilities.styled && !capabilities.wipes);
    }

    #[test]
    fn color_without_a_terminal_wipes_nothing() {
        let capabilities = Capabilities::new(false, true, true, false, true);
        assert!(capabilities.styled && !capabilities.wipes);
    }

    #[test]
    fn a_terminal_without_a_name_moves_its_cursor_on_windows_alone() {
        assert!(moves_cursor(None, true) && !moves_cursor(None, false));
        assert!(moves_cursor(Some("xterm"), false) && !moves_cursor(Some("dumb"), true));
    }
}
