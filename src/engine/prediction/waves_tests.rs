//! Waves of the web as delivered, against plate theory by hand.

use super::{Job, Prediction, predict};
use crate::job::{check, file_of_text};
use crate::scatter::{Draws, out_of_limits};
use crate::tolerance::Quantity;

/// 6 m level, web 600 × 6 or as said, flanges 200 × 12, both seams at once from the near side.
fn job(depth_mm: f64, web: &str) -> Job {
    let text = format!(
        "tolerances = [\"en-1090-2-class-1\"]\n[member]\nlength = \"6 m\"\nsteel = \"S355\"\n\
         depth = [[\"0 m\", \"{depth_mm} mm\"], [\"6 m\", \"{depth_mm} mm\"]]\nweb = [{{ {web} }}]\n\
         outer_flange = [{{ width = \"200 mm\", thickness = \"12 mm\" }}]\n\
         inner_flange = [{{ width = \"200 mm\", thickness = \"12 mm\" }}]\n\
         [[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\n\
         [[pass]]\nseam = \"inner\"\nside = \"near\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\n"
    );
    check(&file_of_text("waves.toml", &text).unwrap_or_else(|c| panic!("{c}"))).unwrap()
}

const FLAT: &str = "waves_scatter = \"0 mm\"";

/// Far from buckling a wave of one kind stands at w₀/(1 − σ/σ_cr) (Timoshenko; memory, sure), σ_cr = 5.485·186 183·(6/600)² = 102 MPa.
#[test]
fn a_wave_as_delivered_grows_by_what_presses_it() {
    let prediction = predict(&job(600.0, &format!("thickness = \"6 mm\", waves = \"0.2 mm\", {FLAT}")));
    let r = prediction.ripple[4];
    let want = 0.2 / (1.0 - r.compression_mpa / (5.485 * 186_183.0 * 1e-4));
    println!("pressed by {:.1} MPa: {:.4} mm, by hand {want:.4}", r.compression_mpa, r.wave_mm);
    assert!(r.compression_mpa > 5.0 && (r.wave_mm / want - 1.0).abs() < 5e-3, "{r:?}");
}

/// EN 10029 class N (memory): 6 mm plate may stand 1 % off a straightedge of 600 mm; a third is one deviation, and half of it is left between
/// straight flanges. Pressed, it is somewhat more. Plate that differs by 3 mm takes webs out of their limit, and the chance says by what.
#[test]
fn nobody_says_more_and_the_webs_of_pieces_differ_by_what_plate_may() {
    let of = |more: &str| job(600.0, &format!("thickness = \"6 mm\"{more}"));
    let (usual, flat, rough) =
        (of(""), of(&format!(", {FLAT}")), of(", waves = \"0 mm\", waves_scatter = \"3 mm\""));
    let [a, b, c] = [&usual, &flat, &rough].map(predict);
    let (plates, bare) = (a.ripple[4].wave_2s_of, b.ripple[4].wave_2s_of);
    println!("600 × 6: {}", plates.said());
    assert!((2.0..2.8).contains(&plates.plates_mm), "two deviations of 1 mm: {plates:?}");
    assert!(bare.plates_mm.abs() <= 0.0 && a.ripple[4].wave_mm.to_bits() == b.ripple[4].wave_mm.to_bits());
    let at = a.verdicts.iter().position(|v| v.quantity == Quantity::WebFlatness).unwrap();
    assert!((a.verdicts[at].value_2s / plates.plates_mm - 1.0).abs() < 1e-9);
    let none = std::collections::BTreeMap::new();
    let likely = |job: &Job, found: &Prediction| {
        out_of_limits(job, &found.verdicts, &none, Draws::USUAL, |v| v.value).unwrap().likely[at]
    };
    let (few, many) = (likely(&usual, &a), likely(&rough, &c));
    println!("web out in {:.4} of pieces, in {:.3} of rough plate", few.chance, many.chance);
    assert!(few.chance < 0.01 && many.chance > 0.02, "{few:?}, {many:?}");
    assert_eq!(many.from_welding_alone, Some(0.0), "{many:?}");
}

/// A web that buckles by its welds has the waves of a flat one when it comes flat, to the last digit, and more when it does not.
#[test]
fn a_thin_web_that_comes_wavy_waves_more() {
    let of = |more: &str| predict(&job(1200.0, &format!("thickness = \"4 mm\", {more}"))).ripple[4];
    let (flat, said, wavy) =
        (of(FLAT), of(&format!("waves = \"0 mm\", {FLAT}")), of(&format!("waves = \"4 mm\", {FLAT}")));
    println!("flat {:.2} mm, came with 4 mm {:.2} mm", flat.wave_mm, wavy.wave_mm);
    assert!(flat.wave_mm > 1.0 && flat.working < 1.0, "{flat:?}");
    assert_eq!(flat, said, "a vanishing wave moved a number");
    assert!(wavy.wave_mm > flat.wave_mm.max(4.0) && wavy.wave_mm < flat.wave_mm + 4.0 + 1.0, "{wavy:?}");
}
