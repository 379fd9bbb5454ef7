//! The whole shop file.

use super::checked::{Shop, lend};
use super::heat::HeatShape;
use super::measuring::MeasuringShape;
use super::press::PressShape;
use super::rates::RatesShape;
use super::roller::RollerShape;
use crate::choose::Book;
use crate::choose::book::entries;
use crate::choose::book::file::{EntryShape, LineShape};
use crate::input::findings::{Bounds, Findings, bounds};
use crate::input::{Beside, Form, Hint, KnownSlip, Problem, Schema, as_toml};
use crate::job::file::{JobFile, LearnedShape, take_in};
use crate::straighten::plan;
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value;
use std::sync::LazyLock;

static SCHEMA: LazyLock<Schema> = LazyLock::new(Schema::of::<ShopFile>);

impl Form for ShopFile {
    const WHAT: &'static str = "a shop";
    const START: &'static str = "`weldbow new --shop` writes one";

    fn schema() -> &'static Schema {
        &SCHEMA
    }

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

/// What a shop has for welding and straightening, and what its time costs.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShopFile {
    /// What to call the shop on plans and sheets.
    #[schemars(example = &"Straightening bay, riding arena")]
    pub title: Option<String>,
    /// Chance that a piece needs straightening from which to get ready for it, 0 to 1; 0.05 without it.
    #[schemars(example = &0.05)]
    pub plan_from_chance: Option<f64>,
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
            welding: line.zip(book).map(|(line, entries)| Book { line, entries, costs }),
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
