//! Pieces and the squares that they attack: who attacks or guards a square, who gives check, which pieces
//! are attacked and not guarded, and what one piece attacks.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Color, Piece, Position, Square};

use super::super::json::text;
use super::super::{
    Choice, Disclosure, Form, LineKind, Ray, Reply, Scene, Share, Sight, Tally, Truth,
};
use crate::game::TrackedPiece;

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

/// A piece that was named or forgotten as an attacker of a square, and what it sees of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Attacker {
    /// No piece stands on the square that was named.
    Nobody,
    /// A piece of the side that was not asked for stands there.
    OtherSide(Piece),
    /// A piece of the side asked for stands there.
    Piece(Piece, Sight),
}

/// What each piece that was missed or named wrongly sees of a square.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttackersWhy {
    /// The square that is looked at.
    pub square: Square,
    /// Whether a piece of the side asked for stands there, so that the others guard it.
    pub guarded: bool,
    /// The pieces that were not named, by their squares.
    pub missed: Vec<(Square, Attacker)>,
    /// The squares that should not have been named.
    pub extra: Vec<(Square, Attacker)>,
}

impl AttackersWhy {
    fn new(board: &Board, side: Color, square: Square, tally: &Tally) -> AttackersWhy {
        let look = |from| {
            let attacker = match board.piece_at(from) {
                None => Attacker::Nobody,
                Some(piece) if piece.color != side => Attacker::OtherSide(piece),
                Some(piece) => Attacker::Piece(piece, Sight::new(board, from, square)),
            };
            (from, attacker)
        };
        AttackersWhy {
            square,
            guarded: board.color_at(square) == Some(side),
            missed: tally.missed.into_iter().map(look).collect(),
            extra: tally.extra.into_iter().map(look).collect(),
        }
    }
}

impl LineKind for Attackers {
    const FORM: Form = Form::Squares;

    const GUESS: f64 = 0.07;

    const MOVES: Share = Share::Some;

    type Why = AttackersWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        Truth::squares(board.attacks_to(self.square, self.color, board.occupied()))
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttackersWhy {
        AttackersWhy::new(scene.board(), self.color, self.square, tally)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    /// A square and a side; five times in six one that some piece of that side attacks or guards.
    fn draw(choice: &mut Choice<'_>) -> Option<Attackers> {
        let board = choice.scene.board();
        let color = *choice.dice.pick(&Color::ALL)?;
        let reached: Bitboard = Square::ALL
            .into_iter()
            .filter(|square| board.attacks_to(*square, color, board.occupied()).any())
            .collect();
        let pool = if choice.dice.chance(5, 6) {
            reached
        } else {
            !reached
        };
        let pieces = board.occupied() | choice.squares;
        let square = choice.pick(pool & choice.squares, pool & pieces & !choice.squares)?;
        Some(Attackers { color, square })
    }
}

impl LineKind for Check {
    const FORM: Form = Form::Squares;

    const GUESS: f64 = 0.5;

    const TELLS_CHECK: bool = true;

    type Why = AttackersWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(scene.position().checkers())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttackersWhy {
        let side = scene.position().turn();
        let king = scene.board().king_of(side).expect("each side has its king");
        AttackersWhy::new(scene.board(), !side, king, tally)
    }

    /// Announcing a move tells of the check that the moved piece gives, and of no check; only a check from
    /// behind it is still a question.
    fn draw(choice: &mut Choice<'_>) -> Option<Check> {
        let checkers = choice.scene.position().checkers();
        let last = choice.scene.played().last();
        let unspoken = last.is_none_or(|ply| checkers.without(ply.to()).any());
        (!choice.strict || unspoken).then_some(Check {})
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

/// Who attacks a square and who guards it, for the squares that were forgotten or named without
/// need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HangingWhy {
    /// The side whose pieces were asked for.
    pub color: Color,
    /// The squares, the forgotten ones first.
    pub watched: Vec<Watched>,
}

/// A square with the pieces that see it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watched {
    /// The square.
    pub square: Square,
    /// The piece that stands there.
    pub piece: Option<Piece>,
    /// The pieces of the other side that attack it.
    pub attackers: Vec<(Square, Piece)>,
    /// The pieces of the side asked for that guard it.
    pub guards: Vec<(Square, Piece)>,
}

impl LineKind for Hanging {
    const FORM: Form = Form::Squares;

    const GUESS: f64 = 0.14;

    const VARIED: bool = false;

    const MOVES: Share = Share::All;

    type Why = HangingWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        let pieces = board.by_color(self.color) & !board.kings();
        Truth::squares(
            pieces
                .into_iter()
                .filter(|square| seen_by(board, *square, !self.color).any())
                .filter(|square| seen_by(board, *square, self.color).is_empty())
                .collect(),
        )
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> HangingWhy {
        let board = scene.board();
        let pieces = |square, color| {
            let seen = seen_by(board, square, color).into_iter();
            seen.filter_map(|from| Some((from, board.piece_at(from)?)))
                .collect()
        };
        let squares = tally.missed.into_iter().chain(tally.extra);
        HangingWhy {
            color: self.color,
            watched: squares
                .map(|square| Watched {
                    square,
                    piece: board.piece_at(square),
                    attackers: pieces(square, !self.color),
                    guards: pieces(square, self.color),
                })
                .collect(),
        }
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Hanging> {
        let color = *choice.dice.pick(&Color::ALL)?;
        Some(Hanging { color })
    }
}

fn seen_by(board: &Board, square: Square, color: Color) -> Bitboard {
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

/// How far the piece sees, and why it does not reach the squares named wrongly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttacksWhy {
    /// The piece; `None` where the square is empty.
    pub piece: Option<Piece>,
    /// Its square.
    pub from: Square,
    /// Its lines, where it is a line piece.
    pub rays: Vec<Ray>,
    /// The squares that it attacks and the learner did not name.
    pub missed: Bitboard,
    /// What keeps it from each square that should not have been named.
    pub extra: Vec<(Square, Sight)>,
}

impl LineKind for Attacks {
    const FORM: Form = Form::Squares;

    const GUESS: f64 = 0.02;

    const MOVES: Share = Share::Some;

    type Why = AttacksWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        let all = board.attacks_from(self.square);
        let own = board
            .color_at(self.square)
            .map_or(Bitboard::EMPTY, |side| board.by_color(side));
        Truth::Squares {
            squares: all & !own,
            optional: all & own,
        }
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttacksWhy {
        let board = scene.board();
        let extra = tally.extra.into_iter();
        AttacksWhy {
            piece: board.piece_at(self.square),
            from: self.square,
            rays: Ray::all(board, self.square),
            missed: tally.missed,
            extra: extra
                .map(|square| (square, Sight::new(board, self.square, square)))
                .collect(),
        }
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn disclose(self, disclosure: &mut Disclosure, truth: &Truth, _: Scene<'_>) {
        disclosure.asks_ways(self.square, truth);
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Attacks> {
        let square = choice.piece(choice.scene.board().occupied())?;
        Some(Attacks { square })
    }
}
