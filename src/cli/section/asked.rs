//! What stands behind the options, read: places, temperatures, times, mesh.

use crate::input::near::wanted;
use crate::joint_solver::SOLID_C;
use crate::prediction::Job;
use crate::units::{Kind, System, read};
use crate::verification::{HotHold, Meshing, Options};

/// A job and how its joints are solved and shown.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    pub(super) job: &'a Job,
    pub(super) options: &'a Options,
    pub(super) system: System,
}

/// Most places at once (a choice: a second or so each).
const MOST_PLACES: usize = 500;
/// Most times a pass.
const MOST_TIMES: usize = 6;
/// Temperatures of release that make sense, °C: above what a room is, below the melt.
const RELEASE_C: [f64; 2] = [30.0, SOLID_C];
/// Elements along a leg.
const PER_LEG: [usize; 2] = [2, 400];

/// Times after the start of a pass, s.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Times(pub(crate) Vec<f64>);

pub(super) fn length(text: &str) -> Result<f64, String> {
    read(Kind::Length, text).map_err(|e| e.to_string())
}

pub(super) fn step(text: &str) -> Result<f64, String> {
    let step = length(text)?;
    if step > 0.0 {
        Ok(step)
    } else {
        Err(format!("a step must be longer than nought, such as 1m; {text} is not"))
    }
}

pub(super) fn hold(text: &str) -> Result<HotHold, String> {
    match text {
        "none" => return Ok(HotHold::None),
        "solid" => return Ok(HotHold::SOLID),
        _ => {}
    }
    if !text.contains(|c: char| c.is_ascii_digit()) {
        return Err(format!("{}, or a temperature such as 500C", wanted(text, &["solid", "none"])));
    }
    let t_c = read(Kind::Temperature, text).map_err(|e| e.to_string())?;
    if (RELEASE_C[0]..=RELEASE_C[1]).contains(&t_c) {
        return Ok(HotHold::Until(t_c));
    }
    Err(format!(
        "{text} is no temperature to let go at; it must lie between {} and {} °C, or be `solid` or `none`",
        RELEASE_C[0], RELEASE_C[1]
    ))
}

pub(super) fn meshing(text: &str) -> Result<Meshing, String> {
    match text {
        "coarse" => Ok(Meshing::Coarse),
        "standard" => Ok(Meshing::Standard),
        "fine" => Ok(Meshing::Fine),
        other => match other.parse::<usize>() {
            Ok(n) if (PER_LEG[0]..=PER_LEG[1]).contains(&n) && n.is_multiple_of(2) => Ok(Meshing::PerLeg(n)),
            Ok(n) => Err(format!(
                "{n} elements along a leg cannot be made; an even number from {} to {} can",
                PER_LEG[0], PER_LEG[1]
            )),
            Err(_) => Err(format!(
                "{}, or an even number of elements along a leg",
                wanted(other, &["coarse", "standard", "fine"])
            )),
        },
    }
}

pub(super) fn times(text: &str) -> Result<Times, String> {
    let mut times = text
        .split(',')
        .map(|one| read(Kind::Time, one).map_err(|e| e.to_string()))
        .collect::<Result<Vec<f64>, String>>()?;
    if let Some(bad) = times.iter().find(|t| !(0.01..=1e5).contains(*t)) {
        return Err(format!("{bad} s is no time to draw; it must lie between 0.01 s and 100000 s"));
    }
    if times.len() > MOST_TIMES {
        return Err(format!("{} times are too many to draw; at most {MOST_TIMES}", times.len()));
    }
    times.sort_by(f64::total_cmp);
    times.dedup();
    Ok(Times(times))
}

/// Places to referee, mm, and whether a step brought them about: those given, those a step apart, or mid-length.
pub(super) fn places(at: &[f64], every: Option<f64>, length_mm: f64) -> (Vec<f64>, bool) {
    let Some(step) = every else {
        return (if at.is_empty() { vec![length_mm / 2.0] } else { at.to_vec() }, false);
    };
    // So that nothing lies on an end, where no beam is.
    let count = count(step, length_mm).min(MOST_PLACES);
    let step = if step >= length_mm { length_mm / 2.0 } else { step };
    ((1..=count).map(|k| k as f64 * step).collect(), true)
}

/// Places that a step brings about between the ends; one at least.
fn count(step_mm: f64, length_mm: f64) -> usize {
    ((length_mm / step_mm).ceil() - 1.0).max(1.0) as usize
}

/// What to say of a step that brings about more places than are solved at once: none is left out unsaid.
pub(super) fn too_many(step_mm: f64, length_mm: f64) -> Option<String> {
    let places = count(step_mm, length_mm);
    let least = (length_mm / (MOST_PLACES + 1) as f64).ceil();
    (places > MOST_PLACES).then(|| {
        format!("--every: {places} places are too many to solve at once, at most {MOST_PLACES}; a step of {least:.0}mm or more gives fewer")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrong_words_are_answered_with_the_near_one() {
        assert!(hold("non").unwrap_err().contains("did you mean `none`?"));
        assert!(meshing("standart").unwrap_err().contains("did you mean `standard`?"));
        for bad in ["0C", "1500C", "-5C", "500"] {
            assert!(hold(bad).is_err(), "{bad}");
        }
        for bad in ["3", "0", "402", "2.5", "-4", ""] {
            assert!(meshing(bad).is_err(), "{bad}");
        }
        assert_eq!(hold("932 °F").map(|h| h.release_c().map(|t| (t * 1e6).round() / 1e6)), Ok(Some(500.0)));
        assert_eq!((hold("solid"), hold("none")), (Ok(HotHold::SOLID), Ok(HotHold::None)));
        assert_eq!(meshing("6"), Ok(Meshing::PerLeg(6)));
    }

    #[test]
    fn times_are_sorted_and_bad_ones_named() {
        assert_eq!(times("20s, 5 s,1min,5s"), Ok(Times(vec![5.0, 20.0, 60.0])));
        for bad in ["", "5", "-5s", "0s", "1s,2s,3s,4s,5s,6s,7s", "3 h 400 h"] {
            assert!(times(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn steps_keep_off_the_ends_and_never_run_away() {
        assert_eq!(places(&[], Some(1000.0), 3000.0), (vec![1000.0, 2000.0], true));
        assert_eq!(places(&[], Some(1000.0), 3001.0).0.len(), 3);
        assert_eq!(places(&[], Some(9000.0), 3000.0), (vec![1500.0], true));
        assert!(too_many(10.0, 9000.0).unwrap().contains("a step of 18mm"));
        for length in [100.0, 9000.0, 33_333.0, 100_000.0] {
            let least = (length / 501.0_f64).ceil();
            assert!(too_many(least, length).is_none() && count(least, length) <= MOST_PLACES, "{length}");
        }
        assert!(too_many(1e-9, 3000.0).is_some() && too_many(f64::MIN_POSITIVE, 3000.0).is_some());
        assert_eq!(places(&[], None, 3000.0), (vec![1500.0], false));
        assert_eq!(places(&[7.0, 5.0], None, 3000.0), (vec![7.0, 5.0], false));
        assert!(step("0m").is_err() && step("-1m").is_err() && step("1m").is_ok());
    }
}
