//! How soon the next prompt stands on a pseudo-terminal after a reply, with and without speech. Run with
//! `cargo bench --bench prompts`; beside it stands its floor, what it takes in the same folder to bring
//! one line of the journal to the disk. Nothing here is asserted.

#[cfg(not(unix))]
fn main() {
    println!("This is measured on a pseudo-terminal, which this system does not have.");
}

#[cfg(unix)]
fn main() {
    terminal::main();
}

#[cfg(unix)]
#[path = "../tests/shared/terminal.rs"]
mod screen;

#[cfg(unix)]
mod terminal {
    use std::fs::{self, File};
    use std::io::Write;
    use std::os::unix::fs::PermissionsExt;
    use std::path::Path;
    use std::process::Command;
    use std::thread;
    use std::time::{Duration, Instant};

    use tempfile::TempDir;

    use crate::screen::Terminal;

    /// How many replies are given, and how long the learner seems to think.
    const REPLIES: usize = 200;
    const THINKS: Duration = Duration::from_millis(60);

    pub(super) fn main() {
        let folder = TempDir::new().expect("a temporary folder");
        let hanging = folder.path().join("hanging");
        fs::write(&hanging, "#!/bin/sh\nsleep 1000\n").expect("a script");
        fs::set_permissions(&hanging, fs::Permissions::from_mode(0o755)).expect("a script");
        let hanging = hanging.to_string_lossy();
        println!("milliseconds from a reply to the next prompt, {REPLIES} replies");
        for manner in [&["--plain"][..], &[]] {
            for (name, speech) in [
                ("in silence", None),
                ("espeak-ng", Some("espeak-ng --stdin")),
                ("a command that hangs", Some(&*hanging)),
            ] {
                let mut words = manner.to_vec();
                words.extend(speech.iter().flat_map(|command| ["--speech", *command]));
                let name = format!("{} {name}", manner.concat());
                tell(&name, replies(&words, folder.path()));
            }
        }
        tell(
            "floor: a line of the journal on the disk",
            syncs(folder.path()),
        );
    }

    /// Gives one reply after the other and takes the time of each.
    fn replies(words: &[&str], folder: &Path) -> Vec<Duration> {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sansvoir"));
        let count = (REPLIES + 1).to_string();
        command
            .args(["drill", "color", "--seed", "1", "--count", &count])
            .args(words)
            .env(
                "SANSVOIR_DATA",
                folder.join(words.concat().replace('/', "")),
            )
            .env("TERM", "xterm");
        let mut terminal = Terminal::start(command);
        wait_for_prompt(&mut terminal, 1);
        (2..REPLIES + 2)
            .map(|next| {
                thread::sleep(THINKS);
                let begun = Instant::now();
                terminal.types("light\r");
                let asks = wait_for_prompt(&mut terminal, next);
                let took = begun.elapsed();
                if !asks {
                    terminal.types("\r");
                    wait_for_prompt(&mut terminal, next);
                }
                took
            })
            .collect()
    }

    /// Reads until a prompt stands, and returns whether it is that of a question; else it is the one
    /// below a verdict.
    fn wait_for_prompt(terminal: &mut Terminal, number: usize) -> bool {
        let question = format!("Question {number} of ");
        let prompts = ["Your reply: ", "Enter goes on: "];
        loop {
            let text = terminal.unread().into_owned();
            let behind = text.split_once(&question).map(|(_, behind)| behind);
            let asks = behind.is_some_and(|behind| behind.contains(prompts[0]));
            if asks || text.contains(prompts[1]) {
                terminal.sees(&if asks {
                    question
                } else {
                    prompts[1].to_owned()
                });
                return asks;
            }
            assert!(terminal.reads_on(), "the program has gone: {text:?}");
        }
    }

    fn syncs(folder: &Path) -> Vec<Duration> {
        let mut file = File::create(folder.join("floor")).expect("a file");
        (0..REPLIES)
            .map(|_| {
                thread::sleep(THINKS);
                let begun = Instant::now();
                file.write_all(&[b'x'; 400]).expect("the disk");
                file.sync_data().expect("the disk");
                begun.elapsed()
            })
            .collect()
    }

    fn tell(name: &str, mut times: Vec<Duration>) {
        times.sort();
        let at = |percent: usize| times[(times.len() - 1) * percent / 100].as_secs_f64() * 1000.0;
        println!(
            "{name:<42} median {:>6.2}  p95 {:>6.2}  worst {:>6.2}",
            at(50),
            at(95),
            at(100)
        );
    }
}
