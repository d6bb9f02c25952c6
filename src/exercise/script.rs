//! What a replay reads, in order: passages of the main line and of the sidelines.

use std::vec::IntoIter;

use serde::{Deserialize, Serialize};
use shakmaty::CastlingMode;
use shakmaty::uci::UciMove;

use super::beside::{Beside, Remark};
use crate::game::{Game, Line, MoveNumber, MoveOrNull, NodeId, Start, StartError};
use crate::question::{LineQuestion, Scene};

/// The whole reading of a game, in the order of reading. In JSON it holds all that another process
/// needs to go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Script {
    start: String,
    chess960: bool,
    /// The main line, and behind it the sidelines, each after the line that it shares moves with.
    pub(super) lines: Vec<Moves>,
    /// In the order of reading.
    pub(super) passages: Vec<Passage>,
    /// What stands beside the moves, in the order of the lines and of their plies.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) remarks: Vec<Remark>,
}

/// The moves of a line: the first ones are those of another line, the rest its own. So a script is
/// no longer than its game, however many sidelines branch off late.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Moves {
    /// The line with which it begins; for the main line, itself.
    like: usize,
    /// How many moves it shares with that line, none of which that line shares with another.
    pub(super) shared: usize,
    pub(super) own: Vec<UciMove>,
}

/// A stretch of one line that is read without a break.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Passage {
    /// Which line; 0 is the main line.
    pub(super) line: usize,
    /// The plies already played when the stretch begins.
    pub(super) from: usize,
    /// The plies played when it ends.
    pub(super) to: usize,
    /// Where a sideline begins here, the line that it leaves.
    pub(super) leaves: Option<usize>,
}

/// Which part of a game is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cut {
    /// The first move that is read; the start of the game where that is `None`.
    pub from: Option<MoveNumber>,
    /// The last move that is read; the end of the game where that is `None`.
    pub to: Option<MoveNumber>,
    /// Whether sidelines are read where they branch off.
    pub sidelines: bool,
    /// Whether comments are read where they stand.
    pub comments: bool,
}

/// Why no script can be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ScriptError {
    /// The game has no move.
    #[error("the game has no moves to read: choose another one")]
    NoMoves,
    /// The game has no such move.
    #[error("the game has no move {asked}: its moves run from {first} to {last}")]
    NoSuchMove {
        /// The move asked for.
        asked: MoveNumber,
        /// The first move of the game.
        first: MoveNumber,
        /// The last move of the game.
        last: MoveNumber,
    },
    /// The first move to read comes after the last.
    #[error("--from {from} comes after --to {to}: swap them")]
    Backwards {
        /// The first move to read.
        from: MoveNumber,
        /// The last move to read.
        to: MoveNumber,
    },
    /// A script that was written down cannot be read again.
    #[error("the reading that was written down is broken: {0}")]
    Broken(String),
}

impl Script {
    /// Writes the script of a game: its main line, cut as wished, and its sidelines where wanted.
    ///
    /// The script starts where the cut does, so that every question over it can be answered from
    /// what was heard.
    ///
    /// # Errors
    ///
    /// [`ScriptError`] when the cut does not fit the game.
    pub fn new(game: &Game, cut: Cut) -> Result<Script, ScriptError> {
        let whole = game.main_line();
        let plies = whole.plies();
        let (Some(first), Some(last)) = (plies.first(), plies.last()) else {
            return Err(ScriptError::NoMoves);
        };
        let index = |asked: MoveNumber| {
            let found = plies.iter().position(|ply| ply.number == asked);
            found.ok_or(ScriptError::NoSuchMove {
                asked,
                first: first.number,
                last: last.number,
            })
        };
        let from = cut.from.map_or(Ok(0), index)?;
        let to = cut.to.map_or(Ok(plies.len() - 1), index)? + 1;
        if from >= to {
            return Err(ScriptError::Backwards {
                from: plies[from].number,
                to: plies[to - 1].number,
            });
        }
        let start = Start::new(whole.position(from).clone());
        let mut script = Script::of_moves(&start, whole.uci(to).skip(from).collect());
        let main: Vec<NodeId> = game.main_nodes().skip(from).take(to - from).collect();
        if from == 0 && cut.comments {
            script.comment((0, 0), &game.preface);
        }
        script.read(game, main, cut);
        Ok(script)
    }

    /// Writes the script of a line alone, which may be a start without a ply.
    pub fn of_line(line: &Line) -> Script {
        let mut script = Script::of_moves(line.start(), line.uci(line.len()).collect());
        script.passages.push(Passage {
            line: 0,
            from: 0,
            to: line.len(),
            leaves: None,
        });
        script
    }

    fn of_moves(start: &Start, own: Vec<UciMove>) -> Script {
        let main = Moves {
            like: 0,
            shared: 0,
            own,
        };
        Script {
            start: start.fen(),
            chess960: start.mode().is_chess960(),
            lines: vec![main],
            passages: Vec::new(),
            remarks: Vec::new(),
        }
    }

    /// Lays out the passages, each sideline after the move that it replaces. An open line waits on a
    /// stack while its sidelines are read, so that depth costs no recursion.
    fn read(&mut self, game: &Game, main: Vec<NodeId>, cut: Cut) {
        let mut stack = vec![OpenLine {
            number: 0,
            leaves: None,
            plies: 0,
            nodes: main.into_iter(),
        }];
        while let Some(mut open) = stack.pop() {
            let from = open.plies;
            let branches = |id: &NodeId| cut.sidelines && !game.node(*id).sidelines().is_empty();
            let first = open.nodes.as_slice().first();
            if let Some(first) = first.filter(|_| cut.comments && open.leaves.is_some()) {
                self.comment((open.number, from), &game.node(*first).preface);
            }
            let mut branch = None;
            while branch.is_none()
                && let Some(id) = open.nodes.next()
            {
                open.plies += 1;
                if cut.comments {
                    self.comment((open.number, open.plies), &game.node(id).comments);
                }
                branch = Some(id).filter(branches);
            }
            if open.plies == from {
                continue;
            }
            self.passages.push(Passage {
                line: open.number,
                from,
                to: open.plies,
                leaves: open.leaves.take(),
            });
            let parent = (open.number, open.plies - 1);
            stack.push(open);
            let firsts = branch.map_or(&[][..], |id| game.node(id).sidelines());
            let begun: Vec<OpenLine> = (firsts.iter())
                .filter_map(|first| self.begin_sideline(game, parent, *first))
                .collect();
            stack.extend(begun.into_iter().rev());
        }
        self.remarks.sort_by_key(|remark| remark.at);
    }

    /// Puts comments beside a line.
    fn comment(&mut self, at: (usize, usize), comments: &[String]) {
        let what = comments
            .iter()
            .filter_map(|comment| Beside::comment(comment));
        self.remarks.extend(what.map(|what| Remark { at, what }));
    }

    /// Has this asked after so many plies of the main line, before the comments there.
    pub fn ask(&mut self, plies: usize, what: Beside) {
        let at = (0, plies);
        let is_before = |other: &Remark| {
            other.at < at || other.at == at && !matches!(other.what, Beside::Comment(_))
        };
        let place = self.remarks.partition_point(is_before);
        self.remarks.insert(place, Remark { at, what });
    }

    /// Returns what stands beside a line after so many plies, each with its place.
    pub(super) fn beside(&self, at: (usize, usize)) -> impl Iterator<Item = (usize, &Beside)> {
        let all = self.remarks.iter().enumerate();
        let from = self.remarks.partition_point(|remark| remark.at < at);
        let here = all
            .skip(from)
            .take_while(move |(_, remark)| remark.at == at);
        here.map(|(place, remark)| (place, &remark.what))
    }

    /// Returns the questions there whose truth is computed.
    pub(super) fn asked(&self, at: (usize, usize)) -> Vec<LineQuestion> {
        let asked = self.beside(at).filter_map(|(_, what)| match what {
            Beside::Ask(question) => Some(*question),
            Beside::Open(_) | Beside::Comment(_) => None,
        });
        asked.collect()
    }

    /// Writes down the line that branches off after `plies` plies of `parent`, up to the first null
    /// step, which no question can stand behind.
    fn begin_sideline(
        &mut self,
        game: &Game,
        (parent, plies): (usize, usize),
        first: NodeId,
    ) -> Option<OpenLine> {
        let mode = self.mode();
        let played = game
            .nodes_from(first)
            .map_while(|id| match game.node(id).step {
                MoveOrNull::Move(mv) => Some((id, mv.to_uci(mode))),
                MoveOrNull::Null => None,
            });
        let (nodes, own): (Vec<NodeId>, Vec<UciMove>) = played.unzip();
        if nodes.is_empty() {
            return None;
        }
        // Where all that is shared comes before the parent's own moves, the parent has it from its
        // own parent: so no chain of lines is longer than the moves that are shared.
        let like = if plies <= self.lines[parent].shared {
            self.lines[parent].like
        } else {
            parent
        };
        self.lines.push(Moves {
            like,
            shared: plies,
            own,
        });
        Some(OpenLine {
            number: self.lines.len() - 1,
            leaves: Some(parent),
            plies,
            nodes: nodes.into_iter(),
        })
    }

    /// Sees to it that every passage lies on a line that can be played; scripts from [`Script::new`]
    /// and [`Script::of_line`] always hold.
    pub(super) fn check(&self) -> Result<(), ScriptError> {
        if self.passages.is_empty() {
            return Err(ScriptError::NoMoves);
        }
        // Where there is no ply to read, the start alone is asked about.
        let is_start_alone = matches!(self.passages[..], [Passage { from: 0, to: 0, .. }]);
        for (number, passage) in self.passages.iter().enumerate() {
            let begins = match passage.leaves {
                Some(parent) => self.line(parent)?.len() > passage.from,
                None => number == 0 || passage.from > 0,
            };
            let reads = passage.from < passage.to || is_start_alone;
            if !begins || !reads || self.line(passage.line)?.len() < passage.to {
                return Err(ScriptError::Broken("a passage leaves its line".to_owned()));
            }
        }
        for Remark { at, what } in &self.remarks {
            if let Beside::Ask(question) = what {
                let line = self.line(at.0)?;
                if at.1 > line.len() || !question.fits(Scene::new(&line, at.1)) {
                    return Err(ScriptError::Broken("a question does not fit".to_owned()));
                }
            }
        }
        Ok(())
    }

    const fn mode(&self) -> CastlingMode {
        CastlingMode::from_chess960(self.chess960)
    }

    /// Returns the position that every line of the script starts from.
    ///
    /// # Errors
    ///
    /// When the FEN that was written down cannot be played on from.
    pub fn start(&self) -> Result<Start, StartError> {
        Start::from_fen(&self.start, self.mode())
    }

    /// Plays line `number` through.
    ///
    /// # Errors
    ///
    /// [`ScriptError::Broken`] when a script that was read from elsewhere holds a line that cannot
    /// be played; a script made by [`Script::new`] or [`Script::of_line`] never does.
    pub fn line(&self, number: usize) -> Result<Line, ScriptError> {
        let start = self
            .start()
            .map_err(|error| ScriptError::Broken(error.to_string()))?;
        let mut line = Line::new(start);
        for uci in self.moves(number)? {
            let broken = || ScriptError::Broken(format!("{uci} cannot be played"));
            let mv = uci.to_move(line.end()).map_err(|_| broken())?;
            line.push(mv).map_err(|_| broken())?;
        }
        Ok(line)
    }

    /// Returns the moves of line `number` from the start to its end.
    fn moves(&self, number: usize) -> Result<Vec<&UciMove>, ScriptError> {
        let broken = || ScriptError::Broken(format!("line {number} is not whole"));
        // The stretches from the last one to the first.
        let mut stretches: Vec<&[UciMove]> = Vec::new();
        let (mut at, mut wanted) = (number, usize::MAX);
        while wanted > 0 {
            let moves = self.lines.get(at).ok_or_else(broken)?;
            let own = wanted.saturating_sub(moves.shared).min(moves.own.len());
            stretches.push(&moves.own[..own]);
            if moves.shared > 0 && moves.like >= at {
                return Err(broken());
            }
            (at, wanted) = (moves.like, wanted.min(moves.shared));
        }
        Ok(stretches.into_iter().rev().flatten().collect())
    }
}

/// A line that is being laid out.
struct OpenLine {
    number: usize,
    /// The line that it leaves, where it is a sideline of which nothing is laid out yet.
    leaves: Option<usize>,
    /// The plies laid out so far, counted from the start.
    plies: usize,
    /// The moves behind them.
    nodes: IntoIter<NodeId>,
}
