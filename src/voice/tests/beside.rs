//! What is said beside sessions: of games and files, sheets, lessons, journals and progress.

use jiff::Timestamp;
use serde_json::{Value, json};
use tempfile::TempDir;

use super::*;
use crate::exercise::Extent;
use crate::game::Place;
use crate::learner::account::{Account, Chart, MonthReach};
use crate::learner::course::{Course, CourseEvent, CourseStep};
use crate::learner::lesson::{Aim, PlannedPart};
use crate::learner::pace::Reach;
use crate::learner::{AnswerRecord, HeldLesson, Journal, LessonResults, PartResult, Record};
use crate::pgn::{Collection, Fault, Passage, Trust, check, read};
use crate::question::{Form, Mark, Tally, WrittenError};
use crate::rules::Letters;

/// The command of a learner's next lesson.
const LESSON: &str = "sansvoir lesson";

/// The faults of a game with a word that is no move, one of them in a sideline.
fn faults(text: &str) -> Vec<Fault> {
    check(&only(text)).faults
}

fn only(text: &str) -> Passage {
    Collection::new(text.as_bytes()).next().unwrap().unwrap()
}

#[test]
fn prompts_and_short_notes_are_these() {
    let mut page = Page::default();
    page.head("Called so on a terminal, a first time");
    page.say(alone::WELCOME);
    for (found, looks) in [(true, 0), (true, 2), (false, 0)] {
        page.say([alone::done(12, found, looks)]);
    }
    page.say([alone::offer(None, true), alone::OWN_GAMES.to_owned()]);
    page.head("Later");
    page.say([
        alone::offer(None, false),
        alone::offer(Some("replay"), true),
    ]);
    page.say([
        alone::offer(Some("lesson"), false),
        alone::INTERRUPTED.to_owned(),
    ]);
    page.say([alone::PROMPT]);
    page.head("Prompts");
    page.say([
        asides::REPLY_PROMPT.to_owned(),
        asides::numbered_prompt(3, 20),
        asides::GO_ON_PROMPT.to_owned(),
        asides::WIPE_PROMPT.to_owned(),
        asides::READ_PROMPT.to_owned(),
        asides::TRUTH_PROMPT.to_owned(),
        asides::MORE_PROMPT.to_owned(),
        asides::BEGIN_PROMPT.to_owned(),
    ]);
    page.head("Notes");
    page.say([
        asides::INTERRUPTED,
        asides::INTERRUPTED_QUESTION,
        asides::ENTER_WANTED,
        asides::NOTHING_DRAWN,
        asides::CUT_SHORT,
        asides::TORN_LINE,
        asides::WRITTEN_ANEW,
        asides::STILL_SPEAKING,
        asides::NO_TERMINAL,
        asides::ALL_FINISHED,
        asides::SHEET_FROM_INPUT,
        asides::NOTHING_ENTERED,
        asides::ENTERED_ALREADY,
        asides::SEARCH_STOPPED,
        asides::NOT_SEARCHED_THROUGH,
        asides::DEMO_GAMES,
    ]);
    page.head("By mouth");
    page.say([
        by_mouth::said_back("Nf3"),
        by_mouth::TAKEN_BACK.to_owned(),
        by_mouth::HELP.to_owned(),
        by_mouth::counted(30, 1),
        by_mouth::counted(1, 2),
    ]);
    page.head("Going on");
    for exercise in ["replay", "recite", "ahead"] {
        page.say([
            asides::nothing_unfinished(exercise),
            asides::not_as_begun(exercise, "seed"),
        ]);
    }
    page.head("A search for mates");
    page.say([
        searching(2, 7, 1, 1),
        searching(3, 8, 40, 12),
        STOP_SEARCHING.to_owned(),
        asides::given_up(1),
        asides::given_up(3),
        asides::no_mate(1, 1, 1, 0),
        asides::no_mate(2, 16, 900, 4),
    ]);
    page.head("A sound file");
    page.say([
        asides::sound_made(20, 61_000),
        asides::sound_cut_short(0),
        asides::sound_cut_short(7),
    ]);
    page.head("A learner with a new name");
    page.say([
        asides::new_learner("Ana", &[]),
        asides::new_learner("Ana", &["Anna".to_owned(), "Anja".to_owned()]),
    ]);
    page.head("Journals");
    page.say([
        journal::place("/data/anna.jsonl", true),
        journal::place("/data/anna.jsonl", false),
        journal::nothing_to_copy(&"anna"),
        journal::copied(1),
        journal::copied(420),
        journal::no_journal("notes.txt"),
        journal::merged("other.jsonl", 1, 420, false),
        journal::merged("half.jsonl", 4, 0, true),
        progress::more_broken_lines(1),
        progress::more_broken_lines(3),
    ]);
    page.hold("notes");
}

/// A command that checks a game.
const CHECK: &str = "sansvoir games own.pgn --game 2 --check";

#[test]
fn games_and_their_faults_are_told_like_this() {
    let mut page = Page::default();
    for tags in [
        "[White \"Berg, A.\"]\n[Black \"Stein\"]\n[Result \"1/2-1/2\"]\n[Date \"2025.03.??\"]\n\
         [Event \"Club #3\"]\n",
        "[White \"Berg\"]\n[Result \"1-0\"]\n",
        "[White \"Berg\"]\n[Black \"Stein\"]\n[Result \"0-1\"]\n",
        "[Black \"Stein\"]\n[Result \"*\"]\n",
        "[White \"?\"]\n[Result \"adjourned\"]\n",
        "1. e4 c5\n2. Nf3 d6 1-0\n",
    ] {
        let block = Collection::new(tags.as_bytes()).block(Vec::new());
        let block = block.unwrap().unwrap();
        let heading = block.heading(&block.games()[0]);
        page.head(&tags.trim_end().replace('\n', " "));
        page.say([listed::listed(7, &heading), in_words::listed(7, &heading)]);
    }
    page.head("Files");
    page.say([
        listed::in_file("a.pgn", "1. Berg had White."),
        listed::trust_told(200),
        asides::from_the_program("games-demo/a.pgn"),
        listed::read_so_far(1, None, 1, 0, None),
        listed::read_so_far(200_000_001, Some(1_000_000_000), 150_000, 3, Some(1)),
        listed::checked(1, 1, 1, [0, 1]),
        listed::checked(16, 900, 2, [2, 0]),
        listed::exported(1, 0),
        listed::exported(16, 2),
    ]);
    page.head("Letters of another language");
    let languages = ["French", "Romanian", "Catalan"];
    for number in 1..=3 {
        page.say([asides::letters(&Letters {
            languages: languages[..number].to_vec(),
            letters: "CFTDR",
        })]);
    }
    let broken = faults("[White \"A\"]\n\n1. e4 e5 2. Qx9 Nc6 *\n");
    page.head("A fault");
    page.say([
        in_words::fault("a.pgn", &broken[0]),
        listed::lost_moves(&broken[0], "Qx9 Nc6"),
        asides::kept_up_to(2, Some("1...".parse().unwrap()), CHECK),
        asides::kept_up_to(1, Some("1.".parse().unwrap()), CHECK),
        asides::kept_up_to(0, None, CHECK),
    ]);
    let mut unnamed = broken[0].clone();
    unnamed.number = None;
    unnamed.token.clear();
    page.say([
        in_words::fault("a.pgn", &unnamed),
        listed::lost_moves(&unnamed, ""),
    ]);
    let mended = faults("1. e4 e5 2. Nf3 d6 3. Nxd4 (3. d5) *");
    page.say(
        mended[1..]
            .iter()
            .map(|fault| listed::lost_moves(fault, "")),
    );
    page.head("What is mended");
    page.say([asides::mended(1, CHECK), asides::mended(4, CHECK)]);
    for plain in [false, true] {
        page.say(
            [Trust::Mended, Trust::Broken]
                .map(|trust| listed::with_trust(listed::trust(trust).unwrap(), plain)),
        );
    }
    let repairs = "1. e4 e5 2. Nxf3 Nc6 3. Bc4 ) Bc5 4. 0-0";
    let passage = only(repairs);
    page.say(
        read(&passage)
            .repairs(&passage)
            .iter()
            .map(|repair| listed::repaired("a.pgn", 1, repair)),
    );
    page.head("Places in a text file");
    let place = Place::new(2, 9);
    page.say([
        in_words::at_place("l.toml", place, "\"dril\"", "\"dril\" is no exercise"),
        in_words::at_place("l.toml", place, "0", "write a whole number from 1 on"),
        in_words::at_line("l.txt", 4, "this is no reply."),
    ]);
    page.hold("games_and_faults");
}

#[test]
fn sheets_say_this_beside_their_questions() {
    let mut page = Page::default();
    page.head("Headings");
    page.say([
        paper::NAME,
        paper::DATE,
        paper::KEY,
        paper::FORMS,
        paper::AGAIN,
        paper::ENTER,
    ]);
    page.head("Notes");
    page.say([paper::MARK, paper::PIECES]);
    page.say(paper::how_to_enter());
    page.say([
        paper::known_as("k7", 42),
        paper::position_after(None, Color::White),
        paper::position_after(Some("8...".parse().unwrap()), Color::White),
        paper::marked(Color::Black),
        paper::form_of(3, Form::Squares),
        paper::numbered(3, "What stands on e5?"),
    ]);
    page.head("A sound script");
    page.say([500, 1_000, 1_050, 5_000].map(paper::pause));
    page.say([paper::chapter(7, 3_723_045)]);
    for (heading, output) in super::sessions::all() {
        if let Output::Opening(_) | Output::Given(_) = output {
            page.head(heading);
            page.say(paper::title(&output));
            page.say(PLAIN.on_paper(&output));
        }
    }
    page.head("Answers entered");
    let verdicts = [Verdict::Right, Verdict::Part, Verdict::Wrong, Verdict::Pass];
    let marks = verdicts.map(|verdict| Mark {
        score: match verdict {
            Verdict::Right => 1.0,
            Verdict::Part => 0.25,
            Verdict::Wrong | Verdict::Pass => 0.0,
        },
        verdict,
        tally: Tally::default(),
    });
    page.say([
        paper::answers_of("Anna"),
        paper::entered("Anna\u{1b}", &marks),
        paper::entered("Anna", &marks[..1]),
    ]);
    let line = usual(FIDE_SAMPLE);
    let standing = of_line("standing", r#""color":"white","role":"rook""#);
    page.say(
        ["d1 h1", "a1 h1", "a1", "pass"]
            .map(|reply| paper::graded(3, &answered(&line, standing, reply))),
    );
    page.hold("sheets");
}

#[test]
fn lessons_say_this() {
    let mut page = Page::default();
    page.head("A lesson begins");
    page.say(lesson::opening(Some("Week 3"), 2, false));
    page.say(lesson::opening(None, 1, true));
    page.head("Its parts");
    page.say([
        lesson::part(2, 3, "Colors", 1),
        lesson::part(1, 1, "Ready?", 3),
    ]);
    let first = CourseStep::WhiteSquares;
    let lines = CourseStep::ThreePieces;
    let aims = [
        Aim::Due,
        Aim::Game,
        Aim::Ahead,
        Aim::Teach(first),
        Aim::Review(lines),
    ];
    let aims = aims.into_iter().chain(CourseStep::ALL.map(Aim::Step));
    page.say(aims.clone().map(lesson::aim));
    let is_alike =
        |step: CourseStep| step > first && !step.is_game() && step != CourseStep::Recital;
    let reasons = aims.filter(|aim| !matches!(aim, Aim::Step(step) if is_alike(*step)));
    page.say(reasons.map(|aim| {
        let questions = Vec::new();
        lesson::reason(
            2,
            &PlannedPart {
                aim,
                count: 12,
                questions,
            },
        )
    }));
    page.say(lesson::notes("One.\n\n \u{1b}[2JTwo."));
    page.head("Pass marks");
    let marked = |right, first, mark, all| {
        let result = PartResult {
            replies: [right, first, all],
            questions: all,
            ..PartResult::default()
        };
        lesson::pass_mark(&result, mark)
    };
    page.say([
        marked(18, 20, 18, 20),
        marked(17, 17, 18, 20),
        marked(4, 8, 12, 12),
        marked(0, 0, 1, 0),
    ]);
    page.head("A lesson ends");
    let time: Timestamp = "2026-03-01T18:20:04Z".parse().unwrap();
    let mut course = Course::default();
    page.say(lesson::closing([0, 1, 1], &[], &course, LESSON));
    for _ in 0..20 {
        course.take(time, CourseStep::WhiteSquares, true, Some(2_000));
    }
    course.take(time, CourseStep::BlackSquares, false, Some(2_000));
    page.say(lesson::closing(
        [20, 21, 21],
        &[CourseStep::WhiteSquares],
        &course,
        LESSON,
    ));
    page.say(lesson::closing([3, 4, 6], &[], &course, LESSON));
    page.say([lesson::stopped(LESSON)]);
    standings(&mut page, &mut course);
    level(&mut page);
    page.head("A lesson file");
    let extent = |questions, millis| Extent { questions, millis };
    page.say([
        lesson::checked("l.toml", 1, extent(1, 4_000)),
        lesson::checked("l.toml", 3, extent(30, 400_000)),
        lesson::sheet_title(None),
        lesson::no_lesson("a.pgn"),
        commands::more_faults("l.toml", 1),
        commands::more_faults("l.toml", 5),
        commands::too_many_tables("part", 120, 100),
        lesson::learners_own("learner"),
        lesson::no_such_key("loks", "replay", &["game", "looks"]),
        lesson::no_such_key("colour", "replay", &["game", "looks"]),
        lesson::exercise_missing(&["replay", "drill"]),
        lesson::no_exercise("reply", &["replay", "drill"]),
        lesson::NO_PART.to_owned(),
        commands::below_a_line("question", "part.question"),
        lesson::UNTIL_PASSED_WITHOUT_PASS.to_owned(),
        lesson::INPUT_IS_FOR_REPLIES.to_owned(),
        lesson::in_keys("leave out --to, or --hint", &["to", "hint"]),
        lesson::key_missing("exercise"),
        lesson::pass_too_high(12, 10),
        lesson::ASK_OR_SAY.to_owned(),
        lesson::QUESTIONS_OF_A_REPLAY.to_owned(),
    ]);
    questions_of_a_coach(&mut page);
    page.hold("lessons");
}

/// Why what a coach wrote is no question.
fn questions_of_a_coach(page: &mut Page) {
    page.say(Kind::LINE.map(|kind| lesson::no_question("x", &WrittenError::NoSubject(kind))));
    let unfit = [
        Kind::Whereabouts,
        Kind::Attacks,
        Kind::Moves,
        Kind::Exchange,
        Kind::Played,
    ];
    page.say(unfit.map(|kind| lesson::no_question("x y", &WrittenError::Unfit(kind))));
    page.say([lesson::no_question(
        "x",
        &WrittenError::NoKind("x".to_owned()),
    )]);
}

/// How a learner stands.
fn standings(page: &mut Page, course: &mut Course) {
    page.head("Standings");
    let time: Timestamp = "2026-03-01T18:20:04Z".parse().unwrap();
    let step = CourseStep::BlackSquares;
    for (millis, answers) in [
        (Some(9_000), 19),
        (Some(9_000), 1),
        (None, 20),
        (Some(1_000), 20),
    ] {
        for _ in 0..answers {
            course.take(time, step, true, millis);
        }
        page.say([progress::standing_at(course, step)]);
    }
    page.say([progress::standing_at(course, CourseStep::Recital)]);
    course.hear(time, CourseEvent::Started(CourseStep::TwoPlies));
    course.take(time, CourseStep::Aligned, true, None);
    page.say(
        [CourseStep::Colors, CourseStep::Aligned].map(|step| progress::standing_at(course, step)),
    );
    for n in 0..40 {
        course.take(time, CourseStep::Span, true, Some(100));
        course.take(time, CourseStep::Between, n < 20, Some(100));
    }
    page.say(
        [CourseStep::Between, CourseStep::Span].map(|step| progress::standing_at(course, step)),
    );
    page.head("The course in one screen");
    page.say(progress::stand(course));
    page.say(progress::steps(course, false));
    page.head("The same in words");
    page.say(progress::steps(course, true));
    for step in CourseStep::ALL {
        for _ in 0..60 {
            course.take(time, step, true, Some(100));
        }
    }
    page.say([
        progress::next_step(course),
        progress::next_lesson(course, LESSON),
    ]);
}

/// What is said of the search for a learner's level.
fn level(page: &mut Page) {
    page.head("A learner's level");
    page.say([lesson::WHY_PLACEMENT, lesson::PLACEMENT]);
    let mut placed = Course::default();
    page.say(lesson::placed(&placed));
    for (step, right) in [
        (1, true),
        (1, true),
        (8, true),
        (8, false),
        (8, true),
        (14, false),
        (14, false),
    ] {
        let event = CourseEvent::Placed("a".to_owned(), CourseStep::ALL[step], right, None);
        placed.hear(Timestamp::UNIX_EPOCH, event);
    }
    page.say(lesson::placed(&placed));
    page.say([lesson::no_step("five-plies")]);
}

/// Keeps answers in a journal and takes account of it.
fn account(answers: &[serde_json::Value]) -> Account {
    let folder = TempDir::new().unwrap();
    let journal = Journal::open(folder.path(), &"anna".parse().unwrap()).unwrap();
    let lines: Vec<String> = answers.iter().map(|answer| format!("{answer}\n")).collect();
    std::fs::write(journal.path(), lines.concat()).unwrap();
    Account::of(&journal).unwrap().0
}

fn answer(time: &str, exercise: &str, kind: &str, right: bool) -> serde_json::Value {
    json!({
        "v": 1, "type": "answer", "time": time, "session": "s", "exercise": exercise, "kind": kind,
        "subject": { "square": "c4" }, "expected": { "squares": [] }, "reply": "none",
        "verdict": if right { "right" } else { "wrong" },
        "score": f64::from(u8::from(right)), "millis": 9_000, "late": false, "looks": 0
    })
}

/// Answers of three months to three kinds of question.
fn answers() -> Vec<serde_json::Value> {
    let mut answers = Vec::new();
    for n in 0..12 {
        let right = n % 4 > 0;
        let (second, day) = (n % 60, 1 + n);
        answers.push(answer(
            &format!("2026-09-{day:02}T18:00:{second:02}Z"),
            "drill",
            "color",
            right,
        ));
        answers.push(answer(
            &format!("2026-11-{day:02}T18:00:{second:02}Z"),
            "drill",
            "color",
            true,
        ));
        let mut name = answer(
            &format!("2026-11-{day:02}T18:01:{second:02}Z"),
            "drill",
            "name",
            right,
        );
        name["subject"] = json!({ "square": "c6", "view": "black" });
        name["reply"] = json!(if right { "c6" } else { "f3" });
        answers.push(name);
        for plies in [1, 3, 5, 7] {
            let mut ahead = answer(
                &format!("2026-10-{day:02}T18:0{plies}:{second:02}Z"),
                "ahead",
                "attacks",
                plies < 4 || n % 2 == 0,
            );
            ahead["expected"] = json!({ "squares": [format!("a{n}-{plies}")] });
            ahead["start"] = json!("8/8/8/8/8/8/8/8 w - - 0 1");
            ahead["moves"] = json!([]);
            ahead["position"] = ahead["start"].clone();
            ahead["hardness"] = json!({
                "plies": plies, "men": 20, "captures": 1, "moved": null, "opened": 0, "closed": 0
            });
            answers.push(ahead);
        }
    }
    answers.sort_by_key(|answer| answer["time"].to_string());
    answers
}

/// Two pupils who held a lesson of three parts, and one who did not.
fn results() -> LessonResults {
    let answer = |kind: &str, subject: Value, verdict: &str| -> AnswerRecord {
        let mut answer = json!({
            "time": "2026-11-19T12:00:00Z", "session": "s-1", "exercise": "drill", "kind": kind, "subject": subject,
            "expected": {}, "reply": "", "verdict": verdict, "score": 0.0, "millis": null, "late": false, "looks": 0
        });
        if kind == "standing" {
            answer["position"] = json!("4k3/8/8/8/8/8/8/4K3 b - - 0 14");
        } else if kind == "whereabouts" {
            answer["position"] = json!("4k3/8/8/8/8/8/8/4K3 w - - 0 15");
            answer["start"] = json!("4k3/8/8/8/8/8/8/R3K3 w - - 0 1");
        }
        serde_json::from_value(answer).unwrap()
    };
    let part = |answers: &[AnswerRecord], time| {
        let mut part = PartResult::default();
        for answer in answers {
            part.take(time, &Record::Answer(Box::new(answer.clone())));
        }
        part
    };
    let standing = json!({ "color": "white", "role": "rook" });
    let aligned = |verdict| answer("aligned", json!({ "squares": ["c1", "h6"] }), verdict);
    let held = |verdict, finished| HeldLesson {
        time: "2026-11-19T12:00:00Z".parse().unwrap(),
        finished,
        parts: vec![
            part(&[aligned(verdict), aligned("right")], 2),
            part(
                &[
                    answer("standing", standing.clone(), "wrong"),
                    answer("whereabouts", json!({ "man": "a1" }), "wrong"),
                    answer("hanging", json!({ "color": "white" }), "wrong"),
                ],
                1,
            ),
            part(&[answer("turn", json!({}), verdict)], 1),
        ],
    };
    LessonResults {
        title: Some("Tuesday".to_owned()),
        parts: vec![
            ("Lines".to_owned(), Some(2)),
            ("Rooks".to_owned(), None),
            ("A game".to_owned(), Some(1)),
        ],
        learners: vec![
            ("Anna".to_owned(), vec![held("right", true)]),
            (
                "Ben".to_owned(),
                vec![held("right", true), held("wrong", false)],
            ),
            ("Zoe".to_owned(), Vec::new()),
        ],
    }
}

#[test]
fn progress_is_told_like_this() {
    let mut page = Page::default();
    let now: Timestamp = "2026-11-20T12:00:00Z".parse().unwrap();
    let answers = answers();
    let whole = account(&answers);
    page.head("In words");
    page.say(progress::progress("anna", &whole, now, LESSON, true));
    page.head("Drawn");
    page.say(progress::progress("anna", &whole, now, LESSON, false));
    page.head("After one answer");
    page.say(progress::progress(
        "anna",
        &account(&answers[..1]),
        now,
        LESSON,
        true,
    ));
    page.head("After two weeks");
    let mut young = answers.clone();
    young.retain(|answer| answer["time"].to_string().contains("2026-11"));
    let fortnight = "2026-11-14T12:00:00Z".parse().unwrap();
    let young = account(&young);
    page.say(progress::progress("anna", &young, fortnight, LESSON, true));
    page.head("Without an answer");
    page.say(progress::progress("anna", &account(&[]), now, LESSON, true));
    page.head("A group");
    page.say(vec![progress::NOBODY_YET.to_owned()]);
    page.say([
        progress::of_group("anna", &whole, now),
        progress::of_group("ben", &account(&[]), now),
    ]);
    page.head("A class file");
    page.say([
        commands::named_twice("Ana"),
        commands::not_in_the_class("Anna", &["Ana".to_owned(), "Hanna".to_owned()]),
        commands::not_in_the_class("Zoe", &[]),
        asides::not_of_the_class(&["zoe".to_owned()]),
        asides::entered_before("Ana"),
        asides::not_on_paper(3, "A game", "a game needs an opponent"),
    ]);
    page.head("A lesson of a group");
    page.say(progress::held::lesson(&results()));
    for (who, account) in [("Anna", &whole), ("Ben", &account(&[]))] {
        page.head("A report for parents");
        page.say([progress::parents::opening(who, now)]);
        let (can, deeds) = progress::parents::can(who, account);
        page.say([can]);
        page.say(deeds);
        page.say(progress::parents::changed(who, account, now));
        page.say(progress::parents::next(who, account));
    }
    page.head("A report for parents of who was taught");
    let mut taught = answers.clone();
    taught.retain(|answer| answer["kind"] == "name");
    for answer in &mut taught {
        answer["subject"]["view"] = json!("white");
        answer["helped"] = json!(true);
    }
    page.say(progress::parents::next("Zoe", &account(&taught)));
    page.head("How far ahead");
    let reaches = [
        Reach::NotMeasured {
            answers: 7,
            of: 40,
            levels: 1,
        },
        Reach::NotMeasured {
            answers: 50,
            of: 40,
            levels: 1,
        },
        Reach::NotMeasured {
            answers: 50,
            of: 40,
            levels: 2,
        },
        Reach::Measured {
            plies: 4.25,
            low: 3.1,
            high: Some(5.5),
        },
        Reach::Measured {
            plies: 8.0,
            low: 6.75,
            high: None,
        },
    ];
    for reach in &reaches {
        page.say([progress::reach(reach), progress::measured_briefly(reach)]);
    }
    page.head("In tables and charts");
    page.say(Chart::ALL.map(progress::chart_title));
    page.say([0.04, -0.127, 0.001].map(progress::change_words));
    page.say([(1, 1), (2, 4), (16, u32::MAX)].map(|(from, to)| progress::band_title(from, to)));
    let month = MonthReach {
        month: jiff::civil::date(2026, 3, 1),
        answers: 40,
        reach: reaches[3],
    };
    page.say([progress::month_title(&month), progress::month_short(&month)]);
    page.hold("progress");
}
