//! A question over a line as a coach writes it: its kind, then what it is about.

use serde_json::{Value, json};

use super::{Kind, LineQuestion, Scene};

/// Why what was written is no question there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WrittenError {
    /// It begins with no kind.
    NoKind(String),
    /// What follows is nothing that the kind asks about.
    NoSubject(Kind),
    /// It cannot be asked there.
    Unfit(Kind),
}

impl LineQuestion {
    /// Reads a question that is to be asked there: `attacks e4`, `attackers white e5` in either order, `legality
    /// g1f3`, `played black 12`.
    ///
    /// # Errors
    ///
    /// [`WrittenError`] where it is none, or does not fit.
    pub fn written(text: &str, scene: Scene<'_>) -> Result<LineQuestion, WrittenError> {
        let text = text.to_lowercase();
        let (first, subject) = text.trim().split_once(' ').unwrap_or((text.trim(), ""));
        let kind = Kind::LINE.into_iter().find(|kind| kind.name() == first);
        let kind = kind.ok_or_else(|| WrittenError::NoKind(first.to_owned()))?;
        // The fields of a subject in their order are a list.
        let word = |word: &str| {
            word.parse::<u32>()
                .map_or_else(|_| json!(word), Value::from)
        };
        let mut fields: Vec<Value> = subject.split_whitespace().map(word).collect();
        let read = |fields: &[Value]| {
            let question = json!({"kind": kind, "subject": fields});
            serde_json::from_value(question).ok()
        };
        let in_order = read(&fields);
        fields.reverse();
        let question: Option<LineQuestion> = in_order.or_else(|| read(&fields));
        let question = question.ok_or(WrittenError::NoSubject(kind))?;
        let fits = question.fits(scene).then_some(question);
        fits.ok_or(WrittenError::Unfit(kind))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::{Line, Start};
    use shakmaty::san::San;

    fn line(moves: &str) -> Line {
        let mut line = Line::new(Start::standard());
        for san in moves.split(' ') {
            let mv = san.parse::<San>().unwrap().to_move(line.end()).unwrap();
            line.push(mv).unwrap();
        }
        line
    }

    #[test]
    fn a_question_is_written_with_its_kind_and_what_it_is_about() {
        let line = line("e4 d5 Nf3 dxe4");
        let scene = Scene::new(&line, 4);
        for written in [
            "whereabouts g1",
            "occupant e4",
            "standing white rook",
            "attacks e4",
            "attackers white e5",
            "moves f3",
            "legality f3d4",
            "check",
            "checks",
            "captures",
            "hanging white",
            "mate",
            "exchange e4",
            "balance",
            "rights black",
            "taken white",
            "played black 2",
            "rebuild",
        ] {
            let read = LineQuestion::written(written, scene);
            if written == "exchange e4" {
                let none = WrittenError::Unfit(Kind::Exchange);
                assert_eq!(read, Err(none));
                continue;
            }
            assert_eq!(
                read.unwrap().kind().name(),
                written.split(' ').next().unwrap()
            );
        }
        let swapped = LineQuestion::written("attackers E5 White", scene);
        assert_eq!(swapped, LineQuestion::written("attackers white e5", scene));
        for (written, error) in [
            ("attacs e4", WrittenError::NoKind("attacs".to_owned())),
            ("", WrittenError::NoKind(String::new())),
            ("turn", WrittenError::NoKind("turn".to_owned())),
            ("attacks", WrittenError::NoSubject(Kind::Attacks)),
            ("attacks e9", WrittenError::NoSubject(Kind::Attacks)),
            ("balance white", WrittenError::NoSubject(Kind::Balance)),
            ("attacks e5", WrittenError::Unfit(Kind::Attacks)),
            ("moves e4", WrittenError::Unfit(Kind::Moves)),
            ("whereabouts e4", WrittenError::Unfit(Kind::Whereabouts)),
            ("played 3 white", WrittenError::Unfit(Kind::Played)),
        ] {
            assert_eq!(
                LineQuestion::written(written, scene),
                Err(error),
                "{written}"
            );
        }
    }
}
