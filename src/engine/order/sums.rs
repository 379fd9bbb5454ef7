//! From marks to families, weeks and the whole order: sums draw by draw of the bias, so that what all marks share stays
//! shared.

use super::advice::{BLOCKED_H, Fix, fix};
use super::family;
use super::level::{Levelled, Lot, level};
use super::list::{Marked, WorkOrder};
use super::result::{Blocking, FamilyResult, MarkResult, OrderResult, Totals, WeekResult};
use super::tally::{ExpectedRange, Tally};
use super::week::{Week, spread_over_weeks};
use super::what_if::Measure;
use crate::scatter::welding_alone;
use crate::straighten::cautions::{CautionFacts, cautions};
use std::collections::BTreeMap;

/// Minutes of an hour.
const HOUR: f64 = 60.0;

pub(super) struct Sums<'a> {
    order: &'a WorkOrder<'a>,
    marks: &'a [Marked<'a>],
    /// Names of the families, mark by mark.
    families: Vec<String>,
}

/// Marks with how many pieces of each.
type Parts<'a> = Vec<(&'a Marked<'a>, f64)>;

impl<'a> Sums<'a> {
    pub(crate) fn new(order: &'a WorkOrder<'a>, marks: &'a [Marked<'a>]) -> Self {
        let families = names(order, marks);
        Self { order, marks, families }
    }

    pub(crate) fn result(&self) -> OrderResult {
        let all: Parts<'_> = self.marks.iter().map(|m| (m, f64::from(m.line.quantity))).collect();
        let mut marks: Vec<MarkResult> =
            self.marks.iter().zip(&self.families).map(|(m, family)| self.mark(m, family)).collect();
        let by = |m: &MarkResult| [m.totals.needing.expected, m.totals.hours.expected];
        marks.sort_by(|a, b| by(b).partial_cmp(&by(a)).unwrap_or(std::cmp::Ordering::Equal));
        let weeks = self.weeks();
        OrderResult {
            draws: self.order.draws,
            quantity: pieces(&all),
            totals: self.totals(&all),
            marks,
            families: self.families(),
            levelled: self.levelled(),
            weeks,
            making: self.order.making,
            capacity_h: self.order.capacity_h,
            heat_capacity_h: self.order.heat_capacity_h,
            welding_alone: self.marks.iter().any(|m| welding_alone(&m.known.job)),
            shop: self.order.shop.title.clone(),
            placeholder_rates: self.order.shop.placeholder_rates.clone(),
            cautions: cautions(&self.facts()),
        }
    }

    /// The worst of all plans; energy and force of the push that holds most, planned with its range.
    fn facts(&self) -> CautionFacts {
        let all = self.marks.iter().map(|m| m.known.worked.facts);
        let mut facts = all.reduce(|a, b| a.worst(&b)).unwrap_or(CautionFacts::NOTHING);
        let stored = |m: &&Marked<'_>| m.known.worked.facts.stored_j;
        let strongest = self.marks.iter().max_by(|a, b| stored(a).total_cmp(&stored(b)));
        let plan = strongest.and_then(|m| {
            let piece = m.known.worked.strongest.as_ref()?;
            m.known.basis.whole(piece).facts
        });
        if let Some(whole) = plan {
            (facts.stored_j, facts.force_n) = (whole.stored_j, whole.force_n);
        }
        facts
    }

    fn mark(&self, m: &Marked<'_>, family: &str) -> MarkResult {
        let one = vec![(m, f64::from(m.line.quantity))];
        let known = m.known;
        let blocks = known.worked.blocks.iter().map(|stop| Blocking {
            quantity: stop.quantity,
            pieces: stop.part * f64::from(m.line.quantity),
            methods: stop.blocks.clone(),
        });
        MarkResult {
            mark: m.line.mark.clone(),
            title: known.job.title.clone(),
            job: m.line.path.clone(),
            family: family.to_owned(),
            quantity: m.line.quantity,
            camber_wanted: known.job.wanted_camber.is_some(),
            week: m.line.week,
            learned: known.job.recorded_note().cloned(),
            two_s_of: [&known.prediction.camber, &known.prediction.sweep].map(|bow| bow.max_2s_of),
            likely: known.likely,
            out: known.out,
            parts: known.parts.clone(),
            totals: self.totals(&one),
            blocks: blocks.collect(),
            fixes: fixes(&one),
            may_be_wrong: known.worked.may_be_wrong,
            plans: known.worked.plans,
            failed: known.failed,
        }
    }

    fn families(&self) -> Vec<FamilyResult> {
        let mut groups: Vec<(&str, Parts<'_>)> = Vec::new();
        for (m, name) in self.marks.iter().zip(&self.families) {
            let part = (m, f64::from(m.line.quantity));
            match groups.iter_mut().find(|(known, _)| known == name) {
                Some((_, parts)) => parts.push(part),
                None => groups.push((name, vec![part])),
            }
        }
        let mut out: Vec<FamilyResult> = groups
            .into_iter()
            .map(|(name, parts)| FamilyResult {
                name: name.to_owned(),
                marks: parts.iter().map(|(m, _)| m.line.mark.clone()).collect(),
                quantity: pieces(&parts),
                totals: self.totals(&parts),
                fixes: fixes(&parts),
            })
            .collect();
        let saves = |f: &FamilyResult| f.fixes.first().map_or(0.0, Fix::worth_h);
        out.sort_by(|a, b| saves(b).total_cmp(&saves(a)));
        out
    }

    /// Marks by the weeks they are wanted in, or are spread over.
    fn by_week(&self) -> Vec<(Option<Week>, Parts<'_>)> {
        match self.order.weeks {
            Some(weeks) => {
                let counts: Vec<u32> = self.marks.iter().map(|m| m.line.quantity).collect();
                let rows = spread_over_weeks(&counts, weeks);
                let week = |w: u32| {
                    let of = self.marks.iter().zip(&rows).map(|(m, row)| (m, f64::from(row[w as usize])));
                    let parts = of.filter(|(_, n)| *n > 0.0).collect();
                    (Some(Week { year: None, number: w + 1 }), parts)
                };
                (0..weeks).map(week).collect()
            }
            None if self.marks.iter().all(|m| m.line.week.is_none()) => Vec::new(),
            None => {
                let mut by: BTreeMap<(bool, Option<Week>), Parts<'_>> = BTreeMap::new();
                for m in self.marks {
                    let key = (m.line.week.is_none(), m.line.week);
                    by.entry(key).or_default().push((m, f64::from(m.line.quantity)));
                }
                by.into_iter().map(|((_, week), parts)| (week, parts)).collect()
            }
        }
    }

    fn weeks(&self) -> Vec<WeekResult> {
        let one = |(week, parts): (Option<Week>, Parts<'_>)| {
            let over = |capacity: Option<f64>, of: &dyn Fn(&Tally, usize) -> f64| {
                capacity.map(|capacity| {
                    let hours = per_draw(&parts, of);
                    hours.iter().filter(|h| **h > capacity).count() as f64 / hours.len().max(1) as f64
                })
            };
            WeekResult {
                week,
                quantity: pieces(&parts),
                totals: self.totals(&parts),
                over_capacity: over(self.order.capacity_h, &|t, i| t.load[i].press_min / HOUR),
                over_heat_capacity: over(self.order.heat_capacity_h, &|t, i| t.load[i].heat_min / HOUR),
            }
        };
        self.by_week().into_iter().map(one).collect()
    }

    fn levelled(&self) -> Option<Levelled> {
        let capacity = [self.order.capacity_h, self.order.heat_capacity_h];
        capacity.iter().any(Option::is_some).then_some(())?;
        let lots = |parts: Parts<'_>| -> Vec<Lot> {
            let each = |m: &Marked<'_>, of: &dyn Fn(&Tally, usize) -> f64| {
                ExpectedRange::of(&per_draw(&vec![(m, 1.0)], of)).expected
            };
            let lot = |(m, n): (&Marked<'_>, f64)| Lot {
                mark: m.line.mark.clone(),
                pieces: n as u32,
                each_h: [
                    each(m, &|t, i| t.load[i].press_min / HOUR),
                    each(m, &|t, i| t.load[i].heat_min / HOUR),
                ],
            };
            parts.into_iter().map(lot).collect()
        };
        let known: Vec<(Week, Vec<Lot>)> =
            self.by_week().into_iter().filter_map(|(week, parts)| Some((week?, lots(parts)))).collect();
        (!known.is_empty()).then(|| level(&known, capacity))
    }

    fn totals(&self, parts: &Parts<'_>) -> Totals {
        let rates = &self.order.shop.tools.rates;
        let first_h = f64::from(pieces(parts)) * rates.first_measure_min / HOUR;
        let span = |of: &dyn Fn(&Tally, usize) -> f64| ExpectedRange::of(&per_draw(parts, of));
        let money = per_draw(parts, |t, i| t.load[i].money + rates.rework * t.load[i].blocked);
        let money: Vec<f64> = money.into_iter().map(|m| m + first_h * rates.per_hour).collect();
        Totals {
            needing: span(&|t, i| t.needs[i]),
            luck: luck(parts),
            again: span(&|t, i| t.again[i]),
            again_out: span(&|t, i| t.again_out[i]),
            blocked: span(&|t, i| t.load[i].blocked),
            still_out: span(&|t, i| t.load[i].still_out),
            press_h: span(&|t, i| t.load[i].press_min / HOUR),
            heat_h: span(&|t, i| t.load[i].heat_min / HOUR),
            measure_h: span(&|t, i| t.load[i].measure_min / HOUR),
            first_h,
            hours: span(&|t, i| t.load[i].minutes() / HOUR),
            money: ExpectedRange::of(&money),
            rework_money: span(&|t, i| rates.rework * t.load[i].blocked),
            push_places: span(&|t, i| t.load[i].push_places),
            heats: span(&|t, i| t.load[i].heats),
            runs: span(&|t, i| t.load[i].runs),
        }
    }
}

/// The list's own family, or plates and passes in words; words that would mix two procedures get a letter.
fn names(order: &WorkOrder<'_>, marks: &[Marked<'_>]) -> Vec<String> {
    let mut keys: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut out = Vec::with_capacity(marks.len());
    for m in marks {
        if let Some(own) = &m.line.family {
            out.push(own.clone());
            continue;
        }
        let (words, key) = (family::words(&m.known.job, order.system), family::key(&m.known.job));
        let known = keys.entry(words.clone()).or_default();
        let at = known.iter().position(|k| *k == key).unwrap_or_else(|| {
            known.push(key);
            known.len() - 1
        });
        out.push(if at == 0 { words } else { format!("{words} ({})", at + 1) });
    }
    out
}

fn pieces(parts: &Parts<'_>) -> u32 {
    parts.iter().fold(0_u32, |sum, (_, n)| sum.saturating_add(*n as u32))
}

/// A sum over marks for each draw of the bias.
fn per_draw(parts: &Parts<'_>, of: impl Fn(&Tally, usize) -> f64) -> Vec<f64> {
    let draws = parts.first().map_or(0, |(m, _)| m.known.worked.as_is.needs.len());
    (0..draws).map(|i| parts.iter().map(|(m, n)| n * of(&m.known.worked.as_is, i)).sum()).collect()
}

/// √Σ n·p(1 − p), the binomial deviation of the pieces that need it, p drawn anew with every draw of the bias. Each p is
/// counted on K pieces only, which makes p(1 − p) too small by (K − 1)/K on the average.
fn luck(parts: &Parts<'_>) -> f64 {
    let variance = |(m, n): &(&Marked<'_>, f64)| {
        let needs = &m.known.worked.as_is.needs;
        let each = m.known.pieces as f64;
        let sum: f64 = needs.iter().map(|p| p * (1.0 - p)).sum();
        n * sum / needs.len().max(1) as f64 * each / (each - 1.0).max(1.0)
    };
    parts.iter().map(variance).sum::<f64>().sqrt() + 0.0
}

/// Every measure with what it saves, the best first.
fn fixes(parts: &Parts<'_>) -> Vec<Fix> {
    let mut out: Vec<Fix> = Measure::ALL
        .into_iter()
        .filter_map(|measure| {
            let saved = |of: &dyn Fn(&Tally, usize) -> f64| -> Vec<Vec<f64>> {
                parts
                    .iter()
                    .map(|(m, n)| {
                        let worked = &m.known.worked;
                        let then = worked.prevented.iter().find(|(what, _)| *what == measure);
                        let then = then.map_or(&worked.as_is, |(_, tally)| tally);
                        (0..worked.as_is.needs.len())
                            .map(|i| n * (of(&worked.as_is, i) - of(then, i)))
                            .collect()
                    })
                    .collect()
            };
            let hours = saved(&|t, i| t.load[i].minutes() / HOUR);
            let pieces = saved(&|t, i| t.needs[i]);
            let blocked = saved(&|t, i| t.load[i].blocked);
            // the mark on which it saves most lends its number
            let sum = |row: &Vec<f64>| row.iter().sum::<f64>();
            let worth = |i: usize| sum(&hours[i]) + BLOCKED_H * sum(&blocked[i]);
            let most = (0..parts.len()).max_by(|a, b| worth(*a).total_cmp(&worth(*b)))?;
            let (mark, _) = parts[most];
            let saved = [added(&hours), added(&pieces), added(&blocked)];
            Some(fix(measure, &mark.line.mark, &mark.known.prediction, saved))
        })
        .collect();
    out.sort_by(|a, b| b.worth_h().total_cmp(&a.worth_h()));
    out
}

fn added(rows: &[Vec<f64>]) -> ExpectedRange {
    let draws = rows.first().map_or(0, Vec::len);
    let sums: Vec<f64> = (0..draws).map(|i| rows.iter().map(|row| row[i]).sum()).collect();
    ExpectedRange::of(&sums)
}
