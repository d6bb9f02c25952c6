//! Archives (.zip, APPNOTE.TXT 6.3) that are hostile: names that lead elsewhere, bombs, and far too many files.

use std::io::Write;

use flate2::Compression;
use flate2::write::DeflateEncoder;

use super::Desk;

const GAME: &[u8] = b"[White \"Quill\"]\n\n1. e4 *\n";

fn number(value: usize, bytes: usize) -> Vec<u8> {
    value.to_le_bytes()[..bytes].to_vec()
}

/// What stands before a file and, with its place, in the list of files (4.3.7 and 4.3.12).
fn header(name: &str, data: &[u8], place: Option<usize>) -> Vec<u8> {
    let mut packed = DeflateEncoder::new(Vec::new(), Compression::best());
    packed.write_all(data).unwrap();
    let packed = packed.finish().unwrap();
    let checksum = crc32fast::hash(data).to_le_bytes().to_vec();
    let signature: &[u8] = if place.is_some() {
        b"PK\x01\x02\x14\0"
    } else {
        b"PK\x03\x04"
    };
    let sizes = [
        number(packed.len(), 4),
        number(data.len(), 4),
        number(name.len(), 2),
    ]
    .concat();
    // Version, flags, deflated, time and date.
    let mut header = [
        signature,
        b"\x14\0\0\0\x08\0\0\0\x21\0",
        &checksum,
        &sizes,
        b"\0\0",
    ]
    .concat();
    if let Some(place) = place {
        header.extend([&[0; 10][..], &number(place, 4)].concat());
    }
    header.extend(name.bytes());
    if place.is_none() {
        header.extend(packed);
    }
    header
}

/// The end of an archive (4.3.16) that says how many files it has.
fn end(count: usize, size: usize, place: usize) -> Vec<u8> {
    let counts = [
        number(count, 2),
        number(count, 2),
        number(size, 4),
        number(place, 4),
    ]
    .concat();
    [b"PK\x05\x06\0\0\0\0", &counts[..], b"\0\0"].concat()
}

fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let (mut all, mut list) = (Vec::new(), Vec::new());
    for (name, data) in files {
        list.extend(header(name, data, Some(all.len())));
        all.extend(header(name, data, None));
    }
    let end = end(files.len(), list.len(), all.len());
    [all, list, end].concat()
}

#[test]
fn names_that_lead_out_of_an_archive_are_left_out_and_others_are_harmless() {
    let names = [
        "../evil.pgn",
        "/inside.pgn",
        "a/../../evil.pgn",
        "evil.txt",
        "evil.pgn/",
        "a/b/good.PGN",
        "be\u{1b}[2Jst.pgn",
    ];
    let desk = Desk::new();
    let file = desk.file("names.zip", archive(&names.map(|name| (name, GAME))));
    let said = desk.run(&["games", &file], "");
    said.ends(0, &[]);
    assert!(said.out.contains("names.zip/a/b/good.PGN: "), "{said:?}");
    assert_eq!(said.out.lines().count(), 3, "{said:?}");
    assert!(
        !said.out.contains('\u{1b}') && !said.out.contains("evil"),
        "{said:?}"
    );
}

#[test]
fn an_archive_that_bursts_or_says_that_it_holds_millions_of_files_is_refused_or_read_bit_by_bit() {
    let desk = Desk::new();
    let refused = |name: &str, bytes: Vec<u8>, why: &str| {
        let file = desk.file(name, bytes);
        desk.run(&["games", &file], "").ends(1, &[why]);
    };
    // A thousand times its size, and the game that follows.
    let bomb = [&vec![b' '; 20_000_000][..], GAME].concat();
    let file = desk.file("bomb.zip", archive(&[("a.pgn", &bomb)]));
    assert!(std::fs::metadata(&file).unwrap().len() < 20_500);
    let said = desk.run(&["games", &file, "--player", "quill"], "");
    assert!(said.out.contains("Quill"), "{said:?}");
    // Many names for one text.
    let one = header("a.pgn", &bomb, None);
    let list = header("a.pgn", &bomb, Some(0));
    let lists: Vec<u8> = (0..1000)
        .flat_map(|n| {
            let mut list = list.clone();
            let at = list.len() - 5;
            list[at] = b'a' + u8::try_from(n % 26).unwrap();
            list
        })
        .collect();
    let end_of = |count, list: &[u8]| end(count, list.len(), one.len());
    refused(
        "over.zip",
        [&one[..], &lists, &end_of(1000, &lists)].concat(),
        "lie over each other",
    );
    let many = "more than 50,000 files";
    refused(
        "said.zip",
        [&one[..], &list, &end_of(60_000, &list)].concat(),
        many,
    );
    // The longer end (4.3.14 and 4.3.15) says ten millions.
    let place = one.len() + list.len();
    let counts = [
        number(10_000_000, 8),
        number(10_000_000, 8),
        number(list.len(), 8),
        number(one.len(), 8),
    ]
    .concat();
    let record = [
        b"PK\x06\x06",
        &number(44, 8)[..],
        &[45, 0, 45, 0],
        &[0; 8],
        &counts,
    ]
    .concat();
    let locator = [b"PK\x06\x07\0\0\0\0", &number(place, 8)[..], &number(1, 4)].concat();
    for count in [1, 0xffff] {
        let end = end_of(count, &list);
        refused(
            "longer.zip",
            [&one[..], &list, &record, &locator, &end].concat(),
            many,
        );
    }
    let long = "x".repeat(60_000);
    let names: Vec<String> = (0..200).map(|n| format!("{long}{n}.pgn")).collect();
    let files: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), GAME)).collect();
    refused("names.zip", archive(&files), "names that are too long");
    // What is cut off anywhere does no harm.
    let whole = archive(&[("a.pgn", GAME), ("b.pgn", GAME)]);
    for cut in 4..whole.len() {
        let file = desk.file("cut.zip", &whole[..cut]);
        assert_eq!(desk.run(&["games", &file], "").code, Some(1), "{cut}");
    }
}
