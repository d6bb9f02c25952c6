//! A game that is learned in chunks: each is heard and said, then all so far are said together, up to the whole.

use super::super::bound::Every;

/// How often in a row a chunk comes back, or all so far, before it goes on all the same.
const RETURNS: u32 = 2;

/// Where the learning stands.
#[derive(Clone, Debug)]
pub(super) struct Chunks {
    size: usize,
    /// The plies of the whole game.
    all: usize,
    /// How many plies from the start are being learned.
    goal: usize,
    /// What is being said.
    pub(super) pass: Pass,
    /// How often each of the two came back in a row.
    returns: [u32; 2],
    /// The plies from the start that were said together without a slip.
    pub(super) learned: usize,
}

/// A stretch that is said in one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pass {
    /// The plies before it.
    pub(super) from: usize,
    /// The plies at its end.
    pub(super) to: usize,
    /// Whether it is heard before it is said.
    pub(super) is_heard: bool,
    /// Whether it came before.
    pub(super) again: bool,
}

impl Chunks {
    pub(super) fn new(size: Every, all: usize) -> Chunks {
        let size = size.size();
        let goal = size.min(all);
        Chunks {
            size,
            all,
            goal,
            pass: Pass {
                from: 0,
                to: goal,
                is_heard: true,
                again: false,
            },
            returns: [0; 2],
            learned: 0,
        }
    }

    /// Tells whether the whole game is being said from memory: only that counts.
    pub(super) const fn is_whole(&self) -> bool {
        !self.pass.is_heard && self.goal == self.all
    }

    /// Takes how a stretch went, by the ply of its first slip; `false` where all is learned.
    pub(super) fn turn(&mut self, slip: Option<usize>) -> bool {
        let pass = self.pass;
        let returns = &mut self.returns[usize::from(pass.is_heard)];
        let comes_back = slip.filter(|_| *returns < RETURNS);
        *returns = if comes_back.is_some() {
            *returns + 1
        } else {
            0
        };
        if slip.is_none() && pass.from == 0 {
            self.learned = self.learned.max(pass.to);
        }
        let is_alone = pass.is_heard && self.goal == self.size.min(self.all);
        match comes_back {
            Some(ply) => self.hear(ply / self.size, true),
            None if pass.is_heard && !is_alone => {
                self.pass = Pass {
                    from: 0,
                    to: self.goal,
                    is_heard: false,
                    again: self.returns[0] > 0,
                }
            }
            None if self.goal == self.all => return false,
            None => {
                let next = self.goal / self.size;
                self.goal = (self.goal + self.size).min(self.all);
                self.hear(next, false);
            }
        }
        true
    }

    fn hear(&mut self, chunk: usize, again: bool) {
        let from = chunk * self.size;
        self.pass = Pass {
            from,
            to: (from + self.size).min(self.all),
            is_heard: true,
            again,
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Says a game of so many plies in chunks of three, and slips as `slips` tells for each stretch.
    fn said(all: usize, slips: &[Option<usize>]) -> Vec<(usize, usize, bool)> {
        let mut chunks = Chunks::new(Every::nearest(3), all);
        let mut slips = slips.iter();
        let mut said = Vec::new();
        loop {
            let Pass {
                from, to, is_heard, ..
            } = chunks.pass;
            said.push((from, to, is_heard));
            if !chunks.turn(slips.next().copied().flatten()) {
                return said;
            }
        }
    }

    #[test]
    fn each_chunk_is_said_and_then_all_so_far_up_to_the_whole() {
        let chunks = [
            (0, 3, true),
            (3, 6, true),
            (0, 6, false),
            (6, 8, true),
            (0, 8, false),
        ];
        assert_eq!(said(8, &[]), chunks);
        assert_eq!(said(2, &[]), [(0, 2, true)]);
        assert_eq!(said(3, &[]), [(0, 3, true)]);
    }

    #[test]
    fn the_chunk_that_fails_comes_back_and_then_all_so_far() {
        let slips = [None, Some(4), None, Some(1)];
        let expected = [
            (0, 3, true),
            (3, 6, true),
            (3, 6, true),
            (0, 6, false),
            (0, 3, true),
            (0, 6, false),
        ];
        assert_eq!(said(6, &slips), expected);
    }

    #[test]
    fn whoever_never_gets_it_right_comes_to_an_end_too() {
        assert!(said(9, &[Some(0); 100]).len() < 40);
    }
}
