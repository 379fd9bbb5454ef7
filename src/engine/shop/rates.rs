//! What an hour costs and what a hand's turn takes.

use crate::choose::book::Costs;
use crate::input::findings::{Bounds, Findings, bounds};
use crate::straighten::plan::Rates;
use crate::units::{Speed, Time};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

const MONEY: Bounds = bounds("an amount of money", 0.0, 1e7, "nothing to 10 million", "");
const TIME: Bounds = bounds("a time", 0.0, 86_400.0, "nothing to 24 h", "s");
const PUSHES: Bounds = bounds("a number of pushes at one place", 1.0, 20.0, "1 to 20", "pushes");
const SPEED: Bounds = bounds("a speed along the member", 0.1, 1000.0, "6 mm/min to 60 m/min", "mm/s");
const MINUTE_S: f64 = 60.0;

/// Minutes and money. No published time or cost of straightening one member of a building was found: a line left out is a
/// placeholder, and the plan says so.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RatesShape {
    /// Money per hour, crew and place together; placeholder 100.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &100.0)]
    pub per_hour: Option<f64>,
    /// Money for gas and wear of one heat; placeholder 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &2.0)]
    pub per_heat: Option<f64>,
    /// Time to set the press up; placeholder 15 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"15 min")]
    pub press_setup: Option<Time>,
    /// Time to move the member to the next place; placeholder 5 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"5 min")]
    pub position: Option<Time>,
    /// Pushes at one place until it is right; placeholder 2.5.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &2.5)]
    pub pushes_a_place: Option<f64>,
    /// Time of one push; placeholder 1 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1 min")]
    pub push: Option<Time>,
    /// Time of one measurement; placeholder 2 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"2 min")]
    pub measure: Option<Time>,
    /// Time to measure a piece the first time, camber, sweep and toes; placeholder 10 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"10 min")]
    pub first_measure: Option<Time>,
    /// Time to set up for heat; placeholder 20 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"20 min")]
    pub heat_setup: Option<Time>,
    /// Time of the flame of one heat; placeholder 3 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"3 min")]
    pub fire: Option<Time>,
    /// Time of cooling before the next heat at a place; placeholder 20 min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"20 min")]
    pub cool: Option<Time>,
    /// Speed of rollers or of a line of heat; placeholder 0.5 m/min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.5 m/min")]
    pub line_speed: Option<Speed>,
    /// Money to cut the seams, fit, weld and test again; placeholder 900.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &900.0)]
    pub rework: Option<f64>,
    /// Welding: money for wire, flux, gas and current of a kilogram of weld metal; placeholder 5.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &5.0)]
    pub per_kg_weld: Option<f64>,
    /// Welding: money per hour in which a member only lies until it is cold; placeholder 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &10.0)]
    pub waiting_per_hour: Option<f64>,
}

impl RatesShape {
    /// Names of the lines of straightening left out.
    pub(crate) fn placeholders(&self) -> Vec<&'static str> {
        let lines = [
            ("per_hour", self.per_hour.is_some()),
            ("per_heat", self.per_heat.is_some()),
            ("press_setup", self.press_setup.is_some()),
            ("position", self.position.is_some()),
            ("pushes_a_place", self.pushes_a_place.is_some()),
            ("push", self.push.is_some()),
            ("measure", self.measure.is_some()),
            ("first_measure", self.first_measure.is_some()),
            ("heat_setup", self.heat_setup.is_some()),
            ("fire", self.fire.is_some()),
            ("cool", self.cool.is_some()),
            ("line_speed", self.line_speed.is_some()),
            ("rework", self.rework.is_some()),
        ];
        lines.into_iter().filter(|(_, given)| !given).map(|(name, _)| name).collect()
    }

    /// What welding costs.
    pub(super) fn welding(&self, findings: &mut Findings) -> Option<Costs> {
        let (hour, waiting, kg) = Costs::PLACEHOLDERS;
        let lines = [
            ("per_hour", self.per_hour, hour),
            ("waiting_per_hour", self.waiting_per_hour, waiting),
            ("per_kg_weld", self.per_kg_weld, kg),
        ];
        // what is wrong with the hour is said once, by the rates of straightening
        let one = |(key, given, usual): (&str, Option<f64>, f64)| match given {
            Some(given) if key != "per_hour" => findings.bounded(format!("rates.{key}"), given, &MONEY),
            Some(given) => Some(given),
            None => Some(usual),
        };
        let [per_hour, waiting_per_hour, per_kg] = lines.map(one);
        let placeholders = lines.iter().filter(|l| l.1.is_none()).map(|l| l.0).collect();
        Some(Costs {
            per_hour: per_hour?,
            waiting_per_hour: waiting_per_hour?,
            per_kg: per_kg?,
            placeholders,
        })
    }

    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> Option<Rates> {
        let usual = Rates::PLACEHOLDERS;
        let mut one = |key: &str, given: Option<f64>, usual: f64, bounds: &Bounds| match given {
            Some(given) => findings.bounded(format!("rates.{key}"), given, bounds),
            None => Some(usual),
        };
        let per_hour = one("per_hour", self.per_hour, usual.per_hour, &MONEY);
        let per_heat = one("per_heat", self.per_heat, usual.per_heat, &MONEY);
        let rework = one("rework", self.rework, usual.rework, &MONEY);
        let pushes = one("pushes_a_place", self.pushes_a_place, usual.pushes_a_place, &PUSHES);
        let speed = self.line_speed.map(Speed::value);
        let usual_speed = usual.line_m_per_min * 1e3 / MINUTE_S;
        let line = one("line_speed", speed, usual_speed, &SPEED);
        let mut minutes = |key: &str, given: Option<Time>, usual: f64| {
            one(key, given.map(Time::value), usual * MINUTE_S, &TIME).map(|s| s / MINUTE_S)
        };
        let press_setup = minutes("press_setup", self.press_setup, usual.press_setup_min);
        let position = minutes("position", self.position, usual.position_min);
        let push = minutes("push", self.push, usual.push_min);
        let measure = minutes("measure", self.measure, usual.measure_min);
        let first_measure = minutes("first_measure", self.first_measure, usual.first_measure_min);
        let heat_setup = minutes("heat_setup", self.heat_setup, usual.heat_setup_min);
        let fire = minutes("fire", self.fire, usual.fire_min);
        let cool = minutes("cool", self.cool, usual.cool_min);
        Some(Rates {
            placeholders: !self.placeholders().is_empty(),
            per_hour: per_hour?,
            per_heat: per_heat?,
            press_setup_min: press_setup?,
            position_min: position?,
            pushes_a_place: pushes?,
            push_min: push?,
            measure_min: measure?,
            first_measure_min: first_measure?,
            heat_setup_min: heat_setup?,
            fire_min: fire?,
            cool_min: cool?,
            line_m_per_min: line? * MINUTE_S / 1e3,
            rework: rework?,
        })
    }
}
