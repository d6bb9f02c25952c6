//! What a journal says of how far ahead a learner sees, and how a session goes on from there.

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{AheadSettings, Answered, OwnSummary};
use sansvoir::learner::pace::{Reach, answers, staircase};
use sansvoir::learner::{AnswerRecord, Record, Stamp};

use super::learner::{Log, knows, mixed, passes, play, settings};

/// The journal of a session.
pub(crate) fn journal(exercise: &str, answered: &[Answered]) -> Vec<Record> {
    let stamp = Stamp::new("2026-03-01T18:20:04Z".parse().unwrap(), "a");
    answered
        .iter()
        .map(|answered| {
            let answer = AnswerRecord::new(stamp.clone(), exercise, None, answered);
            Record::Answer(Box::new(answer))
        })
        .collect()
}

fn next_plies(log: &Log) -> usize {
    let summary = log.summary.as_ref().unwrap();
    match summary.own {
        OwnSummary::Ahead(own) => own.next.unwrap(),
        _ => panic!("calculation: {summary:?}"),
    }
}

#[test]
fn a_session_goes_on_where_the_journal_leaves_the_learner() {
    for habit in [knows, passes, mixed] {
        let first = play(&settings(3), habit);
        let records = journal("ahead", &first.answered);
        let staircase = staircase(&answers(&records));
        let second = play(
            &AheadSettings {
                staircase,
                ..settings(4)
            },
            knows,
        );
        assert_eq!(second.shown[0].plies, next_plies(&first));
    }
}

#[test]
fn two_sessions_climb_like_one() {
    let both = play(
        &AheadSettings {
            rounds: Within::nearest(8),
            ..settings(3)
        },
        knows,
    );
    let first = play(&settings(3), knows);
    let records = journal("ahead", &first.answered);
    let second = play(
        &AheadSettings {
            staircase: staircase(&answers(&records)),
            ..settings(3)
        },
        knows,
    );
    let plies = |log: &Log| -> Vec<usize> { log.shown.iter().map(|shown| shown.plies).collect() };
    assert_eq!([plies(&first), plies(&second)].concat(), plies(&both));
}

#[test]
fn only_answers_of_ahead_without_the_position_in_sight_count() {
    let log = play(&settings(3), mixed);
    let records = journal("ahead", &log.answered);
    let counted = answers(&records);
    let looked = log.answered.iter().filter(|answered| answered.looks > 0);
    assert_eq!(counted.len(), log.answered.len() - looked.count());
    assert!(counted.iter().all(|answer| answer.plies >= 1));
    assert!(answers(&journal("replay", &log.answered)).is_empty());
    let before_the_fields = records.into_iter().map(|record| match record {
        Record::Answer(mut answer) => {
            answer.hardness = None;
            Record::Answer(answer)
        }
        other => other,
    });
    let before_the_fields: Vec<Record> = before_the_fields.collect();
    assert!(answers(&before_the_fields).is_empty());
}

#[test]
fn a_reach_comes_after_thirty_answers_on_three_levels() {
    let mut records = Vec::new();
    let mut sessions = 0;
    loop {
        let so_far = answers(&records);
        let reach = Reach::of(&so_far);
        if so_far.len() >= 30 {
            assert!(matches!(reach, Reach::Measured { .. }), "{reach:?}");
            break;
        }
        let Reach::NotMeasured { answers, of, .. } = reach else {
            panic!("{reach:?} after {} answers", so_far.len());
        };
        assert_eq!((answers, of), (so_far.len(), 30));
        let log = play(
            &AheadSettings {
                staircase: staircase(&so_far),
                ..settings(sessions)
            },
            mixed,
        );
        records.extend(journal("ahead", &log.answered));
        sessions += 1;
    }
    assert!(staircase(&answers(&records)).presented() >= 1);
}
