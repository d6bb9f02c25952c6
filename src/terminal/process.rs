//! A command of the user's in a process of its own, that is told lines and writes lines. What it writes is always
//! read, and nothing here waits for it.

use std::io::{self, Read, Write};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel, sync_channel};
use std::thread::{self, JoinHandle};

use crate::voice::clean_name;

/// No line that matters is longer, in bytes; the rest of a longer one is passed over.
const LONGEST_LINE: usize = 4096;
/// Nobody needs to write so many bytes between two lines that matter.
const FLOOD: usize = 64 * 1024 * 1024;
/// Nor so many lines that matter before the first of them is read.
const WAITING: usize = 256;

/// A running command; its process ends with this value.
#[derive(Debug)]
pub(super) struct Process {
    child: Child,
    /// What it is to be told; a thread writes it, for a command that does not read would hold us up.
    input: Sender<String>,
    pub(super) output: Receiver<String>,
    reader: Option<JoinHandle<OutputEnd>>,
}

/// Why nothing more is read of a command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum OutputEnd {
    Closed,
    Flood,
}

impl Process {
    /// Starts a command, the program first; `keep` says of each line that it writes what matters of it. What it
    /// writes to standard error goes to `complaints`.
    pub(super) fn start(
        words: &[String],
        complaints: Stdio,
        keep: impl FnMut(String) -> Option<String> + Send + 'static,
    ) -> io::Result<Process> {
        let mut command = command(words)?;
        let mut child = command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(complaints)
            .spawn()?;
        let (input, words) = channel::<String>();
        let (lines, output) = sync_channel(WAITING);
        if let Some(mut stdin) = child.stdin.take() {
            thread::spawn(move || words.iter().try_for_each(|line| writeln!(stdin, "{line}")));
        }
        let stdout = child.stdout.take();
        let reader = stdout.map(|stdout| thread::spawn(move || read_lines(stdout, &lines, keep)));
        Ok(Process {
            child,
            input,
            output,
            reader,
        })
    }

    /// Tells it a line. Where it has ended, the next look at what it writes finds that out.
    pub(super) fn say(&self, line: String) {
        let _ = self.input.send(line);
    }

    /// Ends it at once.
    pub(super) fn end(&mut self) {
        end(&mut self.child);
    }

    /// Ends one that writes nothing more, and tells why it does not.
    pub(super) fn why_ended(&mut self) -> OutputEnd {
        self.end();
        let reader = self.reader.take().map(JoinHandle::join);
        reader.and_then(Result::ok).unwrap_or(OutputEnd::Closed)
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        // One that hangs does not hear that it is to go, and none of them has anything to save.
        self.end();
    }
}

/// The program of a command, as it is told.
pub(super) fn named(words: &[String]) -> String {
    clean_name(words.first().map_or("", String::as_str))
}

/// A command in a group of its own, so that all that it starts ends with it, and Ctrl-C leaves it
/// alone.
pub(super) fn command(words: &[String]) -> io::Result<Command> {
    let Some((program, arguments)) = words.split_first() else {
        return Err(io::Error::other("no command is named"));
    };
    let mut command = Command::new(program);
    command.args(arguments);
    #[cfg(unix)]
    {
        use std::os::unix::process::CommandExt;
        command.process_group(0);
    }
    Ok(command)
}

/// Ends a command and all that it started.
pub(super) fn end(child: &mut Child) {
    #[cfg(unix)]
    {
        use rustix::process::{Pid, Signal, kill_process_group};
        let _ = kill_process_group(Pid::from_child(child), Signal::KILL);
    }
    let _ = child.kill();
    let _ = child.wait();
}

/// Hands on the lines that matter, whatever bytes come.
fn read_lines(
    mut output: impl Read,
    lines: &SyncSender<String>,
    mut keep: impl FnMut(String) -> Option<String>,
) -> OutputEnd {
    let mut line = Vec::new();
    let mut buffer = [0; 4096];
    let mut idle = 0;
    while let Ok(read @ 1..) = output.read(&mut buffer) {
        idle += read;
        for byte in &buffer[..read] {
            if *byte != b'\n' {
                if line.len() < LONGEST_LINE {
                    line.push(*byte);
                }
                continue;
            }
            let text = String::from_utf8_lossy(&line).trim().to_owned();
            line.clear();
            if let Some(text) = keep(text) {
                idle = 0;
                if lines.try_send(text).is_err() {
                    return OutputEnd::Flood;
                }
            }
        }
        if idle > FLOOD {
            return OutputEnd::Flood;
        }
    }
    OutputEnd::Closed
}
