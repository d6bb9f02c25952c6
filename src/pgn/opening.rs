//! Openings by their ECO codes.

/// The main families of openings by their codes, written down from memory: the codes are those that nearly every
/// collection carries, and what each stands for is common knowledge, no source.
const FAMILIES: [(&str, &str, &str); 44] = [
    ("A02", "A03", "Bird Opening"),
    ("A04", "A09", "Reti Opening"),
    ("A10", "A39", "English Opening"),
    ("A57", "A59", "Benko Gambit, Volga Gambit"),
    ("A56", "A56", "Benoni Defense"),
    ("A60", "A79", "Benoni Defense, Modern Benoni"),
    ("A80", "A99", "Dutch Defense"),
    ("B01", "B01", "Scandinavian Defense, Center Counter"),
    ("B02", "B05", "Alekhine Defense"),
    ("B06", "B06", "Modern Defense"),
    ("B07", "B09", "Pirc Defense"),
    ("B10", "B19", "Caro-Kann Defense"),
    ("B20", "B99", "Sicilian Defense"),
    ("B33", "B33", "Sicilian Defense, Sveshnikov"),
    ("B34", "B39", "Sicilian Defense, Accelerated Dragon"),
    ("B70", "B79", "Sicilian Defense, Dragon"),
    ("B90", "B99", "Sicilian Defense, Najdorf"),
    ("C00", "C19", "French Defense"),
    ("C15", "C19", "French Defense, Winawer"),
    ("C23", "C24", "Bishop's Opening"),
    ("C25", "C29", "Vienna Game"),
    ("C30", "C39", "King's Gambit"),
    ("C41", "C41", "Philidor Defense"),
    ("C42", "C43", "Petrov Defense, Petroff, Russian Game"),
    ("C45", "C45", "Scotch Game"),
    ("C50", "C54", "Italian Game, Giuoco Piano"),
    ("C51", "C52", "Evans Gambit"),
    ("C55", "C59", "Two Knights Defense"),
    ("C60", "C99", "Ruy Lopez, Spanish Game"),
    ("C65", "C67", "Ruy Lopez, Berlin Defense"),
    ("C89", "C89", "Ruy Lopez, Marshall Attack"),
    ("D00", "D05", "Queen's Pawn Game"),
    ("D02", "D02", "London System"),
    ("D06", "D69", "Queen's Gambit"),
    ("D10", "D19", "Slav Defense"),
    ("D20", "D29", "Queen's Gambit Accepted"),
    ("D30", "D69", "Queen's Gambit Declined"),
    ("D32", "D34", "Tarrasch Defense"),
    ("D43", "D49", "Semi-Slav Defense"),
    ("D80", "D99", "Gruenfeld Defense, Grunfeld"),
    ("E01", "E09", "Catalan Opening"),
    ("E12", "E19", "Queen's Indian Defense"),
    ("E20", "E59", "Nimzo-Indian Defense"),
    ("E60", "E99", "King's Indian Defense"),
];

/// Tells whether a code belongs to a family whose name holds this text, both joined.
pub(super) fn is_of_family(code: &str, wanted: &str) -> bool {
    let holds = |name: &str| super::name::joined(name).contains(wanted);
    let code = code.to_ascii_uppercase();
    let mut families = FAMILIES.iter();
    families.any(|(first, last, name)| {
        (*first..=*last).contains(&code.get(..3).unwrap_or_default()) && holds(name)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_family_is_a_range_of_codes() {
        let is_code = |code: &str| {
            let bytes = code.as_bytes();
            bytes.len() == 3
                && matches!(bytes[0], b'A'..=b'E')
                && bytes[1..].iter().all(u8::is_ascii_digit)
        };
        for (first, last, name) in FAMILIES {
            assert!(is_code(first) && is_code(last) && first <= last, "{name}");
            assert!(first[..1] == last[..1] && name.is_ascii(), "{name}");
        }
        assert!(is_of_family("B90", "najdorf") && is_of_family("b33/04", "sicilian"));
        assert!(!is_of_family("", "sicilian") && !is_of_family("C00", "sicilian"));
    }
}
