//! What is worth asking: the shares that hold over thousands of questions, and what a learner comes to who always says
//! the same.

use std::collections::{HashMap, HashSet};

use jiff::Timestamp;
use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{Ahead, AheadSettings, Awaits, Exercise, Input, Output, Script, Session};
use sansvoir::exercise::{
    By, Checkpoints, OverGame, Replay, Settings, Show, Staircase, deal, extent,
};
use sansvoir::learner::course::{Course, CourseStep};
use sansvoir::learner::pace::{Reach, answers};
use sansvoir::question::{Attempt, BareQuestion, Kind, LineQuestion, Mate, Reason, Scene};
use shakmaty::{Color, Position, Role, Square};

use crate::ahead::pace::journal;
use crate::shared_variety::{
    GOES, Row, collections, drill, each_checkpoint, given_away, judged, percent, table,
};

/// Nothing was tuned on this seed.
const SEED: u64 = 20_261;
/// Fewer questions of a kind than these tell no share: the games hold no more that are worth asking.
const TELLING: usize = 300;

/// The kinds whose question is answered by yes or no, light or dark.
const OF_TWO: [Kind; 2] = [Kind::Legality, Kind::Color];

#[test]
fn no_answer_comes_so_often_that_it_would_do_for_all() {
    let rows = table(SEED, TELLING);
    let lines: Vec<String> = rows.iter().map(Row::to_string).collect();
    println!("{}", lines.join("\n"));
    let mut judged = 0;
    for row in rows {
        // The announcement tells most checks, so that it is seldom asked.
        if row.all() < TELLING || row.kind == Kind::Check {
            continue;
        }
        judged += 1;
        let most = if OF_TWO.contains(&row.kind) {
            55.0
        } else {
            40.0
        };
        assert!(commonest(&row) <= most, "{row}");
        assert!(row.dull() <= 100.0 / 3.0, "{row}");
        if ["ahead", "few"].contains(&row.place) {
            // Nine in ten, and 2,000 questions tell it to two in a hundred.
            assert!(row.changed * 100 >= row.all() * 88, "{row}");
        }
        assert!(!passes(&row), "{row}");
        if row.place == "ahead" {
            // What counts before a learner's own questions do.
            let taken = 100.0 * row.kind.guess();
            assert!((taken - commonest(&row)).abs() <= 5.0, "{taken}: {row}");
        }
    }
    // Of 83 rows, ten hold too few to tell.
    assert_eq!(judged, 73);
}

/// How many in a hundred of a row have the commonest truth.
fn commonest(row: &Row) -> f64 {
    let most = row.truths.values().max().copied().unwrap_or(0);
    percent(most, row.all())
}

/// Whether a learner who always says the commonest answer of a row passes the step of its kind, where that kind
/// fills a step alone; other steps mix several kinds.
fn passes(row: &Row) -> bool {
    let alone = match row.kind {
        Kind::Rebuild => Some(CourseStep::Rebuilding),
        kind => CourseStep::of_bare(kind, Some(Color::White)),
    };
    let Some(step) = alone else { return false };
    let always = row
        .truths
        .iter()
        .max_by_key(|(_, count)| **count)
        .unwrap()
        .0;
    let mut course = Course::default();
    row.in_order.iter().any(|truth| {
        course.take(Timestamp::UNIX_EPOCH, step, truth == always, Some(1));
        course.standing(step).is_passed()
    })
}

/// Replies that need no position, for each form that a kind over a line awaits.
const ALWAYS: [&str; 14] = [
    "none",
    "empty",
    "P",
    "p",
    "legal",
    "illegal",
    "0",
    "1",
    "-2",
    "short",
    "both",
    "gone",
    "e4",
    "Ke1 / Ke8",
];

#[test]
fn who_always_says_the_same_sees_no_more_than_two_plies_ahead() {
    let [(_, demo), _] = collections();
    let games: Vec<Script> = demo.iter().map(Script::of_line).collect();
    for kind in Kind::LINE {
        let mut measured = 0;
        for always in ALWAYS {
            let mut records = Vec::new();
            for (seed, game) in games.iter().enumerate() {
                let settings = AheadSettings {
                    games: vec![game.clone()],
                    show: Show::Diagram,
                    plies: Some(Within::nearest(1 + seed % 6)),
                    staircase: Staircase::default(),
                    rounds: Within::nearest(6),
                    per_round: Within::nearest(1),
                    ask: vec![kind],
                    think_millis: None,
                    looks: None,
                    seed: SEED + seed as u64,
                    follow: false,
                };
                let Ok(ahead) = Ahead::new(settings) else {
                    continue;
                };
                let Some(answered) = say(Session::new(ahead), always) else {
                    break;
                };
                records.extend(journal("ahead", &answered));
            }
            if let Reach::Measured { plies, .. } = Reach::of(&answers(&records)) {
                measured += 1;
                assert!(plies <= 2.0, "{kind}, {always}: {plies}");
            }
        }
        println!("{kind}: {measured} replies make a reach of 0 to 2 plies");
    }
}

/// Says the same to every question of a session; `None` where that is no reply to them.
fn say(mut session: Session, always: &str) -> Option<Vec<sansvoir::exercise::Answered>> {
    let mut answered = Vec::new();
    session.begin();
    while session.awaits() != Awaits::Nothing {
        let asks = session.awaits() == Awaits::Reply;
        let reply = Input::Reply {
            text: always.to_owned(),
            millis: 900,
        };
        let before = answered.len();
        for output in session.hear(if asks { reply } else { Input::GoOn }) {
            if let Output::Answered(one) = output {
                answered.push(*one);
            }
        }
        if asks && answered.len() == before {
            return None;
        }
    }
    Some(answered)
}

#[test]
fn each_reason_that_a_position_holds_has_its_turn_and_four_in_five_are_near_misses() {
    for (place, lines) in collections() {
        let (mut held, mut asked) = (HashMap::new(), HashMap::<Reason, u32>::new());
        let (mut illegal, mut plain) = (0, 0);
        let mut look = |scene: Scene<'_>, question| {
            let LineQuestion::Legality(question) = question else {
                unreachable!()
            };
            let Some(found) = scene.judge().illegal(question.attempt) else {
                return false;
            };
            illegal += 1;
            plain += u32::from(is_plain(scene, question.attempt, found.reason));
            *asked.entry(found.reason).or_default() += 1;
            for reason in near(scene) {
                *held.entry(reason).or_insert(0_u32) += 1;
            }
            illegal == 1_000
        };
        (0..GOES).any(|go| each_checkpoint(&lines, Kind::Legality, SEED, go, &mut look));
        println!("{place}: {plain} of {illegal} are plain; asked {asked:?}; held {held:?}");
        assert!(plain * 5 <= illegal, "{plain} of {illegal} are plain");
        for (reason, held) in held.into_iter().filter(|(_, held)| *held >= 40) {
            let asked = asked.get(&reason).copied().unwrap_or(0);
            assert!(asked * 20 >= held, "{place}: {reason:?} {asked} of {held}");
        }
    }
}

#[test]
fn moves_to_judge_beside_other_questions_are_half_legal_and_no_reason_crowds_out_the_others() {
    let usual = [Kind::Whereabouts, Kind::Attacks, Kind::Legality];
    for ask in [&usual[..], &Kind::LINE] {
        let judged = judged(ask, SEED);
        println!("{judged:?}");
        let all: usize = judged.values().sum();
        let legal = judged[&None];
        let share = percent(legal, all);
        assert!(
            all > 300 && (45.0..=55.0).contains(&share),
            "{share} of {all} are legal"
        );
        for (reason, count) in judged.into_iter().filter(|(reason, _)| reason.is_some()) {
            let share = percent(count, all - legal);
            assert!(share <= 45.0, "{share} of the illegal are {reason:?}");
        }
    }
}

/// Whether nobody who half sees the board would try the move: it is not the piece's way, or there is no such piece, and
/// it was no legal move lately either.
fn is_plain(scene: Scene<'_>, attempt: Attempt, reason: Reason) -> bool {
    use Reason::{EmptySquare, NotItsWay, OwnPieceThere, WrongSide};
    let lately = [2, 4]
        .into_iter()
        .filter_map(|ago| scene.plies().checked_sub(ago));
    let mut before = lately.map(|plies| Scene::new(scene.line(), plies).judge().illegal(attempt));
    [EmptySquare, NotItsWay, OwnPieceThere, WrongSide].contains(&reason)
        && before.all(|illegal| illegal.is_some())
}

/// The reasons, but for the plain ones, for which a piece of the side to move cannot go somewhere.
fn near(scene: Scene<'_>) -> HashSet<Reason> {
    let judge = scene.judge();
    let own = scene.position().us().into_iter();
    let to_all = own.flat_map(|from| Square::ALL.map(|to| (from, to)));
    to_all
        .filter_map(|(from, to)| {
            let pawn = scene.board().role_at(from) == Some(Role::Pawn);
            let last = [0, 7].contains(&u32::from(to.rank()));
            let promotion = (pawn && last).then_some(Role::Queen);
            let attempt = Attempt {
                from,
                to,
                promotion,
            };
            let reason = judge.illegal(attempt)?.reason;
            let far = reason == Reason::Blocked
                && (shakmaty::attacks::between(from, to) & scene.board().occupied()).count() > 1;
            (!far && !is_plain(scene, attempt, reason)).then_some(reason)
        })
        .collect()
}

#[test]
fn what_is_drawn_over_the_bare_board_is_worth_the_time() {
    let deal = |kind| deal(&drill(kind, SEED), 2_000);
    for kind in [Kind::Distance, Kind::Route] {
        let pieces = deal(kind).into_iter().map(|question| match question {
            BareQuestion::Distance(asked) => asked.travel.piece().piece().role,
            BareQuestion::Route(asked) => asked.travel.piece().piece().role,
            other => panic!("{other:?}"),
        });
        let pieces: Vec<Role> = pieces.collect();
        let of = |role| pieces.iter().filter(|piece| **piece == role).count();
        assert!(of(Role::Knight) >= 1_000, "{} knights", of(Role::Knight));
        assert!(of(Role::Queen) + of(Role::Rook) <= 300);
    }
    assert!(
        deal(Kind::Span)
            .iter()
            .all(|question| question.truth().set().count() <= 14)
    );
    let plain = deal(Kind::Aligned).into_iter().filter(|question| {
        ["file", "rank"].iter().any(|line| {
            question.truth() == serde_json::from_value(serde_json::json!({"line": line})).unwrap()
        })
    });
    assert!(plain.count() <= 800);
}

/// That beginners leave a piece to be taken for nothing in some 5 of 100 moves is common practice, no source.
#[test]
fn few_pieces_are_played_on_as_a_sensible_player_might() {
    let given = given_away(SEED);
    println!("{given:.2} of a hundred plies give a piece away");
    assert!(given <= 5.0, "{given}");
}

#[test]
fn a_rare_kind_is_asked_in_every_game_that_has_a_place_for_it() {
    let (mut asked, mut held) = (0, 0);
    for line in collections()
        .into_iter()
        .flat_map(|(_, lines)| lines)
        .take(80)
    {
        let has_mate = |plies| {
            let scene = Scene::new(&line, plies);
            let moves = LineQuestion::Mate(Mate::AT_ONCE).truth(scene);
            !moves.attempts().is_empty() && moves.attempts().iter().all(|mv| mv.promotion.is_none())
        };
        let settings = Settings {
            by: By::Move,
            checkpoints: Checkpoints::Every(Within::nearest(8)),
            ask: vec![Kind::Mate],
            questions: Within::nearest(1),
            trail: Within::nearest(2),
            think_millis: None,
            looks: None,
            seed: SEED,
            follow: false,
        };
        let (tags, script) = (Vec::new(), Script::of_line(&line));
        let replay = Replay::new(OverGame {
            settings,
            script,
            tags,
            result: None,
        })
        .unwrap();
        let has_mate = (1..line.len()).any(has_mate);
        let questions = extent(&mut Session::new(replay)).questions;
        assert!(questions > 0 || !has_mate, "{}", line.start().fen());
        asked += usize::from(questions > 0);
        held += usize::from(has_mate);
    }
    assert!(asked >= held && held > 20, "{asked} of {held}");
}
