//! Floor 1: chess in writing.

pub mod reply;
