//! The program as a process of its own, with a data folder that nobody else uses.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

pub(crate) const CLUB: &str = "games-demo/club-evening.pgn";

/// A learner's place: a folder for the journals and one for files.
pub(crate) struct Desk {
    folder: TempDir,
}

impl Desk {
    pub(crate) fn new() -> Desk {
        Desk {
            folder: TempDir::new().unwrap(),
        }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Puts a file on the desk and returns its path.
    pub(crate) fn file(&self, name: &str, text: impl AsRef<[u8]>) -> String {
        fs::write(self.path(name), text).unwrap();
        self.path(name).to_str().unwrap().to_owned()
    }

    /// Writes the config file.
    pub(crate) fn wishes(&self, text: &str) {
        fs::create_dir_all(self.path("config/sansvoir")).unwrap();
        self.file("config/sansvoir/config.toml", text);
    }

    /// The program with nothing in its environment that changes how it looks, and with a seed where none is given:
    /// a test that fails can be run again.
    pub(crate) fn program(&self, arguments: &[&str]) -> Command {
        let mut command = self.program_by_chance(arguments);
        if !arguments
            .iter()
            .any(|&it| it == "--seed" || it == "--resume")
        {
            command.args(["--seed", "1"]);
        }
        command
    }

    /// The program as it is run without a seed.
    pub(crate) fn program_by_chance(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sansvoir"));
        command.args(arguments);
        self.place(&mut command);
        command
    }

    /// Gives a command this desk's data folder and a usual terminal.
    pub(crate) fn place(&self, command: &mut Command) {
        command
            .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")))
            .env("SANSVOIR_DATA", self.path("data"))
            .env("XDG_CONFIG_HOME", self.path("config"))
            .env_remove("SANSVOIR_CONFIG")
            .env("TERM", "xterm")
            .env_remove("NO_COLOR")
            .env_remove("CLICOLOR")
            .env_remove("CLICOLOR_FORCE");
    }

    /// Runs the program with lines from a pipe and returns all that it wrote.
    pub(crate) fn run(&self, arguments: &[&str], input: impl AsRef<[u8]>) -> Said {
        Said::of(self.program(arguments), input.as_ref())
    }

    pub(crate) fn journal(&self) -> PathBuf {
        self.path("data").join("learner.jsonl")
    }

    /// The records of the journal; every line must be whole.
    pub(crate) fn records(&self) -> Vec<Value> {
        let text = fs::read_to_string(self.journal()).unwrap_or_default();
        assert!(text.is_empty() || text.ends_with('\n'), "a torn line");
        text.lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }
}

/// What the program wrote and how it ended.
#[derive(Debug)]
pub(crate) struct Said {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Said {
    pub(crate) fn of(mut command: Command, input: &[u8]) -> Said {
        let mut child = command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut stdin = child.stdin.take().unwrap();
        let input = input.to_owned();
        // A program that ends early leaves input behind: that is no failure of the test.
        let writing = std::thread::spawn(move || drop(stdin.write_all(&input)));
        let Output {
            status,
            stdout,
            stderr,
        } = child.wait_with_output().unwrap();
        writing.join().unwrap();
        Said {
            code: status.code(),
            out: String::from_utf8(stdout).unwrap(),
            err: String::from_utf8(stderr).unwrap(),
        }
    }

    /// Fails unless the program ended with this code and these words on standard error, and without
    /// a panic.
    pub(crate) fn ends(&self, code: i32, words: &[&str]) {
        assert_eq!(self.code, Some(code), "{self:?}");
        for word in words {
            assert!(self.err.contains(word), "{word:?} is missing: {self:?}");
        }
        assert!(!self.err.contains("panicked"), "{self:?}");
    }
}
