//! What is said around a drill on the empty board: what comes, how much was right, which squares are weak, and
//! what to do next.

use std::collections::BTreeMap;

use shakmaty::{Color, Square};

use crate::exercise::{
    Advice, Begun, Coordinates, Drill, DrillSettings, DrillSummary, Example, Mistaken, Summary,
};
use crate::question::{Mark, Question, Why};

use super::bare;
use super::boards::drawn;
use super::ending::kinds;
use super::exercise::{ExerciseWords, goes_on};
use super::naming::{count, list, percent, side};
use super::question::{reasons, truth};
use super::style::{Occasion, Voice};
use super::time::duration;

/// Hits and misses about each square, a1 first.
type Counts = [(u16, u16); 64];

/// So many confusions are told at most.
const CONFUSIONS: usize = 6;
/// More squares than these are counted, not named.
const NAMED: usize = 16;

impl ExerciseWords for Drill {
    fn title(opening: &Begun<DrillSettings>) -> String {
        format!("Drill: {}", names(&opening.settings))
    }

    fn say_told(voice: Voice, Example(question): &Example) -> Vec<String> {
        let answer = question.truth();
        let why = Why::Bare(question.why(&Mark::pass(&answer), None));
        let told = truth(&Question::Bare(*question), &answer);
        let mut said = vec![bare::rule(question).to_owned()];
        said.extend(bare::marked(question, Coordinates::Named, voice.plain));
        said.push(format!("For example: {told}"));
        said.extend(reasons(&why));
        said
    }

    fn say_opening(_: Voice, opening: &Begun<DrillSettings>) -> Vec<String> {
        let resumed = goes_on("The drill", opening.done.is_some());
        let help = if opening.settings.teach {
            "What is not right gets a clue, until you find it; help says what else can be said."
        } else if opening.settings.returns() {
            "What is missed or slow comes again after a few others; help says what else can be said."
        } else {
            "help says what else can be said."
        };
        let said = resumed.into_iter().chain([questions(&opening.settings)]);
        said.chain([help.to_owned()]).collect()
    }

    fn say_on_paper(_: Voice, opening: &Begun<DrillSettings>) -> Vec<String> {
        let how = "Answer from memory, without a board of your own.";
        vec![questions(&opening.settings), how.to_owned()]
    }

    /// What to do next is said too.
    fn say_summary(voice: Voice, own: &DrillSummary, all: &Summary) -> Vec<String> {
        if own.taught.1 > 0 {
            return vec![taught(own.taught)];
        }
        let mut said = accuracy(own);
        if own.answers == 0 {
            return said;
        }
        if all.kinds.len() > 1 {
            said.extend(kinds(voice, &all.kinds));
        }
        said.extend(if voice.plain {
            squares_in_words(&own.squares)
        } else {
            square_map(&own.squares, voice.view)
        });
        said.extend(slowest(&own.slowest));
        said.extend(own.confusions.iter().take(CONFUSIONS).map(confusion));
        // A lesson says by itself what comes next.
        let advised = own.advice.filter(|_| voice.occasion != Occasion::Lesson);
        said.extend(advised.map(advice));
        said
    }
}

/// Says how many questions that were taught were found at once.
fn taught((at_once, of): (usize, usize)) -> String {
    let questions = count(of, "question", "questions");
    format!("{at_once} of {questions} found at the first try. They count for no step.")
}

fn names(drill: &DrillSettings) -> String {
    let names: Vec<&str> = drill.kinds.iter().map(|kind| kind.name()).collect();
    names.join(", ")
}

/// Says how many questions of which kinds a drill puts.
fn questions(drill: &DrillSettings) -> String {
    let questions = count(drill.count.size(), "question", "questions");
    format!("{questions} on the empty board: {}.", names(drill))
}

/// Says what to do next.
fn advice(advice: Advice) -> String {
    match advice {
        Advice::Slower(kind) => {
            format!("Drill {kind} again and take more time: right comes before fast.")
        }
        Advice::Same(kind) => {
            format!("Drill {kind} again at the same pace until 9 in 10 are right.")
        }
        Advice::Faster(kind) => {
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
/// took.
fn accuracy(own: &DrillSummary) -> Vec<String> {
    let (right, first_tries) = (own.first_try_right, own.first_tries);
    if first_tries == 0 {
        return vec!["No question was answered.".to_owned()];
    }
    let share = percent(right, first_tries);
    let median = own.median_right_millis.map(duration);
    let median = median.map(|median| format!("Median time of right replies: {median}."));
    let right =
        format!("Right at the first try: {right} of {first_tries}, which is {share} percent.");
    [right].into_iter().chain(median).collect()
}

/// Draws how often each square was missed, as `view` sees the board, top row first, with a last line
/// that explains the marks. Nine rows, file letters below.
fn square_map(counts: &Counts, view: Color) -> Vec<String> {
    let mark = |square: Square| match counts[square.to_usize()] {
        (0, 0) => String::new(),
        (_, 0) => "+".to_owned(),
        (_, misses) => misses.to_string(),
    };
    let widths = Square::ALL.map(|square| mark(square).len());
    let width = widths.into_iter().fold(1, usize::max);
    let cell = |square| format!(" {:>width$} ", mark(square));
    let mut rows = drawn(view, "  ", cell, |letter| format!(" {letter:>width$} "));
    rows.push(
        "Numbers count first tries that were missed; + is right every time, a blank not asked."
            .to_owned(),
    );
    rows
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
    let often = |(often, squares): (&u16, &Vec<Square>)| {
        format!("{} {}", some(squares), times(usize::from(*often)))
    };
    let missed: Vec<String> = missed.iter().rev().map(often).collect();
    let told = [
        (!missed.is_empty()).then(|| format!("Missed at the first try: {}.", missed.join("; "))),
        (!right.is_empty()).then(|| format!("Right every time: {}.", some(&right))),
        (unasked > 0).then(|| format!("Not asked: {}.", count(unasked, "square", "squares"))),
    ];
    told.into_iter().flatten().collect()
}

fn some(squares: &[Square]) -> String {
    if squares.len() > NAMED {
        format!("{} squares", squares.len())
    } else {
        list(squares)
    }
}

fn times(n: usize) -> String {
    match n {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        _ => format!("{n} times"),
    }
}

/// Says which squares took longest, with the milliseconds of their right replies.
fn slowest(squares: &[(Square, u64)]) -> Option<String> {
    let named = squares.iter();
    let named = named.map(|(square, millis)| format!("{square} {}", duration(*millis)));
    let named: Vec<String> = named.collect();
    (!named.is_empty()).then(|| format!("Slowest when right: {}.", named.join("; ")))
}

/// Says that one square was taken for another, seen from a side.
fn confusion((mistaken, often): &(Mistaken, usize)) -> String {
    let Mistaken { view, asked, named } = *mistaken;
    let (own, other) = (side(view), side(!view));
    let times = times(*often);
    let taken = format!("From {own}'s side {asked} was taken for {named} {times}");
    if mistaken.is_right_from_the_other_side() {
        format!("{taken}: that is the square seen from {other}.")
    } else {
        format!("{taken}.")
    }
}
