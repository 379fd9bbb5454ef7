//! Numbers that look random but follow from a key: nothing to store, the same at any time and place.

use crate::numerics::{Lanes, Work, in_lanes};

/// Mixes all bits; a bijection. The finaliser of SplitMix64 (Steele, Lea, Flood 2014; constants of Stafford, memory).
pub(super) const fn mix(key: u64) -> u64 {
    let key = (key ^ (key >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let key = (key ^ (key >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    key ^ (key >> 31)
}

/// One key of two.
pub(super) const fn keyed(key: u64, part: u64) -> u64 {
    mix(key ^ self::part(part))
}

/// What a part gives to any [`keyed`].
pub(super) const fn part(part: u64) -> u64 {
    mix(part.wrapping_add(0x9e37_79b9_7f4a_7c15))
}

/// Hash of Fowler, Noll and Vo, variant 1a, 64 bits (constants: their published ones; memory, sure): the same on every
/// machine and in every version.
pub(crate) fn fnv_1a(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// Rounds of a [`Shuffle`]: with four or fewer, short shuffles prefer some orders (the χ² test below fails).
const ROUNDS: usize = 6;

/// A shuffle of 0..count chosen by a key; a bijection.
///
/// The idea is Kensler's (2013, Correlated multi-jittered sampling, memory): shuffle the next power of two by steps
/// that can be undone (add, multiply by an odd number, fold high bits onto low ones), and shuffle again while the
/// result is not below `count`. The steps and constants here are our own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shuffle {
    count: u32,
    pub(super) key: u64,
    /// What each round adds, and the odd number that it multiplies by.
    rounds: [(u32, u32); ROUNDS],
    mask: u32,
    fold: u32,
}

impl Shuffle {
    /// What it does to every place is worked out once.
    pub(super) fn new(count: u32, key: u64) -> Self {
        let bits = u32::BITS - count.saturating_sub(1).leading_zeros();
        let mask = u32::MAX.checked_shr(u32::BITS - bits).unwrap_or(0);
        let rounds = std::array::from_fn(|round| {
            let step = keyed(key, round as u64);
            ((step >> 32) as u32, step as u32 | 1)
        });
        Self { count, key, rounds, mask, fold: bits.div_ceil(2) }
    }

    /// Where places below `count` go.
    pub(super) fn to(&self, places: &mut [u32]) {
        if self.count < 2 {
            return places.fill(0);
        }
        in_lanes::<Lanes, _>(Moved { shuffle: self, places })
    }

    #[inline(always)]
    fn once(&self, mut at: u32) -> u32 {
        for (more, times) in self.rounds {
            at = at.wrapping_add(more) & self.mask;
            at = at.wrapping_mul(times) & self.mask;
            at ^= at >> self.fold;
        }
        at.wrapping_add(self.key as u32) & self.mask
    }
}

/// Many places moved side by side, in wide registers.
struct Moved<'a> {
    shuffle: &'a Shuffle,
    places: &'a mut [u32],
}

impl Work for Moved<'_> {
    type Done = ();

    #[cfg_attr(wide, inline(always))]
    fn run(self) {
        let Self { shuffle, places } = self;
        places.iter_mut().for_each(|at| *at = shuffle.once(*at));
        // the few that must go on
        for at in places {
            while *at >= shuffle.count {
                *at = shuffle.once(*at);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;
    use std::collections::BTreeMap;

    fn config() -> ProptestConfig {
        ProptestConfig {
            cases: 64,
            failure_persistence: None,
            rng_seed: RngSeed::Fixed(2013),
            ..ProptestConfig::default()
        }
    }

    #[test]
    fn the_hash_gives_its_published_value() {
        // test vector of the authors for "foobar" (memory)
        assert_eq!(fnv_1a(b"foobar"), 0x8594_4171_f739_67e8);
    }

    proptest! {
        #![proptest_config(config())]
        #[test]
        fn a_shuffle_visits_every_place_once(count in 1_u32..3000, key in any::<u64>()) {
            let mut places: Vec<u32> = (0..count).collect();
            Shuffle::new(count, key).to(&mut places);
            places.sort_unstable();
            prop_assert!(places.iter().copied().eq(0..count));
        }
    }

    /// χ² of k − 1 degrees of freedom has mean k − 1 and standard deviation √(2(k − 1)).
    #[test]
    fn all_orders_of_few_places_are_about_as_frequent() {
        for (count, orders) in [(2, 2), (3, 6), (4, 24), (5, 120)] {
            let draws = 200 * orders;
            let mut seen: BTreeMap<Vec<u32>, f64> = BTreeMap::new();
            for key in 0..draws {
                let mut order: Vec<u32> = (0..count).collect();
                Shuffle::new(count, mix(key)).to(&mut order);
                *seen.entry(order).or_default() += 1.0;
            }
            assert_eq!(seen.len() as u64, orders, "orders of {count} places seen");
            let chi: f64 = seen.values().map(|n| (n - 200.0) * (n - 200.0) / 200.0).sum();
            let free = (orders - 1) as f64;
            let off = (chi - free) / (2.0 * free).sqrt();
            assert!(
                off < 4.0,
                "{count} places: chi² {chi} for {free} degrees of freedom, {off} deviations off"
            );
        }
    }
}
