//! The search for where a learner's course begins: what each stage of it asks; and positions out of games.

use shakmaty::Position;

use crate::cli::failure::Failure;
use crate::cli::pick::Pick;
use crate::cli::places;
use crate::cli::shared::Shared;
use crate::exercise::bound::{Count, FewPieces, FewPlies, Looks, Questions};
use crate::exercise::{
    Dice, FewSettings, PlacementSettings, Plan, PlanError, Script, Stage, excerpts,
};
use crate::learner::course::{CourseStep, Practice};
use crate::learner::lesson::drawing;
use crate::question::Kind;

/// Plans it: the stages are steps of the course.
pub(super) fn plan(shared: &Shared) -> Result<Plan, Failure> {
    let mut drawn = Vec::new();
    let stages = { CourseStep::PLACED.iter() }.map(|step| stage(*step, &mut drawn, shared));
    let stages = stages.collect::<Result<_, _>>()?;
    Ok(Plan::Placement(PlacementSettings { stages }))
}

/// Settles a stage, over another game than those that were drawn for the stages before, while there is one.
fn stage(step: CourseStep, drawn: &mut Vec<usize>, shared: &Shared) -> Result<Stage, Failure> {
    Ok(match step.practice() {
        Practice::Few(pieces, plies, kinds) => {
            Stage::Line(over(pieces, plies, kinds, None, shared)?)
        }
        Practice::Ahead(plies, kinds) => {
            let mut scripts = any_excerpts(FewPieces::MOST, plies, drawn, shared)?;
            // Neither the opening, which many know, nor few pieces that are left at the end.
            let all = scripts.len();
            scripts.truncate(all.div_ceil(2).max(1));
            scripts.drain(..(all / 6).min(scripts.len() - 1));
            Stage::Line(over(FewPieces::MOST, plies, kinds, Some(scripts), shared)?)
        }
        _ => Stage::Bare(drawing(step, shared.seed()?)),
    })
}

fn over(
    pieces: usize,
    plies: usize,
    kinds: &[Kind],
    from: Option<Vec<Script>>,
    shared: &Shared,
) -> Result<FewSettings, Failure> {
    // What can be said without a board; a yes or no could be guessed.
    let ask = kinds.iter().copied().filter(|kind| *kind != Kind::Legality);
    Ok(FewSettings {
        pieces: FewPieces::nearest(pieces),
        plies: FewPlies::nearest(plies),
        count: Count::nearest(Count::MOST),
        per_round: Questions::nearest(1),
        ask: ask.collect(),
        think_millis: None,
        looks: Some(Looks::nearest(0)),
        seed: shared.seed()?,
        from,
        follow: false,
    })
}

/// Games from which excerpts are drawn, at most.
const GAMES_LOOKED_AT: usize = 50;
/// What the dice are rolled for when a game is drawn.
pub(super) const DRAWING: u64 = u64::MAX - 1;

/// Cuts positions with so many pieces, or not many fewer, out of one of the learner's own games, or else of the demo games, any
/// of the first that have such; of a game that was `drawn` before only where no other is left.
pub(super) fn any_excerpts(
    pieces: usize,
    plies: usize,
    drawn: &mut Vec<usize>,
    shared: &Shared,
) -> Result<Vec<Script>, Failure> {
    let (mut looked, mut found) = (0, Vec::new());
    let games = Pick {
        files: places::own_then_demo(&shared.config.games)?,
        ..Pick::default()
    };
    games.walk(shared, |picked| {
        let line = picked.reading.game.main_line();
        looked += 1;
        let mut scripts = excerpts(&line, pieces, plies).unwrap_or_default();
        let count = |script: &Script| {
            script
                .line(0)
                .map_or(0, |line| line.position(0).board().occupied().count())
        };
        scripts.retain(|script| count(script) * 2 > pieces);
        if !scripts.is_empty() {
            found.push((looked, scripts));
        }
        Ok(looked < GAMES_LOOKED_AT)
    })?;
    let is_new = |(game, _): &(usize, _)| !drawn.contains(game);
    if found.iter().any(is_new) {
        found.retain(is_new);
    }
    if found.is_empty() {
        return Err(Failure::unusable(PlanError::NothingPlayedOn { pieces }));
    }
    let at = Dice::new(shared.seed()?, DRAWING).below(found.len());
    let (game, scripts) = found.swap_remove(at);
    drawn.push(game);
    Ok(scripts)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::Cli;
    use clap::Parser;
    use std::collections::HashSet;

    #[test]
    fn each_stage_over_a_game_draws_another_game() {
        let mut shared = Cli::try_parse_from(["sansvoir", "lesson"]).unwrap().shared;
        for seed in 0..4 {
            shared.seed = Some(seed);
            let Plan::Placement(settings) = plan(&shared).unwrap() else {
                panic!("no placement");
            };
            let (mut seen, mut stages) = (HashSet::new(), 0);
            for stage in settings.stages {
                let Stage::Line(FewSettings {
                    from: Some(scripts),
                    ..
                }) = stage
                else {
                    continue;
                };
                let starts = { scripts.iter() }.map(|script| script.start().unwrap().fen());
                let starts: HashSet<String> = starts.collect();
                assert!(seen.is_disjoint(&starts), "{seed}");
                seen.extend(starts);
                stages += 1;
            }
            assert!(stages > 1);
        }
    }
}
