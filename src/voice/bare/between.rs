//! Why squares lie between two others, and why others do not.

use std::cmp::Ordering;

use shakmaty::Square;

use crate::board::{Alignment, Pair};
use crate::question::bare::{Between, BetweenWhy, Outside};

use super::super::naming::list;
use super::super::words::BareWords;

/// More squares than these are counted, not named again.
const NAMED: usize = 8;

impl BareWords for Between {
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
            said.push(format!(
                "Go along the {} from {one}: {}.",
                why.squares.alignment().name(),
                steps(why.squares)
            ));
        }
        said
    }
}

/// Tells how the names change on the way from the first square to the second.
fn steps(squares: Pair) -> String {
    let (from, to) = (squares.from(), squares.to());
    let letter = match to.file().cmp(&from.file()) {
        Ordering::Greater => "goes one on",
        Ordering::Less => "goes one back",
        Ordering::Equal => "stays",
    };
    let number = match to.rank().cmp(&from.rank()) {
        Ordering::Greater => "goes one up",
        Ordering::Less => "goes one down",
        Ordering::Equal => "stays",
    };
    format!("at each step the letter {letter} and the number {number}")
}

fn extra(why: &BetweenWhy, aside: Outside) -> Option<String> {
    let squares: Vec<Square> = why
        .extra
        .iter()
        .filter(|(_, lies)| *lies == aside)
        .map(|(square, _)| *square)
        .collect();
    let named = list(&squares);
    let one = match squares.len() {
        0 => return None,
        n => n == 1,
    };
    let line = match why.squares.alignment() {
        Alignment::File | Alignment::Rank | Alignment::Diagonal => why.squares.alignment().name(),
        Alignment::None => "line",
    };
    Some(match aside {
        Outside::End if one => format!("{named} is one of the two ends, not between them."),
        Outside::End => format!("{named} are the two ends, not between them."),
        Outside::Beyond if one => {
            format!("{named} lies on the same {line}, but not between the two.")
        }
        Outside::Beyond => format!("{named} lie on the same {line}, but not between the two."),
        Outside::OffLine if one => format!("{named} does not lie on that {line}."),
        // The tally names them all already.
        Outside::OffLine if squares.len() > NAMED => {
            format!(
                "{} of the squares that you named do not lie on that {line}.",
                squares.len()
            )
        }
        Outside::OffLine => format!("{named} do not lie on that {line}."),
    })
}
