//! The steps of the course.

use shakmaty::Color;
use strum::{EnumCount, IntoStaticStr, VariantArray};

use crate::learner::AnswerRecord;
use crate::question::Kind;

/// One step of the course, from the names of squares to a whole game kept in mind.
/// As text it has a name in small letters and hyphens.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, EnumCount, IntoStaticStr, VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Step {
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
    /// A few pieces, and some plies played on.
    FewPieces,
    /// Lines of two plies.
    TwoPlies,
    /// Lines of four plies.
    FourPlies,
    /// Lines of six plies.
    SixPlies,
    /// Whole games with checkpoints.
    Games,
    /// The moves of a game, said from memory.
    Recital,
    /// A game's position rebuilt, piece for piece.
    Rebuilding,
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

impl Step {
    /// All steps, in the order of the climb.
    pub const ALL: [Step; Step::COUNT] = *Step::VARIANTS.as_array().unwrap();

    /// Returns the step that an answer counts for; `None` where it counts for none.
    ///
    /// `exercise` is the command's name. `view` is the side from which a square was seen, and matters
    /// for `name` and `place` alone. `plies` tells how many plies were heard since the board was last
    /// seen, and matters for `ahead`: a line of another length than the course's counts for no step,
    /// since `ahead` left to itself goes deeper until one in four is missed.
    #[must_use]
    pub fn of(exercise: &str, kind: Kind, view: Option<Color>, plies: Option<u32>) -> Option<Step> {
        if Kind::LINE.contains(&kind) {
            return match (exercise, plies) {
                ("drill", _) => Some(Step::FewPieces),
                ("ahead", Some(2)) => Some(Step::TwoPlies),
                ("ahead", Some(4)) => Some(Step::FourPlies),
                ("ahead", Some(6)) => Some(Step::SixPlies),
                ("replay", _) if kind == Kind::Rebuild => Some(Step::Rebuilding),
                ("replay", _) => Some(Step::Games),
                ("recite", _) => Some(Step::Recital),
                _ => None,
            };
        }
        Step::ALL.into_iter().find(|step| {
            step.kinds().contains(&kind) && step.view().is_none_or(|of| Some(of) == view)
        })
    }

    /// Returns the step that an answer of the journal counts for.
    #[must_use]
    pub fn of_answer(answer: &AnswerRecord) -> Option<Step> {
        let (exercise, kind) = (answer.exercise.as_str(), answer.kind);
        let view = answer.square().and_then(|(_, view)| view);
        let plies = answer.hardness.map(|hardness| hardness.plies);
        Step::of(exercise, kind, view, plies)
    }

    /// Returns the kinds over the bare board that the step is about; none from [`Step::FewPieces`] on.
    #[must_use]
    pub const fn kinds(self) -> &'static [Kind] {
        match self {
            Step::WhiteSquares | Step::BlackSquares => &[Kind::Name, Kind::Place],
            Step::Colors => &[Kind::Color],
            Step::Aligned => &[Kind::Aligned],
            Step::Between => &[Kind::Between],
            Step::Span => &[Kind::Span],
            Step::Crossing => &[Kind::Crossing],
            Step::Distance => &[Kind::Distance],
            Step::Route => &[Kind::Route],
            Step::FewPieces
            | Step::TwoPlies
            | Step::FourPlies
            | Step::SixPlies
            | Step::Games
            | Step::Recital
            | Step::Rebuilding => &[],
        }
    }

    /// Returns the side from which the step's squares are seen, where that matters.
    #[must_use]
    pub const fn view(self) -> Option<Color> {
        match self {
            Step::WhiteSquares => Some(Color::White),
            Step::BlackSquares => Some(Color::Black),
            _ => None,
        }
    }

    /// Returns what passes the step.
    ///
    /// Eighteen of the last twenty right at every step. Over the bare board the time is half the think time
    /// of the kind, as `drill` advises to go faster until then; over lines it is our own first guess, by the
    /// amount that there is to think and to type (no source).
    #[must_use]
    pub fn mark(self) -> PassMark {
        let over_lines = match self {
            Step::Rebuilding => 180_000,
            Step::Recital => 10_000,
            _ => 20_000,
        };
        let bare = self.kinds().first();
        PassMark {
            right: 18,
            of: 20,
            within_millis: bare.map_or(over_lines, |kind| kind.think_millis() / 2),
        }
    }
}
