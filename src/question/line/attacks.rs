//! Pieces and the squares that they attack: who attacks or guards a square, who gives check, which pieces
//! are attacked and not guarded, and what one piece attacks.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Color, Position, Square};

use super::super::choice::attacked;
use super::super::json::text;
use super::super::{Choice, Disclosure, LineKind, Reply, Scene, Share, Tally, Truth};
use crate::game::TrackedPiece;

/// No piece that attacks more squares is asked about: a rook's 14 are many already.
const MOST_ATTACKED: usize = 14;

/// Asks which of a side's pieces attack a square, or guard it where it holds a piece of theirs; pinned
/// pieces count (FIDE 3.1.3).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attackers {
    /// The side whose pieces are asked for.
    #[serde(with = "text")]
    pub color: Color,
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

/// Asks for the squares of the pieces that give check; none when there is no check (FIDE 3.9.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Check {}

/// What explains the answer to a question over pieces and the squares that they attack: all of it is on the board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnBoard<K> {
    /// The question.
    pub asked: K,
    /// The board.
    pub board: Board,
    /// What was missed, and what was named wrongly.
    pub tally: Tally,
}

impl<K> OnBoard<K> {
    fn new(asked: K, scene: Scene<'_>, tally: &Tally) -> OnBoard<K> {
        OnBoard {
            asked,
            board: scene.board().clone(),
            tally: *tally,
        }
    }
}

impl LineKind for Attackers {
    const MOVES: Share = Share::Some;

    type Why = OnBoard<Attackers>;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(seen_by(scene.board(), self.square, self.color))
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> OnBoard<Attackers> {
        OnBoard::new(self, scene, tally)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    /// A square and a side; five times in six one that some piece of that side attacks or guards.
    fn draw(choice: &mut Choice<'_>) -> Option<Attackers> {
        let board = choice.scene.board();
        let color = *choice.dice.pick(&Color::ALL)?;
        let reached = attacked(board, color);
        let is_reached = choice.dice.chance(5, 6);
        let pool = if is_reached { reached } else { !reached };
        let pieces = board.occupied() | choice.squares;
        let square = choice.pick(pool & choice.squares, pool & pieces & !choice.squares)?;
        Some(Attackers { color, square })
    }
}

impl LineKind for Check {
    const TELLS_CHECK: bool = true;

    /// The question who attacks the king.
    type Why = OnBoard<Attackers>;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(scene.position().checkers())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> OnBoard<Attackers> {
        let side = scene.position().turn();
        let (color, king) = (!side, scene.board().king_of(side));
        let square = king.expect("each side has its king");
        OnBoard::new(Attackers { color, square }, scene, tally)
    }

    /// Announcing a move tells of the check that the moved piece gives, and of no check; only a check from
    /// behind it is still a question.
    fn draw(choice: &mut Choice<'_>) -> Option<Check> {
        let checkers = choice.scene.position().checkers();
        let last = choice.scene.played().last();
        let unspoken = last.is_none_or(|ply| checkers.without(ply.to()).any());
        unspoken.then_some(Check {})
    }
}

/// Asks for a side's pieces, the king left out, that the other side attacks and no piece of their own
/// guards; the king and pinned pieces count as guards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hanging {
    /// The side whose pieces are asked for.
    #[serde(with = "text")]
    pub color: Color,
}

impl LineKind for Hanging {
    const VARIED: bool = false;

    const MOVES: Share = Share::All;

    type Why = OnBoard<Hanging>;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        let pieces = board.by_color(self.color) & !board.kings();
        let hangs = |square: &Square| {
            seen_by(board, *square, !self.color).any()
                && seen_by(board, *square, self.color).is_empty()
        };
        Truth::squares(pieces.into_iter().filter(hangs).collect())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> OnBoard<Hanging> {
        OnBoard::new(self, scene, tally)
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Hanging> {
        let color = *choice.dice.pick(&Color::ALL)?;
        Some(Hanging { color })
    }
}

/// Finds the pieces of a side that attack a square, or guard it.
pub(crate) fn seen_by(board: &Board, square: Square, color: Color) -> Bitboard {
    board.attacks_to(square, color, board.occupied())
}

/// Asks which squares a piece attacks (FIDE 3.1.2 and 3.1.3): a pinned piece still attacks, and the
/// squares of its own side's pieces are guarded, which a reply may name or leave out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attacks {
    /// The square of the piece.
    #[serde(with = "text")]
    pub square: Square,
}

impl LineKind for Attacks {
    const MOVES: Share = Share::Some;

    type Why = OnBoard<Attacks>;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        let all = board.attacks_from(self.square);
        let side = board.color_at(self.square);
        let own = side.map_or(Bitboard::EMPTY, |side| board.by_color(side));
        Truth::Squares {
            squares: all & !own,
            optional: all & own,
        }
    }

    fn fits(self, scene: Scene<'_>) -> bool {
        scene.board().piece_at(self.square).is_some()
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> OnBoard<Attacks> {
        OnBoard::new(self, scene, tally)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn disclose(self, disclosure: &mut Disclosure, truth: &Truth, _: Scene<'_>) {
        disclosure.asks_ways(self.square, truth);
    }

    /// A piece whose squares can be said in one breath, as a queen's in the open cannot.
    fn draw(choice: &mut Choice<'_>) -> Option<Attacks> {
        let scene = choice.scene;
        let attacked = |square| Attacks { square }.truth(scene).set();
        let pieces = scene.board().occupied().into_iter();
        let short = pieces.filter(|at| attacked(*at).count() <= MOST_ATTACKED);
        let square = choice.piece(short.collect())?;
        Some(Attacks { square })
    }
}
