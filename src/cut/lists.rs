//! Plates, stations and marks as tables: what a shop takes into its own lists.

use crate::figures::{decimals, fixed, in_unit, length, number, unit};
use crate::plates::Plates;
use crate::stations::{Station, straight_gap_mm};
use weldbow_engine::input::text;
use weldbow_engine::prediction::CutPiece;
use weldbow_engine::units::System;

/// One mark to be cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its name.
    pub mark: String,
    /// Job file it was worked out from.
    pub job: String,
    /// Pieces.
    pub quantity: u32,
    /// Its plates.
    pub plates: Plates,
    /// Stations of its web.
    pub stations: Vec<Station>,
}

/// A cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A whole number.
    Count(u64),
    /// A length, mm.
    Length(f64),
    /// Another number with its decimals.
    Number(f64, usize),
}

/// A table in one system of units.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it is called.
    pub name: &'static str,
    /// Names of its columns, with their units: "cut_mm".
    pub heads: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<Cell>>,
    /// Units of its lengths.
    pub system: System,
}

impl Table {
    /// A list without rows; a head that ends in `_` is a length's, and its unit follows.
    fn new(name: &'static str, system: System, heads: &str) -> Self {
        let head = |head: &str| head.to_owned() + if head.ends_with('_') { unit(system) } else { "" };
        Self { name, heads: heads.split(',').map(head).collect(), rows: Vec::new(), system }
    }

    /// A cell as text.
    pub fn words(&self, cell: &Cell) -> String {
        match cell {
            Cell::Text(words) => words.clone(),
            Cell::Count(count) => count.to_string(),
            Cell::Length(mm) => number(*mm, self.system),
            Cell::Number(value, decimals) => fixed(*value, *decimals),
        }
    }

    /// A cell for people: a figure with a real minus sign; names keep their hyphens.
    pub fn said(&self, cell: &Cell) -> String {
        let words = self.words(cell);
        if matches!(cell, Cell::Text(_)) { words } else { words.replace('-', "\u{2212}") }
    }

    /// A cell as a number with its decimals, if it is one.
    pub fn figure(&self, cell: &Cell) -> Option<(f64, usize)> {
        let (value, decimals) = match cell {
            Cell::Text(_) => return None,
            Cell::Count(count) => (*count as f64, 0),
            Cell::Length(mm) => (in_unit(*mm, self.system), decimals(self.system)),
            Cell::Number(value, decimals) => (*value, *decimals),
        };
        let scale = 10_f64.powi(i32::try_from(decimals).unwrap_or_default());
        Some(((value * scale).round() / scale, decimals)).filter(|(value, _)| value.is_finite())
    }

    /// Columns worth showing, by number: not those named, nor empty ones.
    pub fn shown(&self, without: &[&str]) -> Vec<usize> {
        let plain = |head: &str| head.trim_end_matches("_mm").trim_end_matches("_in").to_owned();
        (0..self.heads.len())
            .filter(|i| !without.contains(&plain(&self.heads[*i]).as_str()))
            .filter(|i| self.rows.iter().any(|row| !self.words(&row[*i]).is_empty()))
            .collect()
    }

    /// Whether a column holds numbers.
    pub fn is_of_figures(&self, column: usize) -> bool {
        self.rows.iter().any(|row| self.figure(&row[column]).is_some())
    }

    /// Name of a column in words: "along web, mm".
    pub fn head_in_words(&self, column: usize) -> String {
        let head = &self.heads[column];
        let split = head.rsplit_once('_').filter(|(_, unit)| ["mm", "in", "kg"].contains(unit));
        match split {
            Some((name, unit)) => format!("{}, {unit}", name.replace('_', " ")),
            None => head.replace('_', " "),
        }
    }

    /// The line with the names of the columns.
    pub fn header(&self) -> String {
        self.heads.join(",") + "\n"
    }

    /// As CSV: names first. Words that a spreadsheet would run get an apostrophe in front.
    ///
    /// # Errors
    /// None that memory does not make.
    pub fn csv(&self) -> Result<String, csv::Error> {
        let mut out = csv::Writer::from_writer(Vec::new());
        out.write_record(&self.heads)?;
        for row in &self.rows {
            out.write_record(row.iter().map(|cell| text::cell(&self.words(cell)).into_owned()))?;
        }
        let bytes = out.into_inner().map_err(|e| e.into_error())?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }
}

fn words(text: &str) -> Cell {
    Cell::Text(text.to_owned())
}

/// One row a plate: size, what its length is made of, splice at its finish end.
pub fn cut_list(marks: &[Mark], system: System) -> Table {
    let heads =
        "mark,quantity,part,piece,thickness_,width_,finished_,shrinkage_,splices_,cut_,bends,finish_end";
    let mut table = Table::new("cut list", system, heads);
    for mark in marks {
        for piece in &mark.plates.pieces {
            table.rows.push(plate_row(mark, piece, system));
        }
    }
    table
}

fn plate_row(mark: &Mark, piece: &CutPiece, system: System) -> Vec<Cell> {
    let plates = &mark.plates;
    let strip = plates
        .strips
        .iter()
        .find(|s| piece.part.strip_suffix("_flange") == Some(s.flange.name()) && s.number == piece.piece);
    let web = plates.web.plates.iter().find(|p| piece.part == "web" && p.number == piece.piece);
    let thickness = strip.map(|s| s.thickness_mm).or(web.map(|p| p.thickness_mm)).unwrap_or_default();
    let width = strip.map(|s| s.width_mm).or(web.map(crate::WebPlate::blank_mm)).unwrap_or_default();
    let bends: Vec<String> = strip
        .iter()
        .flat_map(|s| &s.bends)
        .map(|b| format!("{}° at {}", fixed(b.turn_rad.to_degrees().abs(), 2), length(b.own_mm, system)))
        .collect();
    let joint = web.and_then(|p| p.after).or_else(|| strip.and_then(|s| s.after));
    let finish = joint
        .map_or_else(String::new, |j| format!("{}; root gap {}", j.words(system), length(j.gap_mm, system)));
    vec![
        words(&mark.mark),
        Cell::Count(u64::from(mark.quantity)),
        Cell::Text(piece.part.replace('_', " ")),
        Cell::Count(piece.piece as u64),
        Cell::Length(thickness),
        Cell::Length(width),
        Cell::Length(piece.finished_mm),
        Cell::Length(piece.shrinkage_mm),
        Cell::Length(piece.splices_mm),
        Cell::Length(piece.cut_mm),
        Cell::Text(bends.join("; ")),
        Cell::Text(finish),
    ]
}

/// One row a station of a web.
pub fn ordinates(marks: &[Mark], system: System) -> Table {
    let heads = "mark,plate,what,along_web_,on_plate_,outer_edge_,inner_edge_,on_member_";
    let mut table = Table::new("web ordinates", system, heads);
    for mark in marks {
        table.rows.extend(mark.stations.iter().map(|s| {
            vec![
                words(&mark.mark),
                Cell::Count(s.plate as u64),
                words(s.what),
                Cell::Length(s.along_mm),
                Cell::Length(s.own_mm),
                Cell::Length(s.edges.outer_mm),
                Cell::Length(s.edges.inner_mm),
                Cell::Length(s.edges.x_mm),
            ]
        }));
    }
    table
}

/// One row a mark.
pub fn marks(marks: &[Mark], system: System) -> Table {
    let heads = "mark,quantity,title,job,web_plates,strips,web_length_,largest_ordinate_,ordinate_2s_,web_edges,straight_gap_,mass_kg";
    let mut table = Table::new("marks", system, heads);
    for mark in marks {
        let plates = &mark.plates;
        let web = &plates.web;
        table.rows.push(vec![
            words(&mark.mark),
            Cell::Count(u64::from(mark.quantity)),
            words(&plates.title),
            words(&mark.job),
            Cell::Count(web.plates.len() as u64),
            Cell::Count(plates.strips.len() as u64),
            Cell::Length(web.length_mm()),
            Cell::Length(web.largest_mm),
            Cell::Length(plates.ordinate_2s_mm),
            words(if web.bowed { "cut to the opposite bow" } else { "straight, a bow is not needed" }),
            Cell::Length(straight_gap_mm(web, &mark.stations, system)),
            Cell::Number(plates.mass_kg, 1),
        ]);
    }
    table
}
