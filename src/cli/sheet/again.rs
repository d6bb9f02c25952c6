//! The command line that makes a sheet again, wherever the same files are.

use std::path::Path;

use clap::parser::ValueSource;
use clap::{ArgAction, ArgMatches, Command};

/// Options that tell which game is read: the one that was found is named instead.
const CHOOSING: [&str; 9] = [
    "files", "game", "player", "event", "opening", "result", "since", "until", "random",
];

/// Writes down an exercise with the options that were given to it. Where a game was chosen, it is named
/// by its number in its file: the learner's journal or chance may choose another one the next time.
pub(super) fn exercise(
    command: &Command,
    matches: &ArgMatches,
    chosen: Option<(&Path, usize)>,
) -> Vec<String> {
    let mut words = vec![command.get_name().to_owned()];
    let given = |id: &str| matches.value_source(id) == Some(ValueSource::CommandLine);
    for argument in command.get_arguments() {
        let id = argument.get_id().as_str();
        let is_known = chosen.is_some() && CHOOSING.contains(&id);
        if argument.is_global_set() || is_known || !given(id) {
            continue;
        }
        words.extend(argument.get_long().map(|long| format!("--{long}")));
        if matches!(argument.get_action(), ArgAction::SetTrue) {
            continue;
        }
        let values: Vec<_> = matches
            .get_raw(id)
            .into_iter()
            .flatten()
            .map(|value| value.to_string_lossy())
            .collect();
        words.push(values.join(","));
    }
    if let Some((file, number)) = chosen {
        words.insert(1, file.to_string_lossy().into_owned());
        words.insert(2, "--game".to_owned());
        words.insert(3, number.to_string());
    }
    words
}

/// Writes words as a shell reads them.
pub(super) fn quoted(words: &[String]) -> String {
    let words: Vec<String> = words.iter().map(|word| quoted_word(word)).collect();
    words.join(" ")
}

fn quoted_word(word: &str) -> String {
    let is_bare = |c: char| c.is_ascii_alphanumeric() || "_@%+=:,./-".contains(c);
    if !word.is_empty() && word.chars().all(is_bare) {
        word.to_owned()
    } else {
        format!("'{}'", word.replace('\'', r"'\''"))
    }
}

/// Reads words as a shell reads them: parted by white space, with quotes and backslashes.
pub(in super::super) fn words(line: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word: Option<String> = None;
    let mut quote = None;
    let mut letters = line.chars();
    while let Some(letter) = letters.next() {
        match (letter, quote) {
            (letter, Some(mark)) if letter == mark => quote = None,
            ('\'' | '"', None) => {
                quote = Some(letter);
                word.get_or_insert_default();
            }
            ('\\', None | Some('"')) => {
                word.get_or_insert_default()
                    .push(letters.next().unwrap_or('\\'));
            }
            (letter, None) if letter.is_whitespace() => words.extend(word.take()),
            (letter, _) => word.get_or_insert_default().push(letter),
        }
    }
    words.extend(word);
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_come_out_of_quotes_as_they_went_in() {
        for word in [
            "a",
            "",
            "my games.pgn",
            "it's",
            r"C:\games",
            "\"q\"",
            "$HOME `x` é",
        ] {
            let both = [word.to_owned(), "next".to_owned()];
            assert_eq!(words(&quoted(&both)), both);
        }
    }

    #[test]
    fn a_shells_other_quotes_are_read_too() {
        assert_eq!(words(r#" a  "b c" d\ e 'f'g "#), ["a", "b c", "d e", "fg"]);
    }
}
