//! A second, independent star of plates: cells of a millimetre as bars, heat by finite volumes and steps of any order.
//!
//! The separate fibre calculation that `star_tests` compares with stepped its heat with backward Euler over growing steps, which
//! leaves a lasting error. This one steps either way, and so tells what of a difference comes from that.

/// Tee of 200 × 12 and 400 × 8, steel with constant properties.
const PLATES: [[f64; 2]; 2] = [[200.0, 12.0], [400.0, 8.0]];
const E: f64 = 206_000.0;
const ALPHA: f64 = 12e-6;
const RHO_C: f64 = 4.5e-3;
const CONDUCTIVITY: f64 = 0.04;
const YIELD_STRAIN: f64 = 355.0 / E;
const SPREAD_MM: f64 = 3.0;

/// Rule of a time step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum TimeRule {
    /// First order.
    BackwardEuler,
    /// Second order, two stages, L-stable (Alexander 1977).
    TwoStage,
}

/// Cells of the flange from its far edge on, then of the web from the flange up.
struct Star {
    area_mm2: Vec<f64>,
    y_mm: Vec<f64>,
    z_mm: Vec<f64>,
    half: usize,
    flange: usize,
    conduct: [f64; 2],
}

impl Star {
    fn new(cell_mm: f64) -> Self {
        let count = |length: f64| (length / cell_mm).round() as usize;
        let [[b, tf], [h, tw]] = PLATES;
        let (flange, web) = (count(b), count(h));
        let middle = |i: usize| (i as f64 + 0.5) * cell_mm;
        let mut star = Self {
            area_mm2: vec![cell_mm * tf; flange],
            y_mm: vec![0.0; flange],
            z_mm: (0..flange).map(|i| middle(i) - b / 2.0).collect(),
            half: flange / 2,
            flange,
            conduct: [CONDUCTIVITY * tf / cell_mm, CONDUCTIVITY * tw / cell_mm],
        };
        star.area_mm2.extend(vec![cell_mm * tw; web]);
        star.y_mm.extend((0..web).map(middle));
        star.z_mm.extend(vec![0.0; web]);
        star
    }

    fn cells(&self) -> usize {
        self.area_mm2.len()
    }

    /// Rise after the heat (J/mm) fell at once as one bell curve over both plates, K.
    fn heated(&self, heat: f64, [off_mm, up_mm]: [f64; 2]) -> Vec<f64> {
        let weight = |i: usize| {
            let off = if i < self.flange { self.z_mm[i] - off_mm } else { self.y_mm[i] - up_mm };
            (-0.5 * (off / SPREAD_MM).powi(2)).exp()
        };
        let all: f64 = (0..self.cells()).map(|i| weight(i) * self.area_mm2[i]).sum();
        (0..self.cells()).map(|i| heat / RHO_C * weight(i) / all).collect()
    }

    /// The three arms, each from its free end to the joint.
    fn arms(&self) -> [(Vec<usize>, f64); 3] {
        [
            ((0..self.half).collect(), self.conduct[0]),
            ((self.half..self.flange).rev().collect(), self.conduct[0]),
            ((self.flange..self.cells()).rev().collect(), self.conduct[1]),
        ]
    }

    /// Solves (C/Δt + K)·T = `right` by elimination along the arms into the joint.
    fn implicit(&self, step_s: f64, right: &[f64]) -> Vec<f64> {
        let (mut at_joint, mut into, mut kept) = (0.0, 0.0, Vec::new());
        for (arm, k) in self.arms() {
            let (mut d, mut r) = (vec![0.0; arm.len()], vec![0.0; arm.len()]);
            for (m, &i) in arm.iter().enumerate() {
                let outward = if m > 0 { k } else { 0.0 };
                let inward = if m + 1 == arm.len() { 2.0 * k } else { k };
                (d[m], r[m]) = (RHO_C * self.area_mm2[i] / step_s + outward + inward, right[i]);
                if m > 0 {
                    d[m] -= k * k / d[m - 1];
                    r[m] += k / d[m - 1] * r[m - 1];
                }
            }
            let (d_end, r_end) = (d[arm.len() - 1], r[arm.len() - 1]);
            at_joint += 2.0 * k - 4.0 * k * k / d_end;
            into += 2.0 * k * r_end / d_end;
            kept.push((arm, k, d, r));
        }
        let joint = into / at_joint;
        let mut t = vec![0.0; self.cells()];
        for (arm, k, d, r) in kept {
            let (mut inner, mut through) = (joint, 2.0 * k);
            for m in (0..arm.len()).rev() {
                t[arm[m]] = (r[m] + through * inner) / d[m];
                (inner, through) = (t[arm[m]], k);
            }
        }
        t
    }

    /// K·T.
    fn flow(&self, t: &[f64]) -> Vec<f64> {
        let arms = self.arms();
        let end = |arm: &Vec<usize>| arm[arm.len() - 1];
        let (num, den) =
            arms.iter().fold((0.0, 0.0), |(n, d), (arm, k)| (n + 2.0 * k * t[end(arm)], d + 2.0 * k));
        let mut out = vec![0.0; self.cells()];
        for (arm, k) in &arms {
            for pair in arm.windows(2) {
                let q = k * (t[pair[0]] - t[pair[1]]);
                out[pair[0]] += q;
                out[pair[1]] -= q;
            }
            out[end(arm)] += 2.0 * k * (t[end(arm)] - num / den);
        }
        out
    }

    fn step(&self, t: &[f64], step_s: f64, rule: TimeRule) -> Vec<f64> {
        let capacity = |x: &[f64], per: f64| -> Vec<f64> {
            x.iter().zip(&self.area_mm2).map(|(x, a)| RHO_C * a * x / per).collect()
        };
        if rule == TimeRule::BackwardEuler {
            return self.implicit(step_s, &capacity(t, step_s));
        }
        let gamma = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
        let rate = |t: &[f64]| {
            let right: Vec<f64> = self.flow(t).iter().map(|q| -q / (gamma * step_s)).collect();
            self.implicit(gamma * step_s, &right)
        };
        let add = |t: &[f64], by: f64, k: &[f64]| -> Vec<f64> {
            t.iter().zip(k).map(|(t, k)| t + by * step_s * k).collect()
        };
        let first = rate(t);
        let second = rate(&add(t, 1.0 - gamma, &first));
        add(&add(t, 1.0 - gamma, &first), gamma, &second)
    }

    /// Finds the plane in which the bars balance and lets them yield; `plane` is strain and both curvatures.
    fn balance(&self, t: &[f64], plastic: &mut [f64], plane: &mut [f64; 3]) {
        let squash: f64 = self.area_mm2.iter().sum::<f64>() * YIELD_STRAIN;
        for _ in 0..100 {
            let (mut left, mut stiff) = ([0.0; 3], [[0.0_f64; 3]; 3]);
            let mut yielded = plastic.to_vec();
            for i in 0..self.cells() {
                let modes = [1.0, self.y_mm[i], self.z_mm[i]];
                let total: f64 = modes.iter().zip(plane.iter()).map(|(m, p)| m * p).sum();
                let free = total - ALPHA * t[i] - plastic[i];
                let elastic = free.clamp(-YIELD_STRAIN, YIELD_STRAIN);
                yielded[i] += free - elastic;
                let tangent = if (free - elastic).abs() > 0.0 { 1e-9 } else { 1.0 };
                for a in 0..3 {
                    left[a] += self.area_mm2[i] * elastic * modes[a];
                    for b in 0..3 {
                        stiff[a][b] += self.area_mm2[i] * tangent * modes[a] * modes[b];
                    }
                }
            }
            if left[0].abs() < 1e-9 * squash && left[1].abs().max(left[2].abs()) < 1e-7 * squash {
                plastic.copy_from_slice(&yielded);
                return;
            }
            let change = solve(&stiff, &left);
            for (p, c) in plane.iter_mut().zip(change) {
                *p -= c;
            }
        }
        panic!("the bars found no balance");
    }
}

/// A · x = b, three by three, by Cramer's rule.
fn solve(a: &[[f64; 3]; 3], b: &[f64; 3]) -> [f64; 3] {
    let det = |m: &dyn Fn(usize, usize) -> f64| {
        m(0, 0) * (m(1, 1) * m(2, 2) - m(1, 2) * m(2, 1)) - m(0, 1) * (m(1, 0) * m(2, 2) - m(1, 2) * m(2, 0))
            + m(0, 2) * (m(1, 0) * m(2, 1) - m(1, 1) * m(2, 0))
    };
    let whole = det(&|i, j| a[i][j]);
    [0, 1, 2].map(|k| det(&|i, j| if j == k { b[i] } else { a[i][j] }) / whole)
}

/// Force (N) and sweep over 8 m (mm, without sign) that one fillet of 1158 J/mm leaves, its heat about 7 mm beside the web and 3 mm up.
pub(crate) fn one_fillet(cell_mm: f64, steps: i32, rule: TimeRule) -> [f64; 2] {
    const FIRST_S: f64 = 0.05;
    const LAST_S: f64 = 6000.0;
    let star = Star::new(cell_mm);
    let mut t = star.heated(1158.0, [7.0, 3.0]);
    let (mut plastic, mut plane) = (vec![0.0; star.cells()], [0.0; 3]);
    for part in [0.01, 0.03, 0.1, 0.3, 1.0] {
        let warm: Vec<f64> = t.iter().map(|t| part * t).collect();
        star.balance(&warm, &mut plastic, &mut plane);
    }
    let ratio = (LAST_S / FIRST_S).powf(1.0 / f64::from(steps));
    let mut before = 0.0;
    for k in 0..=steps {
        let now = FIRST_S * ratio.powi(k);
        t = star.step(&t, now - before, rule);
        before = now;
        star.balance(&t, &mut plastic, &mut plane);
    }
    for part in [0.75, 0.5, 0.25, 0.0] {
        let cool: Vec<f64> = t.iter().map(|t| part * t).collect();
        star.balance(&cool, &mut plastic, &mut plane);
    }
    let force = -E * star.area_mm2.iter().zip(&plastic).map(|(a, p)| a * p).sum::<f64>();
    [force, (plane[2] * 8e6).abs()]
}
