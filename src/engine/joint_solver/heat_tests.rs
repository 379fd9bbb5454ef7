use super::super::RoundSource;
use super::super::grading::{even, graded};
use super::super::mesh::ElementKind;
use super::super::shape::points;
use super::*;

/// ρc, J/(mm³ K), and conductivity, W/(m K), of the bar theory.
const HEAT: f64 = 4.5e-3;
const CONDUCTIVITY: f64 = 40.0;
const DIFFUSIVITY: f64 = CONDUCTIVITY * 1e-3 / HEAT;

struct Body {
    mesh: Mesh,
    points: Vec<Point>,
}

impl Body {
    fn new(across: &[f64], up: &[f64]) -> Self {
        let mesh = Mesh::block(across, up, ElementKind::Flange).unwrap();
        let points = mesh.elements.iter().flat_map(|e| points(&mesh, e)).collect();
        Self { mesh, points }
    }

    fn start<'a>(
        &self,
        table: &'a ThermalTable,
        surface: Surface,
        stepping: Stepping,
        t_c: impl Fn([f64; 2]) -> f64,
    ) -> Heat<'a> {
        let t_c: Vec<f64> = self.mesh.nodes_mm.iter().map(|p| t_c(*p)).collect();
        let there = vec![true; self.mesh.elements.len()];
        Heat::new(&self.mesh, &self.points, &there, table, surface, stepping, &t_c).unwrap()
    }

    fn rise_at(&self, heat: &Heat, place: [f64; 2]) -> f64 {
        let near = |p: &[f64; 2]| (p[0] - place[0]).hypot(p[1] - place[1]);
        let mut t_c = vec![f64::NAN; self.mesh.nodes_mm.len()];
        heat.temperatures(&mut t_c);
        let best = (0..t_c.len())
            .filter(|&n| !t_c[n].is_nan())
            .min_by(|&a, &b| near(&self.mesh.nodes_mm[a]).total_cmp(&near(&self.mesh.nodes_mm[b])))
            .unwrap();
        assert!(near(&self.mesh.nodes_mm[best]) < 1e-6, "no corner node at {place:?}");
        t_c[best] - 20.0
    }
}

/// Runs to each of the times with steps growing by that ratio from a twentieth of the first time; largest relative error
/// against `exact(time, place)` over the places, of the scale of the hottest.
fn worst(
    body: &Body,
    heat: &mut Heat,
    growth: f64,
    times: &[f64],
    places: &[[f64; 2]],
    exact: impl Fn(f64, [f64; 2]) -> f64,
) -> f64 {
    let power = vec![0.0; heat.unknowns()];
    let (mut now, mut dt, mut worst) = (0.0, times[0] / 20.0, 0.0_f64);
    for &time in times {
        while now < time - 1e-9 {
            let step = dt.min(time - now);
            heat.step(step, &power).unwrap();
            now += step;
            dt *= growth;
        }
        let scale = exact(time, places[0]);
        for &place in places {
            worst = worst.max(((body.rise_at(heat, place) - exact(time, place)) / scale).abs());
        }
    }
    worst
}

/// Line heat Q on a plate 6 mm thick, Gaussian at the start: Q/(ρc t √(2π s²)) exp(−y²/2s²), s² = s₀² + 2 a t
/// (Carslaw and Jaeger 1959, 10.3: instantaneous plane source).
fn thin_plate(size: f64, growth: f64, stepping: Stepping) -> f64 {
    let (thick, q, s0) = (6.0, 300.0, 4.0_f64);
    let body = Body::new(&even(0.0, 240.0, (240.0 / size).round() as usize), &even(0.0, thick, 2));
    let table = ThermalTable::constant(HEAT, CONDUCTIVITY);
    let exact = |t: f64, p: [f64; 2]| {
        let s2 = s0 * s0 + 2.0 * DIFFUSIVITY * t;
        q / (HEAT * thick * (std::f64::consts::TAU * s2).sqrt()) * (-p[0] * p[0] / (2.0 * s2)).exp()
    };
    let mut heat = body.start(&table, Surface::INSULATED, stepping, |p| 20.0 + exact(0.0, p));
    let places = [0.0, 6.0, 12.0, 24.0].map(|y| [y, 0.0]);
    worst(&body, &mut heat, growth, &[2.0, 10.0, 30.0, 100.0], &places, exact)
}

#[test]
fn a_line_source_in_a_thin_plate_spreads_as_the_closed_form_and_better_with_finer_elements() {
    let errors = [2.0, 1.0, 0.5].map(|h| thin_plate(h, 1.02, Stepping::TrBdf2));
    let orders = [(errors[0] / errors[1]).log2(), (errors[1] / errors[2]).log2()];
    println!("thin plate, 2/1/0.5 mm: errors {errors:.5?}, orders {orders:.2?}");
    assert!(errors[1] < 5e-3 && errors[2] < 1.5e-3, "{errors:?}");
    assert!(orders.iter().all(|o| (o - 2.0).abs() < 0.35), "{errors:?}, orders {orders:?}");
}

#[test]
fn growing_steps_leave_a_permanent_error_with_backward_euler_and_none_with_two_stages() {
    let euler = thin_plate(1.0, 1.2, Stepping::BackwardEuler);
    let two_stages = thin_plate(1.0, 1.2, Stepping::TrBdf2);
    println!("steps growing by 1.2: backward Euler {euler:.2e}, two stages {two_stages:.2e}");
    assert!(euler > 0.02, "backward Euler is only {euler:e} off: the comparison says nothing");
    assert!(two_stages < 4e-3, "{two_stages}");
}

/// Line heat Q on the face of a half space: Q/(2π ρc a (t + t₀)) exp(−r²/4a(t + t₀))
/// (Carslaw and Jaeger 1959, 10.3: instantaneous line source, twice it on a face).
fn half_space(size: f64) -> f64 {
    let (q, t0) = (1000.0, 1.5);
    let deep = graded(150.0, size, 16, 1.1);
    let body = Body::new(&deep, &deep);
    let table = ThermalTable::constant(HEAT, CONDUCTIVITY);
    let exact = |t: f64, p: [f64; 2]| {
        let spread = DIFFUSIVITY * (t + t0);
        q / (std::f64::consts::TAU * HEAT * spread) * (-(p[0] * p[0] + p[1] * p[1]) / (4.0 * spread)).exp()
    };
    let mut heat = body.start(&table, Surface::INSULATED, Stepping::TrBdf2, |p| 20.0 + exact(0.0, p));
    let on_axis = |k: usize| [deep[k], 0.0];
    worst(&body, &mut heat, 1.05, &[1.0, 3.0, 10.0, 30.0], &[on_axis(0), on_axis(2), on_axis(4)], exact)
}

#[test]
fn a_line_source_on_a_half_space_spreads_as_the_closed_form() {
    let errors = [2.0, 1.0].map(half_space);
    println!("half space, 2/1 mm: {errors:.5?}");
    assert!(errors[1] < 5e-3 && errors[1] < errors[0] / 2.0, "{errors:?}");
}

/// Content of the middle node after 8 s of a steady source in steel with losses, in so many equal steps.
fn middle_after(steps: u32, stepping: Stepping) -> f64 {
    let body = Body::new(&even(0.0, 30.0, 10), &even(0.0, 10.0, 4));
    let table = ThermalTable::constant(HEAT, CONDUCTIVITY);
    let mut heat = body.start(&table, Surface::AIR, stepping, |_| 20.0);
    let source = RoundSource { centre_mm: [0.0, 10.0], radius_mm: 9.0, heat_j_per_mm: 400.0 };
    let shares = source.shares(&body.mesh, &body.points, &vec![true; body.mesh.elements.len()], None);
    let power: Vec<f64> = heat.gathered(&shares).iter().map(|q| q / 8.0).collect();
    for _ in 0..steps {
        heat.step(8.0 / f64::from(steps), &power).unwrap();
    }
    body.rise_at(&heat, [0.0, 10.0])
}

#[test]
fn halving_the_time_step_divides_the_error_by_four_and_by_two_with_backward_euler() {
    for (stepping, order) in [(Stepping::TrBdf2, 2.0), (Stepping::BackwardEuler, 1.0)] {
        let u = [16, 32, 64].map(|n| middle_after(n, stepping));
        let got = ((u[0] - u[1]) / (u[1] - u[2])).abs().log2();
        println!("{stepping:?}: {u:?}, order {got:.2}");
        assert!((got - order).abs() < 0.3, "{stepping:?}: {u:?}, order {got:.2}");
    }
}

#[test]
fn what_the_arc_gives_is_what_steel_holds_and_the_air_took() {
    let body = Body::new(&even(0.0, 60.0, 30), &even(0.0, 10.0, 5));
    let table = ThermalTable::steel();
    let mut heat = body.start(&table, Surface::AIR, Stepping::TrBdf2, |_| 20.0);
    let source = RoundSource { centre_mm: [0.0, 10.0], radius_mm: 6.0, heat_j_per_mm: 800.0 };
    let shares = source.shares(&body.mesh, &body.points, &vec![true; body.mesh.elements.len()], None);
    let power: Vec<f64> = heat.gathered(&shares).iter().map(|q| q / 2.0).collect();
    for _ in 0..24 {
        heat.step(2.0 / 24.0, &power).unwrap();
    }
    let hottest = body.rise_at(&heat, [0.0, 10.0]) + 20.0;
    let mut dt = 0.1;
    let idle = vec![0.0; power.len()];
    for _ in 0..60 {
        heat.step(dt, &idle).unwrap();
        dt *= 1.1;
    }
    // Heat held, again, from the temperatures alone and the closed form of the standard.
    let mut t_c = vec![20.0; body.mesh.nodes_mm.len()];
    heat.temperatures(&mut t_c);
    let held: f64 = body
        .mesh
        .elements
        .iter()
        .zip(body.points.chunks_exact(4))
        .flat_map(|(e, points)| {
            points.iter().flat_map(|p| (0..4).map(|k| (e.nodes[k], p.corners[k] * p.area_mm2)))
        })
        .map(|(n, area)| {
            area * crate::steel::DENSITY_KG_PER_MM3 * crate::steel::molten::heat_content_j_per_kg(t_c[n])
        })
        .sum();
    let balance = (heat.lost_j_per_mm + held) / 800.0 - 1.0;
    println!(
        "hottest {hottest:.0} °C, lost {:.1}, held {held:.1}, balance {balance:.1e}",
        heat.lost_j_per_mm
    );
    assert!(hottest > 1500.0, "the source has to melt steel: {hottest}");
    assert!(heat.lost_j_per_mm > 20.0, "the losses have to count");
    assert!(balance.abs() < 1e-3, "{balance}");
}
