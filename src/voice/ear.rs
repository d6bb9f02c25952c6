//! Sentences for the ear: what a session says, fit for a voice that reads it out.
//!
//! Most sentences serve the eye and the ear alike and are one sentence. Where something is drawn, set in
//! a table or written as chess is written, the ear gets it in words.

use shakmaty::san::{San, SanPlus, Suffix};
use shakmaty::{Role, Square};

use super::clean::clean_line;
use super::naming::{role, wing};

/// Makes one sentence fit for the ear: control characters are gone, and what is written as chess or as
/// options of a command is said in words. Squares stay as they are, `a6` and never `a 6`, whose a would
/// be read as an article.
///
/// ```
/// use sansvoir::voice::for_the_ear;
///
/// assert_eq!(for_the_ear("For example: Nf3 exd5."), "For example: knight f3 e-pawn takes d5.");
/// assert_eq!(for_the_ear("The option --resume goes on."), "The option resume goes on.");
/// ```
pub fn for_the_ear(sentence: &str) -> String {
    let sentence = clean_line(sentence);
    // A slash parts White's pieces from Black's: there a square alone is a pawn's.
    let is_placement = sentence.split(' ').any(|word| word == "/");
    sentence
        .split(' ')
        .map(|written| match word(written) {
            said if is_placement && is_square(bare(written)) => format!("pawn {said}"),
            said => said,
        })
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

/// The marks of a sentence before and behind a word.
const BEFORE: [char; 3] = ['"', '(', '\''];
const BEHIND: [char; 8] = ['.', ',', ':', ';', '?', ')', '"', '!'];

fn bare(written: &str) -> &str {
    written.trim_start_matches(BEFORE).trim_end_matches(BEHIND)
}

/// Says one word; marks of a sentence around it stay.
fn word(written: &str) -> String {
    let core = written.trim_start_matches(BEFORE);
    let before = &written[..written.len() - core.len()];
    let bare = bare(written);
    let behind = &core[bare.len()..];
    // A move's number as PGN writes it: "14..." and "14." stand for a side too, but the latter may also
    // end a sentence.
    if is_number(bare) && behind.starts_with("...") {
        return format!("{bare}, Black,");
    }
    match said(bare) {
        Some(said) => format!("{before}{said}{behind}"),
        None => written.to_owned(),
    }
}

fn said(bare: &str) -> Option<String> {
    match bare {
        "" => return None,
        "…" => return Some("and more".to_owned()),
        "/" => return Some("slash".to_owned()),
        "+" => return Some("plus".to_owned()),
        "%" => return Some("percent".to_owned()),
        "#" => return Some("number".to_owned()),
        "-" | "–" | "—" => return Some("dash".to_owned()),
        "&" => return Some("and".to_owned()),
        _ => {}
    }
    if let Some(option) = bare.strip_prefix("--") {
        return Some(option.replace('-', " "));
    }
    for (sign, name) in [('-', "minus"), ('+', "plus"), ('#', "number")] {
        if let Some(number) = bare.strip_prefix(sign).filter(|rest| is_number(rest)) {
            return Some(format!("{name} {number}"));
        }
    }
    if bare.matches('/').count() == 7 {
        return Some("a FEN".to_owned());
    }
    if bare.len() > 1 && bare.chars().all(|letter| "NBRQP".contains(letter)) {
        let letters = bare.chars().map(|letter| letter.to_ascii_lowercase());
        let pieces: Vec<&str> = letters.filter_map(Role::from_char).map(role).collect();
        return Some(pieces.join(" "));
    }
    move_in_words(bare)
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// Says a move in standard or long algebraic notation, or a piece with its square; `None` for all else,
/// a bare square too.
fn move_in_words(written: &str) -> Option<String> {
    if is_square(written) {
        return None;
    }
    let SanPlus { san, suffix } = parsed(written)?;
    let said = match san {
        San::Castle(on) => format!("castles {}", wing(on)),
        San::Normal {
            role: kind,
            file,
            rank,
            capture,
            to,
            promotion,
        } => {
            let is_piece = kind != Role::Pawn || written.starts_with('P');
            let piece = if is_piece { role(kind) } else { "" };
            // An `a` that stands alone would be read as an article.
            let from = match (file, rank) {
                (Some(file), Some(rank)) => Square::from_coords(file, rank).to_string(),
                (Some(file), None) if is_piece => format!("from the {}-file", file.char()),
                (Some(file), None) => format!("{}-pawn", file.char()),
                (None, Some(rank)) => format!("from rank {}", rank.char()),
                (None, None) => String::new(),
            };
            let way = match (capture, from.is_empty()) {
                (true, _) => "takes",
                (false, false) => "to",
                (false, true) => "",
            };
            let words = [piece, &from, way, &to.to_string()];
            let words = words.into_iter().filter(|word| !word.is_empty());
            let becomes = promotion.map(|kind| format!(", becomes a {}", role(kind)));
            words.collect::<Vec<_>>().join(" ") + &becomes.unwrap_or_default()
        }
        San::Put { .. } | San::Null => return None,
    };
    Some(match suffix {
        Some(Suffix::Check) => said + ", check",
        Some(Suffix::Checkmate) => said + ", checkmate",
        None => said,
    })
}

/// Reads a move, castling with noughts and long notation too, and a promotion without its sign.
fn parsed(written: &str) -> Option<SanPlus> {
    let castling = written.replace('0', "O");
    let mut plain = written.replace(['-', '='], "").replace(':', "x");
    if let Some(at) = plain.rfind(['N', 'B', 'R', 'Q']).filter(|at| *at > 1) {
        plain.insert(at, '=');
    }
    let mut read = [castling, plain].into_iter().map(|text| text.parse());
    read.find_map(Result::ok)
}

fn is_square(text: &str) -> bool {
    matches!(text.as_bytes(), [b'a'..=b'h', b'1'..=b'8'])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_as_chess_is_said_in_words() {
        let table = [
            (
                "For example: Kg1 Qd1 a2 b2 / Ke8 a7.",
                "For example: king g1 queen d1 pawn a2 pawn b2 slash king e8 pawn a7.",
            ),
            (
                "\"Nbd2\" is no move.",
                "\"knight from the b-file to d2\" is no move.",
            ),
            (
                "add a letter, as in e8Q.",
                "add a letter, as in e8, becomes a queen.",
            ),
            ("exd8=N+", "e-pawn takes d8, becomes a knight, check"),
            ("Bg4xf3+", "bishop g4 takes f3, check"),
            ("O-O-O#", "castles long, checkmate"),
            ("14... Nf6", "14, Black, knight f6"),
            (
                "Event: Rook & Pawn Night #3.",
                "Event: Rook and Pawn Night number 3.",
            ),
            ("For example: -2.", "For example: minus 2."),
            ("0 of 3 (0 %).", "0 of 3 (0 percent)."),
            ("For example: NPP.", "For example: knight pawn pawn."),
            (
                "Black is 3 points ahead, so the answer is -3.",
                "Black is 3 points ahead, so the answer is minus 3.",
            ),
            ("The piece stands on a6.", "The piece stands on a6."),
            (
                "Which squares does the piece on b2 attack?",
                "Which squares does the piece on b2 attack?",
            ),
            ("White: Berg,\u{1b}[31m Anna.", "White: Berg,[31m Anna."),
            (
                "\"a very long …\" is no square.",
                "\"a very long and more\" is no square.",
            ),
            (
                "Laeufer takes on Felix drei, check.",
                "Laeufer takes on Felix drei, check.",
            ),
        ];
        for (written, said) in table {
            assert_eq!(for_the_ear(written), said);
            assert_eq!(for_the_ear(said), said, "what is said stays as it is");
        }
    }
}
