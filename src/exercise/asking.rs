//! A question that is put. Every exercise asks through this.

use shakmaty::{Bitboard, Color, Piece, Position};

use super::answers::Tries;
use super::draft::Draft;
use super::past::Place;
use super::said::GameWord;
use crate::game::{MoveNumber, Ply};
use crate::question::{BareQuestion, Form, LineQuestion, Played, Question, Standing, Truth, Turn};
use crate::reply::one_move;

/// A question that is put.
#[derive(Clone, Debug)]
pub struct Asking {
    pub(super) ask: Ask,
    /// Where the learner is; `None` over the bare board.
    pub(super) place: Option<Place>,
    /// Where the question stands.
    pub(super) stands: Stands,
    /// The right answer, where it is known beforehand.
    pub(super) truth: Option<Truth>,
    /// Whether it comes again in a drill, after it was missed or slow.
    pub(super) repeat: bool,
    /// Whether something helped.
    pub(super) helped: bool,
    /// The tries so far, for a move that has two.
    pub(super) tries: Option<Tries>,
    /// Whether the piece that moves is named by itself after a first miss.
    pub(super) hints_by_itself: bool,
    /// A whole board in words of which one could not be read.
    pub(super) draft: Option<Draft>,
    /// Milliseconds that wrong tries took, and what was said before the reply was whole.
    pub(super) spent: u64,
}

/// A question where it stands.
#[derive(Clone, Debug)]
pub(super) enum Stands {
    Line(LineQuestion, Place),
    Bare(BareQuestion),
}

impl Asking {
    /// A question over the bare board, with its number and that of all.
    pub(super) fn bare(question: BareQuestion, count: (usize, usize), repeat: bool) -> Asking {
        let stands = Stands::Bare(question);
        Asking {
            repeat,
            ..Asking::new(Asked::Bare(question), question.form(), count, None, stands)
        }
    }

    /// The same for a learner who is taught: what is missed is asked again with one clue after the other.
    pub(super) fn taught(
        question: BareQuestion,
        count: (usize, usize),
        shown: Coordinates,
    ) -> Asking {
        let mut asking = Asking::bare(question, count, false);
        asking.ask.taught = Some(shown);
        asking.tries = Some(Tries::default());
        asking.helped = true;
        asking
    }

    /// A question over a line, at the place that has been reached, with its number and that of all.
    pub(super) fn over(
        question: LineQuestion,
        place: Place,
        checkpoint: Option<(usize, Option<usize>)>,
        count: (usize, usize),
    ) -> Asking {
        let scene = place.scene();
        let piece = match question {
            LineQuestion::Whereabouts(question) => scene.line().roster().piece(question.piece),
            _ => None,
        };
        let stand = Stand {
            checkpoint,
            turn: scene.position().turn(),
            piece: piece.map(|piece| piece.piece),
            start_shown: checkpoint.is_none() && !scene.line().start().is_usual(),
            chess960: scene.line().start().mode().is_chess960(),
        };
        let stands = Stands::Line(question, place.clone());
        let asked = Asked::Line(question, stand);
        Asking::new(asked, question.form(), count, Some(place), stands)
    }

    /// The next move of the line, to be said from memory: with two tries, and a hint after the first where
    /// it comes by itself. The question is of the line that the move ends, so that the journal holds all
    /// that proves it.
    pub(super) fn next_move(place: Place, count: (usize, usize), hints_by_itself: bool) -> Asking {
        let after = Place::new(place.line.clone(), place.plies + 1);
        let next = place.line.plies()[place.plies].number;
        let asked = Asked::Move {
            number: next,
            once_more: false,
        };
        let stands = Stands::Line(LineQuestion::Played(Played::at(next)), after);
        Asking {
            tries: Some(Tries::default()),
            hints_by_itself,
            ..Asking::new(asked, Form::Move, count, Some(place), stands)
        }
    }

    /// Tells whether something helped, a wrong try included; where it is taught, that alone.
    pub(super) fn was_helped(&self) -> bool {
        let tried = self.tries.as_ref();
        let is_helped = self.helped && self.ask.taught.is_none();
        is_helped || tried.is_some_and(|tries| *tries != Tries::default())
    }

    /// Notes that something had helped before the session was stopped; tells whether that is why the answer will not
    /// count.
    pub(super) fn note_earlier_help(&mut self) -> bool {
        match &mut self.tries {
            Some(tries) if self.ask.taught.is_some() => {
                tries.hint = true;
                false
            }
            _ => {
                self.helped = true;
                true
            }
        }
    }

    /// Tells whether the piece that moves can be named.
    pub(super) const fn can_hint(&self) -> bool {
        self.tries.is_some() && self.ask.taught.is_none()
    }

    /// A move of one's own, with the number of its board and that of all.
    pub(super) fn turn(place: Place, board: (usize, usize)) -> Asking {
        let asked = Asked::Turn(TurnStand {
            number: MoveNumber::next_in(place.scene().position()),
            last: place.played().last().copied(),
        });
        let stands = Stands::Line(LineQuestion::Turn(Turn {}), place.clone());
        Asking::new(asked, Form::Move, board, Some(place), stands)
    }

    /// Reads a word that can be said in the place of a move of one's own.
    pub(super) fn game_word(&self, text: &str) -> Option<GameWord> {
        let place = self.place.as_ref().filter(|_| self.is_turn())?;
        GameWord::read(text, |claim| {
            let mv = one_move(claim, place.scene().position()).ok()?;
            Some(mv.to_uci(place.line.start().mode()))
        })
    }

    /// Tells whether it asks for a move of one's own.
    pub(super) const fn is_turn(&self) -> bool {
        matches!(self.ask.asked, Asked::Turn(_))
    }

    const fn new(
        asked: Asked,
        form: Form,
        (number, of): (usize, usize),
        place: Option<Place>,
        stands: Stands,
    ) -> Asking {
        Asking {
            ask: Ask {
                asked,
                number,
                of,
                form,
                taught: None,
            },
            place,
            stands,
            truth: None,
            repeat: false,
            helped: false,
            tries: None,
            hints_by_itself: false,
            draft: None,
            spent: 0,
        }
    }
}

/// A question, as it is put.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// What is asked.
    pub asked: Asked,
    /// Its number among those that are put in a row, counted from 1.
    pub number: usize,
    /// How many are put in a row.
    pub of: usize,
    /// The form that a reply must have.
    pub form: Form,
    /// How much of the board is shown to a learner who is taught; `None` where it is asked and not taught.
    pub taught: Option<Coordinates>,
}

/// How much a board tells of its squares' names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coordinates {
    /// Letters and numbers stand beside it.
    Named,
    /// Its squares and edges are drawn, without a name.
    Edges,
    /// Its edges alone are drawn.
    Blank,
}

/// What is asked, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// A question over a position reached by a line.
    Line(LineQuestion, Stand),
    /// A question over the bare board.
    Bare(BareQuestion),
    /// What is still missing of a side's pieces of one role, while a board is rebuilt.
    Rest {
        /// The side and the role.
        standing: Standing,
        /// The squares that are found.
        found: Bitboard,
        /// How many are missing.
        missing: usize,
    },
    /// A move that is to be said from memory.
    Move {
        /// Which.
        number: MoveNumber,
        /// Whether a try at it was wrong already.
        once_more: bool,
    },
    /// A move of one's own, in a game against an opponent.
    Turn(TurnStand),
}

/// Where a game stands when a move is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TurnStand {
    /// Which move it is.
    pub number: MoveNumber,
    /// The last ply before.
    pub last: Option<Ply>,
}

impl Asked {
    /// Tells whether a checkpoint asks.
    pub(super) const fn is_at_checkpoint(&self) -> bool {
        matches!(self, Asked::Line(_, stand) if stand.checkpoint.is_some())
    }

    /// Returns the question alone.
    pub const fn question(&self) -> Question {
        match self {
            Asked::Line(question, _) => Question::Line(*question),
            Asked::Bare(question) => Question::Bare(*question),
            Asked::Rest { standing, .. } => Question::Line(LineQuestion::Standing(*standing)),
            Asked::Move { number, .. } => Question::Line(LineQuestion::Played(Played::at(*number))),
            Asked::Turn(_) => Question::Line(LineQuestion::Turn(Turn {})),
        }
    }
}

/// Where a question over a line stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stand {
    /// The number of the checkpoint that asks, counted from 1, and how many there are in all, where that is known;
    /// `None` in a drill, whose questions are counted through.
    pub checkpoint: Option<(usize, Option<usize>)>,
    /// The side to move.
    pub turn: Color,
    /// The piece that stood on the square of a `whereabouts` question at the start.
    pub piece: Option<Piece>,
    /// Whether the position was shown that the line begins with.
    pub start_shown: bool,
    /// Whether the rules are those of Chess960, where castling is named as king takes own rook.
    pub chess960: bool,
}
