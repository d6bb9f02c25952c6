//! How a drill went, in words: how much was right, which squares are weak, and what to do next.

use std::collections::BTreeMap;

use shakmaty::{Color, File, Rank, Square};

use crate::board::Seen;
use crate::exercise::{Advice, Confusion, DrillSummary, Summary};

use super::Voice;
use super::closing::kinds;
use super::duration::duration;
use super::naming::{count, list, side};
use super::progress::percent;

/// Hits and misses about each square, a1 first.
type Counts = [(u16, u16); 64];

/// So many confusions are told at most.
const CONFUSIONS: usize = 6;
/// More squares than these are counted, not named.
const NAMED: usize = 16;

/// Says how a drill went and what to do next.
pub(super) fn summary(voice: Voice, all: &Summary, summary: &DrillSummary) -> Vec<String> {
    let mut said = accuracy(
        summary.first_try_right,
        summary.first_tries,
        summary.median_right_millis,
    );
    if summary.answers == 0 {
        return said;
    }
    if all.kinds.len() > 1 {
        said.extend(kinds(voice, &all.kinds));
    }
    said.extend(if voice.plain {
        squares_in_words(&summary.squares)
    } else {
        square_map(&summary.squares, voice.view)
    });
    said.extend(slowest(&summary.slowest));
    said.extend(summary.confusions.iter().take(CONFUSIONS).map(confusion));
    said.push(advice(summary.advice));
    said
}

/// Says what to do next.
fn advice(advice: Advice) -> String {
    match advice {
        Advice::NotEnough { answers, of } => format!(
            "Advice comes after {of} first tries of one kind; the most so far is {answers}."
        ),
        Advice::Slower { kind } => {
            format!("Drill {kind} again and take more time: right comes before fast.")
        }
        Advice::Same { kind } => {
            format!("Drill {kind} again at the same pace until 9 in 10 are right.")
        }
        Advice::Faster { kind } => {
            format!("Drill {kind} again and answer sooner: it is right, but not yet fast.")
        }
        Advice::NextKind { kind, next } => {
            format!("Go on to drill {next}: {kind} is right and fast.")
        }
        Advice::AllDone => {
            "Go on to drill few, with a few pieces on the board: the empty board is \
            right and fast."
                .to_owned()
        }
    }
}

/// Says how many of the questions were right when they were put first, and how long right replies
/// took, in milliseconds.
fn accuracy(right: usize, first_tries: usize, median_millis: Option<u64>) -> Vec<String> {
    if first_tries == 0 {
        return vec!["No question was answered.".to_owned()];
    }
    let mut said = vec![format!(
        "Right at the first try: {right} of {first_tries}, which is {} percent.",
        percent(right, first_tries)
    )];
    said.extend(
        median_millis.map(|millis| format!("Median time of right replies: {}.", duration(millis))),
    );
    said
}

/// Draws how often each square was missed, as `view` sees the board, top row first, with a last line
/// that explains the marks. Nine rows, file letters below.
fn square_map(counts: &Counts, view: Color) -> Vec<String> {
    let mark = |square: Square| match counts[square.to_usize()] {
        (0, 0) => String::new(),
        (_, 0) => "+".to_owned(),
        (_, misses) => misses.to_string(),
    };
    let width = Square::ALL.map(|square| mark(square).len()).into_iter();
    let width = width.max().unwrap_or(0).max(1);
    let row = |name: char, cells: Vec<String>| {
        let cells: Vec<String> = cells
            .iter()
            .map(|cell| format!(" {cell:>width$} "))
            .collect();
        let cells = cells.concat();
        format!("{name}  {cells}").trim_end().to_owned()
    };
    let (files, ranks) = axes(view);
    let mut rows: Vec<String> = ranks
        .iter()
        .rev()
        .map(|rank| {
            let squares = files.iter().map(|file| Square::from_coords(*file, *rank));
            row(rank.char(), squares.map(mark).collect())
        })
        .collect();
    rows.push(row(
        ' ',
        files.iter().map(|file| file.char().to_string()).collect(),
    ));
    rows.push(
        "A number counts misses, + stands for right every time, a blank for not asked.".to_owned(),
    );
    rows
}

/// The files from the left and the ranks from the bottom.
fn axes(view: Color) -> (Vec<File>, Vec<Rank>) {
    let seen = |left, bottom| Seen::at(left, bottom).map(|seen| seen.square(view));
    (
        (1..=8)
            .filter_map(|n| seen(n, 1))
            .map(Square::file)
            .collect(),
        (1..=8)
            .filter_map(|n| seen(1, n))
            .map(Square::rank)
            .collect(),
    )
}

/// Says the same in words: the squares that were missed, most often first, and those that were right
/// every time.
fn squares_in_words(counts: &Counts) -> Vec<String> {
    let mut missed: BTreeMap<u16, Vec<Square>> = BTreeMap::new();
    let mut right = Vec::new();
    let mut unasked = 0;
    for square in Square::ALL {
        match counts[square.to_usize()] {
            (0, 0) => unasked += 1,
            (_, 0) => right.push(square),
            (_, often) => missed.entry(often).or_default().push(square),
        }
    }
    if unasked == Square::ALL.len() {
        return vec!["No square was asked about.".to_owned()];
    }
    let groups: Vec<String> = missed
        .iter()
        .rev()
        .map(|(often, squares)| format!("{} {}", some(squares), times(usize::from(*often))))
        .collect();
    let mut said = Vec::new();
    if !groups.is_empty() {
        said.push(format!("Missed: {}.", groups.join("; ")));
    }
    if !right.is_empty() {
        said.push(format!("Right every time: {}.", some(&right)));
    }
    if unasked > 0 {
        said.push(format!(
            "Not asked: {}.",
            count(unasked, "square", "squares")
        ));
    }
    said
}

fn some(squares: &[Square]) -> String {
    if squares.len() > NAMED {
        format!("{} squares", squares.len())
    } else {
        list(squares)
    }
}

fn times(n: usize) -> String {
    let number = match n {
        1 => return "once".to_owned(),
        2 => return "twice".to_owned(),
        3 => "three",
        4 => "four",
        5 => "five",
        6 => "six",
        7 => "seven",
        8 => "eight",
        9 => "nine",
        _ => return format!("{n} times"),
    };
    format!("{number} times")
}

/// Says which squares took longest, with the milliseconds of their right replies.
fn slowest(squares: &[(Square, u64)]) -> Option<String> {
    let named: Vec<String> = squares
        .iter()
        .map(|(square, millis)| format!("{square} {}", duration(*millis)))
        .collect();
    (!named.is_empty()).then(|| format!("Slowest when right: {}.", named.join("; ")))
}

/// Says that one square was taken for another, seen from a side.
fn confusion(confusion: &Confusion) -> String {
    let Confusion {
        asked, named, view, ..
    } = *confusion;
    let taken = format!(
        "From {}'s side {asked} was taken for {named} {}",
        side(view),
        times(confusion.times)
    );
    if confusion.other_side {
        format!("{taken}: that is the square seen from {}.", side(!view))
    } else {
        format!("{taken}.")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::question::Kind;

    fn counts(told: &[(Square, u16, u16)]) -> Counts {
        let mut counts = [(0, 0); 64];
        for (square, hits, misses) in told {
            counts[square.to_usize()] = (*hits, *misses);
        }
        counts
    }

    fn some_counts() -> Counts {
        counts(&[
            (Square::A1, 3, 0),
            (Square::C6, 1, 2),
            (Square::G3, 0, 1),
            (Square::H8, 2, 0),
            (Square::B2, 0, 1),
        ])
    }

    const LEGEND: &str =
        "A number counts misses, + stands for right every time, a blank for not asked.";

    #[test]
    fn misses_are_drawn_where_each_side_sees_the_squares() {
        assert_eq!(
            square_map(&some_counts(), Color::White),
            [
                "8                        +",
                "7",
                "6         2",
                "5",
                "4",
                "3                     1",
                "2      1",
                "1   +",
                "    a  b  c  d  e  f  g  h",
                LEGEND,
            ]
        );
        assert_eq!(
            square_map(&some_counts(), Color::Black),
            [
                "1                        +",
                "2                     1",
                "3      1",
                "4",
                "5",
                "6                  2",
                "7",
                "8   +",
                "    h  g  f  e  d  c  b  a",
                LEGEND,
            ]
        );
    }

    #[test]
    fn many_misses_widen_every_column_alike() {
        let map = square_map(
            &counts(&[(Square::A1, 0, 65_535), (Square::B1, 1, 0)]),
            Color::White,
        );
        assert_eq!(map[7], "1   65535      +");
        assert!(map[8].starts_with("        a      b "), "{}", map[8]);
    }

    #[test]
    fn misses_are_told_in_words_most_often_first() {
        assert_eq!(
            squares_in_words(&some_counts()),
            [
                "Missed: c6 twice; b2 and g3 once.",
                "Right every time: a1 and h8.",
                "Not asked: 59 squares.",
            ]
        );
        assert_eq!(
            squares_in_words(&[(0, 0); 64]),
            ["No square was asked about."]
        );
        assert_eq!(
            squares_in_words(&[(1, 0); 64]),
            ["Right every time: 64 squares."]
        );
        assert_eq!(
            squares_in_words(&[(1, 12); 64]),
            ["Missed: 64 squares 12 times."]
        );
    }

    #[test]
    fn first_tries_are_counted_and_timed() {
        assert_eq!(
            accuracy(13, 20, Some(2_140)),
            [
                "Right at the first try: 13 of 20, which is 65 percent.",
                "Median time of right replies: 2.1 seconds.",
            ]
        );
        assert_eq!(
            accuracy(14, 18, None),
            ["Right at the first try: 14 of 18, which is 78 percent."]
        );
        assert_eq!(accuracy(0, 0, None), ["No question was answered."]);
    }

    #[test]
    fn slow_squares_are_told_with_their_times() {
        assert_eq!(
            slowest(&[(Square::C6, 6_200), (Square::G3, 5_000)]).unwrap(),
            "Slowest when right: c6 6.2 seconds; g3 5 seconds."
        );
        assert_eq!(slowest(&[]), None);
    }

    #[test]
    fn squares_taken_for_others_are_told_with_the_side() {
        assert_eq!(
            confusion(&Confusion {
                asked: Square::C6,
                named: Square::F3,
                view: Color::Black,
                other_side: true,
                times: 2
            }),
            "From Black's side c6 was taken for f3 twice: that is the square seen from White."
        );
        assert_eq!(
            confusion(&Confusion {
                asked: Square::C6,
                named: Square::D6,
                view: Color::White,
                other_side: false,
                times: 10
            }),
            "From White's side c6 was taken for d6 10 times."
        );
    }

    #[test]
    fn advice_says_what_to_drill_next() {
        let kind = Kind::Color;
        assert_eq!(
            [
                advice(Advice::NotEnough { answers: 7, of: 10 }),
                advice(Advice::Slower { kind }),
                advice(Advice::Same { kind }),
                advice(Advice::Faster { kind }),
                advice(Advice::NextKind {
                    kind,
                    next: Kind::Aligned
                }),
                advice(Advice::AllDone),
            ],
            [
                "Advice comes after 10 first tries of one kind; the most so far is 7.",
                "Drill color again and take more time: right comes before fast.",
                "Drill color again at the same pace until 9 in 10 are right.",
                "Drill color again and answer sooner: it is right, but not yet fast.",
                "Go on to drill aligned: color is right and fast.",
                "Go on to drill few, with a few pieces on the board: the empty board is right and fast.",
            ]
        );
    }
}
