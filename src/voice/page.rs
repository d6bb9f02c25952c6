//! What stands on the page of a learner's progress, or of a group's: headings, heads of tables, captions, and
//! what is told of a chart to those who do not see it.

use jiff::Timestamp;

use crate::exercise::Score;
use crate::learner::account::{Chart, Trend};

pub(crate) use super::naming::verdicts;
use super::progress::{ENOUGH_FOR_A_TREND, change_words, chart_title, day, percent};

/// Over the page of a group.
pub(crate) const GROUP: &str = "A group: chess without sight of the board";
/// Over the steps of the course.
pub(crate) const COURSE: &str = "The course";
/// What a page of the program's says of itself: such a page may be written anew.
pub(crate) const MADE_BY: &str = "sansvoir progress, which may write it again";
/// Over how far ahead a learner sees.
pub(crate) const REACH: &str = "How far ahead";
/// Over the kinds of question.
pub(crate) const KINDS: &str = "Kinds of question";
/// Over the answers by the plies since the board was seen.
pub(crate) const RECALL: &str = "Recall";
/// What those are about.
pub(crate) const ABOUT_RECALL: &str =
    "The longer the board is out of sight, the more there is to keep in mind.";
/// Over the questions that are missed and the squares that are mistaken.
pub(crate) const MISSED: &str = "Missed and mistaken most";
/// Over what all learners of a group can do.
pub(crate) const ALL_TOGETHER: &str = "All together";

/// Over the columns of the table of steps.
pub(crate) const STEP_HEADS: [&str; 3] = ["Step", "Now", "Passed within"];
/// Over those of the table of months.
pub(crate) const MONTH_HEADS: [&str; 3] = [
    "Month",
    "Answers",
    "How far ahead, and where it very likely lies",
];
/// Over those of the table of kinds.
pub(crate) const KIND_HEADS: [&str; 5] = [
    "Kind",
    "Right, in part, wrong, passed",
    "Right",
    "Median",
    "Last four weeks",
];
/// Over those of the table of plies since the board was seen.
pub(crate) const RECALL_HEADS: [&str; 3] = ["Board last seen before", "Right", "Answers"];
/// Over the learners of a group.
pub(crate) const LEARNER: &str = "Learner";
/// A chart's title and what it shows.
pub(crate) const REACH_CHART: (&str, &str) = (
    "How far ahead, month by month",
    "Plies upward, months to the right. A dot stands at the plies at which three in four are \
     known, a line through it covers where they very likely lie. The table has the figures.",
);
/// A chart's title and what it shows.
pub(crate) const RECALL_CHART: (&str, &str) = (
    "Right answers by the plies since the board was last seen",
    "A bar for each number of plies; a full frame is all right. The table has the figures.",
);
/// What the charts of squares show.
pub(crate) const SQUARES_CHART: &str = "The board square by square: the percentage of right answers as a number, and as the length \
     of a bar. An empty square was not asked for. The table has the figures.";

/// Heads the page of one learner.
pub(crate) fn title(learner: &str) -> String {
    format!("{learner}: chess without sight of the board")
}

/// Says what a table of a group is to those who do not see it.
pub(crate) fn learners(heads: &[&str]) -> String {
    format!("A row for each: {}", heads.join(", "))
}

/// Says of which day a page is.
pub(crate) fn as_of(now: Timestamp) -> String {
    format!("As of {}.", day(now))
}

/// Heads the table of a chart of squares.
pub(crate) fn squares_caption(chart: Chart) -> String {
    format!(
        "{}: right answers of all, and the median seconds of the right ones",
        chart_title(chart)
    )
}

/// Writes a share in little room: "92 %".
pub(crate) fn share<N: TryInto<u64>>(right: N, answers: N) -> String {
    format!("{} %", percent(right, answers))
}

/// Writes a share and of how many answers: "92 % of 50".
pub(crate) fn share_of(score: &Score) -> String {
    let answers = score.answers();
    format!("{} of {answers}", share(score.right, answers))
}

/// Writes the share of the last four weeks and how it has changed, where enough was asked to tell.
pub(crate) fn lately(trend: &Trend) -> Option<String> {
    let change = change_words(trend.change(ENOUGH_FOR_A_TREND)?);
    let share = share(trend.lately.right, trend.lately.answers());
    Some(format!("{share}, {change}"))
}
