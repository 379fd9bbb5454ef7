//! Bows, edges, shortening and web compression against an integrator written apart from the crate, for the same seam
//! forces: `reference-cases/bows.py`.
//!
//! The engine takes no forces, so each pass is written as eighths whose `force_factor` is turned until the engine's own force
//! is the one given there.

use crate::cases::document;
use serde::Deserialize;
use serde_json::{Value, to_value};
use std::collections::BTreeMap;
use std::fmt::Write;
use weldbow::job::read_text;
use weldbow::prediction::predict;

const EIGHTHS: usize = 8;
/// Forces are as given to this, relative: a hundredth of what is compared.
const SAME_FORCE: f64 = 1e-5;
/// Two ways to add up the same strains leave less than this of nothing, mm or MPa.
const NOTHING: f64 = 1e-4;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sheet {
    title: String,
    trust: String,
    relative: f64,
    member: Vec<Member>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Member {
    name: String,
    length_mm: f64,
    depth_mm: Vec<[f64; 2]>,
    web_mm: Vec<[f64; 2]>,
    outer_mm: Vec<[f64; 3]>,
    inner_mm: Vec<[f64; 3]>,
    arm_mm: f64,
    first_joined: Option<String>,
    #[serde(default)]
    follows: bool,
    stitch_mm: Option<[f64; 2]>,
    pass: Vec<Seam>,
    expected: BTreeMap<String, Expected>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Seam {
    seam: String,
    side: String,
    order: u32,
    force_n: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Expected {
    One(f64),
    Eighths(Vec<f64>),
}

/// One for all eighths, or each its own.
fn eighth(values: &[f64], at: usize) -> f64 {
    *values.get(at).unwrap_or(&values[0])
}

/// A pass over one eighth, or over the part of it on one set of plates.
struct Bead {
    seam: usize,
    from_mm: f64,
    to_mm: f64,
    force_n: f64,
    factor: f64,
}

impl Member {
    fn beads(&self) -> Vec<Bead> {
        let welded = self.stitch_mm.map_or(1.0, |[weld, gap]| weld / (weld + gap));
        let long = self.length_mm / EIGHTHS as f64;
        let ends = (0..=EIGHTHS).map(|at| long * at as f64);
        let web = self.web_mm.iter().chain(&self.depth_mm).map(|row| row[0]);
        let flanges = self.outer_mm.iter().chain(&self.inner_mm).map(|row| row[0]);
        let mut cuts: Vec<f64> = ends.chain(web).chain(flanges).collect();
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        let all = (0..self.pass.len()).flat_map(|seam| cuts.windows(2).map(move |cut| (seam, cut)));
        let bead = |(seam, cut): (usize, &[f64])| {
            let at = (0.5 * (cut[0] + cut[1]) / long) as usize;
            let force_n = welded * eighth(&self.pass[seam].force_n, at);
            Bead { seam, from_mm: cut[0], to_mm: cut[1], force_n, factor: 1.0 }
        };
        all.map(bead).filter(|bead| bead.force_n > 0.0).collect()
    }

    fn text(&self, beads: &[Bead], arm: f64) -> String {
        let rows = |pieces: Vec<(f64, String)>| {
            let last = pieces.len() - 1;
            let ends = pieces.into_iter().enumerate().map(|(at, (to, size))| match at == last {
                true => format!("{{ {size} }}"),
                false => format!("{{ to = \"{to} mm\", {size} }}"),
            });
            ends.collect::<Vec<_>>().join(", ")
        };
        let flange = |pieces: &[[f64; 3]]| {
            rows(
                pieces
                    .iter()
                    .map(|[to, b, t]| (*to, format!("width = \"{b} mm\", thickness = \"{t} mm\"")))
                    .collect(),
            )
        };
        let web = rows(self.web_mm.iter().map(|[to, t]| (*to, format!("thickness = \"{t} mm\""))).collect());
        let depth: Vec<String> =
            self.depth_mm.iter().map(|[x, d]| format!("[\"{x} mm\", \"{d} mm\"]")).collect();
        let mut text = format!(
            "[factors]\narm = {arm:?}\n[member]\nlength = \"{} mm\"\nsteel = \"S355\"\ndepth = [{}]\nweb = [{web}]\nouter_flange = [{}]\ninner_flange = [{}]\n",
            self.length_mm,
            depth.join(", "),
            flange(&self.outer_mm),
            flange(&self.inner_mm)
        );
        for bead in beads {
            let pass = &self.pass[bead.seam];
            let (from, to) = (bead.from_mm, bead.to_mm);
            let stitch = self.stitch_mm.map(|[a, b]| format!("intermittent = \"{a} mm weld, {b} mm gap\"\n"));
            let _ = write!(
                text,
                "[[pass]]\nseam = \"{}\"\nside = \"{}\"\norder = {}\nleg = \"5 mm\"\nheat_input = \"800 J/mm\"\nfrom = \"{from} mm\"\nto = \"{to} mm\"\nforce_factor = {:?}\n{}",
                pass.seam,
                pass.side,
                pass.order,
                bead.factor,
                stitch.unwrap_or_default()
            );
        }
        if let Some(first) = &self.first_joined {
            let fit = if self.follows { "follows" } else { "straight" };
            let _ = write!(
                text,
                "[[order]]\nnumber = 1\njoined = [\"web\", \"{first}_flange\"]\n[[order]]\nnumber = 2\nadded_flange = \"{fit}\"\n"
            );
        }
        text
    }

    fn predicted(&self, beads: &[Bead], arm: f64) -> Value {
        let job =
            read_text("bows.toml", &self.text(beads, arm)).unwrap_or_else(|c| panic!("{}: {c}", self.name));
        to_value(predict(&job)).unwrap()
    }

    /// The prediction once every eighth pulls as given.
    fn with_given_forces(&self) -> Value {
        let (mut beads, mut arm) = (self.beads(), 1.0);
        for _ in 0..40 {
            let p = self.predicted(&beads, arm);
            let mut worst: f64 = 0.0;
            for bead in &mut beads {
                let pass = &self.pass[bead.seam];
                let is = |found: &&Value| {
                    let from = number(found, "/from_mm");
                    found["seam"] == *pass.seam && (from - bead.from_mm).abs() < 1e-6
                };
                let found = p["passes"].as_array().unwrap().iter().find(is).unwrap();
                let ratio = bead.force_n / number(found, "/force_n");
                bead.factor *= ratio;
                worst = worst.max((ratio - 1.0).abs());
                if self.arm_mm > 0.0 {
                    let off = self.arm_mm / number(found, "/arm_z_mm").abs();
                    worst = worst.max((off - 1.0).abs());
                    arm *= off.powf(1.0 / self.beads().len() as f64);
                }
            }
            if worst < SAME_FORCE {
                assert!((number(&p, "/model/e_mpa") - 206e3).abs() < 1e-6, "the script's modulus");
                return p;
            }
        }
        panic!("{}: forces do not settle", self.name)
    }
}

fn number(value: &Value, place: &str) -> f64 {
    value.pointer(place).and_then(Value::as_f64).unwrap_or_else(|| panic!("no {place}"))
}

/// The engine's number of that name.
fn got(p: &Value, name: &str, length_mm: f64) -> f64 {
    let pieces = |part: &str| {
        let all = p.pointer("/allowance/pieces").and_then(Value::as_array).unwrap().iter();
        all.filter(|piece| piece["part"] == part).map(|piece| number(piece, "/shrinkage_mm")).sum()
    };
    let middle = |bow: &str| {
        let profile = p[bow]["profile"].as_array().unwrap();
        let at = |point: &&Value| (number(point, "/0") - 0.5 * length_mm).abs() < 1e-6;
        number(profile.iter().find(at).unwrap(), "/1")
    };
    match name {
        "shortening_mm" => number(p, "/shortening/centroid_mm"),
        "outer_edge_mm" | "inner_edge_mm" => number(p, &format!("/shortening/{name}")),
        "outer_flange_mm" => pieces("outer_flange"),
        "inner_flange_mm" => pieces("inner_flange"),
        "camber_mm" | "sweep_mm" => number(p, &format!("/{}/max_mm", name.trim_end_matches("_mm"))),
        "camber_mid_mm" | "sweep_mid_mm" => middle(name.trim_end_matches("_mid_mm")),
        _ => panic!("{name} is not compared"),
    }
}

/// Mean web compression of an eighth, MPa; none if it is cut up by steps of the plates.
fn web_mpa(p: &Value, at: usize, length_mm: f64) -> Option<f64> {
    let middle = (at as f64 + 0.5) * length_mm / EIGHTHS as f64;
    let here = |web: &&Value| (number(web, "/x_mm") - middle).abs() < 1e-6;
    p["ripple"].as_array().unwrap().iter().find(here).map(|web| number(web, "/compression_mpa"))
}

#[test]
fn given_forces_bow_and_shorten_members_as_the_script_integrates_them() {
    let sheet: Sheet = document("bows.toml");
    let (mut wrong, mut compared) = (Vec::new(), 0);
    let mut compare = |member: &Member, name: &str, got: f64, want: f64| {
        compared += 1;
        if (got - want).abs() > sheet.relative * want.abs() + NOTHING {
            wrong.push(format!(
                "{}, {name}: {got:.4}, script {want:.4} ({:+.1} %)",
                member.name,
                100.0 * (got / want - 1.0)
            ));
        }
    };
    for member in &sheet.member {
        let p = member.with_given_forces();
        for (name, expected) in &member.expected {
            match expected {
                Expected::One(want) => compare(member, name, got(&p, name, member.length_mm), *want),
                Expected::Eighths(all) => {
                    for at in 0..EIGHTHS {
                        if let Some(got) = web_mpa(&p, at, member.length_mm) {
                            compare(member, &format!("{name} of eighth {}", at + 1), got, eighth(all, at));
                        }
                    }
                }
            }
        }
    }
    assert!(compared > 150, "only {compared} numbers of {} ({})", sheet.title, sheet.trust);
    assert!(wrong.is_empty(), "{} of {compared} numbers differ:\n{}", wrong.len(), wrong.join("\n"));
}
