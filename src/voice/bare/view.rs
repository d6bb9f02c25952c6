//! A board seen from one side: why a square is called so or lies there, counted off, and the board on which
//! a square is marked.

use shakmaty::{Color, Square};

use crate::board::{Seen, SquareColor};
use crate::exercise::{Ask, Asked, Coordinates};
use crate::question::BareQuestion;
use crate::question::bare::{Instead, Name, Place, ViewWhy};
use crate::voice::boards::rows;
use crate::voice::naming::{ordinal, sentence, side};
use crate::voice::words::BareWords;

/// Shows the board of a question that marks a square, drawn or, where all is `plain`, in words;
/// nothing for all others.
pub(crate) fn marked_board(ask: &Ask, plain: bool) -> Vec<String> {
    let Asked::Bare(BareQuestion::Name(Name { square, view })) = ask.asked else {
        return Vec::new();
    };
    if !plain {
        return drawn(square, view, ask.taught.unwrap_or(Coordinates::Edges));
    }
    let (file, row) = counts(Seen::of(square, view));
    let side = side(view);
    vec![format!(
        "The marked square lies on {file} and {row}, seen from {side}'s side."
    )]
}

/// Draws the board: a dark square has colons around it, the marked one a star in brackets. The edge
/// is drawn too, for where no coordinates tell where the board ends. Ten rows of 26 columns, without
/// coordinates.
fn drawn(marked: Square, view: Color, shown: Coordinates) -> Vec<String> {
    let cell = |at| match SquareColor::of(at) {
        _ if at == marked => "[*]",
        SquareColor::Dark if shown != Coordinates::Blank => ": :",
        SquareColor::Dark | SquareColor::Light => "   ",
    };
    let edge = format!("+{}+", "-".repeat(8 * 3));
    let mut drawn = vec![edge.clone()];
    drawn.extend(rows(view).map(|row| format!("|{}|", row.map(cell).concat())));
    drawn.push(edge);
    if shown == Coordinates::Named {
        for (line, row) in drawn[1..].iter_mut().zip(rows(view)) {
            line.extend([' ', row[0].rank().char()]);
        }
        let letters = rows(view)[0].map(|square| square.file().to_string());
        drawn.push(format!("  {}", letters.join("  ")));
    }
    drawn
}

/// Names a square's file and row by their counts: "the third file from the left".
fn counts(seen: Seen) -> (String, String) {
    let [file, row] = [seen.from_left(), seen.from_bottom()].map(ordinal);
    (
        format!("the {file} file from the left"),
        format!("the {row} row from the bottom"),
    )
}

/// Which of the two counts was wrong; both where nothing was said or both were.
#[derive(Clone, Copy)]
struct Wrong {
    file: bool,
    rank: bool,
}

/// Tells what was named instead, then counts off what was wrong.
fn explained(why: &ViewWhy, slip: impl Fn(Color, Instead, Wrong) -> String) -> Vec<String> {
    let (right, said) = (why.square, why.instead.map(|instead| instead.square));
    let wrong = Wrong {
        file: said.is_none_or(|said| said.file() != right.file()),
        rank: said.is_none_or(|said| said.rank() != right.rank()),
    };
    let slip = why.instead.map(|instead| slip(why.view, instead, wrong));
    let counted = counted(right, why.view, wrong);
    slip.into_iter().chain(counted).collect()
}

impl BareWords for Name {
    const RULE: &'static str = "The files are named a to h and the ranks 1 to 8, from White's left and from White's side \
        on; Black sees the h-file on the left and rank 8 at the bottom. A square is named by its \
        file and its rank.";

    fn ask(self) -> String {
        let side = side(self.view);
        format!("The board is seen from {side}'s side: what is the marked square called?")
    }

    fn tell(self) -> String {
        format!("The marked square is {}.", self.square)
    }

    fn explain(why: &ViewWhy) -> Vec<String> {
        explained(why, named)
    }

    fn item(self) -> String {
        let (square, side) = (self.square, side(self.view));
        format!("The name of {square}, seen from {side}'s side.")
    }
}

fn named(view: Color, instead: Instead, wrong: Wrong) -> String {
    let (square, other, own) = (instead.square, side(!view), side(view));
    let (file, row) = counts(instead.counted);
    match wrong {
        _ if instead.right_from_other_side => format!(
            "{square} would be right from {other}'s side; here the board is seen from {own}'s."
        ),
        _ if instead.exchanged => {
            format!("The two counts are swapped: {square} lies on {file} and {row}.")
        }
        Wrong { file: false, .. } => {
            format!("The file is right, the rank is not: {square} lies on {row}.")
        }
        Wrong { rank: false, .. } => {
            format!("The rank is right, the file is not: {square} lies on {file}.")
        }
        Wrong { .. } => format!("{square} lies on {file} and {row}."),
    }
}

impl BareWords for Place {
    const RULE: &'static str = "Seen from White's side the a-file is the first from the left and rank 1 the first row \
        from the bottom; seen from Black's side the h-file and rank 8 are.";

    fn ask(self) -> String {
        let (square, side) = (self.square, side(self.view));
        format!(
            "{square}, seen from {side}'s side: how many files from the left, and how many rows from the bottom?"
        )
    }

    fn tell(self) -> String {
        let (square, side) = (self.square, side(self.view));
        let seen = Seen::of(square, self.view);
        let (left, bottom) = (seen.from_left(), seen.from_bottom());
        format!(
            "From {side}'s side {square} lies on file {left} from the left and row {bottom} from the bottom."
        )
    }

    fn explain(why: &ViewWhy) -> Vec<String> {
        explained(why, placed)
    }

    fn item(self) -> String {
        let (square, side) = (self.square, side(self.view));
        format!("The place of {square}, seen from {side}'s side.")
    }
}

fn placed(view: Color, instead: Instead, wrong: Wrong) -> String {
    let (square, other, own) = (instead.square, side(!view), side(view));
    match (instead.exchanged, instead.right_from_other_side, wrong) {
        (true, true, _) => format!(
            "Those are the right counts swapped, or the counts from {other}'s side: the files come first, seen \
             from {own}'s side."
        ),
        (true, false, _) => {
            "The two counts are swapped: the files from the left come first, then the \
            rows from the bottom."
                .to_owned()
        }
        (false, true, _) => format!(
            "Those counts would be right from {other}'s side; here the board is seen from {own}'s."
        ),
        (false, false, Wrong { file: false, .. }) => {
            format!("The count of files is right; that of rows leads to {square}.")
        }
        (false, false, Wrong { rank: false, .. }) => {
            format!("The count of rows is right; that of files leads to {square}.")
        }
        (false, false, Wrong { .. }) => {
            format!("Those counts lead to {square}, seen from {own}'s side.")
        }
    }
}

/// Counts off what was wrong: the files from the left, the ranks from the bottom.
fn counted(square: Square, view: Color, wrong: Wrong) -> Vec<String> {
    let seen = Seen::of(square, view);
    let rows = rows(view);
    let letters = rows[7].map(|square| square.file().char());
    let mut numbers = rows.map(|row| row[0].rank().char());
    numbers.reverse();
    let (letter, number) = (square.file().char(), square.rank().char());
    let [file, rank] = [format!("the {letter}-file"), format!("rank {number}")];
    let files = match seen.from_left() {
        1 => format!("the first file from the left is {file}"),
        n => format!("the files from the left are {}", up_to(letters, n, &file)),
    };
    let ranks = match seen.from_bottom() {
        1 => format!("the first row from the bottom is {rank}"),
        n => format!("the ranks from the bottom are {}", up_to(numbers, n, &rank)),
    };
    let wrong = [(wrong.file, files), (wrong.rank, ranks)];
    let wrong = wrong.into_iter().filter(|(wrong, _)| *wrong);
    let mut clauses = wrong.map(|(_, clause)| clause);
    let first = clauses.next();
    let first = first.map(|first| format!("as {} sees the board, {first}", side(view)));
    let said = first.into_iter().chain(clauses);
    said.map(|clause| sentence(&clause)).collect()
}

/// Joins the first `n` names and says what the last of them is.
fn up_to(names: [char; 8], n: u32, last: &str) -> String {
    let names = names[..n as usize].iter().map(char::to_string);
    let names: Vec<String> = names.collect();
    format!("{}: the {} is {last}", names.join(", "), ordinal(n))
}
