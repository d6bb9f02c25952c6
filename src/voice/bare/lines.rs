//! Why a square has its color, why two squares share a line or none, and which squares lie between them.

use std::cmp::Ordering;

use shakmaty::Square;

use crate::board::{Alignment, Pair, Parity, SquareColor};
use crate::question::bare::{Aligned, Between, Color, Outside};
use crate::question::{BareWhy, Reply};
use crate::voice::naming::{count, list, none_of, ordinal};
use crate::voice::words::BareWords;

impl BareWords for Color {
    const RULE: &'static str = "The a-file is dark at the bottom: a1 is dark. From one square to the next beside it the \
        color changes, and along a diagonal it stays.";

    fn ask(self) -> String {
        format!("Is {} light or dark?", self.square)
    }

    fn tell(self) -> String {
        format!("{} is {}.", self.square, shade(self.square))
    }

    fn explain(self, _: &BareWhy) -> Vec<String> {
        let counted = Parity::of(self.square);
        let (file, rank, sum) = (counted.file, counted.rank, counted.sum());
        let (letter, nth, shade) = (self.square.file().char(), ordinal(file), shade(self.square));
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

    fn explain(self, why: &BareWhy) -> Vec<String> {
        let squares = self.squares;
        let [one, other] = squares.squares();
        let apart = format!("From {one} to {other} it is {}", measure(squares));
        let not = |line| match line {
            Alignment::File => Some(format!(
                "{one} and {other} differ in their letters: no file."
            )),
            Alignment::Rank => Some(format!(
                "{one} and {other} differ in their numbers: no rank."
            )),
            Alignment::Diagonal if shade(one) == shade(other) => {
                Some(format!("{apart}: a diagonal needs equal counts."))
            }
            Alignment::Diagonal => Some(format!(
                "{one} is {} and {other} is {}: squares of different color never share a diagonal.",
                shade(one),
                shade(other)
            )),
            Alignment::None => None,
        };
        let line = squares.alignment();
        let mut said = match why.reply {
            Some(Reply::Line(said)) if said != line => Vec::from_iter(not(said)),
            _ => Vec::new(),
        };
        match line {
            Alignment::File => said.push(format!(
                "Both names begin with {0}, so both squares lie on the {0}-file.",
                one.file().char()
            )),
            Alignment::Rank => said.push(format!(
                "Both names end with {0}, so both squares lie on rank {0}.",
                one.rank().char()
            )),
            Alignment::Diagonal => {
                said.push(format!("{apart}: equal counts make a diagonal."));
                said.extend(squares.line_ends().map(|ends| match ends {
                    ends if ends == [one, other] => {
                        "It ends on these two squares, at the edges of the board.".to_owned()
                    }
                    [first, last] => format!("It is the diagonal from {first} to {last}."),
                }));
            }
            Alignment::None if said.is_empty() => {
                said.extend(not(Alignment::Diagonal));
                said.push("Letter and number both differ: no file and no rank.".to_owned());
            }
            Alignment::None => {}
        }
        said
    }
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

    fn explain(self, why: &BareWhy) -> Vec<String> {
        let line = self.squares().alignment();
        let told = |aside| {
            let extra = why.tally.extra.into_iter();
            let squares: Vec<Square> = extra.filter(|at| self.outside(*at) == aside).collect();
            let named = (!squares.is_empty()).then(|| none_of(squares.into_iter()))?;
            Some(match aside {
                Outside::End => format!("{named}: the two ends do not lie between themselves."),
                Outside::Beyond => format!("{named}: that is on the {line}, but beyond its ends."),
                Outside::OffLine => format!("{named}: the {line} does not lead there."),
            })
        };
        let asides = [Outside::End, Outside::Beyond, Outside::OffLine];
        let mut said: Vec<String> = asides.into_iter().filter_map(told).collect();
        let [one, other] = self.squares().squares();
        if self.squares().between().next().is_none() {
            said.push(format!("One step leads from {one} to {other}."));
        } else if why.tally.missed.any() || said.is_empty() {
            let steps = steps(self.squares());
            said.push(format!("Go along the {line} from {one}: {steps}."));
        }
        said
    }
}

/// Tells how the names change on the way from the first square to the second.
fn steps(squares: Pair) -> String {
    let (from, to) = (squares.from(), squares.to());
    let letter = match to.file().cmp(&from.file()) {
        Ordering::Greater => Some("the letter goes one on"),
        Ordering::Less => Some("the letter goes one back"),
        Ordering::Equal => None,
    };
    let number = match to.rank().cmp(&from.rank()) {
        Ordering::Greater => Some("the number goes one up"),
        Ordering::Less => Some("the number goes one down"),
        Ordering::Equal => None,
    };
    let changes = list([letter, number].into_iter().flatten());
    format!("at each step {changes}")
}
