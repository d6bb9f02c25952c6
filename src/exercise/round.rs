//! A line that is read up to some questions, and choosing what is worth asking there.

use std::rc::Rc;
use std::vec::IntoIter;

use shakmaty::{EnPassantMode, Position};

use super::asking::Asking;
use super::past::Place;
use super::settings::{By, Show};
use super::step::{GivenPosition, Step};
use crate::game::Line;
use crate::question::{Choice, Dice, Disclosure, Kind, LineQuestion, Scene, Truth};

/// How often a kind has its turn for each question that is wanted.
const TRIES: usize = 20;
/// How often in one turn it is drawn again when it is not worth asking, or given away by another question.
const DRAWS: usize = 4;
/// The kinds that checkmate and stalemate answer by themselves.
const OF_MOVES: [Kind; 6] = [
    Kind::Moves,
    Kind::Legality,
    Kind::Check,
    Kind::Checks,
    Kind::Captures,
    Kind::Mate,
];
/// No checkpoint has more questions than these, whatever a journal that was edited by hand asks for.
const MOST: usize = 64;
/// A whole board to rebuild, among questions of other kinds, comes once in so many draws.
const REBUILD_ONE_IN: usize = 6;

/// Chooses up to `count` questions of the given kinds, and never more than 64.
///
/// They are about pieces and squares that the last plies touched, with about one in five about others. In a round,
/// where the board was `known` after so many plies, nine in ten are about what changed from there on. None is answered
/// by the last spoken move, none gives another away, and no answer comes so often that it would do for all. Fewer
/// come back where the position does not hold so many, and none where it holds nothing worth asking; unless `strict`
/// is false, which lets in more; where the game is over, none is about moves. The same arguments and dice choose the
/// same questions.
pub fn choose(
    scene: Scene<'_>,
    known: Option<usize>,
    strict: bool,
    kinds: &[Kind],
    count: usize,
    dice: &mut Dice,
) -> Vec<LineQuestion> {
    let count = count.min(MOST);
    // The last words of a game tell what its moves would.
    let is_over = scene.position().legal_moves().is_empty();
    let kinds = kinds.iter().copied();
    let kinds: Vec<Kind> = kinds
        .filter(|kind| !(is_over && OF_MOVES.contains(kind)))
        .collect();
    let mut choice = Choice::new(scene, known, strict, dice);
    let mut chosen: Vec<(LineQuestion, Disclosure)> = Vec::new();
    let mut refused = Vec::new();
    let mut deck = Vec::new();
    for _ in 0..count * TRIES {
        if chosen.len() == count {
            break;
        }
        let Some(kind) = deal(&mut deck, &kinds, choice.dice) else {
            break;
        };
        if kind == Kind::Rebuild && kinds.len() > 1 && !choice.dice.chance(1, REBUILD_ONE_IN) {
            continue;
        }
        let Some(found) = find(kind, &mut choice, &chosen, &mut refused) else {
            continue;
        };
        if kind == Kind::Legality {
            // Only where the other answer could come as well, or the commoner one would win.
            choice.legal = !choice.legal;
            let other = find(kind, &mut choice, &chosen, &mut refused);
            choice.legal = !choice.legal;
            if other.is_none() {
                continue;
            }
        }
        chosen.push(found);
        refused.clear();
        choice.roll(kind == Kind::Legality);
    }
    chosen.sort_by_key(|(_, disclosure)| disclosure.comes_last());
    chosen.into_iter().map(|(question, _)| question).collect()
}

/// Draws a question of a kind that is worth asking, and that none of the `chosen` ones gives away or is given away by.
fn find(
    kind: Kind,
    choice: &mut Choice<'_>,
    chosen: &[(LineQuestion, Disclosure)],
    refused: &mut Vec<LineQuestion>,
) -> Option<(LineQuestion, Disclosure)> {
    for _ in 0..DRAWS {
        let question = LineQuestion::draw(kind, choice)?;
        if refused.contains(&question) {
            continue;
        }
        let disclosure = question.disclosure(choice.scene);
        let given_away = |(other, known): &(_, _)| *other == question || disclosure.spoils(known);
        if !chosen.iter().any(given_away) && question.is_worth_asking(choice) {
            return Some((question, disclosure));
        }
        refused.push(question);
    }
    None
}

/// Deals the kinds like cards from a shuffled deck, so that each has its turn.
fn deal(deck: &mut Vec<Kind>, kinds: &[Kind], dice: &mut Dice) -> Option<Kind> {
    if deck.is_empty() {
        deck.extend_from_slice(kinds);
        dice.shuffle(deck);
    }
    deck.pop()
}

/// The questions of one place that are still to be put.
#[derive(Clone, Debug, Default)]
pub(super) struct Questions {
    rest: IntoIter<LineQuestion>,
    /// How many were put before, and how many there are in all.
    count: (usize, usize),
}

impl Questions {
    pub(super) fn new(questions: Vec<LineQuestion>) -> Questions {
        Questions {
            count: (0, questions.len()),
            rest: questions.into_iter(),
        }
    }

    /// Takes the next question with its number, counted from 1, and the number of all.
    pub(super) fn next(&mut self) -> Option<(LineQuestion, (usize, usize))> {
        let question = self.rest.next()?;
        self.count.0 += 1;
        Some((question, self.count))
    }
}

/// A line that is read from some ply on to its end, where questions are asked.
#[derive(Clone, Debug)]
pub(super) struct Round {
    /// How far the reading has come.
    pub(super) place: Place,
    questions: Questions,
}

impl Round {
    /// Chooses at most so many questions over the end of a line; `None` where there is none. What is hardly worth
    /// asking is let in where `strict` is false.
    pub(super) fn new(
        line: Line,
        begins: usize,
        strict: bool,
        kinds: &[Kind],
        most: usize,
        seed: u64,
    ) -> Option<Round> {
        let scene = Scene::new(&line, line.len());
        let questions = choose(
            scene,
            Some(begins),
            strict,
            kinds,
            most,
            &mut Dice::new(seed, 0),
        );
        (!questions.is_empty()).then(|| Round {
            place: Place::new(Rc::new(line), begins),
            questions: Questions::new(questions),
        })
    }

    /// The questions with their answers.
    pub(super) fn asked(&self) -> impl Iterator<Item = (LineQuestion, Truth)> {
        let scene = self.place.scene();
        let scene = Scene::new(scene.line(), scene.line().len());
        let questions = self.questions.rest.as_slice().iter();
        questions.map(move |question| (*question, question.truth(scene)))
    }

    /// Leaves out what was `asked` before with the same answer; `None` where that was all.
    pub(super) fn without(mut self, asked: &[(LineQuestion, Truth)]) -> Option<Round> {
        let fresh = self.asked().filter(|question| !asked.contains(question));
        let fresh: Vec<LineQuestion> = fresh.map(|(question, _)| question).collect();
        self.questions.rest = fresh.into_iter();
        (self.questions.rest.len() > 0).then_some(self)
    }

    /// Counts the questions through all rounds: so many were put before, and there are so many in all.
    pub(super) fn counted_on(mut self, before: usize, of: usize) -> Round {
        self.questions.count = (before, of);
        self
    }

    /// Reads on, and then asks; `None` once all is asked.
    pub(super) fn next<T>(&mut self) -> Option<Step<T>> {
        let end = self.place.line.len();
        if let Some(step) = read_on(&mut self.place, By::Move, end) {
            return Some(step);
        }
        let (question, count) = self.questions.next()?;
        let asking = Asking::over(question, self.place.clone(), None, count);
        Some(Step::ask(asking))
    }
}

/// Tells whether the position after so many plies can be given: where a pawn can be taken en passant,
/// neither a diagram nor a list of pieces tells so.
pub(super) fn can_be_shown(line: &Line, plies: usize) -> bool {
    let position = line.position(plies);
    position.ep_square(EnPassantMode::Legal).is_none()
}

/// The last ply after which there is something to ask: no line is read up to where the game is over, for
/// the last words would tell most of the answers.
pub(super) fn last_asked(line: &Line) -> usize {
    let over = line.end().legal_moves().is_empty();
    line.len() - usize::from(over && !line.is_empty())
}

/// Gives the position from which a line is read on to its end.
pub(super) fn show<T>(
    place: Place,
    (round, of): (usize, Option<usize>),
    game: Option<usize>,
    show: Show,
) -> Step<T> {
    Step::Show {
        given: GivenPosition {
            round,
            of,
            game,
            show,
            start: place.line.start().clone(),
            heard_before: place.plies,
            plies: place.line.len() - place.plies,
        },
        place,
    }
}

/// Reads a line on, until so many of its plies are played: one ply, a whole move up to Black's ply, or all
/// of them in one go.
pub(super) fn read_on<T>(place: &mut Place, by: By, end: usize) -> Option<Step<T>> {
    let from = place.clone();
    let first = from.line.plies()[..end].get(from.plies)?;
    let to = match by {
        By::Ply => from.plies + 1,
        By::Move => from.plies + 1 + usize::from(first.side().is_white()),
        By::Checkpoint => end,
    };
    place.plies = to.min(end);
    Some(Step::Read {
        from,
        to: place.plies,
    })
}
