//! From the tags to the position that a game starts from.

use shakmaty::{CastlingMode, EnPassantMode, Position, Setup};

use super::fault::Reason;
use super::text::{cleaned, shown};
use crate::game::{ARRAYS, Start, StartError, Tags, array};

/// No FEN is longer, in characters; what is longer is cut short before it is shown.
const LONGEST_FEN: usize = 120;

/// Finds the start of the game that `tags` describe. `remark` is told the tag and what is odd in
/// it; the error names the tag that makes the game unreadable.
pub(super) fn start(
    tags: &Tags,
    mut remark: impl FnMut(&'static str, Reason),
) -> Result<Start, (&'static str, Reason)> {
    let mode = match tags.get("Variant") {
        None => CastlingMode::Standard,
        Some(name) => castling_mode(name).ok_or_else(|| {
            let name = shown(name);
            ("Variant", Reason::Variant { name })
        })?,
    };
    let fen = tags.known("FEN");
    let set_up = tags.get("SetUp").map(str::trim);
    match (fen, set_up) {
        (None, Some("1")) => Err(("SetUp", Reason::NoFen)),
        (None, _) if mode.is_chess960() => {
            remark("Variant", Reason::Chess960WithoutFen);
            let array = Setup::initial().position(mode);
            Ok(Start::new(array.expect("the usual array is a position")))
        }
        (None, _) => Ok(Start::standard()),
        (Some(fen), set_up) => {
            if set_up == Some("0") {
                remark("SetUp", Reason::SetUpDenied);
            }
            let fen = cleaned(fen, LONGEST_FEN);
            let is_said = tags.known("Variant").is_some();
            let start = from_fen(&fen, mode, is_said, &mut remark);
            let start = start.map_err(|error| ("FEN", error.into()))?;
            let passed = fen.split_whitespace().nth(3).unwrap_or_default();
            if let Ok(square) = passed.parse()
                && start.position().ep_square(EnPassantMode::Always).is_none()
            {
                remark("FEN", Reason::EnPassantSquare(square));
            }
            Ok(start)
        }
    }
}

/// Reads a FEN. Without a `Variant` tag it is one of Chess960 only where it is one of its arrays and
/// its rights fit no other reading. A right whose king or rook is not there is left out.
fn from_fen(
    fen: &str,
    mode: CastlingMode,
    is_said: bool,
    mut remark: impl FnMut(&'static str, Reason),
) -> Result<Start, StartError> {
    let said = Start::from_fen(fen, mode);
    if said.is_ok() {
        let fields = fen.split_whitespace().count();
        if fields < 6 {
            remark("FEN", Reason::FenFields(fields));
        }
        return said;
    }
    if !is_said && let Ok(start) = Start::from_fen(fen, CastlingMode::Chess960) {
        let board = start.position().board();
        if (0..ARRAYS).any(|number| array(number).position().board() == board) {
            remark("FEN", Reason::Chess960Unsaid);
            return Ok(start);
        }
    }
    let fields: Vec<&str> = fen.split_whitespace().collect();
    let Some(rights) = fields.get(2) else {
        return said;
    };
    let with = |rights: &str| {
        let fields = [&fields[..2], &[rights], &fields[3..]].concat();
        Start::from_fen(&fields.join(" "), mode)
    };
    let (kept, dropped): (Vec<char>, Vec<char>) =
        (rights.chars()).partition(|letter| with(&letter.to_string()).is_ok());
    let kept: String = kept.into_iter().collect();
    let start = with(if kept.is_empty() { "-" } else { &kept });
    if start.is_err() {
        return said;
    }
    for letter in dropped {
        remark("FEN", Reason::CastlingRight { letter });
    }
    start
}

/// Returns the castling rules of a variant, by the names that people give it.
pub(super) fn castling_mode(name: &str) -> Option<CastlingMode> {
    let plain: String = name
        .chars()
        .filter(|char| char.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect();
    match plain.as_str() {
        "" | "standard" | "standardchess" | "chess" | "normal" | "classical" | "classic"
        | "classicalchess" | "orthodox" | "orthodoxchess" | "orthochess" | "fromposition"
        | "regular" => Some(CastlingMode::Standard),
        "chess960" | "960" | "c960" | "fischerandom" | "fischerandomchess" | "fischerrandom"
        | "fischerrandomchess" | "frc" | "freestyle" | "freestylechess" => {
            Some(CastlingMode::Chess960)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(pairs: &[(&str, &str)]) -> (Result<Start, Reason>, Vec<Reason>) {
        let mut remarks = Vec::new();
        let start = start(&pairs.iter().copied().collect(), |_, remark| {
            remarks.push(remark);
        });
        (start.map_err(|(_, reason)| reason), remarks)
    }

    #[test]
    fn the_spellings_of_both_variants_are_known() {
        for name in ["Standard", "chess", "From Position", "?", ""] {
            assert_eq!(castling_mode(name), Some(CastlingMode::Standard), "{name}");
        }
        for name in [
            "Chess960",
            "chess 960",
            "Fischerandom",
            "Fischer Random",
            "fischer-random",
        ] {
            assert_eq!(castling_mode(name), Some(CastlingMode::Chess960), "{name}");
        }
    }

    #[test]
    fn another_variant_is_refused_by_its_name() {
        let (start, _) = read(&[("Variant", "Losing Chess")]);
        let name = "Losing Chess".to_owned();
        assert_eq!(start, Err(Reason::Variant { name }));
    }

    #[test]
    fn castling_rights_of_both_spellings_are_read() {
        const X_FEN: &str = "bqnb1rkr/pp3ppp/3ppn2/2p5/5P2/P2P4/NPP1P1PP/BQ1BNRKR w KQkq - 2 9";
        const SHREDDER: &str = "bqnb1rkr/pp3ppp/3ppn2/2p5/5P2/P2P4/NPP1P1PP/BQ1BNRKR w HFhf - 2 9";
        let (x, remarks) = read(&[("Variant", "Chess960"), ("SetUp", "1"), ("FEN", X_FEN)]);
        assert!(remarks.is_empty());
        let (shredder, _) = read(&[("Variant", "Chess960"), ("FEN", SHREDDER)]);
        assert_eq!(x, shredder);
    }

    #[test]
    fn without_a_variant_only_an_array_is_one_of_chess960_and_a_right_without_its_rook_is_dropped()
    {
        const ARRAY: &str = "bqnb1rkr/pppppppp/5n2/8/8/5N2/PPPPPPPP/BQNB1RKR w HFhf - 0 1";
        const FIRST: &str = "bbqnnrkr/pppppppp/8/8/8/8/PPPPPPPP/BBQNNRKR w HFhf - 0 1";
        let rights = |remarks: Vec<Reason>| -> String {
            let letter = |remark| match remark {
                Reason::CastlingRight { letter } => letter,
                other => panic!("{other}"),
            };
            remarks.into_iter().map(letter).collect()
        };
        assert_eq!(read(&[("FEN", FIRST)]).1, [Reason::Chess960Unsaid]);
        let (start, remarks) = read(&[("FEN", ARRAY)]);
        assert!(start.unwrap().mode().is_standard());
        assert_eq!(rights(remarks), "HFhf");
        let odds = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/1NBQKBNR w KQkq - 0 1";
        let (start, remarks) = read(&[("FEN", odds)]);
        assert_eq!(rights(remarks), "Q");
        assert_eq!(start.unwrap().fen(), odds.replace("KQkq", "Kkq"));
        let (start, remarks) = read(&[
            ("Variant", "Chess960"),
            ("FEN", "4k3/8/8/8/8/8/8/R3K3 w KQ - 0 1"),
        ]);
        assert_eq!(rights(remarks), "K");
        assert!(start.unwrap().mode().is_chess960());
    }

    #[test]
    fn an_en_passant_square_that_no_pawn_has_passed_is_said() {
        let pawns = "4k3/8/8/3pP3/8/8/8/4K3 w -";
        for (fen, told) in [
            (format!("{pawns} d6 0 1"), None),
            (format!("{pawns} d3 0 1"), Some("d3")),
            (format!("{pawns} e6 0 1"), Some("e6")),
            ("4k3/3p4/8/3pP3/8/8/8/4K3 w - d6 0 1".to_owned(), Some("d6")),
            // No pawn can take there, and the standard asks for the square all the same.
            (
                "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1".to_owned(),
                None,
            ),
        ] {
            let (start, remarks) = read(&[("FEN", &fen)]);
            assert!(start.is_ok());
            let told = told.map(|square| Reason::EnPassantSquare(square.parse().unwrap()));
            assert_eq!(remarks, Vec::from_iter(told), "{fen}");
        }
    }

    #[test]
    fn a_position_that_is_missing_or_nonsense_is_said() {
        assert_eq!(read(&[("SetUp", "1")]).0, Err(Reason::NoFen));
        let (start, _) = read(&[("FEN", "8/8")]);
        assert!(matches!(start, Err(Reason::Start(_))));
        let (_, remarks) = read(&[("SetUp", "0"), ("FEN", "4k3/8/8/8/8/8/4P3/4K3 w - - 5 39")]);
        assert_eq!(remarks, [Reason::SetUpDenied]);
        let (start, remarks) = read(&[("FEN", "4k3/8/8/8/8/8/4P3/4K3 b")]);
        assert!(start.is_ok() && remarks == [Reason::FenFields(2)]);
        let (_, remarks) = read(&[("Variant", "Chess960")]);
        assert_eq!(remarks, [Reason::Chess960WithoutFen]);
    }
}
