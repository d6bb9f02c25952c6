//! A square: its color by parity, and where it lies as each side sees the board.

use serde::{Deserialize, Serialize};
use shakmaty::{Color, File, Rank, Square};
use strum::IntoStaticStr;

/// The color of a square; a side's color is [`shakmaty::Color`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "lowercase")]
#[strum(serialize_all = "lowercase")]
pub enum SquareColor {
    /// As h1, at White's near right (FIDE 2.1).
    Light,
    /// As a1.
    Dark,
}

impl SquareColor {
    /// Looks up the color of `square`.
    pub const fn of(square: Square) -> SquareColor {
        Parity::of(square).color()
    }
}

/// The sum that tells a square's color without looking: the file (a is 1, h is 8) and the rank. The
/// square is dark when it is even, light when it is odd.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Parity {
    /// The number of the file, 1 to 8.
    pub file: u32,
    /// The number of the rank, 1 to 8.
    pub rank: u32,
}

impl Parity {
    /// Numbers the file and the rank of `square`.
    pub const fn of(square: Square) -> Parity {
        Parity {
            file: square.file().to_u32() + 1,
            rank: square.rank().to_u32() + 1,
        }
    }

    /// Returns file plus rank, 2 to 16.
    pub const fn sum(self) -> u32 {
        self.file + self.rank
    }

    /// Returns the color that the sum tells.
    pub const fn color(self) -> SquareColor {
        if self.sum().is_multiple_of(2) {
            SquareColor::Dark
        } else {
            SquareColor::Light
        }
    }
}

/// Where a square lies as one side sees it: the near left corner is 1 and 1.
///
/// White has a1 there, Black h8: each player has a light square at the near right (FIDE 2.1), and
/// Black sees the files run from h to a and the ranks count down from the far side.
///
/// ```
/// use sansvoir::board::Seen;
/// use shakmaty::{Color, Square};
///
/// let seen = Seen::of(Square::C6, Color::Black);
/// assert_eq!((seen.from_left(), seen.from_bottom()), (6, 3));
/// assert_eq!(seen.square(Color::Black), Square::C6);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "Counts")]
pub struct Seen {
    from_left: u32,
    from_bottom: u32,
}

impl Seen {
    /// Looks at `square` from the side of `view`.
    pub fn of(square: Square, view: Color) -> Seen {
        let square = view.fold_wb(square, square.rotate_180());
        Seen {
            from_left: square.file().to_u32() + 1,
            from_bottom: square.rank().to_u32() + 1,
        }
    }

    /// Counts off a square: `from_left` files and `from_bottom` rows, both counted from 1.
    /// `None` beyond the board.
    pub fn at(from_left: u32, from_bottom: u32) -> Option<Seen> {
        let is_count = |count: u32| (1..=8).contains(&count);
        (is_count(from_left) && is_count(from_bottom)).then_some(Seen {
            from_left,
            from_bottom,
        })
    }

    /// Returns the square that lies there in the view of `view`.
    pub fn square(self, view: Color) -> Square {
        let file = File::new(self.from_left - 1);
        let square = Square::from_coords(file, Rank::new(self.from_bottom - 1));
        view.fold_wb(square, square.rotate_180())
    }

    /// Returns which file it is from the left, 1 to 8.
    pub const fn from_left(self) -> u32 {
        self.from_left
    }

    /// Returns which row it is from the bottom, 1 to 8.
    pub const fn from_bottom(self) -> u32 {
        self.from_bottom
    }
}

/// The two counts, as they stand in JSON, before they are checked.
#[derive(Deserialize)]
struct Counts {
    from_left: u32,
    from_bottom: u32,
}

impl TryFrom<Counts> for Seen {
    type Error = &'static str;

    fn try_from(counts: Counts) -> Result<Seen, &'static str> {
        Seen::at(counts.from_left, counts.from_bottom).ok_or("a count is not from 1 to 8")
    }
}
