//! What the foreman sets on the ram: the travel of the first push, and of the second once the set of the first is measured.

use super::Push;
use crate::member::Member;
use crate::straighten::press::{PressSpan, second_push};
use serde::Serialize;

/// Parts of the wanted set for which the second push is told beforehand.
const STAYED: [f64; 4] = [0.0, 0.25, 0.5, 0.75];
/// A set below this is none: what a dial reads, mm (choice).
const READ_MM: f64 = 0.1;

/// One line of the rule.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Second {
    /// What stayed of the first push at the gauge, mm.
    pub stayed_mm: f64,
    /// Ram travel of the second push from the new rest, mm.
    pub travel_mm: f64,
}

impl Push {
    /// Ram travel that belongs to a stroke by bending at the gauge: the ram's own place, shear, and give of the frame as
    /// at full load.
    fn travel_of_mm(&self, stroke_mm: f64) -> f64 {
        let nominal = &self.bent.nominal;
        self.travel_mm + (stroke_mm - nominal.stroke_mm) * nominal.ram_stroke_mm / nominal.stroke_mm
    }

    /// Ram travel of the first, measuring push from a small pre-load, mm.
    pub fn first_travel_mm(&self) -> f64 {
        self.travel_of_mm(self.measuring_stroke_mm)
    }

    /// Ram travel never to be passed in one push, mm: the high end of its range.
    pub fn most_travel_mm(&self) -> f64 {
        self.travel_of_mm(self.bent.stroke_mm.high.max(self.bent.nominal.stroke_mm))
    }

    /// Second pushes for parts of the wanted set that the first one left. Parts that no yield strength explains are left out,
    /// but nothing at all counts as a first push that was elastic: then the nominal push is next.
    pub fn second_rule(&self, member: &Member) -> Vec<Second> {
        let Ok(span) = PressSpan::new(member, self.layout, None) else { return Vec::new() };
        let wanted = self.bent.nominal.set_mm;
        let one = |part: f64| {
            let stayed_mm = part * wanted;
            if stayed_mm < READ_MM {
                return (part <= 0.0).then_some(Second { stayed_mm: 0.0, travel_mm: self.travel_mm });
            }
            let next = second_push(&span, self.measuring_stroke_mm, stayed_mm, wanted).ok()?;
            Some(Second { stayed_mm, travel_mm: self.travel_of_mm(next.stroke_mm) })
        };
        STAYED.into_iter().filter_map(one).collect()
    }
}
