//! Games against an opponent as state machines: ends, draws, several boards, and going on at any moment.

use sansvoir::exercise::bound::{Every, Rating};
use sansvoir::exercise::{
    Awaits, BoardShown, Countermove, Dice, Earlier, Exercise, GameSettings, GameSummary, GameWord,
    Input, Output, OwnSummary, Play, PlaySettings, PlaySummary, PlayTold, Said, Script, Session,
    Told,
};
use sansvoir::game::{GameEnd, Line, Start};
use sansvoir::question::Kind;
use shakmaty::san::San;
use shakmaty::{CastlingMode, Color, Position};

fn settings(start: &Start, learners: &[Color]) -> PlaySettings {
    let script = Script::of_line(&Line::new(start.clone()));
    let games = learners.iter().map(|learner| GameSettings {
        script: script.clone(),
        learner: *learner,
    });
    PlaySettings {
        games: games.collect(),
        rating: Some(Rating::nearest(500)),
        engine: None,
        follows: false,
        board: BoardShown::Never,
        ask: Vec::new(),
        every: Every::nearest(5),
        seed: 1,
    }
}

fn from(fen: &str) -> Start {
    Start::from_fen(fen, CastlingMode::Standard).unwrap()
}

/// A session with what it has put out, and what a journal would keep of it.
struct Run {
    session: Session,
    told: Vec<PlayTold>,
    earlier: Earlier,
    summary: Option<PlaySummary>,
}

impl Run {
    fn new(settings: &PlaySettings) -> Run {
        let mut run = Run {
            session: Session::new(Play::new(settings.clone()).unwrap()),
            told: Vec::new(),
            earlier: Earlier::default(),
            summary: None,
        };
        let begun = run.session.begin();
        run.add(begun);
        run
    }

    fn add(&mut self, outputs: Vec<Output>) {
        for output in outputs {
            match output {
                Output::Told(Told::Play(told)) => self.told.push(told),
                Output::Answered(answered) => self.earlier.answers.push(crate::kept(&answered)),
                Output::Said(said) => {
                    let answers = self.earlier.answers.len();
                    self.earlier.said.push((answers, said));
                }
                Output::Summary(summary) => match summary.own {
                    OwnSummary::Play(own) => self.summary = Some(own),
                    own => panic!("{own:?}"),
                },
                _ => {}
            }
        }
        self.earlier.looks = self.session.looks();
    }

    /// Says words at the prompt, or a move in the opponent's place.
    fn say(&mut self, words: &str) {
        let input = match self.session.awaits() {
            Awaits::Opponent => Input::Opponent(words.parse::<Countermove>().unwrap()),
            _ => Input::read(words, 5),
        };
        let outputs = self.session.hear(input);
        self.add(outputs);
        if let Some(reviewed) = (self.session.awaited())
            .and_then(|awaited| awaited.review(|_, _| Err(())).map(|_| awaited.decided()))
        {
            let outputs = self.session.hear(Input::Opponent(reviewed));
            self.add(outputs);
        }
    }

    fn says(&mut self, words: &str) -> &PlayTold {
        words.split_whitespace().for_each(|word| self.say(word));
        self.told.last().unwrap()
    }

    fn end(&self) -> Option<GameEnd> {
        self.told.iter().find_map(|told| match told {
            PlayTold::Ended { end, .. } => Some(*end),
            _ => None,
        })
    }
}

#[test]
fn games_end_by_themselves_by_claim_and_by_resigning() {
    let usual = settings(&Start::standard(), &[Color::White]);
    for (start, words, expected) in [
        (
            Start::standard(),
            "f3 e7e5 g4 d8h4",
            Some(GameEnd::Checkmate),
        ),
        (
            Start::standard(),
            "e4 resigns",
            Some(GameEnd::Resigned(Color::Black)),
        ),
        (
            Start::standard(),
            "e4 e7e5 resign",
            Some(GameEnd::Resigned(Color::White)),
        ),
        (
            from("k7/8/1K6/8/8/8/2Q5/8 w - - 0 1"),
            "Qc7",
            Some(GameEnd::Stalemate),
        ),
        (from("k7/8/8/8/8/3b4/4K3/8 w - - 0 1"), "Kxd3", None),
        (
            from("k7/8/8/8/8/3p4/4K3/8 w - - 0 1"),
            "Kxd3",
            Some(GameEnd::DeadPosition),
        ),
        (
            Start::standard(),
            "Nf3 g8f6 Ng1 f6g8 Nf3 g8f6 Ng1 f6g8 draw",
            Some(GameEnd::Threefold),
        ),
        (
            Start::standard(),
            "Nf3 g8f6 Ng1 f6g8 Nf3 g8f6 Ng1 draw",
            None,
        ),
        (
            from("7k/8/8/8/8/8/8/K5R1 w - - 98 90"),
            "Rg2 h8h7 draw",
            Some(GameEnd::FiftyMoves),
        ),
    ] {
        let Ok(play) = Play::new(PlaySettings {
            games: settings(&start, &[Color::White]).games,
            ..usual.clone()
        }) else {
            assert_eq!(expected, None, "a dead position is no beginning");
            continue;
        };
        drop(play);
        let mut run = Run::new(&settings(&start, &[Color::White]));
        words.split_whitespace().for_each(|word| {
            // The opponent has no word for a draw.
            if run.session.awaits() != Awaits::Opponent || word != "draw" {
                run.say(word);
            }
        });
        assert_eq!(run.end(), expected, "{words}");
    }
}

/// A game of so many plies by chance that is not over, and in which nothing can be claimed.
fn by_chance(plies: usize) -> Line {
    let mut seeds = 0..;
    loop {
        let mut dice = Dice::new(seeds.next().unwrap(), 0);
        let mut line = Line::new(Start::standard());
        while line.len() < plies
            && let Some(mv) = dice.pick(&line.end().legal_moves())
        {
            line.push(*mv).unwrap();
        }
        let before = line.positions_before(line.len());
        if line.len() == plies && GameEnd::claim(line.end(), before).is_none() {
            return line;
        }
    }
}

#[test]
fn a_draw_is_offered_from_move_30_on_and_the_opponent_says_what_comes_of_it() {
    for (plies, is_taken) in [(56, false), (58, true)] {
        let mut settings = settings(&Start::standard(), &[Color::White]);
        settings.games[0].script = Script::of_line(&by_chance(plies));
        let mut run = Run::new(&settings);
        while run.session.awaits() == Awaits::GoOn {
            run.say("");
        }
        run.say("draw");
        if !is_taken {
            assert!(matches!(run.told.last(), Some(PlayTold::TooEarly)));
            continue;
        }
        assert!(matches!(run.says("declines"), PlayTold::Declined));
        run.says("draw accepts");
        assert_eq!(run.end(), Some(GameEnd::Agreed));
    }
}

#[test]
fn an_offer_of_a_draw_goes_by_the_number_of_the_move_wherever_the_game_began() {
    let mut run = Run::new(&settings(
        &from("8/8/8/8/6k1/8/R5K1/1r6 w - - 0 90"),
        &[Color::White],
    ));
    run.say("draw");
    run.says("accepts");
    assert_eq!(run.end(), Some(GameEnd::Agreed));
}

#[test]
fn what_was_taken_back_is_no_stretch_of_the_game_and_has_no_reason_any_more() {
    let mut run = Run::new(&settings(&Start::standard(), &[Color::White]));
    run.says("e4 e7e5 Nf3 b8c6 Ke3");
    run.say("take back");
    run.say("take back");
    let outputs = run.session.hear(Input::Why);
    assert!(matches!(outputs[..], [Output::NotHere(_)]), "{outputs:?}");
    run.say("stop");
    assert_eq!(run.summary.unwrap().longest, 0);
}

/// Plays by habit: mostly legal moves by chance, slips, looks, words and questions.
fn play_on(run: &mut Run, dice: &mut Dice, positions: &dyn Fn(&Run) -> Line) {
    let words = match run.session.awaited() {
        Some(awaited) => awaited.decided().to_string(),
        None if run.session.awaits() == Awaits::GoOn => String::new(),
        None => match dice.below(20) {
            0 => "look".to_owned(),
            1 => "take back".to_owned(),
            2 => "draw".to_owned(),
            3 => "Ka8".to_owned(),
            _ => {
                let line = positions(run);
                let moves = line.end().legal_moves();
                dice.pick(&moves).map_or_else(String::new, |mv| {
                    San::from_move(line.end(), *mv).to_string()
                })
            }
        },
    };
    run.say(&words);
}

/// The game as it stands by what was kept of it.
fn kept(earlier: &Earlier) -> Line {
    let mut line = Line::new(Start::standard());
    let mut said = earlier.said.iter().peekable();
    for at in 0..=earlier.answers.len() {
        while let Some((_, said)) = said.next_if(|(before, _)| *before <= at) {
            match said {
                Said::Opponent(Countermove::Move(mv)) => {
                    line.push(mv.to_move(line.end()).unwrap()).unwrap();
                }
                Said::Learner(GameWord::TakeBack) if line.len() >= 2 => {
                    line = line.cut(0, line.len() - 2);
                }
                _ => {}
            }
        }
        let text = earlier.answers.get(at).map(|answer| &answer.text);
        let san = text.and_then(|text| text.parse::<San>().ok());
        if let Some(mv) = san.and_then(|san| san.to_move(line.end()).ok()) {
            line.push(mv).unwrap();
        }
    }
    line
}

#[test]
fn a_game_that_is_stopped_after_any_input_goes_on_as_if_it_had_not() {
    for seed in 0..6 {
        let settings = settings(&Start::standard(), &[Color::White]);
        let mut whole = Run::new(&settings);
        let mut parted = Run::new(&settings);
        let mut dice = Dice::new(seed, 0);
        let mut again = Dice::new(seed, 0);
        for _ in 0..60 {
            if whole.session.awaits() == Awaits::Nothing || whole.end().is_some() {
                break;
            }
            play_on(&mut whole, &mut dice, &|run| kept(&run.earlier));
            play_on(&mut parted, &mut again, &|run| kept(&run.earlier));
            let mut session = Session::new(Play::new(settings.clone()).unwrap());
            session.resume(parted.earlier.clone());
            assert_eq!(session.awaits(), whole.session.awaits());
            assert_eq!(session.trail(), whole.session.trail());
            parted.session = session;
        }
        assert_eq!(parted.earlier, whole.earlier);
        assert!(whole.earlier.answers.len() > 10);
    }
}

#[test]
fn the_board_is_shown_as_it_is_wished_for() {
    for (board, expected) in [("always", 3), ("2", 1), ("empty", 0), ("never", 0)] {
        let usual = settings(&Start::standard(), &[Color::White]);
        let mut session = Session::new(
            Play::new(PlaySettings {
                board: board.parse().unwrap(),
                ..usual
            })
            .unwrap(),
        );
        let mut outputs = session.begin();
        for (mv, answer) in [("e4", "e7e5"), ("Nf3", "b8c6")] {
            outputs.extend(session.hear(Input::read(mv, 5)));
            outputs.extend(session.hear(Input::Opponent(answer.parse().unwrap())));
        }
        let shown = outputs.iter();
        let shown = shown.filter(|output| matches!(output, Output::Board { .. }));
        assert_eq!(shown.count(), expected, "{board}");
        assert_eq!(session.looks(), 0);
    }
}

#[test]
fn several_games_go_move_about_each_on_its_own_board() {
    let mut run = Run::new(&settings(
        &Start::standard(),
        &[Color::White, Color::Black, Color::White],
    ));
    let told = run.says("e4 d2d4");
    assert!(matches!(told, PlayTold::Played { board: (2, 3), .. }));
    // White's move of the third board is Black's slip on the second.
    let told = run.says("Nf3");
    assert!(matches!(told, PlayTold::OtherBoard(1)), "{told:?}");
    run.says("d5 c4 e7e5");
    assert!(matches!(
        run.told.last(),
        Some(PlayTold::Played { board: (1, 3), .. })
    ));
    run.says("resign g1f3 resign");
    run.says("e7e6 resign");
    while run.session.awaits() == Awaits::Reply {
        run.say("pass");
    }
    let summary = run.summary.unwrap();
    let slips: Vec<usize> = summary.games.iter().map(GameSummary::slips).collect();
    assert_eq!(slips, [0, 1, 0]);
    assert!(
        summary
            .games
            .iter()
            .all(|game| matches!(game.end, Some(GameEnd::Resigned(_))))
    );
}

/// FIDE 9.2.1: the player who has the move writes it and claims, where it brings the position for the third time.
#[test]
fn a_draw_is_claimed_with_the_move_that_brings_it() {
    let mut run = Run::new(&settings(&Start::standard(), &[Color::Black]));
    run.says("g1f3 Nf6 f3g1 Ng8 g1f3 Nf6 f3g1");
    run.say("draw Nh5");
    assert!(matches!(run.told.last(), Some(PlayTold::NoClaim)));
    run.say("Draw Ng8.");
    assert_eq!(run.end(), Some(GameEnd::Threefold));
    let claim = run.earlier.said.iter().map(|(_, said)| said.clone());
    let uci = "f6g8".parse().unwrap();
    assert!(
        claim
            .into_iter()
            .any(|said| said == Said::Learner(GameWord::DrawWith(uci)))
    );
    let mut again = Session::new(Play::new(settings(&Start::standard(), &[Color::Black])).unwrap());
    again.resume(run.earlier);
    assert_eq!(again.awaits(), Awaits::Nothing);
}

#[test]
fn what_another_opponent_found_to_cost_most_is_asked() {
    let mut session =
        Session::new(Play::new(settings(&Start::standard(), &[Color::White])).unwrap());
    session.begin();
    for words in ["f3", "e7e5", "g4"] {
        session.hear(match session.awaits() {
            Awaits::Opponent => Input::Opponent(words.parse().unwrap()),
            _ => Input::read(words, 5),
        });
    }
    session.hear(Input::Opponent("d8h4".parse().unwrap()));
    let judged = session.awaited().unwrap().review(|line, plies| {
        let first = line.position(plies).legal_moves()[0];
        // Each move of White's loses a pawn and a half by this judge, which sees nothing else.
        Ok::<_, ()>((first, if plies % 2 == 0 { 100 } else { 50 }))
    });
    let Some(Ok(reviewed)) = judged else {
        panic!("a review is awaited")
    };
    let Countermove::Reviewed(costs) = &reviewed else {
        panic!("{reviewed}")
    };
    assert_eq!(
        costs
            .iter()
            .map(|cost| (cost.plies, cost.cost))
            .collect::<Vec<_>>(),
        [(1, 150), (3, 150)]
    );
    let outputs = session.hear(Input::Opponent(reviewed));
    let told = |output: &&Output| matches!(output, Output::Told(Told::Play(PlayTold::Review(2))));
    assert!(outputs.iter().any(|output| told(&output)));
}

#[test]
fn questions_come_on_the_way_and_what_cost_most_is_asked_at_the_end() {
    let usual = settings(&Start::standard(), &[Color::White]);
    let mut run = Run::new(&PlaySettings {
        ask: vec![Kind::Whereabouts],
        every: Every::nearest(2),
        ..usual
    });
    run.says("e4 e7e5 Nf3 b8c6");
    assert_eq!(run.session.awaits(), Awaits::Reply);
    let before = run.earlier.answers.len();
    run.says("pass pass");
    assert_eq!(run.earlier.answers.len(), before + 2);
    // A queen for nothing, and mate allowed on the spot.
    run.says("d3 d7d6 Qd2 g8f6 pass pass Qa5 c6a5 resign");
    let costly: Vec<String> = run
        .told
        .iter()
        .filter_map(|told| match told {
            PlayTold::Costly { costly, .. } => Some(costly.ply.san.to_string()),
            _ => None,
        })
        .collect();
    assert_eq!(
        costly.first().map(String::as_str),
        Some("Qa5"),
        "{:?}",
        run.told
    );
}
