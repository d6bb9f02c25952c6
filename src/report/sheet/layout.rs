//! A sheet laid out for paper: what stands on the page of questions and on that of answers, in words,
//! whatever it is written as.

use shakmaty::{Board, CastlingMode, Chess, Color, Position, Square};

use super::part::{SheetItem, SheetPart, SheetQuestion};
use crate::exercise::{Opening, Output, Show};
use crate::game::{MoveNumber, Start};
use crate::question::{BareQuestion, Form, LineQuestion, Question, Truth, bare};
use crate::voice::{self, Voice, paper};

/// A sheet of paper, or two: questions and key.
#[derive(Clone, Debug, Default)]
pub(crate) struct Sheet {
    /// What it is about.
    pub(crate) title: String,
    /// What it is known by: its name and seed.
    pub(crate) known_as: String,
    /// The command line that makes it again.
    pub(crate) again: String,
    /// The page of questions: nothing stands there that is read aloud.
    pub(crate) questions: Vec<Block>,
    /// What whoever reads aloud has before the eyes; empty where nothing is read.
    pub(crate) reading: Vec<Block>,
    /// How each form of reply is written.
    pub(crate) forms: Vec<String>,
    /// The answers.
    pub(crate) key: Vec<Block>,
}

/// Which side of a sheet is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    /// The questions alone.
    Questions,
    /// The reading copy and the key.
    Key,
    /// All of it, each on a new page.
    Both,
}

/// One thing on a page.
#[derive(Clone, Debug)]
pub(crate) enum Block {
    /// A checkpoint or a round begins.
    Heading(String),
    /// Lines that are read aloud, or that say what is done here.
    Told(Vec<String>),
    /// A board.
    Picture(Picture),
    /// A question, and how many lines are left to write on.
    Question {
        /// What stands before it: its number.
        label: String,
        /// Its sentence.
        text: String,
        /// The board that it is about, where it shows one.
        board: Option<Picture>,
        /// How many lines to write on.
        lines: usize,
    },
    /// An answer.
    Answer {
        /// What stands before it: the number of its question.
        label: String,
        /// The truth.
        truth: String,
        /// Why it is so.
        why: Vec<String>,
    },
}

/// A board, drawn and in words.
#[derive(Clone, Debug)]
pub(crate) struct Picture {
    /// What is drawn.
    pub(crate) content: BoardContent,
    /// The side from which it is seen.
    pub(crate) view: Color,
    /// What it is.
    pub(crate) title: String,
    /// The same in words.
    pub(crate) told: Vec<String>,
    /// The same drawn with letters and marks.
    pub(crate) drawn: Vec<String>,
}

/// What a drawn board shows.
#[derive(Clone, Debug)]
pub(crate) enum BoardContent {
    /// Pieces, with the names of files and ranks at the edge.
    Pieces(Board),
    /// One marked square, without the names of files and ranks.
    Marked(Square),
}

impl Sheet {
    /// Lays a sheet out, the parts of a lesson under its title. With a voice that is plain, boards are told and not
    /// drawn.
    pub(crate) fn new(
        title: Option<String>,
        parts: &[SheetPart],
        known_as: String,
        again: String,
    ) -> Sheet {
        let mut sheet = Sheet {
            title: title.unwrap_or_default(),
            known_as,
            again,
            ..Sheet::default()
        };
        let mut forms = Vec::new();
        for part in parts {
            let mut place = Place::default();
            if let Some((heading, notes)) = &part.heading {
                sheet.head(heading);
                let notes = (!notes.is_empty()).then(|| Block::Told(notes.clone()));
                sheet.questions.extend(notes.clone());
                sheet.reading.extend(notes);
            }
            for item in &part.items {
                match item {
                    SheetItem::Told(output) => sheet.tell(output, part.voice, &mut place),
                    SheetItem::Question(item) => {
                        let form = item.ask.form;
                        if !forms.contains(&form) {
                            forms.push(form);
                            sheet.forms.push(paper::form_of(item.number, form));
                        }
                        sheet.ask(item, part.voice, &mut place);
                    }
                }
            }
        }
        if !parts.iter().any(SheetPart::is_read) {
            sheet.reading.clear();
        }
        sheet
    }

    /// Heads what is read aloud.
    pub(super) fn reading_title(&self) -> String {
        format!("{}: {}", paper::READING, self.title)
    }

    /// Heads the page of answers where it stands alone.
    pub(super) fn key_title(&self) -> String {
        format!("{}: {}", paper::KEY, self.title)
    }

    /// Tells whether a square is marked on a drawn board.
    pub(crate) fn marks_squares(&self) -> bool {
        let marks = |block: &Block| matches!(block, Block::Question { board: Some(_), .. });
        self.questions.iter().any(marks)
    }

    fn tell(&mut self, output: &Output, voice: Voice, place: &mut Place) {
        if let Some(title) = paper::title(output).filter(|_| self.title.is_empty()) {
            self.title = title;
        }
        let mut said = voice.on_paper(output);
        if said.is_empty() {
            return;
        }
        match output {
            // How it goes is for whoever answers, and what is read for whoever reads; what is known by heart is
            // known by its name.
            Output::Opening(opening) => {
                let from = match &**opening {
                    Opening::Recite(_) => 0,
                    _ => said.len() - 1,
                };
                self.questions.push(Block::Told(said[from..].to_vec()));
            }
            Output::Given(shown) => {
                self.head(&said.remove(0));
                (place.last, place.new) = (None, true);
                if shown.show == Show::Diagram {
                    let drawn = Block::Picture(picture(shown.start.position(), voice, None));
                    let drawn = (!voice.plain).then_some(drawn);
                    let drawn = drawn.into_iter().chain([Block::Told(said)]);
                    let drawn: Vec<Block> = drawn.collect();
                    self.questions.extend(drawn.iter().cloned());
                    self.reading.extend(drawn);
                    return;
                }
            }
            Output::Heard(heard) => {
                place.new = true;
                place.last = heard.plies.last().map(|ply| ply.number).or(place.last);
                // Stretches that follow each other are one block.
                if let Some(Block::Told(before)) = self.reading.last_mut()
                    && place.reads
                {
                    before.extend(said);
                    return;
                }
            }
            Output::AskOpen(open) => {
                let text = said.concat();
                self.reading.push(Block::Told(vec![text.clone()]));
                self.key.push(Block::Answer {
                    label: paper::IN_OWN_WORDS.to_owned(),
                    truth: format!("{text} {}", voice::open_answer(open)),
                    why: Vec::new(),
                });
                self.questions.push(Block::Question {
                    label: paper::IN_OWN_WORDS.to_owned(),
                    text,
                    board: None,
                    lines: 2,
                });
                place.reads = false;
                return;
            }
            _ => {}
        }
        place.reads = matches!(output, Output::Heard(_));
        self.reading.push(Block::Told(said));
    }

    /// Heads what comes next on all pages.
    fn head(&mut self, said: &str) {
        let heading = said.trim_end_matches('.');
        for page in [&mut self.questions, &mut self.reading, &mut self.key] {
            page.push(Block::Heading(heading.to_owned()));
        }
    }

    fn ask(&mut self, item: &SheetQuestion, voice: Voice, place: &mut Place) {
        if let Some(heading) = voice::checkpoint(&item.ask) {
            self.head(&heading);
        }
        let mut board = marked(item);
        let told = board.take_if(|_| voice.plain);
        let told = told.map(|board| Block::Told(board.told));
        self.questions.extend(told);
        let answered = &item.answered;
        let lines = match answered.question {
            Question::Line(LineQuestion::Mate(mate)) => mate.within as usize,
            _ if item.ask.form == Form::Placement => 3,
            _ => 1,
        };
        let text = voice::question(&item.ask);
        let numbered = paper::numbered(item.number, &text);
        match self.reading.last_mut() {
            Some(Block::Told(before)) if !place.new => before.push(numbered),
            _ => self.reading.push(Block::Told(vec![numbered])),
        }
        self.questions.push(Block::Question {
            label: format!("{}.", item.number),
            text,
            board,
            lines,
        });
        if place.new
            && let Some(picture) = position(item, voice, place.last)
        {
            self.key.push(if voice.plain {
                Block::Told([vec![picture.title], picture.told].concat())
            } else {
                Block::Picture(picture)
            });
        }
        (place.new, place.reads) = (false, false);
        let truth = voice::truth(&answered.question, &answered.truth);
        let (truth, why) = match (&answered.truth, answered.question) {
            (Truth::Placement(placement), _) => (truth, voice::pieces(placement)),
            // Why it is so says all of it.
            (_, Question::Line(LineQuestion::Played(_))) => {
                (paper::reasons(&answered.why).concat(), Vec::new())
            }
            _ => (truth, paper::reasons(&answered.why)),
        };
        self.key.push(Block::Answer {
            label: format!("{}.", item.number),
            truth,
            why,
        });
    }
}

/// How far the reading has come.
#[derive(Clone, Copy, Debug, Default)]
struct Place {
    /// The last move that was read.
    last: Option<MoveNumber>,
    /// Whether nothing has been asked since something was read.
    new: bool,
    /// Whether the last thing on the page of questions is a stretch of moves.
    reads: bool,
}

/// The board on which a question marks a square.
fn marked(item: &SheetQuestion) -> Option<Picture> {
    let Question::Bare(BareQuestion::Name(bare::Name { square, view })) = item.answered.question
    else {
        return None;
    };
    Some(Picture {
        content: BoardContent::Marked(square),
        view,
        title: paper::marked(view) + ".",
        told: voice::marked_board(&item.ask, true),
        drawn: voice::marked_board(&item.ask, false),
    })
}

/// The position that a question is about, for the key.
fn position(item: &SheetQuestion, voice: Voice, last: Option<MoveNumber>) -> Option<Picture> {
    let setting = item.answered.setting.as_ref()?;
    let mode = CastlingMode::from_chess960(setting.chess960);
    let start = Start::from_fen(&setting.position, mode).ok()?;
    Some(picture(start.position(), voice, last))
}

/// A position as it is drawn on either page.
fn picture(position: &Chess, voice: Voice, last: Option<MoveNumber>) -> Picture {
    let board = position.board().clone();
    Picture {
        view: voice.view,
        title: paper::position_after(last, position.turn()) + ".",
        told: voice::pieces(&board),
        drawn: voice::diagram(&board, voice.view),
        content: BoardContent::Pieces(board),
    }
}
