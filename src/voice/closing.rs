//! What is said when a session ends: the result, and how it went.

use shakmaty::{Board, Color};

use crate::exercise::{Ending, KindCount, OwnSummary, RoundsSummary, Summary};
use crate::game::{GameResult, MoveNumber};

use super::duration::duration;
use super::naming::{count, move_of, side};
use super::{Voice, ahead, drill, recite};

/// Says how a session came to its end.
pub(super) fn ended(ending: Ending) -> Vec<String> {
    match ending {
        Ending::Read(result) => {
            let mut said = vec!["That is the end.".to_owned()];
            said.extend(result.and_then(result_words).map(str::to_owned));
            said
        }
        Ending::Asked => vec!["That was the last question.".to_owned()],
        Ending::Stopped => vec![
            "Stopped. Everything that you answered is kept.".to_owned(),
            "The option --resume goes on from here.".to_owned(),
        ],
    }
}

const fn result_words(result: GameResult) -> Option<&'static str> {
    match result {
        GameResult::WhiteWins => Some("White won the game."),
        GameResult::BlackWins => Some("Black won the game."),
        GameResult::Draw => Some("The game was drawn."),
        GameResult::Unknown => None,
    }
}

/// Says how it went, and shows the board where the end was reached.
pub(super) fn summary(voice: Voice, summary: &Summary) -> Vec<String> {
    let kinds = || kinds(voice, &summary.kinds);
    let mut said = match &summary.own {
        OwnSummary::Drill(drill) => return drill::summary(voice, summary, drill),
        OwnSummary::Recite(recite) => return recite::summary(voice, summary, recite),
        OwnSummary::Replay {
            first_miss,
            longest_run,
        } => [kinds(), picture(summary, *first_miss, *longest_run)].concat(),
        OwnSummary::Few(rounds) | OwnSummary::Ahead { rounds, .. } => {
            [kinds(), held(summary, *rounds)].concat()
        }
        OwnSummary::Mates { tried, mated } => {
            [kinds(), ahead::led_to_mate(*tried, *mated)].concat()
        }
    };
    if summary.looks > 0 {
        said.push(format!("Looks at the board: {}.", summary.looks));
    }
    if summary.late > 0 {
        said.push(format!("Replies after the think time: {}.", summary.late));
    }
    said.extend(match &summary.own {
        OwnSummary::Ahead { next, .. } => next.map(ahead::next_round),
        OwnSummary::Replay { .. }
        | OwnSummary::Few(_)
        | OwnSummary::Mates { .. }
        | OwnSummary::Drill(_)
        | OwnSummary::Recite(_) => None,
    });
    let board = match &summary.own {
        OwnSummary::Few(_) | OwnSummary::Ahead { .. } => "The board of the last round",
        OwnSummary::Replay { .. } | OwnSummary::Drill(_) | OwnSummary::Recite(_) => {
            "The board at the end"
        }
        OwnSummary::Mates { .. } => return said,
    };
    said.extend(self::board(voice, board, summary.board.as_ref()));
    said
}

/// Says in how many rounds the picture held.
fn held(summary: &Summary, rounds: RoundsSummary) -> Vec<String> {
    if rounds.asked == 0 {
        return Vec::new();
    }
    vec![format!(
        "The picture held in {} of {}, {} heard.",
        rounds.held,
        count(rounds.asked, "round", "rounds"),
        count(summary.heard, "ply", "plies")
    )]
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

/// Says how long the picture held in a game.
fn picture(summary: &Summary, first_miss: Option<MoveNumber>, longest: usize) -> Vec<String> {
    if summary.kinds.is_empty() {
        return Vec::new();
    }
    let first = first_miss.map_or_else(
        || "The picture held at every checkpoint.".to_owned(),
        |number| {
            format!(
                "The picture first failed at the checkpoint after {}.",
                move_of(number)
            )
        },
    );
    let run = format!(
        "Longest run without a miss or a look: {longest} of {} heard.",
        count(summary.heard, "ply", "plies")
    );
    vec![first, run]
}
