//! A few pieces read out, plies played on, questions over them: the promises, counted over many seeds.

mod excerpts;
mod sessions;
