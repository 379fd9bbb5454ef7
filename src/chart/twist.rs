//! Twist along the member, and the sweep of each flange that goes with it.

use super::axes::{LEFT, Panel, Range};
use super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, SIZE, draw};
use super::measure::Unit;
use super::smooth::smooth;
use super::spread::spread;
use super::theme::{
    BLUE, DASH_DOT, DASHED, FULL, GREY, HEADING, LABEL, PREDICTED, SMALL, Stroke, THIN, VERMILION,
};
use super::{Done, Picture};
use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::units::{System, show};

const RIGHT: f64 = 672.0;
/// Flanges that sweep apart by less are not worth a picture, mm (as the warning of the prediction).
const APART_MM: f64 = 1.0;
/// Smallest spans of the axes: rad, mm.
const LEAST: [f64; 2] = [1e-3, 0.5];
/// Turns are read in thousandths of a radian: that many mm over each metre of depth.
const TURN: Unit = Unit { name: "mrad", mm: 1e-3, decimals: 1 };

/// None for a member that hardly turns.
pub(super) fn twist(job: &Job, prediction: &Prediction, system: System) -> Done<Option<Picture>> {
    let twist = &prediction.twist;
    if twist.apart_mm.abs() < APART_MM {
        return Ok(None);
    }
    let offset = |mm| show::offset(mm, system);
    let finding = format!(
        "Turn {} against the start end, at {}; outer flange sweeps {}, inner {}",
        TURN.size_2s(twist.max_rad, twist.max_2s_rad),
        show::position(twist.at_mm, system),
        offset(twist.flange_sweep_mm[0]),
        offset(twist.flange_sweep_mm[1])
    );
    let heading = Heading {
        name: "twist",
        job: &job.title,
        what: "twist and the sweep of each flange",
        description: format!("Two plots against x from the start end. {finding}."),
        subtitle: finding,
    };
    let stations: Vec<f64> = twist.profile.iter().map(|p| p[0]).collect();
    let length_mm = stations.last().copied().unwrap_or(1.0);
    let panel = |top, bottom, y| {
        let x = Range::to(length_mm);
        Panel::new((LEFT, RIGHT), (top, bottom), x, y)
    };
    draw(&heading, SIZE, |paper| {
        let turns = twist.profile.iter().map(|p| p[1]);
        let upper = panel(BELOW_TITLE + 26.0, 276.0, Range::around(turns, LEAST[0]));
        title(paper, &upper, "Turn", "+ inner flange to the near side, against the start end")?;
        upper.y_axis(paper, TURN, "turn")?;
        let line: Vec<(f64, f64)> = twist.profile.iter().map(|p| (p[0], p[1])).collect();
        paper.line(&upper.path(smooth(&line)), PREDICTED)?;

        let whole: Vec<f64> = prediction.sweep.profile.iter().map(|p| p[1]).collect();
        let [outer, inner] = &twist.flange_profile_mm;
        let lines = [
            ("outer flange", outer, Stroke::new(BLUE, 2.2, FULL)),
            ("inner flange", inner, Stroke::new(VERMILION, 2.2, DASHED)),
            ("section as a whole", &whole, Stroke::new(GREY, 1.6, DASH_DOT)),
        ];
        let lower =
            panel(320.0, 508.0, Range::around(lines.iter().flat_map(|l| l.1.iter().copied()), LEAST[1]));
        title(paper, &lower, "Sweep", "+ toward the near side, each from the line between its own ends")?;
        lower.y_axis(paper, Unit::offset(system), "offset from the chord")?;
        for (_, values, stroke) in &lines {
            let points: Vec<(f64, f64)> = stations.iter().copied().zip(values.iter().copied()).collect();
            paper.line(&lower.path(smooth(&points)), *stroke)?;
        }
        // all lines end at zero: their names hang on their values amid the length
        let middle = stations.len() / 2;
        let at = lines.map(|l| lower.py(l.1.get(middle).copied().unwrap_or_default()));
        for (y, (name, _, stroke)) in spread(&at, 18.0, lower.top, lower.bottom).into_iter().zip(&lines) {
            paper.line(&[(RIGHT + 4.0, y), (RIGHT + 30.0, y)], *stroke)?;
            paper.text((RIGHT + 36.0, y), At::Left, name, LABEL)?;
        }
        paper.line(&[(RIGHT, lower.top), (RIGHT, lower.bottom)], THIN)?;
        lower.x_axis(paper, Unit::along(system), "x from the start end")
    })
    .map(Some)
}

fn title(paper: &Canvas<'_>, panel: &Panel, name: &str, signs: &str) -> Done {
    paper.text((MARGIN, panel.top - 18.0), At::Left, name, HEADING)?;
    paper.text((LEFT + 6.0, panel.top - 18.0), At::Left, signs, SMALL)
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn only_a_member_that_turns_gets_a_picture() {
        let job = sample::busy_job();
        let mut prediction = sample::prediction(&job, -8.4, 4.0);
        assert_eq!(twist(&job, &prediction, System::Si), Ok(None));
        prediction.twist.apart_mm = -3.0;
        let drawn = twist(&job, &prediction, System::Si).unwrap().unwrap();
        assert!(drawn.svg.contains("inner flange") && drawn.svg.contains("mrad"), "{}", drawn.svg);
    }
}
