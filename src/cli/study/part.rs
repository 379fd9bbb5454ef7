//! Which part of a study a run computes: as written, or by the number that a scheduler gives a task of an array job.

use std::env::var;

/// Part I of N, both from 1.
pub(super) type Part = (u64, u64);

/// A scheduler's names for the task of an array job.
struct Scheduler {
    name: &'static str,
    /// Number of the task.
    task: &'static str,
    /// The number that the first task has: a fixed one, or where it stands.
    first: First,
    /// How many tasks there are, and the distance of their numbers, where the scheduler says so.
    count: Option<[&'static str; 2]>,
}

enum First {
    Always(u64),
    In(&'static str),
}

/// Slurm (sbatch manual, "Job arrays") and Kubernetes (indexed Jobs).
const SCHEDULERS: [Scheduler; 2] = [
    Scheduler {
        name: "Slurm",
        task: "SLURM_ARRAY_TASK_ID",
        first: First::In("SLURM_ARRAY_TASK_MIN"),
        count: Some(["SLURM_ARRAY_TASK_COUNT", "SLURM_ARRAY_TASK_STEP"]),
    },
    Scheduler { name: "Kubernetes", task: "JOB_COMPLETION_INDEX", first: First::Always(0), count: None },
];

/// Reads `2/8`, `array` or `array/8`.
///
/// # Errors
/// What would be right.
pub(crate) fn part(text: &str) -> Result<Part, String> {
    read(text, |name| var(name).ok())
}

fn read(text: &str, said: impl Fn(&str) -> Option<String>) -> Result<Part, String> {
    let (i, n) = text.split_once('/').map_or((text, None), |(i, n)| (i.trim(), Some(n.trim())));
    let wrong = || {
        format!(
            "`{text}` is no part; right would be 2/8, the second of eight, or array/8 in an array job of eight tasks"
        )
    };
    let count = n.map(|n| n.parse::<u64>().ok().filter(|n| *n > 0).ok_or_else(wrong)).transpose()?;
    if i == "array" {
        return of_array(count, said);
    }
    let (i, n) = (i.parse::<u64>().map_err(|_| wrong())?, count.ok_or_else(wrong)?);
    if (1..=n).contains(&i) { Ok((i, n)) } else { Err(wrong()) }
}

/// The part of this task of an array job. With a count, a task that is sent again alone is still the part it was: its number alone counts.
fn of_array(count: Option<u64>, said: impl Fn(&str) -> Option<String>) -> Result<Part, String> {
    let number = |name: &str| said(name).and_then(|text| text.trim().parse::<u64>().ok());
    let found = SCHEDULERS.iter().find_map(|scheduler| Some((scheduler, number(scheduler.task)?)));
    let Some((scheduler, task)) = found else {
        let names =
            SCHEDULERS.map(|scheduler| format!("{} ({})", scheduler.task, scheduler.name)).join(" or ");
        return Err(format!("no array job: {names} is not set; right would be 2/8 outside of one"));
    };
    let (first, n) = match (&scheduler.first, count, scheduler.count) {
        (First::Always(first), Some(n), _) => (*first, n),
        (First::In(_), Some(n), _) => (1, n),
        (_, None, None) => {
            return Err(format!(
                "{} does not say how many tasks there are; right would be array/8 for eight",
                scheduler.name
            ));
        }
        (first, None, Some([count, step])) => {
            let first = match first {
                First::Always(first) => Some(*first),
                First::In(name) => number(name),
            };
            let even = number(step).unwrap_or(1) == 1;
            let all = first.zip(number(count)).filter(|_| even);
            all.ok_or_else(|| format!("{count} and the lowest number of the tasks are wanted, and numbers without gaps; right would be array/8 for tasks 1 to 8"))?
        }
    };
    let i = task.checked_sub(first).and_then(|i| i.checked_add(1)).filter(|i| *i <= n);
    i.map(|i| (i, n)).ok_or_else(|| {
        let last = first.saturating_add(n - 1);
        format!("{} is {task}, and the {n} parts are those of tasks {first} to {last}", scheduler.task)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str, set: &[(&str, &str)]) -> Result<Part, String> {
        read(text, |name| set.iter().find(|(of, _)| *of == name).map(|(_, value)| (*value).to_owned()))
    }

    #[test]
    fn a_part_is_written_or_taken_from_the_task() {
        assert_eq!(of("2/8", &[]), Ok((2, 8)));
        let slurm = |id, min, count| {
            [("SLURM_ARRAY_TASK_ID", id), ("SLURM_ARRAY_TASK_MIN", min), ("SLURM_ARRAY_TASK_COUNT", count)]
        };
        assert_eq!(of("array", &slurm("3", "1", "4")), Ok((3, 4)));
        assert_eq!(of("array", &slurm("0", "0", "4")), Ok((1, 4)));
        // one task sent again alone: the scheduler counts one, the division stays
        assert_eq!(of("array/4", &slurm("3", "3", "1")), Ok((3, 4)));
        assert_eq!(of("array/8", &[("JOB_COMPLETION_INDEX", "0")]), Ok((1, 8)));
        assert_eq!(of("array/8", &[("JOB_COMPLETION_INDEX", "7")]), Ok((8, 8)));
    }

    #[test]
    fn what_is_no_part_is_refused_with_what_would_be_right() {
        let slurm =
            [("SLURM_ARRAY_TASK_ID", "9"), ("SLURM_ARRAY_TASK_MIN", "1"), ("SLURM_ARRAY_TASK_COUNT", "5")];
        let gaps = [slurm[0], slurm[1], ("SLURM_ARRAY_TASK_COUNT", "5"), ("SLURM_ARRAY_TASK_STEP", "2")];
        for (text, set, wanted) in [
            ("0/3", &[][..], "`0/3` is no part"),
            ("4/3", &[], "`4/3` is no part"),
            ("3", &[], "`3` is no part"),
            ("array/0", &[], "`array/0` is no part"),
            ("array", &[], "no array job: SLURM_ARRAY_TASK_ID (Slurm) or JOB_COMPLETION_INDEX (Kubernetes)"),
            ("array", &[("JOB_COMPLETION_INDEX", "0")], "does not say how many tasks there are"),
            ("array/8", &[("JOB_COMPLETION_INDEX", "8")], "those of tasks 0 to 7"),
            ("array/4", &slurm, "those of tasks 1 to 4"),
            ("array", &gaps, "numbers without gaps"),
        ] {
            let said = of(text, set).unwrap_err();
            assert!(said.contains(wanted), "{text}: {said}");
        }
    }
}
