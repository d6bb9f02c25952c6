//! The journal keeps whole lines, whatever happens to the programs that write it.

use std::collections::HashMap;
use std::env;
use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use sansvoir::exercise::{Answered, Hardness, Setting};
use sansvoir::game::{Line, Start, fen_of};
use sansvoir::learner::{
    AnswerRecord, Appended, BrokenLines, Contents, EndRecord, GameRef, Journal, JournalProblem,
    LearnerName, Played, Record, Stamp, StartRecord,
};
use sansvoir::question::{
    Attacks, BalanceWhy, Legality, LineQuestion, LineWhy, Mark, Question, Scene, Truth, Why,
};
use serde::Deserialize;
use serde_json::{Value, json};
use shakmaty::CastlingMode;
use shakmaty::uci::UciMove;
use tempfile::TempDir;

const LEARNER: &str = "Ilse Marek";

fn journal(folder: &Path) -> Journal {
    Journal::open(folder, &LEARNER.parse().unwrap()).unwrap()
}

fn stamp(session: &str) -> Stamp {
    Stamp::new("2026-03-01T18:20:04.75Z".parse().unwrap(), session)
}

fn end(session: &str, plies: usize) -> Record {
    Record::End(EndRecord {
        stamp: stamp(session),
        finished: false,
        plies,
        looks: 0,
        helped: false,
    })
}

fn line(moves: &str) -> Line {
    let mut line = Line::new(Start::standard());
    for uci in moves.split(' ') {
        let uci: UciMove = uci.parse().unwrap();
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    line
}

fn answer(line: &Line, question: LineQuestion, text: &str) -> Answered {
    let scene = Scene::new(line, line.len());
    let truth = question.truth(scene);
    let reply = question.form().read(text).unwrap();
    Answered {
        question: Question::Line(question),
        setting: Some(Setting::of(scene)),
        mark: Mark::new(&truth, &reply),
        truth,
        text: text.to_owned(),
        reply: Some(reply),
        why: Why::Line(LineWhy::Balance(BalanceWhy::default())),
        millis: Some(4210),
        think: Some(20_000),
        late: false,
        repeat: false,
        helped: false,
        dialogue: None,
        looks: 0,
        hardness: Some(Hardness::new(question, scene, scene.plies())),
        tries: None,
    }
}

fn bishop_answer() -> Record {
    let question = LineQuestion::Attacks(Attacks {
        square: "c4".parse().unwrap(),
    });
    let game = GameRef {
        file: "club.pgn".to_owned(),
        number: 2,
    };
    let answered = answer(
        &line("e2e4 e7e5 f1c4 b8c6 g2g3"),
        question,
        "d5 e6 f7 d3 e2 f1 b5 a6 b3",
    );
    let record = AnswerRecord::new(stamp("7c1e"), "replay", Some(game), &answered);
    Record::Answer(Box::new(record))
}

fn start() -> Record {
    Record::Start(StartRecord {
        stamp: stamp("7c1e"),
        learner: "Zoë Ångström".parse().unwrap(),
        exercise: "replay".to_owned(),
        played: Some(Played::of(&line("e2e4 e7e5"))),
        game: None,
        seed: 9,
        plan: json!({"every": 8}),
    })
}

fn text(journal: &Journal) -> String {
    fs::read_to_string(journal.path()).unwrap()
}

fn add(journal: &Journal, text: &[u8]) {
    let mut bytes = fs::read(journal.path()).unwrap_or_default();
    bytes.extend_from_slice(text);
    fs::write(journal.path(), bytes).unwrap();
}

#[test]
fn an_answer_stands_in_the_journal_as_promised() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    assert_eq!(journal.append(&bishop_answer()).unwrap(), Appended::Plainly);
    assert_eq!(
        text(&journal),
        concat!(
            r#"{"v":1,"type":"answer","time":"2026-03-01T18:20:04Z","session":"7c1e","#,
            r#""exercise":"replay","kind":"attacks","#,
            r#""start":"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1","#,
            r#""moves":["e2e4","e7e5","f1c4","b8c6","g2g3"],"#,
            r#""position":"r1bqkbnr/pppp1ppp/2n5/4p3/2B1P3/6P1/PPPP1P1P/RNBQK1NR b KQkq - 0 3","#,
            r#""subject":{"square":"c4"},"#,
            r#""expected":{"squares":["f1","e2","b3","d3","b5","d5","a6","e6","f7"],"optional":["a2"]},"#,
            r#""reply":"d5 e6 f7 d3 e2 f1 b5 a6 b3","verdict":"right","score":1.0,"#,
            r#""millis":4210,"think":20000,"late":false,"looks":0,"#,
            r#""hardness":{"plies":5,"men":32,"captures":0,"moved":3,"opened":4,"closed":0},"#,
            r#""game":{"file":"club.pgn","number":2}}"#,
            "\n"
        )
    );
    assert_eq!(journal.read().unwrap().records, [bishop_answer()]);
}

#[test]
fn an_unknown_time_is_null_and_a_repeat_is_marked() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let Record::Answer(mut answer) = bishop_answer() else {
        panic!("an answer");
    };
    answer.millis = None;
    answer.repeat = true;
    let record = Record::Answer(answer);
    let _ = journal.append(&record).unwrap();
    let told = text(&journal);
    let kept = r#""millis":null,"think":20000,"late":false,"repeat":true,"looks":0,"#;
    assert!(told.contains(kept), "{told}");
    assert_eq!(journal.read().unwrap().records, [record]);
    // A time that is left out is not the same as one that nobody knows.
    add(&journal, told.replace(r#""millis":null,"#, "").as_bytes());
    let broken = journal.read().unwrap().broken;
    assert_eq!(broken.count, 1);
    assert!(broken.first[0].reason.contains("millis"), "{broken:?}");
}

#[test]
fn an_answer_without_its_hardness_is_read() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&bishop_answer()).unwrap();
    let line = text(&journal);
    let begin = line.find(r#""hardness""#).unwrap();
    let end = line.find(r#""game""#).unwrap();
    let old = format!("{}{}", &line[..begin], &line[end..]);
    fs::write(journal.path(), &old).unwrap();
    let contents = journal.read().unwrap();
    assert_eq!(contents.broken, BrokenLines::default());
    let Record::Answer(answer) = &contents.records[0] else {
        panic!("an answer");
    };
    assert_eq!(answer.hardness, None);
    let Record::Answer(mut new) = bishop_answer() else {
        panic!("an answer");
    };
    new.hardness = None;
    assert_eq!(*answer, new);
}

#[test]
fn the_frame_of_a_session_stands_in_the_journal_as_promised() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&start()).unwrap();
    let _ = journal.append(&end("7c1e", 2)).unwrap();
    assert_eq!(
        text(&journal),
        concat!(
            r#"{"v":1,"type":"start","time":"2026-03-01T18:20:04Z","session":"7c1e","#,
            r#""learner":"Zoë Ångström","#,
            r#""exercise":"replay","#,
            r#""start":"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1","#,
            r#""moves":["e2e4","e7e5"],"seed":9,"plan":{"every":8}}"#,
            "\n",
            r#"{"v":1,"type":"end","time":"2026-03-01T18:20:04Z","session":"7c1e","#,
            r#""finished":false,"plies":2,"looks":0}"#,
            "\n"
        )
    );
}

#[test]
fn everything_written_is_read_back_as_it_was() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let mut bare = bishop_answer();
    if let Record::Answer(answer) = &mut bare {
        (answer.start, answer.moves, answer.position) = (None, None, None);
        answer.game = None;
        answer.reply = "ü \"quoted\" \u{1b}[31m\nand a second line".to_owned();
    }
    let illegal = LineQuestion::Legality(Legality {
        attempt: "e1g1".parse().unwrap(),
    });
    let illegal = answer(&line("e2e4 e7e5"), illegal, "legal");
    let illegal = AnswerRecord::new(stamp("7c1e"), "replay", None, &illegal);
    let records = [
        start(),
        bishop_answer(),
        bare,
        Record::Answer(Box::new(illegal)),
        end("7c1e", 2),
    ];
    for record in &records {
        assert_eq!(journal.append(record).unwrap(), Appended::Plainly);
    }
    let contents = journal.read().unwrap();
    assert_eq!(contents.records, records);
    assert_eq!(contents.broken, BrokenLines::default());
    assert_eq!(text(&journal).lines().count(), records.len());
}

#[test]
fn a_stranger_can_recheck_every_verdict_from_the_journal_alone() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&bishop_answer()).unwrap();
    let kept: Value = serde_json::from_str(&text(&journal)).unwrap();
    let start = Start::from_fen(kept["start"].as_str().unwrap(), CastlingMode::Standard).unwrap();
    let mut line = Line::new(start);
    for uci in Vec::<UciMove>::deserialize(&kept["moves"]).unwrap() {
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    let scene = Scene::new(&line, line.len());
    assert_eq!(kept["position"], fen_of(scene.position()));
    let asked = json!({"kind": kept["kind"], "subject": kept["subject"]});
    let question = LineQuestion::deserialize(asked).unwrap();
    let expected = Truth::deserialize(&kept["expected"]).unwrap();
    assert_eq!(question.truth(scene), expected);
    let reply = question.form().read(kept["reply"].as_str().unwrap());
    let mark = Mark::new(&expected, &reply.unwrap());
    assert_eq!(kept["verdict"], json!(mark.verdict));
    assert_eq!(kept["score"], mark.score);
}

#[test]
fn a_question_that_a_hand_has_spoiled_breaks_no_line_and_is_asked_no_more() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&bishop_answer()).unwrap();
    let whole = text(&journal);
    for (sense, nonsense, is_question) in [
        (r#"{"square":"c4"}"#, r#"{"square":"j9"}"#, false),
        (r#"["e2e4","#, r#"["e2-e4!","#, true),
        (r#""moves":["#, r#""played":["#, true),
        (r#""expected":{"#, r#""expected":{"mood":1,"#, true),
    ] {
        fs::write(journal.path(), whole.replace(sense, nonsense)).unwrap();
        let contents = journal.read().unwrap();
        let [Record::Answer(answer)] = contents.records.as_slice() else {
            panic!("{nonsense} breaks no line");
        };
        assert_eq!(answer.question().is_some(), is_question, "{nonsense}");
    }
}

#[test]
fn a_journal_that_is_not_there_is_empty_and_stays_away_until_something_is_kept() {
    let folder = TempDir::new().unwrap();
    let data = folder.path().join("deep").join("data");
    let journal = journal(&data);
    assert_eq!(journal.read().unwrap(), Contents::default());
    assert!(!data.exists());
    let _ = journal.append(&end("a", 1)).unwrap();
    assert_eq!(journal.path(), data.join("ilse marek.jsonl"));
    assert_eq!(journal.read().unwrap().records, [end("a", 1)]);
}

#[test]
fn a_line_cut_off_anywhere_is_sealed_and_told_of_once() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&bishop_answer()).unwrap();
    let whole = text(&journal);
    let cut_off = whole.trim_end();
    for length in 1..cut_off.len() {
        fs::write(journal.path(), format!("{whole}{}", &cut_off[..length])).unwrap();
        let before = journal.read().unwrap();
        assert_eq!((before.records.len(), before.broken.count), (1, 0));
        assert_eq!(
            journal.append(&end("b", 1)).unwrap(),
            Appended::AfterTornLine
        );
        assert_eq!(journal.append(&end("b", 2)).unwrap(), Appended::Plainly);
        let after = journal.read().unwrap();
        assert_eq!(after.broken.count, 0, "cut off after {length} bytes");
        assert!(
            after.broken.first.is_empty(),
            "cut off after {length} bytes"
        );
        let kept: Vec<&Record> = after
            .records
            .iter()
            .filter(|record| !matches!(record, Record::Seal(_)))
            .collect();
        assert_eq!(kept, [&bishop_answer(), &end("b", 1), &end("b", 2)]);
    }
}

#[test]
fn a_last_line_that_lacks_nothing_but_its_newline_is_kept() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&end("a", 1)).unwrap();
    fs::write(journal.path(), text(&journal).trim_end()).unwrap();
    assert_eq!(journal.read().unwrap().records, [end("a", 1)]);
    let _ = journal.append(&end("a", 2)).unwrap();
    let contents = journal.read().unwrap();
    assert_eq!(contents.records[0], end("a", 1));
    assert_eq!(contents.records[2], end("a", 2));
    assert_eq!(contents.broken, BrokenLines::default());
}

#[test]
fn a_tail_of_zeros_after_a_power_loss_is_sealed_too() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let _ = journal.append(&end("a", 1)).unwrap();
    add(&journal, &[0; 300]);
    assert_eq!(
        journal.append(&end("a", 2)).unwrap(),
        Appended::AfterTornLine
    );
    assert_eq!(journal.read().unwrap().broken.count, 0);
}

#[test]
fn a_broken_line_in_the_midst_is_named_and_left_alone() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let long = vec![b'x'; 33 << 20];
    for (broken, reason) in [
        (
            r#"{"v":1,"type":"answer","#.as_bytes(),
            "no whole JSON object",
        ),
        (b"my notes", "no whole JSON object"),
        (b"\xff\xfe", "no whole JSON object"),
        (b"[1,2]", "no whole JSON object"),
        (b"17", "no whole JSON object"),
        (br#"{"type":"end"}"#, "the field v is missing"),
        (
            br#"{"v":0,"type":"end","time":"2026-03-01T18:20:04Z","session":"a"}"#,
            "version 0",
        ),
        (
            br#"{"v":1,"type":"end","time":"2026-03-01T18:20:04Z","session":"a","looks":0}"#,
            "the field finished is missing",
        ),
        (
            br#"{"v":1,"type":"end","time":"yesterday","session":"a","finished":true,"plies":0,"looks":0}"#,
            "four digit",
        ),
        (long.as_slice(), "far too long"),
    ] {
        let _ = fs::remove_file(journal.path());
        let _ = journal.append(&end("a", 1)).unwrap();
        add(&journal, broken);
        add(&journal, b"\n\n\r\n");
        let before = fs::read(journal.path()).unwrap();
        assert_eq!(journal.append(&end("a", 2)).unwrap(), Appended::Plainly);
        let contents = journal.read().unwrap();
        assert_eq!(contents.records, [end("a", 1), end("a", 2)]);
        assert_eq!(contents.broken.count, 1, "{reason}");
        assert_eq!(contents.broken.first[0].line, 2);
        let said = contents.broken.first[0].to_string();
        assert!(
            said.starts_with("line 2 ") && said.contains(reason),
            "{said}"
        );
        assert!(fs::read(journal.path()).unwrap().starts_with(&before));
    }
}

#[test]
fn what_is_said_of_a_broken_line_steers_no_terminal() {
    let folder = tempfile::tempdir().unwrap();
    let journal = Journal::open(folder.path(), &"learner".parse().unwrap()).unwrap();
    let line = r#"{"v":1,"type":"answer","time":"2026-03-01T18:20:04Z","session":"s","verdict":"\u001b[2J\u202e"}"#;
    std::fs::write(journal.path(), format!("{line}\n")).unwrap();
    let reason = &journal.read().unwrap().broken.first[0].reason;
    assert!(reason.contains(r"\u{1b}[2J\u{202e}"), "{reason}");
}

#[test]
fn what_a_later_build_of_the_same_version_adds_is_passed_over() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let stamp = r#""time":"2026-03-01T18:20:04Z","session":"a""#;
    let lines = [
        format!(r#"{{"v":1,"type":"rest",{stamp},"moves":7}}"#),
        format!(r#"{{"v":1,"type":"answer",{stamp},"kind":"weather","subject":3,"score":"?"}}"#),
        format!(
            r#"{{"v":1,"mood":{{"now":"fine"}},"type":"end",{stamp},"finished":false,"plies":1,"looks":0}}"#
        ),
    ];
    add(&journal, lines.map(|line| line + "\n").concat().as_bytes());
    let contents = journal.read().unwrap();
    assert_eq!(contents.broken, BrokenLines::default());
    assert_eq!(contents.records.len(), 1);
}

#[test]
fn a_journal_of_a_later_version_is_refused_and_not_touched() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    for newer in [
        r#"{"v":2,"type":"answer","time":{"unix":1772389204},"moves":"e4 e5"}"#,
        r#"{"v":3,"type":"end","time":"2026-03-01T18:20:04Z","session":"a"}"#,
        r#"{"when":1,"v":99}"#,
    ] {
        let _ = fs::remove_file(journal.path());
        let _ = journal.append(&end("a", 1)).unwrap();
        add(&journal, format!("{newer}\n").as_bytes());
        let before = text(&journal);
        let learner: LearnerName = LEARNER.parse().unwrap();
        for error in [
            journal.read().unwrap_err(),
            Journal::open(folder.path(), &learner).unwrap_err(),
        ] {
            assert!(matches!(
                error.problem,
                JournalProblem::Newer {
                    line: 2,
                    version: 2..
                }
            ));
            let said = error.to_string();
            assert!(
                said.contains("later version") && said.contains("--data"),
                "{said}"
            );
        }
        assert_eq!(text(&journal), before);
    }
}

#[test]
fn a_folder_in_place_of_the_journal_is_named_with_its_remedy() {
    let folder = TempDir::new().unwrap();
    let before = journal(folder.path());
    fs::create_dir(before.path()).unwrap();
    let learner: LearnerName = LEARNER.parse().unwrap();
    for error in [
        Journal::open(folder.path(), &learner).unwrap_err(),
        before.read().unwrap_err(),
        before.append(&end("a", 1)).unwrap_err(),
    ] {
        assert!(matches!(error.problem, JournalProblem::Folder), "{error:?}");
        let said = error.to_string();
        assert!(
            said.contains("ilse marek.jsonl") && said.contains("--data"),
            "{said}"
        );
    }
}

#[test]
fn a_file_in_place_of_the_data_folder_is_named_with_its_remedy() {
    let folder = TempDir::new().unwrap();
    let data = folder.path().join("data");
    let before = journal(&data);
    fs::write(&data, "no folder").unwrap();
    for error in [
        Journal::open(&data, &LEARNER.parse().unwrap()).unwrap_err(),
        before.append(&end("a", 1)).unwrap_err(),
    ] {
        assert!(
            matches!(error.problem, JournalProblem::FolderNotMade(_)),
            "{error:?}"
        );
        assert!(error.to_string().contains("--data"), "{error}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_apart_and_named_with_its_remedy() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    std::os::unix::fs::symlink("/dev/full", journal.path()).unwrap();
    let error = journal.append(&end("a", 1)).unwrap_err();
    assert!(
        matches!(error.problem, JournalProblem::Full(_)),
        "{error:?}"
    );
    assert!(error.to_string().contains("no space left"), "{error}");
}

const FOLDER: &str = "SANSVOIR_TEST_JOURNAL";
const SESSION: &str = "SANSVOIR_TEST_SESSION";
const COUNT: &str = "SANSVOIR_TEST_COUNT";

#[test]
#[ignore = "the other tests run this as a process of its own"]
fn write_from_a_process_of_its_own() {
    let journal = journal(Path::new(&env::var_os(FOLDER).unwrap()));
    let session = env::var(SESSION).unwrap();
    let count = env::var(COUNT).unwrap().parse().unwrap();
    for number in 0..count {
        let _ = journal.append(&end(&session, number)).unwrap();
    }
}

fn writer(folder: &Path, session: &str, count: usize) -> Child {
    Command::new(env::current_exe().unwrap())
        .args([
            "--ignored",
            "--exact",
            "journal::write_from_a_process_of_its_own",
        ])
        .env(FOLDER, folder)
        .env(SESSION, session)
        .env(COUNT, count.to_string())
        .stdout(Stdio::null())
        .spawn()
        .unwrap()
}

/// The numbers that each session wrote, in the order of the file.
fn numbers(contents: &Contents) -> HashMap<String, Vec<usize>> {
    let mut numbers: HashMap<String, Vec<usize>> = HashMap::new();
    for record in &contents.records {
        if let Record::End(end) = record {
            let session = end.stamp.session.clone();
            numbers.entry(session).or_default().push(end.plies);
        }
    }
    numbers
}

#[test]
fn four_writers_at_once_lose_nothing_and_break_no_line() {
    const EACH: usize = 250;
    let folder = TempDir::new().unwrap();
    let mut writers: Vec<Child> = (0..4)
        .map(|writer_number| writer(folder.path(), &writer_number.to_string(), EACH))
        .collect();
    for writer in &mut writers {
        assert!(writer.wait().unwrap().success());
    }
    let contents = journal(folder.path()).read().unwrap();
    assert_eq!(contents.broken, BrokenLines::default());
    assert_eq!(contents.records.len(), 4 * EACH);
    let numbers = numbers(&contents);
    for session in ["0", "1", "2", "3"] {
        assert_eq!(numbers[session], (0..EACH).collect::<Vec<_>>());
    }
}

#[test]
fn a_writer_killed_at_any_moment_leaves_whole_lines_without_a_gap() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let lines = || fs::read(journal.path()).map_or(0, |text| text.split(|b| *b == b'\n').count());
    let mut torn = 0;
    for kill in 0..20 {
        let before = lines();
        let mut writer = writer(folder.path(), &kill.to_string(), usize::MAX);
        let patience = Instant::now();
        while lines() < before + 3 {
            assert!(
                patience.elapsed() < Duration::from_secs(30),
                "no line comes"
            );
            thread::sleep(Duration::from_millis(1));
        }
        // A moment that drifts through the writer's round of lock, write and sync.
        thread::sleep(Duration::from_micros(kill * 137));
        writer.kill().unwrap();
        writer.wait().unwrap();
        let session = format!("after {kill}");
        torn += usize::from(journal.append(&end(&session, 0)).unwrap() == Appended::AfterTornLine);
    }
    let contents = journal.read().unwrap();
    assert_eq!(contents.broken, BrokenLines::default());
    let numbers = numbers(&contents);
    for kill in 0..20 {
        let written = &numbers[&kill.to_string()];
        assert_eq!(*written, (0..written.len()).collect::<Vec<_>>());
        assert_eq!(numbers[&format!("after {kill}")], [0]);
    }
    println!("{torn} of 20 kills cut a line off");
}

#[test]
fn an_answer_in_chess960_says_so_and_no_other_does() {
    let folder = TempDir::new().unwrap();
    let journal = journal(folder.path());
    let fen = "nqr1kbbr/pppppppp/8/8/8/8/PPPPPPPP/NQR1KBBR w KQkq - 0 1";
    let start = Start::from_fen(fen, CastlingMode::Chess960).unwrap();
    let question = LineQuestion::Attacks(Attacks {
        square: "b1".parse().unwrap(),
    });
    let answered = answer(&Line::new(start), question, "none");
    let record = AnswerRecord::new(stamp("960"), "replay", None, &answered);
    let _ = journal.append(&Record::Answer(Box::new(record))).unwrap();
    let _ = journal.append(&bishop_answer()).unwrap();
    let text = text(&journal);
    let lines: Vec<&str> = text.lines().collect();
    assert!(lines[0].contains(r#""variant":"chess960""#), "{}", lines[0]);
    assert!(!lines[1].contains("variant"), "{}", lines[1]);
    let records = journal.read().unwrap().records;
    let [Record::Answer(first), Record::Answer(second)] = records.as_slice() else {
        panic!("two answers were kept");
    };
    assert_eq!(first.variant.as_deref(), Some("chess960"));
    assert_eq!(second.variant, None);
}
