//! Real pseudo-terminals, signals, and commands that speak.

#![cfg(unix)]

mod engine;
mod hearing;
mod listening;
#[path = "../shared/program.rs"]
mod program;
#[path = "../shared/terminal.rs"]
mod screen;
mod sitting;
mod speech;
