//! How a session closes.

use super::*;

#[test]
fn a_session_closes_with_sentences_when_plain() {
    assert_eq!(
        PLAIN.say(&Output::Summary(Box::new(summary())))[..7],
        [
            "whereabouts: 2 right, 1 in part, 0 wrong, 0 passed. Median time of the right ones: 4.2 \
             seconds.",
            "legality: 0 right, 0 in part, 0 wrong, 1 passed.",
            "The picture first failed at the checkpoint after Black's move 8.",
            "Longest run without a miss or a look: 16 of 21 plies heard.",
            "Looks at the board: 2.",
            "Replies after the think time: 1.",
            "The board at the end, Black to move.",
        ]
    );
}

#[test]
fn a_session_closes_with_columns_for_the_eye() {
    assert_eq!(
        DRAWN.say(&Output::Summary(Box::new(summary())))[..3],
        [
            "            right part wrong passed  median, right",
            "whereabouts     2    1     0      0  4.2 seconds",
            "legality        0    0     0      1",
        ]
    );
}

#[test]
fn a_session_without_a_miss_says_that_the_picture_held() {
    let held = Summary {
        own: OwnSummary::Replay {
            first_miss: None,
            longest_run: 16,
        },
        looks: 0,
        late: 0,
        ..summary()
    };
    assert_eq!(
        PLAIN.say(&Output::Summary(Box::new(held)))[2..5],
        [
            "The picture held at every checkpoint.",
            "Longest run without a miss or a look: 16 of 21 plies heard.",
            "The board at the end, Black to move.",
        ]
    );
}
