//! What a push does to a member.

use super::points::Point;
use super::{LayeredSection, State};
use serde::Serialize;

/// A push worked out.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Bent {
    /// Force of each ram, N.
    pub force_n: f64,
    /// Deflection under load at the gauge (the ram, or midway between two) by bending, mm.
    pub stroke_mm: f64,
    /// Elastic part of it, mm.
    pub springback_mm: f64,
    /// What stays, mm: stroke less springback.
    pub set_mm: f64,
    /// Deflection under load at each ram by bending, mm; twice the same for one ram.
    pub ram_strokes_mm: [f64; 2],
    /// What stays at each ram, mm.
    pub ram_sets_mm: [f64; 2],
    /// Shear deflection at the gauge, in stroke and springback alike and not in the set, mm.
    pub shear_mm: f64,
    /// Rotation that stays between the two ends of the span, rad.
    pub kink_rad: f64,
    /// Where it acts as one kink: the centre of the permanent curvature, mm from the start end.
    pub kink_at_mm: f64,
    /// Largest curvature over that at first yield.
    pub mu: f64,
    /// Largest strain, without sign.
    pub strain: f64,
    /// Length on which the moment is above that at first yield, mm.
    pub plastic_mm: f64,
    /// Permanent rotation, rad, lumped at places (mm).
    #[serde(skip)]
    pub lumps: Vec<(f64, f64)>,
    /// What a newton more in each ram adds to set (mm) and kink (rad).
    #[serde(skip)]
    pub(super) more: [f64; 2],
}

/// Deflection per newton in each ram that springs back, mm/N: by bending at the gauge and at each ram, and by shear.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Elastic {
    pub(crate) gauge: f64,
    pub(crate) rams: [f64; 2],
    pub(crate) shear: f64,
}

/// What adds up to a push, point by point along the span.
#[derive(Default)]
pub(super) struct Sum {
    bent: Bent,
    first: f64,
    last: Option<(f64, f64)>,
}

impl Sum {
    pub(super) fn with_room_for(points: usize) -> Self {
        Self { bent: Bent { lumps: Vec::with_capacity(points), ..Bent::default() }, ..Self::default() }
    }

    /// Adds the part of the way since the last point on which the moment is above that of first yield.
    pub(super) fn yielded(&mut self, x: f64, over: f64) {
        if let Some((last_x, last_over)) = self.last {
            let (above, below) = (over.max(last_over) - 1.0, over.min(last_over) - 1.0);
            let share = if below >= 0.0 { 1.0 } else { (above / (above - below)).max(0.0) };
            self.bent.plastic_mm += share * (x - last_x);
        }
        self.last = Some((x, over));
    }

    pub(super) fn elastic(&mut self, mu: f64, stack: &LayeredSection) {
        self.reached(mu, mu * stack.yield_mpa / stack.e_mpa);
    }

    pub(super) fn plastic(&mut self, p: &Point, stack: &LayeredSection, state: &State, stays: f64) {
        self.reached(state.curvature / stack.yield_curvature(), stack.largest_strain(state));
        let bent = &mut self.bent;
        let softer = (1.0 / state.tangent_n_mm2 - 1.0 / stack.ei_n_mm2) * p.weight_mm * p.moment;
        bent.more[0] += softer * p.gauge;
        bent.more[1] += softer;
        let turn = p.weight_mm * stays;
        if turn <= 0.0 {
            return;
        }
        bent.set_mm += turn * p.gauge;
        for (set, ram) in bent.ram_sets_mm.iter_mut().zip(p.rams) {
            *set += turn * ram;
        }
        bent.kink_rad += turn;
        bent.lumps.push((p.x_mm, turn));
        self.first += turn * p.x_mm;
    }

    fn reached(&mut self, mu: f64, strain: f64) {
        self.bent.mu = self.bent.mu.max(mu);
        self.bent.strain = self.bent.strain.max(strain);
    }

    pub(super) fn bent(self, force_n: f64, elastic: &Elastic, gauge_mm: f64) -> Bent {
        let Self { bent, first, .. } = self;
        let springback_mm = force_n * elastic.gauge;
        Bent {
            force_n,
            stroke_mm: bent.set_mm + springback_mm,
            springback_mm,
            ram_strokes_mm: [0, 1].map(|i| bent.ram_sets_mm[i] + force_n * elastic.rams[i]),
            shear_mm: force_n * elastic.shear,
            kink_at_mm: if bent.kink_rad > 0.0 { first / bent.kink_rad } else { gauge_mm },
            ..bent
        }
    }
}
