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
mod distance;
mod json;
mod name;
mod place;
mod route;
mod span;
mod travel;

pub use aligned::{Aligned, AlignedWhy};
pub use between::{Aside, Between, BetweenError, BetweenWhy};
pub use color::{Color, ColorWhy};
pub use crossing::{Crossing, CrossingError, CrossingWhy};
pub use distance::{Distance, TravelWhy};
pub use name::{Name, NameWhy, NamedInstead};
pub use place::{CountedInstead, Place, PlaceWhy};
pub use route::{Route, RouteWhy};
pub use span::{Span, SpanWhy};
