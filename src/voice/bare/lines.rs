//! Why a square has its color, and why two squares share a line or none.

use shakmaty::Square;

use crate::board::{Alignment, Pair, Parity, SquareColor};
use crate::question::bare::{Aligned, Color};

use super::super::naming::count;
use super::super::words::BareWords;
use super::ordinal::ordinal;

impl BareWords for Color {
    fn ask(self) -> String {
        format!("Is {} light or dark?", self.square)
    }

    fn tell(self) -> String {
        format!(
            "{} is {}.",
            self.square,
            shade(SquareColor::of(self.square))
        )
    }

    fn explain(square: &Square) -> Vec<String> {
        let counted = Parity::of(*square);
        let (file, rank) = (counted.file, counted.rank);
        let sum = match (file % 2, rank % 2) {
            (0, 0) => "Even and even make an even sum",
            (0, _) => "Even and odd make an odd sum",
            (_, 0) => "Odd and even make an odd sum",
            (_, _) => "Odd and odd make an even sum",
        };
        vec![
            format!(
                "The {}-file is the {}, an {} number; the rank is {rank}, an {} number.",
                square.file().char(),
                ordinal(file),
                parity(file),
                parity(rank)
            ),
            format!(
                "{sum}, {}, and an {} sum means {}.",
                counted.sum(),
                parity(counted.sum()),
                shade(counted.color())
            ),
        ]
    }
}

/// Names the color of a square.
pub(super) const fn shade(color: SquareColor) -> &'static str {
    match color {
        SquareColor::Light => "light",
        SquareColor::Dark => "dark",
    }
}

const fn parity(number: u32) -> &'static str {
    if number.is_multiple_of(2) {
        "even"
    } else {
        "odd"
    }
}

impl BareWords for Aligned {
    fn ask(self) -> String {
        let [one, other] = self.squares.squares();
        format!("Which line do {one} and {other} share: file, rank, diagonal or none?")
    }

    fn tell(self) -> String {
        let [one, other] = self.squares.squares();
        match self.squares.alignment() {
            Alignment::None => format!("{one} and {other} share no file, rank or diagonal."),
            line => format!("{one} and {other} share a {}.", line.name()),
        }
    }

    fn explain(squares: &Pair) -> Vec<String> {
        let [one, other] = squares.squares();
        match squares.alignment() {
            Alignment::File => vec![format!(
                "Both names begin with {0}, so both squares lie on the {0}-file.",
                one.file().char()
            )],
            Alignment::Rank => vec![format!(
                "Both names end with {0}, so both squares lie on rank {0}.",
                one.rank().char()
            )],
            Alignment::Diagonal => {
                let mut said = vec![format!(
                    "{}: equal counts make a diagonal.",
                    apart(*squares)
                )];
                said.extend(squares.line_ends().map(|ends| diagonal(*squares, ends)));
                said
            }
            Alignment::None => {
                let mut said = vec![format!(
                    "{}: a diagonal needs equal counts.",
                    apart(*squares)
                )];
                let [first, second] = [one, other].map(SquareColor::of);
                if first != second {
                    said.push(format!(
                        "{one} is {} and {other} is {}, and squares of different color never share a \
                         diagonal.",
                        shade(first),
                        shade(second)
                    ));
                }
                said.push("Letter and number both differ: no file and no rank.".to_owned());
                said
            }
        }
    }
}

/// Measures two squares: "From c1 to h6 it is 5 files and 5 ranks".
pub(super) fn apart(squares: Pair) -> String {
    let [one, other] = squares.squares();
    format!(
        "From {one} to {other} it is {} and {}",
        count(squares.files_apart() as usize, "file", "files"),
        count(squares.ranks_apart() as usize, "rank", "ranks")
    )
}

fn diagonal(squares: Pair, ends: [Square; 2]) -> String {
    let [one, other] = ends;
    if squares.squares() == ends {
        return "It ends on these two squares, at the edges of the board.".to_owned();
    }
    format!("It is the diagonal from {one} to {other}.")
}
