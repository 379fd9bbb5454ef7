//! J2 plasticity with linear isotropic hardening, in the order along, across, up, shear (engineering shear strain).
//!
//! Stress is a function of the total elastic strain and the present stiffness, not summed from rates: a rate form keeps
//! the volume strain made when the metal was soft and turns it into stress when it is stiff again. Radial return and
//! consistent tangent: Simo and Hughes, Computational Inelasticity (1998), boxes 3.1 and 3.2 (memory).

use super::material::Hot;
use crate::steel::POISSON;

/// A strain or stress: along, across, up, shear.
pub(super) type Four = [f64; 4];

/// What a point remembers.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Memory {
    /// Plastic strain.
    pub plastic: Four,
    /// Plastic strain that hardens.
    hardening: f64,
}

impl Memory {
    /// Size of the plastic strain in all directions together: that of a pulled bar with as much (von Mises).
    pub(crate) fn size(&self) -> f64 {
        let [along, across, up, shear] = self.plastic;
        (2.0 / 3.0 * (along * along + across * across + up * up + shear * shear / 2.0)).sqrt()
    }
}

/// Stress and what goes with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct StressAnswer {
    /// Stress, MPa.
    pub stress: Four,
    /// Memory if this step is kept.
    pub(crate) memory: Memory,
    /// Tangent.
    pub(crate) tangent: Tangent,
}

/// Change of stress with strain: elastic but for a shear stiffness and one direction n, K 1⊗1 + 2G' dev − h n⊗n.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Tangent {
    /// Bulk modulus K, MPa.
    bulk: f64,
    /// Twice the effective shear modulus, MPa.
    shear2: f64,
    /// Softening h along n, MPa.
    drop: f64,
    /// Unit normal to the yield surface; its shear is the tensor's.
    pub(crate) normal: Four,
}

impl Tangent {
    /// The 4 × 4 matrix.
    pub(crate) fn matrix(&self) -> [Four; 4] {
        let lame = self.bulk - self.shear2 / 3.0;
        let mut d = [[0.0; 4]; 4];
        for (i, row) in d.iter_mut().enumerate() {
            for (j, entry) in row.iter_mut().enumerate() {
                let isotropic = if i < 3 && j < 3 { lame } else { 0.0 };
                *entry = isotropic - self.drop * self.normal[i] * self.normal[j];
            }
            row[i] += if i < 3 { self.shear2 } else { self.shear2 / 2.0 };
        }
        d
    }
}

/// Stress of elastic strain `strain` − plastic, with the radial return if that is beyond yield.
///
/// `strain` is total less thermal less any reference.
pub(super) fn answer(strain: &Four, memory: &Memory, hot: &Hot) -> StressAnswer {
    let (bulk, shear2) = (hot.e_mpa / (3.0 - 6.0 * POISSON), hot.e_mpa / (1.0 + POISSON));
    let elastic: Four = std::array::from_fn(|i| strain[i] - memory.plastic[i]);
    let mean = (elastic[0] + elastic[1] + elastic[2]) / 3.0;
    let pressure = 3.0 * bulk * mean;
    let dev = [
        shear2 * (elastic[0] - mean),
        shear2 * (elastic[1] - mean),
        shear2 * (elastic[2] - mean),
        shear2 / 2.0 * elastic[3],
    ];
    let size = (dev[0] * dev[0] + dev[1] * dev[1] + dev[2] * dev[2] + 2.0 * dev[3] * dev[3]).sqrt();
    let mises = 1.5_f64.sqrt() * size;
    let hardening = if hot.annealed { 0.0 } else { memory.hardening };
    let beyond = mises - hot.yield_mpa - hot.hardening_mpa * hardening;
    if beyond <= 0.0 {
        let stress = [dev[0] + pressure, dev[1] + pressure, dev[2] + pressure, dev[3]];
        let tangent = Tangent { bulk, shear2, ..Tangent::default() };
        return StressAnswer { stress, memory: Memory { hardening, ..*memory }, tangent };
    }
    let stiff = 1.5 * shear2 + hot.hardening_mpa;
    let flow = beyond / stiff;
    let kept = 1.0 - 1.5 * shear2 * flow / mises;
    let normal = dev.map(|s| s / size);
    let stress =
        [kept * dev[0] + pressure, kept * dev[1] + pressure, kept * dev[2] + pressure, kept * dev[3]];
    let amount = 1.5_f64.sqrt() * flow;
    let mut plastic = memory.plastic;
    for i in 0..4 {
        plastic[i] += amount * normal[i] * if i == 3 { 2.0 } else { 1.0 };
    }
    let drop = shear2 * (1.5 * shear2 / stiff - 1.5 * shear2 * flow / mises);
    StressAnswer {
        stress,
        memory: Memory { plastic, hardening: if hot.annealed { 0.0 } else { hardening + flow } },
        tangent: Tangent { bulk, shear2: kept * shear2, drop, normal },
    }
}

/// Equivalent stress √(3/2 s:s), s the stress less its mean (von Mises 1913; textbook), MPa: what yielding goes by.
pub(crate) fn mises(stress: &Four) -> f64 {
    let mean = (stress[0] + stress[1] + stress[2]) / 3.0;
    let squares: f64 = (0..3).map(|i| (stress[i] - mean).powi(2)).sum::<f64>() + 2.0 * stress[3] * stress[3];
    (1.5 * squares).sqrt()
}

/// Bar stress of a strain, its memory, and its tangent: the same law for one direction.
pub(crate) fn bar_answer(strain: f64, memory: &Memory, hot: &Hot) -> (f64, Memory, f64) {
    let hardening = if hot.annealed { 0.0 } else { memory.hardening };
    let trial = hot.e_mpa * (strain - memory.plastic[0]);
    let beyond = trial.abs() - hot.yield_mpa - hot.hardening_mpa * hardening;
    let mut kept = Memory { hardening, ..*memory };
    if beyond <= 0.0 {
        return (trial, kept, hot.e_mpa);
    }
    let stiff = hot.e_mpa + hot.hardening_mpa;
    let flow = beyond / stiff;
    kept.plastic[0] += flow * trial.signum();
    kept.hardening = if hot.annealed { 0.0 } else { hardening + flow };
    (trial - hot.e_mpa * flow * trial.signum(), kept, hot.e_mpa * hot.hardening_mpa / stiff)
}

#[cfg(test)]
mod tests {
    use super::*;

    const STEEL: Hot =
        Hot { e_mpa: 210_000.0, yield_mpa: 355.0, hardening_mpa: 1000.0, elongation: 0.0, annealed: false };

    #[test]
    fn the_tangent_is_the_slope_of_the_stress_before_and_beyond_yield() {
        for scale in [0.4, 1.0, 3.0] {
            let strain = [1.9e-3 * scale, -0.7e-3 * scale, 0.4e-3 * scale, 2.3e-3 * scale];
            let memory = Memory { plastic: [2e-4, -1e-4, -1e-4, 3e-4], hardening: 4e-4 };
            let tangent = answer(&strain, &memory, &STEEL).tangent.matrix();
            for j in 0..4 {
                let step = 1e-9;
                let [up, down] = [step, -step].map(|d| {
                    let mut moved = strain;
                    moved[j] += d;
                    answer(&moved, &memory, &STEEL).stress
                });
                for i in 0..4 {
                    let slope = (up[i] - down[i]) / (2.0 * step);
                    assert!(
                        (slope - tangent[i][j]).abs() < 1.0,
                        "scale {scale}: d{i}/d{j} is {slope}, tangent {} MPa",
                        tangent[i][j]
                    );
                }
            }
        }
    }

    #[test]
    fn a_returned_stress_lies_on_the_hardened_surface_and_flow_keeps_the_volume() {
        let answer = answer(&[4e-3, -1e-3, 0.0, 3e-3], &Memory::default(), &STEEL);
        let surface = STEEL.yield_mpa + STEEL.hardening_mpa * answer.memory.hardening;
        assert!(answer.memory.hardening > 1e-3);
        assert!((mises(&answer.stress) - surface).abs() < 1e-9, "{} on {surface}", mises(&answer.stress));
        let volume: f64 = answer.memory.plastic[..3].iter().sum();
        assert!(volume.abs() < 1e-15, "{volume}");
    }

    #[test]
    fn above_its_annealing_temperature_steel_forgets_its_hardening_but_not_its_plastic_strain() {
        let hard = Memory { plastic: [1e-3, -5e-4, -5e-4, 0.0], hardening: 1e-3 };
        let hot = Hot { annealed: true, ..STEEL };
        let kept = answer(&[1e-3, -5e-4, -5e-4, 0.0], &hard, &hot).memory;
        assert_eq!(kept, Memory { hardening: 0.0, ..hard });
        let (stress, kept, _) = bar_answer(1e-3, &hard, &hot);
        assert!(stress.abs() < 1e-12 && kept.hardening.abs() < 1e-15);
    }

    #[test]
    fn a_bar_beyond_yield_follows_the_hardening_line() {
        // ε = σ/E + (σ − f)/H at σ = 356: 1.695e-3 + 1e-3.
        let strain = 356.0 / 210_000.0 + 1e-3;
        let (stress, memory, tangent) = bar_answer(-strain, &Memory::default(), &STEEL);
        assert!((stress + 356.0).abs() < 1e-9 && (memory.plastic[0] + 1e-3).abs() < 1e-12, "{stress}");
        assert!((tangent - 210_000.0 / 211.0).abs() < 1e-9);
    }
}
