//! The name of a sheet, by which two sheets are known to be the same.

/// Names a sheet after its questions, as its JSON tells them: 8 hexadecimal digits, short enough to be
/// typed from paper. Two sheets with other questions have another name, but for chance.
#[must_use]
pub fn name(json: &str) -> String {
    let long = digest(json.as_bytes());
    format!("{:08x}", (long >> 32) ^ (long & 0xffff_ffff))
}

/// Names the session that a sheet's written replies become in the journal: the same replies to the same
/// sheet have the same name, so that they are known again.
#[must_use]
pub fn session_name<'a>(sheet: &str, replies: impl Iterator<Item = &'a str>) -> String {
    let mut text = sheet.to_owned();
    for reply in replies {
        text.push('\n');
        text.push_str(reply);
    }
    format!("{:016x}", digest(text.as_bytes()))
}

/// The Fowler-Noll-Vo hash 1a of 64 bits (its two constants are from memory, and so is the value that
/// the test holds it against).
fn digest(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_digest_of_one_letter_is_the_known_one() {
        assert_eq!(digest(b"a"), 0xaf63_dc4c_8601_ec8c);
    }

    #[test]
    fn one_letter_more_or_less_makes_another_name() {
        assert_eq!(name("[]").len(), 8);
        assert_ne!(name("[]"), name("[ ]"));
    }
}
