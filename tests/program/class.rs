//! A coach's class: its file, what lessons bring, answers from paper, and what is told of all of it.

use std::fs;

use serde_json::Value;

use crate::program::{Desk, Said};

const LESSON: &str = r#"title = "Tuesday group"
notes = "Think first."

[[part]]
heading = "Light or dark?"
exercise = "drill"
kinds = ["color"]
count = 4
pass = 3
seed = 5

[[part]]
heading = "A game"
notes = "Read slowly."
exercise = "replay"
files = "club-evening.pgn"
game = 3
to = "8..."
every = 8
questions = 2
seed = 6
"#;

const CLASS: &str = r#"title = "Tuesday"

[[pupil]]
name = "Ana"
shown = "Ana Petrov"

[[pupil]]
name = "Bruno"
letters = "german"
view = "black"
more_time = 5
"#;

struct Group {
    desk: Desk,
    lesson: String,
    class: String,
}

fn group() -> Group {
    let desk = Desk::new();
    Group {
        lesson: desk.file("tuesday.toml", LESSON),
        class: desk.file("class.toml", CLASS),
        desk,
    }
}

impl Group {
    fn run(&self, words: &[&str], input: &str) -> Said {
        self.desk.run(words, input)
    }

    /// Holds the lesson for a pupil with these replies.
    fn hold(&self, pupil: &str, replies: &str) {
        let words = [
            "lesson",
            &self.lesson,
            "--class",
            &self.class,
            "--learner",
            pupil,
        ];
        self.run(&words, replies).ends(0, &[]);
    }

    fn results(&self, format: &str) -> String {
        let words = [
            "progress",
            "--lesson",
            &self.lesson,
            "--class",
            &self.class,
            "--format",
            format,
        ];
        let said = self.run(&words, "");
        said.ends(0, &[]);
        said.out
    }

    fn records(&self, pupil: &str) -> Vec<Value> {
        let text = fs::read_to_string(self.desk.path(&format!("data/{pupil}.jsonl"))).unwrap();
        text.lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }

    /// The command of the lesson's sheet, and its page of questions, reading copy and key.
    fn sheet(&self) -> (String, String) {
        let sheet = [
            "sheet",
            "--format",
            "text",
            "--seed",
            "9",
            "lesson",
            &self.lesson,
        ];
        let said = self.run(&sheet, "");
        said.ends(0, &[]);
        let command = said
            .out
            .lines()
            .find_map(|line| line.strip_prefix("    sansvoir "));
        (format!("sansvoir {}", command.unwrap()), said.out.clone())
    }
}

#[test]
fn a_name_that_is_not_in_the_class_is_refused_with_the_names_near_it_and_leaves_no_journal() {
    let group = group();
    for words in [
        &["drill", "color"][..],
        &["progress"],
        &["lesson", &group.lesson],
    ] {
        let words = [words, &["--class", &group.class, "--learner", "Anna"]].concat();
        group
            .run(&words, "pass\n")
            .ends(1, &["nobody in this class is called Anna: is Ana meant?"]);
    }
    let words = ["drill", "color", "--class", &group.class];
    group.run(&words, "").ends(2, &["name one with --learner"]);
    assert!(!group.desk.path("data").exists());
}

#[test]
fn every_fault_of_a_class_file_is_told_at_its_place() {
    let group = group();
    let class = "titel = 1\n[[pupil]]\nname = \"Ana\"\n[[pupil]]\nname = \"ANA\"\nview = \"left\"\n[[pupil]]\n\
                 shown = \"x\"\n";
    let file = group.desk.file("wrong.toml", class);
    let said = group.run(&["progress", "--class", &file], "");
    said.ends(
        1,
        &[
            "wrong.toml:1:1: ",
            "wrong.toml:5:8: two pupils are called ANA",
            "wrong.toml:6:8: ",
            "wrong.toml:7:1: this pupil has no name",
        ],
    );
    let file = group.desk.file("none.toml", "title = \"x\"\n");
    group
        .run(&["progress", "--class", &file], "")
        .ends(1, &["this class has no pupil"]);
}

#[test]
fn what_a_pupil_needs_is_in_the_class_file() {
    let group = group();
    let drill = [
        "drill",
        "color",
        "--count",
        "1",
        "--class",
        &group.class,
        "--think",
        "3",
        "--learner",
    ];
    for (pupil, think) in [("Ana", 3_000), ("Bruno", 8_000)] {
        group
            .run(&[&drill[..], &[pupil]].concat(), "dark\n")
            .ends(0, &[]);
        let records = group.records(&pupil.to_lowercase());
        let answer = records
            .iter()
            .find(|record| record["type"] == "answer")
            .unwrap();
        assert_eq!(answer["think"], think, "{pupil}");
    }
    let look = ["replay", "--class", &group.class, "--learner", "Bruno"];
    let said = group.run(&look, "look\nstop\n").out;
    assert!(
        said.contains("    h  g  f  e  d  c  b  a\n"),
        "Black's side: {said}"
    );
}

#[test]
fn who_held_a_lesson_when_and_what_came_of_each_part_is_told() {
    let group = group();
    group.hold("Ana", &"pass\n".repeat(40));
    let text = group.results("text");
    assert!(
        text.starts_with("Lesson: Tuesday group, 2 parts.\n"),
        "{text}"
    );
    assert!(
        text.contains("1. Light or dark? 0 of 4, not passed; 2. A game: 0 of 4"),
        "{text}"
    );
    assert!(text.contains("Bruno: not held yet."), "{text}");
    group.hold("Bruno", &"pass\n".repeat(40));
    let text = group.results("text");
    assert!(
        text.contains("What most got wrong:\n1. Light or dark? Is "),
        "{text}"
    );
    assert!(
        text.contains(" light or dark? (missed by 2 of 2 pupils)"),
        "{text}"
    );
    let lines = group.results("json");
    let ana: Value = serde_json::from_str(lines.lines().next().unwrap()).unwrap();
    assert_eq!(
        (&ana["learner"], &ana["of"], &ana["passed"]),
        (&"Ana Petrov".into(), &4.into(), &false.into())
    );
    let csv = group.results("csv");
    assert_eq!(csv.lines().count(), 5, "{csv}");
    assert!(csv.contains(",1,Light or dark?,0,4,3,false,1\n"), "{csv}");
    let page = group.results("html");
    assert!(
        page.contains("<h1 dir=\"auto\">Lesson: Tuesday group</h1>"),
        "{page}"
    );
    assert!(page.contains(">0 of 4, not passed</td>"), "{page}");
    // Another title or another kind, another lesson; another pass mark is none.
    for (one, other, others) in [
        ("Tuesday", "Friday", 2),
        ("\"color\"", "\"name\"", 2),
        ("pass = 3", "pass = 2", 0),
    ] {
        assert!(LESSON.contains(one), "{one}");
        let other = group.desk.file("other.toml", LESSON.replace(one, other));
        let said = group.run(
            &["progress", "--lesson", &other, "--class", &group.class],
            "",
        );
        assert_eq!(said.out.matches("not held yet").count(), others, "{said:?}");
    }
}

#[test]
fn a_part_comes_again_until_it_is_passed_and_its_last_time_counts() {
    let group = group();
    let lesson = "title = \"x\"\nshuffle = true\n[[part]]\nexercise = \"drill\"\nkinds = [\"color\"]\ncount = 1\npass = 1\n\
                  until_passed = true\nseed = 5\nthink = 60\n";
    let file = group.desk.file("again.toml", lesson);
    let color = group.run(
        &[
            "sheet", "--format", "json", "drill", "color", "--count", "1", "--seed", "5",
        ],
        "",
    );
    let asked: Value = serde_json::from_str(&color.out).unwrap();
    let right = asked[0]["expected"]["color"].as_str().unwrap();
    let wrong = if right == "light" { "dark" } else { "light" };
    // What was missed comes once more in the drill, and the part once more after that.
    let said = group.run(&["lesson", &file], &format!("{wrong}\n{right}\n{right}\n"));
    said.ends(0, &[]);
    assert!(said.out.contains("Once more"), "{said:?}");
    let sessions: Vec<String> = group
        .desk
        .records()
        .iter()
        .filter(|record| record["type"] == "start")
        .map(|record| record["session"].as_str().unwrap().to_owned())
        .collect();
    assert_eq!(
        sessions[1..]
            .iter()
            .map(|name| name.replace(&sessions[0], ""))
            .collect::<Vec<_>>(),
        ["-1", "-1-2"]
    );
    let said = group.run(&["progress", "--lesson", &file], "");
    assert!(
        said.out.contains("1. drill: 1 of 1, passed, 2 times"),
        "{said:?}"
    );
    let file = group
        .desk
        .file("never.toml", lesson.replace("pass = 1\n", ""));
    group
        .run(&["lesson", &file, "--check"], "")
        .ends(1, &["never.toml:7:16: nothing passes this part"]);
}

#[test]
fn the_sheet_of_a_lesson_has_no_moves_on_the_page_of_questions() {
    let (command, sheet) = group().sheet();
    assert!(
        command.contains("--format text --seed 9 lesson "),
        "{command}"
    );
    let pages: Vec<&str> = sheet.split("\n---\n").collect();
    let [questions, reading, key] = pages[..] else {
        panic!("three pages: {sheet}");
    };
    for heading in ["PART 1 OF 2. LIGHT OR DARK?", "PART 2 OF 2. A GAME"] {
        assert!(
            pages.iter().all(|page| page.contains(heading)),
            "{heading}: {sheet}"
        );
    }
    assert!(questions.contains("Think first.") && questions.contains("Read slowly."));
    assert!(
        !questions.contains("Move 1") && reading.contains("Move 1, White: "),
        "{sheet}"
    );
    assert!(questions.contains("8. ") && !questions.contains("9. ") && key.contains("8. "));
    assert!(reading.contains("Question 8. ") && !reading.contains("____"));
}

#[test]
fn answers_of_several_pupils_to_a_lesson_are_entered_and_stand_as_that_lesson() {
    let group = group();
    let (command, sheet) = group.sheet();
    let key = sheet.split("\n---\n").last().unwrap();
    let dark = |number: usize| {
        let line = key
            .lines()
            .find(|line| line.starts_with(&format!("{number}. ")))
            .unwrap();
        if line.contains("dark") {
            "dark"
        } else {
            "light"
        }
    };
    let right: Vec<String> = (1..=4)
        .map(|number| {
            format!(
                "{number} {}
",
                dark(number)
            )
        })
        .collect();
    let right = right.concat();
    let rest = "5\n6 !no idea\n7\n8\n";
    let text = format!("{command}\nAna:\n{right}{rest}\nBruno:\n1\n2\n3\n4\n{rest}");
    let file = group.desk.file("answers.txt", &text);
    let enter = ["sheet", "enter", &file, "--class", &group.class];
    let said = group.run(&enter, "");
    said.ends(0, &[]);
    assert!(
        said.out.contains(
            "8 answers entered for Ana: 4 right, 0 in part, 1 wrong, 3 passed. 4 of 8 points."
        ),
        "{said:?}"
    );
    let text = group.results("text");
    assert!(
        text.contains("1. Light or dark? 4 of 4, passed; 2. A game: 0 of 4"),
        "{text}"
    );
    assert!(
        text.contains("1. Light or dark? 0 of 4, not passed"),
        "{text}"
    );
    let unreadable = group
        .records("ana")
        .into_iter()
        .find(|record| record["reply"] == "!no idea");
    assert_eq!(unreadable.unwrap()["verdict"], "wrong");
    group.run(&enter, "").ends(1, &["in the journal already"]);
    // One more pupil's answers behind those that are known.
    let more = format!("{command}\nAna:\n{right}{rest}\nBruno:\n1 dark\n2\n3\n4\n{rest}");
    let file = group.desk.file("answers.txt", more);
    let said = group.run(&["sheet", "enter", &file, "--class", &group.class], "");
    said.ends(0, &[]);
    assert!(
        said.out
            .contains("Ana: these answers are in the journal already."),
        "{said:?}"
    );
}

#[test]
fn a_part_has_one_number_on_paper_and_in_the_results_where_another_is_left_out_of_the_sheet() {
    let desk = Desk::new();
    let part = |heading: &str| format!("[[part]]\nheading = \"{heading}\"\nexercise = ");
    let lesson = [
        part("One") + "\"drill\"\nkinds = [\"color\"]\ncount = 1\n",
        part("Two") + "\"play\"\n",
        part("Three") + "\"drill\"\nkinds = [\"aligned\"]\ncount = 1\n",
    ];
    let lesson = desk.file("three.toml", lesson.concat());
    let sheet = [
        "sheet", "--format", "text", "--seed", "1", "lesson", &lesson,
    ];
    let said = desk.run(&sheet, "");
    said.ends(0, &["Part 2, Two, is left out of the sheet"]);
    for heading in ["PART 1 OF 3. ONE", "PART 3 OF 3. THREE"] {
        assert!(said.out.contains(heading), "{heading}: {said:?}");
    }
    let held = desk.run(&["lesson", &lesson, "--seed", "1"], "pass\nresign\npass\n");
    assert!(held.out.contains("Part 3 of 3. Three."), "{held:?}");
    let results = desk.run(&["progress", "--lesson", &lesson], "");
    assert!(results.out.contains("3. Three: 0 of 1"), "{results:?}");
}

#[test]
fn all_faults_of_a_file_of_answers_are_told_at_once_and_nothing_is_entered() {
    let group = group();
    let (command, _) = group.sheet();
    let text = format!("{command}\nAnna:\n1\nBruno:\n1 green\n2\nx\n2\n3\n4\n5\n6\n7\n9\n");
    let file = group.desk.file("answers.txt", text);
    let said = group.run(&["sheet", "enter", &file, "--class", &group.class], "");
    said.ends(
        1,
        &[
            "answers.txt:2: nobody in this class is called Anna",
            "answers.txt:3: no line answers question 2, 3, 4, 5, 6, 7, 8",
            "answers.txt:5: question 1: ",
            "answers.txt:7: this line begins with no number",
            "answers.txt:8: question 2 is answered in line 6 already",
            "answers.txt:14: the sheet has no question 9",
            "answers.txt:14: no line answers question 8",
            "Nothing was entered",
        ],
    );
    assert!(!group.desk.path("data").exists(), "{said:?}");
}

#[test]
fn whoever_has_a_journal_and_is_not_in_the_class_is_told_of() {
    let group = group();
    group.hold("Ana", &"pass\n".repeat(40));
    let other = group.desk.file("one.toml", "[[pupil]]\nname = \"Bruno\"\n");
    let said = group.run(&["progress", "--class", &other], "");
    said.ends(
        0,
        &["1 learner has a journal here and no place in this class: ana."],
    );
    assert_eq!(said.out, "Bruno: no answer yet.\n");
}

#[test]
fn a_class_stands_in_rows_and_each_pupil_has_a_page_for_parents() {
    let group = group();
    group.hold("Ana", &"pass\n".repeat(40));
    let class = ["progress", "--class", &group.class];
    let said = group.run(&class, "");
    said.ends(0, &[]);
    assert!(
        said.out
            .starts_with("Ana Petrov: 0 of 29 steps passed, now 1. Squares from White's side"),
        "{said:?}"
    );
    assert!(said.out.contains("Bruno: no answer yet."), "{said:?}");
    let csv = group
        .run(&[&class[..], &["--format", "csv"]].concat(), "")
        .out;
    assert!(
        csv.lines()
            .nth(1)
            .unwrap()
            .starts_with("Ana Petrov,1,Squares from White's side,,,,8,1,"),
        "{csv}"
    );
    let answers = group
        .run(&["progress", "--learner", "Ana", "--format", "csv"], "")
        .out;
    assert_eq!(answers.lines().count(), 1 + 8, "{answers}");
    let page = group.desk.path("page.html");
    let page = page.to_str().unwrap();
    for _ in 0..2 {
        // What the program wrote it may write again.
        group
            .run(
                &[&class[..], &["--format", "report", "--out", page]].concat(),
                "",
            )
            .ends(0, &[]);
    }
    let report = fs::read_to_string(page).unwrap();
    assert_eq!(report.matches("<section class=\"sheet\">").count(), 2);
    assert_eq!(report.matches("<svg").count(), 2, "two pictures");
    for jargon in ["plies", "ply", "median", "whereabouts"] {
        assert!(!report.contains(&format!(" {jargon}")), "{jargon}");
    }
    fs::write(page, "mine").unwrap();
    group
        .run(
            &[&class[..], &["--format", "html", "--out", page]].concat(),
            "",
        )
        .ends(1, &["delete it first"]);
}

/// A mate in one, a claim of one that is none, and an ending.
const OWN: &str = "# mine\n\n6k1/5ppp/8/8/8/8/8/R6K w - - dm 1; bm Ra8#; id \"Back rank\";\n\
                   6k1/5ppp/8/8/8/8/8/R6K b - - dm 1; id \"No mate\";\n8/8/8/4k3/8/4K3/4P3/8 w - - 0 1\n";

#[test]
fn positions_of_ones_own_serve_wherever_positions_do() {
    let desk = Desk::new();
    let file = desk.file("mine.epd", OWN);
    let list = desk.run(&["games", &file], "");
    list.ends(0, &[]);
    assert!(list.out.contains("Back rank"), "{list:?}");
    let mate = ["ahead", &file, "--mate", "1", "--count", "3"];
    let said = desk.run(&mate, "Ra8#\n");
    said.ends(
        0,
        &["a mate is claimed here, and there is none within 1 move"],
    );
    assert!(
        said.out.contains("1 position with a forced mate."),
        "{said:?}"
    );
    assert_eq!(
        desk.records()
            .iter()
            .filter(|record| record["verdict"] == "right")
            .count(),
        1
    );
    for exercise in [
        &[
            "drill", "few", "--from", &file, "--count", "3", "--ask", "rebuild", "--plies", "2",
        ][..],
        &[
            "ahead",
            &file,
            "--count",
            "3",
            "--plies",
            "2",
            "--questions",
            "1",
        ],
    ] {
        let sheet = [&["sheet", "--format", "json", "--seed", "4"], exercise].concat();
        let said = desk.run(&sheet, "");
        said.ends(0, &[]);
        let asked: Vec<Value> = serde_json::from_str(&said.out).unwrap();
        assert_eq!(asked.len(), 3, "{said:?}");
        for asked in asked {
            let start = asked["start"].as_str().unwrap().split(' ').next().unwrap();
            assert!(OWN.contains(start), "{asked}");
            assert_eq!(asked["moves"].as_array().unwrap().len(), 2, "{asked}");
        }
    }
    let play = [
        "play", &file, "--game", "3", "--side", "white", "--seed", "1",
    ];
    let said = desk.run(&play, "look\nresign\n");
    said.ends(0, &[]);
    assert!(said.out.contains("king e3"), "{said:?}");
    let wrong = desk.file("wrong.fen", "8/8/8/8/8/8/8/8 w - -\n9/8 w - - 0 1\n");
    let said = desk.run(&["games", &wrong, "--check"], "");
    said.ends(1, &[]);
    assert!(
        said.out.contains("wrong.fen:1:") && said.out.contains("wrong.fen:2:"),
        "{said:?}"
    );
}

#[test]
fn a_line_stands_in_the_lesson_itself_and_one_that_breaks_off_is_a_fault() {
    let desk = Desk::new();
    let lesson = "[[part]]\nexercise = \"replay\"\nline = \"1. e4 e5 2. Nf3 {a comment} Nc6\"\nevery = 4\n\
                  [[part]]\nexercise = \"replay\"\nfen = \"4k3/8/8/8/8/8/4P3/4K3 w - - 0 1\"\nline = \"1. e4 Ke7 2. e5\"\n\
                  [[part]]\nexercise = \"replay\"\nline = \"1. e4 e5 2. Nf4\"\n\
                  [[part]]\nexercise = \"recite\"\nfen = \"4k3/8/8 w - - 0 1\"\nline = \"1. e4\"\n";
    let file = desk.file("lines.toml", lesson);
    let said = desk.run(&["lesson", &file, "--check"], "");
    said.ends(1, &["lines.toml:11:8: ", "Nf4", "lines.toml:15:8: "]);
    let parts: Vec<&str> = lesson.split_inclusive("[[part]]").collect();
    let good = parts[..3].concat();
    let file = desk.file("lines.toml", good.strip_suffix("[[part]]").unwrap());
    let said = desk.run(&["lesson", &file], "pass\n".repeat(40));
    said.ends(0, &[]);
    assert!(
        said.out
            .contains("Move 2, White: knight to f3. Black: knight to c6."),
        "{said:?}"
    );
    assert!(said.out.contains("Move 2, White: pawn to e5."), "{said:?}");
}

/// A line with a comment and a sideline, two questions of kinds at one move, and one in words.
const OWN_QUESTIONS: &str = r#"[[part]]
exercise = "replay"
line = "{The Queen's Gambit} 1. d4 d5 2. c4 e6 {Black is solid [%clk 0:10:00].} 3. Nc3 (3. cxd5 exd5) 3... Nf6"
comments = true

[[part.question]]
move = "2..."
ask = "attacks c4"

[[part.question]]
move = "2..."
say = "What is White's plan?"
answer = "the minority attack"

[[part.question]]
move = "2..."
ask = "legality b8c6"
"#;

/// Returns what is said, in the order in which it must be.
fn says_in_order(said: &str, all: &[&str]) {
    let mut rest = said;
    for words in all {
        let at = rest.find(words);
        let at = at.unwrap_or_else(|| panic!("{words:?} is missing or too early: {said}"));
        rest = &rest[at + words.len()..];
    }
}

#[test]
fn a_coach_asks_at_a_move_and_what_is_answered_in_words_counts_nowhere() {
    let desk = Desk::new();
    let file = desk.file("own.toml", OWN_QUESTIONS);
    let said = desk.run(&["lesson", &file, "--check"], "");
    assert!(said.out.contains("1 part, 2 questions"), "{said:?}");
    let first = desk.run(&["lesson", &file], "b5 d5\nillegal\nstop\n");
    says_in_order(
        &first.out,
        &[
            "Comment: The Queen's Gambit.",
            "Move 1, White: pawn to d4.",
            "Checkpoint 1 of 1.",
            "Question 1 of 2. Which squares does the piece on c4 attack?",
            "Right, ",
            "Question 2 of 2. White to move: is the move b8 to c6 legal now?",
            "Right, ",
            "In your own words, or pass: What is White's plan?",
        ],
    );
    assert!(!first.out.contains("minority"), "{first:?}");
    let second = desk.run(&["lesson", "--resume"], "\npush the b-pawn\n");
    says_in_order(
        &second.out,
        &[
            "In your own words, or pass: What is White's plan?",
            "In your own words, or pass: What is White's plan?",
            "Your coach's answer: the minority attack.",
            "Comment: Black is solid.",
            "Move 3, White: knight to c3. Black: knight to f6.",
            "The lesson is over: 2 of 2 replies right.",
        ],
    );
    let records = desk.records();
    let said: Vec<&Value> = (records.iter())
        .filter(|record| record["type"] == "said")
        .collect();
    assert_eq!(said.len(), 1);
    assert_eq!(said[0]["said"], "push the b-pawn");
    assert_eq!(said[0]["say"], "What is White's plan?");
    assert_eq!(said[0]["answer"], "the minority attack");
    let table = desk.run(&["progress", "--format", "csv"], "").out;
    assert!(
        table.contains("What is White's plan?,the minority attack,push the b-pawn,,"),
        "{table}"
    );
    let held = desk.run(&["progress", "--lesson", &file], "").out;
    let replied = "What is White's plan? learner: push the b-pawn.";
    assert!(held.contains(replied), "{held}");
    let sheet = |format| {
        let sheet = ["sheet", "--format", format, "--seed", "1", "lesson", &file];
        let said = desk.run(&sheet, "");
        said.ends(0, &[]);
        said.out
    };
    let text = sheet("text");
    let pages: Vec<&str> = text.split("\n---\n").collect();
    let [questions, reading, key] = pages[..] else {
        panic!("{text}");
    };
    assert!(!questions.contains("solid") && !questions.contains("minority"));
    says_in_order(
        questions,
        &["1. Which", "2. White to move", "In your own words: What is"],
    );
    says_in_order(
        reading,
        &[
            "Question 2.",
            "What is White's plan?",
            "Comment: Black is solid.",
        ],
    );
    says_in_order(
        key,
        &["What is White's plan? Your coach's answer: the minority attack."],
    );
    says_in_order(
        &sheet("script"),
        &["What is White's plan?\n[silence of 30 seconds]\nYour coach's answer"],
    );
    let data: Value = serde_json::from_str(&sheet("json")).unwrap();
    assert_eq!(data[2]["type"], "said");
    assert_eq!(data[2]["text"], "What is White's plan?");
    assert!(data[2]["said"].is_null(), "{data}");
}

#[test]
fn every_fault_of_a_coachs_own_questions_is_told_at_its_line() {
    let desk = Desk::new();
    let question = |keys: &str| format!("[[part.question]]\n{keys}\n");
    let wrong = [
        ("ask = \"attacks e5\"", "nothing stands there"),
        (
            "ask = \"attacs c4\"",
            "\"attacs\" is unknown: take one of whereabouts",
        ),
        ("ask = \"attacks\"", "write it as in \"attacks e4\""),
        ("ask = \"moves f6\"", "no piece of the side to move"),
        ("ask = \"played white 9\"", "that move has not been read"),
        ("say = \"Why?\"", "lacks the key answer"),
        ("answer = \"So.\"", "a question has either ask"),
        (
            "ask = \"check\"\nsay = \"Why?\"",
            "a question has either ask",
        ),
        (
            "move = \"40.\"\nask = \"check\"",
            "not among those that are read, which end with 3...",
        ),
    ];
    let questions: Vec<String> = wrong.iter().map(|(keys, _)| question(keys)).collect();
    let file = desk.file("own.toml", format!("{OWN_QUESTIONS}{}", questions.concat()));
    let said = desk.run(&["lesson", &file, "--check"], "");
    said.ends(1, &[]);
    assert_eq!(
        said.err.matches("sansvoir: ").count(),
        wrong.len(),
        "{said:?}"
    );
    says_in_order(&said.err, &wrong.map(|(_, words)| words));
    let keys = "ask = \"check\"\nanser = \"x\"\nmove = \"x\"";
    let drill = "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\n";
    let file = desk.file("own.toml", format!("{drill}{}", question(keys)));
    let said = desk.run(&["lesson", &file, "--check"], "");
    said.ends(
        1,
        &[
            "own.toml:4:",
            "only a replay has questions of your own",
            "own.toml:6:1: there is no key \"anser\" here",
            "own.toml:7:8: move: \"x\"",
        ],
    );
}

#[test]
fn a_sideline_is_chosen_by_its_number_behind_that_of_its_game() {
    let desk = Desk::new();
    let games = "1. e4 e5 *\n\n1. d4 d5 2. c4 (2. Nf3 Nf6 (2... e6 3. g3) 3. Bf4) 2... e6 *\n";
    let file = desk.file("lines.pgn", games);
    let replay = |game: &str| {
        let replay = ["replay", &file, "--game", game, "--seed", "1"];
        desk.run(&replay, "pass\n".repeat(9))
    };
    let said = replay("2:2");
    said.ends(0, &[]);
    assert!(
        said.out
            .contains("Move 2, White: knight to f3. Black: pawn to e6."),
        "{said:?}"
    );
    assert!(said.out.contains("Move 3, White: pawn to g3."), "{said:?}");
    replay("2:3").ends(1, &["the game has no sideline 3"]);
    replay("2-3:1").ends(2, &[]);
    let sheet = [
        "sheet", "--format", "text", "--seed", "1", "replay", &file, "--game", "2:1",
    ];
    let said = desk.run(&sheet, "");
    assert!(said.out.contains("--game 2:1"), "{said:?}");
    let lesson = "[[part]]\nexercise = \"recite\"\nfiles = \"lines.pgn\"\ngame = \"2:1\"\n";
    let lesson = desk.file("side.toml", lesson);
    let said = desk.run(&["lesson", &lesson], "d4\nd5\nNf3\nNf6\nBf4\n");
    assert!(
        said.out
            .contains("The lesson is over: 5 of 5 replies right."),
        "{said:?}"
    );
}

#[test]
fn positions_stand_in_the_lesson_itself_and_a_best_move_is_the_files_word() {
    let desk = Desk::new();
    let king = "8/8/8/4k3/8/4K3/4P3/8 w - - bm Kd3; id \\\"one\\\";";
    let mate = "6k1/5ppp/8/8/8/8/8/R6K w - - 0 1";
    let part = |keys: &str| format!("[[part]]\nexercise = {keys}\n");
    let parts = [
        format!("\"ahead\"\ncount = 2\nplies = 2\nfen = \"\"\"\n{king}\n{mate}\n\"\"\""),
        format!("\"ahead\"\nmate = 1\nfen = \"{mate}\""),
        format!("\"drill\"\nkinds = \"few\"\ncount = 2\nplies = 1\nfen = \"{mate}\""),
        format!("\"replay\"\nask = \"rebuild\"\nfen = \"{mate}\""),
        format!("\"play\"\nside = \"white\"\nfen = \"{mate}\""),
    ];
    let file = desk.file("here.toml", parts.map(|keys| part(&keys)).concat());
    let said = desk.run(&["lesson", &file, "--check"], "");
    said.ends(0, &[]);
    let replies = format!(
        "Kd3\n{}Ra8\n{}Ra8\n",
        "pass\n".repeat(4),
        "pass\n".repeat(3)
    );
    let said = desk.run(&["lesson", &file, "--seed", "2"], replies);
    said.ends(0, &[]);
    says_in_order(
        &said.out,
        &[
            "Part 1 of 5",
            "In your own words, or pass: Which move is best here?",
            "The file's answer: Kd3.",
            "Part 2 of 5",
            "Right, ",
            "Part 3 of 5",
            "Part 4 of 5",
            "Where does every piece stand?",
            "Part 5 of 5",
            "Checkmate",
        ],
    );
}

#[test]
fn a_lesson_with_fifty_faults_of_all_sorts_tells_fifty() {
    let desk = Desk::new();
    let wrong = [
        "count = 0",
        "cuont = 3",
        "kinds = \"colour\"",
        "pass = 0",
        "pass = 99",
        "think = -1",
        "side = \"left\"",
        "piece = [\"rook\"]",
        "blockers = 2",
        "learner = \"Ana\"",
        "question = 3",
        "[[part.question]]\nask = \"check\"",
    ];
    let part = |key: &&str| {
        let kinds = if key.starts_with("kinds") {
            ""
        } else {
            "kinds = \"color\"\n"
        };
        format!("[[part]]\nexercise = \"drill\"\n{kinds}{key}\n")
    };
    let parts: Vec<String> = wrong.iter().cycle().take(50).map(part).collect();
    let file = desk.file("fifty.toml", parts.concat());
    let said = desk.run(&["lesson", &file, "--check"], "");
    said.ends(1, &[]);
    assert_eq!(said.err.matches("sansvoir: ").count(), 50, "{}", said.err);
    let desk = Desk::new();
    let good = desk.file(
        "good.toml",
        "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\ncount = 30\n",
    );
    let said = desk.run(&["lesson", &good, "--check"], "");
    assert!(
        said.out
            .ends_with("1 part, 30 questions, about 4 minutes; all of it is ready to run.\n"),
        "{said:?}"
    );
}

#[test]
fn a_recital_stands_on_paper_with_the_other_sides_moves_to_be_read() {
    let desk = Desk::new();
    let recite = [
        "sheet",
        "--format",
        "text",
        "--seed",
        "1",
        "recite",
        "games-demo/club-evening.pgn",
        "--game",
        "3",
        "--to",
        "3...",
        "--side",
        "white",
    ];
    let said = desk.run(&recite, "");
    said.ends(0, &[]);
    let pages: Vec<&str> = said.out.split("\n---\n").collect();
    assert!(
        pages[0].starts_with("FROM MEMORY: ")
            && pages[0].contains("3. White's move 3?")
            && !pages[0].contains("c5"),
        "{}",
        pages[0]
    );
    assert!(pages[1].contains("pawn to c5"), "{}", pages[1]);
    assert!(
        pages[2].contains("\n1. It was White's move 1, pawn to e4.\n\n2. "),
        "{}",
        pages[2]
    );
    let part =
        "[[part]]\nexercise = \"recite\"\nfiles = \"club-evening.pgn\"\ngame = 3\nto = \"2.\"\n";
    let lesson = desk.file("heart.toml", part);
    let said = desk.run(&["sheet", "--format", "text", "lesson", &lesson], "");
    let questions = said.out.split("\n---\n").next().unwrap();
    assert!(
        questions.contains("White: ") && questions.contains("Black: "),
        "{questions}"
    );
    let command = said
        .out
        .lines()
        .find_map(|line| line.strip_prefix("    sansvoir "))
        .unwrap();
    let file = desk.file(
        "answers.txt",
        format!("sansvoir {command}\n1 e4\n2 a3\n3\n"),
    );
    let said = desk.run(&["sheet", "enter", &file], "");
    said.ends(0, &[]);
    assert!(
        said.out
            .contains("3 answers entered for learner: 1 right, 0 in part, 1 wrong, 1 passed."),
        "{said:?}"
    );
}

#[test]
fn mates_stand_on_paper_with_room_for_the_line_which_the_key_tells() {
    let desk = Desk::new();
    let mates = [
        "sheet",
        "--format",
        "text",
        "--seed",
        "1",
        "ahead",
        "--mate",
        "2",
        "--count",
        "2",
        "games-demo/club-evening.pgn",
    ];
    let said = desk.run(&mates, "");
    said.ends(0, &[]);
    let [questions, key] = said.out.split("\n---\n").collect::<Vec<_>>()[..] else {
        panic!("two pages: {said:?}");
    };
    assert!(
        questions.contains("1. White to move: which move forces mate within 2 moves?"),
        "{questions}"
    );
    // The name, the date, two lines for the first and one for the second.
    assert_eq!(
        questions.matches("________________________").count(),
        5,
        "{questions}"
    );
    assert!(
        key.contains("One way to the mate: White's move 26, queen to g6; "),
        "{key}"
    );
    let command = said
        .out
        .lines()
        .find_map(|line| line.strip_prefix("    sansvoir "))
        .unwrap();
    let answers = desk.file("answers.txt", format!("sansvoir {command}\n1 Qg6\n2 Qd1\n"));
    let entered = desk.run(&["sheet", "enter", &answers], "");
    entered.ends(0, &[]);
    assert!(
        entered
            .out
            .contains("1 right, 0 in part, 1 wrong, 0 passed."),
        "{entered:?}"
    );
    let again = desk.run(&mates, "");
    assert_eq!(again.out, said.out, "what is solved stays on the sheet");
    let game = desk.file("game.toml", "[[part]]\nexercise = \"play\"\n");
    desk.run(&["sheet", "lesson", &game], "")
        .ends(1, &["nothing of this lesson can stand on paper"]);
}
