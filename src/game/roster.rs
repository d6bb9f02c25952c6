//! Which piece is which through a whole line, and what became of it.

use shakmaty::{Board, Move, Piece, Role, Square};

use super::ply::Ply;

/// The book of every piece of a line. A piece is known by its home, the square where it stood at the
/// start of the line; it stays the same piece through castling and promotion, until it is taken.
#[derive(Clone, Debug)]
pub struct Roster {
    pieces: Vec<TrackedPiece>,
    by_home: Squares,
    /// For each position of the line, the home of the piece on each square.
    standing: Vec<Squares>,
}

/// For each square, an index or a square number; `NOBODY` where there is none.
type Squares = [u8; 64];
const NOBODY: u8 = u8::MAX;

/// One piece and its journey.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TrackedPiece {
    /// The square where it stood at the start of the line.
    pub home: Square,
    /// What it was at the start of the line.
    pub piece: Piece,
    /// Where it went, in order.
    pub steps: Vec<PieceStep>,
    /// The ply that took it off the board, counted from 0 in the line.
    pub taken_by: Option<usize>,
}

/// One move of one piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PieceStep {
    /// The ply, counted from 0 in the line.
    pub ply: usize,
    /// Where the piece arrived.
    pub to: Square,
    /// What it became, if it is a pawn that promoted.
    pub promotion: Option<Role>,
}

impl TrackedPiece {
    /// Returns the piece's square after `plies` plies, or `None` when it is gone by then.
    pub fn square(&self, plies: usize) -> Option<Square> {
        if self.taken_by.is_some_and(|ply| ply < plies) {
            return None;
        }
        Some(self.steps(plies).last().map_or(self.home, |step| step.to))
    }

    /// Returns the steps made in the first `plies` plies.
    pub fn steps(&self, plies: usize) -> &[PieceStep] {
        &self.steps[..self.steps.partition_point(|step| step.ply < plies)]
    }
}

impl Roster {
    /// Opens the book: every piece stands at home.
    pub(super) fn new(board: &Board) -> Roster {
        let mut roster = Roster {
            pieces: Vec::with_capacity(32),
            by_home: [NOBODY; 64],
            standing: vec![[NOBODY; 64]],
        };
        for (home, piece) in board {
            roster.by_home[home.to_usize()] =
                u8::try_from(roster.pieces.len()).expect("at most 64 pieces");
            roster.standing[0][home.to_usize()] = home as u8;
            roster.pieces.push(TrackedPiece {
                home,
                piece,
                steps: Vec::new(),
                taken_by: None,
            });
        }
        roster
    }

    /// Follows one more ply.
    pub(super) fn play(&mut self, played: &Ply) {
        let ply = self.standing.len() - 1;
        let mut standing = self.standing[ply];
        if let Some(square) = played.taken_on() {
            let home = std::mem::replace(&mut standing[square.to_usize()], NOBODY);
            self.piece_mut(home).taken_by = Some(ply);
        }
        let journeys: &[(Square, Square, Option<Role>)] = match played.mv {
            Move::Castle { king, rook } => {
                let wing = played.mv.castling_side().expect("this move castles");
                &[
                    (king, wing.king_to(played.side()), None),
                    (rook, wing.rook_to(played.side()), None),
                ]
            }
            mv => &[(played.from(), mv.to(), mv.promotion())],
        };
        // In Chess960 the king may land where the rook stood: lift both pieces first.
        let lifted: Vec<u8> = journeys
            .iter()
            .map(|(from, ..)| std::mem::replace(&mut standing[from.to_usize()], NOBODY))
            .collect();
        for (&(from, to, promotion), home) in journeys.iter().zip(lifted) {
            standing[to.to_usize()] = home;
            if from != to {
                self.piece_mut(home)
                    .steps
                    .push(PieceStep { ply, to, promotion });
            }
        }
        self.standing.push(standing);
    }

    fn piece_mut(&mut self, home: u8) -> &mut TrackedPiece {
        &mut self.pieces[usize::from(self.by_home[usize::from(home)])]
    }

    /// Returns all pieces, in the order of their homes: a1, b1, … h8.
    pub fn pieces(&self) -> &[TrackedPiece] {
        &self.pieces
    }

    /// Returns the piece whose home is `home`, if one stood there at the start.
    pub fn piece(&self, home: Square) -> Option<&TrackedPiece> {
        self.pieces.get(usize::from(self.by_home[home.to_usize()]))
    }

    /// Returns the piece that stands on `square` after `plies` plies.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that.
    pub fn piece_on(&self, square: Square, plies: usize) -> Option<&TrackedPiece> {
        match self.standing[plies][square.to_usize()] {
            NOBODY => None,
            home => Some(&self.pieces[usize::from(self.by_home[usize::from(home)])]),
        }
    }
}
