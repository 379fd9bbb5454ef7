//! What plates bring, against beam theory by hand.

use super::{Assembly, Job, Prediction, predict};
use crate::job::{check, file_of_text};
use crate::scatter::{Draws, by_welds_alone, out_of_limits, welding_alone};
use crate::shrinkage::prior_stress::factor;

/// 9 m level: web 600 × 6, flanges 180 × 10 (outer) and 200 × 12 (inner), both seams at once from the near side.
fn job(outer: &str, inner: &str, web: &str, more: &str) -> Job {
    let text = format!(
        "tolerances = [\"en-1090-2-class-1\"]\n[member]\nlength = \"9 m\"\nsteel = \"S355\"\n\
         depth = [[\"0 m\", \"600 mm\"], [\"9 m\", \"600 mm\"]]\nweb = [{{ thickness = \"6 mm\"{web} }}]\n\
         outer_flange = [{{ width = \"180 mm\", thickness = \"10 mm\"{outer} }}]\n\
         inner_flange = [{{ width = \"200 mm\", thickness = \"12 mm\"{inner} }}]\n{more}\n\
         [[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\n\
         [[pass]]\nseam = \"inner\"\nside = \"near\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\n"
    );
    check(&file_of_text("plates.toml", &text).unwrap_or_else(|c| panic!("{c}"))).unwrap()
}

const NONE: &str = ", bow_scatter = \"0 mm/m\"";
const NO_WEB: &str = ", bow_scatter = \"0 mm/m\", waves_scatter = \"0 mm\"";
const NO_ASSEMBLY: &str = "[assembly]\nweb_edge = \"0 mm\"\nfit_up = \"0 mm\"\nlength = \"0 mm\"\nflange_cup = \"0 mm\"\n\
                           flange_tilt = \"0 mm\"";

fn at_middle(profile: &[[f64; 2]]) -> f64 {
    profile.iter().find(|p| (p[0] - 4500.0).abs() < 1e-6).unwrap()[1]
}

/// κ = Σ(E·I·κ)/(E·I): 2 mm/m near in the outer strip and 1 mm/m far in the inner one over 9 m, I_o = 10·180³/12, I_i = 12·200³/12,
/// the web 600·6³/12. In its plane a web bowed by 1 mm/m takes its flanges along.
#[test]
fn a_member_lets_go_to_the_mean_of_its_strips_by_their_stiffness() {
    let straight = predict(&job("", "", "", ""));
    let bent = predict(&job(
        ", bow = \"2 mm/m\", bow_toward = \"near\"",
        ", bow = \"1 mm/m\", bow_toward = \"far\"",
        ", bow = \"1 mm/m\", bow_toward = \"outer\"",
        "",
    ));
    let [outer, inner, web] = [10.0 * 180.0_f64.powi(3), 12.0 * 200.0_f64.powi(3), 600.0 * 216.0];
    let want = (outer * 18.0 - inner * 9.0) / (outer + inner + web);
    let got = at_middle(&bent.sweep.profile) - at_middle(&straight.sweep.profile);
    println!("sweep by the strips {got:.6} mm, by hand {want:.6}");
    assert!((got - want).abs() < 1e-6, "{got} against {want}");
    let own = 6.0 * 600.0_f64.powi(3);
    let want = -9.0 * own / (own + 180.0 * 1000.0 + 200.0 * 1728.0);
    let got = at_middle(&bent.camber.profile) - at_middle(&straight.camber.profile);
    println!("camber by the web {got:.6} mm, by hand {want:.6}");
    assert!((got - want).abs() < 1e-6, "{got} against {want}");
}

/// Strips that are 2 mm out on 6 m (one deviation) are 4.5 mm out on 9 m; by hand 4.5·√(I_o² + I_i²)/(I_o + I_i), and 1 mm of fit-up.
#[test]
fn strips_differ_by_their_share_and_fit_up_comes_on_top() {
    let [outer, inner] = [10.0 * 180.0_f64.powi(3), 12.0 * 200.0_f64.powi(3)];
    let want = (4.5 * outer.hypot(inner) / (outer + inner)).hypot(1.0);
    let job = job("", "", "", "");
    let got = 9.0 * job.plates_sd()[1];
    let prediction = predict(&job);
    println!("sweep by plates: σ {got:.4} mm, by hand {want:.4}; {}", prediction.sweep.max_2s_of.sentence());
    assert!((got / want - 1.0).abs() < 1e-9, "{got} against {want}");
    let of = prediction.sweep.max_2s_of;
    let parts = of.shared_mm.hypot(of.welding_mm).hypot(of.plates_mm);
    assert!((parts / prediction.sweep.max_2s_mm - 1.0).abs() < 1e-3, "{of:?}");
    // drawn pieces differ by as much
    let out = out_of_limits(&by_welds_alone(&job), &prediction.verdicts, Draws::USUAL, |v| v.value).unwrap();
    assert!(out.sizes.iter().all(|size| size.plates_sd_mm.abs() < 1e-9), "left out: {:?}", out.sizes);
    let out = out_of_limits(&job, &prediction.verdicts, Draws::USUAL, |v| v.value).unwrap();
    let sweep =
        prediction.verdicts.iter().position(|v| v.quantity == crate::tolerance::Quantity::Sweep).unwrap();
    let drawn = out.sizes[sweep].plates_sd_mm;
    println!("drawn: σ {drawn:.3} mm");
    // 2048 pieces of a Latin plan
    assert!((drawn / want - 1.0).abs() < 0.03, "{drawn} against {want}");
    let likely = out.likely[sweep];
    assert!(likely.from_welding_alone.unwrap() <= likely.chance, "{likely:?}");
}

fn bits(p: &Prediction) -> Vec<u64> {
    let bows = [&p.camber, &p.sweep];
    let offsets = bows.iter().flat_map(|b| b.profile.iter().flatten()).chain([&p.shortening_mm]);
    let toes = p.flanges.iter().flat_map(|f| [&f.near_toe_mm, &f.far_toe_mm, &f.cup_rad, &f.tilt_rad]);
    let turns = p.twist.profile.iter().flatten();
    let waves = p.ripple.iter().flat_map(|r| [&r.compression_mpa, &r.wave_mm]);
    offsets.chain(toes).chain(turns).chain(waves).map(|v| v.to_bits()).collect()
}

/// Defaults speak of scatter only; and what comes straight, every piece of it, leaves even the ± to the last digit.
#[test]
fn defaults_leave_the_mean_and_straight_plates_leave_everything() {
    let usual = job("", "", "", "");
    let nothing = job(NONE, NONE, NO_WEB, NO_ASSEMBLY);
    let straight = ", bow = \"0 mm/m\", bow_scatter = \"0 mm/m\"";
    let flat = ", bow = \"0 mm/m\", bow_scatter = \"0 mm/m\", waves = \"0 mm\", waves_scatter = \"0 mm\"";
    let said = job(straight, straight, flat, NO_ASSEMBLY);
    assert!(welding_alone(&nothing) && welding_alone(&said) && !welding_alone(&usual));
    let [a, b, c] = [&usual, &nothing, &said].map(predict);
    assert_eq!(bits(&a), bits(&b), "a default moved a mean");
    assert_eq!(bits(&b), bits(&c), "a vanishing bow moved a mean");
    let of = b.sweep.max_2s_of;
    assert!(of.plates_mm.abs() <= 0.0 && a.sweep.max_2s_mm > b.sweep.max_2s_mm, "{of:?}");
    let spread = |p: &Prediction| p.sweep.profile_2s_mm.iter().map(|v| v.to_bits()).collect::<Vec<_>>();
    assert_eq!(spread(&b), spread(&c));
    assert_eq!(nothing.drawn, Assembly::default());
}

/// Both edges hot: −2·1100·10^1.5/(180·10) = −38.7 MPa press where the fillet shrinks; one edge hot bows the strip besides.
#[test]
fn hot_edges_make_the_fillet_shrink_more_and_one_alone_bows_the_strip() {
    let cold = predict(&job("", "", "", ""));
    let hot = predict(&job(", edges = \"thermally-cut\"", "", "", ""));
    let pressed = -2.0 * 1100.0 * 10.0_f64.powf(1.5) / 1800.0;
    let share = 20.0 / 26.0;
    let want = factor(share * pressed / 355.0);
    let got = hot.passes[0].force_n / cold.passes[0].force_n;
    println!("force × {got:.4}, by hand {want:.4} with the flange's share {share:.3}");
    assert!((got / want - 1.0).abs() < 0.02 && got > 1.05, "{got} against {want}");
    let one = predict(&job(", edges = \"thermally-cut-far\"", "", "", ""));
    let moved = at_middle(&one.sweep.profile) - at_middle(&cold.sweep.profile);
    println!("far edge hot: {moved:.2} mm toward the near side");
    assert!(moved > 5.0, "{moved}");
}
