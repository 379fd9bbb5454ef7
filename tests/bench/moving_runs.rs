//! A leg laid in two runs by slices with a travelling arc.

use weldbow::joint_solver::{
    ElementKind, Fineness, Joint, Root, RoundSource, SectionPass, SectionSteel, Sequence, SolverSettings,
};
use weldbow::moving_arc::{Travel, travel};
use weldbow::welding::Side;

/// A leg in two runs of the same heat, the second laid over the first: flange, web, leg, mm; heat of a run, J/mm. The far fillet of the mesh, which these
/// joints do not have, stands for the layer outside the first run's leg.
pub(crate) fn runs() {
    println!(
        "\n| two runs, 150 mm | cup and tilt of the first | of both | first, and its heat again | one run of all the heat |"
    );
    println!("|---|---|---|---|---|");
    let fineness = Fineness { per_leg: 4, even: 3, growth: 1.4 };
    for (flange, web, leg, heat) in
        [(10.0, 6.0, 8.0, 800.0), (12.0, 8.0, 8.0, 900.0), (16.0, 8.0, 8.0, 900.0)]
    {
        let joint = |leg: f64| Joint {
            flange_width_mm: 180.0,
            flange_mm: flange,
            web_mm: web,
            web_stub_mm: 200.0,
            near_leg_mm: Some(leg),
            far_leg_mm: None,
            root: Root::Tied,
        };
        let first = leg / 2.0_f64.sqrt();
        let pass = |leg: f64, heat: f64, lays: Vec<Side>| {
            let source = RoundSource::beside_web(web, leg, Side::Near, heat, 9.0 / leg);
            SectionPass { lays, sources: vec![source], wait_s: None, pulse_s: source.passing_s(12.0) }
        };
        let solved = |leg: f64, layered: bool, passes: Vec<SectionPass>| {
            let joint = joint(leg);
            let settings =
                SolverSettings { source_legs: 9.0 / leg, tolerance: 3e-4, ..SolverSettings::STANDARD };
            let mut sequence =
                Sequence::of_joint(&joint, fineness, SectionSteel::hot(355.0), settings).unwrap();
            let (nodes, elements) = (sequence.mesh.nodes_mm.clone(), &mut sequence.mesh.elements);
            for element in
                elements.iter_mut().filter(|e| layered && e.part == ElementKind::Fillet(Side::Near))
            {
                let centre = |k: usize| element.nodes[..4].iter().map(|&n| nodes[n][k]).sum::<f64>() / 4.0;
                if centre(0) - 0.5 * web + centre(1) > first {
                    element.part = ElementKind::Fillet(Side::Far);
                }
            }
            sequence.passes = passes;
            let asked = Travel { slices: 6, step_mm: 8.0, ..Travel::of(150.0, 12.0) };
            let out = travel(&sequence, &joint, &asked, &mut |_| true).unwrap();
            let shape = |p: &weldbow::moving_arc::PassTravelled| p.amid().and_then(|a| a.shape).unwrap();
            let said = |p| format!("{:.2}, {:.2}", 1e3 * shape(p).cup_rad, 1e3 * shape(p).tilt_rad.unwrap());
            out.passes.iter().map(said).collect::<Vec<String>>()
        };
        let both =
            solved(leg, true, vec![pass(first, heat, vec![Side::Near]), pass(leg, heat, vec![Side::Far])]);
        let again =
            solved(first, false, vec![pass(first, heat, vec![Side::Near]), pass(first, heat, vec![])]);
        let one = solved(leg, false, vec![pass(leg, 2.0 * heat, vec![Side::Near])]);
        println!(
            "| {flange}/{web}/{leg}, 2 × {heat} J/mm | {} | {} | {} | {} |",
            both[0], both[1], again[1], one[0]
        );
    }
}
