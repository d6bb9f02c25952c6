//! Where pieces stand: one that is followed from the start of the line, all of a role, what stands on a
//! square, and every piece's square.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Color, Piece, Role, Square};

use super::super::json::{RoleName, text};
use super::super::{
    Always, Choice, Departure, Disclosure, Form, Journey, LineKind, Reply, Scene, Share, Tally,
    Truth,
};
use crate::game::TrackedPiece;
use crate::reply::{Unread, still_there};

/// Asks where a piece stands now. It is followed through castling and promotion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Whereabouts {
    /// The square where it stood at the start of the line.
    #[serde(rename = "man", with = "text")]
    pub piece: Square,
}

/// The way of a piece, and what there is where it was said to stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WhereaboutsWhy {
    /// The piece's whole way; `None` where no piece stood there.
    pub journey: Option<Journey>,
    /// The square that was named, and what there is on it.
    pub said: Option<(Square, Found)>,
    /// Whether the piece was said to be gone.
    pub said_gone: bool,
}

impl LineKind for Whereabouts {
    const MATERIAL: Share = Share::Some;

    const GAME: Share = Share::Some;

    type Why = WhereaboutsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let square = self.piece(scene);
        let square = square.and_then(|piece| piece.square(scene.plies()));
        square.map_or(Truth::Gone(Always), Truth::Square)
    }

    fn fits(self, scene: Scene<'_>) -> bool {
        self.piece(scene).is_some()
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> WhereaboutsWhy {
        WhereaboutsWhy {
            journey: self.piece(scene).map(|piece| Journey::of(scene, piece)),
            said: match reply {
                Some(Reply::Square(said)) => Some((*said, Found::on(scene, *said))),
                _ => None,
            },
            said_gone: reply == Some(&Reply::Gone),
        }
    }

    fn read(self, form: Form, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        if still_there(text) {
            return Ok(Reply::Square(self.piece));
        }
        form.read_in(text, scene.position())
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.line().roster().piece(self.piece)
    }

    /// The squares that the piece left are known to be empty, unless another stands there now.
    fn disclose(self, disclosure: &mut Disclosure, _: &Truth, scene: Scene<'_>) {
        let piece = self.piece(scene).into_iter();
        let way: Bitboard = piece
            .flat_map(|piece| {
                let steps = piece.steps(scene.plies()).iter();
                steps.map(|step| step.to).chain([piece.home])
            })
            .collect();
        disclosure.tells |= way & !scene.board().occupied();
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Whereabouts> {
        let plies = choice.scene.plies();
        let unspoken = plies - choice.spoken_last().len();
        let (mut hot, mut cold) = (Bitboard::EMPTY, Bitboard::EMPTY);
        for piece in choice.scene.line().roster().pieces() {
            let last_step = piece.steps(plies).last().map(|step| step.ply);
            let taken = piece.taken_by.filter(|ply| *ply < plies);
            let changed = last_step.max(taken);
            if changed.is_some_and(|ply| ply >= unspoken) {
                continue;
            }
            match changed {
                Some(ply) if ply >= choice.since => hot.add(piece.home),
                _ => cold.add(piece.home),
            }
        }
        choice.pick(hot, cold).map(|piece| Whereabouts { piece })
    }
}

/// Asks for the squares of all of a side's pieces of one role.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Standing {
    /// The side.
    #[serde(with = "text")]
    pub color: Color,
    /// The role that the pieces have now.
    #[serde(with = "RoleName")]
    pub role: Role,
}

/// How the pieces that were forgotten came to their squares, and what is true of the squares named
/// wrongly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandingWhy {
    /// The ways of the pieces that were not named.
    pub missed: Vec<Journey>,
    /// What there is on each square that should not have been named.
    pub extra: Vec<(Square, Found)>,
}

impl LineKind for Standing {
    const MATERIAL: Share = Share::Some;

    const GAME: Share = Share::Some;

    type Why = StandingWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(scene.board().by_piece(self.role.of(self.color)))
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> StandingWhy {
        let missed = tally.missed.into_iter();
        let extra = tally.extra.into_iter();
        StandingWhy {
            missed: missed.filter_map(|at| Journey::to(scene, at)).collect(),
            extra: extra.map(|at| (at, Found::on(scene, at))).collect(),
        }
    }

    /// A role of a side, unless its only piece is the one that the last move spoke of.
    fn draw(choice: &mut Choice<'_>) -> Option<Standing> {
        let board = choice.scene.board();
        let pieces = |asked: &Standing| board.by_piece(asked.role.of(asked.color));
        let sides = Color::ALL.into_iter();
        let (hot, cold): (Vec<Standing>, Vec<Standing>) = sides
            .flat_map(|color| Role::ALL.map(|role| Standing { color, role }))
            .filter(|asked| !pieces(asked).is_subset(choice.spoken))
            .partition(|asked| (pieces(asked) & choice.pieces).any());
        choice.rather(&hot, &cold)
    }
}

/// Asks what stands on a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Occupant {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

/// What there is to know about a square's pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// A piece stands there, and this is how it came.
    Piece(Journey),
    /// It is empty since a piece left it.
    Left(Departure),
    /// No piece ever stood there in this line.
    NeverHeld,
}

impl Found {
    /// Looks at a square in a scene.
    pub fn on(scene: Scene<'_>, square: Square) -> Found {
        let left = || Departure::from(scene, square).map_or(Found::NeverHeld, Found::Left);
        Journey::to(scene, square).map_or_else(left, Found::Piece)
    }
}

/// What there is on a square, and how the piece went from there that was named for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OccupantWhy {
    /// What there is to know.
    pub found: Found,
    /// What became of the piece that was named, where it stood there before another one.
    pub before: Option<Departure>,
    /// The piece that was named, no pawn, and where such stand, where none of them has stood there and the role is
    /// wrong.
    pub elsewhere: Option<(Piece, Bitboard)>,
    /// Whether the piece that was named is wrong in its side alone.
    pub wrong_side: bool,
}

impl LineKind for Occupant {
    const GAME: Share = Share::Some;

    type Why = OccupantWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Piece(scene.board().piece_at(self.square))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> OccupantWhy {
        let found = Found::on(scene, self.square);
        let said = match reply {
            Some(Reply::Piece(said)) => *said,
            _ => None,
        };
        let before = said.and_then(|said| Departure::of(scene, self.square, said));
        let here = scene.board().role_at(self.square);
        let elsewhere = said.filter(|said| {
            before.is_none() && ![here, Some(Role::Pawn)].contains(&Some(said.role))
        });
        OccupantWhy {
            before: before.filter(|_| matches!(found, Found::Piece(_))),
            found,
            wrong_side: said.is_some_and(|said| here == Some(said.role)),
            elsewhere: elsewhere.map(|said| (said, scene.board().by_piece(said))),
        }
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn disclose(self, disclosure: &mut Disclosure, _: &Truth, _: Scene<'_>) {
        disclosure.names(self.square);
    }

    /// A square that holds a piece, three times in four.
    fn draw(choice: &mut Choice<'_>) -> Option<Occupant> {
        let held = choice.scene.board().occupied();
        let is_held = choice.dice.chance(3, 4);
        let pool = if is_held { held } else { !held };
        let pool = pool & !choice.spoken;
        let square = choice.pick(pool & choice.squares, pool & !choice.squares)?;
        Some(Occupant { square })
    }
}

/// Asks for every piece's square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rebuild {}

/// What is wrong with a placement, piece by piece.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RebuildWhy {
    /// How many pieces were placed right.
    pub right: usize,
    /// The ways of the pieces that were put elsewhere, and where.
    pub misplaced: Vec<(Square, Journey)>,
    /// The pieces that were not placed at all.
    pub missing: Vec<(Square, Piece)>,
    /// The pieces that were placed and are not on the board.
    pub extra: Vec<Surplus>,
}

/// A piece that was placed and is not on the board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Surplus {
    /// Where it was put.
    pub at: Square,
    /// The piece.
    pub piece: Piece,
    /// What there is to know about the square.
    pub found: Found,
    /// How such a piece went from there, if one ever stood there.
    pub left: Option<Departure>,
}

impl RebuildWhy {
    /// Holds the squares on which pieces of one kind were `put` against those where they stand: one that has left
    /// the square where it was put is the one that is missing. Where none ever stood there, it is one of that file,
    /// if a pawn, and of that square color, if a bishop.
    fn add(&mut self, scene: Scene<'_>, piece: Piece, put: Bitboard) {
        let there = scene.board().by_piece(piece);
        let (mut unplaced, wrong) = (there & !put, put & !there);
        let left = |at| Departure::of(scene, at, piece);
        let (first, rest): (Bitboard, Bitboard) =
            wrong.into_iter().partition(|at| left(*at).is_some());
        for at in first.into_iter().chain(rest) {
            let alike = |to: &Square| match piece.role {
                Role::Pawn => to.file() == at.file(),
                Role::Bishop => to.is_light() == at.is_light(),
                Role::Knight | Role::Rook | Role::Queen | Role::King => true,
            };
            // One that was placed twice, before and after its move, is one too many.
            let to = match left(at) {
                Some(left) => left.now,
                None => unplaced.into_iter().find(alike),
            };
            match to.filter(|to| unplaced.contains(*to)) {
                Some(to) => {
                    unplaced.discard(to);
                    self.misplaced
                        .extend(Journey::to(scene, to).map(|way| (at, way)));
                }
                None => self.extra.push(Surplus {
                    at,
                    piece,
                    found: Found::on(scene, at),
                    left: left(at),
                }),
            }
        }
        self.missing
            .extend(unplaced.into_iter().map(|at| (at, piece)));
    }
}

impl LineKind for Rebuild {
    type Why = RebuildWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Placement(scene.board().clone())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, reply: Option<&Reply>) -> RebuildWhy {
        let said = match reply {
            Some(Reply::Placement(board)) => board,
            _ => &Board::empty(),
        };
        let mut why = RebuildWhy {
            right: tally.hit.count(),
            ..RebuildWhy::default()
        };
        for color in Color::ALL {
            for piece in Role::ALL.map(|role| role.of(color)) {
                why.add(scene, piece, said.by_piece(piece));
            }
        }
        why
    }

    fn draw(_: &mut Choice<'_>) -> Option<Rebuild> {
        Some(Rebuild {})
    }
}
