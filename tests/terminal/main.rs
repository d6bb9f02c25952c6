//! Real pseudo-terminals, signals, and commands that speak.

#![cfg(unix)]

mod engine;
mod hearing;
mod listening;
#[path = "../shared/program.rs"]
mod program;
mod sitting;
mod speech;
