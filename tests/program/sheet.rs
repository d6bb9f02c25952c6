//! The command `sheet` as a process of its own.

mod data;
mod entering;
mod files;
mod page;
