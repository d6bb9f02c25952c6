//! A start position and the plies played from it.

use shakmaty::uci::UciMove;
use shakmaty::{Chess, Move, PlayError, Position};

use super::ply::Ply;
use super::roster::Roster;
use super::start::Start;

/// A line of play: a start position, the plies played from it, and every position on the way.
///
/// Positions are counted by the plies played: position 0 is the start, position `len()` the end.
#[derive(Clone, Debug)]
pub struct Line {
    start: Start,
    plies: Vec<Ply>,
    positions: Vec<Chess>,
    roster: Roster,
}

impl Line {
    /// Returns the line without a ply yet.
    pub fn new(start: Start) -> Line {
        let position = start.position().clone();
        Line {
            roster: Roster::new(position.board()),
            positions: vec![position],
            plies: Vec::new(),
            start,
        }
    }

    /// Plays one more ply.
    ///
    /// # Errors
    ///
    /// The rules library's error when the move is not legal at the end of the line, which then
    /// stays as it was.
    pub fn push(&mut self, mv: Move) -> Result<(), Box<PlayError<Chess>>> {
        let before = self.end();
        let after = before.clone().play(mv).map_err(Box::new)?;
        let ply = Ply::new(before, mv);
        self.roster.play(&ply);
        self.plies.push(ply);
        self.positions.push(after);
        Ok(())
    }

    /// Cuts out the plies from `from` up to `to`, starting from the position before them.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that, or `from` comes after `to`.
    pub fn cut(&self, from: usize, to: usize) -> Line {
        let mut cut = Line::new(Start::new(self.position(from).clone()));
        for ply in &self.plies[from..to] {
            cut.push(ply.mv).expect("it was played there");
        }
        cut
    }

    /// Returns the start.
    pub const fn start(&self) -> &Start {
        &self.start
    }

    /// Returns the number of plies.
    pub fn len(&self) -> usize {
        self.plies.len()
    }

    /// Tells whether no ply has been played.
    pub fn is_empty(&self) -> bool {
        self.plies.is_empty()
    }

    /// Returns the plies in order: `plies()[n]` leads from position `n` to position `n + 1`.
    pub fn plies(&self) -> &[Ply] {
        &self.plies
    }

    /// Returns the position after `plies` plies.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that.
    pub fn position(&self, plies: usize) -> &Chess {
        &self.positions[plies]
    }

    /// Returns the positions before the one after `plies` plies, from the start on.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that.
    pub fn positions_before(&self, plies: usize) -> &[Chess] {
        &self.positions[..plies]
    }

    /// Returns the position at the end of the line.
    pub fn end(&self) -> &Chess {
        &self.positions[self.plies.len()]
    }

    /// Returns the book of which piece is which.
    pub const fn roster(&self) -> &Roster {
        &self.roster
    }

    /// Writes the first `plies` plies in UCI form, castling as the start's rules have it.
    pub fn uci(&self, plies: usize) -> impl Iterator<Item = UciMove> {
        let mode = self.start.mode();
        let plies = self.plies[..plies].iter();
        plies.map(move |ply| ply.mv.to_uci(mode))
    }
}
