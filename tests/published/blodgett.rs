//! Blodgett's flange and bow forms: the same in inches and millimetres, and the same through the crate's beam.
//! Sources: Blodgett, Design of Weldments, Δ = 0.02·W·w^1.3/t² (memory, exponents sure); the SI factor 0.19 and the bow
//! form 0.005·A·L²·d/I as quoted in a steel institute's welding guide (read second-hand).

use weldbow::angular::published::blodgett_edge_mm;

#[test]
fn flange_form_is_the_same_in_inches_and_millimetres() {
    for (width, leg, flange) in [(6.0_f64, 0.1875_f64, 0.25_f64), (8.0, 0.25, 0.5), (12.0, 0.3125, 0.75)] {
        let inches = 0.02 * width * leg.powf(1.3) / (flange * flange);
        let mm = blodgett_edge_mm(25.4 * width, 25.4 * leg, 25.4 * flange);
        assert!((mm / 25.4 - inches).abs() < 1e-12, "{} in against {inches} in", mm / 25.4);
    }
}

#[test]
fn flange_form_gives_the_worked_example() {
    // W 150, w 5, t 6 mm: 6.50 mm with the exact factor 0.1925, 6.41 with the printed 0.19
    let mm = blodgett_edge_mm(150.0, 5.0, 6.0);
    assert!((mm - 6.50).abs() < 0.005, "{mm:.3} mm, worked 6.50");
    assert!(
        (mm * 0.19 / 0.192_49 - 6.41).abs() < 0.01,
        "{:.3} mm, printed factor 6.41",
        mm * 0.19 / 0.192_49
    );
}
