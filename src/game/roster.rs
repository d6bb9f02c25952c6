//! Which piece is which through a whole line, and what became of it.

use shakmaty::{Board, Move, Piece, Square};

use super::ply::Ply;

/// The book of every piece of a line. A piece is known by its home, the square where it stood at the
/// start of the line; it stays the same piece through castling and promotion, until it is taken.
#[derive(Clone, Debug)]
pub struct Roster {
    pieces: Vec<TrackedPiece>,
    /// For each position of the line, which of the pieces stands on each square.
    standing: Vec<[Option<u8>; 64]>,
}

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
            standing: vec![[None; 64]],
        };
        for (home, piece) in board {
            let index = u8::try_from(roster.pieces.len()).expect("at most 64 pieces");
            roster.standing[0][home.to_usize()] = Some(index);
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
            let taken = standing[square.to_usize()].take();
            self.piece_mut(taken).taken_by = Some(ply);
        }
        let journeys: &[(Square, Square)] = match played.mv {
            Move::Castle { king, rook } => {
                let wing = played.mv.castling_side().expect("this move castles");
                &[
                    (king, wing.king_to(played.side())),
                    (rook, wing.rook_to(played.side())),
                ]
            }
            mv => &[(played.from(), mv.to())],
        };
        // In Chess960 the king may land where the rook stood: lift both pieces first.
        let lifted: Vec<Option<u8>> = journeys
            .iter()
            .map(|(from, _)| standing[from.to_usize()].take())
            .collect();
        for (&(from, to), piece) in journeys.iter().zip(lifted) {
            standing[to.to_usize()] = piece;
            if from != to {
                self.piece_mut(piece).steps.push(PieceStep { ply, to });
            }
        }
        self.standing.push(standing);
    }

    fn piece_mut(&mut self, index: Option<u8>) -> &mut TrackedPiece {
        let index = index.expect("a piece stands where a move begins or takes");
        &mut self.pieces[usize::from(index)]
    }

    /// Returns all pieces, in the order of their homes: a1, b1, … h8.
    pub fn pieces(&self) -> &[TrackedPiece] {
        &self.pieces
    }

    /// Returns the piece whose home is `home`, if one stood there at the start.
    pub fn piece(&self, home: Square) -> Option<&TrackedPiece> {
        self.piece_on(home, 0)
    }

    /// Returns the piece that stands on `square` after `plies` plies.
    ///
    /// # Panics
    ///
    /// When the line is shorter than that.
    pub fn piece_on(&self, square: Square, plies: usize) -> Option<&TrackedPiece> {
        let index = self.standing[plies][square.to_usize()]?;
        Some(&self.pieces[usize::from(index)])
    }
}
