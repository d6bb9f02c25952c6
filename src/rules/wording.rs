//! What a move's text says, in any way of writing, before anyone looks at the position.

use shakmaty::san::{San, SanPlus};
use shakmaty::{CastlingSide, File, Rank, Role, Square};

use super::language::LetterSet;

/// A move as far as its text names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wording {
    Castle(CastlingSide),
    /// The side to move passes.
    Null,
    Piece(Said),
}

/// A piece's move as far as its text names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Said {
    /// `None` where two squares stand without a letter: then the piece is whoever stands there.
    pub(crate) role: Option<Role>,
    pub(crate) file: Option<File>,
    pub(crate) rank: Option<Rank>,
    pub(crate) to: Square,
    pub(crate) capture: bool,
    pub(crate) promotion: Option<Role>,
}

impl Said {
    /// Returns the from-square where it is named in full.
    pub(crate) fn from(self) -> Option<Square> {
        Some(Square::from_coords(self.file?, self.rank?))
    }

    /// Tells whether the text leaves it open, or says, that the piece comes from a square.
    pub(crate) fn may_leave(self, from: Square) -> bool {
        self.file.is_none_or(|file| file == from.file())
            && self.rank.is_none_or(|rank| rank == from.rank())
    }

    /// Tells whether a move of a piece of this role from a square is one that the text can mean.
    #[inline]
    pub(super) fn fits(self, role: Role, from: Square) -> bool {
        // A pawn's capture is told from its step by the file, or by the x alone.
        let is_its_way = role != Role::Pawn
            || self.file.is_some()
            || self.capture == (from.file() != self.to.file());
        is_its_way && self.may_leave(from)
    }

    /// Returns the other reading of a small b at the head: the bishop instead of the file.
    pub(super) fn as_bishop(self) -> Option<Said> {
        let small_b = self.role == Some(Role::Pawn) && self.file == Some(File::B);
        small_b.then_some(Said {
            role: Some(Role::Bishop),
            file: None,
            ..self
        })
    }
}

/// Reads a move's text with the piece letters of `letters`, in any dialect.
pub(crate) fn wording(text: &str, letters: LetterSet) -> Option<Wording> {
    if letters.is_english() {
        // Nearly every move is standard notation; the dialects are asked for the others only.
        return standard(text).or_else(|| in_dialect(text));
    }
    let plain = standard(&standardize(text));
    match (plain, letters.to_english(text)) {
        // Castling has capitals that are no piece's.
        (Some(Wording::Castle(_) | Wording::Null), _) => plain,
        (_, Some(english)) => standard(&standardize(&english)),
        (_, None) => None,
    }
}

/// Reads a move's text that is no standard notation.
fn in_dialect(text: &str) -> Option<Wording> {
    standard(&standardize(text))
}

/// Reads a move in standard notation, perhaps with more or fewer squares and marks.
#[inline]
pub(crate) fn standard(text: &str) -> Option<Wording> {
    match SanPlus::from_ascii(text.as_bytes()).ok()?.san {
        San::Castle(wing) => Some(Wording::Castle(wing)),
        San::Null => Some(Wording::Null),
        San::Put { .. } => None,
        San::Normal {
            role,
            file,
            rank,
            capture,
            to,
            promotion,
        } => {
            let role = match (role, file, rank) {
                (Role::Pawn, None, Some(_)) => return None,
                (Role::Pawn, Some(_), Some(_)) => None,
                _ => Some(role),
            };
            // A small letter is left to the dialects.
            let is_capital = || {
                let bare = text.trim_end_matches(['+', '#']);
                bare.ends_with(['N', 'B', 'R', 'Q', 'K'])
            };
            (promotion.is_none() || is_capital()).then_some(Wording::Piece(Said {
                role,
                file,
                rank,
                to,
                capture,
                promotion,
            }))
        }
    }
}

/// Rewrites a text that has a habit of writing; `None` where it has not.
type Rewrite = fn(&str) -> Option<String>;

/// The ways in which people write a move, one habit a row, each rewritten where a text has it. They are applied
/// one after the other, until the text is standard algebraic notation, perhaps with more or fewer squares and
/// marks than the standard asks for (PGN standard, 8.2.3). What that means is up to the position.
const DIALECTS: [Rewrite; 13] = [
    figurines,
    typesetting,
    castling,
    check_marks,
    en_passant,
    full_stop,
    promotion,
    colons,
    hyphens,
    capital_x,
    capital_file,
    pawn_letter,
    small_letter,
];

/// Brings a move to standard spelling.
fn standardize(text: &str) -> String {
    DIALECTS.iter().fold(text.to_owned(), |text, rewrite| {
        rewrite(&text).unwrap_or(text)
    })
}

/// Figurines instead of letters: `♘f3`.
fn figurines(text: &str) -> Option<String> {
    let is_figurine = |c: char| ('\u{2654}'..='\u{265f}').contains(&c);
    text.contains(is_figurine).then(|| {
        text.chars()
            .filter_map(|char| match (char as u32).wrapping_sub(0x2654) {
                place @ 0..12 => "KQRBN".chars().nth(place as usize % 6),
                // The mark that asks for the plain, uncolored form of a sign.
                _ => (char != '\u{fe0e}').then_some(char),
            })
            .collect()
    })
}

/// Signs of typesetters, `e4×d5`, `Qh5†`, and Cyrillic letters that look like those of files.
fn typesetting(text: &str) -> Option<String> {
    (!text.is_ascii()).then(|| {
        let plain = |char| match char {
            '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
            '×' | 'х' | 'Х' => 'x',
            'а' => 'a',
            'с' => 'c',
            'е' => 'e',
            '†' => '+',
            '‡' => '#',
            other => other,
        };
        text.chars().map(plain).collect()
    })
}

/// Castling with zeros or small letters (FIDE Laws, C.13).
fn castling(text: &str) -> Option<String> {
    // Cyrillic and Greek letters look the same.
    let capital = text.replace(['0', 'o', 'О', 'о', 'Ο', 'ο'], "O");
    match capital.trim_end_matches(['+', '#', '.', ',']) {
        "O-O" | "OO" | "O - O" => Some("O-O".to_owned()),
        "O-O-O" | "OOO" | "O - O - O" => Some("O-O-O".to_owned()),
        _ => None,
    }
}

/// Check and mate marks in any number (FIDE Laws, C.13), and their English words.
fn check_marks(text: &str) -> Option<String> {
    let mut bare = text;
    for mark in ["mate", "ch.", "ch", "+", "#"] {
        bare = bare.trim_end_matches(mark);
    }
    (bare.len() < text.len()).then(|| bare.to_owned())
}

/// The end of a clause or a sentence.
fn full_stop(text: &str) -> Option<String> {
    let bare = text.trim_end_matches([',', '.']);
    (bare.len() < text.len()).then(|| bare.to_owned())
}

/// A capital letter for a file.
fn capital_file(text: &str) -> Option<String> {
    // B before a rank alone, or before an x, is the bishop.
    let is_file = |at: usize| match text.as_bytes()[at..] {
        [b'A'..=b'H', b'1'..=b'8'] => true,
        [b'B', ..] if at == 0 => false,
        [b'A'..=b'H', b'1'..=b'8', ..] => true,
        [b'A'..=b'H', b'x', ..] => at == 0,
        _ => false,
    };
    let small = |(at, letter): (usize, char)| {
        if is_file(at) {
            letter.to_ascii_lowercase()
        } else {
            letter
        }
    };
    if text.contains(|letter| matches!(letter, 'a'..='h')) {
        return None;
    }
    let changed: String = text.char_indices().map(small).collect();
    (changed != text).then_some(changed)
}

/// A mark for en passant (FIDE Laws, C.9).
fn en_passant(text: &str) -> Option<String> {
    let bare = ["ep", "e.p.", "e.p", "ep."]
        .iter()
        .find_map(|mark| text.strip_suffix(mark))?;
    Some(bare.trim_end_matches(['+', '#']).to_owned())
}

/// Promotion with brackets, a slash, or nothing between (FIDE Laws, C.11).
fn promotion(text: &str) -> Option<String> {
    let (square, piece) = match text.as_bytes() {
        [.., b'(', piece, b')'] => (&text[..text.len() - 3], piece),
        [.., b'/' | b'=', piece] => (&text[..text.len() - 2], piece),
        [.., piece] if text.is_ascii() => (&text[..text.len() - 1], piece),
        _ => return None,
    };
    let square = square.strip_suffix('=').unwrap_or(square);
    let is_last_rank = matches!(square.as_bytes(), [.., b'a'..=b'h', b'1' | b'8']);
    let piece = piece.to_ascii_uppercase();
    (is_last_rank && b"NBRQ".contains(&piece)).then(|| format!("{square}={}", char::from(piece)))
}

/// A colon for a capture.
fn colons(text: &str) -> Option<String> {
    let bare = text.trim_end_matches(':');
    text.contains(':').then(|| bare.replacen(':', "x", 1))
}

/// A hyphen between the squares (FIDE Laws, C.8).
fn hyphens(text: &str) -> Option<String> {
    let (from, to) = text.split_once('-')?;
    let between = from.ends_with(|c: char| c.is_ascii_digit()) && to.len() >= 2;
    between.then(|| format!("{from}{to}"))
}

/// A capital X for a capture.
fn capital_x(text: &str) -> Option<String> {
    text.contains('X').then(|| text.replacen('X', "x", 1))
}

/// A P for the pawn (PGN standard, 8.2.3.2).
fn pawn_letter(text: &str) -> Option<String> {
    text.strip_prefix('P').map(str::to_owned)
}

/// A small letter for a piece, b left out: it is a file.
fn small_letter(text: &str) -> Option<String> {
    text.starts_with(['k', 'q', 'r', 'n'])
        .then(|| format!("{}{}", text[..1].to_ascii_uppercase(), &text[1..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_dialect_is_brought_to_the_standard() {
        let examples: [(Rewrite, &[(&str, &str)]); DIALECTS.len()] = [
            (
                figurines,
                &[
                    ("♘f3", "Nf3"),
                    ("♞f6", "Nf6"),
                    ("♙e4", "e4"),
                    ("e8=♕", "e8=Q"),
                ],
            ),
            (
                typesetting,
                &[
                    ("e4×d5", "e4xd5"),
                    ("Ng1–f3", "Ng1-f3"),
                    ("Qh5†", "Qh5+"),
                    ("Qf7‡", "Qf7#"),
                    ("еХс5", "exc5"),
                ],
            ),
            (
                castling,
                &[
                    ("0-0", "O-O"),
                    ("0-0-0+", "O-O-O"),
                    ("o-o", "O-O"),
                    ("o-o-o", "O-O-O"),
                    ("О-О", "O-O"),
                    ("OOO", "O-O-O"),
                ],
            ),
            (
                check_marks,
                &[
                    ("Nf3++", "Nf3"),
                    ("Nf3#", "Nf3"),
                    ("O-O+", "O-O"),
                    ("exf6ep+", "exf6ep"),
                    ("Nf3ch", "Nf3"),
                    ("Qxf7mate", "Qxf7"),
                ],
            ),
            (
                en_passant,
                &[
                    ("exf6ep", "exf6"),
                    ("exf6e.p.", "exf6"),
                    ("exf6e.p", "exf6"),
                    ("exf6+ep", "exf6"),
                ],
            ),
            (full_stop, &[("e4,", "e4"), ("Nf3.", "Nf3")]),
            (
                promotion,
                &[
                    ("e8Q", "e8=Q"),
                    ("e8(Q)", "e8=Q"),
                    ("e8=(Q)", "e8=Q"),
                    ("e8/Q", "e8=Q"),
                    ("exd8N", "exd8=N"),
                    ("e7e8q", "e7e8=Q"),
                    ("e1=n", "e1=N"),
                ],
            ),
            (
                colons,
                &[("e4:d5", "e4xd5"), ("N:f3", "Nxf3"), ("Nf3:", "Nf3")],
            ),
            (hyphens, &[("e2-e4", "e2e4"), ("Ng1-f3", "Ng1f3")]),
            (capital_x, &[("eXd5", "exd5"), ("NXf3", "Nxf3")]),
            (
                capital_file,
                &[
                    ("E4", "e4"),
                    ("E2E4", "e2e4"),
                    ("NF3", "Nf3"),
                    ("B4", "b4"),
                    ("BB4", "Bb4"),
                ],
            ),
            (
                pawn_letter,
                &[("Pe4", "e4"), ("Pe2e4", "e2e4"), ("Pexd5", "exd5")],
            ),
            (
                small_letter,
                &[
                    ("nf3", "Nf3"),
                    ("kxe2", "Kxe2"),
                    ("qd1h5", "Qd1h5"),
                    ("rae1", "Rae1"),
                ],
            ),
        ];
        for (rewrite, texts) in examples {
            for (written, standard) in texts {
                assert_eq!(rewrite(written).as_deref(), Some(*standard), "{written}");
            }
        }
    }

    #[test]
    fn rows_leave_standard_notation_alone() {
        for text in [
            "e4", "exd5", "Nf3", "Qh4e4", "R1a3", "O-O", "O-O-O", "fxg1=N", "bxc4", "b4", "B3xd5",
        ] {
            assert_eq!(standardize(text), text);
        }
    }

    #[test]
    fn habits_mix() {
        for (written, standard) in [
            ("♙e4:d5", "e4xd5"),
            ("e4:d5+", "e4xd5"),
            ("g7:f8(N)++", "g7xf8=N"),
            ("nG", "NG"),
            ("0–0+", "O-O"),
            ("♘g1-f3", "Ng1f3"),
            ("e5:f6e.p.+", "e5xf6"),
        ] {
            assert_eq!(standardize(written), standard, "{written}");
        }
    }
}
