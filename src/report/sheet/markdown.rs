//! A sheet as Markdown, in the common core of it: headings, paragraphs, hard breaks, code.

use super::layout::{Block, Picture, Sheet, Side};
use crate::voice::paper;

/// The line to write on.
const LINE: &str = r"\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_";

/// Writes a sheet as Markdown; a rule parts the questions from the key.
pub(crate) fn markdown(sheet: &Sheet, side: Side) -> String {
    let mut paragraphs = Vec::new();
    if side != Side::Key {
        paragraphs.push(format!("# {}", escaped(&sheet.title)));
        paragraphs.push(format!("{}: {LINE} {}: {LINE}", paper::NAME, paper::DATE));
        paragraphs.extend(sheet.questions.iter().map(block));
        paragraphs.push(format!("## {}", paper::FORMS));
        paragraphs.push(lines(&sheet.forms));
        paragraphs.extend(again(sheet));
    }
    if side == Side::Both {
        paragraphs.push("---".to_owned());
    }
    if side != Side::Questions {
        paragraphs.push(format!("# {}", escaped(&sheet.key_title())));
        paragraphs.extend(sheet.key.iter().map(block));
        if side == Side::Key {
            paragraphs.extend(again(sheet));
        }
        paragraphs.push(format!("## {}", paper::ENTER));
        paragraphs.push(lines(&paper::how_to_enter().map(str::to_owned)));
    }
    paragraphs.join("\n\n") + "\n"
}

fn again(sheet: &Sheet) -> [String; 3] {
    [
        format!("## {}", paper::AGAIN),
        escaped(&sheet.known_as),
        format!("    {}", sheet.again),
    ]
}

fn block(block: &Block) -> String {
    match block {
        Block::Heading(heading) => format!("## {}", escaped(heading)),
        Block::Told(told) => lines(told),
        Block::Picture(picture) => {
            format!("{}\n\n{}", escaped(&picture.title), drawn(picture))
        }
        Block::Question {
            number,
            text,
            board,
            lines,
        } => {
            let mut paragraphs = vec![format!("**{number}.** {}", escaped(text))];
            paragraphs.extend(board.as_ref().map(drawn));
            paragraphs.push(vec![LINE; *lines].join("\\\n"));
            paragraphs.join("\n\n")
        }
        Block::Answer { number, truth, why } => {
            let mut said = vec![format!("**{number}.** {}", escaped(truth))];
            said.extend(why.iter().map(|reason| escaped(reason)));
            said.join("\\\n")
        }
    }
}

/// A board as a block of code.
fn drawn(picture: &Picture) -> String {
    format!("    {}", picture.drawn.join("\n    "))
}

/// Lines that stay lines.
fn lines(told: &[String]) -> String {
    let told: Vec<String> = told.iter().map(|line| escaped(line)).collect();
    told.join("\\\n")
}

/// Keeps text from being taken for Markdown or HTML: any mark of punctuation may stand behind a
/// backslash (`CommonMark` 0.31.2, section 2.4).
fn escaped(line: &str) -> String {
    let mut text = String::with_capacity(line.len() + 8);
    let begins = |c: char| matches!(c, '#' | '+' | '-' | '=');
    let number = line.bytes().take_while(u8::is_ascii_digit).count();
    for (at, c) in line.char_indices() {
        let in_the_way = r"\`*_[]<>&|~$".contains(c);
        // A list begins with a number and a dot.
        let lists = number > 0 && at == number && matches!(c, '.' | ')');
        if in_the_way || lists || (at == 0 && begins(c)) {
            text.push('\\');
        }
        text.push(c);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_not_taken_for_markdown() {
        assert_eq!(escaped("<b>*a*_b_"), r"\<b\>\*a\*\_b\_");
        assert_eq!(escaped("5... Bxf3+ 6. e4"), r"5\... Bxf3+ 6. e4");
        assert_eq!(escaped("- one"), r"\- one");
        assert_eq!(escaped("+3 and -2"), r"\+3 and -2");
    }
}
