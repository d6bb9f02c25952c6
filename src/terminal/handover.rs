//! Standard input that gives games first and replies afterwards.

use std::io::{self, Read};

/// Opens standard input to read games from it.
///
/// # Errors
///
/// When there is no standard input.
#[cfg(unix)]
pub fn games_from_input() -> io::Result<Box<dyn Read + Send>> {
    use std::fs::File;
    use std::os::fd::AsFd;

    // No buffer of the standard library: what was read too far is never taken for a reply.
    let input = io::stdin().as_fd().try_clone_to_owned()?;
    Ok(Box::new(File::from(input)))
}

/// Opens standard input to read games from it.
///
/// # Errors
///
/// None here.
#[cfg(not(unix))]
pub fn games_from_input() -> io::Result<Box<dyn Read + Send>> {
    Ok(Box::new(io::stdin()))
}

/// Takes replies from the terminal that controls this process, now that standard input has given
/// games, and returns whether there is one. Where there is none, standard input is at its end.
///
/// # Errors
///
/// When standard input cannot be exchanged.
#[cfg(unix)]
pub fn replies_from_terminal() -> io::Result<bool> {
    use std::fs::File;

    let terminal = File::open("/dev/tty");
    let found = terminal.is_ok();
    let input = terminal.or_else(|_| File::open("/dev/null"))?;
    rustix::stdio::dup2_stdin(&input)?;
    Ok(found)
}

/// Takes replies from the terminal that controls this process, now that standard input has given
/// games, and returns whether there is one. Where there is none, standard input is at its end.
///
/// # Errors
///
/// When standard input cannot be read.
#[cfg(not(unix))]
pub fn replies_from_terminal() -> io::Result<bool> {
    // No terminal is looked for; the games that were not read are no replies.
    io::copy(&mut io::stdin().lock(), &mut io::sink())?;
    Ok(false)
}
