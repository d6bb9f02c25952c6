//! A whole game without a board, against an opponent; or several at once, move about.

mod few;
mod review;
mod running;
mod settings;
mod summary;

use std::collections::VecDeque;

use shakmaty::{Color, Position};

use super::asking::Asking;
use super::awaited::{Awaited, Played, Wanted};
use super::bound::Rating;
use super::opponent::{Opponent, RATINGS};
use super::past::Past;
use super::round::{Questions, choose, read_on};
use super::said::{Cost, Countermove, GameWord, Said};
use super::settings::{By, PlanError};
use super::step::{Ending, Exercise, Rules, Step};
use crate::game::{GameEnd, Ply, Start};
use crate::question::{Dice, MoveSaid, Reply};
use running::Running;

pub use few::few;
pub use review::Costly;
pub use settings::{BoardShown, GameSettings, ParseBoardShownError, PlaySettings};
pub use summary::{GameSummary, PlaySummary, TurnSummary};

/// How many plies `again` says again.
const TRAIL: usize = 4;
/// So many questions come at a time.
const QUESTIONS: usize = 2;
/// No offer of a draw is taken before this move.
const EARLIEST_DRAW: u32 = 30;

/// Games that are about to be played.
#[derive(Clone, Debug)]
pub struct PlayOpening {
    /// Each game's start, the plies that are read out first, and the learner's side.
    pub games: Vec<(Start, usize, Color)>,
    /// How they are set up.
    pub settings: PlaySettings,
    /// Whether an earlier session goes on.
    pub resumed: bool,
}

/// What is told during games.
#[derive(Clone, Debug)]
pub enum PlayTold {
    /// A ply was played.
    Played {
        /// The number of its board and that of all.
        board: (usize, usize),
        /// The ply.
        ply: Ply,
    },
    /// A game is over.
    Ended {
        /// The number of its board and that of all.
        board: (usize, usize),
        /// How.
        end: GameEnd,
        /// The side to move there.
        turn: Color,
        /// The learner's side.
        learner: Color,
    },
    /// The last move was taken back: what was played last now.
    TakenBack(Option<Ply>),
    /// There is no move that could be taken back.
    NothingToTakeBack,
    /// The offer of a draw comes too early.
    TooEarly,
    /// The opponent declines a draw.
    Declined,
    /// No draw can be claimed with the move that was said.
    NoClaim,
    /// A slip would have been a move on another board.
    OtherBoard(usize),
    /// The games are looked at again: so many moves cost much.
    Review(usize),
    /// Which move cost much.
    Costly {
        /// The number of its board and that of all.
        board: (usize, usize),
        /// The move and what it cost.
        costly: Costly,
        /// Whether it is asked now what was not seen before the move, or what behind it; `None` where nothing is.
        before: Option<bool>,
    },
    /// What such a move cost.
    Cost(Costly),
}

/// Games against an opponent.
#[derive(Debug)]
pub struct Play {
    settings: PlaySettings,
    games: Vec<Running>,
    /// On which board the game goes on.
    at: usize,
    /// How many answers, and how many words beside, have been heard.
    heard: (usize, usize),
    /// What comes before anything else.
    coming: VecDeque<Step<PlayTold>>,
    questions: Questions,
    /// What is asked after the games; `None` until they are over.
    review: Option<VecDeque<(usize, Costly)>>,
}

impl Play {
    /// Takes what was said since the step before.
    fn hear(&mut self, past: &Past) {
        let (answers, said) = self.heard;
        self.heard = (past.answers.len(), past.said.len());
        for (at, answered) in past.answers.iter().enumerate().skip(answers) {
            if answered.is_turn() {
                self.games[self.at].answers.push(at);
            }
            match &answered.reply {
                Some(Reply::Move(MoveSaid::Named(mv)))
                    if answered.is_turn() && answered.is_right() =>
                {
                    self.play(&mv.to_string());
                    self.at = self.next_board();
                }
                _ if answered.is_turn() => {
                    if let Some(other) = self.other_board(&answered.text) {
                        self.tell(PlayTold::OtherBoard(other));
                    }
                }
                _ => {}
            }
        }
        for said in &past.said[said..] {
            match said {
                Said::Opponent(said) => self.countered(said),
                Said::Learner(word) => self.told(*word),
                Said::Open { .. } => {}
            }
        }
    }

    /// Plays a move that is known to be legal.
    fn play(&mut self, uci: &str) {
        let game = &mut self.games[self.at];
        let Some(ply) = game.play(uci) else { return };
        let (place, ended) = (game.place(), game.end);
        let board = self.board();
        self.coming.push_back(Step::Tell {
            told: PlayTold::Played { board, ply },
            to: Some(place),
        });
        if let Some(end) = ended {
            self.end(end);
        }
    }

    fn end(&mut self, end: GameEnd) {
        let board = self.board();
        let game = &mut self.games[self.at];
        game.end = Some(end);
        let (learner, turn) = (game.learner, game.position().turn());
        self.tell(PlayTold::Ended {
            board,
            end,
            turn,
            learner,
        });
    }

    fn countered(&mut self, said: &Countermove) {
        let game = &mut self.games[self.at];
        let opponent = !game.learner;
        match said {
            Countermove::Move(mv) => self.play(&mv.to_string()),
            Countermove::Resigns => self.end(GameEnd::Resigned(opponent)),
            Countermove::Accepts => self.end(GameEnd::Agreed),
            Countermove::Declines => {
                game.offered = false;
                self.tell(PlayTold::Declined);
            }
            Countermove::Reviewed(costs) => self.reviewed(costs),
        }
    }

    fn reviewed(&mut self, costs: &[Cost]) {
        let costly = costs.iter().filter_map(|cost| {
            let costly = Costly::new(&self.games.get(cost.board)?.line, cost)?;
            Some((cost.board, costly))
        });
        let costly: VecDeque<_> = costly.collect();
        if !costly.is_empty() {
            self.tell(PlayTold::Review(costly.len()));
        }
        self.review = Some(costly);
    }

    fn told(&mut self, word: GameWord) {
        let game = &mut self.games[self.at];
        match word {
            GameWord::Resign => {
                let learner = game.learner;
                self.end(GameEnd::Resigned(learner));
            }
            GameWord::Draw => {
                if let Some(end) = game.claim() {
                    self.end(end);
                } else if game.position().fullmoves().get() < EARLIEST_DRAW {
                    self.tell(PlayTold::TooEarly);
                } else {
                    game.offered = true;
                }
            }
            GameWord::DrawWith(mv) => match game.claim_with(mv) {
                Some(end) => {
                    self.play(&mv.to_string());
                    self.end(end);
                }
                None => self.tell(PlayTold::NoClaim),
            },
            GameWord::TakeBack => {
                let told = if game.take_back() {
                    PlayTold::TakenBack(game.line.plies().last().copied())
                } else {
                    PlayTold::NothingToTakeBack
                };
                let place = game.place();
                self.coming.push_back(Step::Turn(place));
                self.tell(told);
            }
        }
    }

    fn tell(&mut self, told: PlayTold) {
        self.coming.push_back(Step::Tell { told, to: None });
    }

    /// The number of the board where the game goes on, and that of all.
    fn board(&self) -> (usize, usize) {
        (self.at + 1, self.games.len())
    }

    /// The next board whose game is not over.
    fn next_board(&self) -> usize {
        let boards = self.at + 1..=self.at + self.games.len();
        let mut boards = boards.map(|board| board % self.games.len());
        let goes_on = |board: &usize| self.games[*board].end.is_none();
        boards.find(goes_on).unwrap_or(self.at)
    }

    /// Finds another board on which what was said is a move.
    fn other_board(&self, text: &str) -> Option<usize> {
        let others = (0..self.games.len()).filter(|board| *board != self.at);
        { others }
            .filter(|board| self.games[*board].end.is_none())
            .find(|board| self.games[*board].has_move(text))
            .map(|board| board + 1)
    }

    /// Goes on with the game on one board.
    fn go_on(&mut self, past: &Past) -> Step<PlayTold> {
        let board = self.board();
        let seed = self.settings.seed.wrapping_add(self.at as u64);
        let rating = self
            .settings
            .rating
            .map_or(RATINGS[RATINGS.len() - 1], Rating::get);
        let game = &mut self.games[self.at];
        if let Some(step) = read_on(&mut game.read, By::Move, game.begins) {
            return step;
        }
        let place = game.place();
        if !past.is_at(&place) {
            return Step::Turn(place);
        }
        let is_learners = game.position().turn() == game.learner;
        if game.offered || !is_learners {
            let wanted = if game.offered {
                Wanted::Word
            } else {
                Wanted::Move(Opponent::new(rating, seed))
            };
            return Step::Await(Box::new(Awaited { place, wanted }));
        }
        if let Some(stays) = game.shows(self.settings.board) {
            return Step::Sight { stays };
        }
        if game.is_due(&self.settings) {
            let mut dice = Dice::new(seed, game.line.len() as u64);
            let kinds = &self.settings.ask;
            let chosen = choose(place.scene(), None, false, kinds, QUESTIONS, &mut dice);
            self.questions = Questions::new(chosen);
        }
        if let Some((question, count)) = self.questions.next() {
            return Step::ask(Asking::over(question, place, None, count));
        }
        Step::ask(Asking::turn(place, board))
    }

    /// Looks at the games again, once all are over.
    fn look_back(&mut self) -> Step<PlayTold> {
        let Some(review) = &mut self.review else {
            let games = self.games.iter().map(|game| Played {
                line: game.line.clone(),
                begins: game.begins,
                learner: game.learner,
            });
            let wanted = Wanted::Review(games.collect());
            let place = self.games[self.at].place();
            return Step::Await(Box::new(Awaited { place, wanted }));
        };
        let Some((at, costly)) = review.pop_front() else {
            let last = &self.games[self.games.len() - 1];
            self.coming.push_back(Step::Turn(last.place()));
            self.coming.push_back(Step::End(Ending::Read(None)));
            return self.coming.pop_front().unwrap_or(Step::End(Ending::Asked));
        };
        let asked = costly.question(&self.games[at].line);
        let place = asked.as_ref().map(|(_, place)| place.clone());
        self.coming.extend(place.map(Step::Turn));
        self.tell(PlayTold::Costly {
            board: (at + 1, self.games.len()),
            costly: costly.clone(),
            before: asked.as_ref().map(|(_, place)| place.plies < costly.plies),
        });
        let asked = asked.map(|(question, place)| Asking::over(question, place, None, (1, 1)));
        self.coming.extend(asked.map(Step::ask));
        self.tell(PlayTold::Cost(costly));
        self.coming.pop_front().unwrap_or(Step::End(Ending::Asked))
    }
}

impl Exercise for Play {
    type Plan = PlaySettings;
    type Opening = PlayOpening;
    type Told = PlayTold;
    type Summary = PlaySummary;

    fn new(settings: PlaySettings) -> Result<Play, PlanError> {
        let games: Result<Vec<Running>, PlanError> =
            settings.games.iter().map(Running::new).collect();
        let games = games?;
        if games.is_empty() {
            return Err(PlanError::NoGame);
        }
        Ok(Play {
            games,
            settings,
            at: 0,
            heard: (0, 0),
            coming: VecDeque::new(),
            questions: Questions::default(),
            review: None,
        })
    }

    fn rules(&self) -> Rules {
        Rules {
            trail: TRAIL,
            ..Rules::default()
        }
    }

    fn opening(&self, _: &Past, again: bool) -> PlayOpening {
        let start = |game: &Running| (game.line.start().clone(), game.begins, game.learner);
        PlayOpening {
            games: self.games.iter().map(start).collect(),
            settings: self.settings.clone(),
            resumed: again,
        }
    }

    fn next(&mut self, past: &Past) -> Step<PlayTold> {
        self.hear(past);
        if let Some(step) = self.coming.pop_front() {
            return step;
        }
        if self.games[self.at].end.is_some() {
            self.at = self.next_board();
        }
        if self.games[self.at].end.is_some() {
            return self.look_back();
        }
        self.go_on(past)
    }

    fn summary(&self, past: &Past) -> PlaySummary {
        PlaySummary::new(&self.settings, &self.games, past)
    }
}
