//! The ways in which people write a move, brought to one.
//!
//! Each row of [`DIALECTS`] knows one habit and its example; the rows are applied one after the
//! other, until the text is standard algebraic notation, perhaps with more or fewer squares and
//! marks than the standard asks for (PGN standard, 8.2.3). What that means is up to the position.

/// One habit of writing.
pub(super) struct Dialect {
    /// What the habit is.
    #[cfg_attr(not(test), expect(dead_code, reason = "the tests name the row by it"))]
    name: &'static str,
    /// Texts written so, and what the row makes of them.
    #[cfg_attr(not(test), expect(dead_code, reason = "the tests run on these"))]
    examples: &'static [(&'static str, &'static str)],
    /// Rewrites a text that has the habit.
    rewrite: fn(&str) -> Option<String>,
}

/// Brings a move to standard spelling.
pub(super) fn standardize(text: &str) -> String {
    let mut text = text.to_owned();
    for dialect in DIALECTS {
        if let Some(better) = (dialect.rewrite)(&text) {
            text = better;
        }
    }
    text
}

const DIALECTS: &[Dialect] = &[
    Dialect {
        name: "figurines instead of letters",
        examples: &[
            ("♘f3", "Nf3"),
            ("♞f6", "Nf6"),
            ("♙e4", "e4"),
            ("e8=♕", "e8=Q"),
        ],
        rewrite: figurines,
    },
    Dialect {
        name: "signs of typesetters",
        examples: &[
            ("e4×d5", "e4xd5"),
            ("Ng1–f3", "Ng1-f3"),
            ("Qh5†", "Qh5+"),
            ("Qf7‡", "Qf7#"),
        ],
        rewrite: typesetting,
    },
    Dialect {
        name: "castling with zeros or small letters (FIDE Laws, C.13)",
        examples: &[
            ("0-0", "O-O"),
            ("0-0-0+", "O-O-O+"),
            ("o-o", "O-O"),
            ("o-o-o", "O-O-O"),
        ],
        rewrite: castling,
    },
    Dialect {
        name: "check and mate marks in any number (FIDE Laws, C.13)",
        examples: &[
            ("Nf3++", "Nf3"),
            ("Nf3#", "Nf3"),
            ("O-O+", "O-O"),
            ("exf6ep+", "exf6ep"),
        ],
        rewrite: check_marks,
    },
    Dialect {
        name: "a mark for en passant (FIDE Laws, C.9)",
        examples: &[
            ("exf6ep", "exf6"),
            ("exf6e.p.", "exf6"),
            ("exf6e.p", "exf6"),
            ("exf6+ep", "exf6"),
        ],
        rewrite: en_passant,
    },
    Dialect {
        name: "promotion with a bracket, a legal_move, or nothing between (FIDE Laws, C.11)",
        examples: &[
            ("e8Q", "e8=Q"),
            ("e8(Q)", "e8=Q"),
            ("e8=(Q)", "e8=Q"),
            ("e8/Q", "e8=Q"),
            ("exd8N", "exd8=N"),
            ("e7e8q", "e7e8=Q"),
            ("e1=n", "e1=N"),
        ],
        rewrite: promotion,
    },
    Dialect {
        name: "a colon for a capture",
        examples: &[("e4:d5", "e4xd5"), ("N:f3", "Nxf3"), ("Nf3:", "Nf3")],
        rewrite: colons,
    },
    Dialect {
        name: "a hyphen between the squares (FIDE Laws, C.8)",
        examples: &[("e2-e4", "e2e4"), ("Ng1-f3", "Ng1f3")],
        rewrite: hyphens,
    },
    Dialect {
        name: "a capital X for a capture",
        examples: &[("eXd5", "exd5"), ("NXf3", "Nxf3")],
        rewrite: capital_x,
    },
    Dialect {
        name: "a P for the pawn (PGN standard, 8.2.3.2)",
        examples: &[("Pe4", "e4"), ("Pe2e4", "e2e4"), ("Pexd5", "exd5")],
        rewrite: pawn_letter,
    },
    Dialect {
        name: "a small letter for a piece, b left out: it is a file",
        examples: &[
            ("nf3", "Nf3"),
            ("kxe2", "Kxe2"),
            ("qd1h5", "Qd1h5"),
            ("rae1", "Rae1"),
        ],
        rewrite: small_letter,
    },
];

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

fn typesetting(text: &str) -> Option<String> {
    (!text.is_ascii()).then(|| {
        let plain = |char| match char {
            '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
            '×' => 'x',
            '†' => '+',
            '‡' => '#',
            other => other,
        };
        text.chars().map(plain).collect()
    })
}

fn castling(text: &str) -> Option<String> {
    let (king, marks) = text.split_at(text.find(['+', '#']).unwrap_or(text.len()));
    let same = |long: &str| {
        king.len() == long.len()
            && king
                .bytes()
                .zip(long.bytes())
                .all(|(byte, model)| match model {
                    b'-' => byte == b'-',
                    _ => matches!(byte, b'0' | b'O' | b'o'),
                })
    };
    let long = ["O-O", "O-O-O"].into_iter().find(|long| same(long))?;
    Some(format!("{long}{marks}"))
}

fn check_marks(text: &str) -> Option<String> {
    let bare = text.trim_end_matches(['+', '#']);
    (bare.len() < text.len()).then(|| bare.to_owned())
}

fn en_passant(text: &str) -> Option<String> {
    let bare = ["ep", "e.p.", "e.p", "ep."]
        .iter()
        .find_map(|mark| text.strip_suffix(mark))?;
    Some(bare.trim_end_matches(['+', '#']).to_owned())
}

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

fn colons(text: &str) -> Option<String> {
    let bare = text.trim_end_matches(':');
    text.contains(':').then(|| bare.replacen(':', "x", 1))
}

fn hyphens(text: &str) -> Option<String> {
    let (from, to) = text.split_once('-')?;
    let between = from.ends_with(|c: char| c.is_ascii_digit()) && to.len() >= 2;
    between.then(|| format!("{from}{to}"))
}

fn capital_x(text: &str) -> Option<String> {
    text.contains('X').then(|| text.replacen('X', "x", 1))
}

fn pawn_letter(text: &str) -> Option<String> {
    text.strip_prefix('P').map(str::to_owned)
}

fn small_letter(text: &str) -> Option<String> {
    text.starts_with(['k', 'q', 'r', 'n'])
        .then(|| format!("{}{}", text[..1].to_ascii_uppercase(), &text[1..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_does_what_its_examples_say() {
        for dialect in DIALECTS {
            assert!(!dialect.examples.is_empty(), "{}", dialect.name);
            for (written, standard) in dialect.examples {
                let read = (dialect.rewrite)(written);
                assert_eq!(
                    read.as_deref(),
                    Some(*standard),
                    "{}: {written}",
                    dialect.name
                );
            }
        }
    }

    #[test]
    fn rows_leave_standard_notation_alone() {
        for text in [
            "e4", "exd5", "Nf3", "Qh4e4", "R1a3", "O-O", "O-O-O", "fxg1=N", "bxc4", "b4",
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
