//! A sheet as a text: as Markdown, in the common core of it (headings, paragraphs, hard breaks, code), or without any
//! marks.

use super::layout::{Block, Picture, Sheet, Side};
use crate::voice::paper;

/// How a text is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marks {
    /// As Markdown.
    Markdown,
    /// Not at all.
    None,
}

/// Writes a sheet as a text; a rule parts the questions from what the pupils do not see.
pub(crate) fn text(sheet: &Sheet, side: Side, marks: Marks) -> String {
    let blocks = |blocks: &[Block]| -> Vec<String> {
        blocks.iter().map(|block| marks.block(block)).collect()
    };
    let mut paragraphs = Vec::new();
    if side != Side::Key {
        paragraphs.push(marks.heading("#", &sheet.title));
        let line = marks.line();
        paragraphs.push(format!("{}: {line} {}: {line}", paper::NAME, paper::DATE));
        paragraphs.extend(blocks(&sheet.questions));
        paragraphs.push(marks.heading("##", paper::FORMS));
        paragraphs.push(marks.lines(&sheet.forms));
        paragraphs.extend(again(sheet, marks));
    }
    if side == Side::Both {
        paragraphs.push("---".to_owned());
    }
    if side != Side::Questions {
        if !sheet.reading.is_empty() {
            paragraphs.push(marks.heading("#", &sheet.reading_title()));
            paragraphs.push(marks.escaped(paper::HOW_TO_READ));
            paragraphs.extend(blocks(&sheet.reading));
            paragraphs.push("---".to_owned());
        }
        paragraphs.push(marks.heading("#", &sheet.key_title()));
        paragraphs.extend(blocks(&sheet.key));
        if side == Side::Key {
            paragraphs.extend(again(sheet, marks));
        }
        paragraphs.push(marks.heading("##", paper::ENTER));
        paragraphs.push(marks.lines(&paper::how_to_enter().map(str::to_owned)));
    }
    paragraphs.join("\n\n") + "\n"
}

fn again(sheet: &Sheet, marks: Marks) -> [String; 3] {
    [
        marks.heading("##", paper::AGAIN),
        marks.escaped(&sheet.known_as),
        format!("    {}", sheet.again),
    ]
}

impl Marks {
    fn heading(self, sign: &str, text: &str) -> String {
        match self {
            Marks::Markdown => format!("{sign} {}", self.escaped(text)),
            Marks::None => text.to_uppercase(),
        }
    }

    /// The line to write on.
    const fn line(self) -> &'static str {
        match self {
            Marks::Markdown => r"\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_\_",
            Marks::None => "________________________",
        }
    }

    /// What stands before a sentence, and the sentence.
    fn labeled(self, label: &str, text: &str) -> String {
        let text = self.escaped(text);
        match self {
            Marks::Markdown => format!("**{label}** {text}"),
            Marks::None => format!("{label} {text}"),
        }
    }

    fn block(self, block: &Block) -> String {
        match block {
            Block::Heading(heading) => self.heading("##", heading),
            Block::Told(told) => self.lines(told),
            Block::Picture(picture) => {
                format!("{}\n\n{}", self.escaped(&picture.title), drawn(picture))
            }
            Block::Question {
                label,
                text,
                board,
                lines,
            } => {
                let mut paragraphs = vec![self.labeled(label, text)];
                paragraphs.extend(board.as_ref().map(drawn));
                paragraphs.push(vec![self.line(); *lines].join(self.end()));
                paragraphs.join("\n\n")
            }
            Block::Answer { label, truth, why } => {
                let mut said = vec![self.labeled(label, truth)];
                said.extend(why.iter().map(|reason| self.escaped(reason)));
                said.join(self.end())
            }
        }
    }

    /// What ends a line that stays one.
    const fn end(self) -> &'static str {
        match self {
            Marks::Markdown => "\\\n",
            Marks::None => "\n",
        }
    }

    /// Lines that stay lines.
    fn lines(self, told: &[String]) -> String {
        let told: Vec<String> = told.iter().map(|line| self.escaped(line)).collect();
        told.join(self.end())
    }

    /// Keeps text from being taken for Markdown or HTML: any mark of punctuation may stand behind a
    /// backslash (`CommonMark` 0.31.2, section 2.4).
    fn escaped(self, line: &str) -> String {
        if self == Marks::None {
            return line.to_owned();
        }
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
}

/// A board as a block of code.
fn drawn(picture: &Picture) -> String {
    format!("    {}", picture.drawn.join("\n    "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn escaped(text: &str) -> String {
        Marks::Markdown.escaped(text)
    }

    #[test]
    fn text_is_not_taken_for_markdown() {
        assert_eq!(escaped("<b>*a*_b_"), r"\<b\>\*a\*\_b\_");
        assert_eq!(escaped("5... Bxf3+ 6. e4"), r"5\... Bxf3+ 6. e4");
        assert_eq!(escaped("- one"), r"\- one");
        assert_eq!(escaped("+3 and -2"), r"\+3 and -2");
    }
}
