//! Chance from a seed, the same on every machine and with every version of the random library.

use rand::Rng;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;

/// A source of chance. Its numbers are those of the published `ChaCha8` stream; what is made of
/// them is our own, so that a seed asks the same questions for ever.
#[derive(Debug)]
pub struct Dice(ChaCha8Rng);

impl Dice {
    /// Seeds the dice for one purpose, such as one checkpoint: the same seed and purpose always roll
    /// the same.
    pub fn new(seed: u64, purpose: u64) -> Dice {
        let mut key = [0; 32];
        key[..8].copy_from_slice(&seed.to_le_bytes());
        key[8..16].copy_from_slice(&purpose.to_le_bytes());
        Dice(ChaCha8Rng::from_seed(key))
    }

    /// Rolls a number from 0 to `n - 1`, each as likely as the other.
    ///
    /// # Panics
    ///
    /// When `n` is 0.
    pub fn below(&mut self, n: usize) -> usize {
        let n = u64::try_from(n).expect("a count fits 64 bits");
        assert!(n > 0, "nothing to choose from");
        // Numbers from the last, incomplete run of n would favor the small ones: roll again.
        let whole_runs = u64::MAX - u64::MAX % n;
        loop {
            let roll = self.0.next_u64();
            if roll < whole_runs {
                return usize::try_from(roll % n).expect("less than n");
            }
        }
    }

    /// Rolls a seed for dice of their own, or every round would roll the same questions.
    pub(crate) fn own_seed(&mut self) -> u64 {
        self.below(1 << 31) as u64
    }

    /// Tells whether a chance of `hits` in `of` came true.
    pub fn chance(&mut self, hits: usize, of: usize) -> bool {
        self.below(of) < hits
    }

    /// Picks one of `items`, or nothing where there are none.
    pub fn pick<'a, T>(&mut self, items: &'a [T]) -> Option<&'a T> {
        (!items.is_empty()).then(|| &items[self.below(items.len())])
    }

    /// Brings `items` into a random order, each order as likely as the other.
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            items.swap(last, self.below(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_rolls_the_same_for_ever() {
        let mut dice = Dice::new(7, 1);
        let rolls: Vec<usize> = (0..12).map(|_| dice.below(64)).collect();
        assert_eq!(rolls, GOLDEN);
    }

    /// The first twelve 64-bit words of the published `ChaCha` stream (Bernstein 2008) with 8 rounds,
    /// key 7, 1, 0, 0 as little-endian words, counter and nonce 0, each modulo 64; computed apart
    /// from this code. Any change here would change the questions of every old seed.
    const GOLDEN: [usize; 12] = [53, 29, 18, 7, 27, 38, 3, 41, 49, 60, 60, 17];

    #[test]
    fn another_purpose_rolls_otherwise() {
        let roll = |purpose| {
            let mut dice = Dice::new(7, purpose);
            [(); 8].map(|()| dice.below(1000))
        };
        assert_ne!(roll(1), roll(2));
    }

    #[test]
    fn every_face_comes_up_about_as_often() {
        let mut dice = Dice::new(1, 0);
        let mut faces = [0_u32; 6];
        for _ in 0..6000 {
            faces[dice.below(6)] += 1;
        }
        assert!(
            faces.iter().all(|count| (850..1150).contains(count)),
            "{faces:?}"
        );
    }

    #[test]
    fn shuffling_keeps_every_item() {
        let mut items: Vec<u32> = (0..50).collect();
        Dice::new(3, 3).shuffle(&mut items);
        assert_ne!(items, (0..50).collect::<Vec<_>>());
        items.sort_unstable();
        assert_eq!(items, (0..50).collect::<Vec<_>>());
    }
}
