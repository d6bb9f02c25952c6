//! The balance of material, and what has been taken.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, ByColor, ByRole, Color, Piece, Role};

use super::super::json::text;
use super::super::{
    CapturedPieces, Choice, Form, Journey, LineKind, Reply, Scene, Share, Tally, Truth,
};
use crate::game::TrackedPiece;
use crate::reply::Unread;

/// Asks for the material, White's minus Black's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Balance {}

/// Returns what a piece is worth in points: pawn 1, knight 3, bishop 3, rook 5, queen 9 (common
/// practice, no source). A king is worth none, as it is never taken.
pub const fn worth(role: Role) -> i32 {
    match role {
        Role::Pawn => 1,
        Role::Knight | Role::Bishop => 3,
        Role::Rook => 5,
        Role::Queen => 9,
        Role::King => 0,
    }
}

/// Returns the points of a side's pieces, given how many of each role it has.
pub fn points(pieces: &ByRole<u8>) -> i32 {
    let roles = Role::ALL.into_iter();
    roles
        .map(|role| i32::from(*pieces.get(role)) * worth(role))
        .sum()
}

/// What each side has, and what was said instead of the truth.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BalanceWhy {
    /// How many pieces of each role each side has.
    pub pieces: ByColor<ByRole<u8>>,
    /// The points that were said, White's minus Black's.
    pub said: Option<i32>,
}

impl LineKind for Balance {
    const VARIED: bool = false;

    const MATERIAL: Share = Share::All;

    type Why = BalanceWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let ByColor { black, white } = scene.board().material();
        Truth::Points(points(&white) - points(&black))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> BalanceWhy {
        BalanceWhy {
            pieces: scene.board().material(),
            said: reply.and_then(Reply::points),
        }
    }

    fn draw(_: &mut Choice<'_>) -> Option<Balance> {
        Some(Balance {})
    }
}

/// Asks for a side's pieces that have been taken since the start of the line, each by the role that it
/// had there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Taken {
    /// The side.
    #[serde(with = "text")]
    pub color: Color,
}

/// What a reply about the pieces that were taken left out, and what it named that was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakenWhy {
    /// The ways of all pieces of the roles of which too few were named, in the order in which they went.
    pub missed: Vec<Journey>,
    /// The pieces of which too many were named, each with how many were taken and where the others stand.
    pub extra: Vec<(Piece, usize, Bitboard)>,
    /// The ways of those that were taken once they were promoted to such a piece.
    pub promoted: Vec<Journey>,
}

impl Taken {
    fn pieces(self, scene: Scene<'_>) -> impl Iterator<Item = (usize, &TrackedPiece)> {
        let pieces = scene.line().roster().pieces().iter();
        pieces
            .filter(move |piece| piece.piece.color == self.color)
            .filter_map(|piece| Some((piece.taken_by?, piece)))
            .filter(move |(ply, _)| *ply < scene.plies())
    }
}

impl LineKind for Taken {
    const VARIED: bool = false;

    const MATERIAL: Share = Share::All;

    const GAME: Share = Share::Some;

    type Why = TakenWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let pieces = self.pieces(scene);
        Truth::Taken(pieces.map(|(_, piece)| piece.piece.role).collect())
    }

    /// The side that is asked about may be named with each piece.
    fn read(self, form: Form, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        let side = self.color.to_string();
        let words = text.split_whitespace();
        let words = words.filter(|word| !word.eq_ignore_ascii_case(&side));
        form.read_in(&words.collect::<Vec<_>>().join(" "), scene.position())
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> TakenWhy {
        let said = match reply {
            Some(Reply::Taken(said)) => *said,
            _ => CapturedPieces::default(),
        };
        let mut pieces: Vec<(usize, &TrackedPiece)> = self.pieces(scene).collect();
        let roles = pieces.iter().map(|(_, piece)| piece.piece.role);
        let taken: CapturedPieces = roles.collect();
        pieces.sort_by_key(|(ply, _)| *ply);
        let is_missed = |role| said.of(role) < taken.of(role);
        let missed = { pieces.iter() }.filter(|(_, piece)| is_missed(piece.piece.role));
        let extra = CapturedPieces::ORDER.into_iter();
        let ways = pieces.iter().map(|(_, piece)| Journey::of(scene, piece));
        let promoted = ways.filter(|way| {
            let role = way.piece_now().role;
            way.piece.role != role && said.of(role) > taken.of(role)
        });
        TakenWhy {
            promoted: promoted.collect(),
            missed: missed.map(|(_, piece)| Journey::of(scene, piece)).collect(),
            extra: extra
                .filter(|role| said.of(*role) > taken.of(*role))
                .map(|role| (role.of(self.color), taken.of(role)))
                .map(|(piece, taken)| (piece, taken, scene.board().by_piece(piece)))
                .collect(),
        }
    }

    /// A side, four times in five one that has lost pieces, and not only to what was spoken last.
    fn draw(choice: &mut Choice<'_>) -> Option<Taken> {
        let scene = choice.scene;
        let lost = |color: Color, plies: usize| {
            let captures = scene.played()[..plies].iter();
            { captures }.any(|ply| ply.side() != color && ply.mv.is_capture())
        };
        let before = scene.plies() - choice.spoken_last().len();
        let sides = Color::ALL.into_iter();
        let (hot, cold): (Vec<Color>, Vec<Color>) = sides
            .filter(|color| lost(*color, before) == lost(*color, scene.plies()))
            .partition(|color| lost(*color, scene.plies()));
        choice.rather(&hot, &cold).map(|color| Taken { color })
    }
}
