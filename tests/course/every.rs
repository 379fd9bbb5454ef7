//! What every study of the course must have.

use crate::studies::{run, stems, study};

#[test]
fn every_study_has_a_lesson_and_charts_and_no_failing_case() {
    let stems = stems();
    assert!(stems.len() >= 14, "{stems:?}");
    for stem in &stems {
        let run = run(stem);
        let lesson = run.study.lesson.clone().unwrap_or_default();
        let sentences = lesson.matches(". ").count() + 1;
        assert!((2..=7).contains(&sentences), "{stem}: a lesson of {sentences} sentences");
        assert!((1..=3).contains(&run.study.charts.len()), "{stem}: {} charts", run.study.charts.len());
        for row in run.study.rows(0..run.study.count()) {
            assert_eq!(row.reason, None, "{stem}, case {}", row.case);
            assert!(
                row.results.iter().all(|x| x.is_finite()),
                "{stem}, case {}: {:?}",
                row.case,
                row.results
            );
        }
    }
}

#[test]
fn studies_are_numbered_in_teaching_order_without_a_gap() {
    for (i, stem) in stems().iter().enumerate() {
        let number: usize = stem.split('-').next().unwrap().parse().unwrap_or_else(|_| panic!("{stem}"));
        assert_eq!(number, i + 1, "{stem}");
    }
}

#[test]
fn a_run_of_the_course_stays_short() {
    let cases: u64 = stems().iter().map(|stem| study(stem).count()).sum();
    assert!(cases < 20_000, "{cases} cases");
}
