//! The search for mates through the games that were chosen.

use std::collections::HashSet;
use std::time::{Duration, Instant};

use super::ahead::{Arguments, EXERCISE};
use super::arguments::SessionArguments;
use super::chosen::Chosen;
use super::failure::{Failure, tell};
use super::prepared::Prepared;
use super::shared::{Shared, answers};
use super::values::{GivenOptions, Seconds};
use crate::exercise::bound::{Looks, MateMoves};
use crate::exercise::{Input, MatesSettings, Plan, Search, Searched};
use crate::learner::Record;
use crate::question::{Kind, Verdict};
use crate::terminal::{Capabilities, Listener, Progress, Said, Way};
use crate::voice::{asides, commands as words, searching};

/// The time that one look at the keyboard takes.
const GLANCE: Duration = Duration::from_millis(1);
/// The time between two looks at the keyboard.
const LISTENING: Duration = Duration::from_millis(50);

/// Searches the games for mates within so many moves until as many are found as are asked for.
pub(super) fn prepare(
    arguments: &Arguments,
    within: MateMoves,
    shared: &Shared,
    records: &[Record],
) -> Result<Prepared, Failure> {
    let options = &arguments.options;
    let of_part = shared.part.as_ref().and_then(|part| part.mates);
    let wanted = options.rounds().size().min(of_part.unwrap_or(usize::MAX));
    if let Some(other) = GivenOptions::of(options)?.first_of(&["plies", "ask", "questions"]) {
        return Err(Failure::usage(words::options_conflict("mate", other)));
    }
    let known = solved(records);
    let listener = shared.listener()?;
    let mut listener = listener.borrow_mut();
    let mut watch = Watch::new(&mut listener, shared.manner());
    let (mut games, mut problems) = (Vec::new(), Vec::new());
    let (mut searched, mut found) = (0, Searched::default());
    let named = arguments.pick.takes_any();
    arguments.pick.walk(shared, |picked| {
        let chosen = Chosen::new(picked);
        let game = &chosen.reading.game;
        if options.sidelines && game.sideline_count() == 0 && !named {
            return Ok(true);
        }
        chosen.tell_notes(shared.plain);
        searched += 1;
        if game.main_nodes().next().is_none() {
            return Ok(true);
        }
        let script = options.script(&chosen);
        let script = script.map_err(|failure| failure.about(&chosen.name()))?;
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
        return Err(Failure::unusable(words::NONE_HAS_SIDELINES));
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
        looks: options.looks.map(Looks::get),
        seed: shared.seed()?,
    });
    Prepared::new(plan, games, arguments.asked()?, shared)
}

/// The positions from which the learner has found the mate before.
fn solved(records: &[Record]) -> HashSet<String> {
    let solved = answers(records).filter(|answer| {
        answer.exercise == EXERCISE && answer.kind == Kind::Mate && answer.verdict == Verdict::Right
    });
    solved
        .filter_map(|answer| answer.position.clone())
        .collect()
}

/// Tells how a long search goes, and hears when it is to stop.
struct Watch<'a> {
    listener: &'a mut Listener,
    manner: Capabilities,
    begun: Instant,
    listened: Instant,
    progress: Progress,
}

impl<'a> Watch<'a> {
    fn new(listener: &'a mut Listener, manner: Capabilities) -> Watch<'a> {
        let now = Instant::now();
        Watch {
            listener,
            manner,
            begun: now,
            listened: now,
            progress: Progress::begin(),
        }
    }

    fn go_on(&mut self, within: u32, game: usize, positions: usize) -> bool {
        if self.listened.elapsed() < LISTENING {
            return true;
        }
        self.listened = Instant::now();
        if self.progress.is_due() {
            let seconds = self.begun.elapsed().as_secs();
            tell(&searching(within, game, positions, seconds));
        }
        !self.is_stopped()
    }

    /// The lines of a pipe are replies, and none of them is taken here.
    fn is_stopped(&mut self) -> bool {
        match self.manner.way {
            Way::Piped => self.listener.rest(Duration::ZERO).is_some(),
            Way::Edited | Way::Prompted => match self.listener.pause(GLANCE) {
                Ok(Some(Said::Line(line))) => Input::read(&line.text, 0) == Input::Stop,
                Ok(Some(Said::Interrupt | Said::End)) | Err(_) => true,
                Ok(None) => false,
            },
        }
    }
}
