//! What a learner can do, what has changed and what comes next, in the words of a report for parents.

use jiff::Timestamp;
use jiff::civil::Date;

use super::day;
use crate::learner::account::Account;
use crate::learner::course::{CourseStep, StepStatus};
use crate::voice::naming::{count, percent};

/// So many of the things that a pupil can do are told, the hardest ones.
const CAN_TOLD: usize = 6;

/// Over what a pupil can do.
pub(crate) const CAN: &str = "What can be done now";
/// Over what has changed.
pub(crate) const CHANGED: &str = "What has changed in the last four weeks";
/// Over the picture and the table of weeks.
pub(crate) const WEEKS: &str = "The last eight weeks";
/// Over what comes next.
pub(crate) const NEXT: &str = "What comes next";
/// Over the columns of the table of stages.
pub(crate) const STAGE_HEADS: [&str; 2] = ["Stage", "Steps done"];
/// Over those of the table of weeks.
pub(crate) const WEEK_HEADS: [&str; 4] = ["Week from", "Days", "Answers", "Right"];

/// A chart's title and what it shows.
pub(crate) const STAGE_CHART: (&str, &str) = (
    "The way to a game without a board",
    "A bar for each stage; a full frame is all steps of it done. The table has the figures.",
);
/// A chart's title and what it shows.
pub(crate) const WEEK_CHART: (&str, &str) = (
    "Answers, week by week",
    "A bar for each week, as long as answers were given in it. The table has the figures.",
);

/// The stages of the course in plain words, with their last steps.
pub(crate) const STAGES: [(&str, CourseStep); 7] = [
    ("Squares and their colors", CourseStep::Colors),
    ("Lines and ways", CourseStep::Route),
    ("Pieces kept in mind", CourseStep::AllPieces),
    ("Thinking ahead", CourseStep::EightPlies),
    ("Whole games by ear", CourseStep::GamesToTheEnd),
    ("From memory", CourseStep::Rebuilding),
    ("Playing", CourseStep::UnseenGames),
];

/// Names a week by its first day.
pub(crate) fn week(first: Date) -> String {
    first.strftime("%-d %B").to_string()
}

/// Says what the report is.
pub(crate) fn opening(name: &str, now: Timestamp) -> String {
    format!(
        "{name} is learning to see a chessboard in the mind, without looking at one. This page says how far that has \
         come by {}.",
        day(now)
    )
}

/// Says what a step is, as something that can be done.
const fn deed(step: CourseStep) -> &'static str {
    match step {
        CourseStep::WhiteSquares => "name any square as White sees the board",
        CourseStep::BlackSquares => "name any square as Black sees the board",
        CourseStep::Colors => "tell without looking whether a square is light or dark",
        CourseStep::Aligned => "tell whether two squares lie on one line",
        CourseStep::Between => "name the squares between two others",
        CourseStep::Span => "name all squares that a piece reaches on an empty board",
        CourseStep::Crossing => "find where the lines of two pieces cross",
        CourseStep::Distance => "count the moves that a piece needs to reach a square",
        CourseStep::Route => "say the way there, square by square",
        CourseStep::ThreePieces => "keep three pieces in mind while they move",
        CourseStep::FivePieces => "keep five pieces in mind while they move",
        CourseStep::EightPieces => "keep eight pieces in mind while they move",
        CourseStep::SixteenPieces => "keep half of all pieces in mind while they move",
        CourseStep::AllPieces => "keep a full board in mind while pieces move",
        CourseStep::TwoPlies => "picture the board one move of each side ahead",
        CourseStep::FourPlies => "picture the board two moves of each side ahead",
        CourseStep::SixPlies => "picture the board three moves of each side ahead",
        CourseStep::EightPlies => "picture the board four moves of each side ahead",
        CourseStep::GamesByFour => "follow a whole game by ear, with questions every two moves",
        CourseStep::GamesByEight => "follow a whole game by ear, with questions every four moves",
        CourseStep::GamesBySixteen => {
            "follow a whole game by ear, with questions every eight moves"
        }
        CourseStep::GamesToTheEnd => "follow a whole game by ear, with questions at its end only",
        CourseStep::Chunks => "say the first eight moves of a game from memory",
        CourseStep::Recital => "say a whole game from memory",
        CourseStep::Rebuilding => "set up a position from memory, piece by piece",
        CourseStep::FewInSight => "play on with a few pieces, the board in sight",
        CourseStep::FewUnseen => "play on with a few pieces without seeing the board",
        CourseStep::GamesAtAGlance => "play a whole game with a glance at the board now and then",
        CourseStep::UnseenGames => "play a whole game without seeing the board",
    }
}

/// Says what a learner can do, the hardest things first.
pub(crate) fn can(name: &str, account: &Account) -> (String, Vec<&'static str>) {
    let is_passed = |step: &CourseStep| account.course.standing(*step).is_passed();
    let mut passed: Vec<CourseStep> = CourseStep::ALL.into_iter().filter(is_passed).collect();
    passed.reverse();
    let before = passed.len().saturating_sub(CAN_TOLD);
    let said = match passed.len() {
        0 => format!(
            "{name} has begun. The first step is not done yet; it takes some days of practice."
        ),
        _ if before > 0 => {
            let easier = count(before, "easier thing", "easier things");
            format!("{name} can, beside {easier} that came before:")
        }
        _ => format!("{name} can:"),
    };
    (said, passed.into_iter().take(CAN_TOLD).map(deed).collect())
}

/// Says what has changed in the last four weeks.
pub(crate) fn changed(name: &str, account: &Account, now: Timestamp) -> Vec<String> {
    let [before, lately] = account.two_months(now);
    let share = |of: [u64; 3]| percent(of[2], of[1]);
    let mut said = vec![match lately {
        [0, ..] => format!("{name} has not practiced in this time."),
        [days, answers, _] => {
            let (days, answers) = (
                count(days, "day", "days"),
                count(answers, "question", "questions"),
            );
            let right = share(lately);
            format!(
                "{name} practiced on {days} and answered {answers}; of every 100, {right} were right."
            )
        }
    }];
    if lately[0] > 0 && before[0] > 0 {
        let days = count(before[0], "day", "days");
        let right = share(before);
        said.push(format!(
            "In the four weeks before that it was {days}, and {right} of every 100. The questions grow harder \
             with the steps, so a share that stays is progress too."
        ));
    }
    let new = CourseStep::ALL.into_iter().filter(|step| {
        let status = account.course.standing(*step).status;
        matches!(status, StepStatus::Passed(on) if account.is_lately(on, now))
    });
    said.extend(new.map(|step| format!("New: {name} can {}.", deed(step))));
    said
}

/// Says what comes next.
///
/// That many short times keep more than a long one: Cepeda, Pashler, Vul, Wixted & Rohrer 2006, Psychological
/// Bulletin 132:354-380.
pub(crate) fn next(name: &str, account: &Account) -> Vec<String> {
    let Some(step) = account.course.current() else {
        return vec![format!(
            "{name} has done every step. What is known is kept by practice."
        )];
    };
    let (standing, mark) = (account.course.standing(step), step.mark());
    let so_far = match (standing.of, account.course.taught(step)) {
        (0, 0) => "This has not been tried yet.".to_owned(),
        (0, taught) => format!(
            "So far {} came with clues, to learn it.",
            count(taught, "question", "questions")
        ),
        (of, _) => format!(
            "So far {} of the last {of} answers were right.",
            standing.right
        ),
    };
    vec![
        format!("{name} is learning to {}.", deed(step)),
        format!(
            "{so_far} The step is done when {} of {} are right, without long thinking.",
            mark.right, mark.of
        ),
        "A few minutes on many days help more than an hour on one.".to_owned(),
    ]
}
