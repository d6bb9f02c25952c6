//! The registry of kinds: one row a kind, from which all that goes over the kinds is made. A kind is
//! written in a file of its own ([`LineKind`], [`BareKind`]); its words are in `voice`.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use shakmaty::{Color as Side, Square};

use super::choice::{BareChoice, Choice};
use super::kind::{BareKind, Disclosure, LineKind};
use super::{Form, Mark, Reply, Scene, Truth, bare, line};
use crate::game::TrackedPiece;
use crate::reply::Unread;

/// Makes the enums over the kinds and hands on what a kind knows. `$d` is a `$` for the macros that are
/// made here.
macro_rules! registry {
    (
        $d:tt
        bare { $($(#[$bare_doc:meta])+ $Bare:ident $bare:literal,)+ }
        line { $($(#[$line_doc:meta])+ $Line:ident $line:literal,)+ }
    ) => {
        /// What a question is about; its name is what the learner types and what the journal keeps.
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize,
        )]
        #[serde(rename_all = "lowercase")]
        pub enum Kind {
            $($(#[$bare_doc])+ $Bare,)+
            $($(#[$line_doc])+ $Line,)+
        }

        impl Kind {
            /// The kinds over the bare board, in the order of the climb.
            pub const BARE: [Kind; [$($bare),+].len()] = [$(Kind::$Bare),+];

            /// The kinds over a position reached by a line, in the order of the climb.
            pub const LINE: [Kind; [$($line),+].len()] = [$(Kind::$Line),+];

            /// Every kind, in the order of the climb: the bare board first.
            pub const ALL: [Kind; [$($bare,)+ $($line),+].len()] =
                [$(Kind::$Bare,)+ $(Kind::$Line),+];

            /// Returns the kind's name.
            pub const fn name(self) -> &'static str {
                match self {
                    $(Kind::$Bare => $bare,)+
                    $(Kind::$Line => $line,)+
                }
            }

            /// Returns the form that a reply must have.
            pub const fn form(self) -> Form {
                match self {
                    $(Kind::$Bare => bare::$Bare::FORM,)+
                    $(Kind::$Line => line::$Line::FORM,)+
                }
            }

            /// Returns the chance that a learner who saw nothing would be wholly right.
            ///
            /// These are the shares of one right reply among those that fit the question, every one taken to
            /// be as likely as the other; no source tells how learners guess, and a clever guess does better.
            pub const fn guess(self) -> f64 {
                match self {
                    $(Kind::$Bare => bare::$Bare::FORM.guess(),)+
                    $(Kind::$Line => line::$Line::GUESS,)+
                }
            }

            /// Returns the think time in milliseconds, where none is wished for.
            ///
            /// Five seconds for the color of a square are common practice, no source; the other times are
            /// our own first guesses, by the amount that there is to say.
            pub const fn think_millis(self) -> u64 {
                match self {
                    $(Kind::$Bare => bare::$Bare::THINK_MILLIS,)+
                    $(Kind::$Line => line::$Line::THINK_MILLIS,)+
                }
            }
        }

        /// A question over the bare board; in JSON, its `kind` and its `subject`.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(tag = "kind", content = "subject", rename_all = "lowercase")]
        pub enum BareQuestion {
            $($(#[$bare_doc])+ $Bare(bare::$Bare),)+
        }

        /// Why the truth is what it is, held against what the learner said; `voice` puts it into words.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub enum BareWhy {
            $($(#[$bare_doc])+ $Bare(<bare::$Bare as BareKind>::Why),)+
        }

        impl BareQuestion {
            /// Returns the kind.
            pub const fn kind(&self) -> Kind {
                match self {
                    $(BareQuestion::$Bare(_) => Kind::$Bare,)+
                }
            }

            /// Explains the right answer to a learner who gave `reply`, or nothing when it was given
            /// up.
            pub fn why(&self, mark: &Mark, reply: Option<&Reply>) -> BareWhy {
                match self {
                    $(BareQuestion::$Bare(asked) => {
                        BareWhy::$Bare(asked.why(&mark.tally, reply))
                    })+
                }
            }

            /// Draws a question of a kind; `None` for one that is not over the bare board.
            pub(crate) fn draw(kind: Kind, choice: &mut BareChoice<'_>) -> Option<BareQuestion> {
                match kind {
                    $(Kind::$Bare => Some(BareQuestion::$Bare(bare::$Bare::draw(choice))),)+
                    $(Kind::$Line)|+ => None,
                }
            }
        }

        /// A question over a position reached by a line; in JSON, its `kind` and its `subject`.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(tag = "kind", content = "subject", rename_all = "lowercase")]
        pub enum LineQuestion {
            $($(#[$line_doc])+ $Line(line::$Line),)+
        }

        /// Why the truth is what it is, held against what the learner said; `voice` puts it into words.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub enum LineWhy {
            $($(#[$line_doc])+ $Line(<line::$Line as LineKind>::Why),)+
        }

        impl LineQuestion {
            /// Returns the kind.
            pub const fn kind(&self) -> Kind {
                match self {
                    $(LineQuestion::$Line(_) => Kind::$Line,)+
                }
            }

            /// Explains the right answer to a learner who gave `reply`, or nothing when it was given
            /// up.
            pub fn why(&self, scene: Scene<'_>, mark: &Mark, reply: Option<&Reply>) -> LineWhy {
                match self {
                    $(LineQuestion::$Line(asked) => {
                        LineWhy::$Line(asked.why(scene, &mark.tally, reply))
                    })+
                }
            }

            /// Draws a question of a kind; `None` where there is nothing to ask, and for one over the
            /// bare board.
            pub(crate) fn draw(kind: Kind, choice: &mut Choice<'_>) -> Option<LineQuestion> {
                match kind {
                    $(Kind::$Line => line::$Line::draw(choice).map(LineQuestion::$Line),)+
                    $(Kind::$Bare)|+ => None,
                }
            }
        }

        /// Runs `body` with what a [`BareQuestion`] or a [`BareWhy`] holds, of whatever kind; `K` names the
        /// kind's type.
        macro_rules! each_bare {
            ($d Enum:ident, $d value:expr, $d (<$d K:ident>)? $d held:ident => $d body:expr) => {
                match $d value {
                    $(crate::question::$d Enum::$Bare($d held) => {
                        $d (type $d K = crate::question::bare::$Bare;)?
                        $d body
                    })+
                }
            };
        }
        pub(crate) use each_bare;

        /// Runs `body` with what a [`LineQuestion`] or a [`LineWhy`] holds, of whatever kind; `K` names the
        /// kind's type.
        macro_rules! each_line {
            ($d Enum:ident, $d value:expr, $d (<$d K:ident>)? $d held:ident => $d body:expr) => {
                match $d value {
                    $(crate::question::$d Enum::$Line($d held) => {
                        $d (type $d K = crate::question::$Line;)?
                        $d body
                    })+
                }
            };
        }
        pub(crate) use each_line;
    };
}

registry! {
    $
    bare {
        /// The name of a marked square.
        Name "name",
        /// Where a named square lies.
        Place "place",
        /// Whether a square is light or dark.
        Color "color",
        /// Which line two squares share.
        Aligned "aligned",
        /// The squares between two aligned squares.
        Between "between",
        /// The squares that a piece attacks on the empty board.
        Span "span",
        /// The squares that two pieces both attack.
        Crossing "crossing",
        /// The fewest moves that a piece needs to a square.
        Distance "distance",
        /// A shortest route of a piece to a square.
        Route "route",
    }
    line {
        /// Where the piece that stood on a square at the start of the line stands now.
        Whereabouts "whereabouts",
        /// What stands on a square.
        Occupant "occupant",
        /// The squares of all of a side's pieces of one role.
        Standing "standing",
        /// The squares that the piece on a square attacks.
        Attacks "attacks",
        /// A side's pieces that attack or guard a square.
        Attackers "attackers",
        /// The squares to which the piece on a square can legally go.
        Moves "moves",
        /// Whether a fully named move is legal.
        Legality "legality",
        /// Whether the side to move is in check, and from where.
        Check "check",
        /// Every legal move that gives check.
        Checks "checks",
        /// Every legal capture.
        Captures "captures",
        /// A side's pieces that are attacked and not guarded.
        Hanging "hanging",
        /// A move that mates at once, or that there is none.
        Mate "mate",
        /// What taking on a square wins.
        Exchange "exchange",
        /// The balance of material.
        Balance "balance",
        /// The wings on which a side may still castle some day.
        Rights "rights",
        /// A side's pieces that have left the board.
        Taken "taken",
        /// The move played at a given move number.
        Played "played",
        /// Every piece's square.
        Rebuild "rebuild",
    }
}

impl BareQuestion {
    /// Returns the form that a reply must have.
    pub const fn form(&self) -> Form {
        self.kind().form()
    }

    /// Computes the right answer.
    pub fn truth(&self) -> Truth {
        each_bare!(BareQuestion, self, asked => asked.truth())
    }

    /// Grades a reply; any legal shortest route is right.
    pub fn mark(&self, reply: &Reply) -> Mark {
        each_bare!(BareQuestion, self, asked => asked.mark(reply))
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
    /// Returns the form that a reply must have.
    pub const fn form(&self) -> Form {
        self.kind().form()
    }

    /// Computes the right answer from the scene.
    pub fn truth(&self, scene: Scene<'_>) -> Truth {
        each_line!(LineQuestion, self, asked => asked.truth(scene))
    }

    /// Reads a reply generously; moves are read in the position in which they would be played.
    ///
    /// # Errors
    ///
    /// [`Unread`] names the word that cannot be read in the question's form.
    pub fn read(&self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        each_line!(LineQuestion, self, asked => asked.read(scene, text))
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

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A name that no kind has.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is no kind of question")]
pub struct ParseKindError(String);

impl FromStr for Kind {
    type Err = ParseKindError;

    fn from_str(name: &str) -> Result<Kind, ParseKindError> {
        Kind::ALL
            .into_iter()
            .find(|kind| kind.name() == name)
            .ok_or_else(|| ParseKindError(name.to_owned()))
    }
}
