//! Design strengths of a fillet weld and of the plates it joins.
//!
//! * AISC 360-22 J2.4, Table J2.5 (read): R_n = 0.60·F_EXX a throat area for shear along the weld (no directional
//!   gain), φ = 0.75, Ω = 2.00. Base metal, J4.2 (read): shear yield 0.60·F_y with φ = 1.00, Ω = 1.50; shear rupture
//!   0.60·F_u with φ = 0.75, Ω = 2.00.
//! * EN 1993-1-8:2005 4.5.3.3 (memory, sure): f_vw,d = f_u/(√3·β_w·γ_M2), γ_M2 = 1.25; β_w 0.80 (S235), 0.85 (S275),
//!   0.90 (S355), 1.0 (S420, S460). Base metal, EN 1993-1-1 6.2.6 (memory, sure): f_y/(√3·γ_M0), γ_M0 = 1.0.
//!
//! f_u: EN 1993-1-1 Table 3.1 printed 510 MPa for S355, 490 since the corrigendum of 2009 (memory, check), while
//! EN 10025-2 guarantees 470 MPa up to 100 mm. The steel's own minimum is taken, the lowest of the three, unless the job
//! states another (choice).

use crate::steel::Steel;
use serde::{Deserialize, Serialize};

/// A code of practice for the strength of the weld.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Code {
    /// AISC 360-22, load and resistance factor design: factored loads.
    AiscLrfd,
    /// AISC 360-22, allowable stress design: unfactored loads.
    AiscAsd,
    /// EN 1993-1-8: factored loads.
    #[serde(rename = "en-1993-1-8")]
    En1993,
}

impl Code {
    /// Name on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AiscLrfd => "AISC 360-22, LRFD",
            Self::AiscAsd => "AISC 360-22, ASD",
            Self::En1993 => "EN 1993-1-8:2005",
        }
    }

    /// The standard, as its rules for stitches name it.
    pub(crate) const fn standard(self) -> &'static str {
        match self {
            Self::AiscLrfd | Self::AiscAsd => "AISC 360",
            Self::En1993 => "EN 1993-1-8",
        }
    }

    /// Clauses behind the strength of the weld.
    pub(crate) const fn clause(self) -> &'static str {
        match self {
            Self::AiscLrfd | Self::AiscAsd => "AISC 360-22 J2.4, Table J2.5",
            Self::En1993 => "EN 1993-1-8:2005 4.5.3.3",
        }
    }

    /// Clauses behind the strength of the plate beside it.
    pub(crate) const fn base_clause(self) -> &'static str {
        match self {
            Self::AiscLrfd | Self::AiscAsd => "AISC 360-22 J4.2",
            Self::En1993 => "EN 1993-1-1:2005 6.2.6",
        }
    }
}

/// Filler metal and steel as the code sees them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Electrode {
    /// Tensile strength of the filler metal F_EXX, MPa (AISC).
    pub f_exx_mpa: f64,
    /// Tensile strength f_u of the weaker part joined, MPa (EN).
    pub f_u_mpa: f64,
    /// Correlation factor β_w (EN).
    pub beta_w: f64,
}

/// E70: 70 ksi in MPa, the usual filler of these welds (common practice, no source).
const E70_MPA: f64 = 482.633_010_521_76;

impl Electrode {
    /// Usual filler metal for a steel: E70, and the steel's own f_u with β_w by yield strength.
    ///
    /// EN names β_w by grade; a steel that is no EN grade takes the factor of the next stronger one (choice).
    pub fn usual(steel: &Steel) -> Self {
        let beta_w = match steel.yield_mpa {
            y if y <= 235.0 => 0.80,
            y if y <= 275.0 => 0.85,
            y if y <= 355.0 => 0.90,
            _ => 1.0,
        };
        Self { f_exx_mpa: E70_MPA, f_u_mpa: steel.tensile_mpa, beta_w }
    }
}

/// Design strengths, MPa.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Strengths {
    /// Of the throat in shear along the weld.
    pub throat_mpa: f64,
    /// Of a plate in shear, the lower of yield and rupture.
    pub plate_mpa: f64,
}

impl Strengths {
    /// Strengths by a code.
    ///
    /// ```
    /// use weldbow_engine::steel::{Steel, grade};
    /// use weldbow_engine::strength::{Code, Electrode, Strengths};
    /// let steel = Steel::from(grade("S355").ok_or("no grade")?);
    /// let of = |code| Strengths::of(code, &Electrode::usual(&steel), &steel).throat_mpa;
    /// assert!((of(Code::En1993) - 241.20).abs() < 0.01); // 470/(√3·0.9·1.25)
    /// assert!((of(Code::AiscLrfd) / of(Code::AiscAsd) - 1.5).abs() < 1e-12); // 0.75 against 1/2.00
    /// # Ok::<(), &str>(())
    /// ```
    pub fn of(code: Code, electrode: &Electrode, steel: &Steel) -> Self {
        const PHI_WELD: f64 = 0.75;
        const OMEGA_WELD: f64 = 2.00;
        const OMEGA_YIELD: f64 = 1.50;
        const GAMMA_M2: f64 = 1.25;
        let root_3 = 3.0_f64.sqrt();
        let (weld, yielding, rupture) =
            (0.60 * electrode.f_exx_mpa, 0.60 * steel.yield_mpa, 0.60 * steel.tensile_mpa);
        match code {
            Code::AiscLrfd => {
                Self { throat_mpa: PHI_WELD * weld, plate_mpa: yielding.min(PHI_WELD * rupture) }
            }
            Code::AiscAsd => Self {
                throat_mpa: weld / OMEGA_WELD,
                plate_mpa: (yielding / OMEGA_YIELD).min(rupture / OMEGA_WELD),
            },
            Code::En1993 => Self {
                throat_mpa: electrode.f_u_mpa / (root_3 * electrode.beta_w * GAMMA_M2),
                plate_mpa: steel.yield_mpa / root_3,
            },
        }
    }

    /// Leg that carries a shear flow (N/mm) with so many equal weld lines, mm.
    ///
    /// ```
    /// use weldbow_engine::strength::Strengths;
    /// let e70 = Strengths { throat_mpa: 0.75 * 0.60 * 482.633, plate_mpa: 200.0 };
    /// // 1.392 kip/in for each sixteenth: 243.8 N/mm need 1/16 in
    /// assert!((e70.leg_mm(243.78, 1.0) - 1.5875).abs() < 1e-3);
    /// ```
    pub fn leg_mm(&self, flow_n_per_mm: f64, lines: f64) -> f64 {
        std::f64::consts::SQRT_2 * flow_n_per_mm / (lines * self.throat_mpa)
    }

    /// What a leg carries, N/mm a line.
    pub fn line_n_per_mm(&self, leg_mm: f64) -> f64 {
        crate::welding::fillet::throat_mm(leg_mm) * self.throat_mpa
    }
}
