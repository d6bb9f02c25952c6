//! A whole game: tags, start, main line, sidelines to any depth, comments, result.

use std::fmt;

use serde::{Deserialize, Serialize};
use shakmaty::Move;

use super::line::Line;
use super::start::{Start, after_null};

/// A game as a PGN file holds it.
///
/// The moves lie flat in one list and point at each other, so that sidelines may be nested to any
/// depth without recursion.
#[derive(Clone, Debug)]
pub struct Game {
    /// The tag section.
    pub tags: Tags,
    /// The position and the castling rules that the game starts with.
    pub start: Start,
    /// The comments that stand before the first move.
    pub preface: Vec<String>,
    /// How the movetext ends; `None` when no result is given there.
    pub result: Option<GameResult>,
    nodes: Vec<Node>,
}

/// The tag pairs of a game, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tags(Vec<(String, String)>);

impl Tags {
    /// Adds a tag pair at the end.
    pub fn push(&mut self, name: impl Into<String>, value: impl Into<String>) {
        self.0.push((name.into(), value.into()));
    }

    /// Returns the first value given for `name`, whatever the case of its letters.
    pub fn get(&self, name: &str) -> Option<&str> {
        self.0
            .iter()
            .find(|(key, _)| key.eq_ignore_ascii_case(name))
            .map(|(_, value)| value.as_str())
    }

    /// Returns the value of `name` unless it is missing, empty or the standard's `?` for unknown.
    pub fn known(&self, name: &str) -> Option<&str> {
        self.get(name)
            .filter(|value| !matches!(value.trim(), "" | "?"))
    }

    /// Walks the pairs in the order of the file.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = (&str, &str)> {
        self.0
            .iter()
            .map(|(name, value)| (name.as_str(), value.as_str()))
    }
}

impl<N: Into<String>, V: Into<String>> FromIterator<(N, V)> for Tags {
    fn from_iter<I: IntoIterator<Item = (N, V)>>(pairs: I) -> Tags {
        let mut tags = Tags::default();
        for (name, value) in pairs {
            tags.push(name, value);
        }
        tags
    }
}

/// A place in a text file, as an editor shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
pub struct Place {
    /// The line, counted from 1.
    pub line: usize,
    /// The column, counted from 1 in characters.
    pub column: usize,
}

impl Place {
    /// Names the place at `line` and `column`, both counted from 1.
    pub const fn new(line: usize, column: usize) -> Place {
        Place { line, column }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}

/// How a game ended (PGN standard, 8.2.6).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum GameResult {
    /// `1-0`
    #[serde(rename = "1-0")]
    WhiteWins,
    /// `0-1`
    #[serde(rename = "0-1")]
    BlackWins,
    /// `1/2-1/2`
    #[serde(rename = "1/2-1/2")]
    Draw,
    /// `*`: not over, not known, or the game was left
    #[serde(rename = "*")]
    Unknown,
}

impl GameResult {
    /// Writes the termination marker.
    pub const fn marker(self) -> &'static str {
        match self {
            GameResult::WhiteWins => "1-0",
            GameResult::BlackWins => "0-1",
            GameResult::Draw => "1/2-1/2",
            GameResult::Unknown => "*",
        }
    }
}

/// The name of a node in its game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NodeId(u32);

/// What is done at a node.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoveOrNull {
    /// A legal move.
    Move(Move),
    /// The side to move passes, as annotators let it do in sidelines; never on the main line.
    Null,
}

/// A move of the main line or of a sideline, with what an annotator wrote beside it.
#[derive(Clone, Debug)]
pub struct Node {
    /// What is done here.
    pub step: MoveOrNull,
    /// Where its text stands in the file.
    pub place: Place,
    /// Numeric annotation glyphs, 0 to 255 (PGN standard, 10).
    pub nags: Vec<u8>,
    /// The comments after the move.
    pub comments: Vec<String>,
    /// The comments before the move, where it is the first of a sideline.
    pub preface: Vec<String>,
    before: Option<NodeId>,
    next: Option<NodeId>,
    sidelines: Vec<NodeId>,
}

impl Node {
    /// Returns the node that comes before, or `None` at the start of the game.
    pub const fn before(&self) -> Option<NodeId> {
        self.before
    }

    /// Returns the node that goes on from here.
    pub const fn next(&self) -> Option<NodeId> {
        self.next
    }

    /// Returns the first nodes of the sidelines that replace this one.
    pub fn sidelines(&self) -> &[NodeId] {
        &self.sidelines
    }
}

impl Game {
    /// Returns a game without a move.
    pub const fn new(tags: Tags, start: Start) -> Game {
        Game {
            tags,
            start,
            preface: Vec::new(),
            result: None,
            nodes: Vec::new(),
        }
    }

    /// Makes room for about so many moves at once.
    pub fn reserve(&mut self, moves: usize) {
        self.nodes.reserve(moves);
    }

    /// Adds the node that goes on after `before` (at the start of the game where that is `None`),
    /// where nothing goes on from there yet.
    ///
    /// The caller has seen to it that the step is legal there.
    ///
    /// # Panics
    ///
    /// When `before` has a next node already, or the game holds 2³² moves.
    pub fn go_on(&mut self, before: Option<NodeId>, step: MoveOrNull, place: Place) -> NodeId {
        let id = self.add(before, step, place);
        match before {
            Some(before) => {
                let next = self.node_mut(before).next.replace(id);
                assert!(next.is_none(), "one node goes on from another only once");
            }
            None => assert!(id.0 == 0, "a game has one first move"),
        }
        id
    }

    /// Adds the first node of a sideline that replaces `replaced`.
    ///
    /// The caller has seen to it that the step is legal there.
    ///
    /// # Panics
    ///
    /// When the game holds 2³² moves.
    pub fn branch(&mut self, replaced: NodeId, step: MoveOrNull, place: Place) -> NodeId {
        let id = self.add(self.node(replaced).before, step, place);
        self.node_mut(replaced).sidelines.push(id);
        id
    }

    fn add(&mut self, before: Option<NodeId>, step: MoveOrNull, place: Place) -> NodeId {
        let id = NodeId(u32::try_from(self.nodes.len()).expect("fewer than 2^32 moves"));
        self.nodes.push(Node {
            step,
            place,
            nags: Vec::new(),
            comments: Vec::new(),
            preface: Vec::new(),
            before,
            next: None,
            sidelines: Vec::new(),
        });
        id
    }

    /// Returns a node.
    pub fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id.0 as usize]
    }

    /// Returns a node to write on.
    pub fn node_mut(&mut self, id: NodeId) -> &mut Node {
        &mut self.nodes[id.0 as usize]
    }

    /// Walks all nodes in the order in which they were added, which is that of the text.
    pub fn ids(&self) -> impl Iterator<Item = NodeId> {
        (0..).map(NodeId).take(self.nodes.len())
    }

    /// Keeps the first `count` moves that were added and drops the others.
    pub fn keep_first(&mut self, count: usize) {
        self.nodes.truncate(count);
        let is_kept = |id: &NodeId| (id.0 as usize) < count;
        for node in &mut self.nodes {
            node.next = node.next.filter(is_kept);
            node.sidelines.retain(is_kept);
        }
    }

    /// Returns the number of sidelines, at any depth.
    pub fn sideline_count(&self) -> usize {
        self.nodes.iter().map(|node| node.sidelines.len()).sum()
    }

    /// Returns the game in which a sideline is played, counted from 1 in the order of the text, up to where a side
    /// passes; `None` where there are not so many.
    pub fn sideline(&self, number: usize) -> Option<Game> {
        let firsts = self.nodes.iter().flat_map(|node| &node.sidelines);
        let mut firsts: Vec<NodeId> = firsts.copied().collect();
        firsts.sort_unstable();
        let first = *firsts.get(number.checked_sub(1)?)?;
        let before = std::iter::successors(self.node(first).before, |id| self.node(*id).before);
        let mut path: Vec<NodeId> = before.collect();
        path.reverse();
        path.extend(self.nodes_from(first));
        let mut game = Game::new(self.tags.clone(), self.start.clone());
        game.preface.clone_from(&self.preface);
        let mut last = None;
        for node in path.into_iter().map(|id| self.node(id)) {
            if node.step == MoveOrNull::Null {
                break;
            }
            let id = game.go_on(last, node.step, node.place);
            game.node_mut(id).comments.clone_from(&node.comments);
            last = Some(id);
        }
        Some(game)
    }

    /// Tells whether the usual array was taken for a start that is not known: Chess960 without a FEN tag.
    pub fn start_is_assumed(&self) -> bool {
        self.start.mode().is_chess960()
            && self.tags.known("FEN").is_none()
            && self.start.position() == Start::standard().position()
    }

    /// Tells whether two games have the same moves, sidelines included.
    pub fn same_moves(&self, other: &Game) -> bool {
        let shape = |node: &Node| (node.step, node.before, node.next);
        self.start == other.start
            && self
                .nodes
                .iter()
                .map(shape)
                .eq(other.nodes.iter().map(shape))
    }

    /// Walks the nodes of the main line.
    pub fn main_nodes(&self) -> impl Iterator<Item = NodeId> {
        let first = (!self.nodes.is_empty()).then_some(NodeId(0));
        std::iter::successors(first, |id| self.node(*id).next)
    }

    /// Walks the nodes from `first` to the end of its own line.
    pub fn nodes_from(&self, first: NodeId) -> impl Iterator<Item = NodeId> {
        std::iter::successors(Some(first), |id| self.node(*id).next)
    }

    /// Returns the main line.
    pub fn main_line(&self) -> Line {
        self.line(self.main_nodes())
    }

    /// Returns the line from the start of the game to `last`, or, where a null step lies on the
    /// way, from the position after the last null step.
    pub fn line_to(&self, last: NodeId) -> Line {
        let mut path: Vec<NodeId> =
            std::iter::successors(Some(last), |id| self.node(*id).before).collect();
        path.reverse();
        self.line(path)
    }

    fn line(&self, path: impl IntoIterator<Item = NodeId>) -> Line {
        let mut line = Line::new(self.start.clone());
        for id in path {
            match self.node(id).step {
                MoveOrNull::Move(mv) => line.push(mv).expect("a game holds legal moves"),
                MoveOrNull::Null => {
                    let turned = after_null(line.end()).expect("a null step is made out of check");
                    line = Line::new(Start::new(turned));
                }
            }
        }
        line
    }
}
