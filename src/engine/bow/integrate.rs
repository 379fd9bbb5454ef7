//! Curvature integrated twice along the member.
//!
//! Inside a smooth span each substep takes two Gauss points, exact for a cubic curvature in the slope and a
//! quadratic in the offset: fourth order in the substep. Substeps never cross a break of the member, so the
//! order holds for kinks, splices and pass ends.

use crate::member::Span;
use crate::numerics::{GAUSS_2, LANES, Number, parabola};

/// Slope and offset while integrating from the start end, both 0 there.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Bend<N = f64> {
    /// dv/dx, rad.
    pub slope: N,
    /// v, mm, from the tangent at the start.
    pub offset_mm: N,
}

impl<N: Number> Bend<N> {
    /// Goes on by `step_mm` with v″ (1/mm) at its two Gauss points.
    #[cfg_attr(wide, inline(always))]
    pub fn step(&mut self, step_mm: N, [first, second]: [N; 2]) {
        let [(place, weight), (next, other)] = GAUSS_2;
        let turn = first * weight + second * other;
        let rise = first * (weight * (1.0 - place)) + second * (other * (1.0 - next));
        self.offset_mm += step_mm * (self.slope + step_mm * rise);
        self.slope += step_mm * turn;
    }
}

/// How many substeps no longer than `longest_mm` a span of that length (mm) is cut into.
///
/// ```
/// assert_eq!(weldbow_engine::bow::count_of_substeps(1000.0, 300.0), 4.0);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn count_of_substeps(length_mm: f64, longest_mm: f64) -> f64 {
    (length_mm / longest_mm).ceil().max(1.0)
}

/// Cuts spans into substeps no longer than `longest_mm`: (from, to, index of span). Spans of several cases are cut into as many.
#[cfg_attr(wide, inline(always))]
pub(crate) fn substeps<N: Number>(spans: &[Span<N>], longest_mm: N) -> Vec<(N, N, usize)> {
    /// Most members are cut into fewer.
    const USUAL: usize = 16;
    let mut all = Vec::with_capacity(USUAL);
    for (index, span) in spans.iter().enumerate() {
        let count = count_of_substeps(span.length_mm().nth(0), longest_mm.nth(0));
        let step = span.length_mm() / count;
        let (mut from, mut k) = (span.from_mm, 1.0);
        while k < count {
            let to = span.from_mm + step * k;
            all.push((from, to, index));
            from = to;
            k += 1.0;
        }
        all.push((from, span.to_mm, index));
    }
    all
}

/// Largest offset by size, with sign, and where it is: (mm, mm), from stations x (mm), offsets (mm) and slopes there.
/// Between stations the shape is the cubic through their offsets and slopes.
///
/// ```
/// // 4·x·(1 − x) from two stations alone: slopes +4 and −4, top 1 at the middle
/// let (top, at) = weldbow_engine::bow::largest(&[0.0, 1.0], &[0.0, 0.0], &[4.0, -4.0]);
/// assert!((top - 1.0).abs() < 1e-12 && (at - 0.5).abs() < 1e-12);
/// ```
pub fn largest(x_mm: &[f64], offset_mm: &[f64], slope: &[f64]) -> (f64, f64) {
    let stations = x_mm.len().min(offset_mm.len()).min(slope.len());
    largest_of(stations, &(x_mm, offset_mm, slope))
}

/// A bow that is known station by station.
pub(crate) trait Bowed<N> {
    /// Place (mm), offset (mm) and slope at a station.
    fn at(&self, station: usize) -> [N; 3];
}

impl Bowed<f64> for (&[f64], &[f64], &[f64]) {
    fn at(&self, station: usize) -> [f64; 3] {
        [self.0[station], self.1[station], self.2[station]]
    }
}

/// The same of a bow of so many stations.
#[cfg_attr(wide, inline(always))]
pub(crate) fn largest_of<N: Number>(stations: usize, bow: &impl Bowed<N>) -> (N, N) {
    let nothing = N::default();
    let Some(last) = stations.checked_sub(1) else { return (nothing, nothing) };
    // the highest station of each case
    let (mut most, mut peak) = (nothing, nothing);
    for i in 0..stations {
        let size = bow.at(i)[1].abs();
        peak = size.above(most, N::all(i as f64), peak);
        most = size.max(most);
    }
    let of = |stations: N| {
        let mut each = [[0.0; 3]; LANES];
        for (k, each) in each.iter_mut().enumerate().take(N::COUNT) {
            let [x, offset, slope] = bow.at(stations.nth(k) as usize);
            *each = [x.nth(k), offset.nth(k), slope.nth(k)];
        }
        [N::of(|k| each[k][0]), N::of(|k| each[k][1]), N::of(|k| each[k][2])]
    };
    let [x, v, slope] = of(peak);
    // it rises on toward its top on one side of it; without a station there that is the same one
    let rises = v * slope;
    let from = of(nothing.above(rises, (peak - 1.0).max(nothing), peak));
    let to = of(nothing.above(rises, peak, (peak + 1.0).min(N::all(last as f64))));
    let ends = |part: usize| [from[part], to[part]];
    let mut best = (v, most.above(nothing, x, bow.at(last)[0] * 0.5));
    for (part, offset, x) in flat(ends(0), ends(1), ends(2)) {
        // a part that is no number lies nowhere
        let size = part.above(nothing, (-part + 1.0).above(nothing, offset.abs(), nothing), nothing);
        let most = best.0.abs();
        best = (size.above(most, offset, best.0), size.above(most, x, best.1));
    }
    best
}

/// The same of a smooth shape to which lines with kinks are added: `added` is their offset and slope at x, `kinks_mm` where they turn.
///
/// ```
/// // 4·x·(1 − x) and a roof of 1 with its ridge at 0.25: at the ridge 0.75 + 1, sloping on by 2 − 4/3 up to x = 1/3
/// let roof = |x: f64| if x < 0.25 { (4.0 * x, 4.0) } else { ((1.0 - x) / 0.75, -1.0 / 0.75) };
/// let (top, at) = weldbow_engine::bow::largest_kinked(&[0.0, 1.0], &[0.0, 0.0], &[4.0, -4.0], roof, &[0.25]);
/// assert!((at - 1.0 / 3.0).abs() < 1e-12 && (top - (8.0 / 9.0 + 8.0 / 9.0)).abs() < 1e-12, "{top} at {at}");
/// ```
pub fn largest_kinked(
    x_mm: &[f64],
    offset_mm: &[f64],
    slope: &[f64],
    added: impl Fn(f64) -> (f64, f64),
    kinks_mm: &[f64],
) -> (f64, f64) {
    let mut best = (0.0, x_mm.last().map_or(0.0, |l| l / 2.0));
    peaks(x_mm, offset_mm, slope, added, kinks_mm, |found| {
        if found.0.abs() > f64::abs(best.0) {
            best = found;
        }
    });
    best
}

/// Shows every offset, with its place, that may be the largest of such a shape: stations, kinks and where it is flat between them; a place
/// where two stretches meet comes twice.
pub(super) fn peaks(
    x_mm: &[f64],
    offset_mm: &[f64],
    slope: &[f64],
    added: impl Fn(f64) -> (f64, f64),
    kinks_mm: &[f64],
    mut take: impl FnMut((f64, f64)),
) {
    for ((x, v), s) in x_mm.windows(2).zip(offset_mm.windows(2)).zip(slope.windows(2)) {
        let inside = kinks_mm.iter().copied().filter(|kink| *kink > x[0] && *kink < x[1]);
        let mut ends: Vec<f64> = [x[0], x[1]].into_iter().chain(inside).collect();
        ends.sort_unstable_by(f64::total_cmp);
        let smooth = |at: f64| hermite([x[0], x[1]], [v[0], v[1]], [s[0], s[1]], at);
        for pair in ends.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let ((va, sa), (vb, sb)) = (smooth(a), smooth(b));
            let (more_a, more_b, steep) = (added(a).0, added(b).0, added(0.5 * (a + b)).1);
            take((va + more_a, a));
            flat_points([a, b], [va + more_a, vb + more_b], [sa + steep, sb + steep]).for_each(&mut take);
            take((vb + more_b, b));
        }
    }
}

/// Offset (mm) and slope at x of a line that turns once, at a place (mm) by an angle (rad, + bows it to the + side), from the chord of its
/// ends; the turn itself takes the mean of both slopes. Turned by θ at a it stands out by θ·a·(L − a)/L there:
/// ```
/// let (offset, slope) = weldbow_engine::bow::roof((2500.0, 1e-3), 10_000.0, 2500.0);
/// assert!((offset - 1.875).abs() < 1e-12 && (slope - 0.25e-3).abs() < 1e-15);
/// ```
pub fn roof((at_mm, turn_rad): (f64, f64), length_mm: f64, x_mm: f64) -> (f64, f64) {
    let before = 1.0 - at_mm / length_mm;
    let past = match x_mm.total_cmp(&at_mm) {
        std::cmp::Ordering::Less => 0.0,
        std::cmp::Ordering::Equal => 0.5,
        std::cmp::Ordering::Greater => 1.0,
    };
    (turn_rad * (x_mm * before - (x_mm - at_mm).max(0.0)), turn_rad * (before - past))
}

/// Place, offset, mm, and slope of a bow with a rise (mm) added.
#[cfg_attr(wide, inline(always))]
pub(crate) fn raised<N: Number>([x, offset, slope]: [N; 3], rise_mm: N, length_mm: N) -> [N; 3] {
    let at = x / length_mm;
    let steep = rise_mm * 4.0 / length_mm * (-(x * 2.0 / length_mm) + 1.0);
    [x, offset + rise_mm * parabola(at), slope + steep]
}

/// Offset and slope at x of the cubic between two stations.
pub(super) fn hermite(x: [f64; 2], v: [f64; 2], slope: [f64; 2], at: f64) -> (f64, f64) {
    let h = x[1] - x[0];
    let t = (at - x[0]) / h;
    let (s0, s1) = (h * slope[0], h * slope[1]);
    let a = 3.0 * (v[1] - v[0]) - 2.0 * s0 - s1;
    let b = s0 + s1 - 2.0 * (v[1] - v[0]);
    (v[0] + t * (s0 + t * (a + t * b)), (s0 + t * (2.0 * a + t * 3.0 * b)) / h)
}

/// Points of zero slope of the cubic between two stations: (offset, x).
fn flat_points(x: [f64; 2], v: [f64; 2], slope: [f64; 2]) -> impl Iterator<Item = (f64, f64)> {
    let inside = |t: f64| t.is_finite() && (0.0..=1.0).contains(&t);
    flat(x, v, slope).into_iter().filter(move |point| inside(point.0)).map(|(_, offset, x)| (offset, x))
}

/// The same, each with the part of the way at which it lies, whether or not that is between the stations.
#[cfg_attr(wide, inline(always))]
fn flat<N: Number>(x: [N; 2], v: [N; 2], slope: [N; 2]) -> [(N, N, N); 2] {
    let h = x[1] - x[0];
    let (s0, s1) = (h * slope[0], h * slope[1]);
    // v(t) = v0 + s0·t + a·t² + b·t³ on 0…1
    let a = (v[1] - v[0]) * 3.0 - s0 * 2.0 - s1;
    let b = s0 + s1 - (v[1] - v[0]) * 2.0;
    let root = (a * a - b * 3.0 * s0).max(N::default()).sqrt();
    // the form without cancellation, which also serves b = 0
    let stable = -(a + root.signed_as(a));
    let at = |t: N| (t, v[0] + t * (s0 + t * (a + t * b)), x[0] + t * h);
    [at(stable / (b * 3.0)), at(s0 / stable)]
}
