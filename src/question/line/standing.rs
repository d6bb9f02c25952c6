//! The squares of all of a side's pieces of one role.

use serde::{Deserialize, Serialize};
use shakmaty::{Color, Role, Square};

use super::super::json::{RoleName, text};
use super::super::{Bearing, Choice, Form, Journey, LineKind, Reply, Scene, Secret, Tally, Truth};
use super::Found;

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
/// without need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandingWhy {
    /// The ways of the pieces that were not named.
    pub missed: Vec<Journey>,
    /// What there is on each square that should not have been named.
    pub extra: Vec<(Square, Found)>,
}

impl LineKind for Standing {
    const FORM: Form = Form::Squares;

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

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.material = Bearing::Some;
        secret.score = Bearing::Some;
    }

    /// A role of a side, unless its only piece is the one that the last move spoke of.
    fn draw(choice: &mut Choice<'_>) -> Option<Standing> {
        let board = choice.scene.board();
        let (mut hot, mut cold) = (Vec::new(), Vec::new());
        for color in Color::ALL {
            for role in Role::ALL {
                let pieces = board.by_piece(role.of(color));
                if pieces.is_empty() || pieces.is_subset(choice.spoken) {
                    continue;
                }
                let pool = if (pieces & choice.pieces).any() {
                    &mut hot
                } else {
                    &mut cold
                };
                pool.push(Standing { color, role });
            }
        }
        choice.rather(&hot, &cold)
    }
}
