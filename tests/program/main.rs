//! The built program, driven through pipes and files.

mod calculating;
mod class;
mod command_line;
mod config;
mod drilling;
mod handbook;
mod lesson;
mod playing;
#[path = "../shared/program.rs"]
mod program;
mod progress;
mod setup;
mod sheet;
#[cfg(unix)]
mod sound;
