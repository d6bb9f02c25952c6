//! Bad input: one clear message that says what to do, the right exit code, and nothing lost.

use std::fs;
use std::path::Path;

use crate::program::{CLUB, Desk, Said};
use serde_json::{Value, json};

const SHORT: &str = "[White \"Quill, Tamsin\"]\n[Black \"Orrin Vale\"]\n\n1. e4 e5 2. Nf3 Nc6 *\n";

/// Runs a command that nobody replies to, and sees to it that no question was put.
fn refused(desk: &Desk, arguments: &[&str], code: i32, words: &[&str]) {
    let said = desk.run(arguments, "");
    said.ends(code, words);
    assert_eq!(said.out, "", "{arguments:?}");
    assert!(desk.records().is_empty(), "{arguments:?}");
}

#[test]
fn a_file_that_cannot_be_used_is_named_with_the_reason() {
    let desk = Desk::new();
    let empty = desk.file("empty.pgn", "");
    let blank = desk.file("blank.pgn", "\n \n{ only this }\n");
    let binary = desk.file("binary.pgn", [0u8, 159, 146, 150, 0, 1, 2, 3].repeat(1000));
    let missing = desk.path("missing.pgn");
    let missing = missing.to_str().unwrap();
    let folder = desk.path("folder");
    fs::create_dir(&folder).unwrap();
    let folder = folder.to_str().unwrap();
    let under_a_file = format!("{empty}/game.pgn");
    for command in ["replay", "games"] {
        for (file, words) in [
            (missing, "there is no such file: check the name"),
            (
                folder,
                "no PGN file lies in this folder, nor in one in it: put one there",
            ),
            (&empty, "holds no game: give a file of PGN games"),
            (&blank, "holds no game: give a file of PGN games"),
            (&binary, "no PGN but a binary file: give a file of PGN text"),
            (&under_a_file, "empty.pgn/game.pgn: "),
        ] {
            refused(&desk, &[command, file], 1, &["sansvoir: ", file, words]);
        }
        let said = desk.run(&[command, "-"], "");
        said.ends(1, &["(standard input): this file holds no game"]);
    }
    // What comes before the bad file has been listed.
    let said = desk.run(&["games", CLUB, missing], "");
    said.ends(1, &["there is no such file"]);
    assert_eq!(said.out.lines().count(), 16);
}

#[test]
#[cfg(unix)]
fn a_device_without_games_holds_none() {
    let desk = Desk::new();
    refused(
        &desk,
        &["replay", "/dev/null"],
        1,
        &["/dev/null: this file holds no game"],
    );
}

#[test]
fn options_that_make_no_sense_are_usage_errors_with_a_remedy() {
    let desk = Desk::new();
    for (options, words) in [
        ("--game 0", "write 3, 3-7 or all"),
        ("--game 7-3", "7-3 runs backwards: write 3-7"),
        ("--game x", "write 3, 3-7 or all"),
        ("--game 1-", "write 3, 3-7 or all"),
        ("--game 18446744073709551616", "write 3, 3-7 or all"),
        ("--ask whereabout", "a similar value exists: 'whereabouts'"),
        ("--ask atacks", "'attacks'"),
        ("--ask attacks,,moves", "possible values"),
        ("--board emty", "'empty'"),
        ("--side whit", "'white'"),
        ("--every 0", "0 is no whole number from 1 to 1000"),
        ("--questions 21", "21 is no whole number from 1 to 20"),
        (
            "--from 20 --to 3",
            "--from 20. comes after --to 3.: swap them",
        ),
        ("--from x", "write 14 or 14. for White's fourteenth move"),
        ("--from 0", "write 14 or 14. for White's"),
        ("--think 0", "write a number of seconds, as in 5 or 2.5"),
        ("--think inf", "write a number of seconds"),
        ("--think NaN", "write a number of seconds"),
        ("--seed 18446744073709551616", "--seed"),
        ("--since yesterday", "is no date: write a year"),
        ("--until 2026.13", "is no date: write a year"),
        ("--result 2-0", "1/2-1/2"),
        ("--color sometimes", "always"),
        ("--resume --random", "cannot be used with"),
        ("--evry 3", "--every"),
    ] {
        let options: Vec<&str> = options.split(' ').collect();
        refused(
            &desk,
            &[&["replay", CLUB], options.as_slice()].concat(),
            2,
            &[words],
        );
    }
    for words in [
        "drill few --ask taken --plies 0",
        "drill few --ask rights",
        "sheet drill few --ask rights",
        "ahead --ask played --plies 1",
    ] {
        let words: Vec<&str> = words.split(' ').collect();
        refused(
            &desk,
            &words,
            2,
            &["nothing to ask: give --ask another kind"],
        );
    }
    refused(&desk, &["replya", CLUB], 2, &["replay"]);
    refused(
        &desk,
        &["games", CLUB, "--check", "--format", "json"],
        2,
        &["cannot be used"],
    );
}

#[test]
fn moves_and_games_that_are_not_there_are_told_with_those_that_are() {
    let desk = Desk::new();
    for (options, words) in [
        ("--game 99", "there is no game 99: the file holds 16 games"),
        (
            "--from 99",
            "the game has no move 99.: its moves run from 1. to 27.",
        ),
        (
            "--to 27...",
            "the game has no move 27...: its moves run from 1. to 27.",
        ),
        (
            "--player Nobody",
            "none of the 16 games fits: sansvoir games FILE lists them",
        ),
        ("--since 2030", "none of the 16 games fits"),
    ] {
        let options: Vec<&str> = options.split(' ').collect();
        refused(
            &desk,
            &[&["replay", CLUB], options.as_slice()].concat(),
            1,
            &[words],
        );
    }
}

#[test]
fn learners_of_any_name_have_a_journal_in_the_data_folder_and_nowhere_else() {
    let desk = Desk::new();
    for name in ["", "  ", "\u{200b}"] {
        let arguments = ["replay", CLUB, "--learner", name];
        refused(
            &desk,
            &arguments,
            2,
            &["no name that can be seen: name the learner"],
        );
    }
    let long = "x".repeat(500);
    refused(
        &desk,
        &["replay", CLUB, "--learner", &long],
        2,
        &["give a shorter one"],
    );
    let names = [
        "../../up",
        "a/b",
        "..",
        "C:\\x",
        "a\u{1b}[31mb",
        "Zoë",
        "con",
        "--learner=x",
    ];
    for name in names {
        desk.run(&["replay", CLUB, &format!("--learner={name}")], "")
            .ends(0, &[]);
    }
    assert_eq!(
        fs::read_dir(desk.path("data")).unwrap().count(),
        names.len()
    );
    assert_eq!(fs::read_dir(desk.path("")).unwrap().count(), 1);
}

#[test]
fn a_place_where_no_journal_can_be_is_refused_before_anything_is_read() {
    let desk = Desk::new();
    let file = desk.file("file", "");
    for data in [file.clone(), format!("{file}/deeper")] {
        let arguments = ["replay", CLUB, "--data", &data];
        refused(
            &desk,
            &arguments,
            1,
            &[&data, "name another place with --data"],
        );
    }
    fs::create_dir_all(desk.journal()).unwrap();
    let said = desk.run(&["replay", CLUB], "");
    said.ends(1, &["a folder stands where the journal should be"]);
    assert_eq!(said.out, "");
}

#[test]
#[cfg(unix)]
fn a_data_folder_that_may_not_be_written_is_told() {
    use std::os::unix::fs::PermissionsExt;

    let desk = Desk::new();
    let data = desk.path("data");
    fs::create_dir(&data).unwrap();
    fs::set_permissions(&data, fs::Permissions::from_mode(0o500)).unwrap();
    let said = desk.run(&["replay", CLUB], "");
    if fs::write(data.join("probe"), "").is_ok() {
        // No permission binds the superuser.
        said.ends(0, &[]);
    } else {
        said.ends(1, &["make it writable, or name another place with --data"]);
        assert_eq!(said.out, "");
    }
    fs::set_permissions(&data, fs::Permissions::from_mode(0o700)).unwrap();
}

#[test]
#[cfg(target_os = "linux")]
fn a_device_in_the_place_of_the_journal_is_refused_at_once() {
    let desk = Desk::new();
    fs::create_dir(desk.path("data")).unwrap();
    for device in ["/dev/full", "/dev/null", "/dev/tty"] {
        std::os::unix::fs::symlink(device, desk.journal()).unwrap();
        let said = desk.run(&["replay", CLUB], "");
        said.ends(
            1,
            &["something that is no file stands where the journal should be"],
        );
        assert_eq!(said.out, "");
        fs::remove_file(desk.journal()).unwrap();
    }
}

#[test]
#[cfg(target_os = "linux")]
fn nothing_endless_is_merged_into_a_journal() {
    let desk = Desk::new();
    desk.run(&["drill", "color", "--count", "1"], "pass\n")
        .ends(0, &[]);
    let before = desk.records();
    let pipe = desk.path("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.unwrap().success());
    let long = desk.file("long.jsonl", "");
    let file = fs::OpenOptions::new().write(true).open(&long).unwrap();
    file.set_len(1 << 42).unwrap();
    let folder = desk.path("data");
    for (other, words) in [
        ("/dev/zero", "this is a pipe or a device and no file"),
        (
            pipe.to_str().unwrap(),
            "this is a pipe or a device and no file",
        ),
        (&long, "this file is far too long"),
        (
            folder.to_str().unwrap(),
            "this is a folder: name a journal in it",
        ),
    ] {
        desk.run(&["journal", "merge", other], "")
            .ends(1, &[other, words]);
    }
    assert_eq!(desk.records(), before);
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_under_the_output_is_told() {
    let desk = Desk::new();
    for arguments in [
        &["replay", CLUB] as &[&str],
        &["games", CLUB],
        &["--help"],
        &["replay", "--help"],
        &["--version"],
        &[],
    ] {
        let output = desk
            .program(arguments)
            .stdin(std::process::Stdio::null())
            .stdout(
                fs::OpenOptions::new()
                    .write(true)
                    .open("/dev/full")
                    .unwrap(),
            )
            .output()
            .unwrap();
        let err = String::from_utf8(output.stderr).unwrap();
        assert!(err.contains("see whether the disk is full"), "{err}");
        assert_eq!(output.status.code(), Some(1));
    }
}

#[test]
fn a_broken_line_in_the_journal_is_told_and_the_rest_still_counts() {
    let desk = Desk::new();
    desk.run(&["replay", CLUB, "--seed", "208"], "f3\n")
        .ends(0, &[]);
    let whole = fs::read_to_string(desk.journal()).unwrap();
    let (start, rest) = whole.split_once('\n').unwrap();
    let broken = format!("{start}\nmy \u{1b}[31m notes\n{rest}");
    fs::write(desk.journal(), &broken).unwrap();
    let said = desk.run(&["replay", "--resume"], "yes\n");
    said.ends(0, &["line 2 cannot be read", "skipped and left as it is"]);
    assert!(!said.err.contains('\u{1b}'), "{said:?}");
    assert!(
        said.out.contains("is the move d2 to d4 legal now?"),
        "{said:?}"
    );
    assert!(said.out.contains("Right, in "), "{said:?}");
    assert!(
        fs::read_to_string(desk.journal())
            .unwrap()
            .starts_with(&broken)
    );
}

#[test]
fn questions_whose_answers_cannot_be_read_any_more_are_asked_again() {
    let desk = Desk::new();
    let begin = ["replay", CLUB, "--seed", "208"];
    desk.run(&begin, "pass\n".repeat(6)).ends(0, &[]);
    let lines: Vec<String> = fs::read_to_string(desk.journal())
        .unwrap()
        .lines()
        .enumerate()
        .map(|(n, line)| {
            if (4..7).contains(&n) {
                "?\n".to_owned()
            } else {
                format!("{line}\n")
            }
        })
        .collect();
    fs::write(desk.journal(), lines.concat()).unwrap();
    let said = desk.run(&["replay", "--resume"], "pass\n".repeat(99));
    said.ends(0, &["line 5 cannot be read", "line 7 cannot be read"]);
    assert!(said.out.contains("Checkpoint 2 of 7."), "{said:?}");
    assert!(said.out.contains("That is the end."), "{said:?}");
}

#[test]
fn a_journal_of_a_later_version_is_not_touched() {
    let desk = Desk::new();
    fs::create_dir(desk.path("data")).unwrap();
    let newer = "{\"v\":2,\"type\":\"answer\"}\n";
    fs::write(desk.journal(), newer).unwrap();
    let said = desk.run(&["replay", CLUB], "");
    said.ends(
        1,
        &["written by a later version of sansvoir", "use that version"],
    );
    assert_eq!(said.out, "");
    assert_eq!(fs::read_to_string(desk.journal()).unwrap(), newer);
}

#[test]
fn a_torn_line_at_the_end_of_the_journal_is_told_once() {
    let desk = Desk::new();
    desk.run(&["replay", CLUB, "--seed", "208"], "f3\nyes\n")
        .ends(0, &[]);
    let mut text = fs::read_to_string(desk.journal()).unwrap();
    // The end and half of the last answer are lost.
    text.truncate(text.trim_end().rfind('\n').unwrap() - 40);
    fs::write(desk.journal(), &text).unwrap();
    let torn = "The last line of the journal had been cut off";
    let said = desk.run(&["replay", "--resume"], "yes\n");
    said.ends(0, &[]);
    assert_eq!(said.out.matches(torn).count(), 1, "{said:?}");
    assert!(
        said.out.contains("is the move d2 to d4 legal now?"),
        "{said:?}"
    );
    let said = desk.run(&["replay", "--resume"], "pass\n");
    said.ends(0, &[]);
    assert!(!said.out.contains(torn), "{said:?}");
    assert_eq!(said.err, "");
    assert!(said.out.contains("Question 3 of 3."), "{said:?}");
}

#[test]
fn what_is_resumed_is_named_by_its_own_settings_or_by_none() {
    let desk = Desk::new();
    desk.run(&["replay", "--resume"], "")
        .ends(1, &["there is no unfinished replay", "leave out --resume"]);
    let begin = [
        "replay", CLUB, "--game", "2", "--every", "6", "--from", "3", "--seed", "5",
    ];
    desk.run(&begin, "pass\n").ends(0, &[]);
    let before = fs::read(desk.journal()).unwrap();
    let short = desk.file("short.pgn", SHORT);
    for (options, words) in [
        (["--every", "4"], "leave out --every"),
        (["--from", "4"], "leave out --from"),
        (["--to", "9"], "leave out --to"),
        (["--plain", "--sidelines"], "leave out --sidelines"),
        (["--ask", "all"], "leave out --ask"),
        (["--seed", "6"], "leave out --seed"),
        (["--questions", "6"], "leave out --questions"),
        (["--game", "3"], "goes on with game 2 of club-evening.pgn"),
        (
            ["--plain", &short],
            "goes on with game 2 of club-evening.pgn",
        ),
    ] {
        let said = desk.run(&[&["replay", "--resume"], options.as_slice()].concat(), "");
        said.ends(2, &[words]);
        assert_eq!(said.out, "");
        assert_eq!(fs::read(desk.journal()).unwrap(), before);
    }
    let said = desk.run(
        &[&begin as &[&str], &["--resume", "--side", "black"]].concat(),
        "",
    );
    said.ends(0, &[]);
    assert!(said.out.contains("Question 2 of 3."), "{said:?}");
}

#[test]
fn a_game_without_a_move_to_read_is_refused_with_the_reason() {
    let desk = Desk::new();
    for (text, words) in [
        (
            "[White \"A\"]\n\n*\n",
            [":1: game 1: ", "the game has no moves to read"],
        ),
        (
            "[White \"A\"]\n\n1. e5 *\n",
            [
                "game.pgn:3:4: game 1, move 1. \"e5\": ",
                "the game has no moves to read",
            ],
        ),
        (
            "[White \"A\"]\n[Variant \"Atomic\"]\n\n1. e4 e5 *\n",
            [
                "game.pgn:2:1: ",
                "the variant \"Atomic\" is not played here",
            ],
        ),
        (
            "[White \"A\"]\n[SetUp \"1\"]\n[FEN \"8/8/8/8/8/8/8/8 w - - 0 1\"]\n\n1. e4 *\n",
            ["game.pgn:3:1: ", "missing king"],
        ),
        (
            "[SetUp \"1\"]\n[FEN \"7k/5KQ1/8/8/8/8/8/8 b - - 0 1\"]\n\n1... Kh7 *\n",
            [
                "game.pgn:4:6: game 1, move 1... \"Kh7\"",
                "the game has no moves to read",
            ],
        ),
    ] {
        let file = desk.file("game.pgn", text);
        refused(&desk, &["replay", &file], 1, &words);
    }
}

#[test]
fn a_game_with_a_fault_is_kept_up_to_it() {
    let desk = Desk::new();
    let text = SHORT.replace('*', "3. Bb6 a6 4. Ba4 *");
    let file = desk.file("faulty.pgn", text);
    let said = desk.run(&["replay", &file], "");
    said.ends(
        0,
        &[
            "The game is broken: it ends here after Black's move 2 (4 plies)",
            &format!("{file} --game 1 --check tells why."),
        ],
    );
    assert!(
        !said.err.contains("Bb6"),
        "its moves are to be followed unseen"
    );
    assert!(said.out.contains("4 plies will be read"), "{said:?}");
    let said = desk.run(&["games", &file, "--check"], "");
    said.ends(1, &[]);
    assert!(
        said.out
            .contains("faulty.pgn:4:24: game 1, move 3. \"Bb6\": "),
        "{said:?}"
    );
    assert!(said.out.contains("1 broken (moves lost)."), "{said:?}");
}

/// Tags, moves and comments with escape codes, window titles, and marks that turn a line round.
const HOSTILE: &str = "[Event \"\u{1b}]0;title\u{7}\"]\n[White \"\u{1b}[2JQuill\u{202e}\u{9b}31m\"]\n\
    [Black \"V\u{2066}ale\u{8}\u{8}\"]\n[Date \"2026.01.01\u{1b}[1m\"]\n\n\
    1. e4 e5 {\u{1b}[2J} 2. Nf3 \u{1b}[31mNc6\u{202e} \u{7}3. Bb5 *\n";

fn holds_nothing_that_steers(said: &Said) {
    for text in [&said.out, &said.err] {
        let steers = |c: char| (c.is_control() && c != '\n') || "\u{202e}\u{2066}".contains(c);
        assert!(!text.contains(steers), "{said:?}");
    }
}

#[test]
fn nothing_in_a_file_or_its_name_steers_the_terminal() {
    let desk = Desk::new();
    let name = if cfg!(unix) {
        "ho\u{1b}[31m\u{202e}stile.pgn"
    } else {
        "hostile.pgn"
    };
    let file = desk.file(name, HOSTILE);
    for arguments in [
        &["replay", &file] as &[&str],
        &["games", &file],
        &["games", &file, "--check"],
        &["games", &file, "--check", "--plain"],
        &["games", &file, "--format", "json"],
        &["replay", &file, "--from", "99"],
        &["replay", &format!("{file}x")],
    ] {
        let said = desk.run(arguments, "");
        holds_nothing_that_steers(&said);
        assert!(!said.err.contains("panicked"), "{said:?}");
        assert!(format!("{}{}", said.out, said.err).len() > 20, "{said:?}");
    }
    let said = desk.run(&["games", &file, "--check"], "");
    assert_eq!(said.code, Some(1));
    // JSON escapes what it must not show, and loses nothing.
    let said = desk.run(&["games", &file, "--format", "json"], "");
    let entry: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(entry["tags"]["White"], "\u{1b}[2JQuill\u{202e}\u{9b}31m");
}

#[test]
fn a_game_that_stands_on_one_long_line_is_checked_like_any_other() {
    let desk = Desk::new();
    let clocks = "1. Nf3 {[%clk 0:01:00]} Nf6 {[%clk 0:01:00]} 2. Ng1 {[%clk 0:00:58]} Ng8 {[%clk 0:00:59]} ";
    for rounds in 0..24 {
        let text = format!(
            "{}1. Ke4 {} *\n",
            clocks.repeat(rounds),
            clocks.repeat(24 - rounds)
        );
        let file = desk.file("line.pgn", text);
        let said = desk.run(&["games", &file, "--check"], "");
        said.ends(1, &[]);
        let near = if rounds > 0 {
            "0:00:59]} 1. Ke4 1. Nf3 {"
        } else {
            "1. Ke4 1. Nf3 {"
        };
        let excerpt = |line: &str| line.starts_with("1 |") && line.contains(near);
        assert!(said.out.lines().any(excerpt), "{said:?}");
    }
}

#[test]
fn texts_of_any_size_are_read_and_shown_in_a_size_that_can_be_read() {
    let desk = Desk::new();
    let tag = "W".repeat(5_000_000);
    let comment = "so it goes ".repeat(500_000);
    let text = format!("[White \"{tag}\"]\n\n1. e4 {{{comment}}} e5 2. Nf3 *\n");
    let file = desk.file("huge.pgn", text);
    for arguments in [
        &["replay", &file] as &[&str],
        &["games", &file],
        &["games", &file, "--check"],
    ] {
        let said = desk.run(arguments, "");
        said.ends(0, &[]);
        assert!(said.out.len() < 5000, "{} bytes", said.out.len());
    }
    assert!(fs::metadata(desk.journal()).unwrap().len() < 5000);
    let said = desk.run(&["replay", "--resume"], "pass\npass\npass\n");
    said.ends(0, &[]);
    assert!(said.out.contains("That is the end."), "{said:?}");
}

#[test]
fn a_hundred_thousand_nested_sidelines_are_read_and_resumed() {
    let desk = Desk::new();
    let depth = 50_000;
    let text = format!(
        "[White \"A\"]\n\n1. e4 {}{} e5 2. Nf3 Nc6 *\n",
        "(1. d4 (1. e4 ".repeat(depth),
        "))".repeat(depth)
    );
    let file = desk.file("nested.pgn", text);
    let arguments = ["replay", &file, "--sidelines", "--seed", "1", "--plain"];
    let said = desk.run(&arguments, "pass\n");
    said.ends(0, &[]);
    assert!(said.out.contains("100004 plies will be read"), "{said:?}");
    let said = desk.run(&[&arguments as &[&str], &["--resume"]].concat(), "");
    said.ends(0, &[]);
    assert_eq!(said.err, "");
    assert!(said.out.contains("Question 2 of 3."), "{said:?}");
}

#[test]
fn json_is_one_whole_object_a_line() {
    let desk = Desk::new();
    let said = desk.run(
        &["games", CLUB, "games-demo/dialects.pgn", "--format", "json"],
        "",
    );
    said.ends(0, &[]);
    let entries: Vec<Value> = said
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert!(entries.len() > 16);
    assert_eq!(entries[1]["number"], 2);
    assert_eq!(entries[1]["tags"]["White"], "Sandmoen, Leif");
    assert_eq!(entries[16]["number"], 1);
    for entry in &entries {
        for key in [
            "file",
            "line",
            "variant",
            "start",
            "final",
            "plies",
            "sidelines",
            "result",
            "faults",
        ] {
            assert!(entry.get(key).is_some(), "{key} is missing in {entry}");
        }
        let file = fs::read_to_string(
            Path::new(env!("CARGO_MANIFEST_DIR")).join(entry["file"].as_str().unwrap()),
        );
        let line = usize::try_from(entry["line"].as_u64().unwrap()).unwrap();
        assert!(
            file.unwrap()
                .lines()
                .nth(line - 1)
                .unwrap()
                .starts_with(['[', ';', '{', '%']),
            "{entry}"
        );
    }
}

#[test]
fn a_game_in_which_nothing_that_is_wished_for_is_worth_asking_is_read_and_says_so() {
    let desk = Desk::new();
    let asked = |kinds| desk.run(&["replay", CLUB, "--ask", kinds], "");
    let said = asked("rights");
    said.ends(0, &["none of these is worth asking"]);
    assert!(
        said.out
            .contains("53 plies will be read, without a checkpoint.")
    );
    asked("rights,attacks").ends(0, &[]);
}

#[test]
fn the_same_seed_draws_the_same_game() {
    let desk = Desk::new();
    let draw = |seed: &str| {
        let said = desk.run(
            &[
                "games", CLUB, "--random", "--seed", seed, "--format", "json",
            ],
            "",
        );
        said.ends(0, &[]);
        let entry: Value = serde_json::from_str(&said.out).unwrap();
        entry["number"].as_u64().unwrap()
    };
    let drawn: Vec<u64> = (1..=12).map(|seed| draw(&seed.to_string())).collect();
    let again: Vec<u64> = (1..=12).map(|seed| draw(&seed.to_string())).collect();
    assert_eq!(drawn, again);
    assert!(drawn.iter().any(|number| *number != drawn[0]), "{drawn:?}");
    let said = desk.run(&["replay", CLUB, "--random", "--seed", "3"], "");
    said.ends(0, &[]);
    assert_eq!(desk.records()[0]["game"]["number"], json!(drawn[2]));
}

#[test]
fn games_are_found_by_what_their_tags_say() {
    let desk = Desk::new();
    let found = |options: &[&str]| -> Vec<usize> {
        let said = desk.run(&[&["games", CLUB], options].concat(), "");
        said.ends(0, &[]);
        let number = |line: &str| line.split_whitespace().next().unwrap().parse().unwrap();
        said.out.lines().map(number).collect()
    };
    let all: Vec<usize> = (1..=16).collect();
    assert_eq!(found(&[]), all);
    assert_eq!(found(&["--game", "all"]), all);
    assert_eq!(found(&["--game", "3-5"]), [3, 4, 5]);
    assert_eq!(found(&["--game", "15-99"]), [15, 16]);
    assert_eq!(found(&["--player", "leif SANDMOEN", "--game", "2"]), [2]);
    assert!(found(&["--player", "Sandmoen"]).contains(&2));
    assert_eq!(found(&["--until", "2025.10.02"]), [1, 2]);
    assert_eq!(
        found(&["--since", "2025.10.09", "--until", "2025-10-09"]),
        [3, 4]
    );
    assert_eq!(found(&["--opening", "B0"]), [11]);
    assert_eq!(found(&["--result", "0-1", "--until", "2025.10.02"]), [2]);
    assert_eq!(found(&["--event", "ferryhouse"]), all);
}

#[test]
fn where_all_is_plain_games_and_faults_are_told_in_sentences() {
    let desk = Desk::new();
    let listed = desk.run(&["games", CLUB, "--game", "6", "--plain"], "");
    assert_eq!(
        listed.out,
        "6. Hatanobe, Jun against Castagnou, Mireille. Drawn. 16 October 2025. Ferryhouse Club Evening.\n"
    );
    let bad = desk.file("bad.pgn", "1. e4 e5 2. Qx9 Nc6 *\n");
    let checked = desk.run(&["games", &bad, "--check", "--plain"], "");
    checked.ends(1, &[]);
    let place =
        format!("Line 1, column 13 of {bad}, game 1, White's move 2, \"Qx9\": this is no move");
    assert!(checked.out.starts_with(&place), "{checked:?}");
    let lesson = desk.file("week.toml", "[[part]]\nexercise = 7\n");
    let told = desk.run(&["lesson", &lesson, "--plain"], "");
    let place = format!("Line 2, column 12 of {lesson}, \"7\": this is a number");
    told.ends(1, &[&place]);
    for said in [&checked.out, &told.err] {
        assert!(!said.contains(['^', '|']), "{said}");
    }
}

#[test]
fn a_demo_file_comes_from_the_program_where_none_is_on_the_disk_and_that_is_said() {
    let desk = Desk::new();
    let run = |words: &[&str]| {
        let mut command = desk.program(words);
        command.current_dir(desk.path(""));
        Said::of(command, b"")
    };
    let comes = "no such file is here, so the demo file that comes with the program is read.";
    for name in ["games-demo/dialects.pgn", "dialects.pgn"] {
        let said = run(&["games", name]);
        said.ends(0, &[&format!("{name}: {comes}")]);
        assert_eq!(said.out.lines().count(), 5, "{said:?}");
    }
    let said = run(&["lesson", "first-lesson.toml", "--check"]);
    said.ends(0, &[&format!("first-lesson.toml: {comes}")]);
    run(&["games", "elsewhere/dialects.pgn"]).ends(1, &["there is no such file"]);
    // The file on the disk comes first.
    desk.file("dialects.pgn", SHORT);
    let said = run(&["games", "dialects.pgn"]);
    assert_eq!((said.out.lines().count(), said.err.as_str()), (1, ""));
}

#[test]
fn with_no_file_the_config_files_games_are_taken_or_else_a_demo_game() {
    let desk = Desk::new();
    let lists = |player: &str, told: bool| {
        for command in [&["games"][..], &["sheet", "replay"]] {
            let said = desk.run(command, "");
            said.ends(0, &[]);
            assert!(said.out.contains(player), "{command:?}: {said:?}");
            assert_eq!(said.err.contains("No file was named"), told, "{said:?}");
        }
    };
    let trains = |file: &str, told: bool| {
        for command in ["replay", "ahead", "recite"] {
            let said = desk.run(&[command], "");
            said.ends(0, &[]);
            assert_eq!(said.err.contains("No file was named"), told, "{said:?}");
            let records = desk.records();
            let start = records.iter().rfind(|record| record["type"] == "start");
            assert_eq!(start.unwrap()["game"]["file"], file, "{command}");
        }
    };
    lists("Okwuosa", true);
    trains("club-evening.pgn", true);
    let mut command = desk.program(&["replay"]);
    command.current_dir(desk.path(""));
    let said = Said::of(command, b"");
    said.ends(0, &["No file was named"]);
    assert!(
        !said.err.contains("no such file"),
        "nobody named it: {said:?}"
    );
    fs::create_dir_all(desk.path("config/sansvoir")).unwrap();
    let game = "[White \"Quill, Tamsin\"]\n\n1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. Nxe5 Qd4 \
                6. Nf3 Qxe4+ 7. Qe2 Qxe2+ 8. Kxe2 *\n";
    let mine = desk.file("mine.pgn", game);
    desk.file("config/sansvoir/config.toml", format!("games = {mine:?}\n"));
    lists("Quill", false);
    trains("mine.pgn", false);
}

#[test]
fn of_several_files_each_game_is_listed_with_its_file_and_a_folder_is_all_its_games() {
    let desk = Desk::new();
    let folder = desk.path("club");
    fs::create_dir(&folder).unwrap();
    let folder = folder.to_str().unwrap();
    let b = desk.file("club/b.PGN", SHORT);
    let a = desk.file("club/a.pgn", SHORT.replace("Quill", "Abel"));
    desk.file("club/empty.pgn", "");
    desk.file("club/notes.txt", "no games");
    let packed = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/packed/two.pgn.gz");
    let z = desk.path("club/z.pgn.gz");
    fs::copy(packed, &z).unwrap();
    let z = z.to_str().unwrap();
    let said = desk.run(&["games", folder], "");
    said.ends(0, &[]);
    let files: Vec<&str> = said
        .out
        .lines()
        .map(|line| line.split(": ").next().unwrap())
        .collect();
    assert_eq!(files, [&a, &b, z, z], "{said:?}");
    let said = desk.run(&["games", &b, &a, "--player", "abel", "--plain"], "");
    said.ends(0, &[]);
    assert!(said.out.starts_with(&format!("{a}: 1. Abel")), "{said:?}");
    let said = desk.run(&["games", &a], "");
    assert!(
        !said.out.contains("a.pgn"),
        "one file needs no name: {said:?}"
    );
    let said = desk.run(&["replay", folder], "");
    assert!(said.out.starts_with("White: Abel, Tamsin."), "{said:?}");
}

#[test]
fn a_new_learner_among_others_is_told_to_be_new_with_the_names_that_are_near() {
    let desk = Desk::new();
    let drill = |name: &str| {
        desk.run(
            &["drill", "color", "--count", "1", "--learner", name],
            "d\n",
        )
    };
    let first = drill("Annalena");
    assert!(
        !first.err.contains("no journal yet"),
        "nobody else is here: {first:?}"
    );
    drill("Bo");
    let said = drill("Analena");
    said.ends(
        0,
        &["Analena has no journal yet: this is a new name here. Near it: "],
    );
    let told = said.err.to_lowercase();
    assert!(told.ends_with("near it: annalena.\n"), "{said:?}");
    let said = drill("Analena");
    assert!(
        !said.err.contains("no journal yet"),
        "it is known now: {said:?}"
    );
    let said = drill("Timothea");
    said.ends(
        0,
        &["Timothea has no journal yet: this is a new name here.\n"],
    );
}
