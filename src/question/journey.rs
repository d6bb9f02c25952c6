//! A piece's way through a line, and who left a square last: what a coach retraces after a miss.

use shakmaty::{Move, Piece, Position, Square};

use super::Scene;
use crate::game::{MoveNumber, Ply, TrackedPiece};

/// The way of one piece from the start of a line to the scene.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Journey {
    /// Where it stood at the start of the line.
    pub home: Square,
    /// What it was then.
    pub piece: Piece,
    /// Every move that it made, in order.
    pub legs: Vec<Leg>,
    /// The move with which it castled without leaving its square, as can be in Chess960.
    pub stayed: Option<MoveNumber>,
    /// The move that took it, if one did.
    pub end: Option<Ply>,
}

/// One move of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leg {
    /// The move of the game; castling is one of king and rook.
    pub ply: Ply,
    /// The square where it arrived.
    pub to: Square,
}

impl Journey {
    /// Retraces the way of `piece` up to `scene`.
    ///
    /// # Panics
    ///
    /// When `piece` is not of the scene's own line.
    pub fn of(scene: Scene<'_>, piece: &TrackedPiece) -> Journey {
        let played = scene.played();
        let legs = piece
            .steps(scene.plies())
            .iter()
            .map(|step| Leg {
                ply: played[step.ply],
                to: step.to,
            })
            .collect();
        let taken_by = piece.taken_by.filter(|ply| *ply < scene.plies());
        Journey {
            home: piece.home,
            piece: piece.piece,
            legs,
            stayed: stayed(scene, piece),
            end: taken_by.map(|ply| played[ply]),
        }
    }

    /// Retraces the way of the piece that stands on `square` in `scene`.
    pub fn to(scene: Scene<'_>, square: Square) -> Option<Journey> {
        Some(Journey::of(scene, scene.piece_on(square)?))
    }

    /// Returns what the piece is, or was last.
    pub fn piece_now(&self) -> Piece {
        let promotion = self.legs.iter().find_map(|leg| leg.ply.mv.promotion());
        Piece {
            role: promotion.unwrap_or(self.piece.role),
            ..self.piece
        }
    }

    /// Returns where the piece stands, or stood last.
    pub fn last_square(&self) -> Square {
        self.legs.last().map_or(self.home, |leg| leg.to)
    }
}

/// Finds the castling in which a king or rook took part and kept its square.
fn stayed(scene: Scene<'_>, piece: &TrackedPiece) -> Option<MoveNumber> {
    let castled = |(plies, ply): &(usize, &Ply)| match ply.mv {
        Move::Castle { king, rook } => {
            let square = piece.square(*plies);
            ply.side() == piece.piece.color
                && [Some(king), Some(rook)].contains(&square)
                && piece.square(plies + 1) == square
        }
        Move::Normal { .. } | Move::EnPassant { .. } | Move::Put { .. } => false,
    };
    let played = scene.played().iter().enumerate();
    { played }.find(castled).map(|(_, ply)| ply.number)
}

/// The last time that a piece left a square, which is empty since.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Departure {
    /// The piece that stood there.
    pub piece: Piece,
    /// Which move of the game it was.
    pub number: MoveNumber,
    /// Where it went; `None` when it was taken there.
    pub to: Option<Square>,
    /// Where it stands now; `None` when it has been taken since, or there.
    pub now: Option<Square>,
}

impl Departure {
    /// Finds how a piece that stands on a square no more went from there, if it ever stood on it in this line.
    pub(super) fn of(scene: Scene<'_>, square: Square, piece: Piece) -> Option<Departure> {
        Departure::last(scene, square, |stood| stood == piece)
    }

    /// Finds who stood last before `scene` on a square that is empty there, if a piece ever stood on it in
    /// this line.
    pub(super) fn from(scene: Scene<'_>, square: Square) -> Option<Departure> {
        Departure::last(scene, square, |_| true)
    }

    fn last(scene: Scene<'_>, on: Square, is_meant: impl Fn(Piece) -> bool) -> Option<Departure> {
        let (line, plies) = (scene.line(), (0..scene.plies()).rev());
        let stood = |plies| Some((plies, line.position(plies).board().piece_at(on)?));
        let (plies, piece) = { plies }
            .filter_map(stood)
            .find(|(_, piece)| is_meant(*piece))?;
        let tracked = line.roster().piece_on(on, plies)?;
        Some(Departure {
            piece,
            number: scene.played()[plies].number,
            to: tracked.square(plies + 1),
            now: tracked.square(scene.plies()),
        })
    }
}
