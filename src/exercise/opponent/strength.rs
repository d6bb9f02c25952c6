//! How strong an opponent is, and what makes it so.

use super::search::Limits;

/// The ratings that there are, weakest first.
///
/// They lie on the scale of a UCI engine's `UCI_Elo` and say nothing about people. DEVELOPERS.md tells how
/// they were measured, and with what uncertainty.
pub const RATINGS: [u32; 13] = [
    500, 600, 710, 820, 930, 1040, 1150, 1260, 1380, 1500, 1620, 1750, 1900,
];

/// What a strength can do; a row for each of [`RATINGS`].
#[derive(Clone, Copy, Debug)]
pub(super) struct Strength(Limits);

impl Strength {
    /// The strength nearest to a rating.
    pub(super) fn of(rating: u32) -> Strength {
        let nearest = nearest_rating(rating);
        let row = RATINGS.iter().position(|rating| *rating == nearest);
        Strength(ROWS[row.unwrap_or_default()])
    }

    /// The greatest strength.
    pub(super) fn top() -> Strength {
        Strength(ROWS[ROWS.len() - 1])
    }

    pub(super) const fn limits(self) -> Limits {
        self.0
    }
}

/// Returns the rating of [`RATINGS`] that lies nearest to `rating`.
pub fn nearest_rating(rating: u32) -> u32 {
    let nearest = RATINGS.iter().min_by_key(|own| own.abs_diff(rating));
    *nearest.unwrap_or(&RATINGS[0])
}

const fn row(
    nodes: u32,
    depth: u8,
    captures: u8,
    temperature: i32,
    noise: i32,
    blind: u64,
) -> Limits {
    Limits {
        nodes,
        depth,
        captures,
        temperature,
        cap: if depth == 1 { 500 } else { 400 },
        noise,
        blind,
    }
}

/// Nodes, plies, plies of captures behind them, temperature, noise, moves overlooked of 1000.
const ROWS: [Limits; 13] = [
    row(5_000, 1, 1, 70, 60, 560),
    row(5_000, 1, 1, 38, 35, 410),
    row(5_000, 1, 2, 30, 30, 340),
    row(5_000, 1, 2, 18, 25, 240),
    row(5_000, 2, 3, 14, 25, 300),
    row(5_000, 2, 3, 6, 20, 225),
    row(5_000, 2, 5, 0, 20, 160),
    row(5_000, 2, 6, 0, 15, 95),
    row(1_800, 60, 20, 0, 15, 60),
    row(2_500, 60, 20, 0, 12, 30),
    row(4_500, 60, 20, 0, 10, 8),
    row(9_000, 60, 20, 0, 10, 0),
    row(24_000, 60, 20, 0, 10, 0),
];
