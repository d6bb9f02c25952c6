//! Help with replies: what could not be read, which forms are read, which words can be said.

use shakmaty::Square;
use shakmaty::san::San;

use super::clean::clean_line;
use super::naming::{role, side, wing};
use crate::exercise::{Dialogue, Help, PromptWord};
use crate::question::Form;
use crate::reply::{Unread, wish};
use crate::rules::MoveFault;

/// How many characters of a learner's own words are said back.
const ECHO: usize = 40;

/// How more is heard again.
const PLIES_AGAIN: &str = "again 6: hear the last 6 plies again; again all: every one. It costs nothing at a move of \
    your own; while a question stands, it is help, and the answer does not count.";

/// What else can be said where a move is asked for.
const HINT: &str = "hint: hear which piece moves; the move then counts half.";

/// Asks back where the learner seems to want to leave.
const LEAVES: &str = "End here? Say stop.";

/// Says which forms of reply are read, with an example.
pub(super) fn forms(form: Form) -> Vec<String> {
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
        Form::MoveOrNone => ("one move, or none", "Kd1"),
        Form::Move => (
            "one move, with or without the square that the piece left",
            "Kd1",
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
    let mut said = vec![format!("{} Nothing was marked.", fault(unread))];
    let says_how = match unread {
        Unread::GivesUp | Unread::Leaves => true,
        Unread::NoMove(_, fault) => matches!(
            fault,
            MoveFault::Ambiguous { .. }
                | MoveFault::NoPromotion { .. }
                | MoveFault::OnlyCastling { .. }
        ),
        _ => false,
    };
    if !says_how {
        said.extend(forms(form));
    }
    said
}

/// Says which word could not be read, where all others could.
pub(super) fn unread_word(unread: &Unread) -> Vec<String> {
    let fault = fault(unread);
    vec![format!(
        "{fault} The rest is kept: say this one again, or none to leave it out."
    )]
}

fn fault(unread: &Unread) -> String {
    let (word, fault) = match unread {
        // Words of the prompt that seem to be meant.
        Unread::GivesUp => return "Give this question up? Say pass.".to_owned(),
        Unread::Leaves => return LEAVES.to_owned(),
        Unread::Nothing => return "There is no reply in that.".to_owned(),
        Unread::OneSquareWanted(number) => return format!("One square is wanted, not {number}."),
        Unread::OneMoveWanted(0) => return "A move is wanted here.".to_owned(),
        Unread::OneMoveWanted(number) => return format!("One move is wanted, not {number}."),
        Unread::SquareTwice(square) => return format!("Two pieces were put on {square}."),
        Unread::NoSides => {
            return "White's pieces and Black's have to be told apart: put a slash between them, or name \
                    each side."
                .to_owned();
        }
        Unread::NoMove(word, fault) => return no_move(&echo(word), fault),
        Unread::HowMany(word) => (word, "does not say how many"),
        Unread::NoSquare(word) => (word, "is no square"),
        Unread::NoPiece(word) => (word, "is no piece"),
        Unread::NeitherLegalNorIllegal(word) => (word, "is neither legal nor illegal"),
        Unread::NoPlacement(word) => (word, "is neither a piece with its square nor a FEN"),
        Unread::NoPoints(word) => (word, "is no number of points"),
        Unread::NoWing(word) => (word, "is no wing"),
        Unread::NoPlace(word) => (word, "does not give two numbers from 1 to 8"),
        Unread::NeitherLightNorDark(word) => (word, "is neither light nor dark"),
        Unread::NoLine(word) => (word, "is no line"),
        Unread::NoDistance(word) => (word, "is neither a number of moves nor never"),
    };
    format!("{} {fault}.", echo(word))
}

/// Says why a text is no move of the position, or which two moves it could be.
pub(super) fn no_move(word: &str, fault: &MoveFault) -> String {
    let said = match fault {
        MoveFault::Unreadable | MoveFault::Pass => "is no move".to_owned(),
        MoveFault::NoSuchPiece { color, role: kind } => {
            let (side, role) = (side(*color), role(*kind));
            format!("is no move there: {side} has no such {role}")
        }
        MoveFault::CannotGo {
            color,
            role: kind,
            to,
        } => {
            let (side, role) = (side(*color), role(*kind));
            format!("is no legal move: no {role} of {side} can go to {to}")
        }
        // Where they stand is for the learner to know.
        MoveFault::Ambiguous { .. } => {
            "could be the move of more than one piece: say the square that it leaves too, as in Rh4h6"
                .to_owned()
        }
        MoveFault::NoPromotion { to } => {
            let typed = word.trim_matches(|sign: char| !sign.is_ascii_alphanumeric());
            let to = to.to_string();
            let typed = if typed.ends_with(&to) { typed } else { &to };
            format!("does not say what the pawn becomes on {to}: add a letter, as in {typed}Q")
        }
        MoveFault::NeedlessPromotion => "is no legal move: no pawn promotes with it".to_owned(),
        MoveFault::OnlyCastling { wing } => {
            format!("can only be castling there: say {}", San::Castle(*wing))
        }
        MoveFault::CannotCastle {
            color,
            wing: on,
            king,
        } => {
            let (side, wing) = (side(*color), wing(*on));
            let home = color.fold_wb(Square::E1, Square::E8);
            let stands = (*king != home).then(|| format!(": the king stands on {king}"));
            let stands = stands.unwrap_or_default();
            format!("is no legal move: {side} cannot castle {wing} there{stands}")
        }
    };
    format!("{word} {said}.")
}

/// Quotes the learner's words, cleaned and not too many of them.
pub(super) fn echo(words: &str) -> String {
    let words = clean_line(words);
    if words.is_empty() {
        return "That".to_owned();
    }
    match words.char_indices().nth(ECHO) {
        None => format!("\"{words}\""),
        Some((end, _)) => format!("\"{} …\"", words[..end].trim_end()),
    }
}

/// Says what can be said at this prompt, and how to reply where a question stands.
pub(super) fn help(help: &Help) -> Vec<String> {
    let forms = help.form.into_iter().flat_map(forms);
    let words = help.words.iter().map(|word| prompt_word(*word).to_owned());
    forms.chain(words).collect()
}

const fn prompt_word(word: PromptWord) -> &'static str {
    match word {
        PromptWord::Truth => "Enter alone: hear the answer and why.",
        PromptWord::GoOn => "Enter alone: read on.",
        PromptWord::Back(Dialogue::Back) => {
            "back: go back to where your picture held, and find it ply by ply."
        }
        PromptWord::Back(Dialogue::Rebuild) => {
            "back: find the rest, one kind of piece after another."
        }
        PromptWord::Again => "again: hear what was read last again.",
        PromptWord::AgainPlies => PLIES_AGAIN,
        PromptWord::Question => "question: hear the question again.",
        PromptWord::Look => "look: the board; looks are counted.",
        PromptWord::Why => "why: hear why the last answer is what it is.",
        PromptWord::Pass => "pass: give this question up and hear the answer.",
        PromptWord::TakeBack => {
            "take back: take your last move and the answer to it back; it is counted."
        }
        PromptWord::Draw => {
            "draw: claim a draw where the position stands for the third time or fifty moves passed; else \
             offer one, from move 30 on."
        }
        PromptWord::Resign => "resign: give the game up.",
        PromptWord::Help => "help: hear these words.",
        PromptWord::Stop => "stop: end here; every answer is kept.",
        PromptWord::Hint => HINT,
    }
}

/// Asks for a reply where Enter alone was typed.
pub(super) fn reply_wanted(form: Form) -> Vec<String> {
    let wanted = "A question stands; type pass to give it up.".to_owned();
    [wanted].into_iter().chain(forms(form)).collect()
}

/// Says that there is nothing to reply to.
pub(super) fn nothing_asked(text: &str) -> Vec<String> {
    if let Some(Unread::Leaves) = wish(text) {
        return vec![LEAVES.to_owned()];
    }
    let echo = match echo(text) {
        echo if echo == "That" => "that".to_owned(),
        echo => echo,
    };
    vec![
        format!("No question stands, so {echo} was not marked."),
        "Enter alone reads on; help says what else can be said.".to_owned(),
    ]
}

#[cfg(test)]
mod tests {
    use shakmaty::fen::Fen;
    use shakmaty::{CastlingMode, Chess};

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
        form.read_in(text, &position)
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
        let all = [
            (PromptWord::GoOn, "Enter alone"),
            (PromptWord::Back(Dialogue::Back), "\nback"),
            (PromptWord::Again, "again"),
            (PromptWord::AgainPlies, "again all"),
            (PromptWord::Question, "question"),
            (PromptWord::Look, "look"),
            (PromptWord::Why, "why"),
            (PromptWord::Pass, "pass"),
            (PromptWord::TakeBack, "take back"),
            (PromptWord::Draw, "draw"),
            (PromptWord::Resign, "resign"),
            (PromptWord::Help, "help"),
            (PromptWord::Stop, "stop"),
            (PromptWord::Hint, "hint"),
        ];
        let forms = Kind::ALL.map(Kind::form).map(Some).into_iter();
        for (n, form) in forms.chain([None]).enumerate() {
            let here = all.iter().enumerate().filter(|(at, _)| (n + at) % 3 > 0);
            let here: Vec<_> = here.map(|(_, (word, _))| *word).collect();
            let words = here.clone();
            let help = format!("\n{}", help(&Help { form, words }).join("\n"));
            for (word, name) in all {
                let says = help.contains(&format!("{name}: "));
                assert_eq!(says, here.contains(&word), "{name}");
            }
            assert_eq!(help.contains("For example"), form.is_some());
        }
    }
}
