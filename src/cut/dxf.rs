//! DXF of the kind every reader takes (AutoCAD R12, AC1009): lines, polylines and texts on named layers, ASCII, CR LF. Written by
//! hand from Autodesk's published description of the format (memory), read back with ezdxf (`reference-cases/cut_outline.py`).

use crate::figures::{decimals, fixed, in_unit};
use std::fmt::Write;
use weldbow_engine::units::System;

/// A layer with its colour number.
pub(crate) type Layer = (&'static str, u8);

/// A drawing being made; coordinates in mm, written in the unit of its system.
pub(crate) struct Dxf {
    text: String,
    system: System,
}

impl Dxf {
    /// An empty drawing with these layers.
    pub(crate) fn new(system: System, layers: &[Layer]) -> Self {
        let mut new = Self { text: String::new(), system };
        // unit of a drawing: 4 millimetres, 1 inches; measurement: 1 metric, 0 English
        let (unit, measurement) = system.pick(("4", "1"), ("1", "0"));
        new.pairs(&[
            (0, "SECTION"),
            (2, "HEADER"),
            (999, "written by weldbow"),
            (9, "$ACADVER"),
            (1, "AC1009"),
            (9, "$INSUNITS"),
            (70, unit),
            (9, "$MEASUREMENT"),
            (70, measurement),
            (0, "ENDSEC"),
            (0, "SECTION"),
            (2, "TABLES"),
            (0, "TABLE"),
            (2, "LTYPE"),
            (70, "1"),
            (0, "LTYPE"),
            (2, "CONTINUOUS"),
            (70, "64"),
            (3, "Solid line"),
            (72, "65"),
            (73, "0"),
            (40, "0.0"),
            (0, "ENDTAB"),
            (0, "TABLE"),
            (2, "LAYER"),
            (70, &layers.len().to_string()),
        ]);
        for (name, colour) in layers {
            new.pairs(&[(0, "LAYER"), (2, name), (70, "0"), (62, &colour.to_string()), (6, "CONTINUOUS")]);
        }
        new.pairs(&[(0, "ENDTAB"), (0, "ENDSEC"), (0, "SECTION"), (2, "ENTITIES")]);
        new
    }

    fn pairs(&mut self, all: &[(u16, &str)]) {
        for (code, value) in all {
            // writing to a String cannot fail
            let _ = write!(self.text, "{code:>3}\r\n{value}\r\n");
        }
    }

    fn at(&mut self, code: u16, (x, y): (f64, f64)) {
        let number = |mm: f64| fixed(in_unit(mm, self.system), decimals(self.system) + 1);
        self.pairs(&[(code, &number(x)), (code + 10, &number(y)), (code + 20, "0.0")]);
    }

    /// A straight line.
    pub(crate) fn line(&mut self, layer: Layer, from: (f64, f64), to: (f64, f64)) {
        self.pairs(&[(0, "LINE"), (8, layer.0)]);
        self.at(10, from);
        self.at(11, to);
    }

    /// A closed outline through points.
    pub(crate) fn outline(&mut self, layer: Layer, points: &[(f64, f64)]) {
        self.pairs(&[(0, "POLYLINE"), (8, layer.0), (66, "1"), (70, "1")]);
        self.at(10, (0.0, 0.0));
        for point in points {
            self.pairs(&[(0, "VERTEX"), (8, layer.0)]);
            self.at(10, *point);
        }
        self.pairs(&[(0, "SEQEND"), (8, layer.0)]);
    }

    /// A text with its lower left corner at a place.
    pub(crate) fn text(&mut self, layer: Layer, at: (f64, f64), height_mm: f64, words: &str) {
        self.pairs(&[(0, "TEXT"), (8, layer.0)]);
        self.at(10, at);
        let height = fixed(in_unit(height_mm, self.system), decimals(self.system));
        self.pairs(&[(40, &height), (1, &ascii(words))]);
    }

    /// The finished file.
    pub(crate) fn finish(mut self) -> String {
        self.pairs(&[(0, "ENDSEC"), (0, "EOF")]);
        self.text
    }
}

/// A text in the characters the format has: its own codes for °, ± and ⌀, numbers of characters for others.
fn ascii(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars() {
        match c {
            '°' => out.push_str("%%d"),
            '±' => out.push_str("%%p"),
            '⌀' => out.push_str("%%c"),
            '×' => out.push('x'),
            '−' | '–' => out.push('-'),
            ' '..='~' => out.push(c),
            c if c.is_control() => out.push(' '),
            c => {
                let mut units = [0_u16; 2];
                for unit in c.encode_utf16(&mut units) {
                    let _ = write!(out, "\\U+{unit:04X}");
                }
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_of_any_kind_stays_ascii_and_on_its_line() {
        let all = ascii("R2 – é\n°±×\u{1f6e0}");
        assert!(all.is_ascii() && !all.contains('\n'), "{all}");
        assert_eq!(all, "R2 - \\U+00E9 %%d%%px\\U+D83D\\U+DEE0");
    }
}
