//! Positions of a game from which the side to move forces mate.

use std::collections::HashSet;

use super::super::bound::MateMoves;
use super::super::round::can_be_shown;
use super::super::script::{Script, ScriptError};
use super::super::settings::Show;
use super::Problem;
use crate::game::{Line, fen_of};
use crate::question::mating::{Mating, search};

/// One position may cost so many questions to the budget, each after 256 positions of the search; a
/// position that costs more is given up. That is about a million positions.
const SLICE: u32 = 4_000;

/// A search for mates through one game.
#[derive(Clone, Copy, Debug)]
pub struct Search<'a> {
    /// The game; its sidelines are searched too, where its script has them.
    pub script: &'a Script,
    /// Which of the games it is.
    pub game: usize,
    /// The most moves that a mate may take.
    pub within: u32,
    /// How positions will be given.
    pub show: Show,
    /// How many problems are wanted.
    pub wanted: usize,
    /// Positions (FENs) that are passed over.
    pub known: &'a HashSet<String>,
}

/// What a search found, and what it left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Searched {
    /// The problems, in the order of the game.
    pub problems: Vec<Problem>,
    /// How many positions were searched.
    pub positions: usize,
    /// How many of them were given up because they would have taken too long.
    pub given_up: usize,
    /// How many mates were passed over because their positions are known.
    pub known: usize,
    /// Whether the search was stopped.
    pub stopped: bool,
}

impl Search<'_> {
    /// Searches until so many problems are found, or the game is through, or `go_on` says `false`; it is
    /// asked after every 256 positions of the search, and told how many positions of the game are done.
    ///
    /// Of a mate that was played out, only the first position is a problem. A mate whose first move may be
    /// a promotion is none, as with every question that asks for moves.
    ///
    /// # Errors
    ///
    /// [`ScriptError`] when a line cannot be played.
    pub fn run(self, mut go_on: impl FnMut(usize) -> bool) -> Result<Searched, ScriptError> {
        let mut searched = Searched::default();
        for (number, moves) in self.script.lines.iter().enumerate() {
            let line = self.script.line(number)?;
            let first = if number == 0 { 0 } else { moves.shared + 1 };
            self.search_line(&line, first, &mut searched, &mut go_on);
            if searched.stopped || searched.problems.len() == self.wanted {
                break;
            }
        }
        Ok(searched)
    }

    fn search_line(
        self,
        line: &Line,
        first: usize,
        searched: &mut Searched,
        go_on: &mut impl FnMut(usize) -> bool,
    ) {
        // After this many plies the side that mates is to move again on its way to the mate.
        let mut on_the_way = None;
        for plies in first..=line.len() {
            if searched.problems.len() == self.wanted {
                return;
            }
            let (mut asked, mut stopped) = (0, false);
            let mut budget = || {
                asked += 1;
                stopped = !go_on(searched.positions);
                !stopped && asked <= SLICE
            };
            let found = search(line.position(plies), self.within, &mut budget);
            if stopped {
                searched.stopped = true;
                return;
            }
            searched.positions += 1;
            match found {
                Mating::Stopped => searched.given_up += 1,
                Mating::NoMate { .. } => {}
                Mating::Mates { keys, in_moves } => {
                    let goes_on = on_the_way == Some(plies);
                    on_the_way = Some(plies + 2);
                    let known = self.known.contains(&fen_of(line.position(plies)));
                    searched.known += usize::from(known && !goes_on);
                    let promotes = keys.iter().any(|key| key.is_promotion());
                    let shown = self.show == Show::None || can_be_shown(line, plies);
                    if !goes_on && !known && !promotes && shown {
                        searched.problems.push(self.problem(line, plies, in_moves));
                    }
                }
            }
        }
    }

    fn problem(self, line: &Line, plies: usize, within: u32) -> Problem {
        let from = match self.show {
            Show::None => 0,
            Show::Diagram | Show::List => plies,
        };
        Problem {
            script: Script::of_line(&line.cut(from, plies)),
            game: self.game,
            within: MateMoves::nearest(within as usize),
        }
    }
}
