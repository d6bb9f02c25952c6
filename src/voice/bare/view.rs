//! Why a square is called so or lies there, counted off from a side of the board.

use shakmaty::{Color, Square};

use crate::board::Seen;
use crate::question::bare::{Instead, Name, Place, ViewWhy};

use super::super::naming::{capital, side};
use super::super::words::BareWords;
use super::ordinal::{file, ordinal, row};

/// Which of the two counts was wrong; both where nothing was said or both were.
#[derive(Clone, Copy)]
struct Wrong {
    file: bool,
    rank: bool,
}

impl Wrong {
    const BOTH: Wrong = Wrong {
        file: true,
        rank: true,
    };

    fn between(right: Square, said: Square) -> Wrong {
        Wrong {
            file: right.file() != said.file(),
            rank: right.rank() != said.rank(),
        }
    }
}

impl BareWords for Name {
    fn ask(self) -> String {
        format!(
            "The board is seen from {}'s side: what is the marked square called?",
            side(self.view)
        )
    }

    fn tell(self) -> String {
        format!("The marked square is {}.", self.square)
    }

    fn explain(why: &ViewWhy) -> Vec<String> {
        let (mut said, wrong) = match why.instead {
            None => (Vec::new(), Wrong::BOTH),
            Some(instead) => {
                let wrong = Wrong::between(why.square, instead.square);
                (vec![named(why.view, instead, wrong)], wrong)
            }
        };
        said.extend(counted(why.square, why.view, wrong));
        said
    }

    fn item(self) -> String {
        format!(
            "The name of {}, seen from {}'s side.",
            self.square,
            side(self.view)
        )
    }
}

fn named(view: Color, instead: Instead, wrong: Wrong) -> String {
    let square = instead.square;
    if instead.right_from_other_side {
        return format!(
            "{square} would be right from {}'s side; here the board is seen from {}'s.",
            side(!view),
            side(view)
        );
    }
    let seen = instead.counted;
    match wrong {
        Wrong { file: false, .. } => format!(
            "The file is right, the rank is not: {square} lies on {}.",
            row(seen)
        ),
        Wrong { rank: false, .. } => format!(
            "The rank is right, the file is not: {square} lies on {}.",
            file(seen)
        ),
        Wrong { .. } => format!("{square} lies on {} and {}.", file(seen), row(seen)),
    }
}

impl BareWords for Place {
    fn ask(self) -> String {
        format!(
            "{}, seen from {}'s side: how many files from the left, and how many rows from the bottom?",
            self.square,
            side(self.view)
        )
    }

    fn tell(self) -> String {
        let seen = Seen::of(self.square, self.view);
        format!(
            "From {}'s side {} lies on file {} from the left and row {} from the bottom.",
            side(self.view),
            self.square,
            seen.from_left(),
            seen.from_bottom()
        )
    }

    fn explain(why: &ViewWhy) -> Vec<String> {
        let (mut said, wrong) = match why.instead {
            None => (Vec::new(), Wrong::BOTH),
            Some(instead) => {
                let wrong = Wrong::between(why.square, instead.square);
                (vec![placed(why.view, instead, wrong)], wrong)
            }
        };
        said.extend(counted(why.square, why.view, wrong));
        said
    }

    fn item(self) -> String {
        format!(
            "The place of {}, seen from {}'s side.",
            self.square,
            side(self.view)
        )
    }
}

fn placed(view: Color, instead: Instead, wrong: Wrong) -> String {
    let (other, own) = (side(!view), side(view));
    match (instead.exchanged, instead.right_from_other_side) {
        (true, true) => {
            return format!(
                "Those are the right counts swapped, and also the counts from {other}'s side; the \
                 files come first, seen from {own}'s side."
            );
        }
        (true, false) => {
            return "The two counts are swapped: the files from the left come first, then the rows \
                    from the bottom."
                .to_owned();
        }
        (false, true) => {
            return format!(
                "Those counts would be right from {other}'s side; here the board is seen from \
                 {own}'s."
            );
        }
        (false, false) => {}
    }
    let square = instead.square;
    match wrong {
        Wrong { file: false, .. } => {
            format!("The count of files is right; that of rows leads to {square}.")
        }
        Wrong { rank: false, .. } => {
            format!("The count of rows is right; that of files leads to {square}.")
        }
        Wrong { .. } => format!("Those counts lead to {square}, seen from {own}'s side."),
    }
}

/// Counts off what was wrong: the files from the left, the ranks from the bottom.
fn counted(square: Square, view: Color, wrong: Wrong) -> Vec<String> {
    let seen = Seen::of(square, view);
    let files = wrong.file.then(|| files(seen, view));
    let ranks = wrong.rank.then(|| ranks(seen, view));
    let mut said: Vec<String> = files.into_iter().chain(ranks).collect();
    if let Some(first) = said.first_mut() {
        *first = format!("as {} sees the board, {first}", side(view));
    }
    said.iter().map(|clause| capital(clause) + ".").collect()
}

fn files(seen: Seen, view: Color) -> String {
    let own = seen.square(view).file().char();
    let letters: Vec<String> = (1..=seen.from_left())
        .filter_map(|from_left| Seen::at(from_left, 1))
        .map(|seen| seen.square(view).file().char().to_string())
        .collect();
    match seen.from_left() {
        1 => format!("the first file from the left is the {own}-file"),
        n => format!(
            "the files from the left are {}: the {} is the {own}-file",
            letters.join(", "),
            ordinal(n)
        ),
    }
}

fn ranks(seen: Seen, view: Color) -> String {
    let own = seen.square(view).rank().char();
    let numbers: Vec<String> = (1..=seen.from_bottom())
        .filter_map(|from_bottom| Seen::at(1, from_bottom))
        .map(|seen| seen.square(view).rank().char().to_string())
        .collect();
    match seen.from_bottom() {
        1 => format!("the first row from the bottom is rank {own}"),
        n => format!(
            "the ranks from the bottom are {}: the {} is rank {own}",
            numbers.join(", "),
            ordinal(n)
        ),
    }
}
