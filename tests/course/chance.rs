//! How far methods, model and shop spread.

use crate::studies::{run, within};
use weldbow::scatter::Share;

/// Ways of other authors (recalled), all in proportion to leg²: the farthest apart are two weld-area forms, 0.0735 and 0.025 of E·A_w.
#[test]
fn methods_agree_on_the_square_of_the_leg_and_differ_in_size() {
    let run = run("17-methods");
    let names: Vec<String> = run.study.charts[0].y.clone();
    let mut sizes = Vec::new();
    for name in names.iter().filter(|name| name.starts_with("estimates.")) {
        let at = |leg| run.one(name, &[("pass.leg", leg)]);
        within(&format!("{name}, 8 over 4 mm"), at(8.0) / at(4.0), 3.95, 4.05);
        sizes.push(at(6.0));
    }
    sizes.sort_by(f64::total_cmp);
    let (least, most, bound) = (sizes[0], sizes[sizes.len() - 2], sizes[sizes.len() - 1]);
    within("most over least without the bound, by hand 0.0735/0.025 = 2.94", most / least, 2.939, 2.941);
    let ours = run.one("camber.max_mm", &[("pass.leg", 6.0)]);
    assert!(least < ours && ours < bound, "{least} < {ours} < {bound}");
}

/// The spreads are judgement; that bias and scatter add up to the whole is the law of total variance.
#[test]
fn plates_spread_more_than_the_model_is_in_doubt_and_a_part_of_the_pieces_is_out() {
    let run = run("18-scatter");
    let apart = run.study.bias_and_scatter(&run.table, "sweep.max_mm").unwrap();
    let spread = &run.study.spreads(&run.table)[0].all;
    let (bias, scatter) = (apart.bias_sd.powi(2), apart.scatter_sd.powi(2));
    let whole = spread.sd().unwrap().powi(2);
    within("bias and scatter over the whole variance", (bias + scatter) / whole, 0.97, 1.03);
    within("bias over the whole variance", bias / whole, 0.08, 0.3);
    let beyond = run.all("verdicts.sweep.beyond");
    let chance = beyond.iter().sum::<f64>() / beyond.len() as f64;
    within("part beyond the limit", chance, 0.04, 0.13);
    let swings = run.study.swings("sweep.max_mm");
    let wide = |input: &str| {
        let swing = swings.iter().find(|swing| swing.input == input).unwrap();
        (swing.results[1] - swing.results[0]).abs()
    };
    assert!(wide("force") > wide("plate web"), "{swings:?}");
}

/// For a difference of two like terms what differs between them decides, for their sum what they share: variance of sums
/// and differences.
#[test]
fn camber_depends_on_what_differs_between_the_seams_and_sweep_on_what_they_share() {
    let run = run("19-which-input");
    let shares = run.study.shares(&run.table);
    let part = |result: &str, inputs: &[&str]| {
        let all: &[Share] = &shares.iter().find(|s| s.name == result).unwrap().shares;
        all.iter().filter(|s| inputs.contains(&s.input.as_str())).map(|s| s.total.0).sum::<f64>()
    };
    let own = ["leg 1", "leg 2", "force each pass 1", "force each pass 2"];
    let shared = ["force", "heat from leg", "arm"];
    let [of_camber, of_sweep] = ["camber.max_mm", "sweep.max_mm"].map(|result| {
        [&own[..], &shared[..], &["plates camber", "plates sweep"]].map(|inputs| part(result, inputs))
    });
    println!("by what differs, what is shared, plates: camber {of_camber:.3?}, sweep {of_sweep:.3?}");
    within("camber, by what differs over what is shared", of_camber[0] / of_camber[1], 2.0, 1e4);
    within("sweep, by what is shared over what differs", of_sweep[1] / of_sweep[0], 2.0, 1e4);
    within("camber, by plates", of_camber[2], 0.2, 1.05);
    within("sweep, by plates", of_sweep[2], 0.2, 1.05);
}
