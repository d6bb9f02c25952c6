//! What a game holds, to be compared with what was read back.

use sansvoir::game::{Game, GameResult, NodeId};

/// Everything about a game that its text holds, comments with single spaces.
pub(crate) fn held(game: &Game) -> Vec<String> {
    let said = |comments: &[String]| -> String {
        let words = comments.iter().map(|comment| {
            let words: Vec<&str> = comment.split_whitespace().collect();
            format!("{{{}}}", words.join(" "))
        });
        words.collect()
    };
    let mut held = vec![
        game.start.fen(),
        said(&game.preface),
        result(game).marker().to_owned(),
    ];
    let mut lines: Vec<NodeId> = game.main_nodes().next().into_iter().collect();
    while let Some(first) = lines.pop() {
        for id in game.nodes_from(first) {
            let node = game.node(id);
            held.push(format!(
                "{}{:?}{:?}{}",
                said(&node.preface),
                node.step,
                node.nags,
                said(&node.comments)
            ));
            lines.extend(node.sidelines());
        }
        held.push("end".to_owned());
    }
    held
}

/// The result of the movetext, else that of the tags, else none is known.
fn result(game: &Game) -> GameResult {
    let of_tag = || {
        Some(match game.tags.get("Result")?.trim() {
            "1-0" | "1–0" | "1−0" => GameResult::WhiteWins,
            "0-1" | "0–1" | "0−1" => GameResult::BlackWins,
            "1/2-1/2" | "1/2–1/2" | "1/2" | "½-½" | "½–½" | "½" => GameResult::Draw,
            _ => return None,
        })
    };
    let result = game.result.or_else(of_tag);
    result.unwrap_or(GameResult::Unknown)
}
