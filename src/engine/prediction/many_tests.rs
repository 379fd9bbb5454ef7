//! Jobs side by side against each alone.

use super::{
    Assembly, Field, Job, JudgedSize, Prediction, Wanted, judged, judged_each, predict, predict_each,
};
use crate::job::read_text;
use crate::tolerance::{Quantities, Quantity};
use serde_json::Value;

/// Every demo job, each with a plate, a leg and a wait drawn about it.
fn jobs() -> Vec<Job> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/jobs");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|e| e == "toml"));
    paths.sort();
    let base =
        paths.iter().map(|path| read_text("job.toml", &std::fs::read_to_string(path).unwrap()).unwrap());
    let about = |job: Job| {
        (0..5).map(move |k| {
            let by = 1.0 + 0.07 * f64::from(k - 2);
            let mut drawn = job.clone();
            let fields =
                [Field::webs(&job), Field::outer_flanges(&job), Field::legs(&job), vec![Field::Wait(1)]];
            for field in fields.into_iter().flatten().filter(|field| field.get(&job).is_some()) {
                field.times(&mut drawn, by).unwrap();
            }
            drawn
        })
    };
    base.flat_map(about).collect()
}

/// Largest difference of two results, relative, and where it stands.
fn apart(a: &Value, b: &Value, place: &str) -> (f64, String) {
    let farther = |x: (f64, String), y: (f64, String)| if y.0 > x.0 { y } else { x };
    let none = (0.0, place.to_owned());
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
            // what is left of large numbers that cancel is as sure as these
            ((a - b).abs() / (1e-2 + a.abs().max(b.abs())), place.to_owned())
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            let pairs = a.iter().zip(b).enumerate();
            pairs.map(|(k, (a, b))| apart(a, b, &format!("{place}[{k}]"))).fold(none, farther)
        }
        (Value::Object(a), Value::Object(b)) if a.len() == b.len() => {
            let pairs = a.iter().map(|(name, a)| apart(a, &b[name], &format!("{place}.{name}")));
            pairs.fold(none, farther)
        }
        (a, b) if a == b => none,
        (a, b) => panic!("{place}: {a} and {b}"),
    }
}

fn shown(prediction: &Prediction) -> Value {
    // a sentence rounds its numbers
    serde_json::to_value(Prediction { warnings: Vec::new(), ..prediction.clone() }).unwrap()
}

fn predict_many(jobs: &[Job], wanted: &Wanted) -> Vec<Prediction> {
    let mut out = Vec::new();
    predict_each(jobs, wanted, |_, prediction| out.push(prediction.clone()));
    out
}

#[test]
fn jobs_side_by_side_are_predicted_as_each_alone() {
    let jobs = jobs();
    let many = predict_many(&jobs, &Wanted::ALL);
    let each = jobs.iter().zip(&many).map(|(job, many)| {
        let (far, place) = apart(&shown(&predict(job)), &shown(many), "");
        (far, format!("{}{place}", job.title))
    });
    let (worst, place) = each.fold((0.0, String::new()), |a, b| if b.0 > a.0 { b } else { a });
    println!("{} jobs: {worst:.1e} at {place}", jobs.len());
    assert!(worst < 1e-12, "{worst:e} at {place}");
}

#[test]
fn who_stands_beside_a_job_changes_no_bit_of_it() {
    let jobs = jobs();
    for wanted in [Wanted::ALL, Wanted::BOWS, Wanted { verdicts: Quantities::ALL, ..Wanted::BOWS }] {
        let many = predict_many(&jobs, &wanted);
        let mixed: Vec<Job> = jobs.iter().rev().step_by(2).cloned().collect();
        for (job, beside) in mixed.iter().zip(predict_many(&mixed, &wanted)) {
            let at = jobs.iter().position(|other| other == job).unwrap();
            assert_eq!(beside, many[at], "{}", job.title);
            assert_eq!(predict_many(std::slice::from_ref(job), &wanted)[0], beside, "{}", job.title);
        }
    }
}

/// Jobs with what these very pieces have of all that plates bring.
fn drawn() -> Vec<Job> {
    let mut jobs = jobs();
    for (job, by) in jobs.iter_mut().zip([1.0, -0.5, 2.0].into_iter().cycle()) {
        (job.drawn.apart_mm_per_m, job.drawn.waves) = (0.3 * by, 0.8 * by);
        (job.drawn.bow_mm_per_m, job.drawn.cup_mm) = ([0.1 * by, -0.2 * by], 0.2 * by);
    }
    jobs
}

/// What each job is judged by, as it is and by its welds alone.
fn judged_many(jobs: &[Job]) -> Vec<[Vec<JudgedSize>; 2]> {
    let mut out = Vec::new();
    judged_each(jobs, |sizes| out.push(sizes.map(<[JudgedSize]>::to_vec)));
    out
}

#[test]
fn drawn_pieces_side_by_side_are_judged_as_each_alone_and_by_their_welds_as_if_nothing_were_drawn() {
    let jobs = drawn();
    let many = judged_many(&jobs);
    let (mut worst, mut compared) = ((0.0, String::new()), [0, 0]);
    for (job, sizes) in jobs.iter().zip(&many) {
        let bare = Job { drawn: Assembly::default(), ..job.clone() };
        for (which, (one, sizes)) in [job, &bare].into_iter().zip(sizes).enumerate() {
            if which == 1 && !job.plates_come_straight() {
                continue;
            }
            let alone = judged(one);
            assert_eq!(alone.len(), sizes.len(), "{}", job.title);
            for (alone, size) in alone.iter().zip(sizes) {
                assert_eq!((alone.quantity, alone.band), (size.quantity, size.band), "{}", job.title);
                let off = (alone.value - size.value_mm).abs() / (1e-2 + alone.value.abs());
                if off >= worst.0 {
                    worst = (off, format!("{}, {:?}, {which}", job.title, size.quantity));
                }
                compared[which] += 1;
            }
        }
    }
    println!("{compared:?} sizes: {:.1e} at {}", worst.0, worst.1);
    assert!(worst.0 < 1e-12 && compared[1] > 50, "{:e} at {}, {compared:?}", worst.0, worst.1);
    let values = |sizes: &[Vec<JudgedSize>; 2]| -> Vec<u64> {
        sizes.iter().flatten().map(|size| size.value_mm.to_bits()).collect()
    };
    for (job, sizes) in jobs.iter().zip(&many) {
        assert_eq!(values(&judged_many(std::slice::from_ref(job))[0]), values(sizes), "{}", job.title);
    }
}

/// A drawn piece is judged at a part of the work of a prediction, its turn by all passes at once: the sizes are the same.
#[test]
fn drawn_pieces_are_judged_by_the_sizes_of_a_whole_prediction() {
    let (mut compared, mut turned, mut worst) = (0, 0.0_f64, (0.0, String::new()));
    for job in drawn() {
        let whole = predict(&job).verdicts;
        let alone = judged(&job);
        assert_eq!(whole.len(), alone.len(), "{}", job.title);
        // of a web a prediction shows the place where it may wave most, a drawn piece where it does
        for (whole, alone) in whole.iter().zip(&alone).filter(|v| v.0.quantity != Quantity::WebFlatness) {
            assert_eq!((whole.set, whole.clause), (alone.set, alone.clause));
            let off = (whole.value - alone.value).abs() / (1e-2 + whole.value.abs());
            worst = if off > worst.0 { (off, format!("{}, {:?}", job.title, whole.quantity)) } else { worst };
            turned = turned.max(if whole.quantity == Quantity::Twist { whole.value.abs() } else { 0.0 });
            compared += 1;
        }
    }
    println!("{compared} sizes, farthest apart {:.1e} at {}, twist to {turned:.2} mm", worst.0, worst.1);
    assert!(worst.0 < 1e-9 && turned > 1.0, "{:e} at {}, twist to {turned}", worst.0, worst.1);
}
