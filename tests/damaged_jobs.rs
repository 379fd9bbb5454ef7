//! Damaged jobs: whatever happens to the text, reading it ends in a job of sound numbers or in a complaint.

#![allow(clippy::unwrap_used, reason = "a failed test may panic anywhere")]

use std::io::sink;
use std::time::{Duration, Instant};
use weldbow::cli::complain::{Look, complain};
use weldbow::job::{STARTER, STARTER_US, check, file_of_text, read_text};
use weldbow::prediction::Job;
use weldbow::reading::Diagnostics;
use weldbow::welding::fillet::leg_of_deposit_mm;

const JOBS: [&str; 7] = [
    STARTER,
    STARTER_US,
    include_str!("../studies/jobs/rafter.toml"),
    include_str!("../studies/jobs/column.toml"),
    include_str!("../studies/jobs/us_frame.toml"),
    include_str!("../studies/jobs/haunch.toml"),
    include_str!("../studies/jobs/light.toml"),
];

/// Pieces of text that hurt most where they do not belong.
const TOKENS: [&str; 22] = [
    "\"",
    "[",
    "]]",
    "{",
    "}",
    "=",
    "inf",
    "nan",
    "-1",
    "0",
    "\"0 mm\"",
    "\"-5 mm\"",
    "\"1e308 m\"",
    "\"inf m\"",
    "\"1e-320 in\"",
    "99999999999999999999",
    "\"ü µ 中\"",
    "\n[[pass]]\n",
    "\n[member]\n",
    "to = ",
    "true",
    "\"L/0\"",
];

/// xorshift64: the same damage at every run.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % most.max(1) as u64) as usize
    }

    fn damage(&mut self, text: &str) -> String {
        let mut bytes = text.as_bytes().to_vec();
        for _ in 0..=self.below(3) {
            match self.below(4) {
                0 => {
                    let at = self.below(bytes.len());
                    bytes[at] ^= 1 << self.below(8);
                }
                1 => {
                    let mut lines: Vec<_> = bytes.split(|b| *b == b'\n').map(<[u8]>::to_vec).collect();
                    let (a, b) = (self.below(lines.len()), self.below(lines.len()));
                    lines.swap(a, b);
                    bytes = lines.join(&b'\n');
                }
                2 => {
                    let at = self.below(bytes.len());
                    let cut = self.below(6).min(bytes.len() - at);
                    let token = TOKENS[self.below(TOKENS.len())];
                    bytes.splice(at..at + cut, token.bytes());
                }
                _ => {
                    let quotes: Vec<_> = (0..bytes.len()).filter(|at| bytes[*at] == b'"').collect();
                    let pair = self.below(quotes.len() / 2);
                    if let Some([from, to]) = quotes.chunks_exact(2).nth(pair).map(|q| [q[0], q[1]]) {
                        bytes.splice(from..=to, TOKENS[self.below(TOKENS.len())].bytes());
                    }
                }
            }
        }
        String::from_utf8_lossy(&bytes).into_owned()
    }
}

fn assert_sound(job: &Job, text: &str) {
    let m = &job.member;
    let mut sizes =
        vec![m.length_mm, m.steel.yield_mpa, m.steel.tensile_mpa, m.steel.e_mpa, job.head_limit_deg];
    sizes.extend(m.depth.points().iter().map(|p| p.1));
    sizes.extend(m.web.iter().flat_map(|p| [p.thickness_mm, p.to_mm - p.from_mm]));
    for p in m.outer_flange.iter().chain(&m.inner_flange) {
        sizes.extend([p.thickness_mm, p.width_mm, p.to_mm - p.from_mm]);
    }
    for p in &job.passes {
        sizes.extend([p.to_mm - p.from_mm, p.leg_mm, p.heat_j_per_mm, p.deposit_mm2, p.welded_fraction]);
    }
    sizes.extend(job.own_limits.iter().map(|l| l.limit_mm));
    assert!(sizes.iter().all(|v| v.is_finite() && *v > 0.0), "{sizes:?} from:\n{text}");
    let others = job.passes.iter().map(|p| p.preheat_k).chain([job.fit_up_gap_mm]);
    assert!(others.into_iter().all(|v| v.is_finite() && v >= 0.0), "from:\n{text}");
    for pieces in [&m.outer_flange, &m.inner_flange] {
        assert!(pieces.windows(2).all(|p| p[0].to_mm.total_cmp(&p[1].from_mm).is_eq()), "a gap in:\n{text}");
        let ends = (pieces[0].from_mm, pieces[pieces.len() - 1].to_mm);
        assert!(ends.0.abs() < 1e-12 && (ends.1 - m.length_mm).abs() < 1e-12, "{ends:?} from:\n{text}");
    }
}

fn assert_useful(complaint: &Diagnostics, text: &str) {
    assert!(!complaint.problems.is_empty(), "a complaint about nothing, from:\n{text}");
    for found in &complaint.problems {
        let range = found.range.clone().unwrap_or(0..0);
        assert!(complaint.text.get(range.clone()).is_some(), "{range:?} splits a character of:\n{text}");
        assert!(
            !found.problem.found.is_empty() && !found.problem.wanted.is_empty(),
            "{found:?} from:\n{text}"
        );
    }
    complain(&mut sink(), complaint, Look::PLAIN).unwrap();
}

#[test]
fn damaged_jobs_never_panic_and_never_let_an_unsound_number_through() {
    let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
    let (end, mut accepted, mut refused) = (Instant::now() + Duration::from_secs(2), 0, 0);
    while Instant::now() < end {
        let whole = JOBS[dice.below(JOBS.len())];
        let text = dice.damage(whole);
        match read_text("damaged.toml", &text) {
            Ok(job) => {
                assert_sound(&job, &text);
                accepted += 1;
            }
            Err(complaint) => {
                assert_useful(&complaint, &text);
                refused += 1;
            }
        }
    }
    assert!(
        accepted > 20 && refused > 100,
        "{accepted} accepted, {refused} refused: too few to mean anything"
    );
}

#[test]
fn every_job_kept_here_reads_without_a_remark_and_survives_being_written_again() {
    for text in JOBS {
        let job = read_text("kept.toml", text).unwrap_or_else(|complaint| panic!("{complaint}"));
        assert_sound(&job, text);
        assert_eq!(job.notes, [], "{}", job.title);
        let file = file_of_text("kept.toml", text).unwrap();
        let again = toml::to_string(&file).unwrap();
        let reread =
            file_of_text("again.toml", &again).unwrap_or_else(|complaint| panic!("{complaint}\n{again}"));
        assert_eq!(check(&reread).unwrap(), job, "{again}");
    }
}

#[test]
fn every_procedure_kept_here_fills_the_leg_its_passes_name_within_15_percent() {
    for text in JOBS {
        let job = read_text("kept.toml", text).unwrap();
        for pass in &job.passes {
            let filled = leg_of_deposit_mm(pass.deposit_mm2);
            let ratio = filled / pass.leg_mm;
            assert!(
                (0.85..=1.15).contains(&ratio),
                "{}: {filled:.2} mm for {:.2} mm",
                job.title,
                pass.leg_mm
            );
        }
    }
}
