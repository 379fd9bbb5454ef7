//! At one point of the walk: what passes pull with by the strip model.

use super::stations::{Added, Stations};
use crate::bow::Plane;
use crate::prediction::alike::covers;
use crate::prediction::effects::{Effect, Effects};
use crate::prediction::plan::{StageHere, spent_n};
use crate::prediction::point::{Joined, Panel, Place, Pulls};
use crate::shrinkage::prior_stress;
use crate::shrinkage::second_side::seam_index;

/// The stations' pulls at a point.
#[derive(Debug)]
pub(crate) struct ByStations<'a> {
    stations: &'a Stations,
    added: Vec<Added>,
    /// Force that hot cutting has spent at outer and inner seam and no pass has made up for yet, N.
    spent_n: [f64; 2],
}

impl<'a> ByStations<'a> {
    /// Of those stations.
    pub(crate) const fn new(stations: &'a Stations) -> Self {
        Self { stations, added: vec![], spent_n: [0.0; 2] }
    }
}

impl Pulls<f64> for ByStations<'_> {
    const ALIKE_ALONG: bool = false;

    // stations stand where they stand
    fn enter(&mut self, _: &Panel<'_>) {}

    fn go_to(&mut self, place: &Place<'_>, _: f64) {
        self.added = self.stations.at(place.index, place.x_mm, place.job.passes.len());
        self.spent_n = [spent_n(place.job, place.span.plates.web_mm); 2];
    }

    fn lay(
        &mut self,
        place: &Place<'_>,
        order: usize,
        turn: &StageHere,
        joined: &Joined,
        effects: &mut impl Effects<f64>,
    ) {
        let (job, middle) = (place.job, place.span.middle_mm());
        let Some(number) = job.orders.get(order).map(|o| o.number) else { return };
        let passes = || job.passes.iter().enumerate();
        let now = || passes().filter(|(_, p)| p.order == number && covers(p, middle)).map(|(pass, _)| pass);
        // a hot-cut edge has pulled already: the passes of an order make up for it together, each by its force
        let kept = [0, 1].map(|seam: usize| {
            let pulling = now().map(|pass| self.added[pass][seam].force_n).sum::<f64>().max(0.0);
            let taken = self.spent_n[seam].min(pulling);
            self.spent_n[seam] -= taken;
            let kept = if taken > 0.0 { 1.0 - taken / pulling } else { 1.0 };
            // and a flange that cutting left pressed shrinks more, as the formulas have it
            let pair = place.plan.pair(turn, seam);
            let pressed = pair.map_or(0.0, |pair| pair.mean_stress([0.0; 2]) / job.member.steel.yield_mpa);
            kept * prior_stress::factor(pressed)
        });
        for pass in now() {
            let seam = job.passes[pass].seam;
            let own = seam_index(seam);
            let pulls = [0, 1].map(|slot: usize| self.added[pass][slot].times(kept[slot]));
            let real = joined.response.iter().zip(&pulls).map(|(response, pull)| response.to(pull));
            let lone_n =
                place.plan.pair(turn, own).map(|pair| joined.lone_n(turn, pair, job.passes[pass].side));
            let effect = Effect {
                real: real.fold(Plane::default(), Plane::plus),
                unit: joined.response[own].by_one,
                pull: pulls[own],
                lone_n: lone_n.unwrap_or(0.0),
            };
            effects.put(own, pass, effect);
        }
    }

    fn cools(&self, place: &Place<'_>, order: usize, joined: &Joined) -> Plane {
        let (job, middle) = (place.job, place.span.middle_mm());
        let before = job.orders.get(order).map_or(0, |o| o.number);
        let warm = || job.passes.iter().filter(|p| p.order < before && covers(p, middle));
        // a section is solved as if its seams were welded all along
        let heat: f64 = warm().map(|p| p.heat_j_per_mm).sum();
        let welded = warm().map(|p| p.welded_fraction() * p.heat_j_per_mm).sum::<f64>() / heat;
        let pull = self.stations.cools(place.index, place.x_mm, order);
        joined.response[0].to(&pull).times(if heat > 0.0 { welded } else { 0.0 })
    }

    fn capped(&self) -> f64 {
        0.0
    }
}
