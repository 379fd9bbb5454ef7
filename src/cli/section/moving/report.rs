//! What the moving arc says, and beside it what the other ways of calculating say.

use super::super::asked::Asked;
use super::super::words::{self, angle, fine, plates_of};
use crate::cli::show::{Columns, Report, plain_text, row_table, wrapped};
use crate::joint_solver::{Lengthwise, StressModel};
use crate::moving_arc::{Foot, Grip, Travel};
use crate::numerics::largest;
use crate::units::{System, show};
use crate::verification::{
    Case, HeldSo, HotHold, LayerNumbers, Options, TravelledCase, formula_so, held_so, moving_mesh, verify,
};
use serde::Serialize;

/// Longest part of a table: so many slices and instants are shown, all are in the JSON.
const MOST_ROWS: usize = 12;

/// The report.
pub(super) fn report(
    Asked { job, options, system }: Asked<'_>,
    case: &Case,
    moved: &TravelledCase,
    beside: &Beside,
    out: &mut Report,
) {
    let travel = &moved.travel;
    out.line(&job.title);
    out.line(format!(
        "{} seam as at {} from the start, {} of it welded by an arc that travels at {}",
        moved.seam.name(),
        show::position(moved.x_mm, system),
        show::plate(travel.length_mm, system),
        show::speed(travel.speed_mm_s, system)
    ));
    out.heading("What was solved", "");
    out.line(format!("  {}, {}", plates_of(&moved.joint, system), words::mesh(moving_mesh(options.meshing))));
    out.line(format!(
        "  {}; {} slices, {} of travel a step",
        held(travel, system),
        travel.slices,
        show::plate(travel.step_mm, system)
    ));
    for (number, pass) in (1..).zip(&moved.outcome.passes) {
        let sides: Vec<&str> = case.layers[number - 1].beads.iter().map(|bead| bead.side.name()).collect();
        out.heading(&format!("After pass {number}, {}", sides.join(" and ")), "along the joint");
        let every = pass.along.len().div_ceil(MOST_ROWS);
        Columns::of(pass.along.iter().skip(every / 2).step_by(every))
            .right("at", |slice| show::plate(slice.x_mm, system))
            .right("cup", |slice| slice.shape.map_or_else(String::new, |shape| angle(shape.cup_rad)))
            .right("tilt", |slice| {
                slice.shape.and_then(|shape| shape.tilt_rad).map_or_else(String::new, angle)
            })
            .right("narrowing", |slice| {
                slice.shape.map_or_else(String::new, |shape| fine(shape.narrowing_mm, system))
            })
            .right("force", |slice| show::force(slice.shrinkage.force_n, system))
            .right("flowed", |slice| show::area(slice.plastic_mm2, system))
            .right("tension", |slice| show::stress(slice.tension_mpa, system))
            .right("Mises", |slice| show::stress(slice.equivalent_mpa, system))
            .put(out);
        side_by_side(beside, &moved.travel, number - 1, system, out);
        turning(pass, system, out);
    }
    let along = moved.outcome.passes.iter().flat_map(|pass| &pass.along);
    out.say_all(words::above_yield(largest(along.map(|slice| slice.tension_mpa)), case.yield_mpa));
    out.say_all(&moved.cautions);
    let work = &moved.outcome.work;
    out.line(format!(
        "\n{}\n{} steps, {} corrections, {} factors, {:.1} s; heat balance {:.5}.",
        wrapped(TRUST),
        work.steps,
        work.corrections,
        work.factorisations,
        moved.outcome.took.as_secs_f64(),
        1.0 + largest(moved.outcome.passes.iter().map(|p| p.energy_balance))
    ))
}

/// Formula, slice and travelling arc in one table.
fn side_by_side(beside: &Beside, travel: &Travel, pass: usize, system: System, out: &mut Report) {
    out.heading("Amid the length", "three ways to calculate it; off by: over the travelling arc");
    let mut rows = row_table(&["", "formula", "off by", "slice", "off by", "travelling arc"], 1..6);
    let [formula, slice, arc] = [&beside.formula, &beside.slice, &beside.arc].map(|by| by.get(pass).copied());
    for (name, of, shown) in QUANTITIES {
        let [formula, slice, arc] = [formula, slice, arc].map(|by| by.and_then(|numbers| of(&numbers)));
        let word = |value: Option<f64>| value.map_or_else(String::new, |value| shown(value, system));
        // what is left of a tilt is too small to divide by
        let off = |value: Option<f64>| match value.zip(arc) {
            Some((value, arc)) if pass == 0 && arc.abs() > 1e-3 => words::percent(value / arc - 1.0),
            _ => String::new(),
        };
        rows.add_row([name.to_owned(), word(formula), off(formula), word(slice), off(slice), word(arc)]);
    }
    rows.put(out);
    out.line(plain_text(&taken_for(travel, beside.formula_tilt_part), 2))
}

/// What formulas and slice take the joint for.
fn taken_for(travel: &Travel, part: f64) -> String {
    let slice = "The slice is held until its weld is solid.";
    let so = held_so(travel);
    if so == HeldSo::FREE {
        return format!("The formulas are those of a free joint in one piece. {slice}");
    }
    let gap = if so.gap_mm > 0.0 && so.hold.gap_can_close() {
        ", and three quarters more while an open gap closes"
    } else {
        ""
    };
    format!(
        "The formulas are those of a joint {}: {part:.2} of a free joint's tilt{gap}, a judgement between calculated and measured joints \
         with ± 50 % (1σ); their cup is left whole. {slice}",
        so.hold.words()
    )
}

/// What is set side by side: its name, its number, how that is shown.
type Quantity = (&'static str, fn(&LayerNumbers) -> Option<f64>, fn(f64, System) -> String);

const QUANTITIES: [Quantity; 4] = [
    ("cup", |n| n.cup_rad, show::turn),
    ("tilt", |n| n.tilt_rad, show::turn),
    ("narrowing", |n| n.narrowing_mm, fine),
    ("force", |n| Some(n.force_n), show::force),
];

/// How mid-length turned while the arc came and went.
fn turning(pass: &crate::moving_arc::PassTravelled, system: System, out: &mut Report) {
    out.heading("Mid-length while the arc comes and goes", "");
    let every = pass.frames.len().div_ceil(MOST_ROWS);
    let frames = pass.frames.iter().rev().step_by(every).collect::<Vec<_>>().into_iter().rev();
    let arc = |arc_mm: f64| match pass.along.last().map_or(0.0, |last| last.x_mm) {
        last_mm if arc_mm > 1.2 * last_mm => "gone".to_owned(),
        _ => show::plate(arc_mm, system),
    };
    Columns::of(frames.filter_map(|frame| Some((frame, frame.slices.get(frame.slices.len() / 2)?))))
        .right("time", |(frame, _)| format!("{:.1} s", frame.time_s))
        .right("arc at", |(frame, _)| arc(frame.arc_mm))
        .right("hottest", |(_, slice)| show::temperature(slice.hottest_c, system))
        .right("near half", |(_, slice)| angle(slice.near_rad))
        .right("far half", |(_, slice)| angle(slice.far_rad))
        .put(out)
}

fn held(travel: &Travel, system: System) -> String {
    let foot = match travel.foot {
        Foot::OnePiece => "web and flange one piece",
        Foot::Touching => "web and flange touching",
        Foot::Apart => "web and flange apart",
    };
    let tacks = match travel.tacks_mm.as_slice() {
        [] => String::new(),
        tacks => {
            let said: Vec<String> = tacks
                .iter()
                .map(|[from, to]| format!("{} to {}", show::plate(*from, system), show::plate(*to, system)))
                .collect();
            format!(", tacked at {}", said.join(", "))
        }
    };
    let grip = match travel.grip {
        Grip::Free => "free".to_owned(),
        Grip::Guided => "web guided".to_owned(),
        Grip::Square => "held square until cold".to_owned(),
        Grip::Rolls(reach) => format!("rolls {} before and behind the arc", show::plate(reach, system)),
    };
    format!("{foot}{tacks}; {grip}")
}

/// What the numbers of this level rest on.
pub(crate) const TRUST: &str = "moving arc: staggered slices joined by their plates, from first principles, nothing fitted, nothing measured. Beside a separate \
                     calculation in three dimensions cups are within 10 % and tilts within 15 % (reference-cases/moving_slices.md says where not: \
                     fillets with so little heat that they hardly melt). Tilt in practice is about 0.6 of a free one (a judgement)";

/// What three ways of calculating say of one joint, pass by pass: the formulas (held as the arc finds it), one slice held until its weld is
/// solid, and the slice amid the length of the travelling arc.
#[derive(Serialize)]
pub(super) struct Beside {
    /// Part of the free tilt that the formulas leave.
    pub formula_tilt_part: f64,
    pub formula: Vec<LayerNumbers>,
    pub slice: Vec<LayerNumbers>,
    pub arc: Vec<LayerNumbers>,
}

impl Beside {
    /// The slice is left out if it cannot be solved.
    pub(super) fn of(case: &Case, moved: &TravelledCase, options: &Options) -> Self {
        let alone = Options {
            hold: HotHold::SOLID,
            lengthwise: Lengthwise::Free,
            model: StressModel::Solid,
            times_s: Vec::new(),
            quick: true,
            ..options.clone()
        };
        let slice = verify(case, &alone)
            .map_or_else(|_| Vec::new(), |one| one.result.passes.iter().map(|pass| pass.section).collect());
        let so = held_so(&moved.travel);
        Self {
            formula_tilt_part: so.hold.tilt_part(),
            formula: formula_so(case, false, so),
            slice,
            arc: moved.numbers(),
        }
    }
}
