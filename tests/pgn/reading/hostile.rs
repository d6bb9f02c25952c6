use std::fmt::Write;
use std::time::Instant;

use sansvoir::pgn::{Cost, Reason};

use super::{game, games, passages};

#[test]
fn a_hundred_thousand_nested_sidelines_are_read_and_dropped() {
    let depth = 100_000;
    let mut text = String::from("1. Nf3");
    for _ in 0..depth {
        text.push_str(" (1. Nc3");
    }
    text.push_str(&")".repeat(depth));
    text.push_str(" 1... d5 *");
    let readings = games(&text);
    assert_eq!(readings.len(), 1);
    assert!(readings[0].is_clean());
    assert_eq!(readings[0].game.sideline_count(), depth);
    assert_eq!(readings[0].game.main_line().len(), 2);
    drop(readings);
    let open = game(format!("1. Nf3 {}", "(1. Nc3 ".repeat(depth)));
    assert_eq!(open.faults[0].reason, Reason::OpenSideline);
}

#[test]
fn a_comment_of_five_megabytes_is_one_comment() {
    let words = "words [and brackets\n".repeat(1 << 18);
    let text = format!("[Event \"A\"]\n\n1. e4 {{{words}}} e5 *\n\n[Event \"B\"]\n\n1. d4 *");
    let readings = games(&text);
    assert_eq!(readings.len(), 2);
    assert!(readings[0].is_clean());
    let first = readings[0].game.main_nodes().next().unwrap();
    assert_eq!(
        readings[0].game.node(first).comments[0].len(),
        words.len() - 1
    );
    assert_eq!(passages(&text)[1].line, 3 + (1 << 18) + 2);
}

#[test]
fn tags_and_lines_may_have_any_length() {
    let name = "x".repeat(1 << 22);
    let mut text = format!("[Event \"{name}\"]\n\n");
    for _ in 0..20_000 {
        text.push_str("Nf3 Nf6 Ng1 Ng8 ");
    }
    text.push('*');
    let readings = games(&text);
    assert_eq!(readings[0].game.tags.get("Event"), Some(name.as_str()));
    assert_eq!(readings[0].game.main_nodes().count(), 80_000);
    assert!(readings[0].is_clean());
}

// Each of these makes a careless reader look at the same bytes again and again.
#[test]
fn no_text_is_read_in_more_than_even_time() {
    for piece in [
        "[",
        "[Event ",
        "[Event \"",
        "[Event \"x\" ",
        "{",
        "{\n\n[Event \"",
        "\n\n[Event \"A\"]",
        "(",
        ")",
        ";",
        "$",
        "\\\"] ",
        "[E \"\\\"] ",
        "*",
        "1-0 1. ",
        "e8(",
        "\n%",
        "\u{feff}",
        " ",
        "\n",
        "{}\n\n",
        "N ",
        "- ",
        "[a{",
        "--",
        "!",
        "+-",
        "O-O",
        "ОК",
    ] {
        let text = piece.repeat((1 << 20) / piece.len());
        let start = Instant::now();
        for passage in passages(&text) {
            let reading = sansvoir::pgn::read(&passage);
            assert!(reading.faults.len() <= 103, "{piece:?}");
        }
        // A megabyte takes some tenths of a second at most, unoptimized; were it read again and again,
        // it would take hours.
        assert!(start.elapsed().as_secs() < 20, "{piece:?}");
    }
}

#[test]
fn a_broken_game_among_many_spoils_only_itself() {
    let mut text = String::new();
    for number in 1..=300 {
        let broken = if number % 3 == 0 { "Nf9" } else { "Nf3" };
        let open = if number % 7 == 0 { "{left open" } else { "" };
        writeln!(
            text,
            "[Event \"Round {number}\"]\n[Result \"*\"]\n\n1. e4 e5 2. {broken} Nc6 {open} *\n"
        )
        .unwrap();
    }
    let readings = games(&text);
    assert_eq!(readings.len(), 300);
    for (at, (reading, passage)) in readings.iter().zip(passages(&text)).enumerate() {
        let number = at + 1;
        assert_eq!(passage.number, number);
        assert_eq!(
            reading.game.tags.get("Event"),
            Some(format!("Round {number}").as_str())
        );
        assert_eq!(passage.line, at * 5 + 1);
        let plies = if number % 3 == 0 { 2 } else { 4 };
        assert_eq!(reading.game.main_line().len(), plies);
        let whole = reading.faults.iter().all(|fault| fault.cost != Cost::Moves);
        assert_eq!(whole, number % 3 != 0 && number % 7 != 0);
    }
}
