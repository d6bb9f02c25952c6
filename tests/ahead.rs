//! Calculation: positions chosen because something happens, plies that follow the learner, and mates.

mod published;

#[path = "ahead/interest.rs"]
mod interest;
#[path = "ahead/learner.rs"]
mod learner;
#[path = "ahead/mates.rs"]
mod mates;
#[path = "ahead/pace.rs"]
mod pace;
#[path = "ahead/sessions.rs"]
mod sessions;
