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
mod terminal {
    use std::fs::{self, File};
    use std::io::{Read, Write};
    use std::os::unix::fs::PermissionsExt;
    use std::path::Path;
    use std::process::Command;
    use std::thread;
    use std::time::{Duration, Instant};

    use rexpect::process::PtyProcess;
    use tempfile::TempDir;

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
        let process = PtyProcess::new(command).expect("a pseudo-terminal");
        let mut keyboard = process.get_file_handle().expect("the terminal");
        let mut screen = process.get_file_handle().expect("the terminal");
        wait_for_prompt(&mut screen, 1);
        (2..REPLIES + 2)
            .map(|next| {
                thread::sleep(THINKS);
                let begun = Instant::now();
                keyboard.write_all(b"light\r").expect("the terminal");
                let asks = wait_for_prompt(&mut screen, next);
                let took = begun.elapsed();
                if !asks {
                    keyboard.write_all(b"\r").expect("the terminal");
                    wait_for_prompt(&mut screen, next);
                }
                took
            })
            .collect()
    }

    /// Reads until a prompt stands, and returns whether it is that of a question; else it is the one
    /// below a verdict.
    fn wait_for_prompt(screen: &mut File, number: usize) -> bool {
        let question = format!("Question {number} of ");
        let mut text = String::new();
        let mut buffer = [0; 4096];
        loop {
            let behind = text.split_once(&question).map(|(_, behind)| behind);
            if behind.is_some_and(|behind| behind.contains("Your reply: ")) {
                return true;
            }
            if text.contains("Enter goes on: ") {
                return false;
            }
            let read = screen.read(&mut buffer).expect("the program is there");
            text.push_str(&String::from_utf8_lossy(&buffer[..read]));
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
