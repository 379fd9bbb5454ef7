//! Where the cases lie in the unit cube: each point follows from the number of the case alone.

use super::hash::{Shuffle, keyed, mix, part};
use chacha20::ChaCha8Rng;
use chacha20::rand_core::{Rng, SeedableRng};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// How draws are spread over the range of the inputs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SamplingMethod {
    /// One draw in each of `count` equal strata of every input.
    #[default]
    Latin,
    /// A scrambled Sobol sequence; at most 65 536 draws.
    Sobol,
    /// Independent draws.
    Random,
}

impl SamplingMethod {
    /// Cases it can place, and dimensions it can fill: the Sobol tables end at 2¹⁶ cases; a Latin cell must be wider than rounding.
    const fn most(self) -> (usize, usize) {
        match self {
            Self::Random => (u32::MAX as usize, 4096),
            Self::Latin => (1 << 26, 4096),
            Self::Sobol => (1 << 16, 256),
        }
    }
}

/// Why a plan cannot be laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum SamplingFault {
    /// No cases or no dimensions.
    #[error("a plan of {count} cases in {dimensions} dimensions is empty; it needs at least one of each")]
    Empty {
        /// Cases.
        count: usize,
        /// Dimensions.
        dimensions: usize,
    },
    /// More cases than the layout has.
    #[error(
        "{count} cases are too many for this layout, which has {most}; take fewer, or lay them at random"
    )]
    TooManyCases {
        /// Cases wanted.
        count: usize,
        /// Cases possible.
        most: usize,
    },
    /// More dimensions than the layout has.
    #[error(
        "{dimensions} unsure inputs are too many for this layout, which has {most} (shares of the variance need two an input)"
    )]
    TooManyDimensions {
        /// Dimensions wanted.
        dimensions: usize,
        /// Dimensions possible.
        most: usize,
    },
}

/// Points of the open unit cube, numbered from 0.
///
/// A point is a pure function of plan and number: shards, threads and a resumed run agree, and nothing is stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SamplingPlan {
    layout: SamplingMethod,
    count: usize,
    seed: u64,
    dimensions: usize,
}

/// 2⁻²⁴: Sobol points come as multiples of twice this; Latin places within a cell are odd multiples of its half.
const FINE: f64 = 1.0 / (1 << 24) as f64;

impl SamplingPlan {
    /// A plan of `count` cases in `dimensions` dimensions.
    ///
    /// ```
    /// use weldbow_engine::scatter::{SamplingMethod, SamplingPlan};
    /// let plan = SamplingPlan::new(SamplingMethod::Latin, 10, 7, 2)?;
    /// let mut cells: Vec<usize> = (0..10)
    ///     .map(|case| {
    ///         let mut u = [0.0; 2];
    ///         plan.point(case, &mut u);
    ///         (u[0] * 10.0) as usize
    ///     })
    ///     .collect();
    /// cells.sort();
    /// assert_eq!(cells, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    /// # Ok::<(), weldbow_engine::scatter::SamplingFault>(())
    /// ```
    ///
    /// # Errors
    /// An empty plan, and one beyond the limits of its layout.
    pub const fn new(
        layout: SamplingMethod,
        count: usize,
        seed: u64,
        dimensions: usize,
    ) -> Result<Self, SamplingFault> {
        if count == 0 || dimensions == 0 {
            return Err(SamplingFault::Empty { count, dimensions });
        }
        let (cases, inputs) = layout.most();
        if count > cases {
            return Err(SamplingFault::TooManyCases { count, most: cases });
        }
        if dimensions > inputs {
            return Err(SamplingFault::TooManyDimensions { dimensions, most: inputs });
        }
        Ok(Self { layout, count, seed, dimensions })
    }

    /// A plan of the same layout whose points have nothing to do with this one's: pieces beside draws of a bias.
    ///
    /// # Errors
    /// As [`SamplingPlan::new`].
    pub const fn beside(&self, count: usize, dimensions: usize) -> Result<Self, SamplingFault> {
        Self::new(self.layout, count, keyed(self.seed, BESIDE), dimensions)
    }

    /// How the cube is filled.
    pub const fn layout(&self) -> SamplingMethod {
        self.layout
    }

    /// Cases.
    pub const fn count(&self) -> usize {
        self.count
    }

    /// Coordinates of a point.
    pub(crate) const fn dimensions(&self) -> usize {
        self.dimensions
    }

    /// Writes the coordinates of a case, each above 0 and below 1, into the first `SamplingPlan::dimensions` places of
    /// `out`; a shorter `out` takes the first coordinates. Numbers from `count` on start the plan again.
    pub fn point(&self, case: usize, out: &mut [f64]) {
        let wanted = out.len().min(self.dimensions);
        Points::of(*self, wanted).point(case, &mut out[..wanted]);
    }

    fn shuffle(&self, dimension: u32) -> Shuffle {
        Shuffle::new(self.count as u32, keyed(keyed(self.seed, LATIN), u64::from(dimension)))
    }
}

/// A plan with what does not change from case to case worked out once: for many points.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Points {
    plan: SamplingPlan,
    /// Of a Latin plan.
    shuffles: Vec<Shuffle>,
}

impl From<SamplingPlan> for Points {
    fn from(plan: SamplingPlan) -> Self {
        Self::of(plan, plan.dimensions)
    }
}

impl Points {
    /// The first coordinates of a plan.
    fn of(plan: SamplingPlan, wanted: usize) -> Self {
        let latin = if plan.layout == SamplingMethod::Latin { wanted as u32 } else { 0 };
        Self { plan, shuffles: (0..latin).map(|dimension| plan.shuffle(dimension)).collect() }
    }

    /// The plan.
    pub(crate) const fn plan(&self) -> &SamplingPlan {
        &self.plan
    }

    /// As [`SamplingPlan::point`].
    pub(crate) fn point(&self, case: usize, out: &mut [f64]) {
        let each = out.len();
        self.points(std::iter::once(case), each, out);
    }

    /// The same of many cases, one after the other in `out`, `each` coordinates of each.
    pub(crate) fn points(&self, cases: impl Iterator<Item = usize>, each: usize, out: &mut [f64]) {
        let SamplingPlan { layout, count, seed, .. } = self.plan;
        let cases = cases.map(|case| case % count);
        let rows = out.chunks_exact_mut(each.max(1));
        match layout {
            SamplingMethod::Random => {
                for (case, row) in cases.zip(rows) {
                    let mut stream = ChaCha8Rng::seed_from_u64(seed);
                    stream.set_stream(case as u64);
                    row.iter_mut().for_each(|u| *u = open(stream.next_u64()));
                }
            }
            SamplingMethod::Latin => {
                self.latin(&cases.map(|case| case as u32).collect::<Vec<_>>(), each, out)
            }
            SamplingMethod::Sobol => {
                let seed = (keyed(seed, SOBOL) >> 32) as u32;
                for (case, row) in cases.zip(rows) {
                    for (u, dimension) in row.iter_mut().zip(0_u32..) {
                        *u = f64::from(sobol_burley::sample(case as u32, dimension, seed)) + FINE;
                    }
                }
            }
        }
    }

    /// Coordinates of a Latin plan, dimension by dimension.
    fn latin(&self, cases: &[u32], each: usize, out: &mut [f64]) {
        let mut places = vec![0; cases.len()];
        let within: Vec<u64> = cases.iter().map(|case| part(u64::from(*case))).collect();
        for (dimension, shuffle) in self.shuffles.iter().enumerate().take(each) {
            places.copy_from_slice(cases);
            shuffle.to(&mut places);
            let column = out.iter_mut().skip(dimension).step_by(each);
            for ((u, place), within) in column.zip(&places).zip(&within) {
                let within = (f64::from((mix(shuffle.key ^ within) >> 40) as u32) + 0.5) * FINE;
                *u = (f64::from(*place) + within) / self.plan.count as f64;
            }
        }
    }
}

/// Keep the layouts and companions of one seed apart.
const BESIDE: u64 = 0x6265_7369;
const LATIN: u64 = 0x6c61_7469;
const SOBOL: u64 = 0x736f_626f;

/// 52 random bits as the middle of one of 2⁵² cells of 0…1.
fn open(bits: u64) -> f64 {
    ((bits >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAYOUTS: [SamplingMethod; 3] =
        [SamplingMethod::Random, SamplingMethod::Latin, SamplingMethod::Sobol];

    fn point(plan: &SamplingPlan, case: usize) -> Vec<f64> {
        let mut u = vec![f64::NAN; plan.dimensions()];
        plan.point(case, &mut u);
        u
    }

    /// How many cases fall into each of `cells` cells of a dimension.
    fn filled(plan: &SamplingPlan, dimension: usize, cells: usize) -> Vec<usize> {
        let mut hits = vec![0; cells];
        (0..plan.count()).for_each(|case| hits[(point(plan, case)[dimension] * cells as f64) as usize] += 1);
        hits
    }

    #[test]
    fn a_latin_plan_has_one_case_in_every_cell_of_every_dimension() {
        for count in [1, 2, 3, 7, 16, 97, 100, 1009, 4096] {
            let plan = SamplingPlan::new(SamplingMethod::Latin, count, 42, 5).unwrap();
            for dimension in 0..5 {
                assert!(
                    filled(&plan, dimension, count).iter().all(|n| *n == 1),
                    "{count} cases, dimension {dimension}"
                );
            }
        }
    }

    #[test]
    fn a_power_of_two_of_sobol_cases_fills_every_cell_once() {
        for count in [1, 2, 64, 1024] {
            let plan = SamplingPlan::new(SamplingMethod::Sobol, count, 42, 12).unwrap();
            for dimension in 0..12 {
                assert!(
                    filled(&plan, dimension, count).iter().all(|n| *n == 1),
                    "{count} cases, dimension {dimension}"
                );
            }
        }
    }

    #[test]
    fn a_plan_made_ready_has_the_same_points() {
        for layout in LAYOUTS {
            let plan = SamplingPlan::new(layout, 37, 5, 6).unwrap();
            let ready = Points::from(plan);
            for case in 0..80 {
                let mut u = vec![0.0; 6];
                ready.point(case, &mut u);
                assert_eq!(u, point(&plan, case), "{layout:?}, {case}");
            }
        }
    }

    #[test]
    fn a_point_does_not_depend_on_what_was_asked_before() {
        for layout in LAYOUTS {
            let plan = SamplingPlan::new(layout, 500, 7, 4).unwrap();
            let forward: Vec<_> = (0..500).map(|case| point(&plan, case)).collect();
            let again = SamplingPlan::new(layout, 500, 7, 4).unwrap();
            assert!((0..500).rev().all(|case| point(&again, case) == forward[case]), "{layout:?}");
            let mut short = vec![0.0; 2];
            plan.point(123, &mut short);
            assert_eq!(short, forward[123][..2].to_vec(), "{layout:?}: fewer coordinates are the first ones");
        }
    }

    #[test]
    fn seeds_and_dimensions_give_different_points_inside_the_open_cube() {
        for layout in LAYOUTS {
            let (one, other) = (
                SamplingPlan::new(layout, 256, 1, 6).unwrap(),
                SamplingPlan::new(layout, 256, 2, 6).unwrap(),
            );
            let all: Vec<f64> = (0..256).flat_map(|case| point(&one, case)).collect();
            assert!(all.iter().all(|u| 0.0 < *u && *u < 1.0), "{layout:?}");
            assert_ne!(point(&one, 5), point(&other, 5), "{layout:?}");
            for i in 0..6 {
                for j in 0..i {
                    let moment: f64 =
                        (0..256).map(|case| point(&one, case)).map(|u| (u[i] - 0.5) * (u[j] - 0.5)).sum();
                    let correlation = 12.0 * moment / 256.0;
                    assert!(
                        correlation.abs() < 4.0 / 16.0,
                        "{layout:?}: {i} and {j} go together, {correlation}"
                    );
                }
            }
        }
        assert!(open(0) > 0.0 && open(u64::MAX) < 1.0);
        let largest = SamplingPlan::new(SamplingMethod::Latin, 1 << 26, 3, 1).unwrap();
        let ends = (0..1000).map(|i| point(&largest, i * 67_000)[0]);
        assert!(ends.into_iter().all(|u| 0.0 < u && u < 1.0));
    }

    /// They come as multiples of 2⁻²³, 0 among them, and are moved by half of that.
    #[test]
    fn sobol_coordinates_keep_off_zero() {
        let plan = SamplingPlan::new(SamplingMethod::Sobol, 64, 1, 2).unwrap();
        assert!((0..64).flat_map(|case| point(&plan, case)).all(|u| (u / FINE) as u64 % 2 == 1));
    }

    #[test]
    fn a_plan_beside_another_has_nothing_to_do_with_it() {
        for layout in LAYOUTS {
            let plan = SamplingPlan::new(layout, 1024, 1, 3).unwrap();
            let beside = plan.beside(1024, 3).unwrap();
            let moment: f64 = (0..1024)
                .map(|case| (point(&plan, case), point(&beside, case)))
                .map(|(u, v)| u.iter().zip(v).map(|(u, v)| (u - 0.5) * (v - 0.5)).sum::<f64>())
                .sum();
            let correlation = 12.0 * moment / (3.0 * 1024.0);
            assert!(correlation.abs() < 4.0 / f64::sqrt(3.0 * 1024.0), "{layout:?}: {correlation}");
        }
    }

    /// Mean of x·y² over the cube, 1/6: error against N.
    #[test]
    fn even_layouts_settle_faster_than_random_ones() {
        let error = |layout, count: usize| {
            let squares = (0..8).map(|seed| {
                let plan = SamplingPlan::new(layout, count, seed, 2).unwrap();
                let sum: f64 = (0..count).map(|case| point(&plan, case)).map(|u| u[0] * u[1] * u[1]).sum();
                (sum / count as f64 - 1.0 / 6.0).powi(2)
            });
            (squares.sum::<f64>() / 8.0).sqrt()
        };
        let [random, latin, sobol] = LAYOUTS.map(|layout| [64, 512, 4096].map(|count| error(layout, count)));
        let message = format!("rms error at N = 64, 512, 4096: {random:?}, {latin:?}, {sobol:?}");
        assert!(random[2] < 0.4 * random[0] && sobol[2] < 0.05 * sobol[0], "{message}");
        assert!(latin[2] < 0.7 * random[2] && sobol[2] < 0.05 * random[2], "{message}");
    }

    #[test]
    fn plans_beyond_their_layout_are_refused() {
        let fault = |layout, count, dimensions| SamplingPlan::new(layout, count, 0, dimensions).unwrap_err();
        assert_eq!(
            fault(SamplingMethod::Sobol, 65_537, 2),
            SamplingFault::TooManyCases { count: 65_537, most: 65_536 }
        );
        assert_eq!(
            fault(SamplingMethod::Sobol, 8, 257),
            SamplingFault::TooManyDimensions { dimensions: 257, most: 256 }
        );
        assert_eq!(fault(SamplingMethod::Latin, 0, 2), SamplingFault::Empty { count: 0, dimensions: 2 });
        let last = SamplingPlan::new(SamplingMethod::Sobol, 65_536, 0, 256).unwrap();
        assert!(point(&last, 65_535).iter().all(|u| 0.0 < *u && *u < 1.0));
    }
}
