//! The questions over the bare board. They need no line: each knows all of its own truth.
//!
//! ```
//! use sansvoir::question::{BareQuestion, Verdict};
//!
//! let json = r#"{"kind":"distance","subject":{"man":"Na1","to":"h8","blockers":[]}}"#;
//! let question: BareQuestion = serde_json::from_str(json)?;
//! let reply = question.form().read("6").expect("a number of moves");
//! assert_eq!(question.mark(&reply).verdict, Verdict::Right);
//! # Ok::<(), serde_json::Error>(())
//! ```

mod attacks;
mod pairs;
mod squares;
mod travel;

pub use attacks::{Crossing, Span};
pub use pairs::{Aligned, Between, Outside};
pub use squares::{Color, InView, Instead, Name, Place};
pub use travel::{Distance, Route, ShortestWay};
