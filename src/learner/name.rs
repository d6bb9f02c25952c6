//! The name of a learner, and the file that bears it.

use std::fmt::{self, Write};
use std::fs;
use std::hash::{Hash, Hasher};
use std::io;
use std::path::Path;
use std::str::FromStr;

use unicode_normalization::UnicodeNormalization;

use super::JournalError;

/// The name of a learner: any name that a person has, in any script.
///
/// Names that differ only in upper and lower case, in spaces at either end or in how an accent is
/// composed are one learner's: some file systems tell them apart and some do not, and people do not.
///
/// ```
/// use sansvoir::learner::LearnerName;
///
/// let name: LearnerName = "Zoë Ångström".parse()?;
/// assert_eq!(name.to_string(), "Zoë Ångström");
/// assert_eq!(name.file_name(), "zoë ångström.jsonl");
/// assert_eq!(name, "ZOË ÅNGSTRÖM".parse()?);
/// assert_eq!(LearnerName::from_file_name("zoë ångström.jsonl"), Some(name));
/// # Ok::<(), sansvoir::learner::LearnerNameError>(())
/// ```
#[derive(Clone, Debug)]
pub struct LearnerName {
    given: String,
    folded: String,
}

/// Why a text cannot be a learner's name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LearnerNameError {
    /// There is nothing to see in it.
    #[error("{given:?} is no name that can be seen: name the learner with --learner NAME")]
    Empty {
        /// The name as given.
        given: String,
    },
    /// No file can bear it.
    #[error(
        "the learner's name {given:?} takes {bytes} bytes as the name of a file, and {limit} is the \
         most: give a shorter one"
    )]
    TooLong {
        /// The name as given.
        given: String,
        /// The bytes it would take.
        bytes: usize,
        /// The bytes it may take.
        limit: usize,
    },
}

const ENDING: &str = ".jsonl";

/// The longest file name, in bytes, the ending left out. File systems take 255, encrypted ones less.
const LIMIT: usize = 130;

impl LearnerName {
    /// Returns the name of the learner's file.
    ///
    /// Characters that a file name cannot hold everywhere stand there as `%` and two hexadecimal
    /// digits for each byte of their UTF-8 form, as in RFC 3986, 2.1.
    pub fn file_name(&self) -> String {
        escaped(&self.folded) + ENDING
    }

    /// Finds the names of all learners who have a journal in a data folder, in the order of the
    /// alphabet; a folder that is not there has none.
    ///
    /// # Errors
    ///
    /// [`JournalProblem::Unreadable`](super::JournalProblem::Unreadable) when the folder cannot be read.
    pub fn all_in(folder: &Path) -> Result<Vec<LearnerName>, JournalError> {
        let unreadable = |reason| JournalError::reading(folder, reason);
        let entries = match fs::read_dir(folder) {
            Err(reason) if reason.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            entries => entries.map_err(unreadable)?,
        };
        let mut names = Vec::new();
        for entry in entries {
            let file = entry.map_err(unreadable)?.file_name();
            names.extend(file.to_str().and_then(LearnerName::from_file_name));
        }
        names.sort_by(|one, other| one.folded.cmp(&other.folded));
        Ok(names)
    }

    /// Tells whether a name could be this one misspelt: two letters at most are wrong, missing, needless
    /// or in each other's place (one, in a name of three letters or fewer), or one name begins with all
    /// of the other.
    pub fn is_near(&self, other: &LearnerName) -> bool {
        let (one, other) = (&*self.folded, &*other.folded);
        let letters = one.chars().count().min(other.chars().count());
        let most = if letters > 3 { 2 } else { 1 };
        strsim::osa_distance(one, other) <= most || one.starts_with(other) || other.starts_with(one)
    }

    /// Reads the name back from the name of a file; `None` where no learner's file is so called.
    pub fn from_file_name(file: &str) -> Option<LearnerName> {
        let name: LearnerName = unescaped(file.strip_suffix(ENDING)?)?.parse().ok()?;
        (name.file_name() == file).then_some(name)
    }
}

impl FromStr for LearnerName {
    type Err = LearnerNameError;

    fn from_str(given: &str) -> Result<LearnerName, LearnerNameError> {
        let name = given.trim();
        if name.chars().all(is_unseen) {
            return Err(LearnerNameError::Empty {
                given: given.to_owned(),
            });
        }
        // Lower case can bring forth a sequence that composes anew.
        let lower = name.nfc().collect::<String>().to_lowercase();
        let folded: String = lower.nfc().collect();
        match escaped(&folded).len() {
            0..=LIMIT => Ok(LearnerName {
                given: name.to_owned(),
                folded,
            }),
            bytes => Err(LearnerNameError::TooLong {
                given: given.to_owned(),
                bytes,
                limit: LIMIT,
            }),
        }
    }
}

impl fmt::Display for LearnerName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.given)
    }
}

impl PartialEq for LearnerName {
    fn eq(&self, other: &LearnerName) -> bool {
        self.folded == other.folded
    }
}

impl Eq for LearnerName {}

impl Hash for LearnerName {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.folded.hash(state);
    }
}

/// Tells whether a character leaves no mark of its own.
fn is_unseen(c: char) -> bool {
    c.is_whitespace() || crate::pgn::is_unseen(c)
}

pub(super) fn escaped(name: &str) -> String {
    let reserved = is_reserved(name);
    let mut file = String::new();
    for (at, c) in name.char_indices() {
        let plain = match c {
            '%' | '/' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|' => false,
            // A dot at the start hides a file; some shells and archives take a dash for an option.
            '.' | '-' | '~' => at > 0,
            ' ' => true,
            _ => !is_unseen(c),
        };
        if plain && !(reserved && at == 0) {
            file.push(c);
        } else {
            let mut bytes = [0; 4];
            for byte in c.encode_utf8(&mut bytes).bytes() {
                // Writing to a string never fails.
                let _ = write!(file, "%{byte:02x}");
            }
        }
    }
    file
}

fn unescaped(file: &str) -> Option<String> {
    let mut parts = file.split('%');
    let mut bytes = parts.next()?.as_bytes().to_vec();
    for part in parts {
        let (digits, rest) = part.split_at_checked(2)?;
        bytes.push(u8::from_str_radix(digits, 16).ok()?);
        bytes.extend_from_slice(rest.as_bytes());
    }
    String::from_utf8(bytes).ok()
}

/// Tells whether Windows takes the name for a device, whatever ending it has (its documentation names them
/// in "Naming Files, Paths, and Namespaces").
fn is_reserved(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or_default().trim_end();
    let is_device = matches!(stem, "con" | "prn" | "aux" | "nul" | "conin$" | "conout$");
    let port = stem
        .strip_prefix("com")
        .or_else(|| stem.strip_prefix("lpt"));
    let mut number = port.unwrap_or_default().chars();
    let first = matches!(number.next(), Some('0'..='9' | '¹' | '²' | '³'));
    is_device || (first && number.next().is_none())
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use proptest::prelude::*;

    use super::*;

    fn name(text: &str) -> LearnerName {
        text.parse().unwrap()
    }

    #[test]
    fn names_in_any_script_come_back_from_their_files() {
        let names = [
            "Ana",
            "José Ñúñez",
            "Łukasz",
            "Ελένη",
            "Наталья",
            "אברהם",
            "محمد علی",
            "मीरा",
            "தமிழ்",
            "สมชาย",
            "李小龙",
            "さくら",
            "지우",
            "Siân O'Dowd-Smith",
            "Nguyễn Văn Ấn",
            "İpek",
            "ẞtraße",
            "می‌خواهم",
            "1",
            "4th board",
            "ana@club",
            "🐴",
        ];
        let files: HashSet<String> = names.iter().map(|text| name(text).file_name()).collect();
        assert_eq!(files.len(), names.len());
        for text in names {
            assert_eq!(name(text).to_string(), text);
            assert_eq!(
                LearnerName::from_file_name(&name(text).file_name()),
                Some(name(text))
            );
        }
    }

    #[test]
    fn what_a_file_name_cannot_hold_is_escaped() {
        for (text, file) in [
            ("a/b", "a%2fb.jsonl"),
            (r"a\b", "a%5cb.jsonl"),
            ("..", "%2e..jsonl"),
            ("../../etc/passwd", "%2e.%2f..%2fetc%2fpasswd.jsonl"),
            (".hidden", "%2ehidden.jsonl"),
            ("-rf", "%2drf.jsonl"),
            ("a\0b\nc\u{7f}", "a%00b%0ac%7f.jsonl"),
            ("50%", "50%25.jsonl"),
            ("C:", "c%3a.jsonl"),
            ("a*?\"<>|", "a%2a%3f%22%3c%3e%7c.jsonl"),
            ("Con", "%63on.jsonl"),
            ("nul.txt", "%6eul.txt.jsonl"),
            ("LPT1", "%6cpt1.jsonl"),
            ("com²", "%63om².jsonl"),
            ("Connie", "connie.jsonl"),
            ("com10", "com10.jsonl"),
            ("a\u{202e}b", "a%e2%80%aeb.jsonl"),
        ] {
            assert_eq!(name(text).file_name(), file);
            assert_eq!(LearnerName::from_file_name(file), Some(name(text)));
        }
    }

    #[test]
    fn case_outer_spaces_and_composition_make_no_new_learner() {
        assert_eq!(name("  Ana "), name("aNA"));
        assert_eq!(name("Zoe\u{308}"), name("zoë"));
        assert_ne!(name("ana b"), name("anab"));
    }

    #[test]
    fn a_name_without_anything_to_see_is_refused() {
        for text in ["", "   ", "\t\n", "\u{200b}", "\u{feff} \u{200f}"] {
            assert!(matches!(
                text.parse::<LearnerName>(),
                Err(LearnerNameError::Empty { .. })
            ));
        }
    }

    #[test]
    fn a_name_longer_than_a_file_name_is_refused() {
        assert!("x".repeat(130).parse::<LearnerName>().is_ok());
        for text in ["x".repeat(131), "/".repeat(44), "李".repeat(44)] {
            assert!(matches!(
                text.parse::<LearnerName>(),
                Err(LearnerNameError::TooLong {
                    bytes: 131..=132,
                    ..
                })
            ));
        }
    }

    #[test]
    fn files_that_no_learner_has_are_not_taken_for_one() {
        for file in [
            "ana",
            "Ana.jsonl",
            "ana.json",
            ".jsonl",
            "%zz.jsonl",
            "%2.jsonl",
            "%61.jsonl",
            "%ff.jsonl",
        ] {
            assert_eq!(LearnerName::from_file_name(file), None, "{file}");
        }
    }

    proptest! {
        #![proptest_config(crate::random::kept())]

        #[test]
        fn every_name_is_a_safe_file_and_comes_back(text in "\\PC{0,12}|[\\x00-\\x7f]{0,12}") {
            if let Ok(name) = text.parse::<LearnerName>() {
                let file = name.file_name();
                prop_assert!(!file.contains(|c: char| c.is_control() || "/\\:*?\"<>|".contains(c)));
                prop_assert!(!file.starts_with(['.', '-', ' ']));
                prop_assert_eq!(LearnerName::from_file_name(&file), Some(name));
            }
        }
    }
}
