//! The curve a web is cut to, against kinks and parabolas by hand.

use super::{Job, OwnLimit, Prediction, predict};
use crate::job::{check, file_of_text};
use crate::tolerance::{Quantity, Set, Verdict};

/// Level, prismatic, both seams from the near side along its whole length: the seams bow it to one curvature.
fn job(length_m: u32, web: &str, more: &str) -> Job {
    with_inner(length_m, web, more, "{ width = \"300 mm\", thickness = \"20 mm\" }")
}

/// The same with an inner flange of these plates.
fn with_inner(length_m: u32, web: &str, more: &str, inner: &str) -> Job {
    let text = format!(
        "tolerances = [\"en-1090-2-class-1\"]\n{more}\n[member]\nlength = \"{length_m} m\"\nsteel = \"S355\"\n\
         depth = [[\"0 m\", \"900 mm\"], [\"{length_m} m\", \"900 mm\"]]\nweb = [{web}]\n\
         outer_flange = [{{ width = \"300 mm\", thickness = \"16 mm\" }}]\n\
         inner_flange = [{inner}]\n\
         [[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"6 mm\"\n[[pass]]\nseam = \"inner\"\nside = \"near\"\nleg = \"6 mm\"\n"
    );
    check(&file_of_text("cut.toml", &text).unwrap_or_else(|c| panic!("{c}"))).unwrap()
}

const PLATE: &str = "{ thickness = \"10 mm\" }";
const CLEAT: &str =
    "[[attachment]]\nkind = \"cleat\"\nat = [\"2.5 m\"]\nto = [\"outer_flange\"]\nleg = \"6 mm\"";

/// Turned by θ at a the member stands out by θ·x·(L − a)/L before it and θ·a·(L − x)/L after it; the web is cut the other way.
#[test]
fn a_weld_across_turns_the_cut_the_other_way_with_straight_lines_to_its_place() {
    let [bare, kinked] = ["", CLEAT].map(|more| predict(&job(10, PLATE, more)));
    let turn = kinked.cross_welds.as_ref().unwrap().welds[0].camber_kink_rad;
    let most = turn * 2500.0 * 7500.0 / 10_000.0;
    assert!(most.abs() > 0.05, "{most} mm is too little to see");
    for (x, part) in [(0.0, 0.0), (1250.0, 0.5), (2500.0, 1.0), (5000.0, 2.0 / 3.0), (10_000.0, 0.0)] {
        let got = kinked.allowance.web.outer_mm(x) - bare.allowance.web.outer_mm(x);
        let want = -part * most;
        println!("{x} mm: {got:.6} mm, by hand {want:.6}");
        assert!((got - want).abs() < 1e-9, "{x} mm: {got} against {want}");
    }
    assert!(kinked.allowance.web.places_mm().contains(&2500.0), "the turn is a place of the outline");
}

/// The cut list, the outline and the shortening of both edges are one length: seams and welds across together.
#[test]
fn a_web_is_as_much_longer_as_its_edges_shorten() {
    let [bare, kinked] = ["", CLEAT].map(|more| predict(&job(10, PLATE, more)));
    let more = |p: &Prediction| {
        let edges = 0.5 * (p.shortening.outer_edge_mm + p.shortening.inner_edge_mm);
        let (listed, drawn) = (p.allowance.pieces[0].shrinkage_mm, p.allowance.web.shrinkage_mm(0.0, 10e3));
        println!("edges {edges:.6} mm, cut list {listed:.6}, outline {drawn:.6}");
        assert!((edges - listed).abs() < 1e-9 && (drawn - listed).abs() < 1e-9);
        drawn
    };
    assert!(more(&kinked) > more(&bare) + 0.005);
    // nothing before the weld, all of it after
    let halves = |p: &Prediction| {
        [(0.0, 2e3), (3e3, 10e3), (2e3, 3e3)].map(|(from, to)| p.allowance.web.shrinkage_mm(from, to))
    };
    let (bare, kinked) = (halves(&bare), halves(&kinked));
    assert!((bare[0] - kinked[0]).abs() < 1e-12 && (bare[1] - kinked[1]).abs() < 1e-12);
    assert!(kinked[2] > bare[2] + 0.005, "{kinked:?} {bare:?}");
}

/// A plate bowed 0.5 mm/m toward the outer side lies 5 mm out on 10 m, and stiff as it is takes its flanges along: it is cut as much the
/// other way, as a parabola.
#[test]
fn a_plate_that_comes_bowed_is_cut_straight_again() {
    let bowed = "{ thickness = \"10 mm\", bow = \"0.5 mm/m\", bow_toward = \"outer\" }";
    let [bare, bent] = [PLATE, bowed].map(|web| predict(&job(10, web, "")));
    let flat = 300.0 * (16.0_f64.powi(3) + 20.0_f64.powi(3));
    let own = 10.0 * 900.0_f64.powi(3);
    let most = 5.0 * own / (own + flat);
    for (x, part) in [(1250.0, 0.4375), (2500.0, 0.75), (5000.0, 1.0)] {
        let got = bent.allowance.web.outer_mm(x) - bare.allowance.web.outer_mm(x);
        let want = part * most;
        println!("{x} mm: {got:.6} mm, by hand {want:.6}");
        assert!((got - want).abs() < 1e-6, "{x} mm: {got} against {want}");
    }
}

/// 120 mm wanted toward the outer flange, and seams that bow it by c to the inner one, both parabolas: 120 mm + c are missing at
/// mid-length and three quarters of that at the quarters, however many plates the web has.
#[test]
fn a_wanted_camber_is_judged_and_cut_at_mid_length_whatever_the_stations() {
    let camber = "[camber]\nrise = \"120 mm\"\ntoward = \"outer\"";
    let spliced = "{ to = \"8 m\", thickness = \"10 mm\" }, { to = \"16 m\", thickness = \"10 mm\" }, { thickness = \"10 mm\" }";
    let own = predict(&job(24, PLATE, "")).camber.max_mm;
    let want = 120.0 + own;
    assert!(own > 0.5, "{own}");
    for web in [PLATE, spliced] {
        let p = predict(&job(24, web, camber));
        let stations = &p.camber.profile;
        let worst = p.verdicts.iter().find(|v| v.quantity == Quantity::Camber).unwrap();
        println!("{} stations: {:.6} at {} mm, by hand {want:.6}", stations.len(), worst.value, worst.at_mm);
        assert!((worst.value + want).abs() < 1e-6 && (worst.at_mm - 12e3).abs() < 1e-3);
        let (most, at) = p.allowance.web.largest();
        assert!((most + want).abs() < 1e-6 && (at - 12e3).abs() < 1e-3, "{most} at {at}");
        for x in [6e3, 18e3] {
            let got = p.allowance.web.outer_mm(x);
            assert!((got + 0.75 * want).abs() < 1e-6, "{x}: {got} against {}", -0.75 * want);
        }
    }
}

/// By hand: the thicker plate is tapered down to the thinner one. 8 mm is welded with square edges, 1.9e-3·180 = 0.342 mm drawn in, half of
/// that to each plate; 10 mm as a single V with a gap of 2 mm, A/t = 2 + 8²·tan 30°/10 = 5.695 mm, 0.2·5.695 + 0.05·2 = 1.239 mm drawn in,
/// (1.239 − 2)/2 to each plate; nothing is drawn in after assembly, half of the gap is left.
#[test]
fn a_mirrored_member_is_cut_and_bows_as_its_mirror_image() {
    for (thin, thick, made, half) in [
        (8, 14, "before", 0.171),
        (8, 30, "before", 0.171),
        (10, 19, "before", -0.380_5),
        (8, 14, "after", 0.0),
        (10, 30, "after", -1.0),
    ] {
        let piece =
            |to: &str, mm: i32| format!("{{ {to}width = \"{}00 mm\", thickness = \"{mm} mm\"", 1 + mm / 8);
        let both = |at: &str, first, second| {
            let first = piece(&format!("to = \"{at}\", "), first);
            let inner =
                format!("{first}, splice = {{ made = \"{made}-assembly\" }} }}, {} }}", piece("", second));
            predict(&with_inner(10, PLATE, "", &inner))
        };
        let (one, other) = (both("4 m", thin, thick), both("6 m", thick, thin));
        let said = |p: &Prediction, i: usize| {
            (p.allowance.pieces[2 + i].splices_mm, p.allowance.pieces[2 + i].cut_mm)
        };
        let what = format!("{thin} mm on {thick} mm, {made} assembly");
        println!(
            "{what}: {:?} {:?}, mirrored {:?} {:?}",
            said(&one, 0),
            said(&one, 1),
            said(&other, 1),
            said(&other, 0)
        );
        println!("  camber {:.4} mm, mirrored {:.4} mm", one.camber.max_mm, other.camber.max_mm);
        for i in [0, 1] {
            let (a, b) = (said(&one, i), said(&other, 1 - i));
            assert!(
                (a.0 - half).abs() < 1e-3 && (b.0 - half).abs() < 1e-3,
                "{what}: {} and {}, by hand {half}",
                a.0,
                b.0
            );
            assert!((a.1 - b.1).abs() < 1e-6, "{what}: cut to {} and {} mm", a.1, b.1);
        }
        for (a, b) in [(&one.camber, &other.camber), (&one.sweep, &other.sweep)] {
            assert!((a.max_mm - b.max_mm).abs() < 1e-6, "{what}: bow of {} and {} mm", a.max_mm, b.max_mm);
            assert!((a.at_mm + b.at_mm - 10e3).abs() < 1e-2, "{what}: at {} and {} mm", a.at_mm, b.at_mm);
        }
        for (a, b) in one.verdicts.iter().zip(&other.verdicts) {
            let of = |v: &Verdict| [v.value.abs(), v.value_2s];
            println!("  {:?} {:?}, mirrored {:?}", a.quantity, of(a), of(b));
            let near = of(a).iter().zip(of(b)).all(|(a, b)| (a - b).abs() < 1e-6);
            assert!(near && a.verdict == b.verdict, "{what}: {a:?}, mirrored {b:?}");
        }
    }
}

/// −0/+20 mm on 10 m (AWS D1.1, 7.22.3) is met best at 10 mm more than wanted, 7.5 mm at the quarters, where 15 mm are allowed; with ±6 mm of
/// one's own beside it 0 to 6 mm are left, and 3 mm more is the middle. As much to either side leaves the aim at the wanted camber.
#[test]
fn a_web_is_cut_for_the_middle_of_what_all_limits_on_its_camber_allow() {
    let camber = "[camber]\nrise = \"15 mm\"\ntoward = \"outer\"";
    let usual = job(10, PLATE, camber);
    let own = OwnLimit { quantity: Quantity::Camber, limit_mm: 6.0, part_of_length: None };
    let aws = Job { tolerances: vec![Set::AwsD11], ..usual.clone() };
    for (job, more) in [(&usual, 0.0), (&aws, 10.0), (&Job { own_limits: vec![own], ..aws.clone() }, 3.0)] {
        let p = predict(job);
        for (x, part) in [(5e3, 1.0), (2.5e3, 0.75), (0.0, 0.0)] {
            let bow = p.camber.shape.offset_at_mm(x);
            let (got, want) = (p.allowance.web.outer_mm(x), -part * (15.0 + more) - bow);
            println!("{} at {x} mm: {got:.4} mm, by hand {want:.4}", job.aim());
            assert!((got - want).abs() < 1e-6, "{x} mm: {got} mm, by hand {want}");
        }
        for verdict in p.verdicts.iter().filter(|v| v.quantity == Quantity::Camber) {
            let x = verdict.at_mm / 10e3;
            assert!((verdict.made_up - more * 4.0 * x * (1.0 - x)).abs() < 1e-9, "{verdict:?}");
        }
    }
}
