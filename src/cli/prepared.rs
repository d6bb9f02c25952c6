//! An exercise that is set up, with how it is told: to be held here, to go on, to be put on paper or only to be tried.

use std::fmt::Display;
use std::path::{Path, PathBuf};
use std::time::Duration;

use shakmaty::Color;

use clap::Args;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::chosen::agrees_with;
use super::failure::Failure;
use super::pick::Pick;
use super::shared::{Shared, records};
use super::sitting::{Desk, EngineOpponent, can_keep, hold};
use super::values::{CommandWords, GivenOptions, Seconds, Side, Text, as_shown, word};
use crate::exercise::bound::Rating;
use crate::exercise::{Earlier, Mouth, Plan};
use crate::learner::{GameRef, Journal, Played, Record, SessionLock, Stamp, StartRecord};
use crate::terminal::session_name;
use crate::voice::{Announce, Occasion, Voice, asides, clean_name, commands as words};

/// How a session is told, as far as options, keys and the config file say. The journal keeps it, so that another
/// process goes on in the same way.
#[derive(Args, Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Telling {
    /// How moves are announced.
    #[arg(skip)]
    announce: Option<Announce>,
    /// Your side of the board, from which it is shown: white or black [default: white]
    #[arg(long, value_name = "SIDE", help_heading = TELLING, hide_possible_values = true,
          value_parser = word::<Side>())]
    #[serde(alias = "view")]
    side: Option<Side>,
    /// The time between two readings; without it, Enter goes on.
    #[arg(skip)]
    pace: Option<Seconds>,
    /// Keep an empty board before the eyes, on a terminal: empty, or never [default: never]
    #[arg(long, value_name = "BOARD", help_heading = TELLING, hide_possible_values = true,
          value_parser = word::<BeforeEyes>())]
    board: Option<BeforeEyes>,
}

const TELLING: &str = "Reading aloud";

/// How an exercise is told that has a side of its own: what alone a key can say of it.
#[derive(Args, Clone, Copy, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Announcing {
    #[arg(skip)]
    announce: Option<Announce>,
}

impl From<Announcing> for Telling {
    fn from(announcing: Announcing) -> Telling {
        Telling {
            announce: announcing.announce,
            ..Telling::default()
        }
    }
}

impl Telling {
    /// Shows the board from this side.
    pub(super) const fn seen_from(self, side: Color) -> Telling {
        let side = match side {
            Color::White => Side::White,
            Color::Black => Side::Black,
        };
        Telling {
            side: Some(side),
            ..self
        }
    }

    /// Keeps an empty board before the eyes, where that is wished for.
    pub(super) fn with_empty_board(self, wished: bool) -> Telling {
        Telling {
            board: wished.then_some(BeforeEyes::Empty),
            ..self
        }
    }

    /// Says it otherwise where another says so.
    fn or(self, begun: Telling) -> Telling {
        Telling {
            announce: self.announce.or(begun.announce),
            side: self.side.or(begun.side),
            pace: self.pace.or(begun.pace),
            board: self.board.or(begun.board),
        }
    }

    /// Returns the time between two readings, in milliseconds.
    pub(super) fn pace_millis(self) -> Option<u64> {
        self.pace.map(|pace| pace.millis().get().into())
    }

    pub(super) fn voice(self, shared: &Shared) -> Voice {
        Voice {
            announce: self.announce.unwrap_or_default(),
            view: self.side.unwrap_or(Side::White).into(),
            plain: shared.plain,
            list: shared.config.list,
            empty_board: self.board == Some(BeforeEyes::Empty),
            occasion: match shared.part {
                _ if shared.miniature => Occasion::Miniature,
                Some(_) => Occasion::Lesson,
                None => Occasion::Itself,
            },
        }
    }
}

/// What the options of this run say of who plays against the learner, and of where the game is kept.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct OpponentOptions {
    /// A UCI engine as the opponent, its command with its arguments; own is the program's own [default: own]
    #[arg(long, value_name = "COMMAND", help_heading = PLAYING)]
    pub(super) opponent: Option<Text<CommandWords>>,
    /// Append the game to this PGN file once it is over
    #[arg(long, value_name = "FILE", help_heading = PLAYING)]
    #[serde(serialize_with = "as_shown")]
    pub(super) out: Option<PathBuf>,
}

impl OpponentOptions {
    /// Returns the command of the engine that plays; `None` for the program's own opponent.
    pub(super) fn engine(&self) -> Option<&[String]> {
        let Text(CommandWords(words)) = self.opponent.as_ref()?;
        Some(&words[..]).filter(|words| *words != ["own"])
    }

    /// Names that engine after its program.
    pub(super) fn engine_name(&self) -> Option<String> {
        let program = Path::new(self.engine()?.first()?);
        let name = program.file_stem().unwrap_or(program.as_os_str());
        Some(clean_name(&name.to_string_lossy()))
    }
}

const PLAYING: &str = "Playing";

/// What stays before the eyes while all else is wiped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum BeforeEyes {
    /// No board.
    Never,
    /// A board with its letters and numbers and no piece on it: a step between sight and none
    /// (Campitelli, Gobet, Williams, Parker 2007, Swiss J. Psychol. 66:201-213).
    Empty,
}

/// An exercise that is set up. The journal keeps it, so that another process goes on in the same way.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Prepared {
    pub(super) telling: Telling,
    /// Who plays against the learner, and where the game is kept.
    #[serde(default)]
    pub(super) opponent: OpponentOptions,
    /// The options that make it the one it is, as far as they were given.
    pub(super) options: GivenOptions,
    /// The games, in the order in which the plan numbers them.
    pub(super) games: Vec<GameRef>,
    pub(super) plan: Plan,
    /// The file of its one game, as it was named.
    #[serde(skip)]
    pub(super) file: Option<PathBuf>,
    #[serde(skip)]
    pub(super) seed: u64,
}

impl Prepared {
    /// Sets up what is planned over these games, as it is asked for.
    pub(super) fn new(
        plan: Plan,
        games: Vec<GameRef>,
        asked: Asked<'_>,
        shared: &Shared,
    ) -> Result<Prepared, Failure> {
        Ok(Prepared {
            plan,
            telling: asked.telling.or(Telling {
                announce: shared.config.announce,
                side: shared.config.view,
                pace: shared.config.pace,
                board: None,
            }),
            opponent: asked.opponent,
            games,
            file: None,
            seed: shared.seed()?,
            options: asked.options,
        })
    }

    /// The game that it is about, where it is one.
    pub(super) fn game(&self) -> Option<GameRef> {
        match &self.games[..] {
            [game] => Some(game.clone()),
            _ => None,
        }
    }

    /// Writes down how the session begins.
    pub(super) fn start(&self, stamp: Stamp, shared: &Shared) -> Result<Record, Failure> {
        let line = self.plan.line()?;
        Ok(Record::Start(StartRecord {
            stamp,
            learner: shared.learner()?,
            exercise: self.plan.exercise().to_owned(),
            played: line.as_ref().map(Played::of),
            game: self.game(),
            seed: self.seed,
            plan: serde_json::to_value(self)?,
        }))
    }

    /// Holds the session from its beginning.
    pub(super) fn hold(&self, shared: &Shared, journal: &Journal) -> Result<(), Failure> {
        let session = self.plan.session(shared.think_times())?;
        let held = shared.hold_new(journal)?;
        let mut desk = self.desk(shared, held)?;
        let start = self.start(desk.stamp(), shared)?;
        desk.keep(start)?;
        hold(desk, session, None)
    }

    /// Starts the engine that plays against the learner; `None` for the program's own opponent.
    fn engine(&self, shared: &Shared) -> Result<Option<EngineOpponent>, Failure> {
        let (Plan::Play(settings), Some(words)) = (&self.plan, self.opponent.engine()) else {
            return Ok(None);
        };
        let rating = settings.rating.map(Rating::get);
        let mode = settings.games[0].script.line(0)?.start().mode();
        let time = shared.config.seconds.map(Seconds::time);
        EngineOpponent::start(words, rating, mode, time).map(Some)
    }

    /// The time between two readings of an exercise that is read; without it, Enter goes on.
    fn pace(&self) -> Option<Duration> {
        let is_read = matches!(self.plan, Plan::Replay(_) | Plan::Ahead(_) | Plan::Mates(_));
        let pace = self.telling.pace.filter(|_| is_read);
        pace.map(Seconds::time)
    }

    fn desk(&self, shared: &Shared, held: SessionLock) -> Result<Desk, Failure> {
        self.opponent.out.as_deref().map_or(Ok(()), can_keep)?;
        Ok(Desk {
            screen: shared.screen(),
            listener: shared.listener()?,
            manner: shared.manner(),
            aloud: shared.aloud(),
            voice: self.telling.voice(shared),
            held,
            exercise: self.plan.exercise(),
            game: self.game(),
            games: self.games.clone(),
            learner: shared.learner()?.to_string(),
            engine: self.engine(shared)?,
            out: self.opponent.out.clone(),
            kept: None,
            pace: self.pace(),
            before_eyes: None,
            leaving: false,
            interrupted: false,
            unread: false,
            mouth: Mouth::default(),
            spent: 0,
        })
    }
}

/// What is asked of a session, be it one that begins or one that goes on.
#[derive(Default)]
pub(super) struct Asked<'a> {
    /// Whether it goes on.
    pub(super) resume: bool,
    /// The games that are named, where the exercise takes any.
    pub(super) pick: Option<&'a Pick>,
    /// The options that make a session the one it is, as far as they were given.
    pub(super) options: GivenOptions,
    pub(super) telling: Telling,
    pub(super) opponent: OpponentOptions,
}

/// Goes on with the session of an exercise that was left unfinished last; the games and options given must
/// be those that it began with, how it is told may be otherwise. Returns what was held.
pub(super) fn resume(
    exercise: &str,
    asked: &Asked<'_>,
    shared: &Shared,
) -> Result<Prepared, Failure> {
    let journal = shared.journal()?;
    let Resumed {
        held,
        start,
        earlier,
        setup,
        ..
    } = shared.take_up(&journal, exercise)?;
    let mut prepared: Prepared = setup;
    if let Some(pick) = asked.pick {
        agrees_with(start.game.as_ref(), pick)?;
    }
    prepared.opponent = OpponentOptions {
        opponent: asked
            .opponent
            .opponent
            .clone()
            .or(prepared.opponent.opponent),
        out: asked.opponent.out.clone().or(prepared.opponent.out),
    };
    if let Plan::Play(settings) = &mut prepared.plan {
        settings.engine = prepared.opponent.engine_name();
    }
    let session = prepared.plan.session(shared.think_times());
    let session = session.map_err(|error| cannot_go_on(&held, error))?;
    if let Some(option) = asked.options.first_unlike(&prepared.options) {
        return Err(Failure::Usage(asides::not_as_begun(exercise, option)));
    }
    if shared.seed.is_some_and(|seed| seed != start.seed) {
        return Err(Failure::Usage(asides::not_as_begun(exercise, "seed")));
    }
    prepared.telling = asked.telling.or(prepared.telling);
    hold(prepared.desk(shared, held)?, session, Some(earlier))?;
    Ok(prepared)
}

/// A session that goes on in this process and in no other.
pub(super) struct Resumed<T> {
    pub(super) held: SessionLock,
    /// How the session began.
    pub(super) start: StartRecord,
    /// What it hears again in order to go on.
    pub(super) earlier: Earlier,
    /// What the journal keeps of how the session goes.
    pub(super) setup: T,
}

impl Shared {
    /// Takes hold of a new session.
    pub(super) fn hold_new(&self, journal: &Journal) -> Result<SessionLock, Failure> {
        // A part of a lesson is named by it.
        let session = match &self.part {
            Some(part) => part.session.clone(),
            None => session_name()?,
        };
        Ok(journal.lock_session(&session)?)
    }

    /// Takes hold of the session to go on with.
    pub(super) fn take_up<T: DeserializeOwned>(
        &self,
        journal: &Journal,
        exercise: &str,
    ) -> Result<Resumed<T>, Failure> {
        let nothing = || Failure::Unusable(asides::nothing_unfinished(exercise));
        let mut records = records(journal)?;
        loop {
            let left = self.unfinished(&records, exercise).ok_or_else(nothing)?;
            let session = left.start.stamp.session.clone();
            let mut held = journal.lock_session(&session)?;
            // Until it was held, another process may have gone on with it.
            records = journal.read()?.records;
            let left = self.unfinished(&records, exercise);
            if let Some(left) = left.filter(|left| left.start.stamp.session == session) {
                held.remember(&records);
                let setup = T::deserialize(&left.start.plan);
                return Ok(Resumed {
                    setup: setup.map_err(|error| cannot_go_on(&held, error))?,
                    held,
                    start: left.start.clone(),
                    earlier: left.earlier,
                });
            }
        }
    }
}

/// Says why a session cannot go on as it stands in the journal, and on which line it begins there.
fn cannot_go_on(held: &SessionLock, reason: impl Display) -> Failure {
    let journal = held.journal();
    let line = journal.line_of_start(held.session());
    let line = line.map_or_else(String::new, |line| format!(":{line}"));
    let place = format!("{}{line}", journal.path().display());
    Failure::Unusable(words::cannot_go_on(&place, &reason.to_string()))
}
