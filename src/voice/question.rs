//! Questions in words.

use crate::exercise::{Ask, Asked};

use super::{bare, line, recite};

/// Says a question with its number: "Question 2 of 3. What stands on e5?" A move to be said needs none.
#[must_use]
pub fn prompt(ask: &Ask) -> String {
    if let Asked::Move { .. } = ask.asked {
        return question(ask);
    }
    format!("Question {} of {}. {}", ask.number, ask.of, question(ask))
}

/// Says which checkpoint it is, before its first question.
#[must_use]
pub fn checkpoint(ask: &Ask) -> Option<String> {
    match ask.asked {
        Asked::Line(_, stand) if ask.number == 1 => stand
            .checkpoint
            .map(|(number, of)| format!("Checkpoint {number} of {of}.")),
        Asked::Line(..) | Asked::Bare(_) | Asked::Move { .. } => None,
    }
}

/// Says a question without its number, whole enough to stand alone on a sheet of paper.
#[must_use]
pub fn question(ask: &Ask) -> String {
    match &ask.asked {
        Asked::Line(question, stand) => line::question(*question, stand),
        Asked::Bare(question) => bare::question(question),
        Asked::Move { number, once_more } => recite::asked(*number, *once_more),
    }
}

#[cfg(test)]
mod tests {
    use shakmaty::{Color, Role, Square};

    use super::super::naming::role;
    use super::*;
    use crate::exercise::Stand;
    use crate::question::{
        Attackers, Attacks, Balance, Captures, Check, Checks, Exchange, Form, Hanging, Legality,
        LineQuestion, Mate, Moves, Occupant, Played, Rebuild, Rights, Standing, Taken, Whereabouts,
    };

    fn ask(question: LineQuestion) -> Ask {
        let stand = Stand {
            checkpoint: None,
            turn: Color::White,
            piece: Some(Role::Knight.of(Color::White)),
            chess960: false,
        };
        Ask {
            asked: Asked::Line(question, stand),
            number: 2,
            of: 3,
            form: Form::Squares,
        }
    }

    fn legality(attempt: &str) -> LineQuestion {
        LineQuestion::Legality(Legality {
            attempt: attempt.parse().unwrap(),
        })
    }

    #[test]
    fn every_kind_is_asked_in_its_own_words() {
        let color = Color::Black;
        let square = Square::E5;
        let table = [
            (
                LineQuestion::Whereabouts(Whereabouts { piece: Square::G1 }),
                "White's knight from g1: where does it stand now?",
            ),
            (
                LineQuestion::Occupant(Occupant { square }),
                "What stands on e5?",
            ),
            (
                LineQuestion::Standing(Standing {
                    color,
                    role: Role::Rook,
                }),
                "On which squares does Black have a rook? Name every one.",
            ),
            (
                LineQuestion::Attacks(Attacks { square }),
                "Which squares does the piece on e5 attack?",
            ),
            (
                LineQuestion::Attackers(Attackers { color, square }),
                "Which of Black's pieces attack or guard e5? Name their squares.",
            ),
            (
                LineQuestion::Moves(Moves { square }),
                "White to move: to which squares can the piece on e5 legally go?",
            ),
            (
                legality("f3d2"),
                "White to move: is the move f3 to d2 legal now?",
            ),
            (
                LineQuestion::Check(Check {}),
                "White to move: is White in check? Name the square of every piece that gives check, or \
                 none.",
            ),
            (
                LineQuestion::Checks(Checks {}),
                "White to move: which legal moves give check? Name every one, or none.",
            ),
            (
                LineQuestion::Captures(Captures {}),
                "White to move: which captures are legal? Name every one, or none.",
            ),
            (
                LineQuestion::Hanging(Hanging { color }),
                "Which of Black's pieces are attacked and not guarded, the king left out? Name their \
                 squares, or none.",
            ),
            (
                LineQuestion::Mate(Mate::AT_ONCE),
                "White to move: which move mates at once? Name one, or none.",
            ),
            (
                LineQuestion::Exchange(Exchange { square }),
                "White to move: how many points does White win by taking on e5, if both sides then \
                 take there for as long as it pays? A pawn counts 1, a knight or bishop 3, a rook 5, a \
                 queen 9.",
            ),
            (
                LineQuestion::Balance(Balance {}),
                "What is White's material minus Black's, in points? A pawn counts 1, a knight or bishop \
                 3, a rook 5, a queen 9.",
            ),
            (
                LineQuestion::Rights(Rights { color }),
                "On which wings may Black still castle some day? Name short, long, both or none.",
            ),
            (
                LineQuestion::Taken(Taken { color }),
                "Which of Black's pieces have been taken since the start? Name them without their squares, \
                 or none.",
            ),
            (
                LineQuestion::Played(Played {
                    color,
                    number: 12.try_into().unwrap(),
                }),
                "What was Black's move 12?",
            ),
            (
                LineQuestion::Rebuild(Rebuild {}),
                "Where does every piece stand? Name White's pieces, then Black's.",
            ),
        ];
        for (asked, said) in table {
            assert_eq!(question(&ask(asked)), said);
        }
    }

    #[test]
    fn a_prompt_tells_its_number_and_how_many_there_are() {
        let square = Square::E5;
        assert_eq!(
            prompt(&ask(LineQuestion::Occupant(Occupant { square }))),
            "Question 2 of 3. What stands on e5?"
        );
    }

    #[test]
    fn a_promotion_is_named() {
        assert_eq!(
            question(&ask(legality("b7b8q"))),
            "White to move: is the move b7 to b8, becoming a queen, legal now?"
        );
    }

    #[test]
    fn in_chess960_every_move_comes_with_the_word_on_castling() {
        let mut ask = ask(legality("f3d2"));
        if let Asked::Line(_, stand) = &mut ask.asked {
            stand.chess960 = true;
        }
        assert!(
            question(&ask)
                .ends_with("legal now? Castling is named as the king's move onto its own rook.")
        );
    }

    #[test]
    fn only_whereabouts_and_standing_say_what_the_piece_is() {
        let color = Color::Black;
        let square = Square::E5;
        for asked in [
            LineQuestion::Occupant(Occupant { square }),
            LineQuestion::Attacks(Attacks { square }),
            LineQuestion::Attackers(Attackers { color, square }),
            LineQuestion::Moves(Moves { square }),
            legality("e1g1"),
            LineQuestion::Check(Check {}),
        ] {
            let said = question(&ask(asked));
            for kind in Role::ALL {
                assert!(!said.contains(role(kind)), "{said}");
            }
        }
    }
}
