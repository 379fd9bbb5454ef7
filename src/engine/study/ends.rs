//! What the low and the high end of a drawn input are, in words.

use super::axis::{Axis, Takes};
use super::definition::Study;
use crate::prediction::{Field, Job};
use crate::scatter::one_at_a_time_point;
use crate::units::{System, show};

/// The two ends of every drawn input, in the order they are drawn, at the first point of the grid: "4.95 mm" where it multiplies
/// a size that stands in the job, "−2.8 mm" where it is what plates bring to a piece, "−1 σ" for a doubt of a shop's record, the
/// factor where it is one.
pub(super) fn end_words(study: &Study, inputs: usize) -> Vec<[String; 2]> {
    let middle = study.drawn(&vec![0.5; inputs]);
    let mut jobs = Vec::new();
    let job = study.next_job(&study.grid.at(0), &middle, &mut jobs, 0).ok().and(jobs.first());
    let mut out = Vec::with_capacity(inputs);
    for (index, (axis, (first, many))) in study.axes.iter().zip(&study.coordinates).enumerate() {
        let Takes::Draws(measure, spread, _) = &axis.takes else { continue };
        for i in 0..*many {
            let field = job.and_then(|job| field_of(study, job, (index, axis), i));
            out.push([false, true].map(|high| {
                let mut u = vec![0.5; inputs];
                one_at_a_time_point(2 * (first + i) + 1 + usize::from(high), &mut u);
                let drawn = spread.quantile(u[first + i]);
                match (axis.times, job, field) {
                    (false, ..) => measure.worded(drawn),
                    (true, Some(job), Some(field)) => worded(job, field, drawn, study.system()),
                    (true, ..) => factor(drawn),
                }
            }));
        }
    }
    out
}

/// The number of the job that draw `i` of an axis multiplies; none where several draw as one and differ in size.
fn field_of(study: &Study, job: &Job, (index, axis): (usize, &Axis), i: usize) -> Option<Field> {
    let fields = (axis.usual?.fields)(job);
    let mut moved = fields.iter().enumerate();
    let own = |n: usize| !axis.each || study.bases[0].draws_for(index, n) == i;
    let (_, field) = moved.find(|(n, _)| own(*n))?;
    let size = field.get(job)?;
    moved
        .filter(|(n, _)| own(*n))
        .all(|(_, other)| other.get(job).is_some_and(|x| (x - size).abs() <= 1e-9 * size.abs()))
        .then_some(*field)
}

fn worded(job: &Job, field: Field, drawn: f64, system: System) -> String {
    match field {
        // camber, sweep and length are drawn by the metre and felt at mid-length or over all of it; a toe has no length
        Field::Plates(which) => {
            let sd_mm = job.plates_sd().get(which).copied().unwrap_or_default();
            let metres = if which < 3 { 1e-3 * job.member.length_mm } else { 1.0 };
            signed(show::offset(metres * sd_mm * drawn.ln(), system))
        }
        Field::Recorded(_) => signed(format!("{:.0} σ", drawn.ln()).replace('-', "−")),
        _ => match (field.unit(), field.get(job)) {
            ("mm", Some(mm)) => size(mm * drawn, system),
            _ => factor(drawn),
        },
    }
}

fn factor(drawn: f64) -> String {
    format!("× {drawn:.2}")
}

fn signed(text: String) -> String {
    if text.starts_with('−') { text } else { format!("+{text}") }
}

/// A thickness or a leg with the decimals that a hundredth of it needs.
fn size(mm: f64, system: System) -> String {
    match system {
        System::Si if mm < 10.0 => format!("{mm:.2} mm"),
        System::Si => format!("{mm:.1} mm"),
        System::Us => show::thousandths(mm),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::file::JobFile;
    use crate::job::{check, file_of_text};
    use crate::study::file::StudyFile;

    fn rafter() -> JobFile {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/jobs/rafter.toml");
        file_of_text("rafter.toml", &std::fs::read_to_string(path).unwrap()).unwrap()
    }

    fn ends(rest: &str) -> Vec<(String, [String; 2])> {
        let text = format!("title = \"t\"\njob = \"j\"\ncollect = [\"sweep.max_mm\"]\n{rest}");
        let shape: StudyFile = toml::from_str(&text).unwrap();
        let study = Study::new(&shape, |_| Ok(rafter())).unwrap();
        study.swings("sweep.max_mm").into_iter().map(|s| (s.input, s.ends)).collect()
    }

    /// One deviation to either side, by the job's own numbers: a leg of 6 mm by 5 %, a web of 5 mm by 1 %, a force as a factor, and
    /// for plates the bow in mm that they bring.
    #[test]
    fn the_ends_of_an_input_are_in_its_own_unit() {
        let found = ends("sample = { count = 8, usual = true }\n");
        let of = |name: &str| &found.iter().find(|(input, _)| input == name).unwrap().1;
        let job = check(&rafter()).unwrap();
        let plates = 1e-3 * job.member.length_mm * job.plates_sd()[1];
        println!("{found:?}; by the job's plates {plates:.3} mm");
        assert_eq!(of("leg 1"), &["5.70 mm", "6.30 mm"]);
        assert_eq!(of("plate web"), &["4.95 mm", "5.05 mm"]);
        assert!(of("force")[0].starts_with("× 0."), "{:?}", of("force"));
        assert_eq!(of("plates sweep"), &[format!("−{plates:.1} mm"), format!("+{plates:.1} mm")]);
    }

    #[test]
    fn what_a_study_multiplies_itself_stays_a_factor() {
        let found = ends(
            "sample = { count = 8 }\n\
             [[vary]]\nset = \"outer_flange.thickness\"\ntimes = true\nnormal = { mean = 1.0, sd = 0.1 }\n",
        );
        assert_eq!(found[0].1, ["× 0.90", "× 1.10"]);
    }
}
