//! What helps after a miss: going back, ply by ply, to where the picture broke, and finding what is missing of a
//! whole board, role by role. Whatever kind of question was missed, there is one rule for the way back.

use shakmaty::{Bitboard, Board, Color, Piece, Position, Role, Square};

use super::answers::{Answered, Dialogue};
use super::asking::{Asked, Asking};
use super::past::Place;
use crate::game::Ply;
use crate::question::{LineQuestion, Reply, Scene, Standing, Truth, Verdict, Whereabouts};

/// A way to find together what was missed.
#[derive(Clone, Debug)]
pub(super) struct Guide {
    /// Where the question stood that was missed.
    pub(super) end: Place,
    /// How far the learner has come.
    pub(super) place: Place,
    way: Way,
    /// The question that stands on the way.
    pub(super) asking: Option<Asking>,
}

#[derive(Clone, Debug)]
enum Way {
    /// This is asked after each of these plies.
    Back {
        question: LineQuestion,
        stops: Vec<usize>,
    },
    /// These squares are filled rightly by now; and what had been put where it does not stand.
    Rebuild {
        kept: Bitboard,
        off: Vec<(Square, Piece)>,
    },
}

/// What is told on the way.
#[derive(Clone, Debug)]
pub enum Guided {
    /// It goes back to after this ply, the start where there is none, and so many plies are gone through.
    Back {
        /// The last ply before.
        after: Option<Ply>,
        /// The plies that follow.
        plies: usize,
    },
    /// Pieces are to be found.
    Pieces {
        /// How many stand rightly.
        right: usize,
        /// What was put where it does not stand.
        off: Vec<(Square, Piece)>,
    },
    /// Here the picture broke.
    Lost {
        /// The ply.
        ply: Ply,
        /// What became with it of the piece in question: the square that it left, and where it went unless
        /// it was taken. `None` where not one piece was followed.
        piece: Option<(Piece, Square, Option<Square>)>,
    },
    /// The picture held up to the question.
    Held,
    /// All of it was heard again, and where the picture broke is not known.
    HeardAgain,
    /// The board is whole.
    Whole,
}

impl Guide {
    /// Finds the way from an answer that is not right, where there is one; the picture held after so many
    /// plies.
    pub(super) fn new(asking: &Asking, answered: &Answered, held: usize) -> Option<Guide> {
        let end = asking.place.clone()?;
        let Asked::Line(question, _) = asking.ask.asked else {
            return None;
        };
        let (place, way) = match question {
            LineQuestion::Rebuild(_) => (end.clone(), Way::rebuild(answered)),
            // How far the picture of the board reaches says nothing of it.
            LineQuestion::Played(_) => return None,
            _ => {
                let place = Place::new(end.line.clone(), held);
                (place, Way::back(question, &end, held)?)
            }
        };
        Some(Guide {
            end,
            place,
            way,
            asking: None,
        })
    }

    pub(super) const fn dialogue(&self) -> Dialogue {
        match self.way {
            Way::Back { .. } => Dialogue::Back,
            Way::Rebuild { .. } => Dialogue::Rebuild,
        }
    }

    /// Begins: says from where, and asks where nothing has to be read before.
    pub(super) fn begin(&mut self) -> Guided {
        match &self.way {
            Way::Back { .. } => Guided::Back {
                after: self.place.played().last().copied(),
                plies: self.end.plies - self.place.plies,
            },
            Way::Rebuild { kept, off } => {
                let (right, off) = (kept.count(), off.clone());
                self.asking = self.next_role();
                Guided::Pieces { right, off }
            }
        }
    }

    /// Goes on by one ply, and asks where the ply touches what is in question.
    pub(super) fn read_on(&mut self) -> Ply {
        let Way::Back { question, stops } = &self.way else {
            unreachable!("a board is rebuilt without a ply");
        };
        let ply = self.place.line.plies()[self.place.plies];
        self.place.plies += 1;
        let stop = stops.iter().position(|stop| *stop == self.place.plies);
        self.asking = stop.map(|stop| {
            let count = (stop + 1, stops.len());
            Asking::over(*question, self.place.clone(), None, count)
        });
        ply
    }

    /// Takes the answer to the question that stands; says how it ends, where it does.
    pub(super) fn take(&mut self, answered: &Answered) -> Option<Guided> {
        self.asking = None;
        let is_right = answered.is_right();
        match &mut self.way {
            Way::Back { question, stops } => {
                let here = self.place.plies;
                if is_right {
                    return (stops.last() == Some(&here)).then_some(Guided::Held);
                }
                let piece = match question {
                    LineQuestion::Whereabouts(asked) => step(&self.place, asked.piece),
                    // Nothing was asked on the way that could tell where the picture broke.
                    _ if stops[..] == [self.end.plies] => return Some(Guided::HeardAgain),
                    _ => None,
                };
                Some(Guided::Lost {
                    ply: self.place.line.plies()[here - 1],
                    piece,
                })
            }
            Way::Rebuild { kept, .. } => {
                *kept |= answered.mark.tally.hit;
                if answered.mark.verdict == Verdict::Pass {
                    return None;
                }
                self.asking = self.next_role();
                self.asking.is_none().then_some(Guided::Whole)
            }
        }
    }

    /// Asks for the squares of the first role of a side of which not all pieces are found.
    fn next_role(&self) -> Option<Asking> {
        let Way::Rebuild { kept, .. } = &self.way else {
            return None;
        };
        let board = self.end.scene().board();
        let roles = Role::ALL.into_iter().rev();
        let mut all = roles.flat_map(|role| Color::ALL.map(|color| role.of(color)));
        let piece = all.find(|piece| !board.by_piece(*piece).is_subset(*kept))?;
        let (squares, optional) = (
            board.by_piece(piece) & !*kept,
            board.by_piece(piece) & *kept,
        );
        let standing = Standing {
            color: piece.color,
            role: piece.role,
        };
        let question = LineQuestion::Standing(standing);
        let mut asking = Asking::over(question, self.end.clone(), None, (1, 1));
        asking.ask.asked = Asked::Rest {
            standing,
            found: optional,
            missing: squares.count(),
        };
        asking.truth = Some(Truth::Squares { squares, optional });
        Some(asking)
    }
}

impl Way {
    /// Follows the piece in question, where there is one that moved, or else asks the very question, from
    /// the last place at which the picture held.
    fn back(question: LineQuestion, end: &Place, held: usize) -> Option<Way> {
        let piece = question.piece(end.scene());
        let follow =
            piece.map(|piece| LineQuestion::Whereabouts(Whereabouts { piece: piece.home }));
        let ways = [follow, Some(question)].into_iter().flatten();
        let mut ways = ways.map(|question| Way::Back {
            stops: changes(question, end, held),
            question,
        });
        ways.find(|way| matches!(way, Way::Back { stops, .. } if !stops.is_empty()))
    }

    fn rebuild(answered: &Answered) -> Way {
        let tally = &answered.mark.tally;
        let empty = Board::empty();
        let said = match &answered.reply {
            Some(Reply::Placement(board)) => board,
            _ => &empty,
        };
        let off = (tally.extra | tally.wrong_piece).into_iter();
        Way::Rebuild {
            kept: tally.hit,
            off: off
                .filter_map(|at| Some((at, said.piece_at(at)?)))
                .collect(),
        }
    }
}

/// The plies behind the held ones after which the truth of a question has changed. Where it is about what
/// the side to move can do, only plies after which the same side is to move are looked at.
fn changes(question: LineQuestion, end: &Place, held: usize) -> Vec<usize> {
    let step = match question {
        LineQuestion::Check(_)
        | LineQuestion::Checks(_)
        | LineQuestion::Captures(_)
        | LineQuestion::Mate(_)
        | LineQuestion::Exchange(_)
        | LineQuestion::Moves(_)
        | LineQuestion::Legality(_) => 2,
        _ => 1,
    };
    let first = held + (end.plies - held) % step;
    let truth = |plies| question.truth(Scene::new(&end.line, plies));
    let mut last = truth(first);
    let later = (first..=end.plies).step_by(step).skip(1);
    later
        .filter(|plies| {
            let now = truth(*plies);
            let changed = now != last;
            last = now;
            changed
        })
        .collect()
}

/// What became of the piece from a home with the last ply before a place.
fn step(place: &Place, home: Square) -> Option<(Piece, Square, Option<Square>)> {
    let piece = place.line.roster().piece(home)?;
    let before = piece.square(place.plies - 1)?;
    let board = place.line.position(place.plies - 1).board();
    Some((board.piece_at(before)?, before, piece.square(place.plies)))
}
