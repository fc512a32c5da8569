//! A small source of repeatable chance.
//!
//! Source: xorshift64*, Vigna, "An experimental exploration of Marsaglia's xorshift generators, scrambled",
//! *ACM Trans. Math. Softw.* 42 (2016); the seed is spread by the finaliser of `splitmix64` (from memory).

/// Repeatable chance from a seed.
#[derive(Debug, Clone)]
pub(crate) struct Chance {
    state: u64,
}

impl Chance {
    /// The stream number `stream` of `seed`.
    pub(crate) fn new(seed: u64, stream: u64) -> Self {
        let mut z = seed.wrapping_add(stream.wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15));
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        Self { state: (z ^ (z >> 31)) | 1 }
    }

    fn next(&mut self) -> u64 {
        self.state ^= self.state >> 12;
        self.state ^= self.state << 25;
        self.state ^= self.state >> 27;
        self.state.wrapping_mul(0x2545_f491_4f6c_dd1d)
    }

    /// A whole number from 0 to below `count`; 0 for a count of 0.
    #[expect(clippy::cast_possible_truncation, reason = "the result is below a usize")]
    pub(crate) fn below(&mut self, count: usize) -> usize {
        ((u128::from(self.next()) * count as u128) >> 64) as usize
    }

    /// A number from 0 to below 1.
    #[expect(clippy::cast_precision_loss, reason = "53 bits are exact")]
    pub(crate) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Puts a list in random order.
    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.below(last + 1));
        }
    }
}
