//! Verdicts in words: what came of a reply, and what is true.

use shakmaty::{Bitboard, Color};

use crate::exercise::Answered;
use crate::question::{Check, LineQuestion, Question, Tally, Truth, Verdict, Why};

use super::duration::duration;
use super::naming::{capital, count, man, roles, side, squares};
use super::{Voice, bare, counted, paper, why};

/// Says what came of a reply, then the truth and why it is so where the reply was not right.
pub(super) fn answered(voice: Voice, answered: &Answered) -> Vec<String> {
    let mut said = vec![verdict(answered)];
    if answered.mark.verdict != Verdict::Right {
        said.extend(tally(
            answered.question,
            &answered.mark.tally,
            answered.mark.verdict,
        ));
        // The move in full says all that its squares say.
        if !answered.why.as_ref().is_some_and(Why::names_truth) {
            said.extend(shown(voice, answered.question, &answered.truth));
        }
        if let Some(reasons) = &answered.why {
            // Who gave the question up named nothing, and so missed nothing either.
            said.extend(match answered.mark.verdict {
                Verdict::Pass => paper::reasons(reasons),
                Verdict::Right | Verdict::Part | Verdict::Wrong => why(reasons),
            });
        }
    }
    said
}

fn verdict(answered: &Answered) -> String {
    let late = late_by(answered);
    match answered.mark.verdict {
        Verdict::Right => format!(
            "{} {}",
            right(answered),
            truth(&answered.question, &answered.truth)
        ),
        Verdict::Part => format!("Right in part{late}."),
        Verdict::Wrong => format!("Not right{late}."),
        Verdict::Pass => "Passed.".to_owned(),
    }
}

/// Goes on, after a verdict, with how long a late reply took; nothing for one that came in time.
pub(super) fn late_by(answered: &Answered) -> String {
    let late = answered.millis.filter(|_| answered.late);
    late.map_or_else(String::new, |millis| {
        format!(", and late: it took {}", duration(millis))
    })
}

fn right(answered: &Answered) -> String {
    match answered.millis {
        Some(millis) if !answered.late => format!("Right, in {}.", duration(millis)),
        Some(_) | None => format!("Right{}.", late_by(answered)),
    }
}

/// Says that a reply was right and nothing that could answer another question; `None` where there is
/// more to say.
#[must_use]
pub fn right_alone(answered: &Answered) -> Option<String> {
    let is_right = answered.mark.verdict == Verdict::Right;
    match (&answered.tries, &answered.truth) {
        // Only the move that was not said is told.
        (Some(tries), _) => {
            let whole = is_right || answered.mark.verdict == Verdict::Part;
            whole.then(|| super::recite::verdict(answered, tries))
        }
        // Why a move is illegal is told with the verdict.
        (None, Truth::Illegal { .. }) => None,
        (None, _) => is_right.then(|| right(answered)),
    }
}

/// Says which squares were right, forgotten or too many; a line each, and none for a pass, where
/// the truth says it all.
fn tally(question: Question, tally: &Tally, verdict: Verdict) -> Vec<String> {
    // What is wrong with a placement is told man by man by its why.
    if verdict == Verdict::Pass || matches!(question, Question::Line(LineQuestion::Rebuild(_))) {
        return Vec::new();
    }
    [
        ("Named rightly", tally.hit),
        ("Missed", tally.missed),
        ("Named without need", tally.extra),
    ]
    .into_iter()
    .filter(|(_, set)| set.any())
    .map(|(name, set)| format!("{name}: {}.", squares(set)))
    .collect()
}

/// Says the truth; a whole board is drawn for those who look, and told in words for the others.
fn shown(voice: Voice, question: Question, answer: &Truth) -> Vec<String> {
    match answer {
        Truth::Placement { placement } => {
            let mut said = vec![truth(&question, answer)];
            said.extend(voice.board(placement));
            said
        }
        Truth::Square { .. }
        | Truth::Gone { .. }
        | Truth::Piece { .. }
        | Truth::Squares { .. }
        | Truth::Legal { .. }
        | Truth::Illegal { .. }
        | Truth::Moves { .. }
        | Truth::Points { .. }
        | Truth::Wings { .. }
        | Truth::Taken { .. }
        | Truth::Move { .. }
        | Truth::Place(_)
        | Truth::Color { .. }
        | Truth::Line { .. }
        | Truth::Distance { .. } => vec![truth(&question, answer)],
    }
}

/// Says the right answer in a sentence.
#[must_use]
pub fn truth(question: &Question, truth: &Truth) -> String {
    match question {
        Question::Line(question) => line_truth(*question, truth),
        Question::Bare(question) => bare::truth(question, truth),
    }
}

fn line_truth(question: LineQuestion, truth: &Truth) -> String {
    match truth {
        Truth::Square { square } => format!("The man stands on {square}."),
        Truth::Gone { .. } => "The man is gone: it was taken.".to_owned(),
        Truth::Piece { piece: Some(piece) } => {
            format!("{} stands{}.", capital(&man(*piece)), on_square(question))
        }
        Truth::Piece { piece: None } => format!("No man stands{}.", on_square(question)),
        Truth::Squares {
            squares: set,
            optional,
        } => set_truth(question, *set, *optional),
        Truth::Legal { .. } => "The move is legal.".to_owned(),
        Truth::Illegal { .. } => "The move is not legal.".to_owned(),
        Truth::Placement { placement } => {
            let men = |color: Color| count(placement.by_color(color).count(), "man", "men");
            format!(
                "White has {}, Black has {}.",
                men(Color::White),
                men(Color::Black)
            )
        }
        Truth::Moves { moves } => counted::moves(question, moves),
        Truth::Points { points } => counted::points(question, *points),
        Truth::Wings { wings } => counted::wings(question, *wings),
        Truth::Taken { pieces } => counted::taken(question, *pieces),
        Truth::Move { attempt } => counted::played(question, *attempt),
        Truth::Place(_) | Truth::Color { .. } | Truth::Line { .. } | Truth::Distance { .. } => {
            unreachable!("the bare board's truths answer no question over a line")
        }
    }
}

fn on_square(question: LineQuestion) -> String {
    match question {
        LineQuestion::Occupant(asked) => format!(" on {}", asked.square),
        LineQuestion::Whereabouts(_)
        | LineQuestion::Standing(_)
        | LineQuestion::Attacks(_)
        | LineQuestion::Attackers(_)
        | LineQuestion::Moves(_)
        | LineQuestion::Legality(_)
        | LineQuestion::Check(_)
        | LineQuestion::Checks(_)
        | LineQuestion::Captures(_)
        | LineQuestion::Hanging(_)
        | LineQuestion::Mate(_)
        | LineQuestion::Exchange(_)
        | LineQuestion::Balance(_)
        | LineQuestion::Rights(_)
        | LineQuestion::Taken(_)
        | LineQuestion::Played(_)
        | LineQuestion::Rebuild(_) => " there".to_owned(),
    }
}

fn set_truth(question: LineQuestion, set: Bitboard, optional: Bitboard) -> String {
    let named = squares(set);
    match question {
        LineQuestion::Standing(asked) if set.is_empty() => {
            format!("{} has no {}.", side(asked.color), roles(asked.role))
        }
        LineQuestion::Standing(asked) => format!(
            "{} has {} on {named}.",
            side(asked.color),
            if set.count() == 1 {
                format!("a {}", super::naming::role(asked.role))
            } else {
                roles(asked.role).to_owned()
            },
        ),
        LineQuestion::Attacks(asked) => attacks_truth(asked.square, set, optional),
        LineQuestion::Attackers(asked) if set.is_empty() => {
            format!(
                "None of {}'s men attacks or guards {}.",
                side(asked.color),
                asked.square
            )
        }
        LineQuestion::Attackers(asked) => format!(
            "{}'s men that attack or guard {} stand on {named}.",
            side(asked.color),
            asked.square
        ),
        LineQuestion::Moves(asked) if set.is_empty() => {
            format!("The man on {} has no legal move.", asked.square)
        }
        LineQuestion::Moves(asked) => format!("The man on {} can go to {named}.", asked.square),
        LineQuestion::Check(Check {}) if set.is_empty() => "There is no check.".to_owned(),
        LineQuestion::Check(Check {}) => format!("Check comes from {named}."),
        LineQuestion::Hanging(asked) if set.is_empty() => {
            format!("No man of {} is hanging.", side(asked.color))
        }
        LineQuestion::Hanging(asked) if set.count() == 1 => {
            format!("{} has a hanging man on {named}.", side(asked.color))
        }
        LineQuestion::Hanging(asked) => {
            format!("{} has hanging men on {named}.", side(asked.color))
        }
        LineQuestion::Whereabouts(_)
        | LineQuestion::Occupant(_)
        | LineQuestion::Legality(_)
        | LineQuestion::Checks(_)
        | LineQuestion::Captures(_)
        | LineQuestion::Mate(_)
        | LineQuestion::Exchange(_)
        | LineQuestion::Balance(_)
        | LineQuestion::Rights(_)
        | LineQuestion::Taken(_)
        | LineQuestion::Played(_)
        | LineQuestion::Rebuild(_) => format!("{}.", capital(&named)),
    }
}

fn attacks_truth(from: shakmaty::Square, set: Bitboard, optional: Bitboard) -> String {
    let attacked = if set.is_empty() {
        format!("The man on {from} attacks no square")
    } else {
        format!("The man on {from} attacks {}", squares(set))
    };
    if optional.is_empty() {
        return format!("{attacked}.");
    }
    format!(
        "{attacked}. It guards its own side's {} on {}, which may be named or left out.",
        if optional.count() == 1 { "man" } else { "men" },
        squares(optional)
    )
}
