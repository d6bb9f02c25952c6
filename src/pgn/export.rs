//! A game as text in the export format of the PGN standard (1994.03.12, 3.2 and 8).

use std::collections::{BTreeMap, HashSet};

use shakmaty::san::SanPlus;
use shakmaty::{CastlingMode, Chess, Position};

use super::setup::castling_mode;
use super::signs::outcome;
use crate::game::{Game, GameResult, MoveNumber, MoveOrNull, NodeId, after_null};

/// Movetext lines are shorter than this (PGN standard, 8.2.1).
const WIDTH: usize = 80;

/// The tags that every exported game has, in their order (PGN standard, 8.1.1). The result follows them.
const ROSTER: [&str; 6] = ["Event", "Site", "Date", "Round", "White", "Black"];

/// Writes a game with its sidelines, comments and glyphs in export format: the Seven Tag Roster first
/// and the other tags in ASCII order (8.1.1), moves in SAN, movetext lines of fewer than 80 characters
/// (8.2.1), numbers before White's moves, and before Black's where something intervenes (8.2.2), glyphs
/// as `$n` (8.2.4), the result last (8.2.6), an empty line behind it all.
///
/// What the standard leaves open: sidelines stand behind the move that they replace and what is said of
/// it, comments in braces and broken between words, text as UTF-8, a null move of a sideline as `--`
/// (common practice, no source). White space in a comment comes out as a single space or the end of a
/// line. Of tags of one name the first is written; what no name or value of a tag can hold becomes
/// `_` or a space.
///
/// Reading the text gives the same game again, and writing that gives the same text.
///
/// ```
/// use sansvoir::pgn::{Collection, export, read};
///
/// let file = "1. e4! e5 (1... c5 2. Nf3) 2. f4 *";
/// let passage = Collection::new(file.as_bytes()).next().expect("a game")?;
/// let text = export(&read(&passage).game);
/// assert!(text.ends_with("\n\n1. e4 $1 e5 (1... c5 2. Nf3) 2. f4 *\n\n"));
/// let again = Collection::new(text.as_bytes()).next().expect("a game")?;
/// assert_eq!(export(&read(&again).game), text);
/// # Ok::<_, std::io::Error>(())
/// ```
pub fn export(game: &Game) -> String {
    with_moves(game).0
}

/// Does the same, and gives the moves alone too, in the order of the text.
pub(super) fn with_moves(game: &Game) -> (String, Vec<String>) {
    let result = result(game);
    let mut text = tags(game, result);
    text.push('\n');
    let mut page = Page::default();
    for comment in &game.preface {
        page.comment(comment);
    }
    if let Some(first) = game.main_nodes().next() {
        moves(game, first, &mut page);
    }
    page.word(result.marker());
    text.push_str(&page.text);
    text.push_str("\n\n");
    (text, page.moves)
}

/// The result that the movetext gives, else the one of the tags.
fn result(game: &Game) -> GameResult {
    let of_tag = || {
        let tag = game.tags.get("Result")?;
        outcome(tag.trim().as_bytes())
    };
    game.result.or_else(of_tag).unwrap_or(GameResult::Unknown)
}

fn tags(game: &Game, result: GameResult) -> String {
    let mut text = String::new();
    let mut pair = |name: &str, value: &str| {
        text.extend(["[", name, " \"", &escaped(value), "\"]\n"]);
    };
    for name in ROSTER {
        let unknown = if name == "Date" { "????.??.??" } else { "?" };
        let blank = |value: &str| value.chars().all(|c| c.is_whitespace() || c.is_control());
        let value = game.tags.get(name).filter(|value| !blank(value));
        pair(name, value.unwrap_or(unknown));
    }
    pair("Result", result.marker());
    let mut others: BTreeMap<String, String> = BTreeMap::new();
    let is_chess960 = game.start.mode().is_chess960();
    if !game.start.is_usual() && !game.start_is_assumed() {
        // 9.7: both belong together. A start that was not given is not made up.
        others.insert("SetUp".to_owned(), "1".to_owned());
        others.insert("FEN".to_owned(), game.start.fen());
    }
    let said = game.tags.get("Variant").and_then(castling_mode);
    if is_chess960 && said != Some(CastlingMode::Chess960) {
        others.insert("Variant".to_owned(), "Chess960".to_owned());
    }
    // Of a tag given twice the first counts, whatever the case of its letters.
    let own = ROSTER.into_iter().chain(["Result", "SetUp", "FEN"]);
    let own = own.chain(others.keys().map(String::as_str));
    let mut seen: HashSet<String> = own.map(str::to_lowercase).collect();
    for (name, value) in game.tags.iter() {
        // A tag's name is of letters, digits and underscores (8.1).
        let name = name.replace(|c: char| !c.is_ascii_alphanumeric(), "_");
        if seen.insert(name.to_lowercase()) {
            others.insert(name, value.to_owned());
        }
    }
    for (name, value) in &others {
        pair(name, value);
    }
    text
}

/// A tag's value as the inside of a string: on one line, its quotes and backslashes escaped (7).
fn escaped(value: &str) -> String {
    let literal = value.replace('\\', r"\\").replace('"', r#"\""#);
    literal.replace(char::is_control, " ")
}

/// What is still to be written; sidelines may be nested to any depth, so that no recursion will do.
enum Task {
    /// A line of moves that begins with a node.
    Line(NodeId, Box<Chess>),
    /// The beginning of a sideline.
    Open,
    /// Its end.
    Close,
}

fn moves(game: &Game, first: NodeId, page: &mut Page) {
    let start = game.start.position().clone();
    let mut tasks = vec![Task::Line(first, Box::new(start))];
    while let Some(task) = tasks.pop() {
        match task {
            Task::Open => page.opened.push('('),
            Task::Close => page.close(),
            Task::Line(first, position) => line(game, first, *position, page, &mut tasks),
        }
    }
}

/// Writes moves up to the first one with sidelines; those, and what follows, become tasks.
fn line(game: &Game, first: NodeId, mut position: Chess, page: &mut Page, tasks: &mut Vec<Task>) {
    let mut numbered = true;
    let mut next = Some(first);
    while let Some(id) = next {
        let node = game.node(id);
        for comment in &node.preface {
            page.comment(comment);
        }
        if numbered || position.turn().is_white() {
            page.word(&MoveNumber::next_in(&position).to_string());
        }
        let before = position.clone();
        let word = match node.step {
            MoveOrNull::Move(mv) => {
                SanPlus::from_move_and_play_unchecked(&mut position, mv).to_string()
            }
            MoveOrNull::Null => {
                position = after_null(&before).expect("a null step is made out of check");
                "--".to_owned()
            }
        };
        page.word(&word);
        page.moves.push(word);
        for nag in &node.nags {
            page.word(&format!("${nag}"));
        }
        for comment in &node.comments {
            page.comment(comment);
        }
        next = node.next();
        numbered = !node.comments.is_empty();
        if !node.sidelines().is_empty() {
            tasks.extend(next.map(|first| Task::Line(first, Box::new(position))));
            for sideline in node.sidelines().iter().rev() {
                let sideline = Task::Line(*sideline, Box::new(before.clone()));
                tasks.extend([Task::Close, sideline, Task::Open]);
            }
            return;
        }
    }
}

/// Movetext that is broken into lines between its words.
#[derive(Debug, Default)]
struct Page {
    text: String,
    /// How many characters stand on the last line.
    column: usize,
    /// Parentheses that stand close before the next word.
    opened: String,
    /// The moves that have been written.
    moves: Vec<String>,
}

impl Page {
    /// Writes a word, on a new line where there is no room.
    fn word(&mut self, word: &str) {
        self.put(word, true);
    }

    /// Writes a word behind the one before, or on a new line where there is no room and the line may end.
    fn put(&mut self, word: &str, may_break: bool) {
        let opened = std::mem::take(&mut self.opened);
        let length = opened.len() + word.chars().count();
        if may_break && self.column + 1 + length >= WIDTH {
            self.end_line();
        } else if self.column > 0 {
            self.text.push(' ');
            self.column += 1;
        }
        self.text.extend([&opened, word]);
        self.column += length;
    }

    fn end_line(&mut self) {
        if self.column > 0 {
            self.text.push('\n');
            self.column = 0;
        }
    }

    /// Closes a sideline.
    fn close(&mut self) {
        if self.column + 1 >= WIDTH {
            self.word(")");
        } else {
            self.text.push(')');
            self.column += 1;
        }
    }

    /// Writes a comment.
    fn comment(&mut self, comment: &str) {
        if comment.contains('}') {
            self.line_comment(comment);
            return;
        }
        for word in format!("{{{}}}", comment.trim()).split_whitespace() {
            // At the head of a line `%` would hide the rest of it (6), and `[` be taken for a tag by some.
            self.put(word, !word.starts_with(['%', '[']));
        }
    }

    /// A comment with a closing brace in it can only stand behind a semicolon, which goes to the end of
    /// the line (5).
    fn line_comment(&mut self, comment: &str) {
        for line in comment.lines() {
            if !self.opened.is_empty() {
                self.word("");
            }
            if self.column > 0 {
                self.text.push(' ');
            }
            let words: Vec<&str> = line.split_whitespace().collect();
            self.text.extend(["; ", &words.join(" ")]);
            self.column += 1;
            self.end_line();
        }
    }
}
