//! PGN text, read as a file of games.

use sansvoir::game::{Game, fen_of};
use sansvoir::notation::{Collection, Passage, check, read};
use shakmaty::san::SanPlus;
use shakmaty::{CastlingMode, Position};

use crate::unharmed::unharmed;

/// What means something in PGN, in our own selection.
pub(crate) const WORDS: &[&str] = &[
    "[Event \"A\"]\n",
    "[FEN \"4k3/8/8/8/8/8/8/R3K3 w Q - 0 1\"]\n",
    "[SetUp \"1\"]\n",
    "[Variant \"Chess960\"]\n",
    "[Result \"1-0\"]\n",
    "\n\n",
    "\r\n",
    "\n%",
    ";",
    "{",
    "}",
    "(",
    ")",
    "[",
    "]",
    "\"",
    "\\",
    "$",
    "$255",
    "$999",
    "1.",
    "1...",
    "12",
    "--",
    "Z0",
    "O-O",
    "O-O-O",
    "0-0",
    "e4",
    "e5",
    "Nf3",
    "Nbd7",
    "bxc3",
    "e8=Q",
    "e8(Q)",
    "exd6 e.p.",
    "e2e4",
    "+",
    "#",
    "!?",
    "=",
    "+-",
    "1-0",
    "0-1",
    "1/2-1/2",
    "*",
    "S",
    "♘f3",
    "\u{feff}",
    "\u{0}",
    "\u{1b}[2J",
    "[%clk 0:01:02]",
    " ",
];

pub(crate) fn seeds() -> Vec<Vec<u8>> {
    vec![
        include_bytes!("../../games-demo/club-evening.pgn").to_vec(),
        include_bytes!("../../games-demo/dialects.pgn").to_vec(),
        include_bytes!("../../games-demo/first-steps.pgn").to_vec(),
        include_bytes!("../packed/two.pgn").to_vec(),
    ]
}

/// Whatever holds of every text; checking finds what reading finds; a fault shows nothing that steers
/// a terminal; and the main line that was read, written in SAN, is read as the same moves.
pub(crate) fn target(text: &[u8]) {
    unharmed(text);
    let Ok(passages) = Collection::new(text).collect::<Result<Vec<_>, _>>() else {
        return;
    };
    for passage in &passages {
        let reading = read(passage);
        let checked = check(passage);
        assert_eq!(checked.faults, reading.faults);
        assert_eq!(checked.plies, reading.game.main_nodes().count());
        assert_eq!(
            checked.letters.map(|letters| letters.languages),
            reading
                .letters
                .as_ref()
                .map(|letters| letters.languages.clone())
        );
        for fault in &reading.faults {
            let said = fault.to_string();
            assert!(!said.contains(char::is_control), "{said:?}");
        }
        reads_back(&reading.game);
    }
}

fn reads_back(game: &Game) {
    let mut position = game.start.position().clone();
    let variant = match game.start.mode() {
        CastlingMode::Standard => "",
        CastlingMode::Chess960 => "[Variant \"Chess960\"]\n",
    };
    let mut text = format!(
        "{variant}[SetUp \"1\"]\n[FEN \"{}\"]\n\n",
        fen_of(&position)
    );
    let line = game.main_line();
    for ply in line.plies() {
        text += &SanPlus::from_move(position.clone(), ply.mv).to_string();
        text.push('\n');
        position.play_unchecked(ply.mv);
    }
    text += game.result.map_or("*", sansvoir::game::GameResult::marker);
    let back = read(&Passage::only(text.clone()));
    assert!(back.faults.is_empty(), "{text}\n{:?}", back.faults);
    assert_eq!(
        fen_of(back.game.main_line().end()),
        fen_of(line.end()),
        "{text}"
    );
    assert_eq!(back.game.main_line().len(), line.len(), "{text}");
}
