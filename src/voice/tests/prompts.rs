//! What is said on the way.

use super::*;

#[test]
fn moves_are_heard_in_the_style_of_the_voice_and_stalemate_is_said() {
    let line = from_fen("k7/8/1K6/8/8/8/8/6Q1 w - - 0 60", "60. Qg7");
    let heard = |plies: &[crate::game::Ply], stalemate| {
        PLAIN.say(&Output::Heard(Heard {
            plies: plies.to_vec(),
            stalemate,
        }))
    };
    assert_eq!(heard(line.plies(), false), ["Move 60, White: queen to g7."]);
    // FIDE 5.2.1.
    let line = from_fen("k7/8/1K6/8/8/8/8/2Q5 w - - 0 60", "60. Qc7");
    assert_eq!(
        heard(line.plies(), true),
        [
            "Move 60, White: queen to c7.",
            "Stalemate: Black has no legal move and is not in check.",
        ]
    );
}

#[test]
fn a_look_draws_the_board_or_lists_the_pieces_when_plain() {
    let line = usual("");
    let look = |voice: Voice, looks_left| {
        voice.say(&Output::Board {
            board: line.end().board().clone(),
            turn: Color::White,
            looks_left,
        })
    };
    let black = Voice {
        view: Color::Black,
        ..DRAWN
    };
    assert_eq!(look(black, None)[0], "1   R :N: B :K: Q :B: N :R:");
    assert_eq!(
        look(DRAWN, Some(0))[9..],
        ["White to move.", "That was the last look."]
    );
    let plain = look(PLAIN, Some(1));
    assert!(plain[0].starts_with("White: king e1, queen d1, "));
    assert_eq!(plain[2..], ["White to move.", "1 look is left."]);
}

#[test]
fn a_checkpoint_is_told_with_its_first_question_only() {
    let answered = answered(&usual(FIDE_SAMPLE), QUESTIONS[1].1, "pass");
    assert_eq!(
        PLAIN.say(&Output::Ask(ask(&answered, 1))),
        ["Checkpoint 2 of 5.", "Question 1 of 9. What stands on d6?"]
    );
    for output in [
        Output::Ask(ask(&answered, 2)),
        Output::AskAgain(ask(&answered, 2)),
    ] {
        assert_eq!(PLAIN.say(&output), ["Question 2 of 9. What stands on d6?"]);
    }
}

#[test]
fn sidelines_are_framed_by_the_moves_of_the_game() {
    let line = usual(FIDE_SAMPLE);
    let begins = Output::Told(Told::SidelineBegins {
        instead_of: line.plies()[14],
        plies: 1,
    });
    let ends = Output::Told(Told::SidelineEnds {
        back_after: line.plies()[13],
    });
    assert_eq!(
        PLAIN.say(&begins),
        ["A sideline of 1 ply instead of White's move 8, queen to e3, check:"]
    );
    assert_eq!(
        PLAIN.say(&ends),
        ["The sideline ends. The game goes on after Black's move 7, knight to c6."]
    );
    let san = Voice {
        announce: Announce::San,
        ..PLAIN
    };
    assert_eq!(
        san.say(&begins),
        ["A sideline of 1 ply instead of 8. Qe3+:"]
    );
}

#[test]
fn words_for_the_prompt_say_what_to_do() {
    assert_eq!(
        PLAIN.say(&Output::ReplyWanted(Form::SquareOrGone)),
        [
            "A question stands; type pass to give it up.",
            "Reply with one square, still there if the piece has not moved, or gone if it was taken.",
            "For example: e5.",
        ]
    );
    assert_eq!(
        PLAIN.say(&Output::NothingAsked {
            text: "e5\u{1b}".to_owned()
        }),
        [
            "No question stands, so \"e5\" was not marked.",
            "Enter alone reads on; help says what else can be said.",
        ]
    );
    assert_eq!(
        PLAIN.say(&Output::Ended(Ending::Stopped)),
        [
            "Stopped. Everything that you answered is kept.",
            "The option --resume goes on from here.",
        ]
    );
    assert_eq!(
        PLAIN.say(&Output::Ended(Ending::Read(Some(GameResult::Draw)))),
        ["That is the end.", "The game was drawn."]
    );
}
