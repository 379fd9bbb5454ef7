//! What is known of the piece and of how it was measured, one `key: value` a line.

use super::keys::{ADDING_UP, KEYS, known, plain};
use super::{front_values as values, keys};
use crate::reading::Diagnostics;
use crate::readings::Placed;
use std::collections::BTreeMap;
use weldbow_engine::input::{Problem, near, text};
use weldbow_engine::member::Member;
use weldbow_engine::straighten::decide::{Family, Situation};
use weldbow_engine::straighten::piece::thermal_bow_mm;
use weldbow_engine::straighten::press::Stiffener;
use weldbow_engine::straighten::shape::{OutOfStraight, ShapeError, Up};

/// What the front says. Offsets that hang on gravity need `up`.
#[derive(Debug, Clone, PartialEq)]
pub struct Front {
    /// Supports it lay on, mm from the start end.
    pub lay_on_mm: Option<[f64; 2]>,
    /// Which side faced up.
    pub up: Option<Up>,
    /// Weight (N/mm) and pull (N) of the string.
    pub(crate) string: Option<(f64, f64)>,
    /// Independent measurements that the readings are the mean of.
    pub measurements: u32,
    /// Standard uncertainty of camber, mm, in place of the shop's.
    pub(crate) camber_sd_mm: Option<f64>,
    /// Of sweep, mm.
    pub(crate) sweep_sd_mm: Option<f64>,
    /// Of toes, mm.
    pub toe_sd_mm: Option<f64>,
    /// One flange warmer than the other, K.
    pub warmer_k: Option<f64>,
    /// A side that was warmer than the one across, and by how many K.
    pub warmer: Option<(Up, f64)>,
    /// Whether odd readings were read again and stand.
    pub checked: bool,
    /// Whether the delivery condition of the steel is stated.
    pub(crate) delivery_stated: bool,
    /// Stretches not to be pushed or heated: stiffeners, holes, mm.
    pub keep_off_mm: Vec<(f64, f64)>,
    /// Stiffeners that a pad may bear on.
    pub stiffeners: Vec<Stiffener>,
    /// Yield strength of this piece by its certificate, MPa.
    pub yield_mpa: Option<f64>,
    /// What is known of steel and service.
    pub situation: Situation,
    /// Camber of earlier pieces of the family, less the wanted one, mm.
    pub(crate) camber_record: Option<Family>,
    /// Their sweep, mm.
    pub(crate) sweep_record: Option<Family>,
    /// Whose piece it is, for a shop's record: job, piece, date, line, procedure, family, as written.
    pub label: BTreeMap<&'static str, String>,
    /// Keys that lines gave, but those that add up.
    given: BTreeMap<&'static str, Given>,
}

/// What a key said, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Given {
    value: String,
    file: String,
    line: usize,
}

/// A line of a text: what complaints call the text, the number of the line from 1, and the byte it starts at.
#[derive(Clone, Copy)]
struct LineAt<'a> {
    file: &'a str,
    number: usize,
    start: usize,
}

impl Default for Front {
    fn default() -> Self {
        Self {
            lay_on_mm: None,
            up: None,
            string: None,
            measurements: 1,
            camber_sd_mm: None,
            sweep_sd_mm: None,
            toe_sd_mm: None,
            warmer_k: None,
            warmer: None,
            checked: false,
            delivery_stated: false,
            keep_off_mm: Vec::new(),
            stiffeners: Vec::new(),
            yield_mpa: None,
            situation: Situation::USUAL,
            camber_record: None,
            sweep_record: None,
            label: BTreeMap::new(),
            given: BTreeMap::new(),
        }
    }
}

impl Front {
    /// What the lines in front of a text say, which complaints call `file`; reading ends at that many problems.
    pub(crate) fn of(file: &str, text: &str, most: usize, problems: &mut Vec<Placed>) -> Self {
        let (mut front, mut start) = (Self::default(), 0);
        for (number, line) in (1..).zip(text.split_inclusive('\n')) {
            if problems.len() >= most {
                break;
            }
            if let Some(rest) = line.trim_start_matches('\u{feff}').strip_prefix('#') {
                let skipped = line.len() - rest.len();
                // a spreadsheet fills the line up with empty cells
                let said = rest.trim_end_matches([';', ',', '\t', ' ', '\r', '\n']);
                front.line(said, LineAt { file, number, start: start + skipped }, problems);
            }
            start += line.len();
        }
        front
    }

    /// Whether sag is to be taken out, though nothing says which side faced up.
    pub(crate) fn lacks_side(&self) -> bool {
        (self.lay_on_mm.is_some() || self.string.is_some()) && self.up.is_none()
    }

    /// Bow that a difference of temperature between the flanges brings, mm; None if none was noted.
    pub(crate) fn thermal_mm(&self, member: &Member) -> Option<f64> {
        let length = member.length_mm;
        self.warmer_k.map(|k| thermal_bow_mm(k, length, member.depth.depth_mm(0.5 * length)))
    }

    /// A shape without the sag of the member and of the string, and without what a warm side adds.
    ///
    /// # Errors
    /// If supports or string do not bear.
    pub(crate) fn bare(
        &self,
        mut shape: OutOfStraight,
        member: &Member,
    ) -> Result<OutOfStraight, ShapeError> {
        if let (Some(supports), Some(up)) = (self.lay_on_mm, self.up) {
            shape = shape.without_own_weight(member, supports, up)?;
        }
        if let (Some((weight, pull)), Some(up)) = (self.string, self.up) {
            shape = shape.without_string_sag(weight, pull, up)?;
        }
        Ok(match self.warmer {
            Some((side, warmer_k)) => shape.without_warmth(member, side, warmer_k),
            None => shape,
        })
    }

    /// Takes one `key: value`.
    ///
    /// # Errors
    /// What is wrong with it, and whether it is the key.
    pub(crate) fn take(&mut self, key: &str, value: &str) -> Result<(), (Problem, bool)> {
        let Some(known) = known(key) else {
            let names: Vec<&str> = KEYS.iter().map(|k| k.0).collect();
            let wanted = near::wanted(&plain(key), &names);
            let problem = Problem::new("", format!("unknown key `{}`", values::short(key)), wanted)
                .example("# note: anything, for a remark");
            return Err((problem, true));
        };
        let value = value.trim();
        let set = match known.0 {
            "lay on" => values::pair(value, " and ").map(|p| self.lay_on_mm = Some([p.0, p.1])),
            "up" => values::up(value).map(|u| self.up = Some(u)),
            "string" => values::string(value).map(|s| self.string = Some(s)),
            "measurements" => values::count(value, 1).map(|n| self.measurements = n),
            "camber uncertainty" => values::sd(value).map(|u| self.camber_sd_mm = Some(u)),
            "sweep uncertainty" => values::sd(value).map(|u| self.sweep_sd_mm = Some(u)),
            "toe uncertainty" => values::sd(value).map(|u| self.toe_sd_mm = Some(u)),
            "temperature difference" => values::kelvin(value).map(|k| self.warmer_k = Some(k)),
            "warmer" => values::warmer(value).map(|w| self.warmer = Some(w)),
            "readings" => values::checked(value).map(|c| self.checked = c),
            "keep off" => values::stretches(value).map(|s| self.keep_off_mm.extend(s)),
            "stiffener at" => values::stiffeners(value).map(|s| self.stiffeners.extend(s)),
            "yield" => values::yield_mpa(value).map(|y| self.yield_mpa = Some(y)),
            "delivery" => values::delivery(value).map(|d| {
                (self.situation.delivery, self.delivery_stated) = (d, true);
            }),
            "service" => values::service(value).map(|s| self.situation.service = s),
            "state" => values::state(value, &mut self.situation),
            "steel temperature" => values::temperature(value).map(|t| self.situation.steel_c = t),
            "straightened before" => values::count(value, 0).map(|n| self.situation.straightened_before = n),
            "approved procedure" => values::yes(value).map(|y| self.situation.approved_procedure = y),
            "camber record" => values::record(value).map(|r| self.camber_record = Some(r)),
            "sweep record" => values::record(value).map(|r| self.sweep_record = Some(r)),
            "note" => Ok(()),
            _ if value.is_empty() => Err("what it is called".to_owned()),
            _ => {
                self.label.insert(known.0, value.to_owned());
                Ok(())
            }
        };
        set.map_err(|wanted| {
            let found =
                if value.is_empty() { "nothing".to_owned() } else { format!("`{}`", values::short(value)) };
            let right = format!("# {}: {}", known.0, known.1);
            (Problem::new(known.0, found, format!("{wanted} ({})", known.2)).example(right), false)
        })
    }

    /// Takes a whole line, without its `#`; a line without a colon is a remark, unless it is a key that lacks one.
    fn line(&mut self, line: &str, at: LineAt<'_>, problems: &mut Vec<Placed>) {
        let Some((key, value)) = line.split_once(':') else {
            let start = at.start + (line.len() - line.trim_start().len());
            let place = start..start + line.trim().len();
            problems.extend(keys::colon(line, "# ", is_said).map(|problem| (problem, Some(place))));
            return;
        };
        let taken = match self.otherwise(key, value, at.file) {
            Some(problem) => Err((problem, false)),
            None => self.take(key, value),
        };
        if let Err((problem, at_key)) = taken {
            let part = if at_key || value.trim().is_empty() { key } else { value };
            let offset = if at_key || value.trim().is_empty() { 0 } else { key.len() + 1 };
            let from = at.start + offset + (part.len() - part.trim_start().len());
            problems.push((problem, Some(from..from + part.trim().len())));
        } else if let Some(known) = known(key).filter(|key| !ADDING_UP.contains(&key.0)) {
            let given = Given { value: value.trim().to_owned(), file: at.file.to_owned(), line: at.number };
            self.given.entry(known.0).or_insert(given);
        }
    }

    /// What is wrong with a key that says something else than a line before: nobody can tell which of them holds.
    fn otherwise(&self, key: &str, value: &str, file: &str) -> Option<Problem> {
        let key = known(key)?.0;
        let first = self.given.get(key)?;
        let of = |value: &str| {
            let mut front = Self::default();
            front.take(key, value).ok().map(|()| front)
        };
        // a wrong value is complained about as such
        if of(value)? == of(&first.value)? {
            return None;
        }
        let (value, before, line) = (values::short(value), values::short(&first.value), first.line);
        let (place, way) = if first.file == file {
            (format!("line {line}"), format!("take out this line or line {line}"))
        } else {
            let place = format!("line {line} of {}", text::short(&first.file));
            (place.clone(), format!("leave this note out, or mend {place}"))
        };
        Some(Problem::new(
            key,
            format!("`{value}`, and `{before}` in {place}"),
            format!("one `{key}`: {way}"),
        ))
    }
}

/// Whether a key may say that.
fn is_said(key: &str, value: &str) -> bool {
    Front::default().take(key, value).is_ok()
}

/// What is wrong where [`Front::lacks_side`].
pub(crate) fn no_side() -> Problem {
    let wanted = "which side faced up, so that sag can be taken out: inner, outer, near or far";
    Problem::new("up", "nothing", wanted).example("# up: inner")
}

/// Reads such lines from elsewhere, as from the command line; `name` is what complaints call it.
///
/// # Errors
/// Everything wrong with them.
pub fn read_notes(name: &str, lines: &[String], front: &mut Front) -> Result<(), Diagnostics> {
    let text = lines.join("\n");
    let mut problems = Vec::new();
    let mut start = 0;
    for (number, line) in (1..).zip(text.lines()) {
        if line.contains(':') {
            front.line(line, LineAt { file: name, number, start }, &mut problems);
        } else {
            let unclear = || {
                let problem = Problem::new("", format!("`{}`", values::short(line)), "a `key: value`");
                problem.example("delivery: ordinary")
            };
            let problem = keys::colon(line, "", is_said).unwrap_or_else(unclear);
            problems.push((problem, Some(start..start + line.len())));
        }
        start += line.len() + 1;
    }
    if problems.is_empty() { Ok(()) } else { Err(Diagnostics::placed(name, &text, problems)) }
}
