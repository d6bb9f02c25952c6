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

impl CourseStep {
    /// All steps, in the order of the climb.
    pub const ALL: [CourseStep; CourseStep::COUNT] = *CourseStep::VARIANTS.as_array().unwrap();

    /// Returns the step that an answer counts for; `None` where it counts for none.
    ///
    /// `exercise` is the command's name. `view` is the side from which a square was seen, and matters
    /// for `name` and `place` alone. `plies` tells how many plies were heard since the board was last
    /// seen, and matters for `ahead`: a line of another length than the course's counts for no step,
    /// since `ahead` left to itself goes deeper until one in four is missed.
    pub fn of(
        exercise: &str,
        kind: Kind,
        view: Option<Color>,
        plies: Option<u32>,
    ) -> Option<CourseStep> {
        if Kind::LINE.contains(&kind) {
            return match (exercise, plies) {
                ("drill", _) => Some(CourseStep::FewPieces),
                ("ahead", Some(2)) => Some(CourseStep::TwoPlies),
                ("ahead", Some(4)) => Some(CourseStep::FourPlies),
                ("ahead", Some(6)) => Some(CourseStep::SixPlies),
                ("replay", _) if kind == Kind::Rebuild => Some(CourseStep::Rebuilding),
                ("replay", _) => Some(CourseStep::Games),
                ("recite", _) => Some(CourseStep::Recital),
                _ => None,
            };
        }
        CourseStep::ALL.into_iter().find(|step| {
            step.kinds().contains(&kind) && step.view().is_none_or(|of| Some(of) == view)
        })
    }

    /// Returns the step that an answer of the journal counts for.
    pub fn of_answer(answer: &AnswerRecord) -> Option<CourseStep> {
        let (exercise, kind) = (answer.exercise.as_str(), answer.kind);
        let view = answer.square().and_then(|(_, view)| view);
        let plies = answer.hardness.map(|hardness| hardness.plies);
        CourseStep::of(exercise, kind, view, plies)
    }

    /// Returns the kinds over the bare board that the step is about; none from [`CourseStep::FewPieces`] on.
    pub const fn kinds(self) -> &'static [Kind] {
        match self {
            CourseStep::WhiteSquares | CourseStep::BlackSquares => &[Kind::Name, Kind::Place],
            CourseStep::Colors => &[Kind::Color],
            CourseStep::Aligned => &[Kind::Aligned],
            CourseStep::Between => &[Kind::Between],
            CourseStep::Span => &[Kind::Span],
            CourseStep::Crossing => &[Kind::Crossing],
            CourseStep::Distance => &[Kind::Distance],
            CourseStep::Route => &[Kind::Route],
            CourseStep::FewPieces
            | CourseStep::TwoPlies
            | CourseStep::FourPlies
            | CourseStep::SixPlies
            | CourseStep::Games
            | CourseStep::Recital
            | CourseStep::Rebuilding => &[],
        }
    }

    /// Returns the side from which the step's squares are seen, where that matters.
    pub const fn view(self) -> Option<Color> {
        match self {
            CourseStep::WhiteSquares => Some(Color::White),
            CourseStep::BlackSquares => Some(Color::Black),
            _ => None,
        }
    }

    /// Returns what passes the step.
    ///
    /// Eighteen of the last twenty right at every step. Over the bare board the time is half the think time
    /// of the kind, as `drill` advises to go faster until then; over lines it is our own first guess, by the
    /// amount that there is to think and to type (no source).
    pub fn mark(self) -> PassMark {
        let over_lines = match self {
            CourseStep::Rebuilding => 180_000,
            CourseStep::Recital => 10_000,
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
