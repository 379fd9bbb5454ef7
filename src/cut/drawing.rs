//! The plates of a member laid out as a drawing.

use crate::dxf::{Dxf, Layer};
use crate::figures::length;
use crate::plates::Plates;
use crate::stations::{Station, Stations, stations};
use crate::web::{Joint, WebPlate};
use weldbow_engine::units::System;

/// Outline of the web as it is laid together.
const WEB: Layer = ("WEB", 7);
/// Outline of each of its plates, where there are several.
const WEB_PLATES: Layer = ("WEB_PLATES", 7);
/// Where plates of the web meet.
const SPLICES: Layer = ("SPLICES", 1);
/// How far bevels reach into a face.
const BEVELS: Layer = ("BEVELS", 6);
/// Outlines of the strips.
const FLANGES: Layer = ("FLANGES", 5);
/// Lines to bend strips at.
const BENDS: Layer = ("BENDS", 3);
/// Words: nothing to cut.
const NOTES: Layer = ("NOTES", 2);
const LAYERS: [Layer; 7] = [WEB, WEB_PLATES, SPLICES, BEVELS, FLANGES, BENDS, NOTES];

/// Height of words, mm.
const HEIGHT_MM: f64 = 25.0;
/// Room between plates, mm.
const APART_MM: f64 = 120.0;

/// The drawing of a member as DXF (R12). The web stands first, its outer edge along the x axis, + y toward the inner flange; beneath
/// it its plates one by one where there are several, then the strips of the flanges. Edges go straight between the stations that are
/// needed, whatever a table is asked for.
pub fn drawing(plates: &Plates, mark: &str, quantity: u32, system: System) -> String {
    let mut sheet = Sheet { dxf: Dxf::new(system, &LAYERS), system, low_mm: 0.0 };
    let all = stations(&plates.web, Stations::Needed, system);
    sheet.web(plates, &all, &format!("{mark}, {quantity} off, {}", plates.title));
    if plates.web.plates.len() > 1 {
        for plate in &plates.web.plates {
            sheet.web_plate(plate, &all, mark);
        }
    }
    sheet.strips(plates, mark);
    let note = "Holes, notches, stiffeners, kerf and lead-ins are not in these outlines. Layer NOTES is not to be cut.";
    sheet.note(note);
    sheet.dxf.finish()
}

struct Sheet {
    dxf: Dxf,
    system: System,
    /// Lowest place used so far.
    low_mm: f64,
}

impl Sheet {
    fn length(&self, mm: f64) -> String {
        length(mm, self.system)
    }

    /// A splice at an end of a plate.
    fn joint(&self, end: &str, joint: &Joint) -> String {
        format!("; {end} {}, root gap {}", joint.words(self.system), self.length(joint.gap_mm))
    }

    fn note(&mut self, words: &str) {
        let at = (0.0, self.low_mm - 2.0 * HEIGHT_MM);
        self.dxf.text(NOTES, at, HEIGHT_MM, words);
        self.low_mm -= 3.0 * HEIGHT_MM;
    }

    fn web(&mut self, plates: &Plates, all: &[Station], title: &str) {
        let web = &plates.web;
        let along = |s: &Station| s.along_mm;
        self.dxf.outline(WEB, &outline(all.iter(), along, 0.0));
        for plate in &web.plates {
            if let Some(joint) = &plate.after {
                self.splice(plate, joint);
            }
        }
        let lowest = all.iter().map(|s| s.edges.outer_mm).fold(0.0, f64::min);
        self.low_mm = lowest;
        self.note(&format!("{title}: web as laid together, {} long", self.length(web.length_mm())));
        self.note("Start end at the left, outer edge at the bottom");
    }

    /// The line plates meet at; with a gap, the edge of either.
    fn splice(&mut self, plate: &WebPlate, joint: &Joint) {
        let edges = plate.at(plate.length_mm);
        let end = plate.start_mm + plate.length_mm;
        let mut lines = vec![(SPLICES, end)];
        if joint.gap_mm > 0.0 {
            lines.push((SPLICES, end + joint.gap_mm));
        }
        if let Some(bevel) = joint.bevel_mm {
            lines.extend([(BEVELS, end - bevel), (BEVELS, end + joint.gap_mm + bevel)]);
        }
        for (layer, x) in lines {
            self.dxf.line(layer, (x, edges.outer_mm), (x, edges.inner_mm));
        }
    }

    fn web_plate(&mut self, plate: &WebPlate, all: &[Station], mark: &str) {
        let of = || all.iter().filter(|s| s.plate == plate.number);
        let highest = of().map(|s| s.edges.inner_mm).fold(0.0, f64::max);
        let lowest = of().map(|s| s.edges.outer_mm).fold(0.0, f64::min);
        let base = self.low_mm - APART_MM - highest;
        self.dxf.outline(WEB_PLATES, &outline(of(), |s| s.own_mm, base));
        let last = plate.length_mm;
        let bevels = [plate.before.map(|j| (j, 0.0, 1.0)), plate.after.map(|j| (j, last, -1.0))];
        let mut words = format!("{mark} web {}, {} thick", plate.number, self.length(plate.thickness_mm));
        for (joint, end, inward) in bevels.into_iter().flatten() {
            if let Some(bevel) = joint.bevel_mm {
                let at = end + inward * bevel;
                let edges = plate.at(at);
                self.dxf.line(BEVELS, (at, base + edges.outer_mm), (at, base + edges.inner_mm));
            }
            let end = if inward > 0.0 { "start" } else { "finish" };
            words.push_str(&self.joint(end, &joint));
        }
        self.low_mm = base + lowest;
        self.note(&words);
    }

    fn strips(&mut self, plates: &Plates, mark: &str) {
        for strip in &plates.strips {
            let base = self.low_mm - APART_MM - strip.width_mm;
            let (length, top) = (strip.length_mm, base + strip.width_mm);
            self.dxf.outline(FLANGES, &[(0.0, base), (length, base), (length, top), (0.0, top)]);
            let mut words = format!(
                "{mark} {} flange {}, {} x {}, {} long",
                strip.flange.name(),
                strip.number,
                self.length(strip.width_mm),
                self.length(strip.thickness_mm),
                self.length(length)
            );
            for bend in &strip.bends {
                self.dxf.line(BENDS, (bend.own_mm, base), (bend.own_mm, top));
                let turn = bend.turn_rad.to_degrees().abs();
                words.push_str(&format!("; bend {turn:.2}° at {}", self.length(bend.own_mm)));
            }
            if let Some(joint) = strip.after {
                words.push_str(&self.joint("finish", &joint));
            }
            self.low_mm = base;
            self.note(&words);
        }
    }
}

/// Outer edge forward, inner edge back.
fn outline<'a>(
    stations: impl DoubleEndedIterator<Item = &'a Station> + Clone,
    along: impl Fn(&Station) -> f64,
    base_mm: f64,
) -> Vec<(f64, f64)> {
    let forward = stations.clone().map(|s| (along(s), base_mm + s.edges.outer_mm));
    let back = stations.rev().map(|s| (along(s), base_mm + s.edges.inner_mm));
    forward.chain(back).collect()
}
