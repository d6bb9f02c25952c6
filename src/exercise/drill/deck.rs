//! Drawing questions over the bare board.

use shakmaty::{Bitboard, Color as Side, Piece, Role, Square};

use super::settings::{DrillSettings, Views};
use crate::board::{Alignment, BareMan, Pair, Travel};
use crate::exercise::Dice;
use crate::question::bare::{
    Aligned, Between, Color, Crossing, Distance, Name, Place, Route, Span,
};
use crate::question::{BareQuestion, Kind};

/// A question does not come again within so many draws.
const APART: usize = 4;
/// How often a draw is tried again when it does not fit.
const TRIES: usize = 64;

/// Draws the questions of a whole run: those that were chosen first, and then the kinds take turns in
/// random order; about one question in three is one that was weak before, where there is such a one of
/// its kind.
#[must_use]
pub fn deal(settings: &DrillSettings) -> Vec<BareQuestion> {
    let mut dice = Dice::new(settings.seed, 0);
    let mut turns: Vec<Kind> = Vec::new();
    let mut deck: Vec<BareQuestion> = settings.chosen.clone();
    deck.truncate(settings.count);
    while deck.len() < settings.count {
        if turns.is_empty() {
            // Those over a position are passed over, as elsewhere those over the bare board.
            let bare = settings
                .kinds
                .iter()
                .filter(|kind| Kind::BARE.contains(kind));
            turns.extend(bare);
            dice.shuffle(&mut turns);
        }
        let Some(kind) = turns.pop() else { break };
        let lately = deck.len().saturating_sub(APART);
        let mut question = draw(kind, settings, &mut dice);
        for _ in 0..TRIES {
            if !deck[lately..].contains(&question) {
                break;
            }
            question = draw(kind, settings, &mut dice);
        }
        deck.push(question);
    }
    deck
}

fn draw(kind: Kind, settings: &DrillSettings, dice: &mut Dice) -> BareQuestion {
    if dice.chance(1, 3) {
        let weak: Vec<&BareQuestion> = settings
            .weak
            .iter()
            .filter(|question| question.kind() == kind)
            .collect();
        if let Some(question) = dice.pick(&weak) {
            return **question;
        }
    }
    fresh(kind, settings, dice)
}

fn fresh(kind: Kind, settings: &DrillSettings, dice: &mut Dice) -> BareQuestion {
    match kind {
        Kind::Name => BareQuestion::Name(Name {
            square: square(dice),
            view: view(settings.view, dice),
        }),
        Kind::Place => BareQuestion::Place(Place {
            square: square(dice),
            view: view(settings.view, dice),
        }),
        Kind::Color => BareQuestion::Color(Color {
            square: square(dice),
        }),
        Kind::Aligned => BareQuestion::Aligned(Aligned {
            squares: aligned_pair(dice),
        }),
        Kind::Between => BareQuestion::Between(between(dice)),
        Kind::Span => BareQuestion::Span(Span {
            man: man(&attacking(settings), dice),
        }),
        Kind::Crossing => BareQuestion::Crossing(crossing(&attacking(settings), dice)),
        Kind::Distance => BareQuestion::Distance(Distance {
            travel: travel(settings, dice),
        }),
        Kind::Route => BareQuestion::Route(Route {
            travel: travel(settings, dice),
        }),
        Kind::Whereabouts
        | Kind::Occupant
        | Kind::Standing
        | Kind::Attacks
        | Kind::Attackers
        | Kind::Moves
        | Kind::Legality
        | Kind::Check
        | Kind::Checks
        | Kind::Captures
        | Kind::Hanging
        | Kind::Mate
        | Kind::Exchange
        | Kind::Balance
        | Kind::Rights
        | Kind::Taken
        | Kind::Played
        | Kind::Rebuild => unreachable!("a drill of the bare board has kinds of the bare board"),
    }
}

fn square(dice: &mut Dice) -> Square {
    Square::ALL[dice.below(64)]
}

fn view(views: Views, dice: &mut Dice) -> Side {
    match views {
        Views::White => Side::White,
        Views::Black => Side::Black,
        Views::Both => Side::ALL[dice.below(2)],
    }
}

fn pair(dice: &mut Dice) -> Pair {
    loop {
        if let Some(pair) = Pair::new(square(dice), square(dice)) {
            return pair;
        }
    }
}

/// Two squares: each kind of line, and none, about as often as the other.
fn aligned_pair(dice: &mut Dice) -> Pair {
    let wanted = [
        Alignment::File,
        Alignment::Rank,
        Alignment::Diagonal,
        Alignment::None,
    ][dice.below(4)];
    loop {
        let pair = pair(dice);
        if pair.alignment() == wanted {
            return pair;
        }
    }
}

/// Two squares with some square between them, mostly.
fn between(dice: &mut Dice) -> Between {
    let want_some = dice.chance(9, 10);
    loop {
        let pair = pair(dice);
        if let Ok(question) = Between::new(pair)
            && (!want_some || pair.between().next().is_some())
        {
            return question;
        }
    }
}

/// The men that attack: those wished for, or all.
fn attacking(settings: &DrillSettings) -> Vec<Piece> {
    pieces(settings, |_| true)
}

/// The men that travel: those wished for that can, or knight, bishop, rook, queen and king.
fn travelling(settings: &DrillSettings) -> Vec<Piece> {
    pieces(settings, |piece| piece.role != Role::Pawn)
}

fn pieces(settings: &DrillSettings, fits: impl Fn(&Piece) -> bool) -> Vec<Piece> {
    let of = |letters: &[char]| -> Vec<Piece> {
        let all = letters
            .iter()
            .filter_map(|letter| Piece::from_char(*letter));
        all.filter(|piece| fits(piece)).collect()
    };
    let wished = of(&settings.men);
    if wished.is_empty() {
        of(&['N', 'B', 'R', 'Q', 'K', 'P', 'p'])
    } else {
        wished
    }
}

fn man(pieces: &[Piece], dice: &mut Dice) -> BareMan {
    loop {
        let piece = pieces[dice.below(pieces.len())];
        if let Some(man) = BareMan::new(piece, square(dice)) {
            return man;
        }
    }
}

/// Two men whose lines cross, five times in six.
fn crossing(pieces: &[Piece], dice: &mut Dice) -> Crossing {
    let want_some = dice.chance(5, 6);
    let mut tries = 0;
    loop {
        tries += 1;
        let men = [man(pieces, dice), man(pieces, dice)];
        let Ok(question) = Crossing::new(men) else {
            continue;
        };
        let both = men[0].square().into();
        let occupied: Bitboard = Bitboard::with(both, men[1].square());
        let crosses = (men[0].attacks(occupied) & men[1].attacks(occupied)).any();
        if crosses || !want_some || tries > TRIES {
            return question;
        }
    }
}

/// A man, a square to go to, and blockers that stand where they matter: near the way.
fn travel(settings: &DrillSettings, dice: &mut Dice) -> Travel {
    let pieces = travelling(settings);
    loop {
        let man = man(&pieces, dice);
        let to = square(dice);
        let Ok(open) = Travel::new(man, to, Bitboard::EMPTY) else {
            continue;
        };
        // A bishop never gets to a square of the other color; that is asked now and then.
        if open.fewest().is_none() && !dice.chance(1, 4) {
            continue;
        }
        if settings.blockers == 0 {
            // Two moves or more, mostly: one move is no journey.
            if open.fewest() != Some(1) || dice.chance(1, 8) {
                return open;
            }
            continue;
        }
        if let Ok(travel) = Travel::new(man, to, blockers(open, settings.blockers, dice)) {
            return travel;
        }
    }
}

/// Puts half of the blockers on a shortest route or beside the man, and the rest anywhere.
fn blockers(open: Travel, count: usize, dice: &mut Dice) -> Bitboard {
    let free = !(Bitboard::from(open.man().square()).with(open.to()));
    let near: Vec<Square> = open
        .route()
        .into_iter()
        .chain(open.steps(open.man().square()))
        .filter(|square| free.contains(*square))
        .collect();
    let mut set = Bitboard::EMPTY;
    while set.count() < count.min(32) {
        let chosen = if dice.chance(1, 2) {
            dice.pick(&near).copied()
        } else {
            Some(square(dice))
        };
        let square = chosen.unwrap_or_else(|| square(dice));
        if free.contains(square) {
            set.add(square);
        }
    }
    set
}
