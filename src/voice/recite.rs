//! What a recital says: moves asked, tries that were wrong, and how it went.

use shakmaty::Role;

use crate::exercise::{
    Answered, Elsewhere, GameOpening, Missed, MixUp, ReciteSummary, Sides, Slip, Summary, Tries,
};
use crate::game::{MoveNumber, Ply};
use crate::question::{Kind, LineWhy, Verdict, Why};

use super::clean::clean_line;
use super::naming::{capital, count, move_of, role};
use super::no_move::no_move;
use super::opening::game;
use super::progress::percent;
use super::verdict::late_by;
use super::{Voice, closing, why};

/// What else can be said where a move is asked for.
pub(super) const HINT: &str = "hint: hear which piece moves; the move then counts half.";

/// Reads a move of the other side out.
pub(super) fn read_out(voice: Voice, ply: &Ply) -> String {
    capital(&format!("{}.", voice.announce.named(ply)))
}

/// Names the piece that moves.
pub(super) fn hint(piece: Role) -> String {
    format!("A hint: the {} moves.", role(piece))
}

/// Asks for a move.
pub(super) fn asked(number: MoveNumber, once_more: bool) -> String {
    if once_more {
        format!("Once more: {}?", move_of(number))
    } else {
        format!("{}?", move_of(number))
    }
}

/// Says what is about to be recited.
pub(super) fn opening(voice: Voice, of: &GameOpening, sides: Sides) -> Vec<String> {
    let mut said = Vec::new();
    if of.resumed {
        said.push("The recital goes on where it stopped.".to_owned());
    }
    said.extend(game(voice.list, of));
    said.push(format!(
        "{} from memory: {}.",
        count(of.plies, "ply", "plies"),
        match sides {
            Sides::Both => "you say the moves of both sides",
            Sides::White => "you say White's moves, Black's are read out",
            Sides::Black => "you say Black's moves, White's are read out",
        }
    ));
    if of.checkpoints > 0 {
        said.push(format!(
            "The whole position is asked at {}.",
            count(of.checkpoints, "checkpoint", "checkpoints")
        ));
    }
    said.push("Each move has two tries. help says what else can be said.".to_owned());
    said
}

/// Says what came of a move, and which it was where it was not said.
pub(super) fn answered(voice: Voice, answered: &Answered, tries: &Tries) -> Vec<String> {
    let mut said = vec![verdict(answered, tries)];
    let given = matches!(answered.mark.verdict, Verdict::Wrong | Verdict::Pass);
    if let Some(Why::Line(LineWhy::Played(why))) = answered.why.as_ref().filter(|_| given) {
        said.push(format!("It was {}.", voice.announce.named(&why.ply)));
    }
    said
}

/// Says what came of a move.
pub(super) fn verdict(answered: &Answered, tries: &Tries) -> String {
    let late = late_by(answered);
    match answered.mark.verdict {
        Verdict::Right => format!("Right{late}."),
        Verdict::Part if tries.said.len() > 1 => format!("Right at the second try{late}."),
        Verdict::Part => format!("Right with the hint{late}."),
        Verdict::Wrong => format!("Not right{late}."),
        Verdict::Pass => "Passed.".to_owned(),
    }
}

pub(super) fn missed_try(missed: &Missed) -> Vec<String> {
    let quoted = format!("\"{}\"", clean_line(&missed.said));
    let mut said = match &missed.slip {
        Slip::NotPlayed(_) => vec![format!("{quoted} is legal there, but it was not played.")],
        Slip::Illegal(reason) => {
            let mut said = vec![format!("{quoted} is not even legal there.")];
            said.extend(why(&Why::Line(LineWhy::Legality(reason.clone()))));
            said
        }
        Slip::NoPiece(fault) => vec![no_move(&quoted, fault)],
    };
    said.extend(missed.elsewhere.map(|elsewhere| match elsewhere {
        Elsewhere::Earlier(number) => format!(
            "You mix up two moves: the game has that one earlier, as {}.",
            move_of(number)
        ),
        Elsewhere::Later(number) => format!(
            "You mix up two moves: the game has that one later, as {}.",
            move_of(number)
        ),
    }));
    said
}

/// Says how it went.
pub(super) fn summary(voice: Voice, all: &Summary, summary: &ReciteSummary) -> Vec<String> {
    let mut said = Vec::new();
    if summary.asked > 0 {
        said.push(format!(
            "Right at the first try: {}.",
            share(summary.first_try, summary.asked)
        ));
        said.push(format!(
            "Right with help, at the second try or with a hint: {}.",
            share(summary.helped, summary.asked)
        ));
    }
    if summary.passed > 0 {
        said.push(format!("Given up: {}.", summary.passed));
    }
    said.extend(
        (summary.first_slip.as_ref())
            .map(|ply| format!("The first slip: {}.", voice.announce.named(ply))),
    );
    said.extend(summary.mixed.iter().map(|mixed| mix_up(voice, mixed)));
    if let Some(rebuilt) = all.kinds.iter().find(|kind| kind.kind == Kind::Rebuild) {
        said.extend(closing::kinds(voice, std::slice::from_ref(rebuilt)));
    }
    if all.looks > 0 {
        said.push(format!(
            "{} at the board.",
            count(all.looks as usize, "look", "looks")
        ));
    }
    if all.late > 0 {
        said.push(format!("Late: {}.", count(all.late, "reply", "replies")));
    }
    said.extend(summary.again.map(start_again));
    said.extend(closing::board(
        voice,
        "The board at the end",
        all.board.as_ref(),
    ));
    said
}

fn share(part: usize, whole: usize) -> String {
    format!("{part} of {whole} ({} %)", percent(part, whole))
}

fn mix_up(voice: Voice, mixed: &MixUp) -> String {
    let said = mixed.legal.as_ref().map_or_else(
        || format!("\"{}\"", clean_line(&mixed.said)),
        |ply| ply.san.to_string(),
    );
    let place = mixed
        .elsewhere
        .map_or_else(String::new, |place| match place {
            Elsewhere::Earlier(number) | Elsewhere::Later(number) => {
                format!(" That is {}.", move_of(number))
            }
        });
    format!(
        "You said {said} where {} was played.{place}",
        voice.announce.named(&mixed.played)
    )
}

fn start_again(number: MoveNumber) -> String {
    format!(
        "Start again at {}, with the option --from {number}",
        move_of(number)
    )
}
