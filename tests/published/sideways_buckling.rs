//! The load at which a beam in a press goes sideways, against a published table, closed forms and finer elements.

use crate::cases::check;
use crate::support;
use serde::Deserialize;
use weldbow::member::{Member, Parts, Profile, properties};
use weldbow::straighten::press::{Height, PressLayout, PushFrom, Rams, Sideways};

const SHEET: &str = "sideways_buckling";

#[derive(Deserialize, Default, Clone)]
#[serde(deny_unknown_fields, default)]
struct Given {
    k: f64,
    eps: f64,
    delta: f64,
    length_mm: f64,
    height: String,
}

const WEB: (f64, f64) = (600.0, 6.0);
const FLANGE: (f64, f64) = (200.0, 10.0);
/// Between the flange middles, mm.
const H: f64 = 610.0;

/// Constants of a beam whose inner flange has that width: E·I_y and G·J, I_w/J·E/G, shear centre from the outer flange, β_x.
struct Beam {
    ei: f64,
    gj: f64,
    warping_mm2: f64,
    shear_centre_mm: f64,
    beta_mm: f64,
}

fn beam(inner_mm: f64) -> Beam {
    let m = support::prismatic(1e3, WEB, FLANGE, (inner_mm, FLANGE.1));
    let e = m.steel.e_mpa;
    let (bo, t) = FLANGE;
    let own = |b: f64| b * b * b * t / 12.0;
    let (io, ii) = (own(bo), own(inner_mm));
    let torsion = (bo * t.powi(3) + inner_mm * t.powi(3) + WEB.0 * WEB.1.powi(3)) / 3.0;
    let s = properties(&m.plates_at(500.0), WEB.0, 0.0, Parts::ALL);
    let c = s.centroid_mm + 0.5 * t;
    let shear_centre_mm = H * ii / (io + ii);
    // ∫y(y² + z²)dA/I from the centroid, y toward the inner flange, by adding strips of the web
    let n = 4000;
    let web: f64 = (0..n)
        .map(|i| {
            (0.5 * t + (f64::from(i) + 0.5) / f64::from(n) * WEB.0 - c).powi(3) * WEB.1 * WEB.0 / f64::from(n)
        })
        .sum();
    let flange = |y: f64, b: f64| b * t * y * (y * y + b * b / 12.0);
    let third = web + flange(-c, bo) + flange(H - c, inner_mm);
    // + if the larger flange is compressed; compression is on the outer side, toward −y
    let beta_mm = third / s.i_z_mm4 - 2.0 * (shear_centre_mm - c);
    Beam {
        ei: e * (io + ii),
        gj: e / 2.6 * torsion,
        warping_mm2: e * io * ii / (io + ii) * H * H / (e / 2.6 * torsion),
        shear_centre_mm,
        beta_mm,
    }
}

fn central(length: f64, member: &Member, height: Height, longest: f64) -> f64 {
    let layout = PressLayout::centred(0.5 * length, length, PushFrom::Outer);
    let held = layout.supports_mm;
    Sideways::graded(member, &layout, &held, height, longest).critical_n(&held, 1e3).unwrap()
}

/// γ = P·L²/√(E·I_y·G·J) of the beam with that K and δ, loaded there.
fn gamma(g: &Given) -> f64 {
    let length = |b: &Beam| std::f64::consts::PI * b.warping_mm2.sqrt() / g.k;
    let delta = |b: &Beam| b.beta_mm / length(b) * (b.ei / b.gj).sqrt();
    // δ falls as the inner flange, in tension, grows
    let (mut low, mut high) = (40.0, 1000.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if delta(&beam(middle)) > g.delta { low = middle } else { high = middle }
    }
    let b = beam(low);
    assert!((delta(&b) - g.delta).abs() < 1e-6, "no beam of δ {}", g.delta);
    let l = length(&b);
    let above = g.eps * l / (b.ei / b.gj).sqrt();
    let member = support::prismatic(l, WEB, FLANGE, (low, FLANGE.1));
    central(l, &member, Height::FromOuter(b.shear_centre_mm - above), 0.101) * l * l / (b.ei * b.gj).sqrt()
}

fn section_a(length: f64) -> Member {
    let mut m = support::prismatic(length, WEB, FLANGE, FLANGE);
    m.steel.e_mpa = 210e3;
    m
}

fn worked(g: &Given) -> f64 {
    let height = match g.height.as_str() {
        "above" => Height::FromOuter(0.5 * H - 310.0),
        "below" => Height::FromOuter(0.5 * H + 310.0),
        _ => Height::FromOuter(0.5 * H),
    };
    central(g.length_mm, &section_a(g.length_mm), height, 0.101) * g.length_mm / 4e6
}

/// Two rams a hair from the supports bend the span evenly.
fn even(g: &Given) -> f64 {
    let (l, near) = (g.length_mm, 1e-3 * g.length_mm);
    let layout =
        PressLayout { supports_mm: [0.0, l], rams: Rams::Two(near, l - near), from: PushFrom::Outer };
    let held = layout.supports_mm;
    let found =
        Sideways::new(&section_a(l), &layout, &held, Height::FromOuter(0.5 * H)).critical_n(&held, 1e6);
    found.unwrap() * near / 1e6
}

#[test]
fn a_central_load_buckles_beams_as_the_published_table_says() {
    check(SHEET, "gamma", gamma);
    check(SHEET, "central moment", worked);
    check(SHEET, "even moment", even);
}

/// The load on the pushed flange is the worst place: what the plan uses stands a little above the flange's middle.
#[test]
fn finer_elements_change_the_load_ever_less_tapered_or_not() {
    let mut tapered = support::prismatic(8e3, WEB, FLANGE, (250.0, 14.0));
    tapered.depth = Profile::new(vec![(0.0, 300.0), (8e3, 1100.0)]);
    for member in [section_a(8e3), tapered] {
        for from in [PushFrom::Outer, PushFrom::Inner] {
            let layout = PressLayout { supports_mm: [400.0, 7600.0], rams: Rams::Two(2600.0, 5200.0), from };
            let held = [400.0, 2600.0, 5200.0, 7600.0];
            let of = |longest| {
                Sideways::graded(&member, &layout, &held, Height::PushedFlange, longest)
                    .critical_n(&held, 1e5)
                    .unwrap()
            };
            let [usual, fine, finer] = [0.101, 0.05, 0.025].map(of);
            println!("{from:?}: {usual:.0} N, {fine:.0} N, {finer:.0} N");
            assert!((usual / finer - 1.0).abs() < 3e-3 && (fine / finer - 1.0).abs() < 2e-3);
        }
    }
}

/// Kaehler, White and Kim, AISC/MBMA Design Guide 25 (memory): the prismatic formula at mid-length of an unbraced stretch of
/// a web-tapered member, C_b from the flange stresses.
#[test]
fn a_tapered_stretch_lies_between_its_ends_and_near_the_design_guides_formula() {
    let l = 3000.0;
    for (small, large) in [(400.0, 800.0), (500.0, 700.0), (300.0, 1000.0)] {
        let mut m = support::prismatic(2.0 * l, (small, 6.0), FLANGE, FLANGE);
        m.depth = Profile::new(vec![(0.0, small), (l, large), (2.0 * l, small)]);
        let layout = PressLayout { supports_mm: [0.0, 2.0 * l], rams: Rams::One(l), from: PushFrom::Outer };
        let held = [0.0, l, 2.0 * l];
        let of = |m: &Member| {
            Sideways::new(m, &layout, &held, Height::PushedFlange).critical_n(&held, 1e6).unwrap() * 0.5 * l
                / 1e6
        };
        let found = of(&m);
        let level = |depth: f64| of(&support::prismatic(2.0 * l, (depth, 6.0), FLANGE, FLANGE));
        // stresses over that at the deep end: nothing at the support, and midway
        let section = |d: f64| {
            let s = properties(&m.plates_at(1.0), d, 0.0, Parts::ALL);
            s.i_z_mm4 / (0.5 * d + 10.0)
        };
        let middle = 0.5 * (small + large);
        let (f0, fm, f2) = (0.0, 0.5 / section(middle), 1.0 / section(large));
        let f1: f64 = (2.0_f64 * fm - f2).max(f0);
        let cb = (1.75 - 1.05 * f1 / f2 + 0.3 * (f1 / f2).powi(2)).min(2.3);
        let e = m.steel.e_mpa;
        let (iy, h) = (2.0 * 200.0_f64.powi(3) * 10.0 / 12.0, middle + 10.0);
        let j = (400.0 * 1000.0 + middle * 216.0) / 3.0;
        let even = std::f64::consts::PI / l
            * (e * iy * e / 2.6 * j).sqrt()
            * (1.0 + std::f64::consts::PI.powi(2) * 2.6 * iy * h * h / 4.0 / (j * l * l)).sqrt();
        // the multiplier is of the stress at mid-length
        let guide = cb * even / section(middle) / f2 / 1e6;
        println!(
            "{small} to {large}: {found:.0} kNm, level {:.0} and {:.0}, by the guide {guide:.0}",
            level(small),
            level(large)
        );
        assert!(found > level(small) && found < level(large), "outside its ends");
        assert!((found / guide - 1.0).abs() < 0.25, "{found} against {guide}");
    }
}

/// A basis of sines for both flanges, worked with many midpoints: other functions, other integration.
#[test]
fn a_series_of_sines_finds_the_load_of_a_tapered_beam_again() {
    let l = 6000.0;
    let mut m = support::prismatic(l, (400.0, 6.0), (200.0, 10.0), (160.0, 12.0));
    m.depth = Profile::new(vec![(0.0, 400.0), (l, 900.0)]);
    let at = 3500.0;
    let layout = PressLayout { supports_mm: [0.0, l], rams: Rams::One(at), from: PushFrom::Outer };
    let found =
        Sideways::new(&m, &layout, &[0.0, l], Height::FromOuter(0.0)).critical_n(&[0.0, l], 1e5).unwrap();
    let [few, many] = [10, 18].map(|n| sines(&m, l, at, n));
    println!("elements {found:.0} N, sines {few:.0} and {many:.0} N");
    assert!((found / many - 1.0).abs() < 5e-3 && few >= many * (1.0 - 1e-6));
}

fn sines(m: &Member, l: f64, at: f64, n: usize) -> f64 {
    let (size, steps) = (2 * n, 2000);
    let (mut k, mut g) = (vec![vec![0.0; size]; size], vec![vec![0.0; size]; size]);
    let e = m.steel.e_mpa;
    for i in 0..steps {
        let dx = l / f64::from(steps);
        let x = (f64::from(i) + 0.5) * dx;
        let (p, d, slope) = (m.plates_at(x), m.depth.depth_mm(x), m.depth.slope(x));
        let cos = 1.0 / slope.hypot(1.0);
        let ((bo, to), (bi, ti)) = (p.outer_mm, p.inner_mm);
        let h = d + 0.5 * to + 0.5 * ti / cos;
        let s = properties(&p, d, slope, Parts::ALL);
        let c = s.centroid_mm + 0.5 * to;
        let cells = 200;
        let web: f64 = (0..cells)
            .map(|j| {
                let y = 0.5 * to + (f64::from(j) + 0.5) * d / f64::from(cells);
                (y - c) * y * y * p.web_mm * d / f64::from(cells)
            })
            .sum();
        let third =
            web - c * bo * to * bo * bo / 12.0 + (h - c) * bi * ti * cos.powi(3) * (h * h + bi * bi / 12.0);
        let (io, ii) = (bo.powi(3) * to / 12.0, bi.powi(3) * ti / 12.0 * cos.powi(3));
        let j = (bo * to.powi(3) + cos.powi(3) * bi * ti.powi(3) + d * p.web_mm.powi(3)) / 3.0;
        let (moment, shear) =
            if x < at { (x * (l - at) / l, (l - at) / l) } else { (at * (l - x) / l, -at / l) };
        let w = |q: usize| (q % n + 1) as f64 * std::f64::consts::PI / l;
        let row = |q: usize| {
            let (value, first, second) =
                ((w(q) * x).sin(), w(q) * (w(q) * x).cos(), -w(q) * w(q) * (w(q) * x).sin());
            let sign = if q < n { -1.0 } else { 1.0 };
            let slope_o = if q < n { first } else { 0.0 };
            (slope_o, sign * value / h, sign * (first / h - slope * value / (h * h)), second)
        };
        let rows: Vec<_> = (0..size).map(row).collect();
        for a in 0..size {
            for b in 0..size {
                let ((ua, ta, wa, ca), (ub, tb, wb, cb)) = (rows[a], rows[b]);
                let bend = if (a < n) == (b < n) { if a < n { io } else { ii } } else { 0.0 };
                k[a][b] += dx * (e * bend * ca * cb + e / 2.6 * j * wa * wb);
                g[a][b] += dx
                    * (moment * (ua * wb + wa * ub)
                        + shear * (ua * tb + ta * ub)
                        + moment * third / s.i_z_mm4 * wa * wb);
            }
        }
    }
    let positive = |f: f64| {
        let mut a: Vec<Vec<f64>> =
            k.iter().zip(&g).map(|(k, g)| k.iter().zip(g).map(|(k, g)| k + f * g).collect()).collect();
        for i in 0..size {
            if a[i][i] <= 0.0 {
                return false;
            }
            for j in i + 1..size {
                let factor = a[j][i] / a[i][i];
                let pivot = a[i].clone();
                for (low, high) in a[j].iter_mut().zip(&pivot).skip(i) {
                    *low -= factor * high;
                }
            }
        }
        true
    };
    let (mut low, mut high) = (0.0, 1e7);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if positive(middle) { low = middle } else { high = middle }
    }
    low
}
