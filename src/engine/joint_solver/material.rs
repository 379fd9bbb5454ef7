//! The steel of a section as the mechanics see it: stiffness, strength, hardening and elongation when hot.

use super::SectionError;
use super::error::{positive, within};
use crate::steel::molten::{Strength, elongation_to_solidus, stiffness_factor};
use serde::Serialize;

/// How properties change with temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MaterialLaw {
    /// EN 1993-1-2, extended as [`crate::steel::molten`]; names the strength at which flow begins.
    Hot(Strength),
    /// Strength and stiffness as `Hot`, elongation by one coefficient, 1/K: the bars that older hand formulas were checked
    /// with.
    HotEven(Strength, f64),
    /// They do not; elongation is this coefficient, 1/K, times the rise. For comparison with closed forms.
    Constant(f64),
}

/// A steel.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SectionSteel {
    /// Young's modulus at 20 °C, MPa.
    pub e_mpa: f64,
    /// Yield strength at 20 °C, MPa.
    pub yield_mpa: f64,
    /// Slope of flow stress over plastic strain at 20 °C, MPa; falls with temperature as the strength does.
    pub hardening_mpa: f64,
    /// Hardening is forgotten above this, °C.
    pub anneal_c: f64,
    /// How all of it changes with temperature.
    pub law: MaterialLaw,
}

impl SectionSteel {
    /// E 210 000 MPa (EN 1993-1-1 3.2.6), the given yield, hardening 1000 MPa forgotten above 1000 °C (choices; forces
    /// change by about 1 % without either), hot by EN 1993-1-2 with the 2 % strength.
    pub const fn hot(yield_mpa: f64) -> Self {
        Self {
            e_mpa: 210_000.0,
            yield_mpa,
            hardening_mpa: 1000.0,
            anneal_c: 1000.0,
            law: MaterialLaw::Hot(Strength::TwoPercent),
        }
    }

    /// # Errors
    /// `NotPositive` or `OutOfRange` for values no steel has.
    pub fn check(&self) -> Result<(), SectionError> {
        positive(&[("Young's modulus, MPa", self.e_mpa), ("yield strength, MPa", self.yield_mpa)])?;
        within("hardening over Young's modulus", self.hardening_mpa / self.e_mpa, 0.0, 1.0)?;
        within("annealing temperature, °C", self.anneal_c, 20.0, f64::MAX)
    }

    /// Everything at the temperature of each point, °C.
    pub(crate) fn heat(&self, points: &mut [Hot], t_c: &[f64]) {
        points.iter_mut().zip(t_c).for_each(|(hot, t)| *hot = self.at(*t));
    }

    /// Everything at one temperature.
    pub fn at(&self, t_c: f64) -> Hot {
        let (stiffness, strength, elongation) = match self.law {
            MaterialLaw::Hot(strength) => {
                (stiffness_factor(t_c), strength.factor(t_c), elongation_to_solidus(t_c))
            }
            MaterialLaw::HotEven(strength, alpha) => {
                (stiffness_factor(t_c), strength.factor(t_c), alpha * (t_c - 20.0))
            }
            MaterialLaw::Constant(alpha) => (1.0, 1.0, alpha * (t_c - 20.0)),
        };
        Hot {
            e_mpa: self.e_mpa * stiffness,
            yield_mpa: self.yield_mpa * strength,
            hardening_mpa: self.hardening_mpa * strength,
            elongation,
            annealed: t_c > self.anneal_c,
        }
    }
}

/// A steel at one temperature.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Hot {
    /// Young's modulus, MPa.
    pub e_mpa: f64,
    /// Flow stress before hardening, MPa.
    pub yield_mpa: f64,
    /// Hardening slope, MPa.
    pub hardening_mpa: f64,
    /// Elongation since 20 °C.
    pub elongation: f64,
    /// Hardening is forgotten.
    pub(crate) annealed: bool,
}
