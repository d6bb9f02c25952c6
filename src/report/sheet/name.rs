//! The name of a sheet, by which two sheets are known to be the same.

use super::Part;

/// Names a sheet after its questions and where they stand, neither their wording nor the file that a game
/// is from: 8 hexadecimal digits, short enough to be typed from paper. Two sheets with other questions
/// have another name, but for chance.
///
/// # Panics
///
/// Never: every question has a form in JSON.
#[must_use]
pub fn name(parts: &[Part]) -> String {
    let mut text = String::new();
    for part in parts {
        if let Part::Asked(item) = part {
            let question = serde_json::to_string(&item.answered.question);
            text.push_str(&question.expect("every question has a form in JSON"));
            if let Some(setting) = &item.answered.setting {
                text.push_str(&setting.start);
                for mv in &setting.moves {
                    text.push(' ');
                    text.push_str(&mv.to_string());
                }
            }
            text.push('\n');
        }
    }
    let long = digest(text.as_bytes());
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

/// The prime of the Fowler-Noll-Vo hashes of 64 bits.
const PRIME: u64 = (1 << 40) + (1 << 8) + 0xb3;
/// Where their hash 1a begins.
const BASIS: u64 = 0xcbf2_9ce4_8422_2325;

/// The Fowler-Noll-Vo hash 1a of 64 bits.
fn digest(bytes: &[u8]) -> u64 {
    bytes.iter().fold(BASIS, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(PRIME)
    })
}

#[cfg(test)]
mod tests {
    use super::super::parts;
    use super::*;
    use crate::exercise::{Drill, DrillSettings, Session, Views};
    use crate::question::Kind;

    /// Its makers began with zero, multiplied first, and took what became of this signature for the
    /// beginning of all later hashes.
    #[test]
    fn the_digest_begins_with_the_hash_of_its_makers_signature() {
        let signature = br"chongo <Landon Curt Noll> /\../\";
        let hash = signature.iter().fold(0_u64, |hash, byte| {
            hash.wrapping_mul(PRIME) ^ u64::from(*byte)
        });
        assert_eq!(hash, BASIS);
    }

    #[test]
    fn other_questions_have_another_name_and_the_same_ones_the_same() {
        let named = |seed| {
            let mut drill = Session::new(Drill::without_returns(DrillSettings {
                kinds: vec![Kind::Color],
                count: 3,
                view: Views::Both,
                think_millis: None,
                pieces: Vec::new(),
                blockers: 0,
                seed,
                weak: Vec::new(),
                chosen: Vec::new(),
            }));
            name(&parts(&mut drill))
        };
        assert_eq!(named(1).len(), 8);
        assert_eq!(named(1), named(1));
        assert_ne!(named(1), named(2));
    }

    #[test]
    fn other_replies_make_another_session() {
        let session = |replies: [&'static str; 2]| session_name("93f1b4c2", replies.into_iter());
        assert_eq!(session(["e5", ""]), session(["e5", ""]));
        assert_ne!(session(["e5", ""]), session(["", "e5"]));
    }
}
