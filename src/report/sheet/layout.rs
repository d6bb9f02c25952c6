//! A sheet laid out for paper: what stands on the page of questions and on that of answers, in words,
//! whatever it is written as.

use shakmaty::{Board, CastlingMode, Chess, Color, Position, Square};

use super::questions::{SheetItem, SheetQuestion};
use crate::exercise::{Output, Show};
use crate::game::{MoveNumber, Start};
use crate::question::{BareQuestion, Form, Question, Truth, bare};
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
    /// The questions and what is read between them.
    pub(crate) questions: Vec<Block>,
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
    /// The key alone.
    Key,
    /// The questions, and the key on a new page.
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
        /// Its number.
        number: usize,
        /// Its sentence.
        text: String,
        /// The board that it is about, where it shows one.
        board: Option<Picture>,
        /// How many lines to write on.
        lines: usize,
    },
    /// An answer.
    Answer {
        /// The number of its question.
        number: usize,
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
    /// Lays a sheet out. With a voice that is plain, boards are told and not drawn.
    pub(crate) fn new(items: &[SheetItem], voice: Voice, known_as: String, again: String) -> Sheet {
        let mut sheet = Sheet {
            known_as,
            again,
            ..Sheet::default()
        };
        let mut forms = Vec::new();
        let mut place = Place::default();
        for item in items {
            match item {
                SheetItem::Told(output) => sheet.tell(output, voice, &mut place),
                SheetItem::Question(item) => {
                    let form = item.ask.form;
                    if !forms.contains(&form) {
                        forms.push(form);
                        sheet.forms.push(paper::form_of(item.number, form));
                    }
                    sheet.ask(item, voice, &mut place);
                }
            }
        }
        sheet
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
            Output::Given(shown) => {
                self.head(&said.remove(0));
                (place.last, place.new) = (None, true);
                if shown.show == Show::Diagram && !voice.plain {
                    let picture = picture(shown.start.position(), voice, None);
                    self.questions.push(Block::Picture(picture));
                }
            }
            Output::Heard(heard) => {
                place.new = true;
                place.last = heard.plies.last().map(|ply| ply.number).or(place.last);
                // Stretches that follow each other are one block.
                if let Some(Block::Told(before)) = self.questions.last_mut()
                    && place.reads
                {
                    before.extend(said);
                    return;
                }
            }
            _ => {}
        }
        place.reads = matches!(output, Output::Heard(_));
        self.questions.push(Block::Told(said));
    }

    /// Heads what comes next on both pages.
    fn head(&mut self, said: &str) {
        let heading = said.trim_end_matches('.');
        self.questions.push(Block::Heading(heading.to_owned()));
        self.key.push(Block::Heading(heading.to_owned()));
    }

    fn ask(&mut self, item: &SheetQuestion, voice: Voice, place: &mut Place) {
        if let Some(heading) = voice::checkpoint(&item.ask) {
            self.head(&heading);
        }
        let mut board = marked(item);
        let told = board.take_if(|_| voice.plain);
        let told = told.map(|board| Block::Told(board.told));
        self.questions.extend(told);
        let is_long = item.ask.form == Form::Placement;
        self.questions.push(Block::Question {
            number: item.number,
            text: voice::question(&item.ask),
            board,
            lines: if is_long { 3 } else { 1 },
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
        let answered = &item.answered;
        let why = match &answered.truth {
            Truth::Placement(placement) => voice::pieces(placement),
            _ => paper::reasons(&answered.why),
        };
        self.key.push(Block::Answer {
            number: item.number,
            truth: voice::truth(&answered.question, &answered.truth),
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
