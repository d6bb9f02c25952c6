//! How games against an opponent went.

use std::rc::Rc;

use shakmaty::{CastlingMode, Color, Position};

use super::running::Running;
use super::settings::{BoardShown, PlaySettings};
use crate::exercise::answers::Answered;
use crate::exercise::past::Past;
use crate::game::{GameEnd, GameResult, Line, MoveNumber, Start};
use crate::question::Verdict;

/// How games against an opponent went.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaySummary {
    /// The games, board by board.
    pub games: Vec<GameSummary>,
    /// How they were set up.
    pub settings: PlaySettings,
    /// The longest stretch of plies without a slip and without a look.
    pub longest: usize,
}

/// How one game went.
#[derive(Clone, Debug)]
pub struct GameSummary {
    /// The game.
    pub line: Rc<Line>,
    /// After how many plies it began.
    pub begins: usize,
    /// The learner's side.
    pub learner: Color,
    /// How it ended; `None` where it goes on another time.
    pub end: Option<GameEnd>,
    /// The learner's moves, slips and looks, in their order.
    pub turns: Vec<TurnSummary>,
    /// How many moves were taken back.
    pub taken_back: usize,
}

/// A move of the learner's, or a slip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TurnSummary {
    /// After how many plies.
    pub plies: usize,
    /// Which move it was.
    pub number: MoveNumber,
    /// The words as typed, where it was a slip.
    pub slip: Option<String>,
    /// How many looks were taken before.
    pub looks: u32,
    /// How long it took, in milliseconds.
    pub millis: Option<u64>,
}

impl PlaySummary {
    pub(super) fn new(settings: &PlaySettings, games: &[Running], past: &Past) -> PlaySummary {
        let summary = |game: &Running| GameSummary {
            line: game.line.clone(),
            begins: game.begins,
            learner: game.learner,
            end: game.end,
            turns: (game.answers.iter())
                .filter_map(|at| TurnSummary::of(&past.answers[*at]))
                .collect(),
            taken_back: game.taken_back,
        };
        PlaySummary {
            games: games.iter().map(summary).collect(),
            settings: settings.clone(),
            // What was taken back was no stretch of the game.
            longest: (past.runs.longest()).min(games.iter().map(|game| game.line.len()).sum()),
        }
    }
}

impl PlaySummary {
    /// Tells whether the board was out of sight all the time.
    pub fn is_unseen(&self) -> bool {
        let is_shown = matches!(
            self.settings.board,
            BoardShown::Always | BoardShown::After(_)
        );
        let mut turns = self.games.iter().flat_map(|game| &game.turns);
        !is_shown && turns.all(|turn| turn.looks == 0)
    }
}

impl PartialEq for GameSummary {
    fn eq(&self, other: &GameSummary) -> bool {
        (self.line.plies(), self.learner, self.end, &self.turns)
            == (other.line.plies(), other.learner, other.end, &other.turns)
    }
}

impl GameSummary {
    /// Returns the result; unknown where the game goes on another time.
    pub fn result(&self) -> GameResult {
        let turn = self.line.end().turn();
        self.end.map_or(GameResult::Unknown, |end| end.result(turn))
    }

    /// Counts the slips.
    pub fn slips(&self) -> usize {
        let slips = self.turns.iter().filter(|turn| turn.slip.is_some());
        slips.count()
    }

    /// Returns the first move at which the picture failed: a slip, or a look.
    pub fn first_break(&self) -> Option<MoveNumber> {
        let broke = self.turns.iter().find(|turn| turn.breaks());
        broke.map(|turn| turn.number)
    }
}

impl TurnSummary {
    /// Tells whether the picture failed here.
    pub const fn breaks(&self) -> bool {
        self.slip.is_some() || self.looks > 0
    }

    fn of(answered: &Answered) -> Option<TurnSummary> {
        let setting = answered.setting.as_ref()?;
        let position = Start::from_fen(
            &setting.position,
            CastlingMode::from_chess960(setting.chess960),
        );
        let is_slip = answered.mark.verdict != Verdict::Right;
        Some(TurnSummary {
            plies: setting.moves.len(),
            number: MoveNumber::next_in(position.ok()?.position()),
            slip: is_slip.then(|| answered.text.clone()),
            looks: answered.looks,
            millis: answered.millis,
        })
    }
}
