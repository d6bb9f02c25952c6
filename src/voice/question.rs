//! Questions in words. A question gives nothing away: the man on a square is asked about without
//! its role, a move by its squares.

use crate::question::{
    Attackers, Attacks, Check, Legality, Moves, Occupant, Question, Rebuild, Standing, Whereabouts,
};
use crate::session::Ask;

use super::naming::{man, role, side};

/// Says a question with its number: "Question 2 of 3. What stands on e5?"
#[must_use]
pub fn prompt(ask: &Ask) -> String {
    format!("Question {} of {}. {}", ask.number, ask.of, question(ask))
}

/// Says where in the session a checkpoint stands.
pub(super) fn checkpoint(ask: &Ask) -> String {
    format!("Checkpoint {} of {}.", ask.checkpoint, ask.checkpoints)
}

/// Says a question without its number, whole enough to stand alone on a sheet of paper.
#[must_use]
pub fn question(ask: &Ask) -> String {
    let turn = side(ask.turn);
    match &ask.question {
        Question::Whereabouts(Whereabouts { man: home }) => match ask.man {
            Some(piece) => format!("{} from {home}: where does it stand now?", man(piece)),
            None => format!("The man that stood on {home} at the start: where does it stand now?"),
        },
        Question::Occupant(Occupant { square }) => format!("What stands on {square}?"),
        Question::Standing(Standing { color, role: kind }) => format!(
            "On which squares does {} have a {}? Name every one.",
            side(*color),
            role(*kind)
        ),
        Question::Attacks(Attacks { square }) => {
            format!("Which squares does the man on {square} attack?")
        }
        Question::Attackers(Attackers { color, square }) => format!(
            "Which of {}'s men attack or guard {square}? Name their squares.",
            side(*color)
        ),
        Question::Moves(Moves { square }) => {
            format!("{turn} to move: to which squares can the man on {square} legally go?")
        }
        Question::Legality(legality) => legality_question(ask, *legality),
        Question::Check(Check {}) => format!(
            "{turn} to move: is {turn} in check? Name the square of every man that gives check, or \
             none."
        ),
        Question::Rebuild(Rebuild {}) => {
            "Where does every man stand? Name White's men, then Black's.".to_owned()
        }
    }
}

fn legality_question(ask: &Ask, legality: Legality) -> String {
    let attempt = legality.attempt;
    let promotion = attempt
        .promotion
        .map_or_else(String::new, |kind| format!(", becoming a {},", role(kind)));
    // Said at every move, or the sentence itself would tell that this one is castling.
    let castling = if ask.chess960 {
        " Castling is named as the king's move onto its own rook."
    } else {
        ""
    };
    format!(
        "{} to move: is the move {} to {}{promotion} legal now?{castling}",
        side(ask.turn),
        attempt.from,
        attempt.to
    )
}

#[cfg(test)]
mod tests {
    use shakmaty::{Color, Role, Square};

    use super::*;
    use crate::question::Form;

    fn ask(question: Question) -> Ask {
        Ask {
            question,
            number: 2,
            of: 3,
            checkpoint: 1,
            checkpoints: 5,
            turn: Color::White,
            man: Some(Role::Knight.of(Color::White)),
            chess960: false,
            form: Form::Squares,
        }
    }

    fn legality(attempt: &str) -> Question {
        Question::Legality(Legality {
            attempt: attempt.parse().unwrap(),
        })
    }

    #[test]
    fn every_kind_is_asked_in_its_own_words() {
        let color = Color::Black;
        let square = Square::E5;
        let table = [
            (
                Question::Whereabouts(Whereabouts { man: Square::G1 }),
                "White's knight from g1: where does it stand now?",
            ),
            (
                Question::Occupant(Occupant { square }),
                "What stands on e5?",
            ),
            (
                Question::Standing(Standing {
                    color,
                    role: Role::Rook,
                }),
                "On which squares does Black have a rook? Name every one.",
            ),
            (
                Question::Attacks(Attacks { square }),
                "Which squares does the man on e5 attack?",
            ),
            (
                Question::Attackers(Attackers { color, square }),
                "Which of Black's men attack or guard e5? Name their squares.",
            ),
            (
                Question::Moves(Moves { square }),
                "White to move: to which squares can the man on e5 legally go?",
            ),
            (
                legality("f3d2"),
                "White to move: is the move f3 to d2 legal now?",
            ),
            (
                Question::Check(Check {}),
                "White to move: is White in check? Name the square of every man that gives check, or \
                 none.",
            ),
            (
                Question::Rebuild(Rebuild {}),
                "Where does every man stand? Name White's men, then Black's.",
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
            prompt(&ask(Question::Occupant(Occupant { square }))),
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
        ask.chess960 = true;
        assert!(
            question(&ask)
                .ends_with("legal now? Castling is named as the king's move onto its own rook.")
        );
    }

    #[test]
    fn only_whereabouts_and_standing_say_what_the_man_is() {
        let color = Color::Black;
        let square = Square::E5;
        for asked in [
            Question::Occupant(Occupant { square }),
            Question::Attacks(Attacks { square }),
            Question::Attackers(Attackers { color, square }),
            Question::Moves(Moves { square }),
            legality("e1g1"),
            Question::Check(Check {}),
        ] {
            let said = question(&ask(asked));
            for kind in Role::ALL {
                assert!(!said.contains(role(kind)), "{said}");
            }
        }
    }
}
