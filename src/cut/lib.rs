//! Plates of a member for the cutting table: a checked job in, outlines and lists out.
//!
//! [`Plates::of`] works out what is cut: the web with its edges to the opposite bow, longer by what welds and splices draw in, and
//! the strips of the flanges along their own axis. `stations` chooses where edges are given, so that going straight between two of
//! them errs by less than a tenth of a millimetre; `drawing` lays the plates out as DXF, `lists` and `workbook` write them as
//! tables. Nothing here predicts: the shape comes from [`weldbow_engine::prediction`].
//!
//! **On the plate**: distances run along the straight line through the ends of the web's outer edge, from the start end of the
//! web as it is laid together, splices with their root gaps; ordinates from that line, + toward the inner flange.
//!
//! `web` lays the plates of a web side by side, `strips` are those of the flanges. What a shop cannot do is decided in one place:
//! `Allowance::cuts_the_web`, `FlangePreset::is_worth_setting`.

mod drawing;
mod dxf;
mod figures;
mod lists;
mod plates;
mod stations;
mod strips;
#[cfg(test)]
mod tests;
mod web;
mod workbook;

pub use drawing::drawing;
pub use lists::{Cell, Mark, Table, cut_list, marks, ordinates};
pub use plates::Plates;
pub use stations::{Station, Stations, WITHIN_MM, stations, straight_gap_mm};
pub use strips::{Bend, Strip};
pub use web::{Edges, Joint, Web, WebPlate};
pub use workbook::workbook;

/// What the length of a plate is made of.
pub const CUT_IS: &str =
    "cut = finished + weld shrinkage + half of what each splice draws in, less half of its root gap";

/// What must be said wherever plates are handed to a machine: common practice, no source.
pub const CAUTIONS: [&str; 5] = [
    "Holes, notches, slots, end plates and stiffeners are not in the outline: they are left to others, and so are kerf and lead-ins.",
    "Try one piece first, and measure it cold: the bow that is cut away is predicted, not measured.",
    "Strips cut off one edge of a plate bow as they come free; cut both edges at once, or leave bridges.",
    "Flame, plasma and laser burn and blind, and their fumes harm: guards, exhaust, eyes covered, nothing that burns nearby. Edges \
     are hot and sharp, drops fall.",
    "Long plates bend and slip when they are lifted: rated gear, nobody beneath. Local codes and the rules of the machine come first.",
];
