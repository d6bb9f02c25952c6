//! What is said: every sentence of every exercise as pages to read (`snapshots/`), and what holds for all of
//! them.

mod announce;
mod any_reply;
mod bare_kinds;
mod beside;
mod everything;
mod line_kinds;
mod playing;
mod scores;
mod sessions;
mod whole_board;

use std::collections::BTreeMap;

use shakmaty::{Color, Position};

use super::*;
use crate::exercise::{
    Answered, Ask, Asked, Help, Output, OwnSummary, ReplaySummary, Score, Setting, Stand, Summary,
};
use crate::game::Line;
use crate::question::{
    BareQuestion, Form, Kind, LineQuestion, Mark, Question, Scene, Verdict, Why,
};
use scores::{FIDE_SAMPLE, usual};

const PLAIN: Voice = Voice {
    announce: Announce::Words,
    view: Color::White,
    plain: true,
    list: List::Piece,
    empty_board: false,
    occasion: Occasion::Itself,
};

const DRAWN: Voice = Voice {
    plain: false,
    ..PLAIN
};

/// A page of sentences, held against its snapshot.
#[derive(Default)]
struct Page(Vec<String>);

impl Page {
    /// Heads what follows.
    fn head(&mut self, heading: &str) {
        self.0.extend([String::new(), format!("# {heading}")]);
    }

    /// Sets a line apart from what it leads to, as a reply from its verdict.
    fn lead(&mut self, line: &str) {
        self.0.push(format!("> {line}"));
    }

    fn say<T: AsRef<str>>(&mut self, said: impl IntoIterator<Item = T>) {
        let said = said.into_iter();
        self.0
            .extend(said.map(|line| format!("  {}", line.as_ref())));
    }

    /// Fails where the page is not the one in `snapshots/`.
    fn hold(self, name: &str) {
        let mut settings = insta::Settings::clone_current();
        settings.set_prepend_module_to_snapshot(false);
        settings.set_omit_expression(true);
        settings.bind(|| insta::assert_snapshot!(name, self.0.join("\n")));
    }
}

/// Every form that a reply can have, in the order of the kinds.
fn forms() -> Vec<Form> {
    let mut forms = Vec::new();
    for form in Kind::ALL.map(Kind::form) {
        if !forms.contains(&form) {
            forms.push(form);
        }
    }
    forms
}

/// Makes a question of its kind and the inside of its subject.
fn of_line(kind: &str, subject: &str) -> LineQuestion {
    let json = format!(r#"{{"kind":"{kind}","subject":{{{subject}}}}}"#);
    serde_json::from_str(&json).expect("a question")
}

/// The same over the bare board.
fn of_bare(kind: &str, subject: &str) -> BareQuestion {
    let json = format!(r#"{{"kind":"{kind}","subject":{{{subject}}}}}"#);
    serde_json::from_str(&json).expect("a question")
}

/// Asks at the end of the line and reads the reply; `pass` gives the question up.
fn answered(line: &Line, question: LineQuestion, reply: &str) -> Answered {
    let scene = Scene::new(line, line.len());
    let truth = question.truth(scene);
    let read = (reply != "pass").then(|| question.read(scene, reply).expect("a reply"));
    let mark = read
        .as_ref()
        .map_or_else(|| Mark::pass(&truth), |read| Mark::new(&truth, read));
    let passed = Mark::pass(&truth);
    let is_right = mark.verdict == Verdict::Right;
    let (held, said) = if is_right {
        (&passed, None)
    } else {
        (&mark, read.as_ref())
    };
    Answered {
        question: Question::Line(question),
        setting: Some(Setting::of(scene)),
        why: Why::Line(question.why(scene, held, said)),
        text: if reply == "pass" { "" } else { reply }.to_owned(),
        reply: read,
        truth,
        mark,
        millis: Some(4_210),
        think: None,
        late: false,
        repeat: false,
        helped: false,
        dialogue: None,
        looks: 0,
        hardness: None,
        tries: None,
    }
}

/// What a session says of an answer: the verdict and, where that is due, the truth and why.
fn told(answered: Answered) -> Vec<Output> {
    let explained = { answered.mark.verdict != Verdict::Right }
        .then(|| Output::Explained(Box::new(answered.clone())));
    [Output::Answered(Box::new(answered))]
        .into_iter()
        .chain(explained)
        .collect()
}

/// The same over the bare board.
fn answered_bare(question: BareQuestion, reply: &str) -> Answered {
    let read = (reply != "pass").then(|| question.form().read(reply).expect("a reply"));
    let mark = read
        .as_ref()
        .map_or_else(|| Mark::pass(&question.truth()), |read| question.mark(read));
    let passed = Mark::pass(&question.truth());
    let is_right = mark.verdict == Verdict::Right;
    let (held, said) = if is_right {
        (&passed, None)
    } else {
        (&mark, read.as_ref())
    };
    Answered {
        question: Question::Bare(question),
        setting: None,
        why: Why::Bare(question.why(held, said)),
        text: if reply == "pass" { "" } else { reply }.to_owned(),
        reply: read,
        truth: question.truth(),
        mark,
        millis: Some(2_100),
        think: None,
        late: false,
        repeat: false,
        helped: false,
        dialogue: None,
        looks: 0,
        hardness: None,
        tries: None,
    }
}

/// Puts the question at the end of the line, as an exercise does.
fn put(line: &Line, question: LineQuestion, number: usize) -> Ask {
    let piece = match question {
        LineQuestion::Whereabouts(asked) => line.start().position().board().piece_at(asked.piece),
        _ => None,
    };
    let stand = Stand {
        checkpoint: Some((2, Some(5))),
        turn: line.end().turn(),
        piece,
        start_shown: false,
        chess960: line.start().mode().is_chess960(),
    };
    Ask {
        asked: Asked::Line(question, stand),
        number,
        of: 9,
        form: question.form(),
        taught: None,
    }
}

fn put_bare(question: BareQuestion) -> Ask {
    Ask {
        asked: Asked::Bare(question),
        number: 2,
        of: 20,
        form: question.form(),
        taught: None,
    }
}

/// The counts of a session that has gone through a game.
fn summary() -> Summary {
    use Verdict::{Part, Pass, Right};

    let count = |kind, verdicts: &[Verdict], millis| {
        let mut score = Score::default();
        for verdict in verdicts {
            score.take((*verdict, false, millis));
        }
        (kind, score)
    };
    Summary {
        kinds: BTreeMap::from([
            count(Kind::Whereabouts, &[Right, Right, Part], Some(4_200)),
            count(Kind::Legality, &[Pass], None),
        ]),
        heard: 21,
        looks: 2,
        late: 1,
        board: Some((usual(FIDE_SAMPLE).end().board().clone(), Color::Black)),
        own: OwnSummary::Replay(ReplaySummary {
            first_miss: Some("8...".parse().unwrap()),
            longest_run: 16,
        }),
    }
}
