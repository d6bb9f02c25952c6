//! How the share of right answers falls as the plies grow.

/// The share of answers that are left to luck at any depth: a slip of the finger, a thought elsewhere.
///
/// Fixed, inside the usual .01 to .05: sixty answers cannot tell it from a gentle slope, and a
/// lapse rate of nothing lets one slip move the whole curve (Prins 2012, J. Vision 12(6):25).
pub const LAPSE: f64 = 0.02;

/// A learner's curve: how surely one sees `n` plies ahead.
///
/// The share of questions at `n` plies that the learner *knows* is
///
/// ```text
/// K(n) = (1 - LAPSE) / (1 + exp((n - reach) / width - c)),   c so that K(reach) = 3/4
/// ```
///
/// a logistic curve that falls with `n`. What is not known is guessed, and `g` of the guesses are lucky:
///
/// ```text
/// P(n) = g + (1 - g) K(n)
/// ```
///
/// (the form of Watson and Pelli 1983, Percept. Psychophys. 33:113-120, with the logistic in the
/// place of their Weibull). So `reach` means the same for every kind of question: it is the depth
/// at which three in four are right where luck has no part. At a yes or no, seven in eight are right
/// there, for half of the last quarter is luck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    /// The plies at which three in four are known.
    pub reach: f64,
    /// How slowly the curve falls, in plies: about 2.4 widths lie between three in four and one in
    /// four. More than 0.
    pub width: f64,
}

impl Curve {
    /// The share of questions known at so many plies, luck left out.
    #[must_use]
    pub fn known(&self, plies: f64) -> f64 {
        (1.0 - LAPSE) / (1.0 + self.odds_against(plies))
    }

    /// The share of right answers at so many plies, where `guess` of the guesses are right.
    #[must_use]
    pub fn right(&self, plies: f64, guess: f64) -> f64 {
        guess + (1.0 - guess) * self.known(plies)
    }

    /// One part that is not known, lapses left out, to so many that are.
    fn odds_against(&self, plies: f64) -> f64 {
        // The odds at the reach itself, where (1 - LAPSE) / (1 + odds) is 3/4.
        let at_reach = (1.0 - LAPSE) / 0.75 - 1.0;
        // Beyond 30 there is no difference left, and nothing may overflow.
        at_reach * ((plies - self.reach) / self.width).clamp(-30.0, 30.0).exp()
    }
}
