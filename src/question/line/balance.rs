//! The balance of material.

use serde::{Deserialize, Serialize};
use shakmaty::{Board, ByColor, ByRole, Color, Role};

use super::super::{Bearing, Choice, Form, LineKind, Reply, Scene, Secret, Tally, Truth};
use crate::game::Ply;

/// Asks for the material, White's minus Black's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Balance {}

/// Each side's pieces, counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BalanceWhy {
    /// How many pieces of each role each side has.
    pub pieces: ByColor<ByRole<u8>>,
}

/// Returns what a piece is worth in points: pawn 1, knight 3, bishop 3, rook 5, queen 9 (common
/// practice, no source). A king is worth none, as it is never taken.
#[must_use]
pub const fn worth(role: Role) -> i32 {
    match role {
        Role::Pawn => 1,
        Role::Knight | Role::Bishop => 3,
        Role::Rook => 5,
        Role::Queen => 9,
        Role::King => 0,
    }
}

impl BalanceWhy {
    /// Returns the points of a side's pieces.
    #[must_use]
    pub fn points(&self, color: Color) -> i32 {
        let pieces = self.pieces.get(color);
        Role::ALL
            .into_iter()
            .map(|role| i32::from(*pieces.get(role)) * worth(role))
            .sum()
    }
}

impl LineKind for Balance {
    const FORM: Form = Form::Points;

    type Why = BalanceWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Points {
            points: balance(scene.board()),
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> BalanceWhy {
        BalanceWhy {
            pieces: scene.board().material(),
        }
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.material = Bearing::All;
    }

    /// Seldom where no piece has been taken or has become another.
    fn draw(choice: &mut Choice<'_>) -> Option<Balance> {
        let changed = |ply: &Ply| ply.mv.is_capture() || ply.mv.is_promotion();
        let uneven = balance(choice.scene.board()) != 0;
        let worthwhile = uneven || choice.scene.played().iter().any(changed);
        (worthwhile || !choice.strict || choice.dice.chance(1, 5)).then_some(Balance {})
    }
}

fn balance(board: &Board) -> i32 {
    let why = BalanceWhy {
        pieces: board.material(),
    };
    why.points(Color::White) - why.points(Color::Black)
}
