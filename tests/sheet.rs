//! The command `sheet` as a process of its own.

#[path = "sheet/data.rs"]
mod data;
#[path = "sheet/files.rs"]
mod files;
mod program;
