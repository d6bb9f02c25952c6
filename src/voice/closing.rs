//! What is said when a session ends: the result, and how it went.

use shakmaty::{Board, Color};

use crate::exercise::{KindCount, Summary};
use crate::game::GameResult;

use super::Voice;
use super::duration::duration;
use super::naming::{count, move_of, side};

/// Says that all has been read, and how the game ended.
pub(super) fn finished(result: Option<GameResult>) -> Vec<String> {
    let mut said = vec!["That is the end.".to_owned()];
    said.extend(result.and_then(result_words).map(str::to_owned));
    said
}

const fn result_words(result: GameResult) -> Option<&'static str> {
    match result {
        GameResult::WhiteWins => Some("White won the game."),
        GameResult::BlackWins => Some("Black won the game."),
        GameResult::Draw => Some("The game was drawn."),
        GameResult::Unknown => None,
    }
}

/// Says that the learner stopped, and what is kept.
pub(super) fn stopped() -> Vec<String> {
    vec![
        "Stopped. Everything that you answered is kept.".to_owned(),
        "The option --resume goes on from here.".to_owned(),
    ]
}

/// Says how it went, and shows the board where the end was reached.
pub(super) fn summary(voice: Voice, summary: &Summary) -> Vec<String> {
    let mut said = kinds(voice, &summary.kinds);
    said.extend(facts(summary));
    said.extend(board(voice, "The board at the end", summary.board.as_ref()));
    said
}

/// Shows the board at the end, where there is one to show.
pub(super) fn board(voice: Voice, name: &str, board: Option<&(Board, Color)>) -> Vec<String> {
    let Some((board, turn)) = board else {
        return Vec::new();
    };
    let mut said = vec![format!("{name}, {} to move.", side(*turn))];
    said.extend(voice.board(board));
    said
}

/// Says how each kind went.
pub(super) fn kinds(voice: Voice, kinds: &[KindCount]) -> Vec<String> {
    if voice.plain {
        kinds.iter().map(kind_sentence).collect()
    } else {
        kind_table(kinds)
    }
}

fn kind_sentence(kind: &KindCount) -> String {
    let mut sentence = format!(
        "{}: {} right, {} in part, {} wrong, {} passed.",
        kind.kind, kind.right, kind.part, kind.wrong, kind.passed
    );
    if let Some(median) = kind.median_millis {
        sentence.push_str(" Median time of the right ones: ");
        sentence.push_str(&duration(median));
        sentence.push('.');
    }
    sentence
}

/// The same as a block of columns, for the eye.
fn kind_table(kinds: &[KindCount]) -> Vec<String> {
    if kinds.is_empty() {
        return Vec::new();
    }
    let head = ["right", "part", "wrong", "passed", "median, right"].map(str::to_owned);
    let rows = kinds.iter().map(|kind| {
        let median = kind.median_millis.map_or_else(String::new, duration);
        let counts = [kind.right, kind.part, kind.wrong, kind.passed].map(|n| n.to_string());
        let [right, part, wrong, passed] = counts;
        (kind.kind.name(), [right, part, wrong, passed, median])
    });
    std::iter::once(("", head))
        .chain(rows)
        .map(|(name, [right, part, wrong, passed, median])| {
            format!("{name:<11}{right:>6}{part:>5}{wrong:>6}{passed:>7}  {median}")
                .trim_end()
                .to_owned()
        })
        .collect()
}

fn facts(summary: &Summary) -> Vec<String> {
    let mut said = Vec::new();
    if !summary.kinds.is_empty() {
        said.push(summary.first_miss.map_or_else(
            || "The picture held at every checkpoint.".to_owned(),
            |number| {
                format!(
                    "The picture first failed at the checkpoint after {}.",
                    move_of(number)
                )
            },
        ));
    }
    if !summary.kinds.is_empty() {
        said.push(format!(
            "Longest run without a miss or a look: {} of {} heard.",
            summary.longest_run,
            count(summary.heard, "ply", "plies")
        ));
    }
    if summary.looks > 0 {
        said.push(format!("Looks at the board: {}.", summary.looks));
    }
    if summary.late > 0 {
        said.push(format!("Replies after the think time: {}.", summary.late));
    }
    said
}
