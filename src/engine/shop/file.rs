//! The whole shop file.
//!
//! A checked shop.

use super::heat::HeatShape;
use super::measuring::MeasuringShape;
use super::press::PressShape;
use super::rates::RatesShape;
use super::roller::RollerShape;
use crate::choose::Book;
use crate::choose::book::entries;
use crate::choose::book::file::{EntryShape, LineShape};
use crate::input::findings::{Bounds, Findings, bounds};
use crate::input::{Beside, Form, Hint, KnownSlip, Problem, as_toml, kept_schema, shape};
use crate::job::file::{JobFile, LearnedShape, take_in};
use crate::straighten::piece::Measuring;
use crate::straighten::plan;
use serde_json::Value;

impl Form for ShopFile {
    const WHAT: &'static str = "a shop";
    const START: &'static str = "`weldbow new --shop` writes one";

    kept_schema!(ShopFile);

    fn known_slip(place: &str, found: &str, beside: &Value) -> Option<KnownSlip> {
        let value = beside.get(found).filter(|_| place == "line.trip")?;
        let wanted = "`run`: it is called that now, a run through the line".to_owned();
        Some(KnownSlip { wanted, hint: Hint::Right(format!("run = {}", as_toml(value))) })
    }

    fn beside(&mut self, read: &mut Beside<'_>) -> Result<(), Problem> {
        take_in(&mut self.learned, read)
    }
}

const CHANCE: Bounds = bounds("a chance", 0.0, 1.0, "0 (never) to 1 (certain)", "");
/// One piece in twenty (choice).
const PLAN_FROM: f64 = 0.05;

shape! {
    /// What a shop has for welding and straightening, and what its time costs.
    #[derive(Default)]
    pub struct ShopFile {
        /// What to call the shop on plans and sheets.
        pub title: Option<String> as "Straightening bay, riding arena",
        /// Chance that a piece needs straightening from which to get ready for it, 0 to 1; 0.05 without it.
        pub plan_from_chance: Option<f64> as 0.05,
        /// A press for whole members; none without this table.
        pub press: Option<PressShape>,
        /// Rollers or dies that bend a flange back; none without this table.
        pub roller: Option<RollerShape>,
        /// Torches for vee heats and lines of heat; none without this table.
        pub heat: Option<HeatShape>,
        /// Minutes and money; placeholders where a line is left out.
        pub rates: Option<RatesShape>,
        /// How well the shop measures.
        pub measuring: Option<MeasuringShape>,
        /// What the shop's own measured pieces say: the file that `weldbow calibrate` wrote, from where this file lies. It holds for
        /// every job that names none itself.
        #[schemars(with = "Option<String>", example = &"learned.toml")]
        pub learned: Option<LearnedShape>,
        /// The welding line; usual limits without it.
        pub line: Option<LineShape>,
        /// Qualified welding procedures, one `[[book]]` each; `weldbow choose` needs at least one.
        #[serde(default)]
        pub book: Vec<EntryShape>,
    }
}

impl ShopFile {
    /// Checks every table.
    ///
    /// # Errors
    /// All problems, in no particular order.
    pub fn build(&self) -> Result<Shop, Vec<Problem>> {
        let (shop, problems) = self.made();
        if problems.is_empty() { Ok(shop) } else { Err(problems) }
    }

    /// The shop, and what is wrong with it.
    fn made(&self) -> (Shop, Vec<Problem>) {
        let mut findings = Findings::default();
        let given = self.rates.clone().unwrap_or_default();
        let (rates, placeholder_rates) = given.build(&mut findings);
        let line = self.line.clone().unwrap_or_default().build(&mut findings);
        let book = (!self.book.is_empty()).then(|| entries(&self.book, &mut findings)).flatten();
        let costs = given.welding(&mut findings);
        let shop = Shop {
            title: self.title.clone().unwrap_or_else(|| "untitled shop".to_owned()),
            tools: plan::Equipment {
                press: self.press.as_ref().map(|press| press.build(&mut findings)),
                roller: self.roller.as_ref().map(|roller| roller.build(&mut findings)),
                heat: self.heat.as_ref().map(|heat| heat.build(&mut findings)),
                rates,
            },
            measuring: self.measuring.clone().unwrap_or_default().build(&mut findings),
            placeholder_rates,
            plan_from_chance: self.plan_from_chance.unwrap_or(PLAN_FROM),
            learned: self.learned.clone(),
            welding: book.map(|entries| Book { line, entries, costs }),
        };
        findings.bounded("plan_from_chance", shop.plan_from_chance, &CHANCE);
        (shop, findings.0)
    }

    /// The line and its procedures.
    ///
    /// # Errors
    /// All problems; one of them if there is no procedure at all.
    pub fn welding(&self) -> Result<Book, Vec<Problem>> {
        let shop = self.build()?;
        shop.welding.ok_or_else(|| {
            let mut findings = Findings::default();
            entries(&self.book, &mut findings);
            findings.0
        })
    }

    /// As [`Shop::lend`].
    pub fn lend(&self, job: &mut JobFile) {
        lend(self.learned.as_ref(), job);
    }
}

impl Shop {
    /// A middling press with one ram and torches, no rollers; what stands in where no file is given (choice).
    pub fn usual() -> Self {
        let file = ShopFile {
            title: Some("a usual shop: one-ram press, torches, no rollers".to_owned()),
            press: Some(PressShape::default()),
            heat: Some(HeatShape::default()),
            ..ShopFile::default()
        };
        file.made().0
    }
}

/// A checked shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// What it calls itself.
    pub title: String,
    /// Press, rollers, torches, rates; the leg under the press pads is the job's and left at 0.
    pub tools: plan::Equipment,
    /// How well it measures.
    pub measuring: Measuring,
    /// Rates that are placeholders, as the file calls them.
    pub placeholder_rates: Vec<&'static str>,
    /// Chance that a piece needs straightening from which the shop gets ready for it.
    pub plan_from_chance: f64,
    /// What its own pieces say, for jobs that name no such file.
    pub learned: Option<LearnedShape>,
    /// Welding line and qualified procedures; none without a `[[book]]`.
    pub welding: Option<Book>,
}

impl Shop {
    /// Gives a job what the shop's own pieces say, unless it names a file of its own.
    pub fn lend(&self, job: &mut JobFile) {
        lend(self.learned.as_ref(), job);
    }
}

/// Gives a job what a shop's pieces say, unless it names a file of its own.
fn lend(learned: Option<&LearnedShape>, job: &mut JobFile) {
    if job.learned.is_none() {
        job.learned = learned.cloned();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_shop_is_made_of_the_defaults() {
        let usual = Shop::usual();
        assert!(usual.tools.press.is_some() && usual.tools.heat.is_some() && usual.tools.roller.is_none());
        assert!(usual.tools.rates.placeholders && usual.title.contains("usual"));
    }

    #[test]
    fn an_empty_file_is_a_shop_without_tools() {
        let none = ShopFile::default().build().unwrap();
        assert!(none.tools.press.is_none() && none.tools.heat.is_none());
        assert!((none.plan_from_chance - 0.05).abs() < 1e-12);
    }
}
