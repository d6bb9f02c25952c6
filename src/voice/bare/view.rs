//! A board seen from one side: why a square is called so or lies there, counted off, and the board on which
//! a square is marked.

use shakmaty::{Color, Square};

use crate::board::{Seen, SquareColor};
use crate::exercise::{Ask, Asked, Coordinates};
use crate::question::bare::{InView, Instead, Name};
use crate::question::{BareQuestion, BareWhy};
use crate::voice::boards::rows;
use crate::voice::naming::{ordinal, sentence, side};
use crate::voice::words::BareWords;

/// Shows the board of a question that marks a square, drawn or, where all is `plain`, in words;
/// nothing for all others.
pub(crate) fn marked_board(ask: &Ask, plain: bool) -> Vec<String> {
    match ask.asked {
        Asked::Bare(question) => marked(&question, ask.taught.unwrap_or(Coordinates::Edges), plain),
        _ => Vec::new(),
    }
}

/// Shows the board of a question, with so much of its coordinates.
pub(crate) fn marked(question: &BareQuestion, shown: Coordinates, plain: bool) -> Vec<String> {
    let BareQuestion::Name(Name { square, view }) = *question else {
        return Vec::new();
    };
    if !plain {
        return drawn(square, view, shown);
    }
    let (file, row) = counts(Seen::of(square, view));
    vec![format!("The marked square lies on {file} and {row}.")]
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

impl<const MARKED: bool> BareWords for InView<MARKED> {
    const RULE: &'static str = "From White's side the a-file is the first from the left and rank 1 the first row from the \
        bottom; from Black's side the h-file and rank 8 are. A square is named by its file and \
        its rank.";

    fn ask(self) -> String {
        let (square, side) = (self.square, side(self.view));
        if MARKED {
            return format!(
                "The board is seen from {side}'s side: what is the marked square called?"
            );
        }
        format!(
            "{square}, seen from {side}'s side: how many files from the left, and how many rows from the bottom?"
        )
    }

    fn tell(self) -> String {
        let (square, side) = (self.square, side(self.view));
        if MARKED {
            return format!("The marked square is {square}.");
        }
        let seen = Seen::of(square, self.view);
        let (left, bottom) = (seen.from_left(), seen.from_bottom());
        format!(
            "From {side}'s side {square} lies on file {left} from the left and row {bottom} from the bottom."
        )
    }

    /// Tells what was named instead, then counts off what was wrong.
    fn explain(self, why: &BareWhy) -> Vec<String> {
        let instead = self.instead(why.reply.as_ref());
        let wrong = instead.map_or([true; 2], |Instead { square, .. }| {
            let right = self.square;
            [square.file() != right.file(), square.rank() != right.rank()]
        });
        let slip = instead.map(|instead| slip(self.view, instead, wrong));
        let counted = counted(self.square, self.view, wrong);
        slip.into_iter().chain(counted).collect()
    }

    fn item(self) -> String {
        let what = if MARKED { "name" } else { "place" };
        let (square, side) = (self.square, side(self.view));
        format!("The {what} of {square}, seen from {side}'s side.")
    }
}

/// Tells what is wrong with the square that was named, or to which was counted; `wrong` are its file and its rank.
fn slip(view: Color, instead: Instead, wrong: [bool; 2]) -> String {
    let (square, other, own) = (instead.square, side(!view), side(view));
    let (file, row) = counts(instead.counted);
    match (instead.exchanged, instead.right_from_other_side, wrong) {
        (true, true, _) => format!(
            "That would be right from {other}'s side, or with the two counts swapped; here the board is seen \
             from {own}'s, and the file comes first."
        ),
        (true, false, _) => {
            format!("The two counts are swapped: {square} lies on {file} and {row}.")
        }
        (_, true, _) => {
            format!("That would be right from {other}'s side; here the board is seen from {own}'s.")
        }
        (.., [false, _]) => format!("The file is right, the row is not: {square} lies on {row}."),
        (.., [_, false]) => format!("The row is right, the file is not: {square} lies on {file}."),
        _ => format!("{square} lies on {file} and {row}."),
    }
}

/// Counts off what was wrong: the files from the left, the ranks from the bottom.
fn counted(square: Square, view: Color, wrong: [bool; 2]) -> Vec<String> {
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
    let clauses = wrong.into_iter().zip([files, ranks]);
    let mut clauses = clauses.filter_map(|(wrong, clause)| wrong.then_some(clause));
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
