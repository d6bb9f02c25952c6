use std::io::{ErrorKind, Read, Result as IoResult};

use crate::unharmed::unharmed;
use sansvoir::pgn::{Collection, read};

use super::{game, passages};

/// Gives no more than so many bytes at a time.
struct Trickle<'a>(&'a [u8], usize);

impl Read for Trickle<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> IoResult<usize> {
        let len = buffer.len().min(self.1);
        self.0.read(&mut buffer[..len])
    }
}

/// Writes number, line and text of each passage, white space at the ends left out.
fn split(text: &str) -> Vec<(usize, usize, String)> {
    passages(text)
        .into_iter()
        .map(|passage| {
            let text = String::from_utf8(passage.text).unwrap();
            (passage.number, passage.line, text.trim_end().to_owned())
        })
        .collect()
}

#[track_caller]
fn begins(text: &str, lines: &[usize]) {
    for end in ["\n", "\r\n", "\r"] {
        let text = text.replace('\n', end);
        let found: Vec<usize> = passages(&text).iter().map(|passage| passage.line).collect();
        assert_eq!(found, lines, "{text:?}");
        // However small the pieces are in which the text comes, the games are the same.
        for size in [1, 2, 3, 7, 64] {
            let reader = Trickle(text.as_bytes(), size);
            let pieces: Vec<_> = Collection::new(reader).collect::<Result<_, _>>().unwrap();
            assert_eq!(pieces, passages(&text), "{size}");
        }
    }
}

#[test]
fn tags_after_moves_begin_a_game() {
    begins(
        "[Event \"A\"]\n\n1. e4 *\n\n[Event \"B\"]\n\n1. d4 *\n",
        &[1, 5],
    );
    begins("[Event \"A\"]\n1. e4 *\n[Event \"B\"]\n1. d4 *", &[1, 3]);
    begins(
        "\n\n[White \"A\"]\n\n1. e4\n\n[White \"B\"]\n\n1. d4",
        &[3, 7],
    );
    begins("[Event \"A\"] 1. e4 * [Event \"B\"] 1. d4 *", &[1, 1]);
}

#[test]
fn tags_without_moves_are_games_too() {
    begins(
        "[Event \"A\"]\n[Result \"*\"]\n\n[Event \"B\"]\n[Result \"*\"]\n\n*\n",
        &[1, 4],
    );
    begins("[White \"A\"]\n[Black \"B\"]\n\n[White \"C\"]\n", &[1, 4]);
    begins(
        "[Event \"A\"]\n\n[Site \"B\"]\n\n[White \"C\"]\n\n1. e4 *",
        &[1],
    );
    begins("[Event \"A\"]\n[Broken]\n[Site \"B\"]\n1. e4 *", &[1]);
}

#[test]
fn a_comment_begins_nothing() {
    begins(
        "[Event \"A\"]\n\n1. e4 {\n[Event \"B\"]\n1. d4 * } e5 *",
        &[1],
    );
    begins(
        "[Event \"A\"]\n\n1. e4 {see\n\n[Event \"B\"]\n\n1. d4 *} e5 *",
        &[1],
    );
    begins("1. e4 ; [Event \"B\"]\ne5\n% [Event \"C\"]\nd4 *", &[1]);
}

#[test]
fn a_comment_left_open_ends_where_the_next_tags_begin() {
    begins(
        "[Event \"A\"]\n\n1. e4 {open\n\n[Event \"B\"]\n\n1. d4 {x} *",
        &[1, 5],
    );
    begins("[Event \"A\"]\n{open\n\n[Event \"B\"]\n\n1. d4 *", &[1, 4]);
    begins("1. e4 {open\n\n1. d4 *", &[1]);
    begins("{open\n\n", &[1]);
}

#[test]
fn a_comment_before_the_tags_belongs_to_the_game_that_follows() {
    begins(
        "{first}\n[Event \"A\"]\n\n1. e4 * {end of A}\n\n{second}\n% x\n[Event \"B\"]\n\n*",
        &[1, 6],
    );
    begins(
        "[Event \"A\"]\n\n1. e4 *\n{end of A}\n[Event \"B\"]\n\n*",
        &[1, 5],
    );
    let second = &split("1. e4 1-0\n\n; to B\n[Event \"B\"]\n*")[1];
    assert_eq!(*second, (2, 3, "; to B\n[Event \"B\"]\n*".to_owned()));
}

#[test]
fn a_blank_line_inside_movetext_ends_nothing() {
    begins("1. e4\n\n\ne5 2. d4\n\n(2. c4)\n\nd5 *", &[1]);
    begins("[Event \"A\"]\n\n1. e4 {x}\n\n{y}\n\ne5 *", &[1]);
}

#[test]
fn without_a_result_a_line_that_counts_from_1_again_begins_a_game_behind_a_blank_line() {
    begins("1. c4 c5 2. Nf3\n\n1. Nf3 Nf6 2. g3\n", &[1, 3]);
    begins(
        "1. e4 c5 2. Nf3 d6\n\nBrown - Green\n1. d4 d5 2. c4 e6\n",
        &[1, 4],
    );
    begins("1. e4 c5 2. Nf3\n\n{to the second}\n1.d4", &[1, 3]);
    for one in [
        "1. c4 c5\n\n1. Nf3 Nf6 2. g3",
        "1. c4 c5 2. Nf3\n\n1... d5",
        "1. c4 c5 2. Nf3 (2. g3\n\n1. d4)",
        "1. c4 c5 2. Nf3\n1. Nf3 Nf6",
        "1. c4 c5 2. Nf3 {so\n\n1. Nf3}",
    ] {
        begins(one, &[1]);
    }
}

#[test]
fn a_result_in_any_spelling_ends_a_game() {
    for result in ["1 - 0", "0 - 1", "1/2 - 1/2", "0.5-0.5", "½"] {
        begins(&format!("1. d4 d5 {result}\n\n1. c4 c5 *\n"), &[1, 3]);
    }
}

#[test]
fn after_a_result_moves_begin_a_game_behind_a_blank_line_or_from_1() {
    begins("1. e4 1-0\n\n1. d4 0-1", &[1, 3]);
    begins("1. e4 1-0 1. d4 0-1", &[1, 1]);
    begins("e4 1-0\n\nd4 0-1", &[1, 3]);
    begins("1. e4 1-0 1/2-1/2\n*\n", &[1]);
    begins("1. e4 1/2-1/2 e5 2. d4 *", &[1]);
    begins("1. e4 e5 (1... c5 1-0) 2. d4 *", &[1]);
    let passage = &passages("1. e4 1-0 1. d5 0-1")[1];
    assert_eq!(passage.column, 11);
    assert_eq!(read(passage).faults[0].place.to_string(), "1:14");
}

#[test]
fn marks_of_byte_order_begin_nothing_and_end_nothing() {
    begins(
        "\u{feff}[Event \"A\"]\n\n1. e4 *\n\n\u{feff}[Event \"B\"]\n\n1. d4 \u{feff}*",
        &[1, 5],
    );
}

#[test]
fn a_file_without_a_game_has_none() {
    for text in [
        "",
        "\n\n",
        "\u{feff}",
        " \r\n",
        "% nothing\n",
        "{only words}\n; more",
    ] {
        assert!(passages(text).is_empty(), "{text:?}");
    }
}

#[test]
fn utf16_is_read_as_text() {
    let text = "[Event \"Žofie\"]\n\n1. e4 e5 *\n\n[Event \"B\"]\n\n1. d4 *\n";
    let little: Vec<u8> = "\u{feff}"
        .chars()
        .chain(text.chars())
        .collect::<String>()
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    let big: Vec<u8> = "\u{feff}"
        .chars()
        .chain(text.chars())
        .collect::<String>()
        .encode_utf16()
        .flat_map(u16::to_be_bytes)
        .collect();
    for bytes in [little, big] {
        assert_eq!(passages(&bytes), passages(text));
        let slow = Collection::new(Trickle(&bytes, 1));
        assert_eq!(slow.collect::<Result<Vec<_>, _>>().unwrap(), passages(text));
    }
}

#[test]
fn a_binary_file_is_refused_once() {
    let binary: Vec<u8> = (0..4096_u32).flat_map(u32::to_le_bytes).collect();
    let mut games = Collection::new(binary.as_slice());
    let error = games.next().unwrap().unwrap_err();
    assert_eq!(error.kind(), ErrorKind::InvalidData);
    assert_eq!(
        error.to_string(),
        "this is no PGN but a binary file: give a file of PGN text"
    );
    assert!(games.next().is_none());
}

#[test]
fn a_zero_in_a_text_is_a_blank_at_any_length_and_a_short_binary_file_is_refused() {
    for comment in ["", "long ".repeat(1_000).as_str()] {
        let text = format!("1. e4\0e5 {{{comment}}} *");
        assert_eq!(game(text.as_str()).plies, 2);
    }
    for front in [4, 3_000] {
        let filled =
            "\0".repeat(front) + "[White \"A\"]\n\n1. e4 e5 *\n\0\0\0\0[White \"B\"]\n\n1. d4 *\n";
        assert_eq!(passages(filled).len(), 2);
    }
    let binary: Vec<u8> = (0..=255).chain([0; 700]).collect();
    assert!(Collection::new(binary.as_slice()).next().unwrap().is_err());
}

#[test]
fn the_fast_way_reads_the_same_tags() {
    for text in [
        "[Event \"A\"]\n[White \"M\u{fc}ller \\\"x\\\"\"]\n[Site \"\"]\n\n1. e4 *",
        "{before} [Event \"A\"]\n1. e4 *",
        "1. e4 *",
        "[Event \"A\"]\r\n[Site \"B\"]\r\n\r\n1. e4 *",
        "[Event \"A\"]\r[Site \"B\"]\r\r1. e4 *",
    ] {
        unharmed(text.as_bytes());
    }
    unharmed(format!("[Event \"{}\"]\n\n1. e4 *", "x".repeat(100_000)).as_bytes());
}
