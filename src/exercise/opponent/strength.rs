//! How strong an opponent is, and what makes it so.

/// What a search may do, and how it errs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Limits {
    /// How many positions it looks at.
    pub(super) nodes: u32,
    /// How many plies it looks ahead.
    pub(super) depth: i32,
    /// How many plies of captures it follows from there.
    pub(super) captures: u8,
    /// Hundredths of a pawn that halve the chance of a move; 0 for the best move always.
    pub(super) temperature: i32,
    /// A move that is so much worse than the best is never chosen.
    pub(super) cap: i32,
    /// How far off its judgment of a position is, about, in hundredths of a pawn.
    pub(super) noise: i32,
    /// Of 1000 moves, how many it overlooks.
    pub(super) blind: u64,
}

/// The ratings that there are, weakest first.
///
/// They lie on the scale of a UCI engine's `UCI_Elo` and say nothing about people. From 1370 on they were
/// measured against that engine; DEVELOPERS.md tells how, and how uncertain the others are.
pub const RATINGS: [u32; 15] = [
    500, 610, 720, 830, 930, 1030, 1140, 1250, 1370, 1490, 1600, 1700, 1770, 1840, 1900,
];

/// What each of [`RATINGS`] can do.
const LIMITS: [Limits; 15] = [
    row(5_000, 1, 1, 48, 100, 620),
    row(5_000, 1, 1, 38, 35, 410),
    row(5_000, 1, 2, 30, 30, 340),
    row(5_000, 1, 2, 18, 25, 240),
    row(5_000, 2, 3, 15, 25, 312),
    row(5_000, 2, 3, 6, 20, 225),
    row(5_000, 2, 5, 0, 20, 160),
    row(5_000, 2, 6, 0, 15, 95),
    row(2_000, 60, 20, 0, 15, 50),
    row(2_800, 60, 20, 0, 12, 25),
    row(5_000, 60, 20, 0, 10, 6),
    row(10_000, 60, 20, 0, 10, 0),
    row(27_000, 60, 20, 0, 10, 0),
    row(73_000, 60, 20, 0, 10, 0),
    row(200_000, 60, 20, 0, 10, 0),
];

/// What any opponent can do where it defends as well as it can: it overlooks nothing, and takes no longer than
/// a beginner waits.
pub(super) const FULL: Limits = row(48_000, 60, 20, 0, 10, 0);

/// How far a game is looked through afterwards: a second for eighty plies, as long as somebody waits who has just lost.
pub(crate) const REVIEW: Limits = row(16_000, 60, 20, 0, 0, 0);

const fn row(
    nodes: u32,
    depth: i32,
    captures: u8,
    temperature: i32,
    noise: i32,
    blind: u64,
) -> Limits {
    let cap = if temperature == 0 { 0 } else { 400 };
    Limits {
        nodes,
        depth,
        captures,
        temperature,
        cap,
        noise,
        blind,
    }
}

/// Returns the rating of [`RATINGS`] that lies nearest to `rating`.
pub fn nearest_rating(rating: u32) -> u32 {
    RATINGS[nearest(rating)]
}

/// Returns the rating that follows games against opponents, the oldest first: a step up after a win against one that
/// was no weaker, a step down after a loss against one that was no stronger; at first, one that a beginner can try.
pub fn follow(games: impl IntoIterator<Item = (u32, Option<bool>)>) -> u32 {
    let after = |row: usize, (rating, won)| match (won, nearest(rating)) {
        (Some(true), opponent) if opponent >= row => (row + 1).min(RATINGS.len() - 1),
        (Some(false), opponent) if opponent <= row => row.saturating_sub(1),
        _ => row,
    };
    RATINGS[games.into_iter().fold(FIRST, after)]
}

/// The row of the first opponent of all.
const FIRST: usize = 2;

/// What an opponent of about this rating can do.
pub(super) fn limits_of(rating: u32) -> Limits {
    LIMITS[nearest(rating)]
}

fn nearest(rating: u32) -> usize {
    (0..RATINGS.len())
        .min_by_key(|row| RATINGS[*row].abs_diff(rating))
        .unwrap_or_default()
}
