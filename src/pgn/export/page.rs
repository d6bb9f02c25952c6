//! Movetext in lines.

/// Movetext lines are shorter than this (PGN standard, 8.2.1).
const WIDTH: usize = 80;

/// Movetext that is broken into lines between its words.
#[derive(Debug, Default)]
pub(super) struct Page {
    text: String,
    /// How many characters stand on the last line.
    column: usize,
    /// Parentheses that stand close before the next word.
    opened: String,
}

impl Page {
    /// Writes a word, on a new line where there is no room.
    pub(super) fn word(&mut self, word: &str) {
        let opened = std::mem::take(&mut self.opened);
        let length = opened.len() + word.chars().count();
        self.space(length, true);
        self.text.push_str(&opened);
        self.text.push_str(word);
        self.column += length;
    }

    /// Opens a sideline.
    pub(super) fn open(&mut self) {
        self.opened.push('(');
    }

    /// Closes a sideline.
    pub(super) fn close(&mut self) {
        if self.column + 1 >= WIDTH {
            self.word(")");
        } else {
            self.text.push(')');
            self.column += 1;
        }
    }

    /// Writes a comment.
    pub(super) fn comment(&mut self, comment: &str) {
        if comment.contains('}') {
            self.line_comment(comment);
            return;
        }
        let mut words = comment.split_whitespace();
        let mut word = format!("{{{}", words.next().unwrap_or_default());
        let mut may_break = true;
        for next in words {
            self.piece(&word, may_break);
            // At the head of a line `%` would hide the rest of it (6), and `[` be taken for a tag by some.
            may_break = !next.starts_with(['%', '[']);
            next.clone_into(&mut word);
        }
        word.push('}');
        self.piece(&word, may_break);
    }

    fn piece(&mut self, word: &str, may_break: bool) {
        if may_break {
            self.word(word);
        } else {
            self.space(word.chars().count(), false);
            self.text.push_str(word);
            self.column += word.chars().count();
        }
    }

    /// A comment with a closing brace in it can only stand behind a semicolon, which goes to the end of
    /// the line (5).
    fn line_comment(&mut self, comment: &str) {
        for line in comment.lines() {
            let opened = std::mem::take(&mut self.opened);
            if !opened.is_empty() {
                self.space(opened.len(), true);
                self.text.push_str(&opened);
                self.column += opened.len();
            }
            if self.column > 0 {
                self.text.push(' ');
            }
            let words: Vec<&str> = line.split_whitespace().collect();
            self.text.push_str("; ");
            self.text.push_str(&words.join(" "));
            self.text.push('\n');
            self.column = 0;
        }
    }

    /// Parts the next word from the one before.
    fn space(&mut self, length: usize, may_break: bool) {
        if self.column == 0 {
            return;
        }
        if may_break && self.column + 1 + length >= WIDTH {
            self.text.push('\n');
            self.column = 0;
        } else {
            self.text.push(' ');
            self.column += 1;
        }
    }

    pub(super) fn finish(self) -> String {
        self.text
    }
}
