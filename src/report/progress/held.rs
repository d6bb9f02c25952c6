//! What came of a lesson for a group, as a page.

use jiff::Timestamp;
use maud::html;

use super::html::{STYLE, named_rows};
use crate::learner::LessonResults;
use crate::report::page::page;
use crate::voice::{page as titles, progress::held as words};

/// So many parts stand beside each other on a sheet of A4 or Letter.
const PARTS_ABREAST: usize = 4;

/// Writes the page.
pub(crate) fn lesson_page(results: &LessonResults, now: Timestamp) -> String {
    let title = words::title(results);
    let parts: Vec<(usize, &(String, Option<usize>))> = (0..).zip(&results.parts).collect();
    let names: Vec<&str> = results.learners.iter().map(|(name, _)| &**name).collect();
    let missed: Vec<String> = parts
        .iter()
        .filter_map(|(part, _)| words::missed(results, *part))
        .collect();
    let replies = parts
        .iter()
        .flat_map(|(part, _)| words::replies(results, *part))
        .collect();
    let main = html! {
        h1 dir="auto" { (title) }
        p class="soft" { (titles::as_of(now)) }
        @for parts in parts.chunks(PARTS_ABREAST) {
            @let heads = parts.iter().map(|(part, (heading, _))| words::part_title(part + 1, heading));
            @let heads: Vec<String> = [words::HEADS[1].to_owned()].into_iter().chain(heads).collect();
            (named_rows(&names, "group", heads.iter().map(|head| &**head), |at| html! {
                @let held = &results.learners[at].1;
                td { (words::when(held)) }
                @for (part, (_, pass)) in parts {
                    @let result = held.last().map(|held| &held.parts[*part]);
                    @let passed = result.zip(*pass).filter(|(result, mark)| result.reaches(*mark));
                    td class=[passed.map(|_| "done")] {
                        @if let Some(result) = result { (words::part_result(result, *pass)) }
                    }
                }
            }))
        }
        @for (heading, said) in [(words::MISSED, missed), (words::REPLIES, replies)] {
            @if !said.is_empty() {
                section { h2 { (heading) } ul { @for said in &said { li dir="auto" { (said) } } } }
            }
        }
    };
    page(&title, STYLE, true, &main)
}
