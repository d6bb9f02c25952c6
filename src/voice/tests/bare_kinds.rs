//! The kinds over the bare board: questions, verdicts, truths and whys.

use super::*;

/// A kind, the inside of its subject, and replies, of the first of which some are right.
type Case = (&'static str, &'static str, &'static [&'static str]);

const CASES: &[Case] = &[
    (
        "name",
        r#""square":"c6","view":"black""#,
        &["c6", "f3", "c5", "d6", "e4"],
    ),
    ("name", r#""square":"a1","view":"white""#, &["h8"]),
    ("name", r#""square":"b4","view":"white""#, &[]),
    (
        "place",
        r#""square":"c6","view":"black""#,
        &["6 3", "6 5", "4 3", "4 4", "3 6"],
    ),
    ("place", r#""square":"c6","view":"white""#, &["3 6"]),
    ("place", r#""square":"b4","view":"white""#, &["4 2"]),
    ("place", r#""square":"h8","view":"black""#, &["8 8"]),
    ("color", r#""square":"g6""#, &["light", "dark"]),
    ("color", r#""square":"a1""#, &["dark", "light"]),
    ("color", r#""square":"b3""#, &[]),
    ("color", r#""square":"b4""#, &[]),
    (
        "aligned",
        r#""squares":["c1","h6"]"#,
        &["diagonal", "none", "rank"],
    ),
    (
        "aligned",
        r#""squares":["c1","c7"]"#,
        &["file", "rank", "diagonal"],
    ),
    ("aligned", r#""squares":["h5","b5"]"#, &["rank", "file"]),
    (
        "aligned",
        r#""squares":["c1","h7"]"#,
        &["none", "diagonal", "file"],
    ),
    ("aligned", r#""squares":["g5","e3"]"#, &["file"]),
    ("aligned", r#""squares":["c1","d4"]"#, &[]),
    (
        "between",
        r#""squares":["g5","c1"]"#,
        &["d2 e3 f4", "f4 e3"],
    ),
    ("between", r#""squares":["c1","e3"]"#, &["d2"]),
    ("between", r#""squares":["c1","d2"]"#, &["none", "c1"]),
    (
        "between",
        r#""squares":["c1","g5"]"#,
        &["d2 e3 e4", "c1 d2 e3 f4 g5", "d2 e3 f4 h6 e4 d3"],
    ),
    ("between", r#""squares":["c2","c5"]"#, &[]),
    ("between", r#""squares":["b4","e4"]"#, &["none"]),
    ("crossing", r#""men":["Bc1","Rh6"]"#, &["none"]),
    (
        "crossing",
        r#""men":["Bc1","Re8"]"#,
        &["e3", "h6", "e3 e4 d2 c1 a1"],
    ),
    ("crossing", r#""men":["Ba1","Ba2"]"#, &["none"]),
    ("crossing", r#""men":["Bc1","ph6"]"#, &[]),
    ("crossing", r#""men":["Nb3","pd6"]"#, &[]),
    ("crossing", r#""men":["Ra1","Na4"]"#, &["a5"]),
    ("crossing", r#""men":["Qd1","Qe8"]"#, &[]),
    (
        "span",
        r#""man":"Nb3""#,
        &["a1 c1 d2 d4 a5 c5", "a1 c1 d2 d4 a5 c5 e4 e5"],
    ),
    ("span", r#""man":"pe4""#, &["d3 f3", "d5 f5"]),
    ("span", r#""man":"Pb3""#, &[]),
    ("span", r#""man":"Nd4""#, &["none"]),
    ("span", r#""man":"Ka1""#, &[]),
    ("span", r#""man":"Ph4""#, &[]),
    ("span", r#""man":"Bb2""#, &["a1 c3 d4 e5 f6 g7 h8"]),
    ("span", r#""man":"Bh1""#, &[]),
    ("span", r#""man":"Qd4""#, &[]),
    ("span", r#""man":"Ra1""#, &["b1 c1 d1 e1 f1 g1 h1 a1 b2"]),
    ("distance", r#""man":"Na1","to":"h8","blockers":[]"#, &["6"]),
    (
        "distance",
        r#""man":"Na1","to":"h8","blockers":["b3","c2"]"#,
        &["never", "6"],
    ),
    ("distance", r#""man":"Ra1","to":"a8","blockers":[]"#, &["1"]),
    ("distance", r#""man":"Na1","to":"h8""#, &["5", "0"]),
    ("distance", r#""man":"Na1","to":"b3""#, &["never"]),
    ("distance", r#""man":"Nb3","to":"e1""#, &["1", "5"]),
    ("distance", r#""man":"Ng1","to":"g2""#, &["2"]),
    ("distance", r#""man":"Ke1","to":"a8""#, &["4"]),
    (
        "distance",
        r#""man":"Ke1","to":"e3","blockers":["d2","e2","f2"]"#,
        &["2"],
    ),
    ("distance", r#""man":"Bc1","to":"h4""#, &["1"]),
    (
        "distance",
        r#""man":"Bc1","to":"h4","blockers":["e3"]"#,
        &["2"],
    ),
    (
        "distance",
        r#""man":"Ra1","to":"a8","blockers":["a4"]"#,
        &["1"],
    ),
    ("distance", r#""man":"Bc1","to":"c2""#, &["2"]),
    (
        "distance",
        r#""man":"Bc1","to":"h6","blockers":["h6"]"#,
        &["1"],
    ),
    (
        "distance",
        r#""man":"Na1","to":"h8","blockers":["g6","f7","d4"]"#,
        &["6"],
    ),
    (
        "distance",
        r#""man":"Ka1","to":"h8","blockers":["c1","c2","c3","b3","a3"]"#,
        &[],
    ),
    (
        "route",
        r#""man":"Nd4","to":"e5","blockers":["f3"]"#,
        &[
            "c6 e5",
            "never",
            "f3 e5",
            "d4 d4 c6 e5",
            "c6",
            "e5",
            "b5 c7 e6 g5 f7 e5",
        ],
    ),
    ("route", r#""man":"Na1","to":"h8""#, &["b3 d4 e6 g5 f7 h8"]),
    ("route", r#""man":"Qa1","to":"a8""#, &["a8"]),
    ("route", r#""man":"Bc1","to":"c2""#, &["never"]),
    ("route", r#""man":"rf6","to":"a7","blockers":["c6"]"#, &[]),
    (
        "route",
        r#""man":"Bc1","to":"h3","blockers":["e3"]"#,
        &["f4 h3"],
    ),
];

#[test]
fn a_clue_starts_from_what_was_right_and_is_about_this_piece_or_square() {
    let told = |kind, subject, reply| {
        let clues = sessions::clues(answered_bare(of_bare(kind, subject), reply));
        clues.map(|(_, clue)| PLAIN.say(&clue).concat())
    };
    let [first, second, _] = told("span", r#""man":"Pg3""#, "f4 h2");
    let how = "Not yet. Right so far: f4. A white pawn attacks one step diagonally toward the eighth rank: \
               2 squares, none cut off by the edge.";
    assert_eq!(first, how);
    let extra = "Not h2: a pawn attacks only diagonally, one step ahead.";
    assert_eq!(second, format!("{how} {extra}"));
    let [color, ..] = told("color", r#""square":"g6""#, "dark");
    let counted = "Not yet. The g-file is the seventh; 7 plus 6 is 13, and odd means light.";
    assert_eq!(color, counted);
    let [distance, ..] = told("distance", r#""man":"Na1","to":"b3""#, "3");
    assert!(
        distance.starts_with("Not yet. Take the squares"),
        "{distance}"
    );
}

#[test]
fn every_kind_of_the_bare_board_is_asked_and_answered_in_its_own_words() {
    let mut page = Page::default();
    for kind in Kind::BARE {
        page.head(kind.name());
        let cases = CASES.iter().filter(|(of, ..)| *of == kind.name());
        let mut verdicts = Vec::new();
        for (kind, subject, replies) in cases {
            let question = of_bare(kind, subject);
            page.say([question::question(&put_bare(question))]);
            for reply in replies.iter().chain(&["pass"]) {
                page.lead(reply);
                let answered = answered_bare(question, reply);
                verdicts.push(answered.mark.verdict);
                page.say(told(answered).iter().flat_map(|output| PLAIN.say(output)));
            }
        }
        assert!(verdicts.contains(&Verdict::Right), "{kind}");
        assert!(
            verdicts.iter().any(|verdict| *verdict != Verdict::Right),
            "{kind}"
        );
    }
    // FIDE 2.1: the near corner on each player's right is light.
    for view in ["white", "black"] {
        page.head(&format!("The marked square f6, seen by {view}"));
        let asked = put_bare(of_bare(
            "name",
            &format!(r#""square":"f6","view":"{view}""#),
        ));
        page.say(DRAWN.say(&Output::Ask(asked.clone())));
        page.say(PLAIN.say(&Output::Ask(asked)));
    }
    page.hold("kinds_over_the_bare_board");
}
