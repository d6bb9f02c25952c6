//! The config file: what it says, what comes before it, and where it is at fault.

use crate::program::{CLUB, Desk, Said};

/// Runs the program with a config file of this text.
fn with(desk: &Desk, config: &str, arguments: &[&str], input: &str) -> Said {
    let file = desk.file("wishes.toml", config);
    let mut command = desk.program(arguments);
    command.env("SANSVOIR_CONFIG", file);
    Said::of(command, input.as_bytes())
}

const REPLAY: [&str; 6] = ["replay", CLUB, "--game", "1", "--seed", "208"];

#[test]
fn a_wish_stands_where_no_option_tells_otherwise() {
    let desk = Desk::new();
    let said = with(&desk, "announce = \"san\"", &REPLAY, "");
    said.ends(0, &[]);
    assert!(said.out.contains("1. e4 e5"), "{said:?}");
    let board = |told: &[&str]| {
        let told = [&REPLAY[..], told].concat();
        with(
            &desk,
            "announce = \"long\"\nview = \"black\"",
            &told,
            "look\n",
        )
        .out
    };
    assert!(board(&[]).contains("1. e2-e4 e7-e5"));
    assert!(board(&[]).contains("h  g  f  e"));
    assert!(board(&["--side", "white"]).contains("a  b  c  d"));
}

#[test]
fn the_learner_of_the_config_file_keeps_the_journal() {
    let desk = Desk::new();
    let drill = ["drill", "color", "--count", "1"];
    with(&desk, "learner = \"Ana\"", &drill, "light\n").ends(0, &[]);
    assert!(desk.path("data").join("ana.jsonl").exists());
    let mut told = drill.to_vec();
    told.extend(["--learner", "Ben"]);
    with(&desk, "learner = \"Ana\"", &told, "light\n").ends(0, &[]);
    assert!(desk.path("data").join("ben.jsonl").exists());
}

#[test]
fn color_is_told_by_the_option_then_the_environment_then_the_config_file() {
    let desk = Desk::new();
    let colored = |said: &Said| said.out.contains('\u{1b}');
    let drill = ["drill", "color", "--count", "1"];
    assert!(colored(&with(&desk, "color = \"always\"", &drill, "d\n")));
    let file = desk.file("wishes.toml", "color = \"always\"");
    let run = |arguments: &[&str]| {
        let mut command = desk.program(arguments);
        command.env("SANSVOIR_CONFIG", &file).env("NO_COLOR", "1");
        Said::of(command, b"d\n")
    };
    assert!(!colored(&run(&drill)));
    let told = [&drill[..], &["--color", "always"]].concat();
    assert!(colored(&run(&told)));
}

#[test]
fn plain_can_be_wished_for_and_taken_back() {
    let desk = Desk::new();
    let config = "plain = true\ncolor = \"always\"";
    let drill = ["drill", "color", "--count", "1"];
    assert!(!with(&desk, config, &drill, "d\n").out.contains('\u{1b}'));
    let told = [&drill[..], &["--plain=false"]].concat();
    assert!(with(&desk, config, &told, "d\n").out.contains('\u{1b}'));
}

#[test]
fn a_think_time_of_the_config_file_makes_late_what_its_kind_takes_longer_for() {
    let desk = Desk::new();
    let timed = |config: &str, arguments: &[&str]| {
        let file = desk.file("wishes.toml", config);
        let mut command = desk.program(arguments);
        command.env("SANSVOIR_CONFIG", file);
        let mut child = command
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(std::time::Duration::from_millis(700));
        let mut stdin = child.stdin.take().unwrap();
        std::io::Write::write_all(&mut stdin, b"pass\n").unwrap();
        drop(stdin);
        child.wait().unwrap();
        let records = desk.records();
        let mut answers = records.iter().filter(|record| record["type"] == "answer");
        let answer = answers.next_back().unwrap();
        (answer["think"].as_u64(), answer["late"] == true)
    };
    let drill = ["drill", "color", "--count", "1"];
    assert_eq!(timed("[think]\ncolor = 0.1", &drill), (Some(100), true));
    assert_eq!(timed("[think]\nname = 0.1", &drill), (Some(5_000), false));
    let told = [&drill[..], &["--think", "30"]].concat();
    assert_eq!(timed("[think]\ncolor = 0.1", &told), (Some(30_000), false));
    let few = [
        "drill", "few", "--ask", "occupant", "--plies", "0", "--count", "1",
    ];
    assert_eq!(timed("[think]\noccupant = 0.1", &few), (Some(100), true));
    assert_eq!(timed("[think]\ncolor = 0.1", &few), (None, false));
}

#[test]
fn a_fault_tells_file_line_and_column_and_what_to_do() {
    let desk = Desk::new();
    for (config, words) in [
        (
            "lerner = \"Ana\"",
            "wishes.toml:1:1: there is no key \"lerner\" here: take one of games, learner",
        ),
        (
            "view = \"white\"\nannounce = \"loud\"",
            "wishes.toml:2:12: announce: \"loud\" is unknown: take one of words, san",
        ),
        (
            "plain = \"yes\"",
            "wishes.toml:1:9: this is a text: write true or false",
        ),
        (
            "games = 3",
            "wishes.toml:1:9: games: write texts in brackets",
        ),
        (
            "games = [\"a.pgn\", 3]",
            "wishes.toml:1:9: games: write texts in brackets",
        ),
        (
            "[think]\ncolor = -1",
            "wishes.toml:2:9: color: write a number of seconds",
        ),
        (
            "[think]\ncolour = 4",
            "wishes.toml:2:1: there is no key \"colour\" here",
        ),
        ("think = 4", "wishes.toml:1:9: write think times as a table"),
        ("learner = \" \"", "wishes.toml:1:11: "),
        (
            "speech = []",
            "wishes.toml:1:10: speech: name the program first",
        ),
        (
            "speech_file = [\"espeak-ng\", \"-w\"]",
            "wishes.toml:1:15: speech_file: write FILE",
        ),
        (
            "by = \"plly\"",
            "wishes.toml:1:6: by: \"plly\" is unknown: take one of ply, move, checkpoint",
        ),
        (
            "trail = 65536",
            "wishes.toml:1:9: trail: 65536 is no whole number from 0 to 65535",
        ),
        (
            "list = \"file\"",
            "wishes.toml:1:8: list: \"file\" is unknown",
        ),
        ("letters = \"klingon\"", "wishes.toml:1:11: letters: "),
        (
            "view = 3",
            "wishes.toml:1:8: view: take one of white, black",
        ),
        (
            "announce = true",
            "wishes.toml:1:12: announce: take one of words, san",
        ),
        (
            "color = 1",
            "wishes.toml:1:9: color: take one of auto, always, never",
        ),
        ("list = []", "wishes.toml:1:8: list: take one of "),
        (
            "by = 2",
            "wishes.toml:1:6: by: take one of ply, move, checkpoint",
        ),
        ("files = 2", "wishes.toml:1:9: files: take one of "),
        (
            "lerner = 1\nview = 3\nplain = 2\n[think]\ncolour = 4",
            "wishes.toml:3:9: ",
        ),
        (
            "lerner = 1\nview = 3\nplain = 2\n[think]\ncolour = 4",
            "wishes.toml:5:1: ",
        ),
        ("view = white", "wishes.toml:1:8: "),
        ("view = \"white\"\nview = \"black\"", "wishes.toml:2:1: "),
        ("plain = ", "wishes.toml:1:9: "),
    ] {
        let said = with(&desk, config, &["drill", "color"], "");
        said.ends(1, &[words]);
        with(&desk, config, &["help", "config"], "").ends(0, &[]);
        with(&desk, config, &["setup", "config"], "").ends(0, &[]);
        assert!(said.err.contains('^'), "{said:?}");
    }
}

#[test]
fn a_config_file_that_was_named_must_be_there_and_be_text() {
    let desk = Desk::new();
    let run = |file: &str| {
        let mut command = desk.program(&["drill", "color"]);
        command.env("SANSVOIR_CONFIG", file);
        Said::of(command, b"")
    };
    let nowhere = desk.path("nowhere.toml");
    run(nowhere.to_str().unwrap()).ends(1, &["nowhere.toml", "there is no such file"]);
    let mut help = desk.program(&["help", "start"]);
    help.env("SANSVOIR_CONFIG", &nowhere);
    Said::of(help, b"").ends(0, &[]);
    run(desk.path("").to_str().unwrap()).ends(1, &["this is a folder"]);
    run(&desk.file("latin.toml", b"learner = \"Andr\xe9\"")).ends(1, &["save it as UTF-8"]);
    // Where nobody named one, none is needed; and help comes before any trouble with it.
    desk.run(&["drill", "color", "--count", "1"], "d\n")
        .ends(0, &[]);
    with(&desk, "nonsense", &["drill", "--help"], "").ends(0, &[]);
}

#[test]
fn the_config_file_is_looked_for_in_the_users_config_folder() {
    let desk = Desk::new();
    std::fs::create_dir_all(desk.path("config/sansvoir")).unwrap();
    desk.file("config/sansvoir/config.toml", "learner = \"Ana\"");
    desk.run(&["drill", "color", "--count", "1"], "d\n")
        .ends(0, &[]);
    assert!(desk.path("data").join("ana.jsonl").exists());
}

#[test]
fn own_games_are_kept_in_the_config_file_whose_comments_stay() {
    let desk = Desk::new();
    let config = desk.file(
        "wishes.toml",
        "# mine\nplain = true # always\n\n[think]\ncolor = 3\n",
    );
    let run = |arguments: &[&str]| {
        let mut command = desk.program(arguments);
        command.env("SANSVOIR_CONFIG", &config);
        Said::of(command, b"")
    };
    let one = desk.file("one.pgn", "[White \"Ana\"]\n\n1. e4 *\n");
    let two = desk.file("two.pgn", "[White \"Ben\"]\n\n1. d4 *\n");
    run(&["games", "--add", &one, &two]).ends(0, &[]);
    let text = std::fs::read_to_string(&config).unwrap();
    assert!(
        text.contains("# mine\nplain = true # always\n") && text.contains("[think]\ncolor = 3"),
        "{text}"
    );
    let said = run(&["games"]);
    assert!(
        said.out.contains("Ana") && said.out.contains("Ben"),
        "{said:?}"
    );
    std::fs::remove_file(&two).unwrap();
    let said = run(&["games"]);
    said.ends(
        0,
        &[
            "two.pgn: there is no such file",
            "is left out of your own games",
        ],
    );
    let lost = desk.file("two.pgn", "{The games stood here.}\n");
    for command in ["games", "lesson"] {
        run(&[command]).ends(0, &["holds no game", "is left out of your own games"]);
    }
    std::fs::remove_file(&lost).unwrap();
    // Where none is left the demo games are taken, and what holds no game is not taken up.
    let empty = desk.file("empty.pgn", "");
    let script = desk.file("script.sh", "#!/bin/sh\necho so\n");
    for no_games in [empty, script] {
        run(&["games", "--add", &no_games]).ends(1, &["holds no game"]);
    }
    std::fs::create_dir_all(desk.path("sub/below")).unwrap();
    let up = desk.path("sub").join("..").join("one.pgn");
    run(&["games", "--add", up.to_str().unwrap()]).ends(0, &[]);
    assert_eq!(
        std::fs::read_to_string(&config)
            .unwrap()
            .matches("one.pgn")
            .count(),
        1
    );
    std::fs::rename(&one, desk.path("sub/below/one.pgn")).unwrap();
    let empty = desk.file("two.pgn", "");
    run(&["games"]).ends(0, &["two.pgn: this file holds no game"]);
    std::fs::remove_file(&empty).unwrap();
    let demo = run(&["games"]);
    assert!(
        demo.err.contains("left out") && demo.out.contains("Ferryhouse"),
        "{demo:?}"
    );
    assert!(
        run(&["games", desk.path("sub").to_str().unwrap()])
            .out
            .contains("Ana")
    );
    std::fs::rename(desk.path("sub/below/one.pgn"), &one).unwrap();
    run(&["games", "--remove", &one, &two]).ends(0, &[]);
    let text = std::fs::read_to_string(&config).unwrap();
    assert!(
        !text.contains("games") && text.contains("# always"),
        "{text}"
    );
    run(&["games", "--remove", &one]).ends(1, &["none of your own games"]);
    // A file that was named and is not there yet is made, and asked for by every other command.
    std::fs::remove_file(&config).unwrap();
    run(&["games"]).ends(1, &["wishes.toml"]);
    run(&["setup", "config"]).ends(0, &[]);
    run(&["games", "--add", &one]).ends(0, &[]);
    assert!(run(&["games"]).out.contains("Ana"));
}
