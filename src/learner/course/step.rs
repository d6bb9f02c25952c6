//! The steps of the course: a table with a row for each.

use shakmaty::Color;
use strum::{EnumCount, EnumString, IntoStaticStr, VariantArray};

use crate::exercise::TAUGHT_AT_ONCE;
use crate::learner::AnswerRecord;
use crate::question::Kind;
use CourseStep as Step;

/// One step of the course, from the names of squares to a whole game kept in mind.
/// As text it has a name in small letters and hyphens.
#[derive(
    Clone,
    Copy,
    Debug,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    EnumCount,
    EnumString,
    IntoStaticStr,
    VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum CourseStep {
    /// The names and places of squares, seen from White's side.
    WhiteSquares,
    /// The same from Black's side.
    BlackSquares,
    /// The colors of squares.
    Colors,
    /// The line that two squares share.
    Aligned,
    /// The squares between two squares of a line.
    Between,
    /// The squares that a piece attacks on the empty board.
    Span,
    /// The squares where two pieces's lines cross.
    Crossing,
    /// How many moves a piece needs to a square.
    Distance,
    /// A shortest way there.
    Route,
    /// Three pieces, and some plies played on.
    ThreePieces,
    /// Up to five.
    FivePieces,
    /// Up to eight.
    EightPieces,
    /// Up to sixteen, as they stand late in a game.
    SixteenPieces,
    /// More than these.
    AllPieces,
    /// Lines of two plies.
    TwoPlies,
    /// Lines of four plies.
    FourPlies,
    /// Lines of six plies.
    SixPlies,
    /// Lines of eight plies.
    EightPlies,
    /// Whole games with a checkpoint every four plies.
    GamesByFour,
    /// Every eight plies.
    GamesByEight,
    /// Every sixteen plies.
    GamesBySixteen,
    /// At the end only.
    GamesToTheEnd,
    /// The first moves of a game, learned by heart.
    Chunks,
    /// All moves of a game, said from memory.
    Recital,
    /// A game's position rebuilt, piece for piece.
    Rebuilding,
    /// A game of one's own with few pieces, the board in sight.
    FewInSight,
    /// The same unseen.
    FewUnseen,
    /// A whole game of one's own, the board shown now and then.
    GamesAtAGlance,
    /// A whole game of one's own, unseen.
    UnseenGames,
}

/// What passes a step: accuracy first, then pace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PassMark {
    /// At least so many right ones.
    pub right: usize,
    /// Among so many of the latest answers.
    pub of: usize,
    /// Half of those right ones within so many milliseconds; an answer whose time is not known is not.
    pub within_millis: u64,
}

/// What a step practices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Practice {
    /// Kinds over the bare board, seen from a side where that matters.
    Bare(&'static [Kind], Option<Color>),
    /// So many pieces read out, so many plies played on, and questions of these kinds.
    Few(usize, usize, &'static [Kind]),
    /// So many plies read from a position shown, and questions of these kinds.
    Ahead(usize, &'static [Kind]),
    /// A game with a checkpoint after so many plies at most, or at its end alone, of these kinds.
    Game(Option<usize>, &'static [Kind]),
    /// The first plies of a game learned by heart, or all of a game said from memory.
    Recite(Option<Chunked>),
    /// A game against an opponent: with so many pieces a side, or all, and what is seen of the board, as the option
    /// has it.
    Play(Option<usize>, &'static str),
}

/// How the first plies of a game are learned by heart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chunked {
    /// How many plies.
    pub plies: usize,
    /// How many of them at a time are heard and said, before all so far are said.
    pub chunk: usize,
}

/// A game that begins with so many pieces at most begins with few.
const MOST_OF_FEW: u32 = 22;
/// Where the board is shown after every fifth move, it was seen no more than so many plies ago.
const GLANCE: u32 = 10;
/// What of a game counts as its first moves. Learned so, 52 moves are said, of which the last 16 count.
const BEGINNING: Chunked = Chunked {
    plies: 16,
    chunk: 4,
};
/// Right, of so many: our own choice (no source).
const USUAL: (usize, usize) = (18, 20);
/// Where there are two answers, who guesses has 18 of 20 right in one window of 5,000, and there are many
/// windows; 28 of 30 in one of 2,300,000 (a binomial count).
const OF_TWO: (usize, usize) = (28, 30);
/// A whole board asked once takes as long as many questions.
const OF_WHOLE_BOARDS: (usize, usize) = (4, 5);

impl CourseStep {
    /// All steps, in the order of the climb.
    pub const ALL: [CourseStep; CourseStep::COUNT] = *CourseStep::VARIANTS.as_array().unwrap();

    /// The steps that placement asks, from the easiest on: kinds that no guess answers, and not every step.
    pub const PLACED: [CourseStep; 8] = [
        Step::BlackSquares,
        Step::Span,
        Step::Route,
        Step::FivePieces,
        Step::TwoPlies,
        Step::FourPlies,
        Step::SixPlies,
        Step::EightPlies,
    ];

    /// The row of a step: what it practices, the nearest easier steps without which it cannot be done, and how many right
    /// ones of so many latest answers pass it.
    #[rustfmt::skip]
    const fn row(self) -> (Practice, &'static [CourseStep], (usize, usize)) {
        use Kind::{Aligned, Attackers, Attacks, Balance, Between, Captures, Check, Checks, Color as Shade, Crossing,
            Distance, Exchange, Hanging, Legality, Mate, Moves, Name, Occupant, Place, Rebuild, Rights,
            Route, Span, Standing, Taken, Whereabouts};
        use Practice::{Ahead, Bare, Few, Game, Play, Recite};
        match self {
            Step::WhiteSquares => (Bare(&[Name, Place], Some(Color::White)), &[], USUAL),
            Step::BlackSquares => (Bare(&[Name, Place], Some(Color::Black)), &[], USUAL),
            Step::Colors => (Bare(&[Shade], None), &[Step::WhiteSquares], OF_TWO),
            Step::Aligned => (Bare(&[Aligned], None), &[Step::WhiteSquares], USUAL),
            Step::Between => (Bare(&[Between], None), &[Step::Aligned], USUAL),
            Step::Span => (Bare(&[Span], None), &[Step::Between], USUAL),
            Step::Crossing => (Bare(&[Crossing], None), &[Step::Span], USUAL),
            Step::Distance => (Bare(&[Distance], None), &[Step::Span], USUAL),
            Step::Route => (Bare(&[Route], None), &[Step::Distance], USUAL),
            Step::ThreePieces => (Few(3, 2, &[Whereabouts, Occupant, Attacks, Check]), &[Step::Span], USUAL),
            Step::FivePieces => (Few(5, 4, &[Whereabouts, Occupant, Attacks, Moves]), &[Step::ThreePieces], USUAL),
            Step::EightPieces => (Few(8, 4, &[Whereabouts, Attackers, Moves, Legality]), &[Step::FivePieces], USUAL),
            Step::SixteenPieces =>
                (Few(16, 4, &[Whereabouts, Standing, Attackers, Legality]), &[Step::EightPieces], USUAL),
            Step::AllPieces =>
                (Few(32, 2, &[Whereabouts, Occupant, Attacks, Captures]), &[Step::SixteenPieces], USUAL),
            Step::TwoPlies => (Ahead(2, &[Whereabouts, Attacks, Legality]), &[Step::FivePieces], USUAL),
            Step::FourPlies => (Ahead(4, &[Whereabouts, Attacks, Legality, Captures]), &[Step::TwoPlies], USUAL),
            Step::SixPlies => (Ahead(6, &[Whereabouts, Moves, Checks, Hanging]), &[Step::FourPlies], USUAL),
            Step::EightPlies => (Ahead(8, &[Whereabouts, Attackers, Exchange, Mate]), &[Step::SixPlies], USUAL),
            Step::GamesByFour => (Game(Some(4), &[Whereabouts, Occupant, Attacks]), &[Step::FourPlies], USUAL),
            Step::GamesByEight => (Game(Some(8), &[Whereabouts, Attacks, Legality]), &[Step::GamesByFour], USUAL),
            Step::GamesBySixteen =>
                (Game(Some(16), &[Whereabouts, Standing, Rights, Taken]), &[Step::GamesByEight], USUAL),
            Step::GamesToTheEnd =>
                (Game(None, &[Whereabouts, Standing, Balance, Taken]), &[Step::GamesBySixteen], USUAL),
            Step::Chunks => (Recite(Some(BEGINNING)), &[Step::GamesByFour], USUAL),
            Step::Recital => (Recite(None), &[Step::Chunks], USUAL),
            Step::Rebuilding => (Game(Some(24), &[Rebuild]), &[Step::GamesByEight], OF_WHOLE_BOARDS),
            Step::FewInSight => (Play(Some(4), "always"), &[Step::FivePieces], USUAL),
            Step::FewUnseen => (Play(Some(4), "never"), &[Step::FewInSight], USUAL),
            Step::GamesAtAGlance => (Play(None, "5"), &[Step::FewUnseen, Step::GamesByEight], USUAL),
            Step::UnseenGames => (Play(None, "never"), &[Step::GamesAtAGlance], USUAL),
        }
    }

    /// Returns what the step practices.
    pub const fn practice(self) -> Practice {
        self.row().0
    }

    /// Returns the easier steps without which this one cannot be done, those that they need left out.
    pub const fn needs(self) -> &'static [CourseStep] {
        self.row().1
    }

    /// Returns the step that an answer counts for; `None` where it counts for none.
    ///
    /// Over the bare board it is that of the kind, and of the side from which a square was seen. In `drill`
    /// it depends on how many pieces there were when the line began; in `play` too, and on the plies since the board was
    /// last seen; in `ahead` on the plies since the
    /// board was last seen, of which other numbers than the course's count for no step, since `ahead`
    /// left to itself goes deeper until one in four is missed; in `replay` on the plies since the checkpoint
    /// before, and in `recite` on the plies said before.
    pub fn of_answer(answer: &AnswerRecord) -> Option<CourseStep> {
        let kind = answer.kind;
        if Kind::BARE.contains(&kind) {
            let view = answer.square().and_then(|(_, view)| view);
            return Step::of_bare(kind, view);
        }
        let hard = answer.hardness?;
        let pieces = hard.pieces + hard.captures;
        match &*answer.exercise {
            "drill" => Some(Step::of_pieces(pieces)),
            "placement" if pieces <= 16 => Some(Step::of_pieces(pieces)),
            "ahead" | "placement" => match hard.plies {
                2 => Some(Step::TwoPlies),
                4 => Some(Step::FourPlies),
                6 => Some(Step::SixPlies),
                8 => Some(Step::EightPlies),
                _ => None,
            },
            "replay" | "recite" if kind == Kind::Rebuild => Some(Step::Rebuilding),
            // Without a word of it, the checkpoints were eight plies apart, which is usual.
            "replay" => match hard.stretch.unwrap_or(8) {
                0..4 => None,
                4..8 => Some(Step::GamesByFour),
                8..16 => Some(Step::GamesByEight),
                16..25 => Some(Step::GamesBySixteen),
                25.. => Some(Step::GamesToTheEnd),
            },
            // Of an unseen game, the first moves tell no more than one in which the board comes now and then.
            "play" if kind == Kind::Turn => Some(match (pieces, hard.plies) {
                (..=MOST_OF_FEW, 0) => Step::FewInSight,
                (..=MOST_OF_FEW, _) => Step::FewUnseen,
                (_, 0) => return None,
                (_, 1..=GLANCE) => Step::GamesAtAGlance,
                _ => Step::UnseenGames,
            }),
            "recite" if hard.plies as usize <= BEGINNING.plies => Some(Step::Chunks),
            "recite" => Some(Step::Recital),
            _ => None,
        }
    }

    /// Returns the step of a kind over the bare board, where a square was seen from this side.
    pub fn of_bare(kind: Kind, view: Option<Color>) -> Option<CourseStep> {
        let is_of = |step: &Step| match step.practice() {
            Practice::Bare(kinds, of) => {
                kinds.contains(&kind) && of.is_none_or(|of| Some(of) == view)
            }
            _ => false,
        };
        Step::ALL.into_iter().find(is_of)
    }

    const fn of_pieces(pieces: u32) -> CourseStep {
        match pieces {
            0..=3 => Step::ThreePieces,
            4..=5 => Step::FivePieces,
            6..=8 => Step::EightPieces,
            9..=16 => Step::SixteenPieces,
            _ => Step::AllPieces,
        }
    }

    /// Returns the kinds over the bare board that the step is about; none from [`CourseStep::ThreePieces`] on.
    pub const fn kinds(self) -> &'static [Kind] {
        match self.practice() {
            Practice::Bare(kinds, _) => kinds,
            _ => &[],
        }
    }

    /// Returns how many questions of the step are found with help before it is asked: a quarter of the board
    /// at a time has [`TAUGHT_AT_ONCE`].
    pub const fn lessons(self) -> usize {
        match self {
            Step::WhiteSquares => 4 * TAUGHT_AT_ONCE,
            Step::BlackSquares => 2 * TAUGHT_AT_ONCE,
            _ => TAUGHT_AT_ONCE,
        }
    }

    /// Tells whether a game is read aloud, or played.
    pub const fn is_game(self) -> bool {
        matches!(self.practice(), Practice::Game(..) | Practice::Play(..))
    }

    /// Returns what passes the step.
    ///
    /// Over the bare board the time is half the think time of the kind, as `drill` advises to go faster until
    /// then; over lines it is our own first guess, by the amount that there is to think and to type (no source).
    pub fn mark(self) -> PassMark {
        let (right, of) = self.row().2;
        let within_millis = match self.practice() {
            Practice::Bare(kinds, _) => kinds[0].think_millis() / 2,
            Practice::Recite(_) => 10_000,
            Practice::Play(..) => 60_000,
            Practice::Game(..) if self == Step::Rebuilding => 180_000,
            Practice::Few(..) | Practice::Ahead(..) | Practice::Game(..) => 20_000,
        };
        PassMark {
            right,
            of,
            within_millis,
        }
    }
}
