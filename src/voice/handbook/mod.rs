//! The handbook: its pages, and what stands on each.
//!
//! The pages are written in the plainest Markdown: a title, headings, paragraphs, items, tables, commands moved in
//! by four spaces, and samples between fences.

/// A page of the handbook.
#[derive(Debug)]
pub(crate) struct Page {
    /// The word that asks for it: a command's name or a subject.
    pub(crate) topic: &'static str,
    text: &'static str,
}

/// What stands between two empty lines.
#[derive(Debug)]
pub(crate) struct Block {
    /// How it is shown.
    pub(crate) shape: Shape,
    /// Its lines, which are as long as they come; all but a sample's have marks around what can be typed.
    pub(crate) lines: Vec<String>,
}

/// How a block is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shape {
    /// The title, or the heading of a section.
    Heading,
    /// A paragraph.
    Text,
    /// An item of a list, or a row of a table.
    Item,
    /// Commands that can be typed as they stand, one a line.
    Commands,
    /// A file, a record or a session, letter for letter.
    Sample,
}

macro_rules! pages {
    ($($topic:literal)+) => {
        &[$(Page { topic: $topic, text: include_str!(concat!($topic, ".md")) }),+]
    };
}

/// All pages: those of the commands, then the others.
pub(crate) static PAGES: &[Page] = pages![
    "replay" "ahead" "recite" "play" "drill" "lesson" "games" "sheet" "progress" "journal" "setup" "help"
    "start" "kinds" "replies" "pgn" "by-ear" "coach" "config" "words"
];

/// Where a fence begins and ends a sample.
const FENCE: &str = "```";
/// How far commands are moved in.
const INDENT: &str = "    ";

impl Page {
    /// Finds the page of a topic.
    pub(crate) fn find(topic: &str) -> Option<&'static Page> {
        PAGES.iter().find(|page| page.topic == topic)
    }

    /// Returns the page of a topic that is known to have one.
    pub(crate) fn of(topic: &str) -> &'static Page {
        Page::find(topic).expect("it is a page")
    }

    /// Says what the page is about, in a line.
    pub(crate) fn title(&self) -> &'static str {
        let first = self.text.lines().next().unwrap_or_default();
        first.trim_start_matches("# ")
    }

    /// Returns all that stands on it, the title first.
    pub(crate) fn blocks(&self) -> Vec<Block> {
        let mut blocks = Vec::new();
        for (number, text) in self.text.split(FENCE).enumerate() {
            if number % 2 == 1 {
                // Behind the fence stands the language.
                let lines = text.lines().skip(1).map(str::to_owned).collect();
                blocks.push(Block::new(Shape::Sample, lines));
            } else {
                let parts = text.split("\n\n").map(|part| part.trim_matches('\n'));
                blocks.extend(parts.filter(|part| !part.is_empty()).flat_map(parsed));
            }
        }
        blocks
    }

    /// Returns the lines of the first block of this shape.
    pub(crate) fn first(&self, shape: Shape) -> Vec<String> {
        let mut blocks = self.blocks().into_iter();
        let first = blocks.find(|block| block.shape == shape);
        first.map_or_else(Vec::new, |block| block.lines)
    }

    /// Returns what a table says of a word.
    pub(crate) fn row(&self, word: &str) -> Option<String> {
        let start = format!("`{word}`: ");
        let mut lines = self.blocks().into_iter().flat_map(|block| block.lines);
        let row = lines.find(|line| line.starts_with(&start));
        row.map(|line| bare(&line))
    }
}

impl Block {
    /// Puts lines into a shape.
    pub(crate) const fn new(shape: Shape, lines: Vec<String>) -> Block {
        Block { shape, lines }
    }
}

/// Reads what stands between two empty lines.
fn parsed(part: &str) -> Vec<Block> {
    let line = |text: &str| vec![text.lines().map(str::trim).collect::<Vec<_>>().join(" ")];
    if part.starts_with('#') {
        let heading = part.trim_start_matches(['#', ' ']);
        vec![Block::new(Shape::Heading, line(heading))]
    } else if part.starts_with(INDENT) {
        let commands = part.lines().map(|line| line.trim().to_owned());
        vec![Block::new(Shape::Commands, commands.collect())]
    } else if let Some(items) = part.strip_prefix("- ") {
        let items = items.split("\n- ");
        items
            .map(|item| Block::new(Shape::Item, line(item)))
            .collect()
    } else if part.starts_with('|') {
        let mut rows = part
            .lines()
            .map(|row| row.trim_matches('|').split('|').map(str::trim));
        let heads: Vec<&str> = rows.next().map(Iterator::collect).unwrap_or_default();
        rows.skip(1)
            .map(|cells| row(&heads, &cells.collect::<Vec<_>>()))
            .collect()
    } else {
        vec![Block::new(Shape::Text, line(part))]
    }
}

/// Says a row of a table; what stands behind the second cell is told with its head.
fn row(heads: &[&str], cells: &[&str]) -> Block {
    let mut lines = vec![format!("{}: {}", cells[0], cells[1])];
    let more = heads.iter().zip(cells).skip(2);
    lines.extend(more.map(|(head, cell)| format!("{head}: {cell}")));
    Block::new(Shape::Item, lines)
}

/// Leaves out the marks around what can be typed.
pub(crate) fn bare(text: &str) -> String {
    text.replace('`', "")
}

/// Parts a text at these marks, and has what can be typed shown in another way.
pub(crate) fn marked<T>(text: &str, plain: fn(String) -> T, strong: fn(String) -> T) -> Vec<T> {
    let ways = [plain, strong].into_iter().cycle();
    let parts = text.split('`').map(str::to_owned);
    parts.zip(ways).map(|(part, shown)| shown(part)).collect()
}

/// The command that shows a page.
pub(crate) fn command(topic: &str) -> String {
    format!("sansvoir help {topic}")
}

/// Says which page tells more.
pub(crate) fn more(topic: &str) -> String {
    format!("{} tells more.", command(topic))
}

/// What stands below the names of the options.
pub(crate) fn more_of_options(topic: &str) -> String {
    format!("--help tells what each option does. {}", more(topic))
}

/// Puts examples under their heading.
pub(crate) fn with_examples(examples: &[String]) -> String {
    format!("Examples:\n  {}", examples.join("\n  "))
}
