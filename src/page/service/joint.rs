//! A joint from first principles: one slice of it, or an arc that travels along it.

use super::refused::{Refused, built, shape};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use weldbow_engine::joint_solver::{ElementKind, Outcome};
use weldbow_engine::member::Seam;
use weldbow_engine::moving_arc::Grip;
use weldbow_engine::verification::{
    Case, HotHold, LayerNumbers, Meshing, Options, TravelledCase, Verified, formula, moving, travel_of,
    verify,
};
use weldbow_engine::welding::Side;

/// Displacements are told in ten-thousandths of a millimetre.
const MOVED: f64 = 1e4;
/// Plastic strain is told in hundred-thousandths.
const PLASTIC: f64 = 1e5;
/// First frame after the arc has come, s.
const FIRST_S: f64 = 0.3;
/// Last frame before the cold one, s: by then a joint of usual plates is below 60 °C.
const LAST_S: f64 = 3000.0;
/// Most frames of a pass (a choice).
const MOST_FRAMES: usize = 200;

/// Which joint, and how it is solved.
#[derive(Debug, Deserialize)]
pub(crate) struct JointQuestion {
    job: Value,
    x_mm: f64,
    seam: Seam,
    /// Held in the plane until below this, °C; never held without it.
    #[serde(default)]
    hold_c: Option<f64>,
    /// "coarse" or "standard".
    mesh: String,
    /// Frames of each pass.
    frames: usize,
}

/// A solved joint.
#[derive(Debug, Serialize)]
pub(crate) struct JointAnswer {
    /// What `weldbow section` prints of it.
    result: Verified,
    /// Place of every corner node [across, up], mm.
    nodes: Vec<[f64; 2]>,
    /// Corners of every element, counter-clockwise.
    elements: Vec<[usize; 4]>,
    /// Part of every element: "flange", "web", "near" or "far" fillet.
    parts: Vec<&'static str>,
    /// From arc to cold.
    frames: Vec<Frame>,
}

/// One moment.
#[derive(Debug, Serialize)]
struct Frame {
    /// Pass, from 1.
    pass: usize,
    /// Time since its arc came, s; none when all is cold.
    time_s: Option<f64>,
    /// Temperature of every node, °C.
    t: Vec<i32>,
    /// Displacement of every node, across then up, 1e-4 mm.
    d: Vec<i32>,
    /// Stress along the member of every element, MPa.
    s: Vec<i32>,
    /// Plastic strain of every element, 1e-5.
    p: Vec<i32>,
}

impl JointQuestion {
    /// Solves.
    ///
    /// # Errors
    /// A job that makes no sense, a place without a weld, a section without equilibrium.
    pub(crate) fn solved(self) -> Result<JointAnswer, Refused> {
        let job = built(&shape(self.job)?)?;
        let frames = self.frames.clamp(2, MOST_FRAMES);
        let growth = (LAST_S / FIRST_S).powf(1.0 / (frames - 1) as f64);
        let options = Options {
            hold: self.hold_c.map_or(HotHold::None, HotHold::Until),
            meshing: if self.mesh == "standard" { Meshing::Standard } else { Meshing::Coarse },
            times_s: (0..frames).map(|k| FIRST_S * growth.powi(k as i32)).collect(),
            quick: true,
            ..Options::default()
        };
        let refused = |error: &dyn std::fmt::Display| Refused::Error(error.to_string());
        let case = Case::of(&job, self.x_mm, self.seam, &options).map_err(|e| refused(&e))?;
        let solved = verify(&case, &options).map_err(|e| refused(&e))?;
        Ok(JointAnswer::new(solved.result, &solved.outcome))
    }
}

impl JointAnswer {
    fn new(result: Verified, outcome: &Outcome) -> Self {
        let mesh = &outcome.mesh;
        // nodes amid edges carry nothing that corners do not show
        let mut corners: Vec<usize> = mesh.elements.iter().flat_map(|e| e.nodes[..4].to_vec()).collect();
        corners.sort_unstable();
        corners.dedup();
        let place = |node: usize| corners.binary_search(&node).unwrap_or_default();
        let moment = |pass, time_s, t_c: &[f64], moved: &[[f64; 2]], along: &[f64], plastic: &[f64]| Frame {
            pass,
            time_s,
            t: corners.iter().map(|&n| whole(t_c.get(n).copied().unwrap_or_default())).collect(),
            d: corners
                .iter()
                .flat_map(|&n| moved.get(n).copied().unwrap_or_default())
                .map(|u| whole(u * MOVED))
                .collect(),
            s: means(along).map(whole).collect(),
            p: means(plastic).map(|e| whole(e * PLASTIC)).collect(),
        };
        let mut frames: Vec<Frame> = outcome
            .snapshots
            .iter()
            .map(|s| moment(s.pass, Some(s.time_s), &s.t_c, &s.displaced_mm, &s.along_mpa, &s.plastic))
            .collect();
        let cold = vec![20.0; mesh.nodes_mm.len()];
        let last = outcome.passes.len();
        frames.push(moment(last, None, &cold, &outcome.displaced_mm, &outcome.along_mpa, &outcome.plastic));
        Self {
            result,
            nodes: corners.iter().map(|&n| mesh.nodes_mm[n]).collect(),
            elements: mesh.elements.iter().map(|e| [0, 1, 2, 3].map(|k| place(e.nodes[k]))).collect(),
            parts: mesh.elements.iter().map(|e| name(e.part)).collect(),
            frames,
        }
    }
}

fn means(of_points: &[f64]) -> impl Iterator<Item = f64> {
    of_points.chunks(4).map(|four| four.iter().sum::<f64>() / four.len() as f64)
}

fn whole(value: f64) -> i32 {
    value.round() as i32
}

const fn name(part: ElementKind) -> &'static str {
    match part {
        ElementKind::Flange => "flange",
        ElementKind::Web => "web",
        ElementKind::Fillet(Side::Near) => "near",
        ElementKind::Fillet(Side::Far) => "far",
    }
}

/// Length of joint that the arc travels along, mm (a choice: long enough for a stretch amid that its ends do not reach).
const LENGTH_MM: f64 = 300.0;
/// Reach of rolls before and behind the arc, mm (a choice).
const ROLLS_MM: f64 = 60.0;

/// Which joint, and what holds it.
#[derive(Debug, Deserialize)]
pub(crate) struct TravelQuestion {
    job: Value,
    x_mm: f64,
    seam: Seam,
    /// "free", "square" until cold, or "rolls" about the arc.
    grip: Held,
}

/// What holds flange and web.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Held {
    Free,
    Square,
    Rolls,
}

/// A travelled joint.
#[derive(Debug, Serialize)]
pub(crate) struct TravelAnswer {
    /// Frames, and every slice after each pass.
    moved: TravelledCase,
    /// Amid the length after each pass.
    amid: Vec<LayerNumbers>,
    /// What the formulas say of the same joint, free.
    formula: Vec<LayerNumbers>,
}

impl TravelQuestion {
    /// Solves, coarsely.
    ///
    /// # Errors
    /// A job that makes no sense, a place without a weld, slices without equilibrium.
    pub(crate) fn solved(self) -> Result<TravelAnswer, Refused> {
        let job = built(&shape(self.job)?)?;
        let options = Options { meshing: Meshing::Coarse, quick: true, ..Options::default() };
        let refused = |error: &dyn std::fmt::Display| Refused::Error(error.to_string());
        let case = Case::of(&job, self.x_mm, self.seam, &options).map_err(|e| refused(&e))?;
        let mut travel = travel_of(&case, Meshing::Coarse, LENGTH_MM);
        travel.grip = match self.grip {
            Held::Free => Grip::Free,
            Held::Square => Grip::Square,
            Held::Rolls => Grip::Rolls(ROLLS_MM),
        };
        let moved = moving(&case, &options, &travel, &mut |_| true).map_err(|e| refused(&e))?;
        Ok(TravelAnswer { amid: moved.numbers(), formula: formula(&case, false), moved })
    }
}
