//! Each side's men and their points, in words.

use shakmaty::Color;

use crate::question::{BalanceWhy, Haul};
use crate::voice::naming::{count, men_counted, side};

pub(super) fn balance(why: &BalanceWhy) -> Vec<String> {
    Color::ALL
        .into_iter()
        .map(|color| {
            let men = why.men.get(color);
            let counted = Haul::ORDER.map(|role| (role, usize::from(*men.get(role))));
            let points = why.points(color).unsigned_abs() as usize;
            if points == 0 {
                return format!("{} has only the king: 0 points.", side(color));
            }
            format!(
                "Without the king, {} has {}: {}.",
                side(color),
                men_counted(counted),
                count(points, "point", "points")
            )
        })
        .collect()
}
