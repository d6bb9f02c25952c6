//! What holds of every text whatever that is read as PGN.

use crate::passages::{each_game, heading_agrees};
use sansvoir::game::{Game, MoveOrNull, after_null};
use sansvoir::pgn::{Collection, Cost, Heading, check, read, read_twice};
use shakmaty::Position;

/// Whatever the text: the passages are pieces of it in order and leave nothing but space and comments
/// out; every node is legal; nothing is skipped without a fault; places lie in the text; the second witness
/// agrees.
pub(crate) fn unharmed(bytes: &[u8]) {
    let Ok(passages) = Collection::new(bytes).collect::<Result<Vec<_>, _>>() else {
        return;
    };
    let lines = String::from_utf8_lossy(bytes)
        .replace("\r\n", "\n")
        .replace('\r', "\n")
        .split('\n')
        .count();
    let is_utf16 = bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff");
    let mut from = 0;
    for passage in &passages {
        let reading = read(passage);
        if !is_utf16 {
            // A run of marks of byte order holds the end of its own text many times: the last such place counts.
            let gap = bytes[from..]
                .windows(passage.text.len())
                .enumerate()
                .filter(|(_, window)| *window == passage.text)
                .map(|(at, _)| &bytes[from..from + at])
                .take_while(|gap| gap.iter().all(|byte| is_space(*byte)))
                .last();
            let gap =
                gap.expect("a passage is a piece of its file, and only space stands before it");
            from += gap.len() + passage.text.len();
        }
        let costly = reading
            .faults
            .iter()
            .any(|fault| fault.cost > Cost::Nothing);
        assert!(costly || reading.skipped == 0, "{reading:?}");
        assert!(
            reading
                .faults
                .windows(2)
                .all(|pair| pair[0].place <= pair[1].place)
        );
        for fault in &reading.faults {
            assert!(fault.place.line <= lines && fault.span.end <= passage.text.len());
        }
        legal(&reading.game);
        // The second witness has nothing to add, and who keeps no move finds the same.
        assert_eq!(read_twice(passage).faults, reading.faults);
        let checked = check(passage);
        let game = &reading.game;
        assert_eq!(
            (
                &checked.game.tags,
                &checked.game.start,
                checked.game.result,
                checked.sidelines
            ),
            (&game.tags, &game.start, game.result, game.sideline_count())
        );
        let line = game.main_line();
        assert_eq!((&checked.end, checked.plies), (line.end(), line.len()));
    }
    let agree =
        |heading: &Heading<'_>, passage| heading_agrees(heading, &check(&passage).game.tags);
    each_game(bytes, agree).expect("it was read before");
    assert!(
        passages.is_empty() || is_utf16 || from == bytes.len(),
        "the last passage goes to the end"
    );
}

/// Tells whether a byte may be one of white space: in ASCII, or in UTF-8 as a mark of byte order or a
/// space of Unicode.
const fn is_space(byte: u8) -> bool {
    byte.is_ascii_whitespace() || matches!(byte, 0 | 0x0b | 0x1a | 0x80..=0xbf | 0xc2 | 0xe2 | 0xef)
}

/// Plays every line of a game by the rules.
fn legal(game: &Game) {
    let mut lines: Vec<_> = game
        .main_nodes()
        .next()
        .map(|id| (id, game.start.position().clone()))
        .into_iter()
        .collect();
    while let Some((first, mut position)) = lines.pop() {
        for id in game.nodes_from(first) {
            lines.extend(
                game.node(id)
                    .sidelines()
                    .iter()
                    .map(|id| (*id, position.clone())),
            );
            position = match game.node(id).step {
                MoveOrNull::Move(mv) => position.play(mv).expect("the move is legal"),
                MoveOrNull::Null => after_null(&position).expect("the side may pass"),
            };
        }
    }
}
