//! A learner who follows a session without a terminal, and knows every answer if he likes.

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Ahead, AheadSettings, Answered, Ask, Asked, Awaits, Cut, Exercise, GivenPosition, Input,
    Output, Script, Session, Show, Staircase,
};
use sansvoir::game::{Game, Line};
use sansvoir::pgn::read;
use sansvoir::question::{LineQuestion, Question, Scene, Truth};

use crate::published::{ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, line};

/// The games of the tests: Bogoljubov - Alekhine and the shorter Anderssen - Dufresne.
pub(crate) fn published() -> Vec<Script> {
    [BOGOLJUBOV_ALEKHINE, ANDERSSEN_DUFRESNE]
        .map(|moves| Script::of_line(&line(moves)))
        .to_vec()
}

pub(crate) fn game(text: &str) -> Game {
    read(&crate::passages::only(text)).game
}

/// A game with all its sidelines, as a script.
pub(crate) fn with_sidelines(text: &str) -> Script {
    let cut = Cut {
        sidelines: true,
        ..Cut::default()
    };
    Script::new(&game(text), cut).unwrap()
}

pub(crate) fn settings(seed: u64) -> AheadSettings {
    AheadSettings {
        games: published(),
        show: Show::Diagram,
        plies: None,
        staircase: Staircase::default(),
        rounds: Within::nearest(4),
        per_round: Within::nearest(2),
        ask: "whereabouts occupant attacks legality check"
            .split(' ')
            .map(|kind| kind.parse().unwrap())
            .collect(),
        think_millis: Some(Within::nearest(5000)),
        looks: Some(Within::nearest(3)),
        seed,
        follow: false,
    }
}

/// All that a session said and asked.
#[derive(Debug, Default)]
pub(crate) struct Log {
    pub(crate) shown: Vec<GivenPosition>,
    pub(crate) asked: Vec<Ask>,
    pub(crate) answered: Vec<Answered>,
    pub(crate) summary: Option<sansvoir::exercise::Summary>,
    /// The line of the round, as far as it was heard.
    line: Option<Line>,
}

impl Log {
    pub(crate) fn add(&mut self, outputs: &[Output]) {
        for output in outputs {
            match output {
                Output::Given(shown) => {
                    if self.shown.last() != Some(shown) {
                        self.shown.push((**shown).clone());
                    }
                    if shown.heard_before == 0 {
                        self.line = Some(Line::new(shown.start.clone()));
                    }
                }
                Output::Heard(heard) => self.hear(&heard.plies),
                Output::Again(plies) => {
                    let start = self.shown.last().unwrap().start.clone();
                    self.line = Some(Line::new(start));
                    self.hear(plies);
                }
                Output::Ask(ask) => self.asked.push(ask.clone()),
                Output::Answered(answered) => self.answered.push((**answered).clone()),
                Output::Summary(summary) => self.summary = Some((**summary).clone()),
                _ => {}
            }
        }
    }

    fn hear(&mut self, plies: &[sansvoir::game::Ply]) {
        let line = self.line.as_mut().expect("a position was given before");
        for ply in plies {
            line.push(ply.mv).expect("what is read can be played");
        }
    }

    /// The right reply to the question that stands, from what was shown and heard alone.
    pub(crate) fn right_reply(&self) -> String {
        let Asked::Line(question, _) = self.asked.last().unwrap().asked else {
            panic!("a question over a line");
        };
        let line = self.line.as_ref().unwrap();
        written(&question.truth(Scene::new(line, line.len())))
    }
}

fn written(truth: &Truth) -> String {
    match truth {
        Truth::Square(square) => square.to_string(),
        Truth::Gone { .. } => "gone".to_owned(),
        Truth::Piece(piece) => piece.map_or("empty".to_owned(), |piece| piece.char().to_string()),
        Truth::Squares { squares, .. } if squares.is_empty() => "none".to_owned(),
        Truth::Squares { squares, .. } => {
            let names: Vec<String> = squares
                .into_iter()
                .map(|square| square.to_string())
                .collect();
            names.join(" ")
        }
        Truth::Legal { .. } => "legal".to_owned(),
        Truth::Illegal { .. } => "illegal".to_owned(),
        other => panic!("not asked here: {other:?}"),
    }
}

/// What a learner does at question number `turn`.
pub(crate) type Habit = fn(turn: usize, log: &Log) -> Vec<Input>;

pub(crate) fn knows(_: usize, log: &Log) -> Vec<Input> {
    vec![Input::Reply {
        text: log.right_reply(),
        millis: 900,
    }]
}

pub(crate) fn passes(_: usize, _: &Log) -> Vec<Input> {
    vec![Input::Pass { millis: 900 }]
}

/// Some are right, some passed, some late after a look, some unreadable at first.
pub(crate) fn mixed(turn: usize, log: &Log) -> Vec<Input> {
    let right = |millis| Input::Reply {
        text: log.right_reply(),
        millis,
    };
    match turn % 4 {
        0 => vec![right(900)],
        1 => vec![Input::Look, right(6000)],
        2 => vec![
            Input::Again,
            Input::Reply {
                text: "what was that".to_owned(),
                millis: 100,
            },
            Input::Pass { millis: 2000 },
        ],
        _ => vec![Input::Question, right(1)],
    }
}

/// Plays a session to its end.
pub(crate) fn play(settings: &AheadSettings, habit: Habit) -> Log {
    let mut log = Log::default();
    let mut session = Session::new(Ahead::new(settings.clone()).unwrap());
    log.add(&session.begin());
    let mut inputs = Vec::new();
    let mut turn = 0;
    while session.awaits() != Awaits::Nothing {
        let input = next(&session, &mut inputs, &mut turn, habit, &log);
        log.add(&session.hear(input));
    }
    log
}

pub(crate) fn next(
    session: &Session,
    waiting: &mut Vec<Input>,
    turn: &mut usize,
    habit: Habit,
    log: &Log,
) -> Input {
    if session.awaits() == Awaits::GoOn {
        return Input::GoOn;
    }
    if waiting.is_empty() {
        *waiting = habit(*turn, log);
        *turn += 1;
    }
    waiting.remove(0)
}

pub(crate) fn line_question(answered: &Answered) -> LineQuestion {
    match answered.question {
        Question::Line(question) => question,
        Question::Bare(_) => panic!("a question over a line"),
    }
}
