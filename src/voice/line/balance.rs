//! Each side's pieces and their points, in words.

use shakmaty::Color;

use crate::exercise::Stand;
use crate::question::{Balance, BalanceWhy, CapturedPieces, Truth};
use crate::voice::naming::{count, pieces_counted, side};
use crate::voice::words::LineWords;

/// What the pieces are worth, for questions that count points.
pub(super) const VALUES: &str = "A pawn counts 1, a knight or bishop 3, a rook 5, a queen 9.";

impl LineWords for Balance {
    fn ask(self, _: &Stand) -> String {
        format!("What is White's material minus Black's, in points? {VALUES}")
    }

    fn tell(self, truth: &Truth) -> String {
        let points = truth.points();
        let number = points.unsigned_abs() as usize;
        let amount = count(number, "point", "points");
        match points {
            0 => "Material is even: 0 points.".to_owned(),
            1.. => format!("{} is {amount} ahead.", side(Color::White)),
            ..0 => format!("{} is {amount} ahead: -{number}.", side(Color::Black)),
        }
    }

    fn explain(why: &BalanceWhy) -> Vec<String> {
        Color::ALL
            .into_iter()
            .map(|color| {
                let pieces = why.pieces.get(color);
                let counted =
                    CapturedPieces::ORDER.map(|role| (role, usize::from(*pieces.get(role))));
                let points = why.points(color).unsigned_abs() as usize;
                if points == 0 {
                    return format!("{} has only the king: 0 points.", side(color));
                }
                format!(
                    "Without the king, {} has {}: {}.",
                    side(color),
                    pieces_counted(counted),
                    count(points, "point", "points")
                )
            })
            .collect()
    }
}
