//! Names, places, colors and lines of squares.

use super::{Row, hold};

const FILES: &str = "As Black sees the board, the files from the left are h, g, f, e, d, c: the sixth is the c-file.";
const RANKS: &str = "The ranks from the bottom are 8, 7, 6: the third is rank 6.";
const RANKS_ALONE: &str =
    "As Black sees the board, the ranks from the bottom are 8, 7, 6: the third is rank 6.";
const C6_BLACK: &str = r#""square":"c6","view":"black""#;

#[test]
fn a_name_is_counted_off_from_the_side_that_sees_it() {
    let table: &[Row] = &[
        ("name", C6_BLACK, "pass", &[FILES, RANKS]),
        (
            "name",
            C6_BLACK,
            "f3",
            &[
                "f3 would be right from White's side; here the board is seen from Black's.",
                FILES,
                RANKS,
            ],
        ),
        (
            "name",
            C6_BLACK,
            "c5",
            &[
                "The file is right, the rank is not: c5 lies on the fourth row from the bottom.",
                RANKS_ALONE,
            ],
        ),
        (
            "name",
            C6_BLACK,
            "d6",
            &[
                "The rank is right, the file is not: d6 lies on the fifth file from the left.",
                FILES,
            ],
        ),
        (
            "name",
            C6_BLACK,
            "e4",
            &[
                "e4 lies on the fourth file from the left and the fifth row from the bottom.",
                FILES,
                RANKS,
            ],
        ),
        (
            "name",
            r#""square":"a1","view":"white""#,
            "h8",
            &[
                "h8 would be right from Black's side; here the board is seen from White's.",
                "As White sees the board, the first file from the left is the a-file.",
                "The first row from the bottom is rank 1.",
            ],
        ),
        (
            "name",
            r#""square":"b4","view":"white""#,
            "pass",
            &[
                "As White sees the board, the files from the left are a, b: the second is the b-file.",
                "The ranks from the bottom are 1, 2, 3, 4: the fourth is rank 4.",
            ],
        ),
    ];
    hold(table);
}

#[test]
fn a_place_is_counted_off_and_the_slip_is_named() {
    let table: &[Row] = &[
        ("place", C6_BLACK, "pass", &[FILES, RANKS]),
        (
            "place",
            C6_BLACK,
            "6 5",
            &[
                "The count of files is right; that of rows leads to c4.",
                RANKS_ALONE,
            ],
        ),
        (
            "place",
            C6_BLACK,
            "4 3",
            &[
                "The count of rows is right; that of files leads to e6.",
                FILES,
            ],
        ),
        (
            "place",
            C6_BLACK,
            "4 4",
            &[
                "Those counts lead to e5, seen from Black's side.",
                FILES,
                RANKS,
            ],
        ),
        // On this diagonal the exchanged counts are those of the other side.
        (
            "place",
            C6_BLACK,
            "3 6",
            &[
                "Those are the right counts swapped, and also the counts from White's side; the \
                 files come first, seen from Black's side.",
                FILES,
                RANKS,
            ],
        ),
        (
            "place",
            r#""square":"b4","view":"white""#,
            "4 2",
            &[
                "The two counts are swapped: the files from the left come first, then the rows from \
                 the bottom.",
                "As White sees the board, the files from the left are a, b: the second is the b-file.",
                "The ranks from the bottom are 1, 2, 3, 4: the fourth is rank 4.",
            ],
        ),
        (
            "place",
            r#""square":"h8","view":"black""#,
            "8 8",
            &[
                "Those counts would be right from White's side; here the board is seen from Black's.",
                "As Black sees the board, the first file from the left is the h-file.",
                "The first row from the bottom is rank 8.",
            ],
        ),
    ];
    hold(table);
}

#[test]
fn a_color_is_told_by_the_sum_of_file_and_rank() {
    let table: &[Row] = &[
        (
            "color",
            r#""square":"g6""#,
            "dark",
            &[
                "The g-file is the seventh; 7 plus 6 is 13, and odd means light.",
            ],
        ),
        (
            "color",
            r#""square":"a1""#,
            "light",
            &[
                "The a-file is the first; 1 plus 1 is 2, and even means dark.",
            ],
        ),
        (
            "color",
            r#""square":"b3""#,
            "pass",
            &[
                "The b-file is the second; 2 plus 3 is 5, and odd means light.",
            ],
        ),
        (
            "color",
            r#""square":"b4""#,
            "pass",
            &[
                "The b-file is the second; 2 plus 4 is 6, and even means dark.",
            ],
        ),
    ];
    hold(table);
}

#[test]
fn a_shared_line_is_told_by_the_names_and_the_counts() {
    let table: &[Row] = &[
        (
            "aligned",
            r#""squares":["c1","h6"]"#,
            "none",
            &[
                "From c1 to h6 it is 5 files and 5 ranks: equal counts make a diagonal.",
                "It ends on these two squares, at the edges of the board.",
            ],
        ),
        (
            "aligned",
            r#""squares":["g5","e3"]"#,
            "file",
            &[
                "From g5 to e3 it is 2 files and 2 ranks: equal counts make a diagonal.",
                "It is the diagonal from h6 to c1.",
            ],
        ),
        (
            "aligned",
            r#""squares":["c1","c7"]"#,
            "rank",
            &["Both names begin with c, so both squares lie on the c-file."],
        ),
        (
            "aligned",
            r#""squares":["h5","b5"]"#,
            "file",
            &["Both names end with 5, so both squares lie on rank 5."],
        ),
        (
            "aligned",
            r#""squares":["c1","h7"]"#,
            "diagonal",
            &[
                "From c1 to h7 it is 5 files and 6 ranks: a diagonal needs equal counts.",
                "c1 is dark and h7 is light, and squares of different color never share a diagonal.",
                "Letter and number both differ: no file and no rank.",
            ],
        ),
        (
            "aligned",
            r#""squares":["c1","d4"]"#,
            "pass",
            &[
                "From c1 to d4 it is 1 file and 3 ranks: a diagonal needs equal counts.",
                "Letter and number both differ: no file and no rank.",
            ],
        ),
    ];
    hold(table);
}

#[test]
fn squares_between_are_told_step_by_step_and_others_by_where_they_lie() {
    let table: &[Row] = &[
        (
            "between",
            r#""squares":["g5","c1"]"#,
            "f4 e3",
            &[
                "Go along the diagonal from g5: at each step the letter goes one back and the number \
                 goes one down.",
            ],
        ),
        (
            "between",
            r#""squares":["c2","c5"]"#,
            "pass",
            &[
                "Go along the file from c2: at each step the letter stays and the number goes one up.",
            ],
        ),
        (
            "between",
            r#""squares":["b4","e4"]"#,
            "none",
            &[
                "Go along the rank from b4: at each step the letter goes one on and the number stays.",
            ],
        ),
        (
            "between",
            r#""squares":["c1","g5"]"#,
            "c1 d2 e3 f4 g5",
            &["c1 and g5 are the two ends, not between them."],
        ),
        (
            "between",
            r#""squares":["c1","g5"]"#,
            "d2 e3 f4 h6 e4 d3",
            &[
                "h6 lies on the same diagonal, but not between the two.",
                "d3 and e4 do not lie on that diagonal.",
            ],
        ),
        (
            "between",
            r#""squares":["c1","d2"]"#,
            "c1",
            &[
                "c1 is one of the two ends, not between them.",
                "One step leads from c1 to d2.",
            ],
        ),
    ];
    hold(table);
}
