//! Why a square has its color, why two squares share a line or none, and which squares lie between them.

use std::cmp::Ordering;

use shakmaty::Square;

use crate::board::{Alignment, Pair, Parity, SquareColor};
use crate::question::bare::{Aligned, Between, BetweenWhy, Color, Outside};
use crate::voice::naming::{count, list, ordinal};
use crate::voice::words::BareWords;

/// More squares than these are counted, not named again.
const NAMED: usize = 8;

impl BareWords for Color {
    const RULE: &'static str = "The a-file is dark at the bottom: a1 is dark. From one square to the next beside it the \
        color changes, and along a diagonal it stays.";

    fn ask(self) -> String {
        format!("Is {} light or dark?", self.square)
    }

    fn tell(self) -> String {
        format!("{} is {}.", self.square, shade(self.square))
    }

    fn explain(square: &Square) -> Vec<String> {
        let counted = Parity::of(*square);
        let (file, rank, sum) = (counted.file, counted.rank, counted.sum());
        let (letter, nth, shade) = (square.file().char(), ordinal(file), shade(*square));
        vec![format!(
            "The {letter}-file is the {nth}; {file} plus {rank} is {sum}, and {} means {shade}.",
            parity(sum)
        )]
    }
}

/// Names the color of a square.
pub(super) fn shade(square: Square) -> &'static str {
    SquareColor::of(square).into()
}

/// Says whether a number is even or odd.
pub(super) const fn parity(number: u32) -> &'static str {
    ["even", "odd"][number as usize % 2]
}

impl BareWords for Aligned {
    const RULE: &'static str = "Two squares share a file when their letters are the same, a rank when their numbers are, \
        and a diagonal when they lie as many files as ranks apart.";

    fn ask(self) -> String {
        let [one, other] = self.squares.squares();
        format!("Which line do {one} and {other} share: file, rank, diagonal or none?")
    }

    fn tell(self) -> String {
        let [one, other] = self.squares.squares();
        match self.squares.alignment() {
            Alignment::None => format!("{one} and {other} share no file, rank or diagonal."),
            line => format!("{one} and {other} share a {line}."),
        }
    }

    fn explain((squares, said): &(Pair, Option<Alignment>)) -> Vec<String> {
        let [one, other] = squares.squares();
        let apart = apart(*squares);
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
                let counts = format!("{apart}: equal counts make a diagonal.");
                let ends = squares.line_ends().map(|ends| match ends {
                    ends if ends == [one, other] => {
                        "It ends on these two squares, at the edges of the board.".to_owned()
                    }
                    [first, last] => format!("It is the diagonal from {first} to {last}."),
                });
                [counts].into_iter().chain(ends).collect()
            }
            Alignment::None => {
                let [first, second] = [one, other].map(shade);
                let diagonal = if first == second {
                    format!("{apart}: a diagonal needs equal counts.")
                } else {
                    format!(
                        "{one} is {first} and {other} is {second}: squares of different color never share a \
                         diagonal."
                    )
                };
                let straight = "Letter and number both differ: no file and no rank.".to_owned();
                match said {
                    Some(Alignment::Diagonal) => vec![diagonal],
                    Some(Alignment::File | Alignment::Rank) => vec![straight],
                    Some(Alignment::None) | None => vec![diagonal, straight],
                }
            }
        }
    }
}

/// Measures two squares: "From c1 to h6 it is 5 files and 5 ranks".
fn apart(squares: Pair) -> String {
    let [one, other] = squares.squares();
    format!("From {one} to {other} it is {}", measure(squares))
}

/// Counts the files and ranks from one square to the other: "5 files and 5 ranks".
pub(super) fn measure(squares: Pair) -> String {
    let files = count(squares.files_apart(), "file", "files");
    let ranks = count(squares.ranks_apart(), "rank", "ranks");
    format!("{files} and {ranks}")
}

impl BareWords for Between {
    const RULE: &'static str = "Go from one square to the other in single steps: on a file the number changes, on a rank \
        the letter, on a diagonal both.";

    fn ask(self) -> String {
        let [one, other] = self.squares().squares();
        format!("Which squares lie between {one} and {other}?")
    }

    fn tell(self) -> String {
        let [one, other] = self.squares().squares();
        let between: Vec<Square> = self.squares().between().collect();
        let named = list(&between);
        match between.len() {
            0 => format!("No square lies between {one} and {other}."),
            1 => format!("{named} lies between {one} and {other}."),
            _ => format!("{named} lie between {one} and {other}."),
        }
    }

    fn explain(why: &BetweenWhy) -> Vec<String> {
        let mut said: Vec<String> = [Outside::End, Outside::Beyond, Outside::OffLine]
            .into_iter()
            .filter_map(|aside| extra(why, aside))
            .collect();
        let [one, other] = why.squares.squares();
        if why.squares.between().next().is_none() {
            said.push(format!("One step leads from {one} to {other}."));
        } else if !why.missed.is_empty() || said.is_empty() {
            let (line, steps) = (why.squares.alignment(), steps(why.squares));
            said.push(format!("Go along the {line} from {one}: {steps}."));
        }
        said
    }
}

/// Tells how the names change on the way from the first square to the second.
fn steps(squares: Pair) -> String {
    let (from, to) = (squares.from(), squares.to());
    let goes = |order, on, back| match order {
        Ordering::Greater => Some(on),
        Ordering::Less => Some(back),
        Ordering::Equal => None,
    };
    let letter = goes(
        to.file().cmp(&from.file()),
        "the letter goes one on",
        "the letter goes one back",
    );
    let number = goes(
        to.rank().cmp(&from.rank()),
        "the number goes one up",
        "the number goes one down",
    );
    let changes = list([letter, number].into_iter().flatten());
    format!("at each step {changes}")
}

fn extra(why: &BetweenWhy, aside: Outside) -> Option<String> {
    let squares = why.extra.iter().filter(|(_, lies)| *lies == aside);
    let squares: Vec<Square> = squares.map(|(square, _)| *square).collect();
    let named = list(&squares);
    let line = match why.squares.alignment() {
        Alignment::None => "line",
        line => line.into(),
    };
    Some(match (aside, squares.len()) {
        (_, 0) => return None,
        (Outside::End, 1) => format!("{named} is one of the two ends, not between them."),
        (Outside::End, _) => format!("{named} are the two ends, not between them."),
        (Outside::Beyond, 1) => {
            format!("{named} lies on the same {line}, but not between the two.")
        }
        (Outside::Beyond, _) => format!("{named} lie on the same {line}, but not between the two."),
        (Outside::OffLine, 1) => format!("{named} does not lie on that {line}."),
        (Outside::OffLine, ..=NAMED) => format!("{named} do not lie on that {line}."),
        // The tally names them all already.
        (Outside::OffLine, all) => {
            format!("{all} of the squares that you named do not lie on that {line}.")
        }
    })
}
