//! What is said around the questions: beginnings, moves, looks, help, ends.

use std::collections::BTreeMap;

use shakmaty::{CastlingMode, Square};

use super::scores::{MORPHY, chess960, from_fen};
use super::*;
use crate::exercise::bound::Within;
use crate::exercise::{
    Advice, AheadSettings, AheadSummary, Begun, Coordinates, Cut, Dialogue, DrillSettings,
    DrillSummary, Earlier, Ending, Example, Exercise, FewSettings, GameOpening, GivenPosition,
    Guided, Heard, Input, MatesSettings, MatesSummary, Mistaken, MovesPlayed, NotHere,
    OpenQuestion, Opening, OverGame, Problem, PromptWord, Recite, ReciteOpening, ReciteSettings,
    ReciteSummary, ReciteTold, ReplaySummary, RoundsSummary, Said, Script, Session, Show, Sides,
    Staircase, Told, Turn, deal,
};
use crate::game::{GameResult, Start, Tags};
use crate::learner::course::CourseStep;
use crate::learner::lesson::drawing;
use crate::question::{Form, Standing};
use crate::reply::Unread;
use crate::rules::MoveFault;

/// What sessions of all exercises put out around their questions, each with a heading.
pub(super) fn all() -> Vec<(&'static str, Output)> {
    [
        replay(),
        beside(),
        recital(),
        drills(),
        teaching(),
        few_pieces(),
        calculation(),
        mates(),
        prompts(),
        guided(),
        super::playing::played(),
        ends(),
    ]
    .concat()
}

fn begin(opening: Opening) -> Output {
    Output::Opening(Box::new(opening))
}

fn give(given: GivenPosition) -> Output {
    Output::Given(Box::new(given))
}

/// The end of a session in which the exercise counted this.
fn summed_up(own: OwnSummary) -> Output {
    let replay = summary();
    Output::Summary(Box::new(Summary { own, ..replay }))
}

fn game(tags: &[(&str, &str)], start: Start, first: &str, plies: usize) -> GameOpening {
    GameOpening {
        tags: tags.iter().copied().collect::<Tags>(),
        start,
        first: Some(first.parse().unwrap()),
        plies,
        checkpoints: Some(1),
        resumed: false,
    }
}

/// What stands beside the moves.
fn beside() -> Vec<(&'static str, Output)> {
    let comment = |text: &str| Output::Told(Told::Replay(Turn::Comment(text.to_owned())));
    let asks = |say: Option<&str>, answer: &str| OpenQuestion {
        say: say.map(str::to_owned),
        answer: answer.to_owned(),
    };
    let coachs = asks(Some("What is\n White's \u{1b}plan?"), "the minority attack");
    let files = asks(None, "Kd3");
    let told = |question: &OpenQuestion| {
        Output::Said(Said::Open {
            question: question.clone(),
            reply: "a plan".to_owned(),
        })
    };
    vec![
        ("A comment", comment("White is better")),
        ("A comment that is dirty", comment(" Why\u{1b}[2J?\n ")),
        ("A question of a coach's", Output::AskOpen(coachs.clone())),
        ("Its answer", told(&coachs)),
        ("A question of a file's", Output::AskOpen(files.clone())),
        ("Its answer", told(&files)),
    ]
}

fn replay() -> Vec<(&'static str, Output)> {
    let tags = [
        ("Event", "Harbor club\u{1b}[2J  evening"),
        ("Site", "?"),
        ("Date", "2024.03.??"),
        ("White", "Berg,\u{1b} \t Anna"),
        ("Black", "Dahl, J."),
    ];
    let unknown = [
        ("White", "?"),
        ("Black", "\u{200b}"),
        ("Date", "????.??.??"),
    ];
    let known = game(&tags, Start::standard(), "1.", 33);
    let other = Start::from_fen("8/8/1KP5/3r4/8/8/8/k7 w - - 0 12", CastlingMode::Standard);
    let resumed = GameOpening {
        resumed: true,
        checkpoints: Some(3),
        ..game(&[], other.unwrap(), "12.", 21)
    };
    let shuffled = chess960("1rk5/3p4/8/8/8/8/8/3RK3 b Qq - 0 1", "");
    let shuffled = game(&[], shuffled.start().clone(), "1...", 1);
    let line = usual(FIDE_SAMPLE);
    let plies = line.plies().to_vec();
    // FIDE 5.2.1.
    let stalemate = from_fen("k7/8/1K6/8/8/8/8/2Q5 w - - 0 60", "60. Qc7");
    let look = |looks_left| Output::Board {
        board: line.end().board().clone(),
        turn: Color::Black,
        looks_left,
        stays: false,
    };
    let heard = |plies: &[_], stalemate| {
        Output::Heard(Heard {
            plies: plies.to_vec(),
            stalemate,
        })
    };
    vec![
        ("A game begins", begin(Opening::Replay(known))),
        (
            "A game of nobody known",
            begin(Opening::Replay(game(&unknown, Start::standard(), "1.", 2))),
        ),
        ("A game goes on", begin(Opening::Replay(resumed))),
        ("A game of Chess960", begin(Opening::Replay(shuffled))),
        ("Moves", heard(&plies, false)),
        ("Stalemate", heard(stalemate.plies(), true)),
        (
            "A sideline",
            Output::Told(Told::Replay(Turn::SidelineBegins {
                instead_of: plies[14],
                plies: 4,
            })),
        ),
        (
            "A short sideline",
            Output::Told(Told::Replay(Turn::SidelineBegins {
                instead_of: plies[9],
                plies: 1,
            })),
        ),
        (
            "Its end",
            Output::Told(Told::Replay(Turn::SidelineEnds(plies[13]))),
        ),
        ("again", Output::Again(plies[..3].to_vec())),
        ("again, at the start", Output::Again(Vec::new())),
        ("look", look(None)),
        ("look, two left", look(Some(2))),
        ("look, one left", look(Some(1))),
        ("look, the last", look(Some(0))),
        ("look, none left", Output::NoLook),
        ("look, no position", Output::NoPosition),
        ("It closes", Output::Summary(Box::new(summary()))),
        (
            "It closes without a miss",
            Output::Summary(Box::new(Summary {
                own: OwnSummary::Replay(ReplaySummary {
                    first_miss: None,
                    longest_run: 16,
                }),
                looks: 0,
                late: 0,
                ..summary()
            })),
        ),
    ]
}

/// A recital with tries of every sort, stopped and taken up again.
fn recital() -> Vec<(&'static str, Output)> {
    let passage = crate::pgn::Collection::new(FIDE_SAMPLE.as_bytes()).next();
    let reading = crate::pgn::read(&passage.expect("a game").expect("readable"));
    let script = Script::new(&reading.game, Cut::default()).expect("a script");
    let settings = ReciteSettings {
        sides: Sides::White,
        every: Some(crate::exercise::bound::Every::nearest(6)),
        hint: true,
        think_millis: Some(Within::nearest(1000)),
        chunk: None,
    };
    let session = || {
        let tags = reading.game.tags.iter();
        let plan = OverGame {
            settings: settings.clone(),
            script: script.clone(),
            tags: tags
                .map(|(name, value)| (name.to_owned(), value.to_owned()))
                .collect(),
            result: None,
        };
        Session::new(Recite::new(plan).expect("a recital"))
    };
    let mut recite = session();
    let headed = |heading, said: Vec<Output>| said.into_iter().map(move |output| (heading, output));
    let mut all: Vec<_> = headed("A recital begins", recite.begin()).collect();
    let words = [
        "Nf3\u{7}", "e4", "help", "hint", "Nf3", "O-O", "look", "d4", "pass", "Ke2", "Rd5", "pass",
        "what", "Ne5", "Nd4", "Qh5", "pass",
    ];
    for word in words {
        all.extend(headed(word, recite.hear(Input::read(word, 2000))));
    }
    all.extend(headed("A recital stops", recite.hear(Input::Stop)));
    let earlier = Earlier {
        looks: 1,
        ..Earlier::default()
    };
    all.extend(headed("A recital goes on", session().resume(earlier)));
    for sides in [Sides::Black, Sides::Both] {
        let mut of = game(&[], Start::standard(), "1.", 21);
        of.checkpoints = Some(0);
        let opening = Opening::Recite(ReciteOpening {
            game: of,
            sides,
            chunk: None,
        });
        all.push(("A recital of other moves", begin(opening)));
    }
    let mut of = game(&[], Start::standard(), "1.", 21);
    of.checkpoints = Some(0);
    let (sides, chunk) = (Sides::Both, Some(8));
    let opening = ReciteOpening {
        game: of,
        sides,
        chunk,
    };
    let opening = begin(Opening::Recite(opening));
    all.push(("A game is learned in chunks", opening));
    let last = "4...".parse().unwrap();
    for told in [
        ReciteTold::Listen {
            plies: 8,
            again: false,
        },
        ReciteTold::Listen {
            plies: 1,
            again: true,
        },
        ReciteTold::Together {
            last,
            counts: false,
        },
        ReciteTold::Together { last, counts: true },
    ] {
        all.push(("Chunks", Output::Told(Told::Recite(told))));
    }
    for learned in [(0, None), (8, Some(last))] {
        let own = ReciteSummary {
            asked: 0,
            first_try: 0,
            helped: 0,
            passed: 0,
            first_slip: None,
            mixed: Vec::new(),
            again: None,
            learned: Some(learned),
        };
        let closed = Summary {
            kinds: BTreeMap::new(),
            late: 0,
            looks: 0,
            board: None,
            own: OwnSummary::Recite(own),
            ..summary()
        };
        all.push(("Chunks close", Output::Summary(Box::new(closed))));
    }
    all
}

fn drills() -> Vec<(&'static str, Output)> {
    let opening = |resumed: bool| {
        let settings = DrillSettings {
            kinds: vec![Kind::Name, Kind::Color],
            count: Within::nearest(20),
            ..drawing(CourseStep::WhiteSquares, 4)
        };
        let done = resumed.then_some(4);
        begin(Opening::Drill(Begun { settings, done }))
    };
    let mut squares = [(0, 0); 64];
    for (square, hits, misses) in [
        (Square::A1, 3, 0),
        (Square::C6, 1, 2),
        (Square::G3, 0, 1),
        (Square::H8, 2, 0),
        (Square::B2, 0, 1),
    ] {
        squares[square.to_usize()] = (hits, misses);
    }
    let mistaken = |named, view, times| {
        let asked = Square::C6;
        (Mistaken { view, asked, named }, times)
    };
    let summary = |advice| DrillSummary {
        answers: 22,
        taught: (0, 0),
        first_tries: 20,
        first_try_right: 13,
        median_right_millis: Some(2_140),
        squares,
        slowest: vec![(Square::C6, 6_200), (Square::G3, 5_000)],
        confusions: vec![
            mistaken(Square::F3, Color::Black, 2),
            mistaken(Square::D6, Color::White, 10),
            mistaken(Square::C5, Color::White, 3),
            mistaken(Square::B6, Color::White, 1),
        ],
        advice,
    };
    let whole = |advice| summary(Some(advice));
    let end = |drill| summed_up(OwnSummary::Drill(drill));
    let (kind, next) = (Kind::Color, Kind::Aligned);
    let nothing = DrillSummary {
        answers: 0,
        taught: (0, 0),
        first_tries: 0,
        first_try_right: 0,
        median_right_millis: None,
        squares: [(0, 0); 64],
        slowest: Vec::new(),
        confusions: Vec::new(),
        advice: Some(Advice::AllDone),
    };
    let answered = DrillSummary {
        answers: 3,
        first_tries: 3,
        ..nothing.clone()
    };
    let mut every = nothing.clone();
    every.squares = [(1, 0); 64];
    let every = DrillSummary {
        answers: 64,
        first_tries: 64,
        first_try_right: 64,
        ..every
    };
    let mut none = every.clone();
    none.squares = [(1, 12); 64];
    let mut many = none.clone();
    many.squares = [(0, 0); 64];
    many.squares[0].1 = u16::MAX;
    many.squares[1].0 = 1;
    vec![
        ("A drill begins", opening(false)),
        ("A drill goes on", opening(true)),
        ("A drill closes", end(whole(Advice::Slower(kind)))),
        ("To be kept up", end(whole(Advice::Same(kind)))),
        ("Right but slow", end(whole(Advice::Faster(kind)))),
        (
            "Time for the next",
            end(whole(Advice::NextKind { kind, next })),
        ),
        ("All done", end(whole(Advice::AllDone))),
        ("Too little", end(summary(None))),
        ("Nothing answered", end(nothing)),
        ("No square asked", end(answered)),
        ("Every square right", end(every)),
        ("Every square missed", end(none)),
        ("Many misses widen every column alike", end(many)),
    ]
}

/// What only a drill that teaches puts out, and what finds a learner's level.
fn teaching() -> Vec<(&'static str, Output)> {
    let settings = DrillSettings {
        kinds: vec![Kind::Name],
        count: Within::nearest(12),
        teach: true,
        ..drawing(CourseStep::WhiteSquares, 4)
    };
    let opening = Begun {
        settings,
        done: None,
    };
    let taught = DrillSummary {
        answers: 12,
        taught: (9, 12),
        first_tries: 0,
        first_try_right: 0,
        median_right_millis: None,
        squares: [(0, 0); 64],
        slowest: Vec::new(),
        confusions: Vec::new(),
        advice: Some(Advice::AllDone),
    };
    let level = |resumed| begin(Opening::Placement(resumed));
    let mut said = vec![
        (
            "What was not learned is taught",
            begin(Opening::Drill(opening)),
        ),
        ("How it went", summed_up(OwnSummary::Drill(taught))),
        ("A level is looked for", level(false)),
        ("The search for a level goes on", level(true)),
    ];
    for question in one_of_each_bare_kind() {
        said.push((
            "A rule and an example",
            Output::Told(Told::Drill(Example(question))),
        ));
        said.extend(clues(answered_bare(question, "pass")));
    }
    let question = one_of_each_bare_kind()[0];
    for shown in [Coordinates::Named, Coordinates::Edges, Coordinates::Blank] {
        let ask = Ask {
            taught: Some(shown),
            ..put_bare(question)
        };
        said.push(("A board that is taught", Output::Ask(ask)));
    }
    said
}

/// What is said after one miss, two and three.
pub(super) fn clues(answered: Answered) -> [(&'static str, Output); 3] {
    let Why::Bare(why) = answered.why else {
        unreachable!()
    };
    [1, 2, 3].map(|number| {
        let why = Box::new(why.clone());
        ("A clue", Output::Clue { why, number })
    })
}

/// A question of each kind over the bare board, drawn.
fn one_of_each_bare_kind() -> Vec<BareQuestion> {
    let settings = |kind| DrillSettings {
        kinds: vec![kind],
        ..drawing(CourseStep::WhiteSquares, 4)
    };
    Kind::BARE
        .into_iter()
        .flat_map(|kind| deal(&settings(kind), 1))
        .collect()
}

/// What only a drill of few pieces puts out.
fn few_pieces() -> Vec<(&'static str, Output)> {
    let openings = [(0, None), (1, None), (4, None), (4, Some(3))].map(|(plies, done)| {
        let settings = FewSettings {
            pieces: Within::nearest(5),
            plies: Within::nearest(plies),
            count: Within::nearest(10),
            per_round: Within::nearest(2),
            ask: Vec::new(),
            think_millis: None,
            looks: None,
            seed: 1,
            from: None,
            follow: false,
        };
        let few = Begun { settings, done };
        ("A few pieces", begin(Opening::Few(few)))
    });
    let round = |fen, mode, plies| {
        let start = Start::from_fen(fen, mode).unwrap();
        let pieces = GivenPosition {
            round: 2,
            of: None,
            game: None,
            show: Show::List,
            start,
            heard_before: 0,
            plies,
        };
        ("A round", give(pieces))
    };
    let (standard, chess960) = (CastlingMode::Standard, CastlingMode::Chess960);
    let rounds = [
        round("8/8/1KP5/3r4/8/8/8/k7 b - - 0 1", standard, 4),
        round("8/8/1KP5/3r4/8/8/8/k7 b - - 0 1", standard, 0),
        round("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 40", standard, 1),
        round("1rk5/8/8/8/8/8/8/4K3 w b - 0 40", chess960, 1),
    ];
    let last = summed_up(OwnSummary::Few(RoundsSummary { asked: 3, held: 1 }));
    let last = [("A few pieces close", last)];
    openings.into_iter().chain(rounds).chain(last).collect()
}

/// What only calculation puts out.
fn calculation() -> Vec<(&'static str, Output)> {
    let mut all = Vec::new();
    for show in [Show::Diagram, Show::List, Show::None] {
        for (plies, done) in [(None, None), (Some(1), None), (Some(6), Some(2))] {
            let settings = AheadSettings {
                games: Vec::new(),
                show,
                plies: plies.map(Within::nearest),
                staircase: Staircase::default(),
                rounds: Within::nearest(5),
                per_round: Within::nearest(2),
                ask: Vec::new(),
                think_millis: None,
                looks: None,
                seed: 1,
                follow: false,
            };
            let ahead = Begun { settings, done };
            all.push(("Calculation", begin(Opening::Ahead(ahead))));
        }
        let odd = from_fen("4k3/8/8/8/8/8/8/4K2R w K - 0 1", "");
        for start in [Start::standard(), odd.start().clone()] {
            for (heard_before, plies) in [(0, 0), (0, 1), (8, 6)] {
                let shown = GivenPosition {
                    round: 2,
                    of: Some(5),
                    game: Some(0),
                    show,
                    start: start.clone(),
                    heard_before,
                    plies,
                };
                all.push(("A round of calculation", give(shown)));
            }
        }
    }
    for next in [None, Some(1)] {
        let rounds = RoundsSummary { asked: 3, held: 1 };
        all.push((
            "Calculation closes",
            summed_up(OwnSummary::Ahead(AheadSummary { rounds, next })),
        ));
    }
    all
}

/// What only mates put out.
fn mates() -> Vec<(&'static str, Output)> {
    let line = from_fen(MORPHY, "1. Ra6 bxa6 2. b7#");
    let plies = line.plies();
    let mut all = Vec::new();
    for show in [Show::Diagram, Show::List, Show::None] {
        for done in [None, Some(1)] {
            let problem = Problem {
                script: Script::of_line(&line),
                game: 0,
                within: Within::nearest(2),
            };
            let settings = MatesSettings {
                problems: vec![problem; 3],
                show,
                within: Within::nearest(2),
                think_millis: None,
                looks: None,
                seed: 1,
            };
            let mates = Begun { settings, done };
            all.push(("Mates", begin(Opening::Mates(mates))));
        }
    }
    all.push((
        "A defence",
        Output::Told(Told::Mates(MovesPlayed(plies[..2].to_vec()))),
    ));
    all.push((
        "The mate",
        Output::Told(Told::Mates(MovesPlayed(plies[2..].to_vec()))),
    ));
    let own = OwnSummary::Mates(MatesSummary { tried: 3, mated: 1 });
    all.push(("Mates close", summed_up(own)));
    all
}

/// What is said on the way to what was missed.
fn guided() -> Vec<(&'static str, Output)> {
    let line = usual(FIDE_SAMPLE);
    let plies = line.plies();
    let waits = |dialogue, tried| Output::TruthWaits { dialogue, tried };
    let (back, rebuild) = (Some(Dialogue::Back), Some(Dialogue::Rebuild));
    let begins = |after, plies| Output::Guided(Guided::Back { after, plies });
    let pieces = |right, off: &[(Square, char)]| {
        let piece = |letter| shakmaty::Piece::from_char(letter).unwrap();
        let off = off.iter().map(|(at, letter)| (*at, piece(*letter)));
        let off = off.collect();
        Output::Guided(Guided::Pieces { right, off })
    };
    let lost = |piece| {
        let ply = plies[15];
        Output::Guided(Guided::Lost { ply, piece })
    };
    let knight = shakmaty::Role::Knight.of(Color::Black);
    let rest = |color, role, found: &[Square], missing| {
        Output::Ask(Ask {
            asked: Asked::Rest {
                standing: Standing { color, role },
                found: found.iter().copied().collect(),
                missing,
            },
            number: 1,
            of: 1,
            form: Form::Squares,
            taught: None,
        })
    };
    let rooks = of_line("standing", r#""color":"white","role":"rook""#);
    let mut found = answered(&line, rooks, "a1 c4");
    found.dialogue = Some(Dialogue::Rebuild);
    let help = |words: &[PromptWord]| {
        let (form, words) = (None, words.to_vec());
        Output::Help(Help { form, words })
    };
    vec![
        ("A miss", waits(None, false)),
        ("A miss over moves", waits(back, false)),
        ("A miss of a whole board", waits(rebuild, false)),
        ("Another try", waits(back, true)),
        ("Going back to a move", begins(Some(plies[7]), 8)),
        ("Going back to the start", begins(None, 1)),
        (
            "A piece left",
            lost(Some((knight, Square::F6, Some(Square::D5)))),
        ),
        ("A piece was taken", lost(Some((knight, Square::F6, None)))),
        ("A move changed it", lost(None)),
        ("Nothing was lost", Output::Guided(Guided::Held)),
        ("Heard again", Output::Guided(Guided::HeardAgain)),
        ("Finding pieces", pieces(1, &[(Square::C4, 'N')])),
        ("Finding more", pieces(30, &[])),
        (
            "Finding all of them",
            pieces(0, &[(Square::C4, 'N'), (Square::D5, 'p')]),
        ),
        (
            "One of two",
            rest(Color::White, shakmaty::Role::Knight, &[Square::B1], 1),
        ),
        ("A king", rest(Color::Black, shakmaty::Role::King, &[], 1)),
        ("Pawns", rest(Color::Black, shakmaty::Role::Pawn, &[], 7)),
        ("Found one", Output::Answered(Box::new(found))),
        (
            "A typo in a whole board",
            Output::Unread {
                unread: Unread::NoPlacement("Nd44".to_owned()),
                form: Form::Placement,
                kept: true,
            },
        ),
        ("All found", Output::Guided(Guided::Whole)),
        ("again all, with a question", Output::Helped),
        (
            "again all, with a move asked",
            Output::NotHere(NotHere::AgainPlies),
        ),
        (
            "why, with nothing to explain",
            Output::NotHere(NotHere::Why),
        ),
        ("back, with nowhere to go", Output::NotHere(NotHere::Back)),
        (
            "help, at a miss over moves",
            help(&[
                PromptWord::Truth,
                PromptWord::Back(Dialogue::Back),
                PromptWord::AgainPlies,
                PromptWord::Question,
                PromptWord::Why,
            ]),
        ),
        (
            "help, at a miss of a whole board",
            help(&[PromptWord::Truth, PromptWord::Back(Dialogue::Rebuild)]),
        ),
    ]
}

/// What is said at the prompt of any exercise.
fn prompts() -> Vec<(&'static str, Output)> {
    use PromptWord::{Again, GoOn, Help, Hint, Look, Pass, Question, Stop};
    let help = |form: Option<Form>, words: &[PromptWord]| {
        let words = words.to_vec();
        Output::Help(crate::exercise::Help { form, words })
    };
    let nothing_asked = |text: &str| Output::NothingAsked(text.to_owned());
    let mut all = vec![
        ("help", help(None, &[GoOn, Again, Look, Help, Stop])),
        (
            "e4, with nothing asked",
            nothing_asked("\u{1b}[31m  e4   e5"),
        ),
        (
            "nothing to see, with nothing asked",
            nothing_asked("\u{200b}"),
        ),
        ("quit, with nothing asked", nothing_asked("quit")),
        (
            "Enter alone, with a question",
            Output::ReplyWanted(Form::SquareOrGone),
        ),
    ];
    for form in forms() {
        let words = match form {
            Form::Move => [Again, Question, Look, Pass, Help, Stop, Hint].as_slice(),
            _ => &[Again, Question, Look, Pass, Help, Stop],
        };
        all.push(("help, with a question", help(Some(form), words)));
    }
    let word = || "z9".to_owned();
    let (color, to) = (Color::White, Square::D2);
    let (one, other) = (Square::B1, Square::F3);
    let move_faults = [
        MoveFault::Unreadable,
        MoveFault::NoSuchPiece {
            color,
            role: shakmaty::Role::Queen,
        },
        MoveFault::CannotGo {
            color,
            role: shakmaty::Role::Knight,
            to,
        },
        MoveFault::Ambiguous { one, other },
        MoveFault::NoPromotion { to: Square::D8 },
        MoveFault::NeedlessPromotion,
        MoveFault::CannotCastle {
            color,
            wing: shakmaty::CastlingSide::QueenSide,
            king: Square::G1,
        },
        MoveFault::OnlyCastling {
            wing: shakmaty::CastlingSide::KingSide,
        },
        MoveFault::OnlyCastling {
            wing: shakmaty::CastlingSide::QueenSide,
        },
    ];
    let move_faults = move_faults.map(|fault| (Unread::NoMove(word(), fault), Form::Moves));
    let faults = [
        (Unread::NoSquare(word()), Form::Squares),
        (Unread::Nothing, Form::Squares),
        (Unread::OneSquareWanted(3), Form::Square),
        (Unread::NoPiece(word()), Form::Piece),
        (Unread::NeitherLegalNorIllegal(word()), Form::Legal),
        (Unread::NoPlacement(word()), Form::Placement),
        (Unread::SquareTwice(Square::E4), Form::Placement),
        (Unread::NoSides, Form::Placement),
        (Unread::OneMoveWanted(2), Form::Move),
        (Unread::OneMoveWanted(0), Form::Move),
        (Unread::NoPoints(word()), Form::Points),
        (Unread::NoWing(word()), Form::Wings),
        (Unread::NoPlace(word()), Form::Place),
        (Unread::NeitherLightNorDark(word()), Form::Color),
        (Unread::NoLine(word()), Form::Line),
        (Unread::NoDistance(word()), Form::Distance),
        (Unread::HowMany("pawns".to_owned()), Form::Taken),
        (Unread::GivesUp, Form::Squares),
        (Unread::Leaves, Form::Squares),
    ];
    all.extend(faults.into_iter().chain(move_faults).map(|(unread, form)| {
        let kept = false;
        let output = Output::Unread { unread, form, kept };
        ("A reply that cannot be read", output)
    }));
    all
}

fn ends() -> Vec<(&'static str, Output)> {
    [
        Ending::Stopped,
        Ending::Asked,
        Ending::Read(None),
        Ending::Read(Some(GameResult::WhiteWins)),
        Ending::Read(Some(GameResult::BlackWins)),
        Ending::Read(Some(GameResult::Draw)),
        Ending::Read(Some(GameResult::Unknown)),
    ]
    .map(|ending| ("The end", Output::Ended(ending)))
    .to_vec()
}

/// Prints what is said, each output set apart, and one that is said twice over but once.
pub(super) fn tell(said: &[(&str, Output)], voice: Voice) -> Page {
    let mut page = Page::default();
    let mut before = Vec::new();
    let mut heading_before = "";
    for (heading, output) in said {
        let said = voice.say(output);
        if said == before {
            continue;
        }
        if *heading == heading_before {
            page.0.push(String::new());
        } else {
            page.head(heading);
        }
        page.say(&said);
        before = said;
        heading_before = heading;
    }
    page
}

#[test]
fn a_replay_says_this_around_its_questions() {
    let mut page = tell(&replay(), PLAIN);
    page.0.extend(tell(&ends(), PLAIN).0);
    page.head("Moves named in each style");
    for announce in super::announce::STYLES {
        let voice = Voice { announce, ..PLAIN };
        let told = |(_, output): &(_, Output)| match output {
            Output::Told(_) => voice.say(output),
            _ => Vec::new(),
        };
        page.say(replay().iter().flat_map(told));
    }
    page.head("Late replies, and those of which no time is known");
    let line = usual(FIDE_SAMPLE);
    for (reply, kind, subject) in [
        ("f3", "whereabouts", r#""man":"g1""#),
        ("g5", "whereabouts", r#""man":"g1""#),
        ("a1 h1", "standing", r#""color":"white","role":"rook""#),
    ] {
        let mut late = answered(&line, of_line(kind, subject), reply);
        late.late = true;
        late.millis = Some(12_000);
        page.lead(reply);
        page.say(
            told(late.clone())
                .iter()
                .flat_map(|output| PLAIN.say(output)),
        );
        late.late = false;
        late.millis = None;
        page.say(told(late).iter().flat_map(|output| PLAIN.say(output)));
    }
    page.hold("replay");
}

#[test]
fn a_recital_says_this() {
    tell(&recital(), PLAIN).hold("recital");
    tell(&beside(), PLAIN).hold("beside_the_moves");
}

#[test]
fn drills_say_this_around_their_questions() {
    tell(&drills(), PLAIN).hold("drills");
}

#[test]
fn rounds_say_this_around_their_questions() {
    let rounds = [few_pieces(), calculation(), mates()].concat();
    let mut page = tell(&rounds, PLAIN);
    page.head("Pieces listed rank by rank");
    let voice = Voice {
        list: List::Rank,
        ..PLAIN
    };
    page.0.extend(tell(&few_pieces()[4..8], voice).0);
    page.hold("rounds");
}

#[test]
fn the_prompt_says_this() {
    tell(&prompts(), PLAIN).hold("prompts");
    tell(&guided(), PLAIN).hold("guided");
}

/// What is drawn for those who look, where it differs from what is said to the others.
#[test]
fn those_who_look_see_this() {
    let drawn = |voice: Voice, wanted: fn(&str) -> bool| {
        let mut drawn = all();
        drawn.retain(|(heading, output)| wanted(heading) && voice.say(output) != PLAIN.say(output));
        tell(&drawn, voice).0
    };
    let black = Voice {
        view: Color::Black,
        ..DRAWN
    };
    let beside_an_empty_board = Voice {
        empty_board: true,
        ..DRAWN
    };
    let mut page = Page(drawn(DRAWN, |_| true));
    page.head("Beside an empty board");
    for (_, output) in all() {
        let said = beside_an_empty_board.say(&output);
        if said != DRAWN.say(&output) {
            page.say(said);
        }
    }
    page.head("The same for Black");
    page.0.extend(drawn(black, |heading| {
        matches!(heading, "look" | "A drill closes" | "Every square missed")
    }));
    page.hold("drawn");
}

#[test]
fn a_checkpoint_is_told_with_its_first_question_only() {
    let line = usual(FIDE_SAMPLE);
    let question = of_line("occupant", r#""square":"d6""#);
    assert_eq!(
        PLAIN.say(&Output::Ask(put(&line, question, 1))),
        ["Checkpoint 2 of 5.", "Question 1 of 9. What stands on d6?"]
    );
    for output in [
        Output::Ask(put(&line, question, 2)),
        Output::AskAgain(put(&line, question, 2)),
    ] {
        assert_eq!(PLAIN.say(&output), ["Question 2 of 9. What stands on d6?"]);
    }
}
