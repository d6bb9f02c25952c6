//! What a move's text can mean in a position, whether a move is legal, and the one reason why it
//! is not: for games in writing, for replies and for questions alike.
//!
//! ```
//! use sansvoir::game::Start;
//! use sansvoir::rules::{Judge, Past, Reason};
//!
//! let start = Start::standard();
//! let judge = Judge::new(start.position(), Past::new(&start));
//! let illegal = judge.illegal("e2e5".parse()?).expect("no pawn goes three squares");
//! assert_eq!(illegal.reason, Reason::NotItsWay);
//! # Ok::<(), sansvoir::rules::ParseAttemptError>(())
//! ```

mod attempt;
mod illegal;
mod language;
mod only_one;
mod past;
mod resolve;
mod wording;

pub use attempt::{Attempt, ParseAttemptError};
pub use illegal::{Illegal, Judge, Reason, pin, pinned};
pub(crate) use language::LetterSet;
pub use language::{Language, Letters, UnknownLanguage};
pub use past::Past;
pub use resolve::{MoveFault, resolve_move, squares_meant};
pub(crate) use resolve::{meant, resolve, role_letter, role_name, sees, side_name, wing_name};
pub(crate) use wording::{Said, Wording, standard, wording};
