//! What is said when a session of whatever exercise ends.

use std::collections::BTreeMap;

use crate::exercise::{Ending, Score, Summary};
use crate::game::GameResult;
use crate::question::Kind;

use super::naming::{side, verdicts};
use super::style::{Occasion, Voice};
use super::time::duration;

/// Says how a session came to its end.
pub(super) fn ended(occasion: Occasion, ending: Ending) -> Vec<String> {
    let said = match ending {
        Ending::Read(result) => {
            let result = match result {
                Some(GameResult::WhiteWins) => Some("White won the game."),
                Some(GameResult::BlackWins) => Some("Black won the game."),
                Some(GameResult::Draw) => Some("The game was drawn."),
                Some(GameResult::Unknown) | None => None,
            };
            [Some("That is the end."), result]
        }
        Ending::Asked => [Some("That was the last question."), None],
        Ending::Stopped => [
            Some("Stopped. Everything that you answered is kept."),
            match occasion {
                Occasion::Lesson => None,
                Occasion::Miniature => Some("sansvoir alone goes on from here."),
                Occasion::Itself => Some("The option --resume goes on from here."),
            },
        ],
    };
    said.into_iter().flatten().map(str::to_owned).collect()
}

/// Says how each kind went, what only this exercise counts, and what is counted in all.
pub(super) fn counts(
    voice: Voice,
    all: &Summary,
    own: impl IntoIterator<Item = String>,
) -> Vec<String> {
    let mut said = kinds(voice, &all.kinds);
    said.extend(own);
    if all.looks > 0 {
        said.push(format!("Looks at the board: {}.", all.looks));
    }
    if all.late > 0 {
        said.push(format!("Replies after the think time: {}.", all.late));
    }
    said
}

/// Shows the board at the end, where there is one to show.
pub(super) fn board(voice: Voice, name: &str, all: &Summary) -> Vec<String> {
    let Some((board, turn)) = &all.board else {
        return Vec::new();
    };
    let mut said = vec![format!("{name}, {} to move.", side(*turn))];
    said.extend(voice.board(board));
    said
}

/// Says how each kind went.
pub(super) fn kinds(voice: Voice, kinds: &BTreeMap<Kind, Score>) -> Vec<String> {
    if voice.plain {
        kinds.iter().map(kind_sentence).collect()
    } else {
        kind_table(kinds)
    }
}

fn kind_sentence((kind, score): (&Kind, &Score)) -> String {
    let verdicts = verdicts([score.right, score.part, score.wrong, score.passed]);
    let median = score.median().map_or_else(String::new, |median| {
        format!(" Median time of the right ones: {}.", duration(median))
    });
    format!("{kind}: {verdicts}{median}")
}

/// The same as a block of columns, for the eye.
fn kind_table(kinds: &BTreeMap<Kind, Score>) -> Vec<String> {
    if kinds.is_empty() {
        return Vec::new();
    }
    let head = ["right", "part", "wrong", "passed", "median, right"].map(str::to_owned);
    let rows = kinds.iter().map(|(kind, score)| {
        let counts = [score.right, score.part, score.wrong, score.passed];
        let [right, part, wrong, passed] = counts.map(|n| n.to_string());
        let median = score.median().map_or_else(String::new, duration);
        (kind.name(), [right, part, wrong, passed, median])
    });
    let drawn = [("", head)].into_iter().chain(rows);
    let drawn = drawn.map(|(name, [right, part, wrong, passed, median])| {
        format!("{name:<11}{right:>6}{part:>5}{wrong:>6}{passed:>7}  {median}")
    });
    drawn.map(|row| row.trim_end().to_owned()).collect()
}
