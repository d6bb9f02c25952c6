//! Whether a fully named move is legal now.

use serde::{Deserialize, Serialize};
use shakmaty::{CastlingSide, Color, Piece, Position, Square, attacks};

use super::super::json::text;
use super::super::{
    Always, Attempt, Choice, Disclosure, Form, Illegal, ImpossibleMove, LineKind, MoveSaid, Reason,
    Reply, Scene, Share, Tally, Truth,
};
use super::near_miss;
use crate::board::Pair;
use crate::game::{MoveNumber, Ply, TrackedPiece};

/// Asks whether a move is legal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Legality {
    /// The move.
    #[serde(rename = "move", with = "text")]
    pub attempt: Attempt,
}

/// Why a move is legal or not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegalityWhy {
    /// The move.
    pub attempt: Attempt,
    /// The piece on the from-square.
    pub piece: Option<Piece>,
    /// The piece on the to-square.
    pub target: Option<Piece>,
    /// What forbids it; `None` when it is legal.
    pub blame: Option<Blame>,
}

/// The reason that a move is illegal, with what a coach adds to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Blame {
    /// The reason and its square.
    pub illegal: Illegal,
    /// The piece on that square.
    pub by: Option<Piece>,
    /// The first attacked square on the king's way, where that forbids it to castle.
    pub crossing: Option<Square>,
    /// What there is to tell about the moment when the move was lost.
    pub since: Since,
}

/// When a move that was possible once was lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Since {
    /// Nothing was lost in time.
    NoMatter,
    /// The right to castle was lost with this ply.
    RightLost(Ply),
    /// The right to castle was not there at the start of the line.
    NeverHadRight,
    /// The enemy pawn made its double step with this move.
    DoubleStep(MoveNumber),
}

/// An illegal move that was named, and why it is illegal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Its squares are certain, and so is its one reason.
    Illegal(LegalityWhy),
    /// It is illegal whichever piece was meant.
    Impossible(ImpossibleMove),
}

impl LegalityWhy {
    pub(super) fn new(scene: Scene<'_>, attempt: Attempt) -> LegalityWhy {
        let illegal = scene.judge().illegal(attempt);
        LegalityWhy {
            attempt,
            piece: scene.board().piece_at(attempt.from),
            target: scene.board().piece_at(attempt.to),
            blame: illegal.map(|illegal| Blame::new(scene, illegal, attempt)),
        }
    }
}

impl Blame {
    pub(super) fn new(scene: Scene<'_>, illegal: Illegal, attempt: Attempt) -> Blame {
        let wing = CastlingSide::from_king_side(attempt.to > attempt.from);
        let since = match illegal.reason {
            Reason::CastlingRightLost => right_lost(scene, scene.position().turn(), wing),
            Reason::EnPassantExpired => double_step(scene, illegal.by),
            _ => Since::NoMatter,
        };
        let crossing = match (illegal.reason, illegal.by) {
            (Reason::CastlingThroughAttack, Some(by)) => {
                Some(crossing(scene, attempt.from, wing, by))
            }
            _ => None,
        };
        Blame {
            illegal,
            by: illegal.by.and_then(|square| scene.board().piece_at(square)),
            crossing,
            since,
        }
    }
}

impl Refused {
    /// Finds the illegal moves of a reply; `scene` is where they would be played.
    pub(super) fn all(scene: Scene<'_>, reply: Option<&Reply>) -> Vec<Refused> {
        let said = reply.map_or(&[][..], Reply::moves).iter();
        said.filter_map(|said| match said {
            MoveSaid::Named(attempt) => {
                let why = LegalityWhy::new(scene, *attempt);
                why.blame.is_some().then_some(Refused::Illegal(why))
            }
            MoveSaid::Impossible(said) => Some(Refused::Impossible(said.clone())),
        })
        .collect()
    }
}

/// Finds the first square on the king's way, the last one included, that the piece on `by` attacks.
fn crossing(scene: Scene<'_>, king: Square, wing: CastlingSide, by: Square) -> Square {
    let arrival = wing.king_to(scene.position().turn());
    let board = scene.board();
    // The king itself hides nothing of its way.
    let occupied = board.occupied().without(king);
    let attacked = |square: &Square| {
        let piece = board.piece_at(by);
        piece.is_some_and(|piece| attacks::attacks(by, piece, occupied).contains(*square))
    };
    let way = Pair::new(king, arrival).map(Pair::between);
    // What is attacked only once the rook has left is the square where the king arrives.
    { way.into_iter().flatten() }
        .find(attacked)
        .unwrap_or(arrival)
}

/// Finds the ply with which the right to castle on a wing was lost.
pub(super) fn right_lost(scene: Scene<'_>, side: Color, wing: CastlingSide) -> Since {
    let had = |plies: usize| scene.line().position(plies).castles().has(side, wing);
    if !had(0) {
        return Since::NeverHadRight;
    }
    (0..scene.plies())
        .find(|ply| !had(ply + 1))
        .map_or(Since::NoMatter, |ply| Since::RightLost(scene.played()[ply]))
}

fn double_step(scene: Scene<'_>, pawn: Option<Square>) -> Since {
    pawn.and_then(|square| scene.piece_on(square))
        .and_then(|piece| piece.steps(scene.plies()).last())
        .map_or(Since::NoMatter, |step| {
            Since::DoubleStep(scene.played()[step.ply].number)
        })
}

impl LineKind for Legality {
    const FORM: Form = Form::Legal;

    const MOVES: Share = Share::Some;

    const GAME: Share = Share::Some;

    type Why = LegalityWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let legal = Truth::Legal(Always);
        { scene.judge().illegal(self.attempt) }.map_or(legal, |illegal| Truth::Illegal {
            legal: Always,
            illegal,
        })
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> LegalityWhy {
        LegalityWhy::new(scene, self.attempt)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.attempt.from)
    }

    fn disclose(self, disclosure: &mut Disclosure, truth: &Truth, _: Scene<'_>) {
        disclosure.asks_ways(self.attempt.from, truth);
        disclosure.tells_check = matches!(
            truth,
            Truth::Illegal { illegal, .. } if matches!(
                illegal.reason,
                Reason::CastlingInCheck | Reason::StaysInCheck
            )
        );
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Legality> {
        near_miss::draw(choice).map(|attempt| Legality { attempt })
    }
}
