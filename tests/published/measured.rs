//! The two measured sets that bear on lengthwise shrinkage. Neither is a welded member: they test the size of the
//! force and the heat behind a bead, and prove nothing about camber, sweep or flange angle.

use crate::cases::document;
use serde::Deserialize;
use weldbow::bow::strain;
use weldbow::member::Section;
use weldbow::prediction::uncertainty::HEAT_FROM_LEG_BIAS;
use weldbow::shrinkage::bead::{free_factor, held_force_n};
use weldbow::shrinkage::second_side::{Junction, LaidPasses, REPEAT_COLD, cooling_time_s, share_warm};
use weldbow::steel::E_MPA;
use weldbow::welding::fillet::{leg_rule_gross_heat_j_per_mm, throat_mm};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Bar {
    source: String,
    trust: String,
    width_mm: f64,
    thickness_mm: f64,
    power_w: f64,
    speed_mm_s: f64,
    bead_s: f64,
    rise_mm: f64,
    rise_per_curvature_mm2: f64,
    force_kn: f64,
    efficiency: f64,
    yield_mpa: f64,
    tolerance: Allowed,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Allowed {
    relative: f64,
    reason: String,
}

impl Bar {
    fn heat(&self) -> f64 {
        self.efficiency * self.power_w / self.speed_mm_s
    }

    fn section(&self) -> Section {
        let (b, t) = (self.width_mm, self.thickness_mm);
        Section {
            area_mm2: b * t,
            centroid_mm: t / 2.0,
            i_z_mm4: b * t.powi(3) / 12.0,
            i_y_mm4: t * b.powi(3) / 12.0,
        }
    }

    /// One bead on the face of a plate: all the heat goes into it, none into a web.
    fn lone_force_n(&self) -> f64 {
        let section = self.section();
        held_force_n(self.heat(), [self.width_mm, self.thickness_mm], self.yield_mpa)
            * free_factor(section.area_mm2)
    }

    /// Both beads in the same zone, the second one bead's time after the first.
    fn both_n(&self) -> f64 {
        let cooling_s = cooling_time_s(self.heat(), self.thickness_mm, 0.0, self.yield_mpa, E_MPA);
        let warm = share_warm(self.bead_s / cooling_s);
        // at once like one bead of twice the heat, cold like one
        let plate = [self.width_mm, self.thickness_mm];
        let once = held_force_n(2.0 * self.heat(), plate, self.yield_mpa)
            / held_force_n(self.heat(), plate, self.yield_mpa);
        let mut joint = Junction::default();
        let mut lay = |warm: f64| {
            joint
                .lay(&LaidPasses {
                    lone_n: [self.lone_force_n(), 0.0],
                    arm_mm: [0.0; 2],
                    deposit_mm2: 10.0,
                    warm,
                    repeat: [REPEAT_COLD + (once - REPEAT_COLD) * warm; 2],
                    second: 0,
                    between: 1.0,
                    left: 0.0,
                    available_mm2: self.section().area_mm2,
                    yield_mpa: self.yield_mpa,
                })
                .force_n
        };
        lay(0.0) + lay(warm)
    }

    fn rise_by(&self, force_n: f64) -> f64 {
        self.rise_per_curvature_mm2 * strain(&self.section(), force_n, 0.0, 0.0, E_MPA).in_plane.abs()
    }
}

#[test]
fn two_beads_on_a_bar_lift_its_ends_by_the_force_of_one() {
    let bar: Bar = document("measured_bar.toml");
    let (lone, both) = (bar.lone_force_n(), bar.both_n());
    let allowed = bar.tolerance.relative * bar.rise_mm;
    let place = format!("{} ({}); {}", bar.source, bar.trust, bar.tolerance.reason);
    let rise = bar.rise_by(both);
    println!(
        "bar: force {:.0} kN of {:.0} kN, rise {rise:.2} mm of {} mm",
        both / 1e3,
        bar.force_kn,
        bar.rise_mm
    );
    assert!((rise - bar.rise_mm).abs() < allowed, "{rise:.2} mm, measured {} mm: {place}", bar.rise_mm);
    // the kilonewtons of the sheet are those of its rise
    let from_force = bar.rise_by(bar.force_kn * 1e3);
    assert!((from_force / bar.rise_mm - 1.0).abs() < 0.02, "{from_force:.2} mm by {} kN", bar.force_kn);
    // the second bead adds little, as the rule for repeats says …
    assert!(both < 1.10 * lone, "{both:.0} N by both, {lone:.0} N by one");
    // … and a plain sum would not have met the measured rise
    let summed = bar.rise_by(2.0 * lone);
    assert!((summed - bar.rise_mm).abs() > allowed, "{summed:.2} mm by the plain sum");
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Beads {
    source: String,
    trust: String,
    bead: Vec<[f64; 5]>,
}

#[test]
fn measured_beads_take_the_heat_of_the_leg_rule_and_scatter_about_it_as_stated() {
    let beads: Beads = document("measured_beads.toml");
    let place = format!("{} ({})", beads.source, beads.trust);
    assert_eq!(beads.bead.len(), 31, "{place}");
    // reinforcement as a parabola, 2/3 of height times width
    let heats: Vec<f64> = beads.bead.iter().map(|[u, i, v, h, w]| u * i / v / (2.0 / 3.0 * h * w)).collect();
    let mean = heats.iter().sum::<f64>() / 31.0;
    let throat = throat_mm(6.0);
    let rule = leg_rule_gross_heat_j_per_mm(6.0) / (throat * throat);
    println!("leg rule {rule:.2}, measured mean {mean:.2} J/mm³");
    // the mean of 31 that scatter by 23 % is itself known to 4 %
    assert!((rule / mean - 1.0).abs() < 0.04, "leg rule {rule:.2}, measured mean {mean:.2} J/mm³");
    // the deviation was taken from these beads: that they lie about the rule as a normal law has it is what they can show
    let inside = |deviations: f64| {
        heats.iter().filter(|q| (*q / rule - 1.0).abs() < deviations * HEAT_FROM_LEG_BIAS).count()
    };
    let [one, two] = [1.0, 2.0].map(inside);
    println!("of 31 beads {one} lie within one deviation of the rule, {two} within two");
    // 68 and 95 % of 31 are 21.2 ± 2.6 and 29.6 ± 1.2 (binomial)
    assert!((19..=24).contains(&one) && (29..=30).contains(&two), "{one} and {two} of 31");
}
