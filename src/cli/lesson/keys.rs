//! What is wrong with a command line, told to somebody who wrote keys of a lesson file.

use std::error::Error as _;

use clap::error::{ContextKind, ContextValue, ErrorKind};

use super::outline;
use crate::voice::lesson as words;

/// Returns the key that an error is about.
pub(super) fn about(error: &clap::Error) -> String {
    let named = context(error, ContextKind::InvalidArg).into_iter().next();
    named.map_or_else(String::new, |argument| key_of(&argument))
}

/// Says what is wrong in the words of the keys.
pub(super) fn reason(error: &clap::Error) -> String {
    let key = about(error);
    let first = |kind| context(error, kind).into_iter().next();
    match error.kind() {
        ErrorKind::InvalidValue | ErrorKind::ValueValidation => {
            let value = first(ContextKind::InvalidValue).unwrap_or_default();
            let known = context(error, ContextKind::ValidValue);
            let why = error.source().map(ToString::to_string);
            words::unfit_value(&key, &value, why.as_deref(), &known)
        }
        ErrorKind::ArgumentConflict => {
            let prior = first(ContextKind::PriorArg).unwrap_or_default();
            words::keys_conflict(&key, &key_of(&prior))
        }
        ErrorKind::MissingRequiredArgument => words::key_missing(&key),
        _ => in_keys(&outline::reason(error)),
    }
}

/// Names options as the keys that stand for them.
pub(super) fn in_keys(said: &str) -> String {
    let mut told = String::new();
    let mut rest = said;
    while let Some((before, option)) = next_option(rest) {
        told.push_str(before);
        rest = option;
    }
    told + rest
}

/// The options that a sentence names, without their dashes.
pub(super) fn options_in(said: &str) -> impl Iterator<Item = &str> {
    let mut rest = said;
    std::iter::from_fn(move || {
        (_, rest) = next_option(rest)?;
        let end = rest.find(|c: char| !c.is_ascii_lowercase() && c != '-');
        Some(&rest[..end.unwrap_or(rest.len())])
    })
}

/// Parts a sentence before and behind the dashes of its next option.
fn next_option(said: &str) -> Option<(&str, &str)> {
    let is_option = |(at, _): &(usize, &str)| {
        let begins = said[..*at].chars().next_back();
        let goes_on = said[at + 2..].chars().next();
        begins.is_none_or(|c| !c.is_alphanumeric() && c != '-')
            && goes_on.is_some_and(|c| c.is_ascii_lowercase())
    };
    let (at, _) = said.match_indices("--").find(is_option)?;
    Some((&said[..at], &said[at + 2..]))
}

fn context(error: &clap::Error, kind: ContextKind) -> Vec<String> {
    match error.get(kind) {
        Some(ContextValue::String(text)) => vec![text.clone()],
        Some(ContextValue::Strings(texts)) => texts.clone(),
        _ => Vec::new(),
    }
}

/// The key that stands for an argument as clap writes it: `--count <N>`, `[FILE]...`.
fn key_of(argument: &str) -> String {
    let word = argument.split(['=', ' ']).next().unwrap_or(argument);
    match word.strip_prefix("--") {
        Some(option) => option.to_owned(),
        None if word.contains("KINDS") => "kinds".to_owned(),
        None => "files".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn options_are_named_as_keys_and_dashes_that_are_none_stay() {
        let said = "--at 9.: a -- b, club--1.pgn: leave out --to, or --speech-file";
        assert_eq!(
            in_keys(said),
            "at 9.: a -- b, club--1.pgn: leave out to, or speech-file"
        );
        let named: Vec<&str> = options_in(said).collect();
        assert_eq!(named, ["at", "to", "speech-file"]);
    }
}
