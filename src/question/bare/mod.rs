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

mod aligned;
mod between;
mod color;
mod crossing;
mod span;
mod travel;
mod view;

pub use aligned::Aligned;
pub use between::{Between, BetweenWhy, Outside};
pub use color::Color;
pub use crossing::{Crossing, CrossingWhy};
pub use span::{Span, SpanWhy};
pub use travel::{Distance, Route, RouteWhy};
pub use view::{Instead, Name, Place, ViewWhy};
