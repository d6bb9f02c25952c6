//! Sentences for the ear: what a session says, fit for a voice that reads it out.
//!
//! Most sentences serve the eye and the ear alike and are one sentence. Where something is drawn, set in
//! a table or written as chess is written, the ear gets it in words.

use shakmaty::Role;

use super::clean::clean_line;
use super::naming::role;

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
#[must_use]
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
    if let Some(number) = move_number(bare, behind) {
        return number;
    }
    match said(bare) {
        Some(said) => format!("{before}{said}{behind}"),
        None => written.to_owned(),
    }
}

/// A move's number as PGN writes it: "14..." and "14." stand for a side too, but the latter may also end
/// a sentence.
fn move_number(bare: &str, behind: &str) -> Option<String> {
    (is_number(bare) && behind.starts_with("...")).then(|| format!("{bare}, Black,"))
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
    let (move_text, check) = match written.as_bytes() {
        [.., b'+'] => (&written[..written.len() - 1], ", check"),
        [.., b'#'] => (&written[..written.len() - 1], ", checkmate"),
        _ => (written, ""),
    };
    match move_text {
        "O-O" | "0-0" => return Some(format!("castles short{check}")),
        "O-O-O" | "0-0-0" => return Some(format!("castles long{check}")),
        _ => {}
    }
    let (body, promotion) = promotion(move_text);
    let piece = body.chars().next().filter(char::is_ascii_uppercase);
    let piece = piece.map(|letter| Role::from_char(letter.to_ascii_lowercase()));
    let (piece, body) = match piece {
        Some(None) => return None,
        Some(Some(kind)) => (Some(role(kind)), &body[1..]),
        None => (None, body),
    };
    let at = body.len().checked_sub(2)?;
    let to = body.get(at..).filter(|to| is_square(to))?;
    let from = &body[..at];
    let (from, takes) = match from.strip_suffix(['x', ':']) {
        Some(from) => (from, true),
        None => (from.strip_suffix('-').unwrap_or(from), false),
    };
    if piece.is_none() && from.is_empty() && !takes && promotion.is_none() && check.is_empty() {
        return None;
    }
    if !(from.is_empty() || is_square(from) || is_file_or_rank(from)) {
        return None;
    }
    let from = way_from(from, piece.is_some());
    let way = match (takes, from.is_empty()) {
        (true, _) => "takes",
        (false, false) => "to",
        (false, true) => "",
    };
    let becomes = promotion.map_or_else(String::new, |kind| format!(", becomes a {}", role(kind)));
    let words = [piece.unwrap_or(""), &from, way, to];
    let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
    Some(format!("{}{becomes}{check}", words.join(" ")))
}

/// Says where a piece comes from. An `a` that stands alone would be read as an article.
fn way_from(from: &str, is_piece: bool) -> String {
    match from.as_bytes() {
        [b'a'..=b'h'] if is_piece => format!("from the {from}-file"),
        [b'a'..=b'h'] => format!("{from}-pawn"),
        [b'1'..=b'8'] => format!("from rank {from}"),
        _ => from.to_owned(),
    }
}

fn promotion(written: &str) -> (&str, Option<Role>) {
    let role = |letter: u8| {
        let can_become = b"NBRQ".contains(&letter);
        Role::from_char(char::from(letter.to_ascii_lowercase())).filter(|_| can_become)
    };
    match written.as_bytes() {
        [.., b'1' | b'8', b'=', letter] => (&written[..written.len() - 2], role(*letter)),
        [.., b'1' | b'8', letter @ b'A'..=b'Z'] => (&written[..written.len() - 1], role(*letter)),
        _ => (written, None),
    }
}

fn is_square(text: &str) -> bool {
    matches!(text.as_bytes(), [b'a'..=b'h', b'1'..=b'8'])
}

fn is_file_or_rank(text: &str) -> bool {
    matches!(text.as_bytes(), [b'a'..=b'h' | b'1'..=b'8'])
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
