//! Conduction and thermo-elasticity of the section solver against a general-purpose finite element library.
//!
//! Constant properties, the same tee; the library's own mesh of quadratic triangles, its own time stepping. Its numbers are in the
//! sheet, the script that made them beside it.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use crate::cases::{Case, all_checked, load};
use serde::Deserialize;
use weldbow::joint_solver::{
    Fineness, Heat, Joint, MaterialLaw, Mesh, NodalField, Point, SectionSteel, Slice, SliceHold, Solid,
    Stepping, Supports, Surface, ThermalTable, at_nodes, points,
};

const SHEET: &str = "section_elements";
const TEE: Joint = Joint::USUAL;
/// Elements half as large each time.
const LEVELS: [Fineness; 3] = [
    Fineness { per_leg: 2, even: 4, growth: 1.2 },
    Fineness { per_leg: 4, even: 8, growth: 1.2 },
    Fineness { per_leg: 8, even: 16, growth: 1.2 },
];

#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    #[serde(default)]
    across_mm: f64,
    #[serde(default)]
    up_mm: f64,
    #[serde(default)]
    time_s: f64,
    #[serde(default)]
    axis: usize,
}

struct Tee {
    mesh: Mesh,
    points: Vec<Point>,
}

impl Tee {
    fn new(fineness: Fineness) -> Self {
        let mesh = TEE.mesh(fineness).unwrap();
        let points = mesh.elements.iter().flat_map(|e| points(&mesh, e)).collect();
        Self { mesh, points }
    }

    fn node(&self, place: [f64; 2]) -> usize {
        let near = |p: &[f64; 2]| (p[0] - place[0]).hypot(p[1] - place[1]) < 1e-6;
        self.mesh.nodes_mm.iter().position(near).unwrap()
    }

    /// Rise of temperature at a place, K, at each of the times of the cases.
    fn rises(&self, cases: &[Case<Given>]) -> Vec<f64> {
        let start = |p: &[f64; 2]| {
            20.0 + 1000.0 * (-3.0 * ((p[0] - 6.0).powi(2) + (p[1] - 2.0).powi(2)) / 81.0).exp()
        };
        let mut t_c: Vec<f64> = self.mesh.nodes_mm.iter().map(start).collect();
        let table = ThermalTable::constant(4.5e-3, 40.0);
        let there = vec![true; self.mesh.elements.len()];
        let mut heat =
            Heat::new(&self.mesh, &self.points, &there, &table, Surface::INSULATED, Stepping::TrBdf2, &t_c)
                .unwrap();
        let idle = vec![0.0; heat.unknowns()];
        let (mut now, mut dt, mut found) = (0.0_f64, 0.02_f64, Vec::new());
        for case in cases {
            while now < case.given.time_s - 1e-9 {
                let step = dt.min(case.given.time_s - now);
                heat.step(step, &idle).unwrap();
                now += step;
                dt *= 1.05;
            }
            heat.temperatures(&mut t_c);
            let place = [case.given.across_mm, case.given.up_mm];
            found.push(NodalField::new(&self.mesh, &t_c).at(place, |_| true).unwrap() - 20.0);
        }
        found
    }

    /// Strain, curvatures, displacements and stress of the elastic tee.
    fn elastic(&self, wanted: &[Case<Given>]) -> Vec<f64> {
        let steel = SectionSteel {
            e_mpa: 210_000.0,
            yield_mpa: 1e9,
            hardening_mpa: 0.0,
            anneal_c: 1000.0,
            law: MaterialLaw::Constant(1.2e-5),
        };
        let (far, near) = (self.node([-4.0, 150.0]), self.node([4.0, 150.0]));
        let supports = Supports { always: vec![2 * far, 2 * far + 1, 2 * near + 1], while_hot: vec![] };
        let alive = vec![true; self.mesh.elements.len()];
        let mut solid = Solid::new(&self.mesh, &self.points, steel, supports, alive.clone(), 1e-10).unwrap();
        solid.hold(SliceHold { lengthwise: false, in_plane: false });
        let hot = |p: &Point| {
            let [y, z] = p.at_mm;
            20.0 + 200.0 * (-3.0 * ((y - 6.0).powi(2) + (z - 2.0).powi(2)) / 400.0).exp()
        };
        solid.advance(&self.points.iter().map(hot).collect::<Vec<_>>(), 0.0).unwrap();
        let (plane, moved) = (solid.plane(), solid.displaced_mm().unwrap());
        let along: Vec<f64> = solid.stress().iter().map(|s| s[0]).collect();
        let stress = at_nodes(&self.mesh, &along, &alive);
        let one = |case: &Case<Given>| {
            let given = &case.given;
            let place = [given.across_mm, given.up_mm];
            match case.quantity.as_str() {
                "strain" => plane[0],
                "curvature" => plane[1 + given.axis],
                "moved" => moved[self.node(place)][given.axis],
                _ => NodalField::new(&self.mesh, &stress).at(place, |_| true).unwrap(),
            }
        };
        wanted.iter().map(one).collect()
    }
}

/// Largest error of each level over the size of the largest value; fails where the middle level misses its tolerance.
fn errors(cases: &[Case<Given>], of: impl Fn(&Tee, &[Case<Given>]) -> Vec<f64>) -> [f64; 3] {
    let largest = cases.iter().map(|c| c.expected.abs()).fold(0.0, f64::max);
    LEVELS.map(|fineness| {
        let found = of(&Tee::new(fineness), cases);
        if fineness.per_leg == 4 {
            let complaints: Vec<String> =
                cases.iter().zip(&found).filter_map(|(case, got)| case.complaint(*got)).collect();
            assert!(complaints.is_empty(), "{}", complaints.join("\n"));
        }
        cases.iter().zip(&found).map(|(c, got)| (got - c.expected).abs() / largest).fold(0.0, f64::max)
    })
}

fn of(quantity: &str) -> Vec<Case<Given>> {
    load::<Given>(SHEET).into_iter().filter(|case| case.quantity == quantity).collect()
}

#[test]
fn heat_spreads_as_in_the_library_and_closer_on_a_finer_mesh() {
    let errors = errors(&of("rise"), Tee::rises);
    println!("rise of temperature: errors {errors:.5?} of the largest at 2, 4, 8 elements a leg");
    assert!(errors[1] < 0.6 * errors[0] && errors[2] < 0.6 * errors[1], "{errors:?}");
}

#[test]
fn elastic_strains_displacements_and_stress_are_those_of_the_library_and_closer_on_a_finer_mesh() {
    for quantity in ["strain", "curvature", "moved", "stress"] {
        let errors = errors(&of(quantity), Tee::elastic);
        println!("{quantity}: errors {errors:.5?} of the largest at 2, 4, 8 elements a leg");
        // Displacements and strains are at the rounding of the sheet already where the mesh is standard.
        assert!(errors[2] < 0.6 * errors[0] || errors[0] < 1e-4, "{quantity}: {errors:?}");
    }
}

#[test]
fn no_value_of_the_sheet_goes_unchecked() {
    all_checked::<Given>(SHEET, &["rise", "strain", "curvature", "moved", "stress"]);
}
