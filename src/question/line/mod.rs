//! The questions over a position reached by a line. They stand in a [`Scene`].

mod attacks;
mod effects;
mod exchange;
mod legality;
mod material;
mod moves;
mod near_miss;
mod played;
mod standing;
mod turn;

pub(crate) use attacks::seen_by;
pub use attacks::{Attackers, Attacks, Check, Hanging, OnBoard};
pub use effects::{Captures, Checks, Mate, MateWhy, MoveEffect, MoveEffectsWhy};
pub use exchange::{Exchange, ExchangeWhy};
pub(crate) use exchange::{gain, most_won};
pub use legality::{IllegalWhy, Legality, LegalityWhy, Refused, Rights, RightsWhy};
pub use material::{Balance, BalanceWhy, Taken, TakenWhy, points, worth};
pub use moves::{Moves, MovesWhy};
pub use played::{Played, PlayedWhy};
pub use standing::{
    Found, Occupant, OccupantWhy, Rebuild, RebuildWhy, Standing, StandingWhy, Surplus, Whereabouts,
    WhereaboutsWhy,
};
pub use turn::{InMind, Turn, TurnWhy};
