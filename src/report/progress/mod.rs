//! What learners can do now and how it has changed, as a page and as data.

mod chart;
mod html;
mod json;

pub(crate) use html::{Learner, html};
pub(crate) use json::json;
