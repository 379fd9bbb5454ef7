//! Fillets of more than one run: as many passes of orders of their own, one on the other, each cold before the next.

use super::passes::PlacedPass;
use crate::welding::{Pass, Wait, WeldingOrder};

/// Passes and orders with each run apart. Orders are numbered anew if there is any; without, all stays as it is.
pub(crate) fn run_by_run<'a>(
    laid: Vec<PlacedPass<'a>>,
    orders: Vec<WeldingOrder>,
) -> (Vec<PlacedPass<'a>>, Vec<WeldingOrder>) {
    if laid.iter().all(|one| one.runs == 1) {
        return (laid, orders);
    }
    let (mut passes, mut all) = (Vec::with_capacity(2 * laid.len()), Vec::with_capacity(2 * orders.len()));
    for order in &orders {
        let here = || laid.iter().filter(|one| one.pass.order == order.number);
        let most = here().map(|one| one.runs).max().unwrap_or(1);
        for run in 0..most {
            let number = all.len() as u32 + 1;
            let wait = if run == 0 { order.wait } else { Wait::Cold };
            all.push(WeldingOrder { number, wait, ..*order });
            passes.extend(here().filter(|one| one.runs > run).map(|one| of_run(one, run, number)));
        }
    }
    (passes, all)
}

/// One run: it brings its share of the metal, and the leg grows with the root of what lies there.
fn of_run<'a>(one: &PlacedPass<'a>, run: u32, order: u32) -> PlacedPass<'a> {
    let runs = f64::from(one.runs);
    let leg_mm = one.pass.leg_mm * (f64::from(run + 1) / runs).sqrt();
    let deposit_mm2 = one.pass.deposit_mm2 / runs;
    PlacedPass { pass: Pass { order, leg_mm, layers: run + 1, deposit_mm2, ..one.pass.clone() }, ..*one }
}
