//! What is said around games against an opponent.

use shakmaty::san::Suffix;
use shakmaty::{Color, Position};

use super::boards::{beside_the_pieces, pieces_listed};
use super::clean::clean_line;
use super::ending;
use super::exercise::{ExerciseWords, goes_on};
use super::naming::{capital, count, list, move_of, plies, side};
use super::style::Voice;
use crate::exercise::bound::Rating;
use crate::exercise::{
    BoardShown, Costly, GameSummary, Play, PlayOpening, PlaySettings, PlaySummary, PlayTold,
    Summary, TurnSummary,
};
use crate::game::{GameEnd, GameResult, Start};

impl ExerciseWords for Play {
    fn title(_: &PlayOpening) -> String {
        "A game without a board".to_owned()
    }

    fn say_opening(voice: Voice, opening: &PlayOpening) -> Vec<String> {
        let mut said = Vec::from_iter(goes_on("The game", opening.resumed));
        said.extend(opponent(&opening.settings));
        let of = opening.games.len();
        for (at, (start, read, learner)) in opening.games.iter().enumerate() {
            let board = (at + 1, of);
            said.push(on_board(board, &format!("you have {}.", side(*learner))));
            if !opening.resumed {
                said.extend(beginning(voice, start, *read));
            }
        }
        said.extend(seen(opening.settings.board));
        said.push("Say your moves; help says what else can be said.".to_owned());
        said
    }

    fn say_on_paper(_: Voice, _: &PlayOpening) -> Vec<String> {
        Vec::new()
    }

    fn say_told(voice: Voice, told: &PlayTold) -> Vec<String> {
        match told {
            PlayTold::Played { board, ply } => {
                vec![on_board(*board, &voice.announce.ply(ply))]
            }
            PlayTold::Ended {
                board,
                end,
                turn,
                learner,
            } => vec![on_board(*board, &ended(*end, *turn, *learner))],
            PlayTold::TakenBack(last) => {
                let mut said = vec!["Your last move and the answer are taken back.".to_owned()];
                said.extend(
                    last.map(|ply| format!("The last move now: {}", voice.announce.ply(&ply))),
                );
                said
            }
            PlayTold::NothingToTakeBack => {
                vec!["There is no move of yours to take back.".to_owned()]
            }
            PlayTold::TooEarly => {
                let said = "No draw can be claimed here, and no offer is taken before move 30.";
                vec![said.to_owned()]
            }
            PlayTold::Declined => vec!["Your opponent declines the draw.".to_owned()],
            PlayTold::NoClaim => {
                let said = "No draw can be claimed with that move, and it was not played. Say draw alone to offer one.";
                vec![said.to_owned()]
            }
            PlayTold::OtherBoard(board) => {
                vec![format!("On board {board} it would be a move.")]
            }
            PlayTold::Review(number) => {
                let moves = count(*number, "move", "moves");
                vec![format!(
                    "Look back at the game: {moves} of yours cost most."
                )]
            }
            PlayTold::Costly {
                board,
                costly,
                before,
            } => {
                let ply = voice.announce.named(&costly.ply);
                let place = match before {
                    Some(true) => " The position right before it:",
                    Some(false) => " The position right after it:",
                    None => "",
                };
                vec![on_board(*board, &format!("think back to {ply}.{place}"))]
            }
            PlayTold::Cost(costly) => cost(voice, costly),
        }
    }

    fn say_summary(voice: Voice, own: &PlaySummary, all: &Summary) -> Vec<String> {
        let mut said = ending::kinds(voice, &all.kinds);
        for (at, game) in own.games.iter().enumerate() {
            said.extend(went(voice, (at + 1, own.games.len()), game));
        }
        if all.looks > 0 {
            let looks = count(all.looks, "look", "looks");
            said.push(format!("{looks} at the board."));
        } else if own.is_unseen() {
            said.push("No look at the board.".to_owned());
        }
        if own.longest > 0 {
            let longest = plies(own.longest);
            said.push(format!(
                "The longest stretch before a move of yours without a slip or a look: {longest}."
            ));
        }
        said
    }
}

/// How a game is named that was kept.
pub(crate) const EVENT: &str = "Game without a board";

/// Names the opponent.
pub(crate) fn opponent_name(settings: &PlaySettings, rating: Option<u32>) -> String {
    let name = settings.engine.as_deref().unwrap_or("sansvoir");
    match rating {
        Some(rating) => format!("{name} {rating}"),
        None => name.to_owned(),
    }
}

/// Says beside a move of a game that was kept what came before it: slips, looks, and how long it took, by the
/// standard's supplement.
pub(crate) fn comment(turns: &[&TurnSummary]) -> Option<String> {
    let mut said: Vec<String> = Vec::new();
    let slips = turns.iter().filter_map(|turn| turn.slip.as_deref());
    let slips: Vec<String> = slips.map(clean_line).collect();
    if !slips.is_empty() {
        said.push(format!(
            "Slips: {}.",
            slips.join(", ").replace(['{', '}'], "")
        ));
    }
    let looks: u32 = turns.iter().map(|turn| turn.looks).sum();
    if looks > 0 {
        said.push(format!("{}.", count(looks, "look", "looks")));
    }
    let millis: Option<u64> = turns.iter().map(|turn| turn.millis).sum();
    let seconds = millis.filter(|_| !turns.is_empty())? / 1_000;
    let (hours, minutes, seconds) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
    said.push(format!("[%emt {hours}:{minutes:02}:{seconds:02}]"));
    Some(said.join(" "))
}

/// Heads what is told of one of several boards.
fn on_board((number, of): (usize, usize), said: &str) -> String {
    if of == 1 {
        return capital(said);
    }
    format!("Board {number}. {}", capital(said))
}

/// Says who plays, and how strong.
fn opponent(settings: &PlaySettings) -> Vec<String> {
    let rating = settings.rating.map(Rating::get);
    let mut said = vec![match (&settings.engine, rating) {
        (Some(engine), Some(rating)) => {
            format!("Your opponent is the engine {engine}, asked to play at {rating}.")
        }
        (Some(engine), None) => {
            format!("Your opponent is the engine {engine}, at its full strength.")
        }
        (None, Some(rating)) => format!(
            "Your opponent plays at about {rating}, on an engine's scale; it is no person's rating."
        ),
        (None, None) => "Your opponent plays as well as it can.".to_owned(),
    }];
    if settings.follows {
        let follows = "That follows your results: a step up after a win, a step down after a loss.";
        said.push(follows.to_owned());
    }
    said
}

/// Says where a game begins, unless it is where all games do.
fn beginning(voice: Voice, start: &Start, read: usize) -> Vec<String> {
    let mut said = Vec::new();
    if !start.is_usual() {
        let position = start.position();
        said.push(format!(
            "It begins here, {} to move:",
            side(position.turn())
        ));
        said.extend(pieces_listed(position.board(), voice.list));
        said.extend(beside_the_pieces(start));
    }
    if read > 0 {
        said.push(format!("First {} are read; Enter reads on.", plies(read)));
    }
    said
}

/// Says what is seen of the board.
fn seen(board: BoardShown) -> Option<String> {
    match board {
        BoardShown::Always => Some("The board is shown after every move.".to_owned()),
        BoardShown::After(every) => {
            let moves = count(every.get(), "move", "moves");
            Some(format!("The board is shown after every {moves} of yours."))
        }
        BoardShown::Empty | BoardShown::Never => None,
    }
}

/// Says how a game ended, to the learner.
fn ended(end: GameEnd, turn: Color, learner: Color) -> String {
    let how = how_it_ended(end, learner);
    let result = match end.result(turn) {
        GameResult::Draw | GameResult::Unknown => "The game is drawn.",
        GameResult::WhiteWins if learner.is_white() => "You win.",
        GameResult::BlackWins if learner.is_black() => "You win.",
        GameResult::WhiteWins | GameResult::BlackWins => "You lose.",
    };
    format!("{how}: {}", result.to_lowercase())
}

fn how_it_ended(end: GameEnd, learner: Color) -> &'static str {
    match end {
        GameEnd::Checkmate => "checkmate",
        GameEnd::Stalemate => "stalemate",
        GameEnd::DeadPosition => "neither side has enough to mate",
        GameEnd::Fivefold => "the position stands for the fifth time",
        GameEnd::SeventyFiveMoves => "seventy-five moves without a capture or a pawn's move",
        GameEnd::Threefold => "the position stands for the third time",
        GameEnd::FiftyMoves => "fifty moves without a capture or a pawn's move",
        GameEnd::Agreed => "your opponent agrees to a draw",
        GameEnd::Resigned(side) if side == learner => "you resign",
        GameEnd::Resigned(_) => "your opponent resigns",
    }
}

/// Says what a move cost, and what would have been better.
fn cost(voice: Voice, costly: &Costly) -> Vec<String> {
    let pawns = (costly.cost + 50) / 100;
    let about = match costly.cost {
        _ if costly.answer.san.suffix == Some(Suffix::Checkmate) => "It allowed mate".to_owned(),
        900.. => "It cost the game".to_owned(),
        _ => format!("It cost about {}", count(pawns, "pawn", "pawns")),
    };
    let (answer, better) = (voice.announce.named(&costly.answer), &costly.better);
    vec![
        format!("{about}; the best answer was {answer}."),
        format!("Better was {}.", voice.announce.named(better)),
    ]
}

/// Says how a game went.
fn went(voice: Voice, board: (usize, usize), game: &GameSummary) -> Vec<String> {
    let played = game.line.len() - game.begins;
    let slips = match game.slips() {
        0 => "no slip".to_owned(),
        slips => count(slips, "slip", "slips"),
    };
    let mut said = vec![on_board(
        board,
        &format!("{} played, {slips}.", plies(played)),
    )];
    let moves = |is_told: fn(&TurnSummary) -> bool| {
        let told = game.turns.iter().filter(|turn| is_told(turn));
        let mut numbers: Vec<u32> = told.map(|turn| turn.number.number.get()).collect();
        numbers.dedup();
        (!numbers.is_empty()).then(|| list(numbers))
    };
    let (slips, looks) = (
        moves(|turn| turn.slip.is_some()),
        moves(|turn| turn.looks > 0),
    );
    said.extend(slips.map(|moves| format!("Where you slipped: move {moves}.")));
    said.extend(looks.map(|moves| format!("Where you looked: move {moves}.")));
    if game.taken_back > 0 {
        let times = count(game.taken_back, "time", "times");
        said.push(format!("Taken back: {times}."));
    }
    said.extend(
        game.first_break()
            .map(|number| format!("The picture failed first at {}.", move_of(number))),
    );
    if let Some(end) = game.end {
        // Where all is plain, it was told last of all.
        if !voice.plain {
            let turn = game.line.end().turn();
            said.push(on_board(board, &ended(end, turn, game.learner)));
        }
        said.push("The final board:".to_owned());
        said.extend(voice.board(game.line.end().board()));
    }
    said
}
