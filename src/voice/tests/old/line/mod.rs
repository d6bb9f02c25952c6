mod anything;
mod counted;
mod effects;
mod journeys;
mod legality;
mod moves;
mod sight;

use super::*;
use crate::game::Line;
use crate::question::{Mark, Scene};

/// Asks at the end of the line, reads the reply (`pass` gives up) and explains.
fn explained(line: &Line, kind: &str, subject: &str, reply: &str) -> Vec<String> {
    let question = format!(r#"{{"kind":"{kind}","subject":{{{subject}}}}}"#);
    let question: LineQuestion = serde_json::from_str(&question).expect("a question");
    let scene = Scene::new(line, line.len());
    let truth = question.truth(scene);
    let read = (reply != "pass").then(|| question.read(scene, reply).expect("a reply"));
    let mark = read
        .as_ref()
        .map_or_else(|| Mark::pass(&truth), |read| Mark::new(&truth, read));
    why(&question.why(scene, &mark, read.as_ref()))
}

fn whereabouts(line: &Line, home: &str) -> Vec<String> {
    explained(line, "whereabouts", &format!(r#""man":"{home}""#), "pass")
}

fn on(line: &Line, kind: &str, square: &str, reply: &str) -> Vec<String> {
    explained(line, kind, &format!(r#""square":"{square}""#), reply)
}

fn attackers(line: &Line, side: &str, square: &str, reply: &str) -> Vec<String> {
    let subject = format!(r#""color":"{side}","square":"{square}""#);
    explained(line, "attackers", &subject, reply)
}

/// Explains a move: the piece first, then the reason.
fn legality(line: &Line, attempt: &str) -> Vec<String> {
    explained(line, "legality", &format!(r#""move":"{attempt}""#), "pass")
}
