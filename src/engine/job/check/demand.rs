//! What the welds must carry.

use crate::input::Hint;
use crate::input::findings::{Bounds, Findings, Lines, bounds, exact, mm};
use crate::job::file::DemandShape;
use crate::prediction::Carries;
use crate::prediction::field::ranges::SAME_PLACE_MM;
use crate::steel::Steel;
use crate::strength::{Code, Demand, Electrode, MINIMUMS, Minimum, Moment, minimum};
use crate::units::{Length, show};

const STRENGTH: Bounds = bounds("a tensile strength", 200.0, 1200.0, "200 MPa to 1200 MPa", "MPa");
const CET: Bounds = bounds("a carbon equivalent CET", 0.2, 0.5, "0.2 to 0.5 (%)", "");
const SHEAR: Bounds = bounds("a shear", 0.0, 1e8, "none to 100 MN", "N");
const MOMENT: Bounds = bounds("a moment", 0.0, 1e13, "none to 10 000 MN·m", "N·mm");
const FLOW: Bounds = bounds("a shear flow", 0.0, 1e5, "none to 100 kN/mm", "N/mm");
/// Largest gap between given moments and what the shear adds up to, over the largest moment (choice).
const MOMENT_GAP: f64 = 0.10;

/// Checks and builds the demand.
pub(crate) fn demand(
    shape: Option<&DemandShape>,
    length_mm: Option<f64>,
    steel: Option<&Steel>,
    findings: &mut Findings,
) -> Option<Carries> {
    let (shape, length) = (shape?, length_mm?);
    let loads = loads(shape, length, findings);
    let both_sides = both_sides(shape, length, findings);
    let minimums = minimums(shape, findings);
    let mut lines = Lines::of("demand", findings);
    let filler = lines.given("filler", shape.filler, &STRENGTH);
    let ultimate = lines.given("ultimate", shape.ultimate, &STRENGTH);
    let cet = lines.given("cet", shape.cet, &CET);
    let usual = Electrode::usual(steel?);
    let f_exx_mpa = filler.unwrap_or(usual.f_exx_mpa);
    let f_u_mpa = ultimate.unwrap_or(usual.f_u_mpa);
    Some(Carries {
        demand: loads?,
        code: shape.code,
        electrode: Electrode { f_exx_mpa, f_u_mpa, ..usual },
        service: shape.service,
        both_sides_mm: both_sides,
        minimums,
        cet,
    })
}

fn loads(shape: &DemandShape, length: f64, findings: &mut Findings) -> Option<Demand> {
    let ends = shape.start_shear.is_some() || shape.load.is_some();
    let ways =
        [("shear", shape.shear.is_some()), ("start_shear", ends), ("shear_flow", shape.shear_flow.is_some())];
    let given: Vec<&str> = ways.iter().filter(|w| w.1).map(|w| w.0).collect();
    if given.len() != 1 {
        let found =
            if given.is_empty() { "no load".to_owned() } else { format!("{} together", given.join(" and ")) };
        let wanted = "one way to say it: `shear` (points), `start_shear` with `load`, or `shear_flow`";
        let line = "start_shear = \"60 kN\"\nload = \"8 kN/m\"".to_owned();
        findings.push_hint("demand", found, wanted, Hint::Example(line));
        return None;
    }
    let other = [("moment", shape.moment.is_some()), ("start_moment", shape.start_moment.is_some())];
    if let Some(points) = &shape.shear_flow {
        if let Some((key, _)) = other.iter().find(|o| o.1) {
            let (path, found) = (format!("demand.{key}"), format!("`{key}` beside `shear_flow`"));
            let wanted = "the flow alone: it holds the moment already";
            findings.push_with(path, found, wanted, format!("leave `{key}` out"));
        }
        return covering("demand.shear_flow", of(points), length, &FLOW, findings).map(Demand::Flow);
    }
    let shear = match (&shape.shear, shape.start_shear) {
        (Some(points), _) => of(points),
        (None, start) => {
            let (start, load) = (start.map_or(0.0, |s| s.value()), shape.load.map_or(0.0, |l| l.value()));
            vec![(0.0, start), (length, start - load * length)]
        }
    };
    let shear = covering("demand.shear", shear, length, &SHEAR, findings)?;
    let start = shape.start_moment.map_or(0.0, |m| m.value());
    findings.bounded("demand.start_moment", start.abs(), &MOMENT)?;
    let Some(points) = &shape.moment else {
        return Some(Demand::Beam { shear, moment: Moment::FromStart(start) });
    };
    if shape.start_moment.is_some() {
        let wanted = "either `moment` (points) or `start_moment`";
        Lines::of("demand", findings).push_either("start_moment", "two moments", wanted);
    }
    let points = covering("demand.moment", of(points), length, &MOMENT, findings)?;
    follows(&shear, &points, findings)?;
    Some(Demand::Beam { shear, moment: Moment::Points(points) })
}

fn of<Y: Copy + Into<f64>>(points: &[(Length, Y)]) -> Vec<(f64, f64)> {
    points.iter().map(|(x, y)| (x.value(), (*y).into())).collect()
}

/// Points that rise in x and reach from end to end.
fn covering(
    path: &str,
    points: Vec<(f64, f64)>,
    length: f64,
    bounds: &Bounds,
    findings: &mut Findings,
) -> Option<Vec<(f64, f64)>> {
    for (at, (_, value)) in points.iter().enumerate() {
        findings.bounded(format!("{path}[{at}][1]"), value.abs(), bounds)?;
    }
    if points.len() < 2 || points.windows(2).any(|w| w[1].0 <= w[0].0) {
        let found = if points.len() < 2 {
            format!("{} point", points.len())
        } else {
            "places that do not rise".to_owned()
        };
        let wanted = "at least two points with rising places; a jump takes two, 1 mm apart";
        findings.push_hint(path, found, wanted, Hint::Nothing);
        return None;
    }
    let (first, last) = (points.first().map_or(0.0, |p| p.0), points.last().map_or(0.0, |p| p.0));
    if first.abs() > SAME_PLACE_MM || (last - length).abs() > SAME_PLACE_MM {
        let found = format!("points from {} to {}", mm(first), mm(last));
        let wanted = format!("points that cover the member, 0 mm to {}", mm(length));
        findings.push_hint(path, found, wanted, Hint::Nothing);
        return None;
    }
    Some(points)
}

/// Moments have to rise as the shear says: a wrong sign would turn the effect of the taper round.
fn follows(shear: &[(f64, f64)], moment: &[(f64, f64)], findings: &mut Findings) -> Option<()> {
    let start = moment.first().map_or(0.0, |p| p.1);
    let sums = Demand::Beam { shear: shear.to_vec(), moment: Moment::FromStart(start) };
    let largest = moment.iter().map(|p| p.1.abs()).fold(0.0, f64::max);
    let gap = |p: &(f64, f64)| (sums.moment_n_mm(p.0) - p.1).abs();
    let worst = moment.iter().max_by(|a, b| gap(a).total_cmp(&gap(b)))?;
    if gap(worst) <= MOMENT_GAP * largest {
        return Some(());
    }
    let si = crate::units::System::Si;
    let found = format!(
        "{} at {}, where the shear adds up to {}",
        show::moment(worst.1, si),
        mm(worst.0),
        show::moment(sums.moment_n_mm(worst.0), si)
    );
    let wanted = "moments that rise where the shear is positive and by as much as its area (within 10 %)";
    let right = "leave `moment` out: the shear adds it up from `start_moment`";
    findings.push_with("demand.moment", found, wanted, right);
    None
}

fn both_sides(shape: &DemandShape, length: f64, findings: &mut Findings) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    for (at, stretch) in shape.both_sides.iter().enumerate() {
        let (from, to) = (Length::value(stretch.0), Length::value(stretch.1));
        let to = if (to - length).abs() <= SAME_PLACE_MM { length } else { to };
        if from < 0.0 || to > length || to - from < SAME_PLACE_MM {
            let found = format!("a stretch from {} to {}", mm(from), mm(to));
            let wanted = format!("a start before an end, both from 0 mm to {}", mm(length));
            let line =
                format!("both_sides = [[\"{}\", \"{}\"]]", exact((0.9 * length).round()), exact(length));
            findings.push_hint(format!("demand.both_sides[{at}]"), found, wanted, Hint::Example(line));
        } else {
            out.push((from, to));
        }
    }
    out
}

fn minimums(shape: &DemandShape, findings: &mut Findings) -> Vec<&'static Minimum> {
    let usual: &[&str] = match shape.code {
        Code::AiscLrfd | Code::AiscAsd => &["aisc-360"],
        Code::En1993 => &["en-1993-1-8", "root-of-thickness"],
    };
    let Some(named) = &shape.minimums else { return usual.iter().filter_map(|name| minimum(name)).collect() };
    let names: Vec<&str> = MINIMUMS.iter().map(|rule| rule.name).collect();
    let mut rules = Vec::new();
    for (at, name) in named.iter().enumerate() {
        match minimum(name) {
            Some(rule) => rules.push(rule),
            None => {
                let found = format!("unknown rule `{name}`");
                findings.unknown(format!("demand.minimums[{at}]"), found, name, &names);
            }
        }
    }
    rules
}
