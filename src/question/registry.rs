//! The registry of kinds: one row a kind, from which all that goes over the kinds is made. A kind is
//! written in a file of its own ([`LineKind`], [`BareKind`]); its words are in `voice`.

use serde::{Deserialize, Serialize};
use shakmaty::{Color as Side, Square};
use strum::{Display, EnumCount, EnumString, IntoStaticStr, VariantArray};

use super::choice::{BareChoice, Choice};
use super::kind::{BareKind, Disclosure, LineKind};
use super::{BareWhy, Form, Mark, Reply, Scene, Truth, bare, line};
use crate::game::TrackedPiece;
use crate::reply::Unread;

/// Makes the enums over the kinds of one module and hands on what such a kind knows. `$d` is a `$` for the
/// macro that is made here.
macro_rules! questions {
    (
        $d:tt $each:ident $module:ident $over:literal
        $Question:ident $Choice:ident
        $($(#[$doc:meta])+ $Kind:ident,)+
    ) => {
        #[doc = concat!("A question ", $over, "; in JSON, its `kind` and its `subject`.")]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(tag = "kind", content = "subject", rename_all = "lowercase")]
        pub enum $Question {
            $($(#[$doc])+ $Kind($module::$Kind),)+
        }

        impl $Question {
            /// Returns the kind.
            pub const fn kind(&self) -> Kind {
                match self {
                    $($Question::$Kind(_) => Kind::$Kind,)+
                }
            }

            /// Returns the form that a reply must have.
            pub const fn form(&self) -> Form {
                self.kind().form()
            }

            /// Draws a question of a kind; `None` where there is nothing to ask, as can be over a line, and
            /// for a kind of the other module.
            pub(crate) fn draw(kind: Kind, choice: &mut $Choice<'_>) -> Option<$Question> {
                match kind {
                    $(Kind::$Kind => {
                        Option::from($module::$Kind::draw(choice)).map($Question::$Kind)
                    })+
                    _ => None,
                }
            }
        }

        /// Runs `body` with what a question or a why of this module holds, of whatever kind; `K` names the
        /// kind's type. With `=>` between two of the enums, what comes of it becomes the same kind of the
        /// other.
        macro_rules! $each {
            ($d Enum:ident, $d value:expr, $d (<$d K:ident>)? $d held:ident => $d body:expr) => {
                match $d value {
                    $(crate::question::$d Enum::$Kind($d held) => {
                        $d (type $d K = crate::question::$module::$Kind;)?
                        $d body
                    })+
                }
            };
            ($d Enum:ident => $d Other:ident, $d value:expr, $d held:ident => $d body:expr) => {
                match $d value {
                    $($d Enum::$Kind($d held) => $d Other::$Kind($d body),)+
                }
            };
        }
        pub(crate) use $each;
    };
}

/// Makes all that goes over the kinds.
macro_rules! registry {
    (
        $d:tt
        bare { $($(#[$bare_doc:meta])+ $Bare:ident: $BareForm:ident $millis:literal,)+ }
        line { $($(#[$line_doc:meta])+ $Line:ident: $LineForm:ident $guess:literal,)+ }
    ) => {
        /// What a question is about; its name is what the learner types and what the journal keeps.
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize,
            Display, EnumCount, EnumString, IntoStaticStr, VariantArray,
        )]
        #[serde(rename_all = "lowercase")]
        #[strum(serialize_all = "lowercase")]
        pub enum Kind {
            $($(#[$bare_doc])+ $Bare,)+
            $($(#[$line_doc])+ $Line,)+
        }

        impl Kind {
            /// The kinds over the bare board, in the order of the climb.
            pub const BARE: [Kind; [$(Kind::$Bare),+].len()] = [$(Kind::$Bare),+];

            /// The kinds over a position reached by a line, in the order of the climb.
            /// A move of one's own, the last, is none of them: an opponent brings it about.
            pub const LINE: [Kind; Kind::COUNT - Kind::BARE.len() - 1] =
                *[$(Kind::$Line),+].first_chunk().unwrap();

            /// Every kind, in the order of the climb: the bare board first.
            pub const ALL: [Kind; Kind::COUNT] = *Kind::VARIANTS.as_array().unwrap();

            /// Returns the kind's name.
            pub fn name(self) -> &'static str {
                self.into()
            }

            /// Returns the form that a reply must have.
            pub const fn form(self) -> Form {
                match self {
                    $(Kind::$Bare => Form::$BareForm,)+
                    $(Kind::$Line => Form::$LineForm,)+
                }
            }

            /// Returns the share that the commonest answer has of the questions of this kind over a line: so often a
            /// learner is right who always says the same.
            ///
            /// Measured over rounds of two to eight plies from the demo games, by `cargo bench --bench questions`.
            pub const fn guess(self) -> f64 {
                match self {
                    $(Kind::$Line => $guess,)+
                    $(Kind::$Bare)|+ => 0.0,
                }
            }

            /// Returns the think time in milliseconds, where none is wished for.
            ///
            /// Five seconds for the color of a square are common practice, no source; the other times are
            /// our own first guesses, by the amount that there is to say.
            pub const fn think_millis(self) -> u64 {
                match self {
                    $(Kind::$Bare => $millis,)+
                    $(Kind::$Line)|+ => 60_000,
                }
            }
        }

        questions! {
            $d each_bare bare "over the bare board"
            BareQuestion BareChoice
            $($(#[$bare_doc])+ $Bare,)+
        }

        questions! {
            $d each_line line "over a position reached by a line"
            LineQuestion Choice
            $($(#[$line_doc])+ $Line,)+
        }

        /// Why the truth is what it is, held against what the learner said; `voice` puts it into words.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub enum LineWhy {
            $($(#[$line_doc])+ $Line(<line::$Line as LineKind>::Why),)+
        }
    };
}

registry! {
    $
    // Each with the form of its replies and its think time in milliseconds.
    bare {
        /// The name of a marked square.
        Name: Square 5_000,
        /// Where a named square lies.
        Place: Place 5_000,
        /// Whether a square is light or dark.
        Color: Color 5_000,
        /// Which line two squares share.
        Aligned: Line 8_000,
        /// The squares between two aligned squares.
        Between: Squares 15_000,
        /// The squares that a piece attacks on the empty board.
        Span: Squares 20_000,
        /// The squares that two pieces both attack.
        Crossing: Squares 30_000,
        /// The fewest moves that a piece needs to a square.
        Distance: Distance 20_000,
        /// A shortest route of a piece to a square.
        Route: Route 30_000,
    }
    // Each with the form of its replies and the share of its commonest answer.
    line {
        /// Where the piece that stood on a square at the start of the line stands now.
        Whereabouts: SquareOrGone 0.26,
        /// What stands on a square.
        Occupant: Piece 0.23,
        /// The squares of all of a side's pieces of one role.
        Standing: Squares 0.02,
        /// The squares that the piece on a square attacks.
        Attacks: Squares 0.02,
        /// A side's pieces that attack or guard a square.
        Attackers: Squares 0.07,
        /// The squares to which the piece on a square can legally go.
        Moves: Squares 0.06,
        /// Whether a fully named move is legal.
        Legality: Legal 0.5,
        /// Whether the side to move is in check, and from where.
        Check: Squares 0.5,
        /// Every legal move that gives check.
        Checks: Moves 0.14,
        /// Every legal capture.
        Captures: Moves 0.09,
        /// A side's pieces that are attacked and not guarded.
        Hanging: Squares 0.14,
        /// A move that mates at once, or that there is none.
        Mate: MoveOrNone 0.15,
        /// What taking on a square wins.
        Exchange: Points 0.26,
        /// The balance of material.
        Balance: Points 0.19,
        /// The wings on which a side may still castle some day.
        Rights: Wings 0.36,
        /// A side's pieces that have left the board.
        Taken: Taken 0.35,
        /// The move played at a given move number.
        Played: Move 0.02,
        /// Every piece's square.
        Rebuild: Placement 0.01,
        /// A move of one's own in a game against an opponent.
        Turn: Move 0.0,
    }
}

impl BareQuestion {
    /// Computes the right answer.
    pub fn truth(&self) -> Truth {
        each_bare!(BareQuestion, self, asked => asked.truth())
    }

    /// Grades a reply; any legal shortest route is right.
    pub fn mark(&self, reply: &Reply) -> Mark {
        each_bare!(BareQuestion, self, asked => asked.mark(reply))
    }

    /// Brings together what explains the right answer to a learner who gave `reply`, or nothing when it was given up.
    pub fn why(&self, mark: &Mark, reply: Option<&Reply>) -> BareWhy {
        BareWhy {
            question: *self,
            tally: mark.tally,
            reply: reply.cloned(),
        }
    }

    /// Returns the squares that the question is about.
    pub fn subject_squares(&self) -> Vec<Square> {
        each_bare!(BareQuestion, self, asked => asked.subject_squares())
    }

    /// Returns the side from which the board is seen, where that matters.
    pub fn view(&self) -> Option<Side> {
        each_bare!(BareQuestion, self, asked => asked.view())
    }
}

impl LineQuestion {
    /// Computes the right answer from the scene.
    pub fn truth(&self, scene: Scene<'_>) -> Truth {
        each_line!(LineQuestion, self, asked => asked.truth(scene))
    }

    /// Tells whether it can be asked there: elsewhere it has no truth.
    pub fn fits(&self, scene: Scene<'_>) -> bool {
        each_line!(LineQuestion, self, asked => asked.fits(scene))
    }

    /// Explains the right answer to a learner who gave `reply`, or nothing when it was given up.
    pub fn why(&self, scene: Scene<'_>, mark: &Mark, reply: Option<&Reply>) -> LineWhy {
        each_line!(LineQuestion => LineWhy, self, asked => asked.why(scene, &mark.tally, reply))
    }

    /// Reads a reply generously; moves are read in the position in which they would be played.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in the question's form.
    pub fn read(&self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        each_line!(LineQuestion, self, asked => asked.read(self.form(), scene, text))
    }

    /// Tells whether its answer is another one in most places, so that it can be asked anywhere.
    pub(crate) fn is_varied(self) -> bool {
        each_line!(LineQuestion, self, <K> _asked => K::VARIED)
    }

    /// Returns the one piece that the question is about.
    pub(crate) fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        each_line!(LineQuestion, self, asked => asked.piece(scene))
    }

    /// Tells what the question with its answer makes known, and what it wants to hear.
    pub(crate) fn disclosure(self, scene: Scene<'_>) -> Disclosure {
        each_line!(LineQuestion, self, <K> asked => {
            let truth = asked.truth(scene);
            let shares = [K::MOVES, K::MATERIAL, K::GAME];
            let mut disclosure = Disclosure::new(&truth, K::TELLS_CHECK, shares);
            asked.disclose(&mut disclosure, &truth, scene);
            disclosure
        })
    }
}
