//! What a page can ask. A question is a JSON object with the key `ask`; the answer is what was asked for, or
//! `{"problems": […]}` with everything wrong with a job, or `{"error": "…"}`.
//!
//! `curve` answers for many variants of a job and for drawn pieces, `joint` for a section from arc to cold and for slices along which the
//! arc goes.

mod curve;
mod joint;
pub(crate) mod refused;

pub use curve::{Drawn, drawn};

pub(crate) use refused::Refused;
use refused::{built, shape};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use weldbow_engine::job::check;
use weldbow_engine::prediction::{Prediction, Shown, outside, predict, predict_strip};
use weldbow_engine::scatter::say_chances;
use weldbow_engine::units::{Message, System};
use weldbow_files::job::{file_of_text, read_text};
use weldbow_files::rewritten::rewritten;

/// What complaints call a text that came from a page.
const NAME: &str = "job.toml";

/// A question.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "snake_case", deny_unknown_fields)]
enum Question {
    /// The prediction of a job's text: the object of `weldbow predict --json`.
    Predict {
        /// A job, as TOML.
        toml: String,
        /// Whether pieces are drawn for the chances, which takes some hundredths of a second.
        #[serde(default = "yes")]
        chances: bool,
    },
    /// The same by the strip level.
    Strip {
        /// A job's shape.
        job: Value,
    },
    /// The shape of a job's text, as JSON.
    Shape {
        /// A job, as TOML.
        toml: String,
    },
    /// The prediction of a shape.
    Bench {
        /// A job's shape.
        job: Value,
    },
    /// Results of many shapes.
    Curve(curve::Curve),
    /// What drawn pieces do.
    Draw(curve::Draw),
    /// A joint from arc to cold.
    Joint(joint::JointQuestion),
    /// A joint along which the arc travels (some tens of seconds).
    Travel(joint::TravelQuestion),
    /// A job's text with the values of a shape: remarks stay.
    Write {
        /// The text it started from.
        toml: String,
        /// The shape it has now.
        job: Value,
    },
}

const fn yes() -> bool {
    true
}

/// A prediction with what a picture of it needs besides.
#[derive(Serialize)]
struct Seen {
    #[serde(flatten)]
    prediction: Prediction,
    /// What each verdict allows below and above the wanted size, mm.
    bands: Vec<[f64; 2]>,
    /// The warnings in inches; those of the prediction are in millimetres.
    warnings_us: Vec<String>,
    /// Why there is nothing to show, in millimetres and in inches: the model does not cover the job.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    outside: Vec<[String; 2]>,
}

impl Seen {
    fn of(prediction: Prediction) -> Self {
        let bands = prediction.verdicts.iter().map(|v| [v.band.less_mm, v.band.more_mm]).collect();
        let warnings_us = prediction.warnings.iter().map(|w| w.text.in_units(System::Us)).collect();
        let both = |reason: &Message| [System::Si, System::Us].map(|system| reason.in_units(system));
        let outside = outside(&prediction).iter().map(|one| both(&one.reason)).collect();
        Self { prediction, bands, warnings_us, outside }
    }
}

/// Answers a question, both as JSON in UTF-8. Never empty.
pub fn answer(question: &[u8]) -> Vec<u8> {
    let answer = serde_json::from_slice::<Question>(question)
        .map_err(|error| Refused::Error(format!("the question cannot be read: {error}")))
        .and_then(asked);
    match answer {
        Ok(bytes) => bytes,
        Err(Refused::Problems(problems)) => json!({ "problems": problems }).to_string().into_bytes(),
        Err(Refused::Error(text)) => json!({ "error": text }).to_string().into_bytes(),
    }
}

fn asked(question: Question) -> Result<Vec<u8>, Refused> {
    match question {
        Question::Predict { toml, chances } => bytes(&Shown(&predicted(&toml, chances)?)),
        Question::Strip { job } => {
            let found = predict_strip(&built(&shape(job)?)?);
            bytes(&Shown(&found.map_err(|failure| Refused::Error(failure.to_string()))?))
        }
        Question::Shape { toml } => bytes(&file_of_text(NAME, &toml)?),
        Question::Bench { job } => bytes(&Seen::of(predict(&built(&shape(job)?)?))),
        Question::Curve(curve) => bytes(&curve.values()?),
        Question::Draw(draw) => bytes(&draw.found()?),
        Question::Joint(joint) => bytes(&joint.solved()?),
        Question::Travel(travel) => bytes(&travel.solved()?),
        Question::Write { toml, job } => {
            let text = rewritten(&toml, &job).map_err(|e| Refused::Error(e.to_string()))?;
            bytes(&text)
        }
    }
}

/// What `weldbow predict --json` prints.
fn predicted(toml: &str, chances: bool) -> Result<Prediction, Refused> {
    let file = file_of_text(NAME, toml)?;
    // once more with the place of every mistake
    let Ok(job) = check(&file) else { return Ok(predict(&read_text(NAME, toml)?)) };
    let mut prediction = predict(&job);
    if chances {
        say_chances(&job, &mut prediction);
    }
    Ok(prediction)
}

fn bytes<T: Serialize>(value: &T) -> Result<Vec<u8>, Refused> {
    serde_json::to_vec(value)
        .map_err(|error| Refused::Error(format!("the answer cannot be written: {error}")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use weldbow_engine::job::STARTER;

    fn ask(question: &Value) -> Value {
        serde_json::from_slice(&answer(question.to_string().as_bytes())).unwrap()
    }

    fn starter() -> Value {
        ask(&json!({ "ask": "shape", "toml": STARTER }))
    }

    #[test]
    fn a_text_and_its_shape_give_the_same_prediction() {
        let of_text = ask(&json!({ "ask": "predict", "toml": STARTER, "chances": false }));
        let of_shape = plain(ask(&json!({ "ask": "bench", "job": starter() })));
        assert_eq!(of_text, of_shape);
        assert!(of_text["sweep"]["max_mm"].as_f64().unwrap() < 0.0);
    }

    /// A bench answer without what it has besides the prediction.
    fn plain(mut seen: Value) -> Value {
        let object = seen.as_object_mut().unwrap();
        for key in ["bands", "warnings_us"] {
            assert!(object.remove(key).is_some(), "{key}");
        }
        seen
    }

    #[test]
    fn a_window_that_is_wider_on_one_side_comes_with_both_its_edges() {
        let wanted = "tolerances = [\"aws-d1.1\"]\n[camber]\nrise = \"10 mm\"\ntoward = \"outer\"\n";
        let text = STARTER.replace("tolerances = [\"en-1090-2-class-1\"]", wanted);
        let seen = ask(&json!({ "ask": "bench", "job": ask(&json!({ "ask": "shape", "toml": text })) }));
        let verdicts = seen["verdicts"].as_array().unwrap();
        let camber = verdicts.iter().position(|v| v["quantity"] == "camber").unwrap();
        let edges: Vec<f64> =
            seen["bands"][camber].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect();
        assert!(edges[1] > edges[0], "D1.1 allows more camber than wanted, not less: {edges:?}");
    }

    #[test]
    fn a_job_outside_the_model_has_nulls_and_reasons_as_on_the_command_line() {
        // a heat that goes right through the plates
        let hot = STARTER.replace("\nprocedure = \"twin-6\"", "\nheat_input = \"6 kJ/mm\"");
        let found = ask(&json!({ "ask": "predict", "toml": hot, "chances": false }));
        assert!(found["sweep"].is_null() && found["outside"][0]["reason"].is_string(), "{found}");
        let seen = ask(&json!({ "ask": "bench", "job": ask(&json!({ "ask": "shape", "toml": hot })) }));
        assert_eq!(seen["outside"][0].as_array().unwrap().len(), 2, "{seen}");
    }

    #[test]
    fn every_mistake_of_a_job_comes_back_with_its_place() {
        let bad = STARTER.replace("leg = \"6 mm\"", "leg = \"6\"");
        let found = ask(&json!({ "ask": "predict", "toml": bad }));
        let problems = found["problems"].as_array().unwrap();
        assert_eq!(problems.len(), 2, "{found}");
        assert!(problems[0]["line"].as_u64().unwrap() > 1 && problems[0]["path"] == "pass[0].leg", "{found}");
        let mut job = starter();
        job["pass"][0]["leg"] = json!("60 m");
        assert!(ask(&json!({ "ask": "bench", "job": job }))["problems"].is_array());
    }

    #[test]
    fn nonsense_is_an_error_and_no_panic() {
        for question in ["", "7", "{}", "{\"ask\":\"dance\"}", "{\"ask\":\"bench\",\"job\":[]}", "\u{0}"] {
            let found: Value = serde_json::from_slice(&answer(question.as_bytes())).unwrap();
            assert!(found["error"].is_string(), "{question:?}: {found}");
        }
        assert!(answer(&[0xff, 0xfe]).starts_with(b"{\"error\""));
    }

    #[test]
    fn a_curve_reads_results_by_name_and_marks_what_cannot_be() {
        let mut other = starter();
        other["pass"][0]["leg"] = json!("8 mm");
        other["pass"][0].as_object_mut().unwrap().remove("procedure");
        let jobs = json!([starter(), other, { "member": 1 }]);
        let found =
            ask(&json!({ "ask": "curve", "jobs": jobs, "collect": ["camber.max_mm", "sweep.max_mm"] }));
        let sweep = found[1].as_array().unwrap();
        assert!(sweep[0].as_f64().unwrap() > sweep[1].as_f64().unwrap(), "a larger leg sweeps more: {found}");
        assert!(sweep[2].is_null());
        let no = ask(&json!({ "ask": "curve", "jobs": [], "collect": ["camber.max"] }));
        assert!(no["error"].as_str().unwrap().contains("camber.max_mm"), "{no}");
    }

    #[test]
    fn drawn_pieces_are_the_same_each_time_and_share_out_by_limit() {
        let question =
            json!({ "ask": "draw", "job": starter(), "count": 400, "seed": 1, "collect": ["sweep.max_mm"] });
        let found = ask(&question);
        assert_eq!(found, ask(&question));
        let values = found["values"][0].as_array().unwrap();
        assert_eq!(values.len(), 400);
        let verdicts = ask(&json!({ "ask": "predict", "toml": STARTER }));
        let verdicts = verdicts["verdicts"].as_array().unwrap();
        for (likely, verdict) in found["likely"].as_array().unwrap().iter().zip(verdicts) {
            assert_eq!(likely, &verdict["likely"], "one chance, wherever it is said");
        }
        assert_eq!(found["likely"].as_array().unwrap().len(), verdicts.len());
    }

    #[test]
    fn a_written_job_keeps_its_remarks_and_reads_back_to_the_same_numbers() {
        let mut job = starter();
        job["pass"][1]["leg"] = json!("7 mm");
        job["member"]["length"] = json!("9000 mm");
        job["pass"]
            .as_array_mut()
            .unwrap()
            .push(json!({ "seam": "outer", "side": "far", "leg": "4 mm", "step": 2 }));
        let text = ask(&json!({ "ask": "write", "toml": STARTER, "job": job }));
        let text = text.as_str().unwrap();
        assert!(text.contains("# One table for each shop procedure"), "{text}");
        assert!(text.contains("length = \"9.0 m\""), "an unchanged value stays as it was written: {text}");
        let back = ask(&json!({ "ask": "predict", "toml": text, "chances": false }));
        assert_eq!(back, plain(ask(&json!({ "ask": "bench", "job": job }))), "{text}");
    }

    #[test]
    fn a_joint_comes_with_frames_from_arc_to_cold() {
        let found =
            ask(&json!({ "ask": "joint", "job": starter(), "x_mm": 4500.0, "seam": "outer", "hold_c": 500.0,
            "mesh": "coarse", "frames": 12 }));
        let frames = found["frames"].as_array().unwrap();
        assert!(frames.len() > 6, "{}", found["error"]);
        let hottest = |frame: &Value| {
            frame["t"].as_array().unwrap().iter().map(|t| t.as_f64().unwrap()).fold(0.0, f64::max)
        };
        let peak = frames.iter().map(hottest).fold(0.0, f64::max);
        assert!(peak > 1400.0, "the arc melts: {peak} °C");
        assert!(hottest(frames.last().unwrap()) < 25.0, "the last frame is cold");
        let elements = found["elements"].as_array().unwrap().len();
        for frame in frames {
            assert_eq!(frame["s"].as_array().unwrap().len(), elements);
            assert_eq!(frame["t"].as_array().unwrap().len() * 2, frame["d"].as_array().unwrap().len());
        }
    }
}
