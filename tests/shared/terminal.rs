//! A program on a pseudo-terminal: what it writes is waited for, and keys are typed.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use std::fs::File;
use std::io::{Read, Write};
use std::os::fd::OwnedFd;
use std::process::{Child, Command};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use rustix::termios::{LocalModes, OptionalActions, tcgetattr, tcsetattr};

/// Nothing keeps silent for so long on the slowest machine.
const PATIENCE: Duration = Duration::from_mins(1);

pub(crate) struct Terminal {
    pub(crate) child: Child,
    pub(crate) keys: File,
    screen: Receiver<Vec<u8>>,
    /// What was written and has not been looked at.
    unread: Vec<u8>,
}

impl Terminal {
    /// Starts a program on a terminal of its own, which does not echo what is typed.
    pub(crate) fn start(command: Command) -> Terminal {
        let (terminal, program) = pty_process::blocking::open().expect("a pseudo-terminal");
        let mut modes = tcgetattr(&program).expect("a terminal has modes");
        modes.local_modes.remove(LocalModes::ECHO);
        tcsetattr(&program, OptionalActions::Now, &modes).expect("modes can be set");
        let command = pty_process::blocking::Command::from(command);
        let child = command.spawn(program).expect("the program starts");
        let keys = File::from(OwnedFd::from(terminal));
        let mut output = keys.try_clone().expect("a second handle");
        let (written, screen) = channel();
        thread::spawn(move || {
            let mut bytes = [0; 4096];
            // The terminal reports an error when the program has gone.
            while let Ok(length @ 1..) = output.read(&mut bytes) {
                if written.send(bytes[..length].to_vec()).is_err() {
                    break;
                }
            }
        });
        Terminal {
            child,
            keys,
            screen,
            unread: Vec::new(),
        }
    }

    /// Waits until more is written; tells whether there was more before the program left the terminal.
    pub(crate) fn reads_on(&mut self) -> bool {
        match self.screen.recv_timeout(PATIENCE) {
            Ok(more) => self.unread.extend(more),
            Err(RecvTimeoutError::Disconnected) => return false,
            Err(RecvTimeoutError::Timeout) => {
                panic!("nothing came after {:?}", self.unread().into_owned())
            }
        }
        true
    }

    /// What was written and has not been looked at.
    pub(crate) fn unread(&self) -> std::borrow::Cow<'_, str> {
        String::from_utf8_lossy(&self.unread)
    }

    /// Waits for words, and returns what was written up to their end.
    pub(crate) fn sees(&mut self, words: &str) -> String {
        loop {
            let mut windows = self.unread.windows(words.len());
            if let Some(at) = windows.position(|window| window == words.as_bytes()) {
                let seen: Vec<u8> = self.unread.drain(..at + words.len()).collect();
                return String::from_utf8_lossy(&seen).into_owned();
            }
            assert!(self.reads_on(), "{words:?} is not in {:?}", self.unread());
        }
    }

    /// Waits until the program has left the terminal, and returns what it wrote up to then.
    pub(crate) fn ends(&mut self) -> String {
        while self.reads_on() {}
        String::from_utf8_lossy(&std::mem::take(&mut self.unread)).into_owned()
    }

    pub(crate) fn types(&mut self, keys: &str) {
        self.keys.write_all(keys.as_bytes()).expect("a terminal");
    }

    pub(crate) fn types_line(&mut self, line: &str) {
        self.types(&format!("{line}\n"));
    }

    /// Types a letter with the control key.
    pub(crate) fn control(&mut self, letter: char) {
        self.types(&char::from(letter as u8 & 0x1f).to_string());
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        // One that has ended cannot be killed, and need not be.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
