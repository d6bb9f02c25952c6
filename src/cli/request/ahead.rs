//! `ahead`: a position is given, plies are read from it, questions are asked about their end; or a mate
//! is to be found.

use clap::Args;
use serde::{Deserialize, Serialize};

use super::arguments::{ExerciseArguments, GameArguments, SessionArguments};
use super::mates::{Watch, solved};
use crate::cli::archives::is_named_as_positions;
use crate::cli::chosen::{choose, is_position};
use crate::cli::failure::{Failure, tell};
use crate::cli::pick::Chosen;
use crate::cli::prepared::{Prepared, Telling};
use crate::cli::shared::Shared;
use crate::cli::values::{AskedKind, GivenOptions, Seconds, Text, kinds_asked, word};
use crate::exercise::bound::{Looks, MateMoves, PerRound, Plies, Rounds};
use crate::exercise::{
    Ahead, AheadSettings, Beside, Cut, Dice, Exercise, MatesSettings, OpenQuestion, Plan,
    PlanError, Script, Search, Searched, Show, played_on,
};
use crate::learner::Record;
use crate::learner::pace::{Reach, answers, staircase};
use crate::pgn::Reading;
use crate::terminal::Tone;
use crate::voice::{asides, commands as words, progress};

/// The exercise's name in the journal.
const EXERCISE: &str = "ahead";
/// What the dice are rolled for when games are drawn; the rounds have the small numbers, and the choice
/// of one game the largest.
const DRAWING: u64 = u64::MAX - 1;

pub(crate) type Arguments = GameArguments<Options, Telling>;

/// What makes a session the one it is; it stays as it was when the session is resumed.
#[derive(Args, Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Options {
    /// How a position is given: diagram, list (the pieces are read out) or none (the game is read up
    /// to it) [default: diagram]
    #[arg(long, value_name = "HOW", hide_possible_values = true, help_heading = CALCULATING,
          value_parser = word::<Show>())]
    pub(crate) show: Option<Show>,
    /// How many plies are read from each position [default: as many as your answers speak for]
    #[arg(long, value_name = "N", help_heading = CALCULATING)]
    pub(crate) plies: Option<Plies>,
    /// Find forced mates within N moves, 1 to 4, instead: say every move against the best defence
    #[arg(long, value_name = "N", help_heading = CALCULATING)]
    pub(crate) mate: Option<MateMoves>,
    /// How many rounds, each with a position of its own [default: 5]
    #[arg(long, value_name = "N", help_heading = CALCULATING)]
    pub(crate) count: Option<Rounds>,
    /// Take positions from the sidelines too
    #[arg(long, help_heading = CALCULATING)]
    pub(crate) sidelines: bool,
    /// Kinds of question, separated by commas, or all [default: whereabouts, attacks and
    /// legality]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = AskedKind::parser(),
          help_heading = ASKING)]
    pub(crate) ask: Vec<Text<AskedKind>>,
    /// Questions over each position, 1 to 3 [default: 2]
    #[arg(long, value_name = "N", help_heading = ASKING)]
    pub(crate) questions: Option<PerRound>,
    /// The time to think; a right reply after it stays right and is marked late
    #[arg(long, value_name = "SECONDS", help_heading = ASKING)]
    pub(crate) think: Option<Seconds>,
    /// How many looks at the board are allowed.
    #[arg(skip)]
    pub(crate) looks: Option<Looks>,
    /// Whether think times follow the learner.
    #[arg(skip)]
    pub(crate) follow: bool,
}

const CALCULATING: &str = "Calculating";
const ASKING: &str = "Asking";

impl Options {
    pub(crate) fn show(&self) -> Show {
        self.show.unwrap_or(Show::Diagram)
    }

    pub(crate) fn rounds(&self) -> Rounds {
        self.count.unwrap_or(Rounds::nearest(5))
    }

    /// Tells whether a game can give positions at first sight: it is long enough, and it has sidelines
    /// where they are asked for.
    fn is_fit(&self, reading: &Reading) -> bool {
        let last = self.plies.map_or(0, |plies| plies.size() - 1);
        let game = &reading.game;
        (is_position(reading) && !self.sidelines)
            || game.main_nodes().nth(last).is_some()
                && (!self.sidelines || game.sideline_count() > 0)
    }

    /// Writes down what of a game is used.
    pub(crate) fn script(&self, game: &Chosen) -> Result<Script, Failure> {
        if self.sidelines && game.reading.game.sideline_count() == 0 {
            return Err(Failure::unusable(words::NO_SIDELINES));
        }
        game.script(Cut {
            sidelines: self.sidelines,
            ..Cut::default()
        })
    }
}

impl ExerciseArguments for Arguments {
    fn prepare(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        match self.options.mate {
            Some(within) => search(self, within, shared, records),
            None => prepare(self, shared, records),
        }
    }

    /// There N does not follow the answers, which are not known yet: where none is given, it is the one that
    /// the learner's answers so far speak for, or as the games allow.
    fn on_paper(&self, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
        if let Some(within) = self.options.mate {
            // They are the same for everybody.
            return search(self, within, shared, &[]);
        }
        let mut prepared = prepare(self, shared, records)?;
        if let [file] = &self.pick.files[..]
            && prepared.games.len() == 1
        {
            prepared.file = Some(file.clone());
        }
        if let Plan::Ahead(settings) = &mut prepared.plan
            && settings.plies.is_none()
        {
            let mut plies = Plies::nearest(settings.staircase.presented() as usize);
            settings.plies = Some(plies);
            if let Err(PlanError::TooShort { longest, .. }) = Ahead::new(settings.clone()) {
                plies = Plies::nearest(longest);
                settings.plies = Some(plies);
            }
            prepared.options.settle("plies", plies.get());
        }
        Ok(prepared)
    }

    /// Says how far ahead the learner sees, by the latest answers that the journal now has.
    fn close(&self, held: &Prepared, shared: &Shared) -> Result<(), Failure> {
        if !matches!(held.plan, Plan::Ahead(_)) {
            return Ok(());
        }
        let contents = shared.journal()?.read()?;
        let answers = answers(&contents.records);
        let sentence = progress::reach(&Reach::of(&answers));
        shared.announcer().say(Tone::Plain, &sentence)
    }
}

/// Sets up a session of calculation.
fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    let options = &arguments.options;
    if options.sidelines && options.show() == Show::None {
        return Err(Failure::usage(words::HEARD_WITHOUT_SIDELINES));
    }
    let pick = &arguments.pick;
    let are_positions = || match &pick.files[..] {
        [] => pick.fen.is_some() && pick.line.is_none(),
        files => files.iter().all(|file| is_named_as_positions(file)),
    };
    let several = pick
        .numbers()
        .map_or_else(are_positions, |numbers| !numbers.is_one());
    let chosen = if several {
        draw_games(arguments, shared)?
    } else {
        let is_fit = |reading: &Reading| options.is_fit(reading);
        vec![choose(pick, EXERCISE, shared, records, is_fit)?]
    };
    let mut games = Vec::new();
    let mut scripts = Vec::new();
    // From a position without a move, as many plies are played on as are read.
    let (seed, staircase) = (shared.seed()?, staircase(&answers(records)));
    let followed = Plies::nearest(staircase.presented() as usize);
    let positions = chosen.iter().filter(|game| game.is_position()).count();
    let plies = options.plies.or((positions > 0).then_some(followed));
    // Each position is a round of its own.
    let alone = (positions == chosen.len()).then_some(positions);
    let rounds = (options.rounds().size()).min(alone.unwrap_or(usize::MAX));
    for (game, number) in chosen.iter().zip(1..) {
        let script = match plies {
            Some(plies) if game.is_position() => {
                let start = &game.reading.game.start;
                let mut script = played_on(start, plies.size(), seed, number);
                if let Some(task) = task(game) {
                    script.ask(0, task);
                }
                Ok(script)
            }
            _ => options.script(game),
        };
        scripts.push(script.map_err(|failure| failure.about(&game.name()))?);
        games.push(game.game_ref());
    }
    let settings = AheadSettings {
        games: scripts,
        show: options.show(),
        plies,
        staircase,
        rounds: Rounds::nearest(rounds),
        per_round: options.questions.unwrap_or(PerRound::nearest(2)),
        ask: kinds_asked(&options.ask),
        think_millis: options.think.map(Seconds::millis),
        looks: options.looks,
        seed,
        follow: options.follow,
    };
    // What does not fit is told here, where the game's name is known.
    if let Err(error) = Ahead::new(settings.clone()) {
        let failure = Failure::from(error);
        return Err(match chosen.as_slice() {
            [game] if !several => failure.about(&game.name()),
            _ => failure,
        });
    }
    Prepared::new(Plan::Ahead(settings), games, arguments.asked()?, shared)
}

/// What a file of positions asks for where it claims no mate: the best move, whose answer is the file's.
fn task(position: &Chosen) -> Option<Beside> {
    let best = position.reading.game.tags.known("bm")?;
    let is_open = !claims_mate(position) && !best.trim().is_empty();
    is_open.then(|| {
        Beside::Open(OpenQuestion {
            say: None,
            answer: best.to_owned(),
        })
    })
}

/// Tells whether a file of positions claims a mate.
fn claims_mate(position: &Chosen) -> bool {
    let tags = &position.reading.game.tags;
    tags.get("dm").is_some() || tags.get("bm").is_some_and(|bm| bm.contains('#'))
}

/// Searches the games for mates within so many moves until as many are found as are asked for.
fn search(
    arguments: &Arguments,
    within: MateMoves,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    let options = &arguments.options;
    let wanted = options.rounds().size();
    if let Some(other) = GivenOptions::of(options)?.first_of(&["plies", "ask", "questions"]) {
        return Err(Failure::usage(words::options_conflict("mate", other)));
    }
    let known = solved(records, EXERCISE);
    // Games that come through standard input leave nothing there to be heard.
    let is_free = !arguments.takes_input();
    let listener = is_free.then(|| shared.listener()).transpose()?;
    let mut listener = listener.as_ref().map(|listener| listener.borrow_mut());
    let mut watch = Watch::new(listener.as_deref_mut(), shared.manner());
    let (mut games, mut problems) = (Vec::new(), Vec::new());
    let (mut searched, mut found) = (0, Searched::default());
    let named = arguments.pick.takes_any();
    arguments.pick.walk(shared, |chosen| {
        let game = &chosen.reading.game;
        if options.sidelines && game.sideline_count() == 0 && !named {
            return Ok(true);
        }
        chosen.tell_notes(shared.plain);
        searched += 1;
        if !chosen.is_position() && game.main_nodes().next().is_none() {
            return Ok(true);
        }
        let script = if chosen.is_position() {
            Script::of_line(&game.main_line())
        } else {
            let script = options.script(&chosen);
            script.map_err(|failure| failure.about(&chosen.name()))?
        };
        let search = Search {
            script: &script,
            game: games.len(),
            within: within.get(),
            show: options.show(),
            wanted: wanted - problems.len(),
            known: &known,
        };
        let number = chosen.game_ref().number;
        let in_game = search.run(|positions| watch.go_on(within.get(), number, positions))?;
        if !in_game.problems.is_empty() || games.is_empty() {
            games.push(chosen.game_ref());
        }
        let claims = claims_mate(&chosen);
        let has_none = in_game.problems.is_empty() && in_game.known + in_game.given_up == 0;
        if chosen.is_position() && claims && has_none && !in_game.stopped {
            tell(&asides::no_mate_there(&chosen.name(), within.get()));
        }
        problems.extend(in_game.problems);
        found.positions += in_game.positions;
        found.given_up += in_game.given_up;
        found.known += in_game.known;
        found.stopped = in_game.stopped;
        Ok(!found.stopped && problems.len() < wanted)
    })?;
    if found.stopped {
        tell(asides::SEARCH_STOPPED);
        return Err(Failure::SearchStopped);
    }
    if searched == 0 {
        return Err(Failure::unusable(words::NO_SIDELINES));
    }
    if found.given_up > 0 {
        tell(&asides::given_up(found.given_up));
    }
    if problems.is_empty() {
        let said = asides::no_mate(within.get(), searched, found.positions, found.known);
        return Err(Failure::Unusable(said));
    }
    let plan = Plan::Mates(MatesSettings {
        problems,
        show: options.show(),
        within,
        think_millis: options.think.map(Seconds::millis),
        looks: options.looks,
        seed: shared.seed()?,
    });
    Prepared::new(plan, games, arguments.asked()?, shared)
}

/// Draws a game for each round out of all that fit, each as likely as the other; fewer where there are
/// no more.
fn draw_games(arguments: &Arguments, shared: &Shared) -> Result<Vec<Chosen>, Failure> {
    let mut dice = Dice::new(shared.seed()?, DRAWING);
    let rounds = arguments.options.rounds().size();
    let mut drawn: Vec<Chosen> = Vec::new();
    let mut unfit = None;
    let mut fitted = 0;
    arguments.pick.walk(shared, |chosen| {
        if !arguments.options.is_fit(&chosen.reading) {
            unfit.get_or_insert(chosen);
            return Ok(true);
        }
        fitted += 1;
        if drawn.len() < rounds {
            drawn.push(chosen);
        } else {
            // The newcomer takes the place of one of those drawn with the chance that keeps all alike.
            let place = dice.below(fitted);
            if let Some(earlier) = drawn.get_mut(place) {
                *earlier = chosen;
            }
        }
        Ok(true)
    })?;
    for chosen in &drawn {
        chosen.tell_notes(shared.plain);
    }
    if drawn.is_empty() {
        // The one at hand is refused with its reason.
        drawn.extend(unfit);
    }
    Ok(drawn)
}
