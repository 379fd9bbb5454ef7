//! What an hour costs and what a hand's turn takes.

use crate::choose::book::Costs;
use crate::input::findings::{Bounds, Findings, Lines, bounds};
use crate::input::shape;
use crate::straighten::plan::Rates;
use crate::units::{Speed, Time};

const MONEY: Bounds = bounds("an amount of money", 0.0, 1e7, "nothing to 10 million", "");
const TIME: Bounds = bounds("a time", 0.0, 86_400.0, "nothing to 24 h", "s");
const PUSHES: Bounds = bounds("a number of pushes at one place", 1.0, 20.0, "1 to 20", "pushes");
const SPEED: Bounds = bounds("a speed along the member", 0.1, 1000.0, "6 mm/min to 60 m/min", "mm/s");
const MINUTE_S: f64 = 60.0;

shape! {
    /// Minutes and money. No published time or cost of straightening one member of a building was found: a line left out is a
    /// placeholder, and the plan says so.
    #[derive(Default)]
    pub struct RatesShape {
        /// Money per hour, crew and place together; placeholder 100.
        pub per_hour: Option<f64> as 100.0,
        /// Money for gas and wear of one heat; placeholder 2.
        pub per_heat: Option<f64> as 2.0,
        /// Time to set the press up; placeholder 15 min.
        pub press_setup: Option<Time> as "15 min",
        /// Time to move the member to the next place; placeholder 5 min.
        pub position: Option<Time> as "5 min",
        /// Pushes at one place until it is right; placeholder 2.5.
        pub pushes_a_place: Option<f64> as 2.5,
        /// Time of one push; placeholder 1 min.
        pub push: Option<Time> as "1 min",
        /// Time of one measurement; placeholder 2 min.
        pub measure: Option<Time> as "2 min",
        /// Time to measure a piece the first time, camber, sweep and toes; placeholder 10 min.
        pub first_measure: Option<Time> as "10 min",
        /// Time to set up for heat; placeholder 20 min.
        pub heat_setup: Option<Time> as "20 min",
        /// Time of the flame of one heat; placeholder 3 min.
        pub fire: Option<Time> as "3 min",
        /// Time of cooling before the next heat at a place; placeholder 20 min.
        pub cool: Option<Time> as "20 min",
        /// Speed of rollers or of a line of heat; placeholder 0.5 m/min.
        pub line_speed: Option<Speed> as "0.5 m/min",
        /// Money to cut the seams, fit, weld and test again; placeholder 900.
        pub rework: Option<f64> as 900.0,
        /// Welding: money for wire, flux, gas and current of a kilogram of weld metal; placeholder 5.
        pub per_kg_weld: Option<f64> as 5.0,
        /// Welding: money per hour in which a member only lies until it is cold; placeholder 10.
        pub waiting_per_hour: Option<f64> as 10.0,
    }
}

impl RatesShape {
    /// What welding costs.
    pub(super) fn welding(&self, findings: &mut Findings) -> Costs {
        let mut lines = Lines::of("rates", findings);
        let (hour, waiting, kg) = Costs::PLACEHOLDERS;
        Costs {
            // what is wrong with the hour is said once, by the rates of straightening
            per_hour: self.per_hour.unwrap_or_else(|| lines.usual("per_hour", hour)),
            waiting_per_hour: lines.one("waiting_per_hour", self.waiting_per_hour, waiting, &MONEY),
            per_kg: lines.one("per_kg_weld", self.per_kg_weld, kg, &MONEY),
            placeholders: lines.left_out,
        }
    }

    /// Checks it; names of the lines of straightening left out come with it.
    pub(super) fn build(&self, findings: &mut Findings) -> (Rates, Vec<&'static str>) {
        let mut lines = Lines::of("rates", findings);
        let usual = Rates::PLACEHOLDERS;
        let rates = Rates {
            placeholders: false,
            per_hour: lines.one("per_hour", self.per_hour, usual.per_hour, &MONEY),
            per_heat: lines.one("per_heat", self.per_heat, usual.per_heat, &MONEY),
            press_setup_min: minutes(&mut lines, "press_setup", self.press_setup, usual.press_setup_min),
            position_min: minutes(&mut lines, "position", self.position, usual.position_min),
            pushes_a_place: lines.one("pushes_a_place", self.pushes_a_place, usual.pushes_a_place, &PUSHES),
            push_min: minutes(&mut lines, "push", self.push, usual.push_min),
            measure_min: minutes(&mut lines, "measure", self.measure, usual.measure_min),
            first_measure_min: minutes(
                &mut lines,
                "first_measure",
                self.first_measure,
                usual.first_measure_min,
            ),
            heat_setup_min: minutes(&mut lines, "heat_setup", self.heat_setup, usual.heat_setup_min),
            fire_min: minutes(&mut lines, "fire", self.fire, usual.fire_min),
            cool_min: minutes(&mut lines, "cool", self.cool, usual.cool_min),
            line_m_per_min: {
                let usual = usual.line_m_per_min * 1e3 / MINUTE_S;
                lines.one("line_speed", self.line_speed, usual, &SPEED) * MINUTE_S / 1e3
            },
            rework: lines.one("rework", self.rework, usual.rework, &MONEY),
        };
        (Rates { placeholders: !lines.left_out.is_empty(), ..rates }, lines.left_out)
    }
}

/// A time, min.
fn minutes(lines: &mut Lines<'_>, key: &'static str, given: Option<Time>, usual_min: f64) -> f64 {
    lines.one(key, given, usual_min * MINUTE_S, &TIME) / MINUTE_S
}
