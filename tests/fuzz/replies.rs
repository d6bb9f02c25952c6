//! What a learner types, read in every form and over several positions.

use sansvoir::exercise::{Input, Output};
use sansvoir::question::{Kind, MoveSaid, Reply};
use sansvoir::voice::{Announce, Occasion, Voice, clean};
use shakmaty::fen::Fen;
use shakmaty::{CastlingMode, Chess, Color};

/// What means something in a reply, in our own selection.
pub(crate) const WORDS: &[&str] = &[
    "e4",
    "a1",
    "H8",
    "none",
    "-",
    ",",
    " ",
    "/",
    "y",
    "no",
    "legal",
    "illegal",
    "light",
    "black",
    "knight",
    "white knight",
    "wN",
    "n",
    "N",
    "empty",
    "Nf3",
    "O-O",
    "0-0-0",
    "exd6",
    "e8=Q",
    "e7e8q",
    "+",
    "#",
    "x",
    "=",
    "-3",
    "+9",
    "999999999999",
    "short",
    "long",
    "both",
    "file",
    "rank",
    "diagonal",
    "never",
    "gone",
    "K",
    "Kg1",
    "8/8/8/8/8/8/8/8",
    "w",
    "again",
    "look",
    "pass",
    "stop",
    "\u{1b}[2J",
    "\u{7}",
    "\u{202e}",
    "é",
    "♘",
    "\u{0}",
];

/// Made up for these tests: the start, en passant and castling at once, a promotion with check, mate given.
const POSITIONS: [&str; 4] = [
    "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
    "r3k2r/8/8/3pP3/8/8/8/R3K2R w KQkq d6 0 1",
    "3r2k1/4P3/8/8/8/8/8/4K3 w - - 0 1",
    "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1",
];

pub(crate) fn seeds() -> Vec<Vec<u8>> {
    [
        "d5 e6 f7 d3",
        "Kg1 Qd1 a2 b2 / Ke8 Ra8",
        "white knight",
        "O-O, Nf3 e2e4",
        "exd6",
        "e8=Q+",
        "both",
        "2 knights and a pawn",
        "e2 e4 e6",
        "never",
        "4 3",
        "+3",
        "4k3/8/8/8/8/8/8/R3K3",
    ]
    .map(|text| text.as_bytes().to_vec())
    .to_vec()
}

/// A reply is read or refused; no move is named twice in it; space around it changes nothing; and what is
/// said of one that is refused holds nothing that steers a terminal.
pub(crate) fn target(text: &[u8]) {
    let text = String::from_utf8_lossy(text);
    let voice = Voice {
        announce: Announce::Words,
        view: Color::White,
        plain: true,
        list: sansvoir::voice::List::Piece,
        empty_board: false,
        occasion: Occasion::Itself,
    };
    let _ = Input::read(&text, 0);
    for fen in POSITIONS {
        let fen: Fen = fen.parse().expect("a FEN");
        let position: Chess = fen
            .into_position(CastlingMode::Standard)
            .expect("a position");
        for form in Kind::ALL.map(Kind::form) {
            let read = form.read_in(&text, &position);
            let spaced = form.read_in(&format!(" {text} "), &position);
            assert_eq!(
                read.as_ref().ok(),
                spaced.as_ref().ok(),
                "{form:?} {text:?}"
            );
            match read {
                Ok(reply) => named_once(&reply),
                Err(unread) => {
                    for line in voice.say(&Output::Unread {
                        unread,
                        form,
                        kept: false,
                    }) {
                        assert_eq!(clean(&line), line, "{form:?} {text:?}");
                    }
                }
            }
        }
    }
}

/// Whatever a list of moves says twice is named once.
fn named_once(reply: &Reply) {
    if let Reply::Moves(moves) = reply {
        let named: Vec<_> = moves.iter().map_while(MoveSaid::squares).collect();
        assert!(named.is_sorted(), "{moves:?}");
        let impossible = &moves[named.len()..];
        assert!(
            impossible.iter().all(|said| said.squares().is_none()),
            "{moves:?}"
        );
        let twice = |n: usize| moves[..n].contains(&moves[n]);
        assert!(!(0..moves.len()).any(twice), "{moves:?}");
    }
}
