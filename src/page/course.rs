//! The lessons of the course, as they are written in `course/lessons.toml`.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Jobs the lessons speak of, by name.
pub(crate) const JOBS: [(&str, &str); 3] = [
    ("c1", include_str!("course/jobs/c1.toml")),
    ("c2", include_str!("course/jobs/c2.toml")),
    ("c3", include_str!("course/jobs/c3.toml")),
];

const LESSONS: &str = include_str!("course/lessons.toml");

/// One lesson: what to see, a question, its answer, and how the bench stands for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lesson {
    /// Name, unique.
    pub id: String,
    /// The part of the course it belongs to.
    pub part: String,
    /// Heading.
    pub title: String,
    /// Kind of picture, with a name after a colon where the kind has several.
    pub picture: String,
    /// What to see, and why.
    pub text: String,
    /// The question.
    pub question: String,
    /// Possible answers.
    pub choices: Vec<String>,
    /// Which of them is right, from 0.
    pub right: usize,
    /// Why.
    pub answer: String,
    /// The job of the bench.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<String>,
    /// Whether the joint room shows it.
    #[serde(default)]
    pub joint: bool,
    /// The slider to turn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub touch: Option<String>,
    /// The result to watch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub result: Option<String>,
    /// Switches of the bench.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub switches: BTreeMap<String, String>,
    /// What the answer rests on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub check: Option<Check>,
}

/// A change on the bench and the ratio of the result after it to that before.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// The slider that is turned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub knob: Option<String>,
    /// The switch that is set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub switch: Option<String>,
    /// Before.
    pub from: serde_json::Value,
    /// After.
    pub to: serde_json::Value,
    /// Least ratio the answer allows.
    pub low: f64,
    /// Largest.
    pub high: f64,
}

#[derive(Deserialize)]
struct Book {
    lesson: Vec<Lesson>,
}

/// All lessons in order.
///
/// # Errors
/// Why they cannot be read: a broken build.
pub fn lessons() -> Result<Vec<Lesson>, String> {
    toml::from_str::<Book>(LESSONS).map(|book| book.lesson).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;
    use weldbow_engine::prediction::predict;
    use weldbow_engine::study::collected;
    use weldbow_files::job::read_text;

    #[test]
    fn every_lesson_asks_something_it_answers_on_a_job_there_is() {
        let all = lessons().unwrap();
        assert!(all.len() >= 20, "{} lessons", all.len());
        assert_eq!(all.iter().map(|l| &l.id).collect::<BTreeSet<_>>().len(), all.len(), "names are unique");
        for lesson in &all {
            assert!(lesson.right < lesson.choices.len() && lesson.choices.len() >= 3, "{}", lesson.id);
            if let Some(job) = &lesson.job {
                assert!(JOBS.iter().any(|(name, _)| name == job), "{}: no job {job}", lesson.id);
            }
            if let Some(result) = &lesson.result {
                assert!(collected(result).is_ok(), "{}: no result {result}", lesson.id);
            }
            if lesson.picture == "curve" || lesson.picture == "histogram" {
                assert!(
                    lesson.touch.is_some() && lesson.result.is_some() && lesson.job.is_some(),
                    "{}",
                    lesson.id
                );
            }
        }
    }

    #[test]
    fn right_answers_do_not_always_stand_at_the_same_place() {
        let all = lessons().unwrap();
        for place in 0..3 {
            let there = all.iter().filter(|l| l.right == place).count();
            assert!(there >= 3 && there * 3 <= all.len() * 2, "{there} of {} at place {place}", all.len());
        }
    }

    /// Largest reading error of a string over 12 m (common practice, no source).
    const STRING_MM: f64 = 1.0;

    #[test]
    fn a_string_can_read_the_bows_of_the_course() {
        for (name, text) in JOBS {
            let p = predict(&read_text(name, text).unwrap());
            let bow = p.sweep.max_mm.abs().max(p.camber.max_mm.abs());
            assert!(bow > 5.0 * STRING_MM, "{name}: {bow:.1} mm against a string's {STRING_MM} mm");
        }
    }
}
