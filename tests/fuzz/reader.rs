//! PGN text, read as a file of games.

use sansvoir::pgn::{Collection, Fault, Reading, Reason, check, export, read};

use crate::held::held;
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

/// Made up for these tests: sidelines in sidelines, comments and glyphs in all places.
const ANNOTATED: &str = "{Before} [Event \"A\"]\n\n{At the start} 1. e4 $1 {Best} $18 (1. d4 {Solid} d5 \
    (1... Nf6 2. c4 (2. Nf3 $5 {A (small) move}) e6) 2. c4) ({Or} 1. c4!? e5) 1... e5 ; to the end\n\
    2. Nf3! Nc6?! (2... Nf6 $6 3. Nxe5 (3. d4 exd4 (3... Nxe4) 4. e5) d6) 3. Bb5 $14 {[%clk 0:09:00]} {Two} a6 *\n";

pub(crate) fn seeds() -> Vec<Vec<u8>> {
    vec![
        include_bytes!("../../games-demo/club-evening.pgn").to_vec(),
        include_bytes!("../../games-demo/dialects.pgn").to_vec(),
        include_bytes!("../../games-demo/first-steps.pgn").to_vec(),
        include_bytes!("../packed/two.pgn").to_vec(),
        ANNOTATED.as_bytes().to_vec(),
    ]
}

/// Whatever holds of every text; checking finds what reading finds; a fault shows nothing that steers
/// a terminal; and what was read, exported, is read as the same game without a loss.
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
        assert_eq!(checked.letters, reading.letters);
        for fault in &reading.faults {
            let said = fault.to_string();
            assert!(!said.contains(char::is_control), "{said:?}");
        }
        reads_back(&reading);
    }
}

fn reads_back(reading: &Reading) {
    let game = &reading.game;
    let text = export(game);
    let back = read(&crate::passages::only(text.clone()));
    if game.ids().count() == 0 && !reading.is_whole() {
        // Its tags may still say why nothing of it could be played.
        return;
    }
    // A start that the file does not give is not made up, and still asked for.
    let asked_for =
        |fault: &Fault| fault.reason == Reason::Chess960WithoutFen && game.start_is_assumed();
    // What an export cannot mend, it leaves as it is.
    let stays = |fault: &&Fault| {
        fault.reason.concerns_encoding()
            || matches!(fault.reason, Reason::ResultAgainstBoard { .. })
    };
    let (asked, others): (Vec<&Fault>, Vec<&Fault>) = (back.faults.iter())
        .filter(|fault| !stays(fault))
        .partition(|fault| asked_for(fault));
    assert!(others.is_empty(), "{text}\n{others:?}");
    assert_eq!(asked.len(), usize::from(game.start_is_assumed()));
    assert_eq!(held(&back.game), held(game), "{text}");
    assert_eq!(export(&back.game), text);
}
