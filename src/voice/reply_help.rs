//! Help with replies: what could not be read, which forms are read, which words can be said.

use crate::question::Form;
use crate::reply::{Unread, wish};

use super::clean::clean_line;
use super::no_move::no_move;

/// How many characters of a learner's own words are said back.
const ECHO: usize = 40;

/// Says which forms of reply are read, with an example.
#[must_use]
pub fn forms(form: Form) -> Vec<String> {
    let (accepted, example) = match form {
        Form::SquareOrGone => (
            "one square, still there if the piece has not moved, or gone if it was taken",
            "e5",
        ),
        Form::Piece => (
            "a piece with its side as a word or as its FEN letter, or empty",
            "white knight, or a capital N for White's and a small n for Black's",
        ),
        Form::Squares => (
            "squares in any order, with spaces or commas, or none",
            "d5 e6",
        ),
        Form::Legal => (
            "legal or illegal, yes or no, or their first letters",
            "legal",
        ),
        Form::Placement => (
            "White's pieces with their squares, a slash, then Black's; or either side first, each \
             with its name before it; or a FEN",
            "Kg1 Qd1 a2 b2 / Ke8 a7",
        ),
        Form::Moves => (
            "moves in any order, with spaces or commas, or none",
            "Nf3 exd5",
        ),
        Form::MoveOrNone => ("one move, or none", "Qh7"),
        Form::Move => (
            "one move, with or without the square that the piece left",
            "Nf3",
        ),
        Form::Points => ("a number of points, with a minus for a loss", "-2"),
        Form::Wings => ("short, long, both or none", "short"),
        Form::Taken => (
            "pieces by their letters, or by their names with how many, or none",
            "NPP",
        ),
        Form::Square => ("one square", "e5"),
        Form::Place => (
            "two numbers: files from the left, then rows from the bottom",
            "6 3",
        ),
        Form::Color => ("light or dark, or their first letters", "light"),
        Form::Line => (
            "file, rank, diagonal or none, or their first letters",
            "diagonal",
        ),
        Form::Distance => ("a number of moves, or never", "3"),
        Form::Route => ("the squares of the route in order, or never", "b3 d4 e6"),
    };
    vec![
        format!("Reply with {accepted}."),
        format!("For example: {example}."),
    ]
}

/// Says what could not be read and how it can be said; nothing was marked.
pub(super) fn unread(unread: &Unread, form: Form) -> Vec<String> {
    if let Some(word) = asked_back(unread) {
        return vec![format!("{word} Nothing was marked.")];
    }
    let mut said = vec![format!("{} Nothing was marked.", fault(unread))];
    said.extend(forms(form));
    said
}

/// Names the word of the prompt that seems to be meant.
fn asked_back(unread: &Unread) -> Option<&'static str> {
    match unread {
        Unread::GivesUp => Some("Give this question up? Say pass."),
        Unread::Leaves => Some("End here? Say stop."),
        _ => None,
    }
}

fn fault(unread: &Unread) -> String {
    match unread {
        Unread::GivesUp | Unread::Leaves => asked_back(unread).unwrap_or_default().to_owned(),
        Unread::HowMany(word) => {
            format!("{} does not say how many.", echo(word))
        }
        Unread::Nothing => "There is no reply in that.".to_owned(),
        Unread::NoSquare(word) => format!("{} is no square.", echo(word)),
        Unread::OneSquareWanted(number) => format!("One square is wanted, not {number}."),
        Unread::NoPiece(word) => format!("{} is no piece.", echo(word)),
        Unread::NeitherLegalNorIllegal(word) => {
            format!("{} is neither legal nor illegal.", echo(word))
        }
        Unread::NoPlacement(word) => {
            format!(
                "{} is neither a piece with its square nor a FEN.",
                echo(word)
            )
        }
        Unread::NoMove(word, fault) => no_move(&echo(word), fault),
        Unread::OneMoveWanted(0) => "A move was played there, and it is wanted.".to_owned(),
        Unread::OneMoveWanted(number) => format!("One move is wanted, not {number}."),
        Unread::NoPoints(text) => format!("{} is no number of points.", echo(text)),
        Unread::NoWing(word) => format!("{} is no wing.", echo(word)),
        Unread::SquareTwice(square) => format!("Two pieces were put on {square}."),
        Unread::NoSides => {
            "White's pieces and Black's have to be told apart: put a slash between them, or name \
             each side."
                .to_owned()
        }
        Unread::NoPlace(text) => {
            format!("{} does not give two numbers from 1 to 8.", echo(text))
        }
        Unread::NeitherLightNorDark(word) => {
            format!("{} is neither light nor dark.", echo(word))
        }
        Unread::NoLine(word) => format!("{} is no line.", echo(word)),
        Unread::NoDistance(text) => {
            format!("{} is neither a number of moves nor never.", echo(text))
        }
    }
}

/// Quotes the learner's words, cleaned and not too many of them.
pub(super) fn echo(words: &str) -> String {
    let words = clean_line(words);
    if words.is_empty() {
        return "That".to_owned();
    }
    let mut quoted: String = words.chars().take(ECHO).collect();
    if words.chars().count() > ECHO {
        quoted = format!("{} …", quoted.trim_end());
    }
    format!("\"{quoted}\"")
}

/// Says what can be said at this prompt, and how to reply where a question stands.
pub(super) fn help(form: Option<Form>, again: bool, look: bool) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(form) = form {
        said.extend(forms(form));
    } else {
        said.push("Enter alone: read on.".to_owned());
    }
    said.extend(
        [
            (again, "again: hear what was read last again."),
            (form.is_some(), "question: hear the question again."),
            (look, "look: the board; looks are counted."),
            (
                form.is_some(),
                "pass: give this question up and hear the answer.",
            ),
            (true, "help: hear these words."),
            (true, "stop: end here; every answer is kept."),
        ]
        .into_iter()
        .filter(|(here, _)| *here)
        .map(|(_, words)| words.to_owned()),
    );
    said
}

/// Asks for a reply where Enter alone was typed.
pub(super) fn reply_wanted(form: Form) -> Vec<String> {
    let mut said = vec!["A question stands; type pass to give it up.".to_owned()];
    said.extend(forms(form));
    said
}

/// Says that there is nothing to reply to.
pub(super) fn nothing_asked(text: &str) -> Vec<String> {
    if let Some(unread @ Unread::Leaves) = wish(text) {
        return asked_back(&unread).map(str::to_owned).into_iter().collect();
    }
    vec![
        format!(
            "No question stands, so {} was not marked.",
            lower_that(&echo(text))
        ),
        "Enter alone reads on; help says what else can be said.".to_owned(),
    ]
}

fn lower_that(echoed: &str) -> String {
    if echoed == "That" { "that" } else { echoed }.to_owned()
}

#[cfg(test)]
mod tests {
    use shakmaty::fen::Fen;
    use shakmaty::{CastlingMode, Chess, Square};

    use super::super::ear::for_the_ear;
    use super::*;
    use crate::question::{Kind, Reply};

    /// A position in which the examples are moves.
    fn is_read(form: Form, text: &str) -> bool {
        read(form, text).is_ok()
    }

    fn read(form: Form, text: &str) -> Result<Reply, Unread> {
        let fen: Fen = "4k3/8/8/3p4/4P3/7Q/8/4K1N1 w - - 0 1".parse().unwrap();
        let position: Chess = fen.into_position(CastlingMode::Standard).unwrap();
        form.read_in(text, &position, CastlingMode::Standard)
    }

    #[test]
    fn every_example_is_read_in_its_own_form() {
        for form in Kind::ALL.map(Kind::form) {
            let example = &forms(form)[1];
            let words = example.strip_prefix("For example: ").unwrap();
            let words = words.split(", or ").next().unwrap().trim_end_matches('.');
            assert!(is_read(form, words), "{example}");
        }
    }

    #[test]
    fn every_example_is_spoken_as_it_can_be_said_back() {
        for form in Kind::ALL.map(Kind::form) {
            let example = &forms(form)[1];
            let reply = |example: &str| {
                let words = example.strip_prefix("For example: ").unwrap();
                let words = words.split(", or ").next().unwrap().trim_end_matches('.');
                read(form, words).unwrap()
            };
            assert_eq!(reply(&for_the_ear(example)), reply(example), "{example}");
        }
    }

    #[test]
    fn words_named_in_a_form_are_read_in_it() {
        let table = [
            (Form::SquareOrGone, "gone"),
            (Form::Placement, "Black: Ke8 a7, White: Kg1"),
            (Form::Taken, "two pawns and a knight"),
            (Form::Piece, "empty"),
            (Form::Piece, "N"),
            (Form::Piece, "n"),
            (Form::Squares, "none"),
            (Form::Squares, "d5, e6"),
            (Form::Legal, "illegal"),
            (Form::Legal, "y"),
            (Form::Moves, "none"),
            (Form::Moves, "Nf3, exd5"),
            (Form::MoveOrNone, "none"),
            (Form::Move, "g1f3"),
            (Form::Move, "Ng1-f3"),
            (Form::Points, "2"),
            (Form::Wings, "long"),
            (Form::Wings, "both"),
            (Form::Wings, "none"),
            (Form::Taken, "knight, two pawns"),
            (Form::Taken, "none"),
            (Form::Color, "dark"),
            (Form::Color, "d"),
            (Form::Line, "file"),
            (Form::Line, "rank"),
            (Form::Line, "none"),
            (Form::Line, "r"),
            (Form::Distance, "never"),
            (Form::Route, "never"),
        ];
        for (form, words) in table {
            assert!(is_read(form, words), "{words}");
        }
    }

    #[test]
    fn every_fault_says_what_could_not_be_read() {
        let word = || "z9".to_owned();
        let table = [
            (Unread::Nothing, "There is no reply in that."),
            (Unread::NoSquare(word()), "\"z9\" is no square."),
            (Unread::OneSquareWanted(3), "One square is wanted, not 3."),
            (Unread::NoPiece(word()), "\"z9\" is no piece."),
            (
                Unread::NeitherLegalNorIllegal(word()),
                "\"z9\" is neither legal nor illegal.",
            ),
            (
                Unread::NoPlacement(word()),
                "\"z9\" is neither a piece with its square nor a FEN.",
            ),
            (
                Unread::SquareTwice(Square::E4),
                "Two pieces were put on e4.",
            ),
            (
                Unread::NoSides,
                "White's pieces and Black's have to be told apart: put a slash between them, or name \
                 each side.",
            ),
            (Unread::OneMoveWanted(2), "One move is wanted, not 2."),
            (
                Unread::OneMoveWanted(0),
                "A move was played there, and it is wanted.",
            ),
            (Unread::NoPoints(word()), "\"z9\" is no number of points."),
            (Unread::NoWing(word()), "\"z9\" is no wing."),
            (
                Unread::NoPlace(word()),
                "\"z9\" does not give two numbers from 1 to 8.",
            ),
            (
                Unread::NeitherLightNorDark(word()),
                "\"z9\" is neither light nor dark.",
            ),
            (Unread::NoLine(word()), "\"z9\" is no line."),
            (
                Unread::NoDistance(word()),
                "\"z9\" is neither a number of moves nor never.",
            ),
        ];
        for (unread, said) in table {
            assert_eq!(fault(&unread), said);
        }
        assert_eq!(
            super::unread(&Unread::HowMany("pawns".to_owned()), Form::Taken)[0],
            "\"pawns\" does not say how many. Nothing was marked."
        );
        assert_eq!(
            super::unread(&Unread::GivesUp, Form::Squares),
            ["Give this question up? Say pass. Nothing was marked."]
        );
        assert_eq!(
            super::unread(&Unread::Leaves, Form::Squares),
            ["End here? Say stop. Nothing was marked."]
        );
        assert_eq!(nothing_asked("quit"), ["End here? Say stop."]);
        assert_eq!(
            super::unread(&Unread::NoSquare(word()), Form::Squares),
            [
                "\"z9\" is no square. Nothing was marked.",
                "Reply with squares in any order, with spaces or commas, or none.",
                "For example: d5 e6.",
            ]
        );
    }

    #[test]
    fn what_was_typed_is_said_back_clean_and_short() {
        assert_eq!(echo("e\u{1b}9 \u{202e} x"), "\"e9 x\"");
        assert_eq!(echo("\u{200b}"), "That");
        assert_eq!(
            echo(&"very long ".repeat(20)),
            "\"very long very long very long very long …\""
        );
    }

    #[test]
    fn help_says_every_word_that_can_be_said_here_and_no_other() {
        for (n, form) in Kind::ALL
            .map(Kind::form)
            .map(Some)
            .into_iter()
            .chain([None])
            .enumerate()
        {
            let (again, look) = (n % 2 > 0, n % 3 > 0);
            let help = help(form, again, look).join("\n");
            for (word, here) in [
                ("again", again),
                ("question", form.is_some()),
                ("look", look),
                ("pass", form.is_some()),
                ("help", true),
                ("stop", true),
            ] {
                assert_eq!(help.contains(&format!("{word}: ")), here, "{word}");
            }
            assert_eq!(help.contains("Enter alone"), form.is_none());
            assert_eq!(help.contains("For example"), form.is_some());
        }
    }
}
