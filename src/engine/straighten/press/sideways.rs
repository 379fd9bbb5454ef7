//! The force at which a member that is pushed about its strong axis goes sideways and twists: lateral-torsional buckling of a
//! web-tapered I with unequal flanges, whose load stays on the flange it pushes.
//!
//! Each flange is a beam in its own plane, the web keeps its shape: u_o and u_i are the sideways displacements of both flange
//! middles, θ = (u_i − u_o)/h. With y from the middle of the (straight) outer flange, M + when that flange is compressed, the
//! second variation of the energy is
//! ½∫(E·I_o·u_o″² + E·I_i·cos³β·u_i″² + G·J·θ′²)dx + ∫(u_o′·(M·θ)′ + ½·M·β_y·θ′²)dx + ½ΣF·y_F·θ²,
//! β_y = ∫(y − c)(y² + z²)dA/I_z, F the forces on the member (+ toward the inner flange) at their height y_F. The stresses in
//! web and inclined flange are those of the beam, and vertical equilibrium of the web takes the place of its stress across: what
//! is left has the same form tapered or not (own derivation; the prismatic form is that of Anderson and Trahair, 1972).
//! Bending of the web out of its plane and warping held by what overhangs are left out: both would only help.
//!
//! Cubic elements for u_o and u_i; the lowest load is bracketed by whether K + λ·G is positive definite.

use super::banded::{Band, ELEMENT, NODE};
use super::span::E_OVER_G;
use super::{PressLayout, PushFrom};
use crate::member::{Member, Parts, Seam, Span, properties, spans};
use crate::numerics::{GAUSS_4, halved};

/// Longest element over the press span; halving it changes the load by less than one part in a thousand.
const LONGEST: f64 = 0.101;
/// Accuracy of the critical load.
const CLOSE: f64 = 1e-3;
/// A load this many times the one asked about is called endless.
const ENDLESS: f64 = 1e4;

/// A member in a press, as it may go sideways.
pub struct Sideways {
    stiff: Band,
    /// Of a newton in every ram.
    load: Band,
    nodes_mm: Vec<f64>,
}

/// Where the ram's force acts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Height {
    /// On the outer face of the flange that is pushed.
    PushedFlange,
    /// So far from the middle of the outer flange, toward the inner one, mm (for checks against published values).
    FromOuter(f64),
}

impl Sideways {
    /// The member between the supports of a push about its strong axis, free but for what [`Self::critical_n`] holds. `held_mm`:
    /// every place that may be held, so that a node stands there.
    pub fn new(member: &Member, layout: &PressLayout, held_mm: &[f64], height: Height) -> Self {
        Self::graded(member, layout, held_mm, height, LONGEST)
    }

    /// The same with elements as long as that, over the span.
    pub fn graded(
        member: &Member,
        layout: &PressLayout,
        held_mm: &[f64],
        height: Height,
        longest: f64,
    ) -> Self {
        let [a, b] = layout.supports_mm;
        let breaks = [a, b].into_iter().chain(layout.rams.places_mm()).chain(held_mm.iter().copied());
        let inside = |s: &Span| s.middle_mm() > a && s.middle_mm() < b;
        let smooth: Vec<Span> = spans(member, breaks).into_iter().filter(inside).collect();
        let mut nodes_mm = vec![a];
        let mut elements: Vec<(&Span, f64, f64)> = Vec::new();
        for span in &smooth {
            let parts = (span.length_mm() / (longest * layout.span_mm())).ceil().max(1.0);
            for i in 0..parts as u32 {
                let at = |k: u32| span.from_mm + f64::from(k) / parts * span.length_mm();
                elements.push((span, at(i), at(i + 1)));
                nodes_mm.push(at(i + 1));
            }
        }
        let mut all =
            Self { stiff: Band::of_nodes(nodes_mm.len()), load: Band::of_nodes(nodes_mm.len()), nodes_mm };
        let sign = layout.from.sign();
        for (node, (span, from, to)) in elements.into_iter().enumerate() {
            all.add(node, member, layout, span, (from, to), sign);
        }
        for ram in layout.rams.places_mm() {
            all.press(member, ram, height, layout.from);
        }
        all
    }

    fn add(
        &mut self,
        node: usize,
        member: &Member,
        layout: &PressLayout,
        span: &Span,
        (from, to): (f64, f64),
        sign: f64,
    ) {
        let (mut k, mut g) = ([[0.0; ELEMENT]; ELEMENT], [[0.0; ELEMENT]; ELEMENT]);
        let e = member.steel.e_mpa;
        let length = to - from;
        for (place, weight) in GAUSS_4 {
            let x = from + place * length;
            let s = Across::of(span, x);
            let rows = Rows::at(place, length, &s);
            let w = weight * length;
            let moment = sign * layout.moment_of_rams(x);
            let shear = sign * layout.shear_of_rams(x);
            for i in 0..ELEMENT {
                for j in 0..=i {
                    let both = |p: &[f64; ELEMENT], q: &[f64; ELEMENT]| p[i] * q[j] + q[i] * p[j];
                    k[i][j] += w
                        * (0.5 * e * s.i_mm4[0] * both(&rows.bend[0], &rows.bend[0])
                            + 0.5 * e * s.i_mm4[1] * both(&rows.bend[1], &rows.bend[1])
                            + 0.5 * e / E_OVER_G * s.torsion_mm4 * both(&rows.twist, &rows.twist));
                    g[i][j] += w
                        * (moment * both(&rows.slope, &rows.twist)
                            + shear * both(&rows.slope, &rows.turn)
                            + 0.5 * moment * s.beta_mm * both(&rows.twist, &rows.twist));
                }
            }
        }
        self.stiff.add_element(node, &k);
        self.load.add_element(node, &g);
    }

    /// The force of a ram at its height.
    fn press(&mut self, member: &Member, at_mm: f64, height: Height, from: PushFrom) {
        let plates = member.plates_at(at_mm);
        let depth = middles_mm(member, at_mm);
        let y = match height {
            Height::FromOuter(y) => y,
            Height::PushedFlange if from == PushFrom::Outer => -0.5 * plates.flange_mm(Seam::Outer).1,
            Height::PushedFlange => depth + 0.5 * plates.flange_mm(Seam::Inner).1,
        };
        let near = |p: &f64| (p - at_mm).abs() < 1e-6;
        let Some(node) = self.nodes_mm.iter().position(near) else { return };
        let (outer, inner) = (NODE * node, NODE * node + 2);
        let value = from.sign() * y / (depth * depth);
        self.load.add(outer, outer, value);
        self.load.add(inner, outer, -value);
        self.load.add(inner, inner, value);
    }

    /// Force of each ram (N) at which the member goes sideways while it is held, both flanges alike, at these places (mm); none if
    /// it is far above `about_n`. Held at a place: neither flange moves sideways there; it may still turn about the vertical.
    pub fn critical_n(&self, held_mm: &[f64], about_n: f64) -> Option<f64> {
        let held = self.held(held_mm);
        let stable = |force: f64| self.stiff.is_positive(&self.load, force, &held);
        let (mut low, mut high) = (0.0, about_n);
        while stable(high) {
            (low, high) = (high, 4.0 * high);
            if high > ENDLESS * about_n {
                return None;
            }
        }
        Some(halved([low, high], usize::MAX, |low, high| high - low > CLOSE * high, stable)[0])
    }

    /// Whether it stays straight under that force of each ram (N), held at these places (mm).
    pub(crate) fn stands(&self, held_mm: &[f64], force_n: f64) -> bool {
        self.stiff.is_positive(&self.load, force_n, &self.held(held_mm))
    }

    fn held(&self, held_mm: &[f64]) -> Vec<bool> {
        let mut held = vec![false; NODE * self.nodes_mm.len()];
        for at in held_mm {
            if let Some(node) = self.nodes_mm.iter().position(|p| (p - at).abs() < 1e-6) {
                held[NODE * node] = true;
                held[NODE * node + 2] = true;
            }
        }
        held
    }
}

/// Distance of the flange middles at x, mm.
pub(super) fn middles_mm(member: &Member, x_mm: f64) -> f64 {
    let plates = member.plates_at(x_mm);
    let upright = member.depth.slope(x_mm).hypot(1.0);
    member.depth.depth_mm(x_mm) + 0.5 * plates.outer_mm.1 + 0.5 * plates.inner_mm.1 * upright
}

/// A section as sideways bending and twist see it.
struct Across {
    /// Distance of the flange middles, mm, and its slope.
    h_mm: f64,
    slope: f64,
    /// Of both flanges in their own plane.
    i_mm4: [f64; 2],
    torsion_mm4: f64,
    /// ∫(y − c)(y² + z²)dA/I_z.
    beta_mm: f64,
}

impl Across {
    fn of(span: &Span, x_mm: f64) -> Self {
        let (p, depth) = (&span.plates, span.depth_mm(x_mm));
        let whole = properties(p, depth, span.slope, Parts::ALL);
        let cos = 1.0 / span.slope.hypot(1.0);
        let narrow = cos * cos * cos;
        let ((b_o, t_o), (b_i, t_i)) = (p.outer_mm, p.inner_mm);
        let first = 0.5 * t_o;
        let (h, c) = (first + depth + 0.5 * t_i / cos, whole.centroid_mm + first);
        let last = first + depth;
        let web =
            p.web_mm * ((last.powi(4) - first.powi(4)) / 4.0 - c * (last.powi(3) - first.powi(3)) / 3.0);
        let outer = b_o * t_o * -c * b_o * b_o / 12.0;
        let inner = b_i * t_i * narrow * (h - c) * (h * h + b_i * b_i / 12.0);
        let strip = |b: f64, t: f64| b * t * t * t / 3.0;
        Self {
            h_mm: h,
            slope: span.slope,
            i_mm4: [b_o * b_o * b_o * t_o / 12.0, narrow * b_i * b_i * b_i * t_i / 12.0],
            torsion_mm4: strip(b_o, t_o) + narrow * strip(b_i, t_i) + strip(depth, p.web_mm),
            beta_mm: (web + outer + inner) / whole.i_z_mm4,
        }
    }
}

/// What each unknown of an element (u_o, u_o′, u_i, u_i′ at both nodes) adds to u_o′, θ, θ′ and both u″.
struct Rows {
    slope: [f64; ELEMENT],
    turn: [f64; ELEMENT],
    twist: [f64; ELEMENT],
    bend: [[f64; ELEMENT]; 2],
}

impl Rows {
    fn at(s: f64, length: f64, across: &Across) -> Self {
        let l = length;
        let value = [1.0 - 3.0 * s * s + 2.0 * s * s * s, l * s * (1.0 - s) * (1.0 - s)];
        let value = [value[0], value[1], 1.0 - value[0], l * s * s * (s - 1.0)];
        let first = [
            6.0 * s * (s - 1.0) / l,
            1.0 - 4.0 * s + 3.0 * s * s,
            6.0 * s * (1.0 - s) / l,
            3.0 * s * s - 2.0 * s,
        ];
        let second = [
            (12.0 * s - 6.0) / (l * l),
            (6.0 * s - 4.0) / l,
            (6.0 - 12.0 * s) / (l * l),
            (6.0 * s - 2.0) / l,
        ];
        let mut rows = Self {
            slope: [0.0; ELEMENT],
            turn: [0.0; ELEMENT],
            twist: [0.0; ELEMENT],
            bend: [[0.0; ELEMENT]; 2],
        };
        let h = across.h_mm;
        for n in 0..4 {
            // u and u′ of a node stand together, outer before inner
            let outer = NODE * (n / 2) + n % 2;
            let inner = outer + 2;
            rows.slope[outer] = first[n];
            (rows.turn[outer], rows.turn[inner]) = (-value[n] / h, value[n] / h);
            let twist = first[n] / h - across.slope * value[n] / (h * h);
            (rows.twist[outer], rows.twist[inner]) = (-twist, twist);
            rows.bend[0][outer] = second[n];
            rows.bend[1][inner] = second[n];
        }
        rows
    }
}
