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
use crate::straighten::piece::Measuring;
use crate::straighten::plan;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
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
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShopFile {
    /// What to call the shop on plans and sheets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"Straightening bay, riding arena")]
    pub title: Option<String>,
    /// Chance that a piece needs straightening from which to get ready for it, 0 to 1; 0.05 without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &0.05)]
    pub plan_from_chance: Option<f64>,
    /// A press for whole members; none without this table.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub press: Option<PressShape>,
    /// Rollers or dies that bend a flange back; none without this table.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roller: Option<RollerShape>,
    /// Torches for vee heats and lines of heat; none without this table.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat: Option<HeatShape>,
    /// Minutes and money; placeholders where a line is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rates: Option<RatesShape>,
    /// How well the shop measures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measuring: Option<MeasuringShape>,
    /// What the shop's own measured pieces say: the file that `weldbow calibrate` wrote, from where this file lies. It holds for
    /// every job that names none itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", example = &"learned.toml")]
    pub learned: Option<LearnedShape>,
    /// The welding line; usual limits without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line: Option<LineShape>,
    /// Qualified welding procedures, one `[[book]]` each; `weldbow choose` needs at least one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub book: Vec<EntryShape>,
}

impl ShopFile {
    /// Checks every table.
    ///
    /// # Errors
    /// All problems, in no particular order.
    pub fn build(&self) -> Result<Shop, Vec<Problem>> {
        let mut findings = Findings::default();
        let press = self.press.as_ref().map(|p| p.build(&mut findings));
        let roller = self.roller.as_ref().map(|r| r.build(&mut findings));
        let heat = self.heat.as_ref().map(|h| h.build(&mut findings));
        let given = self.rates.clone().unwrap_or_default();
        let rates = given.build(&mut findings);
        let costs = given.welding(&mut findings);
        let measuring = self.measuring.clone().unwrap_or_default().build(&mut findings);
        let chance = match self.plan_from_chance {
            Some(given) => findings.bounded("plan_from_chance", given, &CHANCE),
            None => Some(PLAN_FROM),
        };
        let line = self.line.clone().unwrap_or_default().build(&mut findings);
        let book = (!self.book.is_empty()).then(|| entries(&self.book, &mut findings));
        let whole = || {
            Some(Shop {
                title: self.title.clone().unwrap_or_else(|| "untitled shop".to_owned()),
                tools: plan::Equipment {
                    press: press.map_or(Some(None), |p| p.map(Some))?,
                    roller: roller.map_or(Some(None), |r| r.map(Some))?,
                    heat: heat.map_or(Some(None), |h| h.map(Some))?,
                    rates: rates?,
                },
                measuring: measuring?,
                placeholder_rates: given.placeholders(),
                plan_from_chance: chance?,
                learned: self.learned.clone(),
                welding: match book {
                    Some(entries) => Some(Book { line: line?, entries: entries?, costs: costs? }),
                    None => None,
                },
            })
        };
        match whole() {
            Some(shop) if findings.0.is_empty() => Ok(shop),
            _ => Err(findings.0),
        }
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

    /// A shop of defaults only, which are all in bounds.
    fn usual(&self) -> Shop {
        self.build().unwrap_or_else(|_| Shop {
            title: String::new(),
            tools: plan::Equipment {
                press: None,
                roller: None,
                heat: None,
                rates: plan::Rates::PLACEHOLDERS,
            },
            measuring: Measuring::USUAL,
            placeholder_rates: RatesShape::default().placeholders(),
            plan_from_chance: PLAN_FROM,
            learned: None,
            welding: None,
        })
    }
}

impl ShopFile {
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
        file.usual()
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
