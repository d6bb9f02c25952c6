//! Indexes that are damaged, in the way, exchanged or without room.

use std::fs;
use std::io::Cursor;
use std::ops::ControlFlow;
use std::process::Command;
use std::time::{Duration, SystemTime};

use super::{LOOKUPS, Library, Said, many};
use sansvoir::notation::{Collection, Field, Finder, Index, IndexWriter, Search};

const KEY: &[u8] = b"the file as it is now";

fn index(text: &str) -> Vec<u8> {
    let mut writer = IndexWriter::new(Vec::new(), KEY).unwrap();
    let mut collection = Collection::new(text.as_bytes());
    while let Some(block) = collection.block(Vec::new()) {
        writer.add(&block.unwrap()).unwrap();
    }
    writer.finish(true).unwrap()
}

/// All that an index tells, and whether it could be read to its end; `None` where it is none.
fn told(bytes: &[u8]) -> Option<(Vec<String>, bool)> {
    let mut index = Index::open(Cursor::new(bytes), KEY)?;
    assert!(index.is_as_written());
    let mut told = Vec::new();
    let everything = Finder::new(&Search::default());
    let read = index.find(&everything, &(1..=usize::MAX), true, |entry| {
        let white = entry.heading.get(Field::White);
        told.push(format!("{white:?} {:?}", entry.span));
        ControlFlow::Continue(())
    });
    Some((told, read.is_ok()))
}

#[test]
fn an_index_cut_off_or_changed_anywhere_tells_nothing_that_is_wrong() {
    let whole = index(&many(30));
    let (games, is_whole) = told(&whole).unwrap();
    assert!(is_whole && games.len() == 30);
    let (mut none, mut part) = (0, 0);
    let mut tell = |bytes: &[u8], what: &str| match told(bytes) {
        None => none += 1,
        Some((found, is_whole)) => {
            assert!(!is_whole, "{what} goes unnoticed");
            assert_eq!(found, games[..found.len()], "{what}");
            part += 1;
        }
    };
    for len in 0..whole.len() {
        tell(&whole[..len], &format!("{len} bytes of {}", whole.len()));
    }
    // What is never read of a whole index may change: here every field is listed save three.
    let unread = [Field::Site, Field::Eco, Field::Opening, Field::Variation];
    let columns = 8 + 4 + KEY.len();
    let unread: Vec<_> = unread
        .map(|field| columns + field as usize * 120..columns + (field as usize + 1) * 120)
        .into();
    for at in (0..whole.len()).filter(|at| !unread.iter().any(|part| part.contains(at))) {
        for bit in [0x01, 0x80] {
            let mut changed = whole.clone();
            changed[at] ^= bit;
            tell(&changed, &format!("byte {at}"));
        }
    }
    assert!(none > 0 && part > 0, "{none} {part}");
}

#[test]
fn a_file_put_in_the_place_of_another_has_no_index_yet() {
    let library = Library::new();
    let options = &["--player", "Zwoll"];
    let run = || Said::of(library.program(&library.desk.path("cache"), options), b"");
    run().ends(1, &["none of the 6000 games fits"]);
    // As long, and as old.
    let text = library.text.replacen("Player 50", "Zwoll  50", 1);
    let other = library.desk.file("other.pgn", text);
    let time = fs::metadata(&library.file).unwrap().modified().unwrap();
    let file = fs::File::options().write(true).open(&other).unwrap();
    file.set_modified(time).unwrap();
    fs::rename(other, &library.file).unwrap();
    for _ in 0..2 {
        let said = run();
        said.ends(0, &[]);
        assert_eq!(said.out.lines().count(), 1);
    }
}

#[test]
fn a_cache_folder_that_goes_meanwhile_is_no_loss() {
    let library = Library::new();
    let cache = library.desk.path("cache");
    let expected = library.run("other cache", LOOKUPS[0]);
    let (stop, stopped) = std::sync::mpsc::channel::<()>();
    let removing = {
        let cache = cache.clone();
        std::thread::spawn(move || {
            while stopped.try_recv().is_err() {
                let _ = fs::remove_dir_all(&cache);
            }
        })
    };
    for _ in 0..20 {
        assert_eq!(library.run("cache", LOOKUPS[0]), expected);
    }
    stop.send(()).unwrap();
    removing.join().unwrap();
}

#[test]
fn an_index_that_is_written_makes_room_and_one_that_is_used_counts_as_new() {
    let library = Library::new();
    library.run("cache", LOOKUPS[0]);
    let [index] = library.indexes("cache").try_into().unwrap();
    let days = |days: u64| SystemTime::now() - Duration::from_hours(24 * days);
    let age = |file: &std::path::Path, then: SystemTime| {
        let file = fs::File::options().write(true).open(file).unwrap();
        file.set_modified(then).unwrap();
    };
    // Used again, it is as good as new.
    age(&index, days(9));
    library.run("cache", LOOKUPS[0]);
    let modified = fs::metadata(&index).unwrap().modified().unwrap();
    assert!(modified > days(1));
    // What a killed process left goes when the next index is written.
    let folder = index.parent().unwrap();
    let left = folder.join("0123456789abcdef.4711");
    let young = folder.join("0123456789abcdef.4712");
    let letter = folder.join("letter.txt");
    for file in [&left, &young, &letter] {
        fs::write(file, "").unwrap();
    }
    age(&left, days(2));
    age(&letter, days(900));
    library.run("cache", LOOKUPS[0]);
    assert!(left.exists(), "nothing was written");
    fs::remove_file(&index).unwrap();
    library.run("cache", LOOKUPS[0]);
    assert!(!left.exists() && young.exists() && letter.exists() && index.exists());
}

#[test]
#[cfg(unix)]
fn a_pipe_in_the_place_of_an_index_is_no_index() {
    let library = Library::new();
    let expected = library.run("cache", LOOKUPS[0]);
    let [index] = library.indexes("cache").try_into().unwrap();
    fs::remove_file(&index).unwrap();
    let made = Command::new("mkfifo").arg(&index).status();
    assert!(made.unwrap().success());
    assert_eq!(library.run("cache", LOOKUPS[0]), expected);
}

/// Runs the program with a file system of its own in the place of the cache folder, where the system
/// lets us mount one.
fn in_cache_of(library: &Library, mount: &str, options: &[&str]) -> Option<Said> {
    let cache = library.desk.path("small cache");
    let _ = fs::create_dir_all(&cache);
    let script = format!(
        "mount -t tmpfs -o {mount} tmpfs \"$XDG_CACHE_HOME\" || exit 99; \"$@\"; code=$?; \
         find \"$XDG_CACHE_HOME\" -type f >&2; exit $code"
    );
    let program = library.program(&cache, options);
    [
        ["--mount", "--"].as_slice(),
        &["--mount", "--map-root-user", "--"],
    ]
    .iter()
    .find_map(|namespace| {
        let mut command = Command::new("unshare");
        command
            .args(*namespace)
            .args(["sh", "-c", &script, "sh"])
            .arg(program.get_program())
            .args(program.get_args());
        library.desk.place(&mut command);
        command.env("XDG_CACHE_HOME", &cache);
        let found = command.output().ok()?;
        let said = Said {
            code: found.status.code(),
            out: String::from_utf8(found.stdout).unwrap(),
            err: String::from_utf8(found.stderr).unwrap(),
        };
        // Neither the tool nor the mount may fail for us to see anything.
        (said.code != Some(99) && !said.err.contains("unshare")).then_some(said)
    })
}

#[test]
#[cfg(target_os = "linux")]
fn a_cache_folder_that_is_full_or_read_only_is_no_loss() {
    let library = Library::new();
    let expected = library.run("cache", LOOKUPS[0]);
    let Some(roomy) = in_cache_of(&library, "size=64m", LOOKUPS[0]) else {
        eprintln!("not tried: no file system can be mounted here");
        return;
    };
    // With room there is an index: so the others show what they should.
    assert_eq!((roomy.code, &roomy.out), (Some(0), &expected));
    assert_eq!(roomy.err.lines().count(), 1, "{roomy:?}");
    for mount in ["size=64k", "size=4k", "ro"] {
        let said = in_cache_of(&library, mount, LOOKUPS[0]).unwrap();
        assert_eq!((said.code, &said.out), (Some(0), &expected), "{mount}");
        assert_eq!(said.err, "", "{mount}: nothing is said and nothing is left");
    }
}
