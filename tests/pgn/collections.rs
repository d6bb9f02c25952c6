//! Collections of any size: packed, in parts, on all cores, in any encoding.

mod archives;
mod hostile;
mod packed;

use std::fmt::Write as _;
use std::fs;
use std::io::{self, Read, Write};
use std::num::NonZeroUsize;
use std::ops::ControlFlow;
use std::path::Path;
use std::process::Stdio;
use std::time::Duration;

use crate::passages::heading_agrees;
use crate::program::{CLUB, Desk, Said};
use proptest::prelude::*;
use sansvoir::pgn::{
    Collection, Finder, Nearness, Packing, Passage, Reason, Search, check, each_block, read,
    unpacked,
};

/// The longest game that is read, in bytes.
const LONGEST_GAME: usize = 16 << 20;

/// Gives no more than so many bytes at a time.
struct Trickle<'a>(&'a [u8], usize);

impl Read for Trickle<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let len = buffer.len().min(self.1);
        self.0.read(&mut buffer[..len])
    }
}

fn alone(bytes: &[u8]) -> Vec<Passage> {
    Collection::new(bytes).collect::<Result<_, _>>().unwrap()
}

/// The games as three workers get them, the text in pieces of `size` bytes.
fn together(bytes: &[u8], size: usize) -> Vec<Passage> {
    let mut passages = Vec::new();
    let search = Search {
        player: Some("Ana".into()),
        ..Search::default()
    };
    let finder = Finder::new(&search, Nearness::Whole);
    each_block(
        Collection::new(Trickle(bytes, size)),
        NonZeroUsize::new(3).unwrap(),
        |block| {
            let games = block.games().iter();
            let passage = |span| {
                let passage = block.passage(span);
                // What the splitter saw of the tags in passing is what stands there.
                let heading = block.heading(span);
                if !passage.too_long {
                    heading_agrees(&heading, &check(&passage).game.tags);
                }
                let _ = finder.finds(&heading, || passage.clone());
                passage
            };
            games.map(passage).collect::<Vec<_>>()
        },
        |_, done| {
            passages.extend(done);
            ControlFlow::Continue(())
        },
    )
    .unwrap();
    passages
}

/// Many short games; no two are alike.
fn many(games: usize) -> String {
    let mut text = String::new();
    for number in 1..=games {
        let (event, player, month) = (number / 50, number % 97, number % 12 + 1);
        writeln!(
            text,
            "[Event \"Ferryhouse {event}\"]\n[White \"Player {player}, Ana\"]\n\
             [Black \"Müller, Jo\"]\n[Date \"2025.{month:02}.01\"]\n[Round \"{number}\"]\n\
             [Result \"1-0\"]\n\n\
             1. e4 {{[%clk 0:10:00]}} e5 2. Nf3 Nc6 3. Bb5 a6 {{a {number}}} 1-0\n"
        )
        .unwrap();
    }
    text
}

fn piece() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "[Event \"A\"]\n",
        "[Event \"A\"]",
        "[White \"B\"]\n",
        "[Site \"C \\\" D\"]\r\n",
        "[Broken\n",
        "1. e4 ",
        "e5 ",
        "2. Nf3\n",
        "O-O ",
        "1-0",
        "1-0 ",
        "0-1\n",
        "1/2-1/2 ",
        "* ",
        "½-½ ",
        "\n",
        "\n\n",
        "\r\n",
        "\r\r",
        " ",
        "{",
        "}",
        "{[%clk 0:01:00]} ",
        "{see\n\n[Event \"Q\"]\n\n1. d4 *} ",
        "{open\n\n[Event \"R\"]\n",
        "(",
        ") ",
        "(1... c5 1-0) ",
        "; x [Event \"S\"]\n",
        "%\n",
        "% y\n",
        "$1",
        "e8(Q) ",
        "(=) ",
        "( = )",
        "\u{a0}",
        "\u{feff}",
        "♘f3 ",
        "1...",
        "1",
        "-",
        "--",
        "e2-e4 ",
        "a very long run of words without any sign that matters to anybody who splits ",
    ])
}

proptest! {
    #[test]
    fn the_games_are_the_same_however_they_are_read(
        pieces in proptest::collection::vec(piece(), 0..150),
        size in prop::sample::select(vec![1, 3, 17, 64, 1000]),
    ) {
        let text = pieces.concat();
        let games = alone(text.as_bytes());
        prop_assert_eq!(&together(text.as_bytes(), size), &games);
        // The games and nothing but white space and comments at the end make up the text.
        let length: usize = games.iter().map(|game| game.text.len()).sum();
        prop_assert!(length <= text.len());
        for game in &games {
            prop_assert_eq!(check(game).faults, read(game).faults);
        }
    }
}

#[test]
fn many_blocks_come_in_the_order_of_the_file() {
    let text = many(20_000);
    let games = alone(text.as_bytes());
    assert_eq!(games.len(), 20_000);
    assert!(together(text.as_bytes(), 1 << 20) == games);
}

#[test]
fn a_walk_may_be_broken_off() {
    let text = many(20_000);
    let mut taken = 0;
    let read = each_block(
        Collection::new(text.as_bytes()),
        NonZeroUsize::new(3).unwrap(),
        |block| block.games().len(),
        |_, games| {
            taken += games;
            ControlFlow::Break(())
        },
    );
    assert!(read.is_ok() && taken > 0 && taken < 20_000);
}

const PACKINGS: [Packing; 4] = [
    Packing::Gzip,
    Packing::Bzip2,
    Packing::Xz,
    Packing::Zstandard,
];

fn pack(packing: Packing, text: &[u8]) -> Vec<u8> {
    match packing {
        Packing::Plain => text.to_vec(),
        Packing::Gzip => {
            let mut out = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
            out.write_all(text).unwrap();
            out.finish().unwrap()
        }
        Packing::Bzip2 => {
            let mut out = bzip2::write::BzEncoder::new(Vec::new(), bzip2::Compression::fast());
            out.write_all(text).unwrap();
            out.finish().unwrap()
        }
        Packing::Xz => {
            let options = lzma_rust2::XzOptions::with_preset(1);
            let mut out = lzma_rust2::XzWriter::new(Vec::new(), options).unwrap();
            out.write_all(text).unwrap();
            out.finish().unwrap()
        }
        Packing::Zstandard => {
            ruzstd::encoding::compress_to_vec(text, ruzstd::encoding::CompressionLevel::Fastest)
        }
    }
}

fn unpack(bytes: &[u8]) -> (Packing, Vec<io::Result<Passage>>) {
    let (packing, reader) = unpacked(bytes).unwrap();
    (packing, Collection::new(reader).collect())
}

#[test]
fn what_the_ordinary_tools_packed_and_joined_is_read_whole() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/packed");
    let games = alone(&fs::read(folder.join("two.pgn")).unwrap());
    assert_eq!(games.len(), 2);
    for (packing, ending) in PACKINGS.into_iter().zip(["gz", "bz2", "xz", "zst"]) {
        let bytes = fs::read(folder.join(format!("two.pgn.{ending}"))).unwrap();
        let (found, read) = unpack(&bytes);
        assert_eq!(found, packing);
        let read: Vec<Passage> = read.into_iter().map(Result::unwrap).collect();
        assert_eq!(read, games, "{packing}");
    }
}

#[test]
fn packed_text_is_read_whole_joined_and_up_to_where_it_breaks_off() {
    let text = many(4000);
    let games = alone(text.as_bytes());
    let half = text.find("[Event \"Ferryhouse 40\"]").unwrap();
    for packing in PACKINGS {
        let whole = pack(packing, text.as_bytes());
        let joined = [
            pack(packing, &text.as_bytes()[..half]),
            pack(packing, b""),
            pack(packing, &text.as_bytes()[half..]),
        ]
        .concat();
        for bytes in [&whole, &joined] {
            let read: Vec<_> = unpack(bytes).1.into_iter().map(Result::unwrap).collect();
            assert!(read == games, "{packing}");
        }
        for cut in [whole.len() / 2, whole.len() - 3] {
            let mut read = unpack(&whole[..cut]).1;
            let last = read.pop().unwrap();
            assert!(last.is_err(), "{packing} cut at {cut}");
            let read: Vec<_> = read.into_iter().map(Result::unwrap).collect();
            assert!(read == games[..read.len()], "{packing} cut at {cut}");
            // What was packed together in a block is lost with it.
            assert!(
                packing == Packing::Bzip2 || !read.is_empty(),
                "{packing} cut at {cut}"
            );
        }
    }
}

#[test]
fn a_frame_to_be_skipped_holds_no_games() {
    let frame = [0x5a, 0x2a, 0x4d, 0x18, 3, 0, 0, 0, 1, 2, 3];
    let bytes = [
        &frame,
        pack(Packing::Zstandard, b"1. e4 *").as_slice(),
        &frame,
    ]
    .concat();
    assert_eq!(unpack(&bytes).1.len(), 1);
    let broken = [&frame[..], &frame[..9]].concat();
    assert!(unpack(&broken).1[0].is_err());
}

#[test]
fn a_broken_archive_is_told_after_its_games_and_ends_with_1() {
    let desk = Desk::new();
    let text = many(4000);
    let packed = pack(Packing::Gzip, text.as_bytes());
    let file = desk.file("cut.pgn.gz", &packed[..packed.len() / 2]);
    for arguments in [&["games", &file] as &[&str], &["games", &file, "--check"]] {
        let said = desk.run(arguments, "");
        said.ends(
            1,
            &[
                "this gzip file is damaged or breaks off after game",
                "cut.pgn.gz",
            ],
        );
        assert!(!said.out.is_empty());
    }
    let said = desk.run(&["games", &file, "--game", "7"], "");
    said.ends(0, &[]);
    assert!(said.out.starts_with("   7  "), "{said:?}");
}

const LOOKUPS: [&[&str]; 9] = [
    &["--player", "ana player 13"],
    &["--player", "MULLER", "--game", "5990-5995"],
    &["--player", "player", "--random", "--seed", "5"],
    &["--event", "ferryhouse 7", "--since", "2025.06"],
    &["--game", "5999", "--format", "json"],
    &["--game", "5999", "--check"],
    &["--player", "13", "--format", "json"],
    &["--result", "1-0", "--until", "2025.02", "--opening", "C"],
    &[],
];

#[test]
fn a_packed_collection_gives_whatever_the_plain_one_gives() {
    let desk = Desk::new();
    let text = many(6000);
    let packed = desk.file("many.pgn.gz", pack(Packing::Gzip, text.as_bytes()));
    let plain = desk.file("many.pgn", &text);
    for (at, options) in LOOKUPS.into_iter().enumerate() {
        let run = |file| desk.run(&[&["games", file], options].concat(), "");
        let (plain, packed) = (run(&plain), run(&packed));
        let as_plain = |said: &str| said.replace(".pgn.gz", ".pgn");
        assert_eq!(
            (packed.code, as_plain(&packed.out), as_plain(&packed.err)),
            (plain.code, plain.out.clone(), plain.err.clone()),
            "{options:?}"
        );
        assert_eq!(plain.err.contains("none of the"), at == 7, "{plain:?}");
        assert_eq!(plain.out.is_empty(), at == 7, "{plain:?}");
    }
}

#[test]
fn names_match_without_case_and_accents_in_either_order() {
    let desk = Desk::new();
    let game = |white: &str| format!("[White \"{white}\"]\n\n1. e4 *\n\n");
    let names = [
        "Müller, Jörg",
        "Łysý, Ōto",
        "Ødegård, Straße",
        "I\u{307}lgi\u{307}n, Ahmet",
    ];
    let file = desk.file("names.pgn", names.map(game).concat());
    for (player, number) in [
        ("jorg muller", 1),
        ("MÜLLER, JÖRG", 1),
        ("Mu\u{308}ller", 1),
        ("oto lysy", 2),
        ("strasse", 3),
        ("Odegard", 3),
        ("ilgin", 4),
    ] {
        let said = desk.run(&["games", &file, "--player", player], "");
        said.ends(0, &[]);
        assert!(
            said.out.trim_start().starts_with(&number.to_string()),
            "{player}: {said:?}"
        );
        assert_eq!(said.out.lines().count(), 1, "{player}");
    }
}

#[test]
fn other_encodings_are_told_by_mark_or_by_name() {
    let desk = Desk::new();
    let text = "[White \"Иванова, Ольга\"]\n\n1. e4 {хорошо} e5 *\n";
    let utf16 = |to_bytes: fn(u16) -> [u8; 2]| -> Vec<u8> {
        let marked = format!("\u{feff}{text}");
        marked.encode_utf16().flat_map(to_bytes).collect()
    };
    let unmarked = |to_bytes: fn(u16) -> [u8; 2]| utf16(to_bytes)[2..].to_vec();
    let cyrillic = encoding_rs::WINDOWS_1251.encode(text).0.into_owned();
    for (bytes, name) in [
        (text.as_bytes().to_vec(), None),
        (utf16(u16::to_le_bytes), None),
        (utf16(u16::to_be_bytes), None),
        (unmarked(u16::to_le_bytes), Some("utf-16le")),
        (unmarked(u16::to_be_bytes), Some("utf-16be")),
        (cyrillic, Some("windows-1251")),
        (
            encoding_rs::KOI8_R.encode(text).0.into_owned(),
            Some("KOI8-R"),
        ),
    ] {
        let file = desk.file("named.pgn", bytes);
        let mut arguments = vec!["games", &file];
        arguments.extend(name.iter().flat_map(|name| ["--encoding", name]));
        let said = desk.run(&arguments, "");
        said.ends(0, &[]);
        assert!(said.out.contains("Иванова, Ольга"), "{name:?}: {said:?}");
    }
    for (bytes, name) in [
        (unmarked(u16::to_le_bytes), "--encoding utf-16le"),
        (unmarked(u16::to_be_bytes), "--encoding utf-16be"),
        (
            vec![0, 1, 0, 0, 2, 3, 0, 0],
            "this is no PGN but a binary file",
        ),
    ] {
        let said = desk.run(&["games", &desk.file("unmarked.pgn", bytes)], "");
        said.ends(1, &[name]);
    }
    let mixed = [
        b"[White \"Ren\xe9e\"]\n[Black \"".as_slice(),
        "Žofie\"]\n\n1. e4 *".as_bytes(),
    ]
    .concat();
    let said = desk.run(&["games", &desk.file("mixed.pgn", mixed)], "");
    assert!(said.out.contains("Renée - Žofie"), "{said:?}");
    let said = desk.run(&["games", CLUB, "--encoding", "klingon"], "");
    said.ends(2, &["is no encoding known here"]);
}

#[test]
fn names_that_look_garbled_are_told_once_a_file_in_a_list_a_check_and_before_a_game() {
    let desk = Desk::new();
    let text = "[White \"Иванова, Ольга\"]\n\n1. e4 e5 *\n\n".repeat(3);
    let file = desk.file("garbled.pgn", encoding_rs::WINDOWS_1251.encode(&text).0);
    let remedy = "if it should be \"Иванова, Ольга\", read the file with --encoding windows-1251";
    for command in [
        vec!["games", &file],
        vec!["games", "--check", &file],
        vec!["replay", &file],
    ] {
        let said = desk.run(&command, "");
        let all = said.out + &said.err;
        assert_eq!(all.matches(remedy).count(), 1, "{command:?}: {all}");
    }
}

/// Chi-square with 6 degrees of freedom exceeds twice a number h as often as a Poisson count with the mean h is
/// below 3. Chance alone may bring what comes once in a thousand times and no less.
#[test]
fn each_game_that_fits_is_drawn_as_often_as_the_others() {
    let desk = Desk::new();
    let game = |number| {
        let white = if number % 3 == 1 { "Quill" } else { "Vale" };
        format!("[White \"{white}\"]\n[Round \"{number}\"]\n\n1. e4 *\n\n")
    };
    let file = desk.file("twenty.pgn", (0..20).map(game).collect::<String>());
    let mut drawn = [0_u32; 21];
    let runs = 700;
    for seed in 0..runs {
        let seed = seed.to_string();
        let said = desk.run(
            &[
                "games", &file, "--player", "quill", "--random", "--seed", &seed,
            ],
            "",
        );
        let number: usize = said.out.split_whitespace().next().unwrap().parse().unwrap();
        drawn[number] += 1;
    }
    let fitting: Vec<u32> = (0..20)
        .filter(|n| n % 3 == 1)
        .map(|n| drawn[n + 1])
        .collect();
    assert_eq!((fitting.len(), fitting.iter().sum::<u32>()), (7, runs));
    let expected = f64::from(runs) / 7.0;
    let chi_square: f64 = fitting
        .iter()
        .map(|drawn| (f64::from(*drawn) - expected).powi(2) / expected)
        .sum();
    let half = chi_square / 2.0;
    let as_far_by_chance = (-half).exp() * (1.0 + half + half * half / 2.0);
    assert!(as_far_by_chance > 0.001, "{chi_square}: {fitting:?}");
}

#[test]
fn a_game_that_is_too_long_is_told_and_the_next_one_is_read() {
    let filling = "so it goes on ".repeat(LONGEST_GAME / 14 + 10);
    for (before, after) in [
        ("[Event \"A\"]\n\n1. e4 {", "} e5 *"),
        ("[Event \"A\"]\n\n1. e4 ", " *"),
        ("[Event \"", "\"]\n\n1. e4 *"),
        ("{", "}\n1. e4 *"),
        ("[Event \"A\"]\n\n1. e4 * ; ", ""),
    ] {
        let text = format!("1. d4 *\n\n{before}{filling}{after}\n\n[Event \"B\"]\n\n1. c4 *\n");
        let games = alone(text.as_bytes());
        assert_eq!(games.len(), 3, "{before}");
        assert!(games[1].too_long && !games[0].too_long && !games[2].too_long);
        assert!(games[1].text.len() <= 64 << 10);
        assert_eq!(games[2].text, b"[Event \"B\"]\n\n1. c4 *\n");
        let line = text
            .lines()
            .position(|line| line == "[Event \"B\"]")
            .unwrap()
            + 1;
        assert_eq!((games[2].number, games[2].line), (3, line));
        let last = read(&games[1]).faults.pop().unwrap();
        assert_eq!(last.reason, Reason::TooLong);
        assert!(together(text.as_bytes(), 100_000) == games, "{before}");
    }
}

/// Runs the program on `pieces` through a pipe and returns the most memory that was resident before the
/// pipe was closed, in megabytes, and what was said.
#[cfg(target_os = "linux")]
fn memory(options: &[&str], pieces: impl Iterator<Item = Vec<u8>>) -> (usize, Said) {
    let desk = Desk::new();
    let mut child = desk
        .program(&[&["games", "-"], options].concat())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let mut stdout = child.stdout.take().unwrap();
    let reading = std::thread::spawn(move || {
        let mut out = String::new();
        stdout.read_to_string(&mut out).map(|_| out)
    });
    for piece in pieces {
        stdin.write_all(&piece).unwrap();
    }
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap();
    drop(stdin);
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes: usize = line
        .unwrap()
        .trim()
        .trim_end_matches(" kB")
        .parse()
        .unwrap();
    let out = reading.join().unwrap().unwrap();
    let output = child.wait_with_output().unwrap();
    let said = Said {
        code: output.status.code(),
        out,
        err: String::from_utf8(output.stderr).unwrap(),
    };
    (kilobytes / 1000, said)
}

#[test]
#[cfg(target_os = "linux")]
fn memory_is_bounded_whatever_the_size_of_a_line_or_a_file() {
    let game = b"\n\n[White \"Quill\"]\n\n1. e4 *\n\n".to_vec();
    let line = |before: &str, byte: u8| {
        let pieces = std::iter::repeat_n(vec![byte; 1 << 20], 1000);
        let pieces = std::iter::once(before.into()).chain(pieces);
        pieces.chain([game.clone()])
    };
    let check = &["--check", "--plain"];
    for (options, before, byte, ends) in [
        (&[] as &[&str], "", b'x', "Quill"),
        (check, "", b'x', "longer than 16 MiB"),
        (check, "", b'{', "longer than 16 MiB"),
        (&[], "", b' ', "Quill"),
        (check, "1. e4 {", b'x', "longer than 16 MiB"),
        (&["--player", "quill"], "1. e4 {", b'x', "Quill"),
        (check, "[White \"", b'x', "longer than 16 MiB"),
        (&["--player", "quill"], "[White \"", b'x', "Quill"),
        (&["--format", "json"], "[White \"", b'x', "Quill"),
    ] {
        let (megabytes, said) = memory(options, line(before, byte));
        assert!(said.out.contains(ends), "{said:?}");
        assert!(
            megabytes < 64,
            "{megabytes} MB for a gigabyte of {byte} after {before}"
        );
    }
    for (options, lines) in [
        (&[] as &[&str], 1_000_000),
        (&["--player", "quill"], 0),
        (check, 1_000_001),
    ] {
        let sections = std::iter::repeat_n(b"[Event \"A\"]\n\n".repeat(10_000), 100);
        let (megabytes, said) = memory(options, sections);
        assert_eq!(said.out.lines().count(), lines);
        assert!(
            megabytes < 64,
            "{megabytes} MB for a million tag sections {options:?}"
        );
    }
}

#[test]
#[cfg(target_os = "linux")]
fn an_archive_that_unpacks_to_a_thousand_times_its_size_is_read_in_bounded_memory() {
    let game = b"\n\n[White \"Quill\"]\n\n1. e4 *\n\n";
    let filling = vec![b'x'; 100_000_000];
    for packing in PACKINGS {
        let filled = match packing {
            // The largest window that is read, and the densest blocks there are.
            Packing::Zstandard => packed::frame(23, 800),
            _ => pack(packing, &filling),
        };
        let packed = [filled, pack(packing, game)].concat();
        assert!(packed.len() < 500_000);
        let (megabytes, said) = memory(&["--player", "quill"], [packed].into_iter());
        said.ends(0, &[]);
        assert!(said.out.starts_with("   2  "), "{said:?}");
        assert!(megabytes < 64, "{megabytes} MB for {packing}");
    }
}

#[test]
fn a_pipe_that_ends_in_a_game_is_read_to_its_end() {
    let desk = Desk::new();
    let said = desk.run(
        &["games", "-", "--check"],
        "[White \"A\"]\n\n1. e4 e5 2. Nf",
    );
    said.ends(1, &[]);
    assert!(
        said.out
            .contains("(standard input):3:13: game 1, move 2. \"Nf\""),
        "{said:?}"
    );
    assert!(said.out.contains("1 game with 2 plies"), "{said:?}");
}

#[test]
fn a_file_that_grows_while_it_is_read_is_read_to_its_end() {
    let desk = Desk::new();
    let file = desk.file("many.pgn", many(6000));
    let mut grow = fs::File::options().append(true).open(&file).unwrap();
    let writing = std::thread::spawn(move || {
        for _ in 0..200 {
            grow.write_all(b"[White \"Late\"]\n\n1. e4 *\n\n").unwrap();
            std::thread::sleep(Duration::from_millis(1));
        }
    });
    let games = || {
        let said = desk.run(&["games", &file], "");
        said.ends(0, &[]);
        said.out.lines().count()
    };
    let before = games();
    writing.join().unwrap();
    let after = games();
    assert!(before >= 6000 && after == 6200, "{before} {after}");
}
