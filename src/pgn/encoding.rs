//! Text that was read in another encoding than it was written in.

use std::borrow::Cow;

use encoding_rs::{Encoding, WINDOWS_1252};

use super::fault::Reason;
use super::passage::Passage;
use super::text::shown;

const UTF_8: &str = "utf-8";

/// The encodings of Cyrillic, the commonest first.
const CYRILLIC: [&str; 4] = ["windows-1251", "koi8-r", "ibm866", "iso-8859-5"];

/// Those in which a game may be legal beside UTF-8 and the ones of Cyrillic.
const OTHERS: [&str; 3] = ["x-mac-cyrillic", "windows-1253", "windows-1254"];

/// Finds the encoding in which the whole game is legal, and says what to do.
pub(super) fn that_fits(passage: &Passage, is_legal: impl Fn(&Passage) -> bool) -> Option<Reason> {
    /// No game of moves is longer, in bytes.
    const LONGEST: usize = 1 << 16;
    if passage.text.len() > LONGEST || passage.text.is_ascii() {
        return None;
    }
    let text = std::str::from_utf8(&passage.text).ok();
    let bytes = match text {
        Some(text) => Cow::Owned(encoded_once(text)?),
        None => Cow::Borrowed(&passage.text),
    };
    let fits = |name: &&str| {
        is_legal(&Passage {
            text: decoded_as(name, &bytes).into_bytes(),
            ..passage.clone()
        })
    };
    let mut names = [UTF_8].into_iter().chain(CYRILLIC).chain(OTHERS);
    let name = names.find(fits)?;
    Some(match text {
        Some(_) => Reason::EncodedTwice(name),
        None => Reason::Encoding(name),
    })
}

/// Tells that a tag's value looks garbled: it is UTF-8 that was encoded twice, or has a word that no language writes
/// for which Windows-1252 is.
pub(super) fn garbled(value: &[u8]) -> Option<Reason> {
    let text = std::str::from_utf8(value).ok();
    let bytes = match text {
        _ if value.is_ascii() => return None,
        Some(text) => Cow::Owned(encoded_once(text)?),
        None => Cow::Borrowed(value),
    };
    let mut words = bytes.split(|byte| byte.is_ascii() && !byte.is_ascii_alphanumeric());
    let has_foreign = words.any(is_foreign);
    // Behind a capital letter, a dash or a quotation mark may look like the rest of another letter.
    let is_sure = |once: &str| once.contains(|c| matches!(c, 'À'..='ÿ' | '\u{800}'..));
    let once = text.and_then(|_| std::str::from_utf8(&bytes).ok());
    if once.is_some_and(|once| has_foreign || is_sure(once)) {
        return Some(Reason::EncodedTwice(UTF_8));
    }
    if !has_foreign {
        return None;
    }
    let is_name = |text: &str| {
        let mut words = text.split(|c: char| c.is_ascii() && !c.is_ascii_alphanumeric());
        text.starts_with(char::is_uppercase)
            && words.all(|word| word.chars().skip(1).all(char::is_lowercase))
    };
    let as_names = |name: &&str| is_name(&decoded_as(name, &bytes));
    let encoding = CYRILLIC.into_iter().find(as_names).unwrap_or(CYRILLIC[0]);
    Some(match text {
        Some(_) => Reason::EncodedTwice(encoding),
        None => Reason::Garbled {
            encoding,
            names: shown(&decoded_as(encoding, &bytes)),
        },
    })
}

/// Tells whether a word has four letters or more and none of ASCII. Dashes, quotation marks and the like are no letters.
fn is_foreign(word: &[u8]) -> bool {
    let is_mark = |byte: &&u8| {
        matches!(
            byte,
            0x82 | 0x84 | 0x85 | 0x91..=0x97 | 0xa0 | 0xab | 0xb7 | 0xbb
        )
    };
    let letters = word.len() - word.iter().filter(is_mark).count();
    letters >= 4 && !word.iter().any(u8::is_ascii)
}

fn decoded_as(name: &str, bytes: &[u8]) -> String {
    let encoding = Encoding::for_label(name.as_bytes()).expect("a label of the Encoding Standard");
    encoding.decode_without_bom_handling(bytes).0.into_owned()
}

/// Takes back that bytes were taken for Windows-1252, or for ISO 8859-1, and written as UTF-8.
fn encoded_once(text: &str) -> Option<Vec<u8>> {
    let encoded = |c: char| match *WINDOWS_1252.encode(c.encode_utf8(&mut [0; 4])).0 {
        [byte] => Some(byte),
        _ => None,
    };
    let byte = |c: char| u8::try_from(c).ok().or_else(|| encoded(c));
    text.chars().map(byte).collect()
}

#[cfg(test)]
mod tests {
    use encoding_rs::{
        GBK, IBM866, ISO_8859_5, KOI8_R, UTF_8, WINDOWS_1251, WINDOWS_1253, WINDOWS_1255,
    };

    use super::*;

    fn said(value: &[u8]) -> String {
        garbled(value).map_or_else(String::new, |reason| reason.to_string())
    }

    #[test]
    fn names_in_another_encoding_look_garbled_and_how_they_would_read_is_told() {
        let name = "Соколова, Мария";
        for encoding in [WINDOWS_1251, KOI8_R, IBM866, ISO_8859_5] {
            let (bytes, _, _) = encoding.encode(name);
            let remedy = format!(
                "if it should be \"{name}\", read the file with --encoding {}",
                encoding.name()
            );
            assert!(
                said(&bytes).to_lowercase().contains(&remedy.to_lowercase()),
                "{}",
                said(&bytes)
            );
        }
        for (encoding, name) in [
            (WINDOWS_1253, "Παπαδόπουλος"),
            (WINDOWS_1255, "אברהם, דוד"),
            (GBK, "王小明"),
        ] {
            let (bytes, _, _) = encoding.encode(name);
            assert!(said(&bytes).contains("looks garbled"), "{name}");
        }
    }

    #[test]
    fn names_that_were_encoded_twice_look_garbled() {
        for name in [
            "Müller",
            "Österreich",
            "Иванов",
            "Ли",
            "Łódź",
            "王明",
            "“A” – B",
        ] {
            let (bytes, _, _) = UTF_8.encode(name);
            let latin: String = bytes.iter().copied().map(char::from).collect();
            let windows = WINDOWS_1252.decode_without_bom_handling(&bytes).0;
            for twice in [latin.as_str(), &windows] {
                assert_eq!(
                    garbled(twice.as_bytes()),
                    Some(Reason::EncodedTwice("utf-8")),
                    "{twice}"
                );
            }
        }
        let (bytes, _, _) = WINDOWS_1251.encode("Иванов");
        let twice = WINDOWS_1252.decode_without_bom_handling(&bytes).0;
        assert_eq!(
            garbled(twice.as_bytes()),
            Some(Reason::EncodedTwice("windows-1251"))
        );
    }

    #[test]
    fn western_names_and_names_in_utf_8_do_not_look_garbled() {
        let western = "Müller, Jürgen|Groß–Berlin|Weiß’ Café|CAFÉ–BAR|SÃO JOÃO|JYVÄSKYLÄ–OULU|PYHÄ–ESPOO|Þjóðólfur Ægisson\
            |Guðröður Öð|Ýrr Þöll|Åse Ærøå|ÆØÅ|Jäääär, Öö|Õie Äär|Zoë Noëlle|Señor Ñandú|«\u{a0}Été\u{a0}»|«\u{a0}…\u{a0}»|„Öä“\
            |NESTLÉ®|Šárka Žižková|Úžas|Œuvré|Éé-Èè|Tšš Õõ|Ísöld Áróra|Eyðþór|1ª Ação|Nº 1 Ó’Súilleabháin|Ó–Ú|Ø. Å. Ü.|—…–";
        for name in western.split('|') {
            assert_eq!(garbled(name.as_bytes()), None, "{name}");
            let (bytes, _, lossy) = WINDOWS_1252.encode(name);
            assert!(!lossy, "{name}");
            assert_eq!(garbled(&bytes), None, "{name}");
        }
        for name in [
            "Иванов, Пётр",
            "Παπαδόπουλος",
            "王小明",
            "Łódź",
            "Dvořák",
            "Çağlar Şıkoğlu",
        ] {
            assert_eq!(garbled(name.as_bytes()), None, "{name}");
        }
    }
}
