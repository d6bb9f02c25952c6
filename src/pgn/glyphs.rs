//! Signs that annotators write, and the numeric annotation glyphs they stand for.

/// Signs and their glyphs. The suffixes are the PGN standard's (8.2.3.8), the numbers of the
/// evaluations its table's (10); that these signs carry them is common practice, no source, as are
/// the glyphs 146 and 220, which the table leaves open.
const SIGNS: [(&str, u8); 25] = [
    ("!!", 3),
    ("??", 4),
    ("!?", 5),
    ("?!", 6),
    ("!", 1),
    ("?", 2),
    ("+/-", 16),
    ("-/+", 17),
    ("+/=", 14),
    ("=/+", 15),
    ("+-", 18),
    ("-+", 19),
    ("+=", 14),
    ("=+", 15),
    ("=", 10),
    ("±", 16),
    ("∓", 17),
    ("⩲", 14),
    ("⩱", 15),
    ("∞", 13),
    ("‼", 3),
    ("⁇", 4),
    ("⁉", 5),
    ("⁈", 6),
    ("□", 7),
];

/// Returns the glyph of a sign that stands alone.
pub(super) fn glyph(sign: &str) -> Option<u8> {
    SIGNS
        .iter()
        .find(|(text, _)| *text == sign)
        .map(|row| row.1)
}

/// Returns the glyph of a letter that stands alone: `N` for a novelty, `D` for a diagram.
pub(super) fn letter_glyph(word: &str) -> Option<u8> {
    match word {
        "N" => Some(146),
        "D" => Some(220),
        _ => None,
    }
}

/// Takes the signs off the end of a word, the last one first.
pub(super) fn strip(word: &str) -> (&str, Vec<u8>) {
    let mut word = word;
    let mut glyphs = Vec::new();
    // Most moves carry none.
    while let Some(last) = word.bytes().last()
        && !last.is_ascii_alphanumeric()
    {
        let mut rows = SIGNS.iter();
        match rows.find_map(|(sign, glyph)| Some((word.strip_suffix(sign)?, *glyph))) {
            Some((rest, glyph)) if !rest.is_empty() => {
                word = rest;
                glyphs.insert(0, glyph);
            }
            _ => break,
        }
    }
    (word, glyphs)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_is_known_alone_and_glued_to_a_move() {
        for (sign, number) in SIGNS {
            assert_eq!(glyph(sign), Some(number), "{sign}");
            assert_eq!(
                strip(&format!("Nf3{sign}")),
                ("Nf3", vec![number]),
                "{sign}"
            );
        }
    }

    #[test]
    fn signs_pile_up() {
        assert_eq!(strip("Qh5+!?±"), ("Qh5+", vec![5, 16]));
        assert_eq!(strip("e8=Q="), ("e8=Q", vec![10]));
        assert_eq!(strip("Nf3+"), ("Nf3+", vec![]));
        assert_eq!(strip("!"), ("!", vec![]));
        assert_eq!(strip(""), ("", vec![]));
    }
}
