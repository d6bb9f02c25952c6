//! What is said around games against an opponent.

use super::scores::usual;
use super::sessions::tell;
use super::*;
use crate::exercise::bound::{Every, Rating};
use crate::exercise::{
    Awaited, Awaits, BoardShown, Cost, Costly, Countermove, Exercise, GameSettings, Input, Opening,
    Play, PlayOpening, PlaySettings, PlayTold, Script, Session, Told,
};
use crate::game::{GameEnd, Start, array};

fn settings(games: &[(Line, Color)]) -> PlaySettings {
    let games = games.iter().map(|(line, learner)| GameSettings {
        script: Script::of_line(line),
        learner: *learner,
    });
    PlaySettings {
        games: games.collect(),
        rating: Some(Rating::nearest(720)),
        engine: None,
        follows: false,
        board: BoardShown::Never,
        ask: Vec::new(),
        every: Every::nearest(5),
        seed: 1,
    }
}

/// Says the words of a learner, or of an opponent where it is its turn, and returns what is said.
fn said(session: &mut Session, words: &str) -> Vec<Output> {
    let mut said = session.hear(if session.awaits() == Awaits::Opponent {
        Input::Opponent(words.parse::<Countermove>().unwrap())
    } else {
        Input::read(words, 4_210)
    });
    let nobody = |awaited: &Awaited| awaited.review(|_, _| Err(())).map(|_| awaited.decided());
    if let Some(reviewed) = session.awaited().and_then(nobody) {
        said.extend(session.hear(Input::Opponent(reviewed)));
    }
    said
}

/// A game from its beginning, each output under what was said before it.
fn game(settings: PlaySettings, words: &[&'static str]) -> Vec<(&'static str, Output)> {
    let mut session = Session::new(Play::new(settings).unwrap());
    let begun = session.begin().into_iter();
    let mut all: Vec<_> = begun.map(|output| ("A game begins", output)).collect();
    for word in words {
        let outputs = said(&mut session, word).into_iter();
        all.extend(outputs.map(|output| (*word, output)));
    }
    all
}

fn told(told: PlayTold) -> Output {
    Output::Told(Told::Play(told))
}

/// What games put out, each with a heading; nothing that goes unsaid.
pub(super) fn played() -> Vec<(&'static str, Output)> {
    let array_of_all = Line::new(Start::standard());
    let words = [
        "f3",
        "e7e5",
        "Bd3",
        "hello",
        "question",
        "draw",
        "take back",
        "take back",
        "pass",
        "f3",
        "e7e5",
        "Kf2",
        "b8c6",
        "Ke1",
        "d8h4",
        "look",
        "Kf3",
        "g3",
        "h4h5",
        "resign",
    ];
    let mut all = game(settings(&[(array_of_all.clone(), Color::White)]), &words);
    let several = [
        (array_of_all.clone(), Color::White),
        (Line::new(array(7)), Color::Black),
    ];
    all.extend(game(settings(&several), &["e4", "d2d4", "d4"]));
    let from = usual("1. e4 e5 2. Nf3 Nc6");
    all.extend(game(settings(&[(from.clone(), Color::White)]), &["", ""]));
    all.retain(|(_, output)| !goes_unsaid(output));
    all.extend(told_now_and_then(&from));
    all
}

/// Tells whether nothing is said, or what the search has to say: which moves cost most.
fn goes_unsaid(output: &Output) -> bool {
    match output {
        Output::Said(_)
        | Output::Told(Told::Play(
            PlayTold::Review(_) | PlayTold::Costly { .. } | PlayTold::Cost(_),
        )) => true,
        Output::Ask(ask) => !matches!(ask.asked, Asked::Turn(_)),
        Output::Answered(answered) => answered.is_turn() && answered.mark.verdict == Verdict::Right,
        _ => false,
    }
}

/// What games put out that is rare, over a line.
fn told_now_and_then(from: &Line) -> Vec<(&'static str, Output)> {
    let mut all = Vec::new();
    let array_of_all = Line::new(Start::standard());
    let opening = |change: &dyn Fn(&mut PlaySettings)| {
        let mut settings = settings(&[(array_of_all.clone(), Color::White)]);
        change(&mut settings);
        let opening = PlayOpening {
            games: vec![(Start::standard(), 0, Color::White)],
            settings,
            resumed: true,
        };
        (
            "A game goes on",
            Output::Opening(Box::new(Opening::Play(opening))),
        )
    };
    all.extend([
        opening(&|settings| settings.follows = true),
        opening(&|settings| settings.engine = Some("stockfish".to_owned())),
        opening(&|settings| {
            (settings.engine, settings.rating) = (Some("stockfish".to_owned()), None);
        }),
        opening(&|settings| settings.board = BoardShown::Always),
        opening(&|settings| settings.board = BoardShown::After(Every::nearest(5))),
    ]);
    let ends = [
        GameEnd::Checkmate,
        GameEnd::Stalemate,
        GameEnd::DeadPosition,
        GameEnd::Fivefold,
        GameEnd::SeventyFiveMoves,
        GameEnd::Threefold,
        GameEnd::FiftyMoves,
        GameEnd::Agreed,
        GameEnd::Resigned(Color::White),
        GameEnd::Resigned(Color::Black),
    ];
    all.extend(ends.map(|end| {
        let (board, turn, learner) = ((1, 1), Color::Black, Color::White);
        let ended = PlayTold::Ended {
            board,
            end,
            turn,
            learner,
        };
        ("The end of a game", told(ended))
    }));
    all.push(("A draw is offered", told(PlayTold::Declined)));
    all.push(("A claim with a move", told(PlayTold::NoClaim)));
    let mut line = from.clone();
    let san: shakmaty::san::San = "Nxe5".parse().unwrap();
    line.push(san.to_move(line.end()).unwrap()).unwrap();
    let costly = |cost| {
        let found = Cost {
            board: 0,
            plies: 5,
            cost,
            better: "f1b5".parse().unwrap(),
            answer: "c6e5".parse().unwrap(),
        };
        Costly::new(&line, &found).unwrap()
    };
    all.extend([Some(true), Some(false), None].map(|before| {
        let (board, costly) = ((1, 1), costly(150));
        let costly = PlayTold::Costly {
            board,
            costly,
            before,
        };
        ("A move that cost much", told(costly))
    }));
    all.extend([150, 420, 1_900].map(|cost| {
        let cost = PlayTold::Cost(costly(cost));
        ("What a move cost", told(cost))
    }));
    all
}

#[test]
fn games_say_this() {
    tell(&played(), PLAIN).hold("games");
}

#[test]
fn what_a_learner_seems_to_have_in_mind_is_named() {
    let mut page = Page::default();
    for (moves, said) in [
        ("1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. Bb3 d6", "Bb5"),
        ("1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. Bb3 d6", "f1b5"),
        ("1. e4 d5 2. exd5 Qxd5 3. Nc3 Qe5", "Nf3"),
        ("1. e4 d5 2. exd5 Qxd5 3. Nc3 Qe5", "Bc4"),
        ("1. e4 e5 2. Nf3 d6 3. d4 Bg4 4. dxe5 Bxf3", "Ng5"),
        ("1. d4 Nf6 2. Nc3 e6 3. e4 Bb4", "Nd5"),
        ("1. e4 e5 2. Bc4 Nf6 3. d3 d5 4. Bb5", "d4"),
        ("1. e4 c6 2. d4 d5 3. e5 f5 4. a3 a6", "exf6"),
        ("1. e4 e5 2. Ke2 Nf6 3. Ke1 Nc6 4. Nf3 d6", "O-O"),
        ("1. Nf3 d5 2. Ng1 d4", "Nge2"),
        // It was the pawn that went so.
        ("1. e4 a6 2. Ke2 a5", "e2e4"),
    ] {
        let line = usual(moves);
        let answered = answered(&line, of_line("turn", ""), said);
        page.lead(&format!("{moves}: {said}"));
        page.say(PLAIN.say(&Output::Answered(Box::new(answered))));
    }
    page.hold("in_mind");
}
