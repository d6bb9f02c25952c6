//! What a recital says: tries that were wrong, moves that were mixed up, and how it went.

use std::collections::BTreeMap;

use shakmaty::Role;

use crate::exercise::{
    Elsewhere, Missed, MixUp, Recite, ReciteOpening, ReciteSummary, ReciteTold, Sides, Slip,
    Summary,
};
use crate::question::{Kind, LineWhy, Why};

use super::clean::clean_line;
use super::ending;
use super::exercise::{ExerciseWords, goes_on};
use super::naming::{count, move_of, percent, plies, role, sentence};
use super::question::why;
use super::replay::{game, titled};
use super::reply_help::no_move;
use super::style::Voice;

impl ExerciseWords for Recite {
    fn title(opening: &ReciteOpening) -> String {
        titled("From memory", &opening.game.tags)
    }

    fn say_opening(voice: Voice, opening: &ReciteOpening) -> Vec<String> {
        let of = &opening.game;
        let mut said = Vec::from_iter(goes_on("The recital", of.resumed));
        said.extend(game(voice.list, of));
        let who = match opening.sides {
            Sides::Both => "you say the moves of both sides",
            Sides::White => "you say White's moves, Black's are read out",
            Sides::Black => "you say Black's moves, White's are read out",
        };
        said.push(match opening.chunk {
            None => format!("{} from memory: {who}.", plies(of.plies)),
            Some(chunk) => format!(
                "{} to learn, {} at a time: {who}. Each chunk is heard and said, then all so far; one that \
                 fails comes back. Only all of it, said at the end, counts.",
                plies(of.plies),
                plies(chunk.min(of.plies))
            ),
        });
        if let Some(number @ 1..) = of.checkpoints {
            let checkpoints = count(number, "checkpoint", "checkpoints");
            said.push(format!("The whole position is asked at {checkpoints}."));
        }
        said.push("Each move has two tries. help says what else can be said.".to_owned());
        said
    }

    fn say_on_paper(voice: Voice, opening: &ReciteOpening) -> Vec<String> {
        let mut said = game(voice.list, &opening.game);
        let moves = plies(opening.game.plies);
        said.push(format!(
            "{moves} from memory: write the move behind each number."
        ));
        said
    }

    fn say_told(voice: Voice, told: &ReciteTold) -> Vec<String> {
        vec![match told {
            ReciteTold::ReadOut(ply) => sentence(&voice.announce.named(ply)),
            ReciteTold::Listen { plies: many, again } => {
                let again = if *again { "Once more" } else { "Now" };
                format!(
                    "{again}: listen to {}, then say what you heard.",
                    plies(*many)
                )
            }
            ReciteTold::Together { last, counts } => {
                let last = move_of(*last);
                let counts = if *counts {
                    " That is all of it, and it counts."
                } else {
                    ""
                };
                format!("Now say everything from the start up to {last}.{counts}")
            }
        }]
    }

    fn say_summary(voice: Voice, own: &ReciteSummary, all: &Summary) -> Vec<String> {
        let mut said = Vec::new();
        said.extend(own.learned.map(|(many, last)| match last {
            Some(last) => format!(
                "Said from the start without a slip: {}, up to {}.",
                plies(many),
                move_of(last)
            ),
            None => "Nothing was said from the start without a slip yet.".to_owned(),
        }));
        if own.asked > 0 {
            let share = |part| {
                let (whole, percent) = (own.asked, percent(part, own.asked));
                format!("{part} of {whole} ({percent} %)")
            };
            let (first, helped) = (share(own.first_try), share(own.helped));
            said.push(format!("Right at the first try: {first}."));
            said.push(format!(
                "Right with help, at the second try or with a hint: {helped}."
            ));
        }
        if own.passed > 0 {
            said.push(format!("Given up: {}.", own.passed));
        }
        if let Some(ply) = &own.first_slip {
            said.push(format!("The first slip: {}.", voice.announce.named(ply)));
        }
        said.extend(own.mixed.iter().map(|mixed| mix_up(voice, mixed)));
        if let Some(rebuilt) = all.kinds.get(&Kind::Rebuild) {
            let rebuilt = BTreeMap::from([(Kind::Rebuild, rebuilt.clone())]);
            said.extend(ending::kinds(voice, &rebuilt));
        }
        if all.looks > 0 {
            said.push(format!(
                "{} at the board.",
                count(all.looks, "look", "looks")
            ));
        }
        if all.late > 0 {
            said.push(format!("Late: {}.", count(all.late, "reply", "replies")));
        }
        said.extend(own.again.map(|number| {
            let name = move_of(number);
            format!("Start again at {name}, with the option --from {number}")
        }));
        said.extend(ending::board(voice, "The board at the end", all));
        said
    }
}

/// Names the piece that moves.
pub(super) fn hint(piece: Role) -> String {
    format!("A hint: a {} moves.", role(piece))
}

/// Says why a try was wrong, and where else the game has that move.
pub(super) fn missed_try(missed: &Missed) -> Vec<String> {
    let quoted = format!("\"{}\"", clean_line(&missed.said));
    let mut said = match &missed.slip {
        Slip::NotPlayed(_) => vec![format!("{quoted} is legal there, but it was not played.")],
        Slip::Illegal(reason) => {
            let mut said = vec![format!("{quoted} is not legal there.")];
            said.extend(why(&Why::Line(LineWhy::Legality(reason.clone()))));
            said
        }
        Slip::NoPiece(fault) => vec![no_move(&quoted, fault)],
    };
    said.extend(missed.elsewhere.map(|elsewhere| {
        let place = match elsewhere {
            Elsewhere::Earlier(number) => format!("earlier, as {}", move_of(number)),
            // Its number would be a clue to a move that is still to be said.
            Elsewhere::Later(_) => "later".to_owned(),
        };
        format!("You mix up two moves: the game has that one {place}.")
    }));
    said
}

fn mix_up(voice: Voice, mixed: &MixUp) -> String {
    let said = mixed.legal.as_ref().map_or_else(
        || format!("\"{}\"", clean_line(&mixed.said)),
        |ply| ply.san.to_string(),
    );
    let played = voice.announce.named(&mixed.played);
    let place = mixed.elsewhere.map(|place| {
        let (Elsewhere::Earlier(number) | Elsewhere::Later(number)) = place;
        format!(" That is {}.", move_of(number))
    });
    let place = place.unwrap_or_default();
    format!("You said {said} where {played} was played.{place}")
}
