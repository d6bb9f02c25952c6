//! What cannot be foreseen, from the operating system.

use std::io;

/// Returns a seed for the choices of a session.
///
/// It lies below 2^32: short enough to be read out and typed in again, and exact in every program
/// that reads JSON, many of which lose digits above 2^53.
///
/// # Errors
///
/// When the operating system has no entropy to give.
pub fn seed() -> io::Result<u64> {
    Ok(u64::from(getrandom::u32()?))
}

/// Returns a name for a new session: 16 hexadecimal digits that no other session has.
///
/// # Errors
///
/// When the operating system has no entropy to give.
pub fn session_name() -> io::Result<String> {
    Ok(format!("{:016x}", getrandom::u64()?))
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn a_thousand_sessions_have_a_thousand_names() {
        let names: HashSet<String> = (0..1000).map(|_| session_name().unwrap()).collect();
        assert_eq!(names.len(), 1000);
        assert!(names.iter().all(|name| name.len() == 16));
    }

    #[test]
    fn seeds_differ_and_stay_short() {
        let seeds: HashSet<u64> = (0..100).map(|_| seed().unwrap()).collect();
        assert!(seeds.len() > 90);
        assert!(seeds.iter().all(|seed| *seed < 1 << 32));
    }
}
