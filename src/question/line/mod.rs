//! The questions over a position reached by a line. They stand in a [`Scene`].

mod attackers;
mod attacks;
mod effects;
mod exchange;
mod hanging;
mod legality;
mod mate;
mod material;
mod moves;
mod near_miss;
mod played;
mod rebuild;
mod rights;
mod standing;

pub use attackers::{Attacker, Attackers, AttackersWhy, Check};
pub use attacks::{Attacks, AttacksWhy};
pub use effects::{Captures, Checks, LegalMove, MoveEffect, MoveEffectsWhy};
pub use exchange::{Exchange, ExchangeWhy, Taking};
pub use hanging::{Hanging, HangingWhy, Watched};
pub use legality::{Blame, Legality, LegalityWhy, Refused, Since};
pub use mate::{Mate, MateWhy};
pub use material::{Balance, BalanceWhy, Taken, TakenWhy, worth};
pub use moves::{Closed, Moves, MovesWhy};
pub use played::{Played, PlayedWhy};
pub use rebuild::{Rebuild, RebuildWhy};
pub use rights::{Rights, RightsWhy};
pub use standing::{Found, Occupant, Standing, StandingWhy, Whereabouts};
