//! What was read of a piece, sag and string taken out, and what it cannot be.

use super::columns::LENGTHS;
use super::row::RecordRow;
use crate::measured::{self, Front, other_unit, sag_sd_mm};
use crate::reading::Diagnostics;
use crate::readings::Placed;
use std::path::Path;
use weldbow_engine::input::Problem;
use weldbow_engine::member::Seam;
use weldbow_engine::numerics::between;
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::piece::Measuring;
use weldbow_engine::straighten::shape::{LARGEST_OFFSET, OutOfStraight, ShapeError, own_weight_sag_mm};
use weldbow_engine::units::show;

/// Standard uncertainty of a measured shortening, mm: a tape on a member (choice).
pub(crate) const SHORTENING_SD_MM: f64 = 1.0;
/// Largest shortening and toe that are taken, over the length and the width of the widest flange (choices).
const LARGEST: [f64; 2] = [1.0 / 200.0, 0.5];

/// What was read of a piece; each with its standard uncertainty, mm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Read {
    /// Where bows and toes were read, mm from the start end.
    pub at_mm: f64,
    /// Camber from the chord.
    pub camber: Option<(f64, f64)>,
    /// Sweep from the chord.
    pub sweep: Option<(f64, f64)>,
    /// Shortening.
    pub shortening: Option<(f64, f64)>,
    /// Near and far toe of outer and inner flange.
    pub toes: [Option<(f64, f64)>; 2],
    /// Where the toes of each flange were read, mm.
    pub toes_at_mm: [f64; 2],
    /// Standard uncertainty of a toe.
    pub toe_sd_mm: f64,
}

/// Everything read of the pieces of a record whose jobs are known, in their order; `folder` is where the record lies.
///
/// # Errors
/// Every reading that cannot be one of its member, each with its place; files of single pieces complain for themselves.
pub fn pieces_in(
    name: &str,
    text: &str,
    folder: &Path,
    rows: &[(RecordRow, &Job)],
    usual: Measuring,
) -> Result<Vec<Read>, Vec<Diagnostics>> {
    let (mut found, mut problems, mut others) = (Vec::with_capacity(rows.len()), Vec::new(), Vec::new());
    for (row, job) in rows {
        let wrong = impossible(row, job);
        if !wrong.is_empty() {
            problems.extend(wrong);
            continue;
        }
        let read = match &row.readings {
            Some(file) => of_file(&folder.join(file), row, job, usual),
            None => of_row(row, job, usual).map_err(|problem| {
                problems.push((problem, row.place("piece")));
                None
            }),
        };
        match read {
            Ok(read) => found.push(read),
            Err(Some(complaint)) => others.push(*complaint),
            Err(None) => {}
        }
    }
    if !problems.is_empty() {
        others.insert(0, Diagnostics::placed(name, text, problems));
    }
    if others.is_empty() { Ok(found) } else { Err(others) }
}

type Outcome = Result<Read, Option<Box<Diagnostics>>>;

/// Sizes that no reading of the member has, with the unit that would mend it.
fn impossible(row: &RecordRow, job: &Job) -> Vec<Placed> {
    let (length, system) = (job.member.length_mm, job.units);
    let widest =
        Seam::BOTH.into_iter().flat_map(|s| job.member.flange(s)).map(|p| p.width_mm).fold(0.0, f64::max);
    let most = |column: usize| match column {
        0 => length,
        1 | 2 => LARGEST_OFFSET * length,
        3 | 8 => LARGEST[0] * length,
        _ => LARGEST[1] * widest,
    };
    let one = |column: usize| {
        let value = row.lengths[column]?;
        let most = most(column);
        let low = if column == 0 || column == 8 { 0.0 } else { -most };
        if (low..=most).contains(&value) {
            return None;
        }
        let meant = other_unit(row.units[column], value, |v| v.abs() <= most);
        let meant = meant.map_or(String::new(), |unit| format!("; as {unit} it could be one"));
        let shown = |mm: f64| if column == 0 { show::position(mm, system) } else { show::offset(mm, system) };
        let wanted = match column {
            0 => format!("a place on the member, which is {} long{meant}", shown(length)),
            _ => format!("at most {} on this member{meant}", shown(most)),
        };
        let problem = Problem::new(LENGTHS[column], shown(value), wanted);
        Some((problem.example(format!("{} [mm]", LENGTHS[column])), row.place(LENGTHS[column])))
    };
    (0..LENGTHS.len()).filter_map(one).collect()
}

/// Standard uncertainties of what is read in a line: of the mean of its measurements, of the sag that is taken out, of a warmth of
/// which nobody knows the side.
fn sds(row: &RecordRow, job: &Job, at_mm: f64, usual: Measuring) -> Measuring {
    let length = job.member.length_mm;
    let mean = f64::from(row.front.measurements.max(1)).sqrt();
    let of = |own: Option<f64>, usual: f64| (own.unwrap_or(usual) / mean).max(LEAST_SD_MM);
    let [camber, sweep] = sag_sd_mm(&row.front, job, &[0.0, at_mm, length]);
    let shape = 4.0 * at_mm * (length - at_mm) / (length * length);
    let warm = row.front.thermal_mm(&job.member).unwrap_or(0.0);
    Measuring {
        camber_mm: of(row.front.camber_sd_mm, usual.camber_mm).hypot(camber).hypot(shape * warm),
        sweep_mm: of(row.front.sweep_sd_mm, usual.sweep_mm).hypot(sweep),
        toe_mm: of(row.front.toe_sd_mm, usual.toe_mm),
    }
}

/// No reading is surer than this, mm: a tenth of a graduation (choice).
const LEAST_SD_MM: f64 = 0.05;
/// Sag of its own weight that no reading may hold unsaid, mm: what a string is read to.
const HANGS_MM: f64 = Measuring::USUAL.sweep_mm;

/// A piece whose readings stand in its line.
fn of_row(row: &RecordRow, job: &Job, usual: Measuring) -> Result<Read, Problem> {
    let length = job.member.length_mm;
    let [at, camber, sweep, shortening, ..] = row.lengths;
    let at_mm = at.unwrap_or(0.5 * length);
    let inside = (0.02 * length..=0.98 * length).contains(&at_mm);
    if (camber.is_some() || sweep.is_some()) && !inside {
        let found = show::position(at_mm, job.units);
        return Err(Problem::new("at", found, "a place between the ends, where there is a bow to read"));
    }
    if let Some(problem) = hanging(&row.front, job, at_mm, [camber.is_some(), sweep.is_some()]) {
        return Err(problem);
    }
    let sd = sds(row, job, at_mm, usual);
    let wanted = "how the member lay: two places on it, apart";
    let taken = bare(row, job, at_mm, [camber, sweep])
        .map_err(|wrong| Problem::new("lay on", wrong.to_string(), wanted))?;
    let toes = [[4, 5], [6, 7]].map(|[near, far]| row.lengths[near].zip(row.lengths[far]));
    Ok(Read {
        at_mm,
        camber: camber.map(|_| (taken[0], sd.camber_mm)),
        sweep: sweep.map(|_| (taken[1], sd.sweep_mm)),
        shortening: shortening.map(|mm| (mm, row.lengths[8].unwrap_or(SHORTENING_SD_MM).max(LEAST_SD_MM))),
        toes,
        toes_at_mm: [at_mm; 2],
        toe_sd_mm: sd.toe_mm,
    })
}

/// A bow (camber, sweep: whether it was read) that its own weight was in, though nothing says where the piece lay.
fn hanging(front: &Front, job: &Job, at_mm: f64, read: [bool; 2]) -> Option<Problem> {
    let up = front.up.filter(|up| {
        front.lay_on_mm.is_none() && !front.checked && if up.strong() { read[0] } else { read[1] }
    })?;
    let sag = own_weight_sag_mm(&job.member, [0.0, job.member.length_mm], up, &[at_mm]).ok()?;
    let sag = sag.first().copied().filter(|sag| *sag > HANGS_MM)?;
    let (bow, size) = (if up.strong() { "camber" } else { "sweep" }, show::offset(sag, job.units));
    let found = format!("nothing, though the {bow} was read as it hung: lying on its ends it sags by {size}");
    let wanted = "where it lay, so that its own weight can be taken out; `readings: checked` if nothing hung";
    Some(Problem::new("lay on", found, wanted).example("# lay on: 0.5 m and 8.5 m"))
}

/// Camber and sweep without the sag of the member and of the string, and without what a warm side adds.
fn bare(row: &RecordRow, job: &Job, at_mm: f64, read: [Option<f64>; 2]) -> Result<[f64; 2], ShapeError> {
    let length = job.member.length_mm;
    let [camber, sweep] = read.map(|offset| vec![0.0, offset.unwrap_or(0.0), 0.0]);
    let shape = OutOfStraight::new(length, vec![0.0, at_mm, length], camber, sweep, Vec::new())?;
    let shape = row.front.bare(shape, &job.member)?;
    Ok([shape.camber_mm[1], shape.sweep_mm[1]])
}

/// A piece with a file of its own: bows at mid-length, toes at the station nearest to it.
fn of_file(path: &Path, row: &RecordRow, job: &Job, usual: Measuring) -> Outcome {
    let measured = measured::read_path(path).map_err(|c| Some(Box::new(c)))?;
    let shape = measured.shape(job).map_err(|c| Some(Box::new(c)))?;
    let middle = 0.5 * job.member.length_mm;
    let read = [measured.camber_mm.is_some(), measured.sweep_mm.is_some()];
    if let Some(problem) = hanging(&measured.front, job, middle, read) {
        return Err(Some(Box::new(measured.complaint(vec![(problem, None)]))));
    }
    let mut sd = measured.of_the_mean(job, usual);
    sd.camber_mm = sd.camber_mm.hypot(measured.front.thermal_mm(&job.member).unwrap_or(0.0));
    let at = |offsets: &[f64]| between(&shape.x_mm, |i| offsets[i], middle);
    let wanted = job.wanted_camber.map_or(0.0, |w| w.offset_mm(middle, job.member.length_mm));
    let nearest = |seam: Seam| {
        let here = shape.toes.iter().filter(move |t| t.seam == seam);
        here.min_by(|a, b| (a.x_mm - middle).abs().total_cmp(&(b.x_mm - middle).abs()))
    };
    let toes = Seam::BOTH.map(nearest);
    let own = row.lengths[3].map(|mm| (mm, row.lengths[8].unwrap_or(SHORTENING_SD_MM).max(LEAST_SD_MM)));
    Ok(Read {
        at_mm: middle,
        camber: measured.camber_mm.is_some().then(|| (at(&shape.camber_mm) + wanted, sd.camber_mm)),
        sweep: measured.sweep_mm.is_some().then(|| (at(&shape.sweep_mm), sd.sweep_mm)),
        shortening: own,
        toes: toes.map(|t| t.map(|t| (t.near_mm, t.far_mm))),
        toes_at_mm: toes.map(|t| t.map_or(middle, |t| t.x_mm)),
        toe_sd_mm: sd.toe_mm,
    })
}
