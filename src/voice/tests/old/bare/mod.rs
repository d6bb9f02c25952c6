//! What is said over the bare board.

mod everything;
mod marked;
mod questions;
mod truths;
mod whys;

use super::*;
use crate::exercise::{Ask, Asked};
use crate::question::{Mark, Verdict};

/// Builds a question from its kind and the inside of its subject.
fn asked(kind: &str, subject: &str) -> BareQuestion {
    let json = format!(r#"{{"kind":"{kind}","subject":{{{subject}}}}}"#);
    serde_json::from_str(&json).expect("a question")
}

/// Marks a reply (`pass` gives up) and explains.
fn marked(question: &BareQuestion, reply: &str) -> (Verdict, Vec<String>) {
    let read = (reply != "pass").then(|| question.form().read(reply).expect("a reply"));
    let mark = read
        .as_ref()
        .map_or_else(|| Mark::pass(&question.truth()), |read| question.mark(read));
    (mark.verdict, why(&question.why(&mark, read.as_ref())))
}

fn explained(kind: &str, subject: &str, reply: &str) -> Vec<String> {
    marked(&asked(kind, subject), reply).1
}

fn ask(question: BareQuestion) -> Ask {
    Ask {
        asked: Asked::Bare(question),
        number: 2,
        of: 20,
        form: question.form(),
    }
}
