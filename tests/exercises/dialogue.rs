//! What follows a miss: a truth that waits, the way back to where the picture broke, a board that is found piece by
//! piece, moves heard again.

use crate::published::line;
use sansvoir::exercise::bound::{Every, Questions, Trail};
use sansvoir::exercise::{
    Answered, Ask, Asked, Awaits, By, Checkpoints, Dialogue, Earlier, Exercise, Guided, Input,
    NotHere, Output, OverGame, Replay, Script, Session, Settings, Summary,
};
use sansvoir::game::Line;
use sansvoir::question::{Kind, LineQuestion, Played, Question, Scene, Truth, Verdict};
use shakmaty::{Board, Color, Position};

/// FIDE's sample game of the Laws' appendix, up to Black's move 13.
const MOVES: &str = "d4 Nf6 c4 e6 Nc3 Bb4 Bd2 O-O e4 d5 exd5 exd5 cxd5 Bxc3 Bxc3 Nxd5 Nf3 b6 Qb3 Nxc3 bxc3 c5 \
    Be2 cxd4 Nxd4 Re8";

fn settings(ask: &[Kind], every: usize, seed: u64) -> Settings {
    Settings {
        by: By::Checkpoint,
        checkpoints: Checkpoints::Every(Every::nearest(every)),
        ask: ask.to_vec(),
        questions: Questions::nearest(2),
        trail: Trail::nearest(2),
        think_millis: None,
        looks: None,
        seed,
        follow: false,
    }
}

/// A session of which the learner is there, and the questions that stand in it.
struct Run {
    session: Session,
    line: Line,
    ask: Option<Ask>,
    outputs: Vec<Output>,
}

impl Run {
    fn new(settings: Settings) -> Run {
        let line = line(MOVES);
        let replay = Replay::new(OverGame {
            settings,
            script: Script::of_line(&line),
            tags: Vec::new(),
            result: None,
        });
        let session = Session::new(replay.unwrap()).with_waiting_truths(true);
        let mut run = Run {
            session,
            line,
            ask: None,
            outputs: Vec::new(),
        };
        let begun = run.session.begin();
        run.take(begun);
        run
    }

    fn take(&mut self, outputs: Vec<Output>) {
        for output in &outputs {
            if let Output::Ask(ask) | Output::AskAgain(ask) = output {
                self.ask = Some(ask.clone());
            }
        }
        self.outputs = outputs;
    }

    fn says(&mut self, words: &str) -> &[Output] {
        let outputs = self.session.hear(Input::read(words, 10));
        self.take(outputs);
        &self.outputs
    }

    /// Reads on to the next question; `false` at the end.
    fn reads(&mut self) -> bool {
        while self.session.awaits() == Awaits::GoOn {
            self.says("");
        }
        self.session.awaits() == Awaits::Reply
    }

    /// The right reply to the question that stands after so many plies.
    fn right(&self, plies: usize) -> String {
        let question = match self.ask.as_ref().unwrap().asked {
            Asked::Line(question, _) => question,
            Asked::Rest { standing, .. } => LineQuestion::Standing(standing),
            ref other => panic!("{other:?}"),
        };
        said(&question.truth(Scene::new(&self.line, plies)))
    }

    fn answered(&self) -> Option<&Answered> {
        self.outputs.iter().find_map(|output| match output {
            Output::Answered(answered) => Some(&**answered),
            _ => None,
        })
    }

    fn guided(&self) -> Vec<&Guided> {
        let guided = self.outputs.iter().filter_map(|output| match output {
            Output::Guided(guided) => Some(guided),
            _ => None,
        });
        guided.collect()
    }

    fn summary(&self) -> &Summary {
        match self.outputs.last() {
            Some(Output::Summary(summary)) => summary,
            other => panic!("no summary: {other:?}"),
        }
    }
}

/// Writes a truth as a learner would.
fn said(truth: &Truth) -> String {
    let list = |words: Vec<String>| match words.len() {
        0 => "none".to_owned(),
        _ => words.join(" "),
    };
    match truth {
        Truth::Square(square) => square.to_string(),
        Truth::Gone(_) => "gone".to_owned(),
        Truth::Piece(None) => "empty".to_owned(),
        Truth::Piece(Some(piece)) => piece.char().to_string(),
        Truth::Legal(_) => "legal".to_owned(),
        Truth::Illegal { .. } => "illegal".to_owned(),
        Truth::Points(points) => points.to_string(),
        Truth::Moves(moves) => list(moves.iter().map(ToString::to_string).collect()),
        Truth::Squares { squares, .. } => {
            list(squares.into_iter().map(|at| at.to_string()).collect())
        }
        Truth::Placement(board) => placed(board),
        other => panic!("{other:?}"),
    }
}

fn placed(board: &Board) -> String {
    let of = |color| {
        let pieces = board.by_color(color).into_iter();
        let pieces = pieces.map(|at| {
            let role = board.role_at(at).unwrap();
            format!("{}{at}", role.upper_char())
        });
        pieces.collect::<Vec<_>>().join(" ")
    };
    format!("{} / {}", of(Color::White), of(Color::Black))
}

/// The kinds whose truths can be told here.
const KINDS: [Kind; 12] = [
    Kind::Whereabouts,
    Kind::Occupant,
    Kind::Standing,
    Kind::Attacks,
    Kind::Attackers,
    Kind::Moves,
    Kind::Legality,
    Kind::Checks,
    Kind::Captures,
    Kind::Hanging,
    Kind::Balance,
    Kind::Exchange,
];

#[test]
fn the_truth_of_a_miss_waits_until_it_is_wanted() {
    let mut run = Run::new(settings(&[Kind::Whereabouts], 8, 1));
    assert!(run.reads());
    run.says("h5");
    assert!(
        matches!(
            run.outputs[..],
            [Output::Answered(_), Output::TruthWaits { tried: false, .. }]
        ),
        "{:?}",
        run.outputs
    );
    assert_eq!(run.session.awaits(), Awaits::Truth);
    let tried = run.says("h6");
    assert!(matches!(tried, [Output::TruthWaits { tried: true, .. }]));
    assert!(matches!(run.says("question"), [Output::AskAgain(_)]));
    let told = run.says("");
    assert!(
        matches!(told[..], [Output::Explained(_), Output::Ask(_)]),
        "{told:?}"
    );
    // Once it is told, why tells it once more, and the next question is put again.
    let again = run.says("why");
    assert!(matches!(
        again[..],
        [Output::Explained(_), Output::AskAgain(_)]
    ));
}

#[test]
fn written_replies_hear_the_truth_at_once_and_have_no_way_back() {
    let mut run = Run::new(settings(&[Kind::Whereabouts], 8, 1));
    run.session = run.session.with_waiting_truths(false);
    assert!(run.reads());
    run.says("h5");
    assert!(matches!(
        run.outputs[..],
        [Output::Answered(_), Output::Explained(_), Output::Ask(_)]
    ));
    assert!(matches!(run.says("back"), [Output::NotHere(NotHere::Back)]));
}

#[test]
fn a_right_answer_is_explained_when_it_is_asked_for_which_helps_with_a_later_question() {
    let mut run = Run::new(settings(&[Kind::Whereabouts], 8, 1));
    assert!(matches!(run.says("why"), [Output::NotHere(NotHere::Why)]));
    assert!(run.reads());
    for _ in 0..2 {
        let right = run.right(8);
        run.says(&right);
        assert!(run.answered().is_some());
        assert!(matches!(run.says("why?"), [Output::Explained(_), ..]));
    }
    assert!(run.reads());
    assert!(matches!(
        run.says("why"),
        [Output::Helped, Output::Explained(_), Output::AskAgain(_)]
    ));
    assert!(matches!(run.says("why"), [Output::Explained(_), ..]));
    let right = run.right(16);
    run.says(&right);
    assert!(run.answered().unwrap().helped);
}

/// Goes back from the miss that waits and replies `right` until so many replies were given, then nonsense;
/// returns how it ended, and after how many plies it was asked.
fn goes_back(run: &mut Run, right: usize, end: usize) -> (Option<Guided>, Vec<usize>) {
    let begun = run.says("back").to_vec();
    let Some(Output::Guided(Guided::Back { plies, .. })) = begun.first() else {
        panic!("{begun:?}");
    };
    let mut at = end - plies;
    let mut asked = Vec::new();
    loop {
        match run.session.awaits() {
            Awaits::GoOn => {
                let heard = run.says("");
                assert!(
                    matches!(heard.first(), Some(Output::Heard(heard)) if heard.plies.len() == 1)
                );
                at += 1;
            }
            Awaits::Reply => {
                let reply = if asked.len() < right {
                    run.right(at)
                } else {
                    "pass".to_owned()
                };
                asked.push(at);
                run.says(&reply);
                let answered = run.answered().unwrap();
                assert!(answered.helped && answered.dialogue == Some(Dialogue::Back));
                if let Some(told) = run.guided().first() {
                    return (Some((*told).clone()), asked);
                }
            }
            Awaits::Truth | Awaits::Opponent | Awaits::Nothing => return (None, asked),
        }
    }
}

#[test]
fn the_way_back_ends_where_the_first_reply_is_wrong_or_holds_up_to_the_question() {
    let mut ways = 0;
    for (kind, seed) in KINDS
        .iter()
        .flat_map(|kind| (0..4).map(move |seed| (*kind, seed)))
    {
        for right in [0, 1, usize::MAX] {
            let mut run = Run::new(settings(&[kind], 6, seed));
            while run.reads() {
                let end = run.session.heard();
                run.says("pass");
                if run.session.awaits() != Awaits::Truth {
                    continue;
                }
                let (told, asked) = goes_back(&mut run, right, end);
                ways += 1;
                assert!(asked.is_sorted() && asked.last() <= Some(&end), "{asked:?}");
                match told {
                    Some(Guided::Lost { ply, .. }) => {
                        assert!(right < asked.len() + usize::from(right == 0));
                        let last = *asked.last().unwrap();
                        assert_eq!(ply, run.line.plies()[last - 1]);
                    }
                    Some(Guided::Held) => assert!(asked.len() <= right),
                    Some(Guided::HeardAgain) => assert_eq!((right, asked.len()), (0, 1)),
                    other => panic!("{other:?}"),
                }
                // The truth of what was missed comes behind it, and the session goes on where it was.
                let explained = |output: &&Output| matches!(output, Output::Explained(of) if of.dialogue.is_none());
                assert_eq!(run.outputs.iter().filter(explained).count(), 1);
                assert_eq!(run.session.heard(), end);
            }
        }
    }
    assert!(ways > 300, "{ways}");
}

#[test]
fn the_way_back_begins_at_the_last_checkpoint_at_which_all_was_right() {
    let begins = |right: [bool; 2], look: bool| {
        let mut run = Run::new(settings(&[Kind::Standing], 8, 3));
        for right in right {
            assert!(run.reads());
            let reply = if right { run.right(8) } else { "h5".to_owned() };
            run.says(&reply);
            if !right {
                run.says("");
            }
        }
        if look {
            run.says("look");
        }
        assert!(run.reads());
        run.says("pass");
        match run.says("back") {
            [Output::Guided(Guided::Back { plies, .. }), ..] => *plies,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(begins([true, true], false), 8);
    assert_eq!(begins([true, false], false), 16);
    assert_eq!(begins([false, true], false), 16);
    assert_eq!(begins([false, false], true), 8, "what was seen held");
}

/// Goes through a game and gives each second question up, with the way back from it or without.
fn counted(back: bool) -> Summary {
    let mut run = Run::new(settings(&KINDS, 6, 5));
    let mut turn = 0;
    while run.reads() {
        turn += 1;
        let end = run.session.heard();
        let reply = match turn % 2 {
            0 => run.right(end),
            _ => "pass".to_owned(),
        };
        run.says(&reply);
        if run.session.awaits() == Awaits::Truth {
            if back {
                goes_back(&mut run, 1, end);
            } else {
                run.says("");
            }
        }
    }
    run.summary().clone()
}

#[test]
fn nothing_that_was_said_on_the_way_back_counts() {
    assert_eq!(counted(true), counted(false));
}

#[test]
fn a_board_is_found_role_by_role_until_it_is_whole() {
    let mut run = Run::new(settings(&[Kind::Rebuild], 26, 1));
    assert!(run.reads());
    let board = run.line.position(26).board().clone();
    let mut wrong = board.clone();
    let knight = wrong.remove_piece_at("d4".parse().unwrap()).unwrap();
    wrong.set_piece_at("d5".parse().unwrap(), knight);
    wrong.discard_piece_at("a7".parse().unwrap());
    run.says(&placed(&wrong));
    assert_eq!(run.answered().unwrap().mark.verdict, Verdict::Part);
    let dialogue = Some(Dialogue::Rebuild);
    assert!(matches!(
        run.outputs.last(),
        Some(Output::TruthWaits { dialogue: of, .. }) if *of == dialogue
    ));
    run.says("back");
    let all = board.occupied().count();
    match run.guided()[..] {
        [Guided::Pieces { right, off }] => {
            assert_eq!(*right, all - 2);
            assert_eq!(off[..], [("d5".parse().unwrap(), knight)]);
        }
        ref other => panic!("{other:?}"),
    }
    let rest = |run: &Run| match run.ask.as_ref().unwrap().asked {
        Asked::Rest {
            standing, missing, ..
        } => (standing.role.char(), standing.color, missing),
        ref other => panic!("{other:?}"),
    };
    assert_eq!(rest(&run), ('n', Color::White, 1));
    run.says("e2");
    assert_eq!(run.answered().unwrap().mark.verdict, Verdict::Wrong);
    assert_eq!(rest(&run), ('n', Color::White, 1));
    run.says("d4");
    assert_eq!(rest(&run), ('p', Color::Black, 1));
    // The pawns that were found may be named or left out.
    run.says("a7 b6");
    assert!(matches!(run.guided()[..], [Guided::Whole]));
    assert_eq!(run.summary().kinds.len(), 1, "the first line alone counts");
    assert_eq!(run.summary().kinds.values().next().unwrap().part, 1);
}

#[test]
fn a_typo_in_a_whole_board_costs_a_word() {
    let mut run = Run::new(settings(&[Kind::Rebuild], 26, 1));
    assert!(run.reads());
    let whole = run.right(26);
    let unread = run.says(&whole.replacen("Nd4", "Nd44", 1)).to_vec();
    assert!(
        matches!(unread[..], [Output::Unread { kept: true, .. }]),
        "{unread:?}"
    );
    run.says("Nd4");
    let answered = run.answered().unwrap();
    assert_eq!(answered.mark.verdict, Verdict::Right);
    assert_eq!(
        (answered.text.as_str(), answered.millis),
        (&*whole, Some(20))
    );
}

#[test]
fn moves_heard_again_help_and_none_are_heard_while_a_move_is_asked_for() {
    let mut run = Run::new(settings(&[Kind::Standing], 26, 1));
    assert!(run.reads());
    assert!(matches!(run.says("again 2"), [Output::Again(plies)] if plies.len() == 2));
    assert!(
        matches!(run.says("again 6"), [Output::Helped, Output::Again(plies)] if plies.len() == 6)
    );
    assert!(matches!(run.says("again all"), [Output::Again(plies)] if plies.len() == 26));
    let right = run.right(26);
    run.says(&right);
    assert!(run.answered().unwrap().helped);
    let right = run.right(26);
    run.says(&right);
    assert!(!run.answered().unwrap().helped);
    assert_eq!(run.summary().kinds.values().next().unwrap().right, 1);

    let mut run = Run::new(settings(&[Kind::Played], 26, 1));
    assert!(run.reads());
    for words in ["again 6", "again all"] {
        let refused = run.says(words);
        assert!(matches!(refused, [Output::NotHere(NotHere::AgainPlies)]));
    }
}

#[test]
fn the_last_plies_are_not_heard_again_while_the_move_that_is_asked_for_is_among_them() {
    let (mut refused, mut heard) = (0, 0);
    for seed in 0..40 {
        let mut run = Run::new(Settings {
            trail: Trail::nearest(4),
            ..settings(&[Kind::Played], 13, seed)
        });
        while run.reads() {
            let here = run.session.heard();
            let last = [here - 4, here - 3, here - 2, here - 1]
                .map(|at| Played::at(run.line.plies()[at].number));
            let asked = run.ask.as_ref().unwrap().asked.question();
            let is_among = last
                .map(LineQuestion::Played)
                .map(Question::Line)
                .contains(&asked);
            let said = run.says("again");
            assert_eq!(
                is_among,
                matches!(said, [Output::NotHere(NotHere::AgainPlies)])
            );
            assert_eq!(
                !is_among,
                matches!(said, [Output::Again(plies)] if plies.len() == 4)
            );
            refused += u32::from(is_among);
            heard += u32::from(!is_among);
            run.says("pass");
            run.says("");
        }
    }
    assert!(refused > 0 && heard > 0, "{refused} {heard}");
}

#[test]
fn what_helped_at_a_question_is_known_after_a_stop() {
    let mut run = Run::new(settings(&[Kind::Standing], 26, 1));
    assert!(run.reads());
    run.says("again all");
    run.says("stop");
    assert!(run.session.helped());
    let mut later = Run::new(settings(&[Kind::Standing], 26, 1));
    let outputs = later.session.resume(Earlier {
        heard: 26,
        helped: true,
        ..Earlier::default()
    });
    assert!(matches!(outputs.last(), Some(Output::Helped)));
    later.take(outputs);
    let right = later.right(26);
    later.says(&right);
    assert!(later.answered().unwrap().helped);
    later.says("stop");
    assert!(!later.session.helped());
}
