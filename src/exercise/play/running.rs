//! A game that is being played.

use std::rc::Rc;

use shakmaty::uci::UciMove;
use shakmaty::{Chess, Color, Position};

use super::settings::{BoardShown, GameSettings, PlaySettings};
use crate::exercise::past::Place;
use crate::exercise::settings::PlanError;
use crate::game::{GameEnd, Line, Ply, after_null};
use crate::reply::one_move;

/// A game that is being played.
#[derive(Debug)]
pub(super) struct Running {
    pub(super) line: Rc<Line>,
    pub(super) learner: Color,
    /// After how many plies the game begins; those before are read out.
    pub(super) begins: usize,
    /// How far they have been read.
    pub(super) read: Place,
    pub(super) end: Option<GameEnd>,
    /// Whether the learner offers a draw.
    pub(super) offered: bool,
    /// After how many plies questions were asked last, and the board shown.
    asked: Option<usize>,
    shown: Option<usize>,
    /// Which of the session's answers are the learner's moves and slips here.
    pub(super) answers: Vec<usize>,
    /// How many moves the learner took back.
    pub(super) taken_back: usize,
}

impl Running {
    pub(super) fn new(settings: &GameSettings) -> Result<Running, PlanError> {
        let line = Rc::new(settings.script.line(0)?);
        if GameEnd::of(line.end(), &[]).is_some() {
            return Err(PlanError::OverAlready);
        }
        Ok(Running {
            learner: settings.learner,
            begins: line.len(),
            read: Place::new(line.clone(), 0),
            end: None,
            offered: false,
            asked: None,
            shown: None,
            answers: Vec::new(),
            taken_back: 0,
            line,
        })
    }

    pub(super) fn place(&self) -> Place {
        Place::new(self.line.clone(), self.line.len())
    }

    pub(super) fn position(&self) -> &Chess {
        self.line.end()
    }

    /// Plays a move, and sees whether it ends the game.
    pub(super) fn play(&mut self, uci: &str) -> Option<Ply> {
        let uci: UciMove = uci.parse().ok()?;
        let mv = uci.to_move(self.position()).ok()?;
        Rc::make_mut(&mut self.line).push(mv).ok()?;
        let before = self.line.positions_before(self.line.len());
        self.end = GameEnd::of(self.position(), before);
        self.line.plies().last().copied()
    }

    pub(super) fn claim(&self) -> Option<GameEnd> {
        let before = self.line.positions_before(self.line.len());
        GameEnd::claim(self.position(), before)
    }

    /// Tells by what right a draw may be claimed once a move is played.
    pub(super) fn claim_with(&self, uci: UciMove) -> Option<GameEnd> {
        let mut line = Line::clone(&self.line);
        line.push(uci.to_move(line.end()).ok()?).ok()?;
        GameEnd::claim(line.end(), line.positions_before(line.len()))
    }

    /// Takes the learner's last move and the answer to it back, where there is one.
    pub(super) fn take_back(&mut self) -> bool {
        let plies = self.line.len().checked_sub(2);
        let Some(plies) = plies.filter(|plies| *plies >= self.begins) else {
            return false;
        };
        self.line = Rc::new(self.line.cut(0, plies));
        self.taken_back += 1;
        true
    }

    /// Counts the learner's moves.
    pub(super) fn own_moves(&self) -> usize {
        let plies = self.line.plies()[self.begins..].iter();
        plies.filter(|ply| ply.side() == self.learner).count()
    }

    /// Tells whether the board is shown now, and whether it stays; notes that it is.
    pub(super) fn shows(&mut self, board: BoardShown) -> Option<bool> {
        let (moves, plies) = (self.own_moves(), Some(self.line.len()));
        let stays = board == BoardShown::Always;
        let is_due = match board {
            BoardShown::After(every) => moves > 0 && moves.is_multiple_of(every.size()),
            _ => stays,
        };
        let is_new = is_due && self.shown != plies;
        if is_new {
            self.shown = plies;
        }
        is_new.then_some(stays)
    }

    /// Tells whether questions come now, and notes that they do.
    pub(super) fn is_due(&mut self, settings: &PlaySettings) -> bool {
        let (moves, plies) = (self.own_moves(), self.line.len());
        let is_due = !settings.ask.is_empty()
            && moves > 0
            && moves.is_multiple_of(settings.every.size())
            && self.asked != Some(plies);
        if is_due {
            self.asked = Some(plies);
        }
        is_due
    }

    /// Tells whether a text is a legal move of the learner's here, as the board stands.
    pub(super) fn has_move(&self, text: &str) -> bool {
        let position = if self.position().turn() == self.learner {
            Some(self.position().clone())
        } else {
            after_null(self.position())
        };
        position.is_some_and(|position| one_move(text, &position).is_ok())
    }
}
