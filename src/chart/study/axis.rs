//! An axis made of a column: even numbers, numbers in decades, or words.

use super::worded::{at, axis_name, bare, behind, power, told_apart, word};
use crate::axes::Range;
use crate::number::{number, ticks};
use weldbow_engine::study::{Column, Values};

/// Numbers spread evenly in decades: steps of the logarithm differ by no more than this factor (a choice:
/// 1, 2, 5, 10, 20 pass, 1, 2, 3, 4 do not).
const EVEN_STEPS: f64 = 1.4;
/// An axis spans at least this share of its largest number: less cannot be told on a scale.
const LEAST_SPAN: f64 = 1e-6;
/// An axis holds zero unless the values all lie beyond this share of the largest (a choice: a fall of a tenth has to look
/// like one); where it does not, the axis is drawn broken.
const FAR_FROM_ZERO: f64 = 0.97;

/// No more computed numbers than this become ticks (a choice).
const FEW: usize = 9;

/// A tick: its place along the axis, and what is written there.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mark {
    pub place: f64,
    pub text: String,
}

#[derive(Debug, Clone, PartialEq)]
enum Kind {
    /// Numbers, and the few that were computed if they are round.
    Even {
        power: i32,
        computed: Vec<f64>,
    },
    Decades,
    /// Words that are numbers with one unit, each at its number.
    Told(Vec<(f64, String)>),
    Words(Vec<String>),
}

/// An axis. Places are what is drawn: the number, its logarithm, or the rank of the word.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Axis {
    pub name: String,
    pub range: Range,
    kind: Kind,
}

impl Axis {
    /// Along a column, over those rows: no wider than its values.
    pub(super) fn along(column: &Column, rows: &[usize]) -> Self {
        if let Values::Words(_) = &column.values {
            let mut words: Vec<String> = Vec::new();
            for text in rows.iter().map(|row| word(column, *row)) {
                if !words.contains(&text) {
                    words.push(text);
                }
            }
            if let Some((told, unit)) = told(&words) {
                let places: Vec<f64> = told.iter().map(|t| t.0).collect();
                let name = format!("{}{}", axis_name(column, 0), behind(&unit, 0));
                return Self { name, range: tight(&places), kind: Kind::Told(told) };
            }
            let range = Range { low: -0.5, high: words.len().max(1) as f64 - 0.5 };
            return Self { name: axis_name(column, 0), range, kind: Kind::Words(words) };
        }
        let values = distinct(rows.iter().map(|row| at(column, *row)));
        if in_decades(&values) {
            let logs: Vec<f64> = values.iter().map(|v| v.log10()).collect();
            return Self { name: axis_name(column, 0), range: tight(&logs), kind: Kind::Decades };
        }
        let range = tight(&values);
        let power = power(range.low.abs().max(range.high.abs()));
        let few = values.len() <= FEW && values.iter().all(|v| is_round(*v));
        let computed = if few { values } else { Vec::new() };
        Self { name: axis_name(column, power), range, kind: Kind::Even { power, computed } }
    }

    /// Up the side: holds zero if the values reach near it.
    pub(super) fn up(name: impl FnOnce(i32) -> String, values: impl IntoIterator<Item = f64>) -> Self {
        let values = distinct(values);
        let (low, high) = ends(&values);
        let (low, high) = match (low, high) {
            (l, h) if l > 0.0 && (l < FAR_FROM_ZERO * h || h - l < LEAST_SPAN * h) => (0.0, h),
            (l, h) if h < 0.0 && (h > FAR_FROM_ZERO * l || h - l < LEAST_SPAN * -l) => (l, 0.0),
            found => found,
        };
        let span = spanned(low, high);
        let air = 0.08 * (span.1 - span.0);
        let zero = |v: f64| v.abs() < 1e-12 * (span.1 - span.0);
        let range = Range {
            low: if zero(span.0) { span.0 } else { span.0 - air },
            high: if zero(span.1) { span.1 } else { span.1 + air },
        };
        let power = power(range.low.abs().max(range.high.abs()));
        Self { name: name(power), range, kind: Kind::Even { power, computed: Vec::new() } }
    }

    /// From one number to another, for a bar of shades.
    pub(super) fn exactly(name: impl FnOnce(i32) -> String, low: f64, high: f64) -> Self {
        let (low, high) = spanned(low, high);
        let power = power(low.abs().max(high.abs()));
        let kind = Kind::Even { power, computed: Vec::new() };
        Self { name: name(power), range: Range { low, high }, kind }
    }

    /// The same values side by side, evenly spaced whatever their numbers; the places are ranks.
    pub(super) fn ranked(self, column: &Column, rising: &[f64]) -> Self {
        if self.words().is_some() {
            return self;
        }
        let range = Range { low: -0.5, high: rising.len().max(1) as f64 - 0.5 };
        Self { name: axis_name(column, 0), range, kind: Kind::Words(told_apart(rising, "")) }
    }

    /// The same over another stretch.
    pub(super) fn over(self, range: Range) -> Self {
        Self { range, ..self }
    }

    /// Power of ten that its numbers leave to its name.
    pub(super) fn power(&self) -> i32 {
        if let Kind::Even { power, .. } = self.kind { power } else { 0 }
    }

    /// Whether it is an axis of words.
    pub(super) fn words(&self) -> Option<&[String]> {
        if let Kind::Words(words) = &self.kind { Some(words) } else { None }
    }

    /// Place of a row along the axis; NaN if the row has no value.
    pub(super) fn place(&self, column: &Column, row: usize) -> f64 {
        match &self.kind {
            Kind::Even { .. } => at(column, row),
            Kind::Decades => at(column, row).log10(),
            Kind::Told(_) => amount(&word(column, row)).map_or(f64::NAN, |(number, _)| number),
            Kind::Words(words) => {
                let text = word(column, row);
                words.iter().position(|w| *w == text).map_or(f64::NAN, |rank| rank as f64)
            }
        }
    }

    /// Whether numbers stand far enough apart to be ticks themselves.
    fn apart(&self, computed: &[f64], about: f64) -> bool {
        let least = 0.35 * (self.range.high - self.range.low) / about.max(1.0);
        !computed.is_empty() && computed.windows(2).all(|pair| pair[1] - pair[0] >= least)
    }

    /// Ticks: the computed numbers where they are few and round, else round ones, about as many as asked for.
    pub(super) fn marks(&self, about: f64) -> Vec<Mark> {
        let inside = |mark: &Mark| mark.place >= self.range.low && mark.place <= self.range.high;
        match &self.kind {
            Kind::Words(words) => words
                .iter()
                .enumerate()
                .map(|(rank, text)| Mark { place: rank as f64, text: text.clone() })
                .collect(),
            Kind::Told(told) => {
                let every = (told.len() as f64 / about.max(1.0)).ceil().max(1.0) as usize;
                told.iter()
                    .step_by(every)
                    .map(|(place, text)| Mark { place: *place, text: text.clone() })
                    .collect()
            }
            Kind::Even { power, computed } if self.apart(computed, about) => {
                let unit = 10_f64.powi(*power);
                let shown: Vec<f64> = computed.iter().map(|v| v / unit).collect();
                let texts = told_apart(&shown, "");
                computed.iter().zip(texts).map(|(place, text)| Mark { place: *place, text }).collect()
            }
            Kind::Even { power, .. } => {
                let unit = 10_f64.powi(*power);
                let (marks, decimals) = ticks(self.range.low / unit, self.range.high / unit, about);
                let mark = |m: f64| Mark { place: m * unit, text: number(m, decimals) };
                marks.into_iter().map(mark).filter(inside).collect()
            }
            Kind::Decades => {
                let (first, last) = (self.range.low.floor() as i32, self.range.high.ceil() as i32);
                let span = self.range.high - self.range.low;
                let leads: &[f64] = if 3.0 * span < about { &[1.0, 2.0, 5.0] } else { &[1.0] };
                let every = (span / about.max(1.0)).ceil().max(1.0) as i32;
                (first..=last)
                    .filter(|decade| decade.rem_euclid(every) == 0)
                    .flat_map(|decade| leads.iter().map(move |lead| (decade, *lead)))
                    .map(|(decade, lead)| {
                        let place = f64::from(decade) + lead.log10();
                        Mark { place, text: bare(lead * 10_f64.powi(decade)) }
                    })
                    .filter(inside)
                    .collect()
            }
        }
    }
}

/// "36 ksi": the number and its unit.
fn amount(word: &str) -> Option<(f64, &str)> {
    let end = word.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(word.len());
    let (number, unit) = word.split_at_checked(end)?;
    let unit = unit.trim();
    let plain = !unit.chars().any(|c| c.is_ascii_digit());
    number.parse().ok().filter(|_| plain).map(|number| (number, unit))
}

/// Fewest words that make an axis of numbers (a choice: two could as well be names).
const FEWEST_TOLD: usize = 3;

/// Words that are rising numbers of one unit, as those numbers.
fn told(words: &[String]) -> Option<(Vec<(f64, String)>, String)> {
    let amounts: Vec<(f64, &str)> = words.iter().map(|word| amount(word)).collect::<Option<_>>()?;
    let (_, unit) = amounts.first().filter(|_| amounts.len() >= FEWEST_TOLD)?;
    let one = amounts.iter().all(|(_, other)| other == unit);
    let rising = amounts.windows(2).all(|pair| pair[0].0 < pair[1].0);
    (one && rising)
        .then(|| (amounts.iter().map(|(number, _)| (*number, bare(*number))).collect(), (*unit).to_owned()))
}

/// Whether three digits say it all.
fn is_round(value: f64) -> bool {
    let size = value.abs();
    if size <= 0.0 {
        return true;
    }
    let digits = value / 10_f64.powf(size.log10().floor() - 2.0);
    (digits - digits.round()).abs() < 1e-6
}

/// The different numbers among the values, rising; numbers that differ by rounding count once.
pub(super) fn distinct(values: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut sorted: Vec<f64> = values.into_iter().filter(|v| v.is_finite()).collect();
    sorted.sort_by(f64::total_cmp);
    let (low, high) = ends(&sorted);
    let same = 1e-9 * (high - low).max(1e-6 * low.abs().max(high.abs()));
    let mut kept: Vec<f64> = Vec::new();
    for value in sorted {
        if kept.last().is_none_or(|last| value - last > same) {
            kept.push(value);
        }
    }
    kept
}

fn ends(rising: &[f64]) -> (f64, f64) {
    (rising.first().copied().unwrap_or(0.0), rising.last().copied().unwrap_or(0.0))
}

fn in_decades(rising: &[f64]) -> bool {
    let (low, high) = ends(rising);
    if rising.len() < 3 || low <= 0.0 || high <= 10.0 * low {
        return false;
    }
    let steps: Vec<f64> = rising.windows(2).map(|pair| (pair[1] / pair[0]).log10()).collect();
    let (short, long) = steps.iter().fold((f64::MAX, 0.0_f64), |(s, l), step| (s.min(*step), l.max(*step)));
    long <= EVEN_STEPS * short
}

fn spanned(low: f64, high: f64) -> (f64, f64) {
    let size = low.abs().max(high.abs());
    let least = if size > 0.0 { LEAST_SPAN * size } else { 1.0 };
    if high - low >= least {
        return (low, high);
    }
    let half = if size > 0.0 { 0.05 * size } else { 1.0 };
    (low - half, high + half)
}

fn tight(rising: &[f64]) -> Range {
    let (low, high) = ends(rising);
    let (low, high) = spanned(low, high);
    let air = 0.03 * (high - low);
    Range { low: low - air, high: high + air }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(values: &[f64]) -> Axis {
        let column = Column {
            name: "leg".to_owned(),
            words: "leg".to_owned(),
            unit: "mm".to_owned(),
            values: Values::Numbers(values.to_vec()),
        };
        Axis::along(&column, &(0..values.len()).collect::<Vec<_>>())
    }

    fn texts(axis: &Axis, about: f64) -> Vec<String> {
        axis.marks(about).into_iter().map(|m| m.text).collect()
    }

    #[test]
    fn numbers_even_in_decades_over_more_than_one_get_a_scale_of_decades() {
        assert_eq!(of(&[1.0, 2.0, 5.0, 10.0, 20.0]).kind, Kind::Decades);
        assert_eq!(texts(&of(&[0.01, 0.1, 1.0, 10.0]), 5.0), ["0.01", "0.1", "1", "10"]);
        assert!(matches!(of(&[1.0, 2.0, 3.0, 4.0, 12.0]).kind, Kind::Even { .. }));
        assert!(matches!(of(&[1.0, 2.0, 4.0, 8.0]).kind, Kind::Even { .. }), "less than a decade");
        assert!(matches!(of(&[0.0, 1.0, 10.0]).kind, Kind::Even { .. }));
    }

    #[test]
    fn huge_numbers_leave_their_power_to_the_name() {
        let axis = of(&[2e7, 8e7]);
        assert_eq!(axis.name, "leg, 10⁶ mm");
        assert!(texts(&axis, 4.0).contains(&"80".to_owned()), "{:?}", texts(&axis, 4.0));
    }

    #[test]
    fn words_keep_their_order_and_are_evenly_spaced() {
        let column = Column {
            name: "p".to_owned(),
            words: "procedure".to_owned(),
            unit: String::new(),
            values: Values::Words(["b", "a", "b", "c"].map(str::to_owned).to_vec()),
        };
        let axis = Axis::along(&column, &[0, 1, 2, 3]);
        let places: Vec<f64> = (0..4).map(|row| axis.place(&column, row)).collect();
        assert_eq!(places, [0.0, 1.0, 0.0, 2.0]);
        assert_eq!(texts(&axis, 3.0), ["b", "a", "c"]);
    }

    #[test]
    fn one_number_or_none_still_gives_an_axis() {
        for values in [vec![], vec![0.0], vec![5.0, 5.0], vec![-3.0], vec![f64::NAN]] {
            let axis = of(&values);
            assert!(axis.range.high > axis.range.low, "{values:?}: {axis:?}");
            let up = Axis::up(|_| String::new(), values.clone());
            assert!(up.range.high > up.range.low && up.range.high.is_finite(), "{values:?}: {up:?}");
        }
    }

    #[test]
    fn up_the_side_zero_is_held_unless_it_is_far() {
        let range = |values: [f64; 2]| Axis::up(|_| String::new(), values).range;
        assert!(range([2.0, 9.0]).low.abs() < 1e-12 && range([98.0, 100.0]).low > 90.0);
        assert!(range([-9.0, -2.0]).high.abs() < 1e-12 && range([-2.0, 9.0]).low < -2.0);
    }
}
