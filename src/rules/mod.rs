//! Floor 1: whether a move is legal, and the one reason why it is not, for games in writing and for
//! questions alike.
//!
//! ```
//! use sansvoir::game::Start;
//! use sansvoir::rules::{Judge, Past, Reason};
//!
//! let start = Start::standard();
//! let judge = Judge::new(start.position(), Past::new(&start));
//! let illegal = judge.illegal("e2e5".parse()?).expect("no pawn goes three squares");
//! assert_eq!(illegal.reason, Reason::NotItsWay);
//! # Ok::<(), sansvoir::rules::NoAttempt>(())
//! ```

mod attempt;
mod illegal;
mod past;

pub use attempt::{Attempt, NoAttempt};
pub use illegal::{Illegal, Judge, Reason, pin, pinned};
pub use past::Past;
