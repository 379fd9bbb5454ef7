//! Strips bowed unlike, against Vlasov's prismatic member by hand.

use super::{Job, predict, predict_with_substeps};
use crate::job::{check, file_of_text};
use crate::scatter::{Draws, out_of_limits};
use crate::tolerance::Quantity;

const LENGTH: f64 = 9000.0;

/// 9 m level: web 600 × 6, flanges 180 × 10 (outer) and 200 × 12 (inner), both seams at once from the near side.
fn job(outer: &str, inner: &str, more: &str) -> Job {
    let text = format!(
        "tolerances = [\"en-1090-2-class-1\"]\n[member]\nlength = \"9 m\"\nsteel = \"S355\"\n{more}\n\
         depth = [[\"0 m\", \"600 mm\"], [\"9 m\", \"600 mm\"]]\nweb = [{{ thickness = \"6 mm\" }}]\n\
         outer_flange = [{{ width = \"180 mm\", thickness = \"10 mm\"{outer} }}]\n\
         inner_flange = [{{ width = \"200 mm\", thickness = \"12 mm\"{inner} }}]\n\
         [[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\n\
         [[pass]]\nseam = \"inner\"\nside = \"near\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\n"
    );
    check(&file_of_text("strips.toml", &text).unwrap_or_else(|c| panic!("{c}"))).unwrap()
}

/// Turn amid a member both of whose ends are free to warp, of flanges that want `apart` (1/mm) more in the inner one: B/GJ·(1 − 1/cosh(kL/2))
/// with B = E·I_o·I_i/(I_o + I_i)·h·κ and k² = GJ/(E·I_w) (Vlasov; memory, sure).
fn by_hand(apart: f64) -> f64 {
    let [outer, inner] = [10.0 * 180.0_f64.powi(3) / 12.0, 12.0 * 200.0_f64.powi(3) / 12.0];
    let (h, j) = (611.0, (180.0 * 1000.0 + 200.0 * 1728.0 + 600.0 * 216.0) / 3.0);
    let d = outer * inner / (outer + inner);
    let gj_over_e = j / 2.6;
    let k = (gj_over_e / (d * h * h)).sqrt();
    d * h * apart / gj_over_e * (1.0 - 1.0 / (0.5 * k * LENGTH).cosh())
}

fn amid(profile: &[[f64; 2]]) -> f64 {
    profile.iter().find(|p| (p[0] - 0.5 * LENGTH).abs() < 1e-6).unwrap()[1]
}

/// 2 mm a metre to the far side in the outer strip, as much to the near side in the inner one: 4 mm a metre apart, κ = 8·36 mm/L². The inner
/// flange comes to lie nearer, the positive turn. With more substeps the error falls by the square of their number.
#[test]
fn strips_bowed_to_opposite_sides_turn_the_member_as_vlasov_says() {
    let (far, near) =
        (", bow = \"2 mm/m\", bow_toward = \"far\"", ", bow = \"2 mm/m\", bow_toward = \"near\"");
    let (straight, bent) = (job("", "", ""), job(far, near, ""));
    let want = by_hand(8.0 * 36.0 / (LENGTH * LENGTH));
    let [coarse, fine] = [8.0, 16.0].map(|substeps| {
        let turn = |job| amid(&predict_with_substeps(job, substeps).twist.profile);
        (turn(&bent) - turn(&straight)) / want - 1.0
    });
    println!("strips 4 mm/m apart: {:.2} mrad by hand, off by {coarse:.1e} and {fine:.1e}", 1e3 * want);
    assert!(coarse.abs() < 0.02 && (coarse / fine - 4.0).abs() < 0.4, "{coarse} and {fine}");
    let twist = predict(&bent).twist;
    assert!((twist.by_plates_rad / want - 1.0).abs() < 0.02, "{} against {want}", twist.by_plates_rad);
    // laid to the same side they sweep it and turn it by next to nothing
    let alike = job(near, near, "");
    let turn = amid(&predict(&alike).twist.profile) - amid(&predict(&straight).twist.profile);
    assert!(turn.abs() < 1e-9 * want.abs().max(1.0), "{turn}");
    let held = job(far, near, "held_ends = [\"start\", \"finish\"]");
    assert!(
        predict(&held).twist.by_plates_rad.abs() < 1e-12,
        "a level member held at both ends does not turn"
    );
}

/// Nobody says more: each strip is 2 mm on 6 m out, one deviation, the two flanges apart from one another. Drawn pieces turn by as much, and
/// what turns them moves no mean.
#[test]
fn strips_that_differ_turn_pieces_that_differ() {
    let job = job("", "", "");
    let prediction = predict(&job);
    let want = by_hand(2.0_f64.sqrt() * 8.0 * 2.0 / (6e3 * 6e3));
    let of = prediction.twist.max_2s_of;
    println!(
        "twist by plates: σ {:.3} mrad, by hand {:.3}; {}",
        500.0 * of.plates_rad,
        1e3 * want,
        of.sentence()
    );
    assert!((0.5 * of.plates_rad / want - 1.0).abs() < 0.02, "{of:?} against {want}");
    assert!((of.all_rad() / prediction.twist.max_2s_rad - 1.0).abs() < 1e-12, "{of:?}");
    assert!(prediction.twist.by_plates_rad.abs() <= 0.0);
    let at = prediction.verdicts.iter().position(|v| v.quantity == Quantity::Twist).unwrap();
    let over = prediction.verdicts[at].value / prediction.twist.max_rad;
    let out = out_of_limits(&job, &prediction.verdicts, Draws::USUAL, |v| v.value).unwrap();
    let drawn = out.sizes[at].plates_sd_mm / over;
    println!("drawn: σ {:.3} mrad", 1e3 * drawn);
    // 2048 pieces of a Latin plan, each judged where it turns most
    assert!((drawn / want - 1.0).abs() < 0.08, "{drawn} against {want}");
}

/// Seams on both sides turn a member by next to nothing on the mean; strips that differ turn it more and more toward its deep end, as
/// unsure at one yield strength as at another. The station at which the mean of nothing happens to be largest must not choose the ±:
/// it is that of the far end, where the offset by two deviations is largest.
#[test]
fn a_turn_of_nothing_on_the_mean_is_as_unsure_as_where_it_may_be_most() {
    let seam = |seam, side, step| {
        format!("[[pass]]\nseam = \"{seam}\"\nside = \"{side}\"\nleg = \"6 mm\"\nstep = {step}\n")
    };
    let passes: String = [("near", 1), ("far", 2)]
        .map(|(side, step)| seam("outer", side, step) + &seam("inner", side, step))
        .concat();
    let mut may_mm = Vec::new();
    for mpa in [240, 280, 320] {
        let text = format!(
            "tolerances = [\"en-1090-2-class-1\"]\n[member]\nlength = \"10 m\"\nsteel = {{ yield = \"{mpa} MPa\", tensile = \"500 MPa\" }}\n\
             depth = [[\"0 m\", \"400 mm\"], [\"10 m\", \"800 mm\"]]\nweb = [{{ thickness = \"6 mm\" }}]\n\
             outer_flange = [{{ width = \"200 mm\", thickness = \"12 mm\" }}]\n\
             inner_flange = [{{ width = \"200 mm\", thickness = \"10 mm\" }}]\n{passes}"
        );
        let job = check(&file_of_text("turn.toml", &text).unwrap_or_else(|c| panic!("{c}"))).unwrap();
        let prediction = predict(&job);
        let twist = &prediction.twist;
        println!(
            "{mpa} MPa: {:.3} ± {:.3} mrad at {:.0} mm, end to end ± {:.3} mrad",
            1e3 * twist.max_rad,
            1e3 * twist.max_2s_rad,
            twist.at_mm,
            1e3 * twist.end_to_end_2s_rad
        );
        assert!((twist.at_mm - 10e3).abs() < 1e-6, "{} mm", twist.at_mm);
        assert!((twist.max_2s_rad / twist.end_to_end_2s_rad - 1.0).abs() < 1e-12, "{}", twist.max_2s_rad);
        let judged = prediction.verdicts.iter().find(|v| v.quantity == Quantity::Twist).unwrap();
        // 800 mm of web and both flanges, seen from the start; from the finish it may be more in between
        let want = 822.0 * (twist.end_to_end_rad.abs() + twist.end_to_end_2s_rad);
        let may = judged.value.abs() + judged.value_2s;
        assert!(may > want - 1e-9, "{may} mm, by hand {want} at least");
        may_mm.push(may);
    }
    println!("offset by the turn: {may_mm:?} mm at most");
    assert!(may_mm.iter().all(|mm| (mm / may_mm[0] - 1.0).abs() < 0.01), "{may_mm:?}");
}
