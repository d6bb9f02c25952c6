//! The command `sheet` as a process of its own.

#[path = "sheet/data.rs"]
mod data;
#[path = "sheet/entering.rs"]
mod entering;
#[path = "sheet/files.rs"]
mod files;
#[path = "sheet/page.rs"]
mod page;
mod program;
