//! A report for parents: a page for each learner, in plain words, with two pictures.

use jiff::Timestamp;
use maud::{Markup, html};

use super::chart;
use super::html::{Learner, STYLE, table};
use crate::learner::course::CourseStep;
use crate::report::page::page;
use crate::voice::progress::parents as words;
use crate::voice::{page as titles, progress::nothing_yet};

/// Writes a page for each learner, which begins on a sheet of its own.
pub(crate) fn reports(learners: &[Learner], now: Timestamp) -> String {
    let title = match learners {
        [learner] => titles::title(&learner.name),
        _ => titles::GROUP.to_owned(),
    };
    let main = html! {
        @for (at, learner) in learners.iter().enumerate() {
            section class="sheet" { (report(learner, at, now)) }
        }
    };
    page(&title, STYLE, true, &main)
}

fn report(Learner { name, account }: &Learner, at: usize, now: Timestamp) -> Markup {
    let (can, deeds) = words::can(name, account);
    let weeks = account.weeks(now);
    html! {
        h1 dir="auto" { (titles::title(name)) }
        p dir="auto" { (words::opening(name, now)) }
        @if account.answers == 0 {
            p { (nothing_yet(name)) }
        } @else {
            h2 { (words::CAN) }
            p dir="auto" { (can) }
            ul { @for deed in deeds { li { (deed) } } }
            (side_by_side(
                &chart::bars(&format!("stages-{at}"), words::STAGE_CHART, &stages(account)),
                &table(None, &words::STAGE_HEADS, &html! {
                    @for (stage, _, told) in stages(account) {
                        tr { th scope="row" { (stage) } td class="figure" { (told) } }
                    }
                }),
            ))
            h2 { (words::CHANGED) }
            @for line in words::changed(name, account, now) { p dir="auto" { (line) } }
            h2 { (words::WEEKS) }
            @let most = weeks.iter().map(|(_, [_, answers, _])| *answers).max().unwrap_or(0).max(1);
            @let bars: Vec<_> = weeks.iter().map(|(first, [_, answers, _])| {
                let share = u32::try_from(answers * 100 / most).unwrap_or(100);
                (words::week(*first), share, answers.to_string())
            }).collect();
            (side_by_side(
                &chart::bars(&format!("weeks-{at}"), words::WEEK_CHART, &bars),
                &table(None, &words::WEEK_HEADS, &html! {
                    @for (first, [days, answers, right]) in &weeks {
                        tr {
                            th scope="row" { (words::week(*first)) }
                            @for figure in [days, answers, right] { td class="figure" { (figure) } }
                        }
                    }
                }),
            ))
            h2 { (words::NEXT) }
            @for line in words::next(name, account) { p dir="auto" { (line) } }
        }
    }
}

fn side_by_side(chart: &Markup, table: &Markup) -> Markup {
    html! { div class="pair" { figure { (chart) } (table) } }
}

/// The stages of the course, with the share of their steps that are passed, and the steps themselves.
fn stages(account: &crate::learner::account::Account) -> Vec<(String, u32, String)> {
    let mut from = 0;
    let stages = words::STAGES.iter().map(|(title, last)| {
        let steps = &CourseStep::ALL[from..=*last as usize];
        from = *last as usize + 1;
        let passed = steps
            .iter()
            .filter(|step| account.course.standing(**step).is_passed());
        let (passed, all) = (passed.count(), steps.len());
        let share = u32::try_from(passed * 100 / all).unwrap_or(0);
        ((*title).to_owned(), share, format!("{passed} of {all}"))
    });
    stages.collect()
}
