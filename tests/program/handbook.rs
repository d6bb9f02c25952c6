//! The handbook: every command in it and in README runs; every command's help and every error lead there.

use std::fs;
use std::path::Path;

use crate::program::{Desk, Said};

/// The commands, and the other pages.
const COMMANDS: [&str; 12] = [
    "replay", "ahead", "recite", "play", "drill", "lesson", "games", "sheet", "progress",
    "journal", "setup", "help",
];
const SUBJECTS: [&str; 8] = [
    "start", "kinds", "replies", "pgn", "by-ear", "coach", "config", "words",
];

fn page(topic: &str) -> String {
    fs::read_to_string(format!("src/voice/handbook/{topic}.md")).unwrap()
}

/// The commands of this program that stand on lines of their own, each as its words.
fn commands(text: &str) -> Vec<Vec<&str>> {
    let lines = text.lines().filter_map(|line| line.strip_prefix("    "));
    let lines = lines.filter(|line| line.split(' ').next() == Some("sansvoir"));
    lines
        .map(|line| line.split_whitespace().skip(1).collect())
        .collect()
}

/// Runs a command where the desk's files are, with a reply for every question that may come.
fn run(desk: &Desk, words: &[&str]) -> Said {
    let mut command = desk.program(words);
    command.current_dir(desk.path(""));
    let said = Said::of(command, "pass\n".repeat(400).as_bytes());
    said.ends(0, &[]);
    said
}

#[test]
fn every_command_of_the_handbook_runs_from_an_empty_folder() {
    for topic in COMMANDS.into_iter().chain(SUBJECTS) {
        let (page, desk) = (page(topic), Desk::new());
        if topic == "start" {
            desk.file("my-games.pgn", "1. e4 e5 2. Nf3 Nc6 *\n");
        }
        let commands = commands(&page);
        assert!(!commands.is_empty() || ["replies", "words"].contains(&topic));
        for words in commands {
            let said = run(&desk, &words);
            let is_written = ["--out", "--export"].iter().any(|to| words.contains(to));
            assert!(is_written || !said.out.is_empty(), "{words:?}: {said:?}");
        }
    }
}

#[test]
fn every_command_of_the_readme_runs_from_an_empty_folder_with_the_game_that_it_tells() {
    let readme = fs::read_to_string("README.md").unwrap();
    let desk = Desk::new();
    let (_, game) = readme.split_once("`1. e4 ").expect("a game to type");
    let (game, _) = game.split_once('`').unwrap();
    desk.file("my-games.pgn", format!("1. e4 {game}\n"));
    let commands = commands(&readme);
    assert!(commands.len() >= 8, "{commands:?}");
    for words in commands {
        run(&desk, &words);
    }
    for block in readme.split("```toml\n").skip(1) {
        let (lesson, _) = block.split_once("```").unwrap();
        desk.file("lesson.toml", lesson);
        run(&desk, &["lesson", "lesson.toml", "--check"]);
    }
}

#[test]
fn the_lesson_in_the_handbook_is_ready_to_be_held() {
    let (page, desk) = (page("coach"), Desk::new());
    let (_, lesson) = page.split_once("```toml\n").unwrap();
    desk.file("tuesday.toml", lesson.split_once("```").unwrap().0);
    run(&desk, &["lesson", "tuesday.toml", "--check"]);
}

#[test]
fn every_page_is_shown_by_its_word_and_listed_without_one() {
    let desk = Desk::new();
    let list = run(&desk, &["help"]).out;
    for topic in COMMANDS.into_iter().chain(SUBJECTS) {
        let title = page(topic).lines().next().unwrap()[2..].to_owned();
        assert!(
            list.lines()
                .any(|line| line.starts_with(&format!("  {topic}: "))),
            "{topic}"
        );
        assert!(list.contains(&title), "{topic}");
        let shown = run(&desk, &["help", topic]).out;
        assert!(shown.starts_with(&title), "{topic}");
        assert!(
            !shown.contains(['`', '\u{1b}']) && !shown.contains("|--"),
            "{topic}"
        );
        let plain = run(&desk, &["help", topic, "--plain"]).out;
        assert!(
            plain.starts_with(&title) && !plain.contains("```"),
            "{topic}"
        );
    }
    let files = fs::read_dir("src/voice/handbook").unwrap();
    let pages = files.filter(|file| {
        let path = file.as_ref().unwrap().path();
        path.extension().is_some_and(|ending| ending == "md")
    });
    assert_eq!(pages.count(), COMMANDS.len() + SUBJECTS.len());
    let said = desk.run(&["help", "replya"], "");
    said.ends(2, &["'replay'", "sansvoir help help"]);
}

#[test]
fn a_page_and_progress_are_read_aloud() {
    let desk = Desk::new();
    let heard = desk.path("heard.txt");
    let command = format!("sh -c 'cat >> \"{}\"; echo >> \"{0}\"'", heard.display());
    if !cfg!(unix) {
        return;
    }
    run(&desk, &["help", "games", "--speech", &command]);
    let heard = fs::read_to_string(heard).unwrap();
    assert!(heard.contains("List and find games"), "{heard}");
    assert!(heard.contains("Strict reading"), "{heard}");
    assert!(!heard.contains('`'), "{heard}");
    run(&desk, &["progress", "--speech", &command]);
    let heard = fs::read_to_string(desk.path("heard.txt")).unwrap();
    assert!(heard.contains("learner has no answer yet"), "{heard}");
}

#[test]
fn the_short_help_of_every_command_is_one_screen_with_its_examples_first() {
    let desk = Desk::new();
    let mut pages = vec![vec!["-h"]];
    pages.extend(COMMANDS.map(|command| vec![command, "-h"]));
    for exercise in ["replay", "ahead", "drill"] {
        pages.push(vec!["sheet", exercise, "-h"]);
    }
    for words in pages {
        let said = run(&desk, &words).out;
        // The prompt of the shell needs a line too.
        let lines = said.lines().map(|line| line.len().max(1).div_ceil(80));
        assert!(lines.sum::<usize>() <= 23, "{words:?}: {said}");
        assert_eq!(said.lines().nth(2), Some("Examples:"), "{words:?}: {said}");
        let tells = format!(
            "sansvoir help {}",
            if words.len() > 1 { words[0] } else { "start" }
        );
        assert!(said.contains(&tells), "{words:?}: {said}");
        let all = run(&desk, &[&words[..words.len() - 1], &["--help"]].concat()).out;
        assert!(
            all.contains("The folder of the journals") && all.contains(&tells),
            "{all}"
        );
    }
}

#[test]
fn every_error_names_the_page_that_tells_more() {
    let desk = Desk::new();
    let lesson = desk.file("week.toml", "[[part]]\nexercise = 7\n");
    for (words, code, topic) in [
        (&["replay", "none.pgn"][..], 1, "replay"),
        (&["games", "--bad"], 2, "games"),
        (&["drill"], 2, "drill"),
        (&["drill", "collor"], 2, "drill"),
        (&["journal", "merge", "none.jsonl"], 1, "journal"),
        (&["lesson", &lesson], 1, "lesson"),
        (&["lesson", &lesson, "--plain"], 1, "lesson"),
        (&["replya"], 2, "start"),
    ] {
        let said = desk.run(words, "");
        said.ends(code, &[&format!("sansvoir help {topic}")]);
        assert!(!said.err.contains("--help"), "{said:?}");
    }
    desk.wishes("nonsense");
    desk.run(&["progress"], "")
        .ends(1, &["sansvoir help config"]);
}

#[test]
fn bare_drill_tells_every_kind_in_a_line() {
    let said = Desk::new().run(&["drill"], "");
    for kind in sansvoir::question::Kind::BARE {
        let told = format!("  {kind}: ");
        let line = said.err.lines().find(|line| line.starts_with(&told));
        assert!(line.is_some_and(|line| line.len() < 80), "{kind}: {said:?}");
    }
    assert!(said.err.contains("  few: "), "{said:?}");
}

#[test]
fn a_newcomer_reaches_a_checkpoint_of_an_own_game_with_three_commands_each_named_by_the_one_before()
{
    let desk = Desk::new();
    let game = fs::read_to_string(Path::new("games-demo/first-steps.pgn")).unwrap();
    desk.file("my-games.pgn", game);
    let own = |said: &str| {
        let commands = said
            .lines()
            .filter_map(|line| line.trim().strip_prefix("sansvoir "));
        let own = commands.filter(|line| line.contains("my-games.pgn"));
        own.map(str::to_owned).collect::<Vec<_>>()
    };
    let first = run(&desk, &[]).out;
    let [lists, reads] = &own(&first)[..] else {
        panic!("{first}");
    };
    let listed = run(&desk, &lists.split(' ').collect::<Vec<_>>()).out;
    assert!(listed.contains("   3  "), "{listed}");
    let read = run(&desk, &reads.split(' ').collect::<Vec<_>>()).out;
    assert!(read.contains("Checkpoint 1 of "), "{read}");
}
