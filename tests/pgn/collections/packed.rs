//! Files as the ordinary tools packed them, broken off at any place; and such as ask for much memory.

use std::error::Error as _;
use std::fs;
use std::io::{ErrorKind, Read};
use std::path::Path;

use super::{Desk, PACKINGS, Packing, Passage, alone, unpack};
use sansvoir::pgn::{TooPacked, unpacked};

fn packed(name: &str) -> Vec<u8> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/packed");
    fs::read(folder.join(name)).unwrap()
}

fn many() -> String {
    let game = |number| {
        format!(
            "[Event \"Ferryhouse\"]\n[Round \"{number}\"]\n\n1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 *\n\n"
        )
    };
    (1..=4000).map(game).collect()
}

/// The games before the break, which has to be told.
fn up_to_the_break(bytes: &[u8], what: &str) -> Vec<Passage> {
    let mut read = unpack(bytes).1;
    let last = read.pop().expect("the break is told");
    assert!(last.is_err(), "{what}");
    read.into_iter().map(Result::unwrap).collect()
}

#[test]
fn what_the_ordinary_tools_packed_is_read_up_to_where_it_breaks_off() {
    let games = alone(many().as_bytes());
    let endings = ["gz", "bz2", "xz", "zst"];
    // So much of the text may be packed together in one block, in games.
    let blocks = [50, 100_000 / 76, 50, (128 << 10) / 76];
    for ((packing, ending), block) in PACKINGS.into_iter().zip(endings).zip(blocks) {
        let whole = packed(&format!("many.pgn.{ending}"));
        let read: Vec<_> = unpack(&whole).1.into_iter().map(Result::unwrap).collect();
        assert!(read == games, "{packing}");
        let mut before = 0;
        for cut in (1..32).map(|part| 12 + (whole.len() - 32) * part / 31) {
            let what = format!("{packing} cut at {cut} of {}", whole.len());
            let read = up_to_the_break(&whole[..cut], &what);
            assert!(read == games[..read.len()], "{what}");
            assert!(read.len() >= before, "{what}");
            before = read.len();
        }
        assert!(before + block >= games.len(), "{packing}: {before} games");
        // The first of two streams is read, whatever becomes of the second.
        let joined = [whole.as_slice(), &whole[..whole.len() / 2]].concat();
        let read = up_to_the_break(&joined, "joined");
        assert!(read.len() >= games.len(), "{packing}: {}", read.len());
        assert_eq!(read[..games.len()], games, "{packing}");
    }
}

/// A Zstandard frame (RFC 8878, 3.1.1) with a window of 2 to the power of `log` bytes, of `blocks` blocks
/// that each stand for 128 KiB of the letter x.
pub(super) fn frame(log: u8, blocks: usize) -> Vec<u8> {
    let mut frame = vec![0x28, 0xb5, 0x2f, 0xfd, 0, (log - 10) << 3];
    for _ in 0..blocks {
        let header = (128_u32 << 10) << 3 | 1 << 1;
        frame.extend(&header.to_le_bytes()[..3]);
        frame.push(b'x');
    }
    frame.extend([1, 0, 0]);
    frame
}

/// Lets a stream of `xz` ask for a dictionary of 2 to the power of `log` bytes (The .xz File Format,
/// 3.1 and 5.3.1).
fn with_dictionary(mut stream: Vec<u8>, log: u8) -> Vec<u8> {
    assert_eq!(stream[13..16], [0, 0x21, 1]);
    let end = 12 + usize::from(stream[12]) * 4;
    stream[16] = (log - 12) * 2;
    let checksum = crc32fast::hash(&stream[12..end]);
    stream[end..end + 4].copy_from_slice(&checksum.to_le_bytes());
    stream
}

#[test]
fn what_asks_for_too_much_memory_is_refused_with_what_to_do() {
    let desk = Desk::new();
    let read = |bytes: &[u8]| {
        let mut text = Vec::new();
        let read = unpacked(bytes).unwrap().1.read_to_end(&mut text);
        read.map(|_| text)
    };
    let xz = packed("two.pgn.xz");
    for (packing, tool, ending, usual, large) in [
        (
            Packing::Zstandard,
            "`zstd -dc --long=31 FILE | sansvoir games -`",
            "zst",
            frame(23, 2),
            frame(24, 2),
        ),
        (
            Packing::Xz,
            "`xz -dc FILE | sansvoir games -`",
            "xz",
            with_dictionary(xz.clone(), 26),
            with_dictionary(xz.clone(), 27),
        ),
    ] {
        assert!(!read(&usual).unwrap().is_empty(), "{packing}");
        let error = read(&large).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::OutOfMemory, "{packing}");
        assert!(
            error
                .get_ref()
                .is_some_and(<dyn std::error::Error + Send + Sync>::is::<TooPacked>)
        );
        assert!(error.source().is_none(), "the sentence says all");
        let file = desk.file(&format!("large.{ending}"), &large);
        let said = desk.run(&["games", &file], "");
        said.ends(1, &[&format!("large.{ending}: to unpack this"), tool]);
        assert!(!said.err.contains("damaged"), "{said:?}");
    }
}

#[test]
fn of_an_xz_file_that_breaks_off_nearly_all_up_to_there_is_read() {
    // What hardly packs, so that the file has several pieces of 64 KiB, each packed for itself.
    let mut text = Vec::new();
    for number in 0..60_000_u32 {
        let hash = crc32fast::hash(&number.to_le_bytes());
        text.extend(format!("{hash:08x}").bytes());
    }
    let options = lzma_rust2::XzOptions::with_preset(1);
    let mut out = lzma_rust2::XzWriter::new(Vec::new(), options).unwrap();
    std::io::Write::write_all(&mut out, &text).unwrap();
    let mut packed = out.finish().unwrap();
    assert!(packed.len() > 3 << 16, "{}", packed.len());
    let whole = packed.len();
    packed.truncate(whole / 100 * 60);
    let mut read = Vec::new();
    let mut unpacked = unpacked(&packed[..]).unwrap().1;
    assert!(unpacked.read_to_end(&mut read).is_err());
    assert!(text.starts_with(&read));
    assert!(read.len() > text.len() / 100 * 59, "{}", read.len());
}

/// Made with Python's zipfile: one file deflated in a folder, one stored, one that is none of games, one whose name
/// leads out of the archive.
#[test]
fn an_archive_is_all_files_of_games_in_it_and_each_keeps_its_name() {
    let desk = Desk::new();
    let zip = "tests/packed/games.zip";
    let said = desk.run(&["games", zip], "");
    said.ends(0, &[]);
    assert!(
        said.out.contains("games.zip/b.pgn: ") && said.out.contains("games.zip/club/a.pgn: "),
        "{said:?}"
    );
    assert!(
        !said.out.contains("Evil") && said.out.lines().count() == 2,
        "{said:?}"
    );
    let said = desk.run(&["games", zip, "--check"], "");
    assert!(
        said.out.contains("games.zip/b.pgn:3:13: game 1"),
        "{said:?}"
    );
    let mut bytes = std::fs::read(zip).unwrap();
    let at = bytes.windows(3).position(|part| part == b"Nf4").unwrap();
    bytes[at] = b'K';
    let damaged = desk.file("damaged.zip", bytes);
    desk.run(&["games", &damaged, "--check"], "")
        .ends(1, &["its checksum does not agree"]);
    let said = desk.run(&["replay", &format!("{zip}/club/a.pgn"), "--plain"], "");
    assert!(said.out.contains("Ana"), "{said:?}");
}
