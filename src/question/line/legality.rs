//! Whether a fully named move is legal now, and the wings on which a side may still castle some day.

use serde::{Deserialize, Serialize};
use shakmaty::{CastlingSide, Color, Piece, Position, Role, Square};

use super::super::json::text;
use super::super::{
    Always, Attempt, Choice, Departure, Disclosure, Illegal, ImpossibleMove, LineKind, MoveSaid,
    Reason, Reply, Scene, Share, Tally, Truth, Wings,
};
use super::near_miss;
use crate::board::Pair;
use crate::game::{Ply, TrackedPiece};

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
    /// The side to move.
    pub turn: Color,
    /// The piece on the from-square.
    pub piece: Option<Piece>,
    /// How a piece went from the from-square, where it is empty since.
    pub left: Option<Departure>,
    /// The piece on the to-square.
    pub target: Option<Piece>,
    /// What forbids it; `None` when it is legal.
    pub blame: Option<IllegalWhy>,
}

/// The reason that a move is illegal, with what a coach adds to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct IllegalWhy {
    /// The reason and its square.
    pub illegal: Illegal,
    /// The piece to blame, with its square.
    pub by: Option<(Square, Piece)>,
    /// The first attacked square on the king's way, where that forbids it to castle.
    pub crossing: Option<Square>,
    /// The ply with which the right to castle was lost, where it ever was there, or with which the enemy pawn made its
    /// double step.
    pub since: Option<Ply>,
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
    pub(crate) fn new(scene: Scene<'_>, attempt: Attempt) -> LegalityWhy {
        let illegal = scene.judge().illegal(attempt);
        let piece = scene.board().piece_at(attempt.from);
        LegalityWhy {
            attempt,
            turn: scene.position().turn(),
            piece,
            left: Departure::from(scene, attempt.from).filter(|_| piece.is_none()),
            target: scene.board().piece_at(attempt.to),
            blame: illegal.map(|illegal| IllegalWhy::new(scene, illegal, attempt)),
        }
    }

    /// Returns the reason that it is illegal for.
    pub fn reason(&self) -> Option<Reason> {
        Some(self.blame.as_ref()?.illegal.reason)
    }
}

impl IllegalWhy {
    fn new(scene: Scene<'_>, illegal: Illegal, attempt: Attempt) -> IllegalWhy {
        let wing = CastlingSide::from_king_side(attempt.to > attempt.from);
        let since = match illegal.reason {
            Reason::CastlingRightLost => right_lost(scene, scene.position().turn(), wing),
            Reason::EnPassantExpired => double_step(scene, illegal.by),
            _ => None,
        };
        let on_its_way = illegal.reason == Reason::CastlingThroughAttack;
        let attacker = illegal.by.filter(|_| on_its_way);
        let by = |square| Some((square, scene.board().piece_at(square)?));
        IllegalWhy {
            illegal,
            by: illegal.by.and_then(by),
            crossing: attacker.map(|by| crossing(scene, attempt.from, wing, by)),
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
    let them = !scene.position().turn();
    let attacked = |square: &Square| board.attacks_to(*square, them, occupied).contains(by);
    let way = Pair::new(king, arrival).map(Pair::between);
    // What is attacked only once the rook has left is the square where the king arrives.
    { way.into_iter().flatten() }
        .find(attacked)
        .unwrap_or(arrival)
}

/// Finds the ply with which the right to castle on a wing was lost, if there was one and it is not there any more.
fn right_lost(scene: Scene<'_>, side: Color, wing: CastlingSide) -> Option<Ply> {
    let had = |plies: usize| scene.line().position(plies).castles().has(side, wing);
    let lost = (0..scene.plies()).find(|ply| had(*ply) && !had(ply + 1))?;
    Some(scene.played()[lost])
}

fn double_step(scene: Scene<'_>, pawn: Option<Square>) -> Option<Ply> {
    let step = scene.piece_on(pawn?)?.steps(scene.plies()).last()?;
    Some(scene.played()[step.ply])
}

impl LineKind for Legality {
    const MOVES: Share = Share::Some;

    const GAME: Share = Share::Some;

    type Why = LegalityWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let legal = Always;
        match scene.judge().illegal(self.attempt) {
            Some(illegal) => Truth::Illegal { legal, illegal },
            None => Truth::Legal(Always),
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> LegalityWhy {
        LegalityWhy::new(scene, self.attempt)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.attempt.from)
    }

    /// A square that is known to be empty, or to hold the piece in the way, answers for an illegal move.
    fn disclose(self, disclosure: &mut Disclosure, truth: &Truth, _: Scene<'_>) {
        disclosure.asks_ways(self.attempt.from, truth);
        let Truth::Illegal { illegal, .. } = truth else {
            return;
        };
        disclosure.asks.extend(match illegal.reason {
            Reason::EmptySquare | Reason::WrongSide => Some(self.attempt.from),
            Reason::OwnPieceThere => Some(self.attempt.to),
            _ => illegal.by,
        });
        let in_check = [Reason::CastlingInCheck, Reason::StaysInCheck];
        disclosure.tells_check = in_check.contains(&illegal.reason);
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Legality> {
        near_miss::draw(choice).map(|attempt| Legality { attempt })
    }
}

/// Asks on which wings a side has its right to castle, whether castling is possible now or not (FIDE
/// 3.8.2.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rights {
    /// The side.
    #[serde(with = "text")]
    pub color: Color,
}

/// What became of a side's rights to castle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RightsWhy {
    /// The side.
    pub color: Color,
    /// For each wing that was judged wrongly, whether its right is still there and the ply with which it was lost.
    pub wings: Vec<(CastlingSide, bool, Option<Ply>)>,
}

impl LineKind for Rights {
    const VARIED: bool = false;

    const GAME: Share = Share::Some;

    type Why = RightsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Wings(held(scene, self.color))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> RightsWhy {
        let held = held(scene, self.color);
        let said = match reply {
            Some(Reply::Wings(said)) => *said,
            _ => Wings {
                short: !held.short,
                long: !held.long,
            },
        };
        let wings = [
            (CastlingSide::KingSide, held.short, said.short),
            (CastlingSide::QueenSide, held.long, said.long),
        ];
        let wrong = wings.into_iter().filter(|(_, held, said)| held != said);
        RightsWhy {
            color: self.color,
            wings: wrong
                .map(|(wing, held, _)| (wing, held, right_lost(scene, self.color, wing)))
                .collect(),
        }
    }

    fn disclose(self, disclosure: &mut Disclosure, _: &Truth, scene: Scene<'_>) {
        let king = scene.board().by_piece(Role::King.of(self.color));
        let own = scene.board().by_color(self.color);
        let rooks = scene.position().castles().castling_rights() & own;
        // The pieces that have never moved, if there is a right to castle.
        disclosure.tells = if rooks.any() { rooks | king } else { rooks };
        // A castling move to judge, or the king's own moves, would tell of the right.
        disclosure.asks = disclosure.tells | king;
    }

    /// A side. A king's own move, spoken last, answers by itself; so does a start without any right.
    fn draw(choice: &mut Choice<'_>) -> Option<Rights> {
        let scene = choice.scene;
        let color = *choice.dice.pick(&Color::ALL)?;
        let mut last = choice.spoken_last().iter();
        let spoken = last.any(|ply| ply.side() == color && ply.mv.role() == Role::King);
        let never = held(Scene::new(scene.line(), 0), color) == Wings::default();
        let is_told = spoken || (choice.strict && never);
        (!is_told).then_some(Rights { color })
    }
}

/// The wings on which a side has not lost its right to castle (FIDE 3.8.2.1).
fn held(scene: Scene<'_>, color: Color) -> Wings {
    let castles = scene.position().castles();
    Wings {
        short: castles.has(color, CastlingSide::KingSide),
        long: castles.has(color, CastlingSide::QueenSide),
    }
}
