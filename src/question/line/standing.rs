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
    /// The square that was named, where the piece has never been, and what there is on it.
    pub said: Option<(Square, Found)>,
}

impl LineKind for Whereabouts {
    const FORM: Form = Form::SquareOrGone;

    const GUESS: f64 = 0.26;

    const MATERIAL: Share = Share::Some;

    const GAME: Share = Share::Some;

    type Why = WhereaboutsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        match self
            .piece(scene)
            .and_then(|piece| piece.square(scene.plies()))
        {
            Some(square) => Truth::Square(square),
            None => Truth::Gone(Always),
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> WhereaboutsWhy {
        let journey = self.piece(scene).map(|piece| Journey::of(scene, piece));
        let been = |at| {
            { journey.iter() }.any(|way| way.home == at || way.legs.iter().any(|leg| leg.to == at))
        };
        let said = match reply {
            Some(Reply::Square(said)) if !been(*said) => Some((*said, Found::on(scene, *said))),
            _ => None,
        };
        WhereaboutsWhy { journey, said }
    }

    fn read(self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        if still_there(text) {
            return Ok(Reply::Square(self.piece));
        }
        Whereabouts::FORM.read_in(text, scene.position())
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.line().roster().piece(self.piece)
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Whereabouts> {
        let plies = choice.scene.plies();
        let (mut hot, mut cold) = (Bitboard::EMPTY, Bitboard::EMPTY);
        for piece in choice.scene.line().roster().pieces() {
            let last_step = piece.steps(plies).last().map(|step| step.ply);
            let taken = piece.taken_by.filter(|ply| *ply < plies);
            let changed = last_step.max(taken);
            if choice.strict && changed.is_some() && changed == plies.checked_sub(1) {
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
    const FORM: Form = Form::Squares;

    const GUESS: f64 = 0.02;

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
            missed: missed
                .filter_map(|square| Journey::to(scene, square))
                .collect(),
            extra: extra
                .map(|square| (square, Found::on(scene, square)))
                .collect(),
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
}

impl LineKind for Occupant {
    const FORM: Form = Form::Piece;

    const GUESS: f64 = 0.23;

    const GAME: Share = Share::Some;

    type Why = OccupantWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Piece(scene.board().piece_at(self.square))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> OccupantWhy {
        let found = Found::on(scene, self.square);
        let before = match (&found, reply) {
            (Found::Piece(_), Some(Reply::Piece(Some(said)))) => {
                Departure::of(scene, self.square, *said)
            }
            _ => None,
        };
        OccupantWhy { found, before }
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
        let pool = if choice.dice.chance(3, 4) {
            held
        } else {
            !held
        };
        let pool = pool & !choice.spoken;
        let square = choice.pick(pool & choice.squares, pool & !choice.squares)?;
        Some(Occupant { square })
    }
}

/// Asks for every piece's square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rebuild {}

/// What is wrong with a placement, square by square.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RebuildWhy {
    /// How many pieces were placed right.
    pub right: usize,
    /// The ways of the pieces that were not placed.
    pub missing: Vec<Journey>,
    /// The pieces that were put on empty squares, and what there is to know about those squares.
    pub extra: Vec<(Square, Piece, Found)>,
    /// The pieces that were put where another stands, and that one's way.
    pub wrong_piece: Vec<(Square, Piece, Journey)>,
}

impl LineKind for Rebuild {
    const FORM: Form = Form::Placement;

    const GUESS: f64 = 0.01;

    type Why = RebuildWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Placement(scene.board().clone())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, reply: Option<&Reply>) -> RebuildWhy {
        let nothing = Board::empty();
        let said = match reply {
            Some(Reply::Placement(board)) => board,
            _ => &nothing,
        };
        let extra = tally.extra.into_iter();
        let wrong = tally.wrong_piece.into_iter();
        RebuildWhy {
            right: tally.hit.count(),
            missing: tally
                .missed
                .into_iter()
                .filter_map(|square| Journey::to(scene, square))
                .collect(),
            extra: extra
                .filter_map(|at| Some((at, said.piece_at(at)?, Found::on(scene, at))))
                .collect(),
            wrong_piece: wrong
                .filter_map(|at| Some((at, said.piece_at(at)?, Journey::to(scene, at)?)))
                .collect(),
        }
    }

    fn draw(_: &mut Choice<'_>) -> Option<Rebuild> {
        Some(Rebuild {})
    }
}
