//! What learners can do now and how it has changed, as a page and as data.

mod chart;
mod group;
mod html;
mod json;
mod tables;

use crate::learner::account::Account;

pub use html::html;
pub use json::json;

/// A learner and what all answers come to.
#[derive(Clone, Debug)]
pub struct Learner {
    /// The name, cleaned of what could steer a terminal.
    pub name: String,
    /// The account.
    pub account: Account,
}
