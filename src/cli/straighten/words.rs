//! A plan in words that a foreman can follow.

use super::word::{Words, counted, mrad, stops, used, wedge};
use crate::cli::lists::listed;
use crate::cli::show::bare;
use crate::straighten::decide::{Action, Advice, Capability};
use crate::straighten::flange::STRAIN_LIMIT;
use crate::straighten::plan::{OVERSHOT, Price, Push, Step, StraighteningMethod, Work};
use crate::straighten::press::{PushFrom, Rams, Slender};
use crate::tolerance::Quantity;
use crate::units::{Message, System, show};

/// The steps of a way in words; what to look at afterwards only where the next step asks for something else. `tables`: what stands
/// in a table beside them is left out.
pub(crate) fn steps<'s>(steps: &'s [Step], system: System, tables: bool) -> Vec<(&'s Step, Words)> {
    let said = |(i, one): (usize, &'s Step)| {
        let mut words = step(one, system, tables);
        // what is looked at after the next step too is said there
        if steps.get(i + 1).is_none_or(|next| after(next) != after(one)) {
            words.lines.push(after(one));
        }
        (one, words)
    };
    steps.iter().enumerate().map(said).collect()
}

/// What to look at after a step.
fn after(step: &Step) -> String {
    let each = if matches!(step.work, Work::Push(_)) { "After every push" } else { "Then" };
    format!("{each} look at: {}.", step.check_after.join("; "))
}

/// A quantity in a plan.
pub(super) const fn name(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::FlangeToe => "flange toes",
        other => other.name(),
    }
}

/// A chance, "12 %", with a decimal below 10 %.
pub(crate) fn percent(part: f64) -> String {
    let p = 100.0 * part;
    match p {
        p if p < 0.1 => "< 0.1 %".to_owned(),
        p if p < 9.95 => format!("{p:.1} %"),
        p if p < 99.5 => format!("{p:.0} %"),
        p if p <= 99.9 => format!("{p:.1} %"),
        _ => "> 99.9 %".to_owned(),
    }
}

/// What a chance takes in.
pub(crate) const fn ground(welding_alone: bool) -> &'static str {
    if welding_alone { "from welding alone" } else { "from welding, plates and assembly" }
}

/// What to do with a measured piece.
pub(crate) const fn action(action: Action) -> &'static str {
    match action {
        Action::Accept => "accept",
        Action::MeasureAgain => "measure again",
        Action::AskEngineer => "ask the engineer",
        Action::Straighten => "STRAIGHTEN",
    }
}

/// A method.
pub(crate) const fn method(method: StraighteningMethod) -> &'static str {
    match method {
        StraighteningMethod::OneRam => "press, one ram",
        StraighteningMethod::TwoRams => "press, two rams",
        StraighteningMethod::VeeHeat => "vee heats",
        StraighteningMethod::Roller => "rollers or dies",
        StraighteningMethod::LineHeat => "lines of heat on the flange's back",
    }
}

/// Time and money.
pub(super) fn price(price: &Price, placeholders: bool) -> String {
    let mark = if placeholders { " (placeholder rates)" } else { "" };
    format!("about {:.0} min, cost {:.0}{mark}", price.minutes, price.cost)
}

fn step(step: &Step, system: System, tables: bool) -> Words {
    match &step.work {
        Work::Push(push) => pushed(push, system, tables),
        Work::Heats(series) => super::heat_words::heated(series, system, tables),
        Work::Fold { flange, from_mm, to_mm, angle_rad, fold, stops } => Words {
            head: format!(
                "From {} to {}, bend the {} flange back {}, {} each half.",
                show::position(*from_mm, system),
                show::position(*to_mm, system),
                flange.name(),
                if *angle_rad > 0.0 { "away from the web" } else { "toward the web" },
                show::angle(0.5 * angle_rad.abs(), system)
            ),
            lines: vec![
                format!(
                    "Force on each half about {}; rollers add drag, calibrate on the first metre or yard.",
                    show::force(fold.force_n, system)
                ),
                format!(
                    "Strain at the weld toes {:.2} % (our limit {:.1} %). No rolling over undercut that is not repaired.",
                    100.0 * fold.strain,
                    100.0 * STRAIN_LIMIT
                ),
            ]
            .into_iter()
            .chain(short_of(stops, system))
            .collect(),
        },
        Work::Lines { flange, from_mm, to_mm, passes, stops } => {
            let mut lines = vec![
                format!(
                    "Net heat as set in the shop file; one pass bends about {} between both halves (own estimate, half to double).",
                    mrad(passes.line.angle_rad)
                ),
                format!(
                    "Expect {} of camber at mid-length from it; the heated flange becomes the inside of the bow. Camber is decided and planned with it.",
                    show::offset(passes.camber_mm, system)
                ),
            ];
            lines.extend(short_of(stops, system));
            if passes.line.out_of_range {
                lines.push("The torch is too hot for this thickness: the estimate does not hold, try a short length first.".to_owned());
            } else if passes.line.too_hot {
                lines.push("More heat than bends best: move faster.".to_owned());
            }
            Words {
                head: format!(
                    "From {} to {}, draw {} along the back of the {} flange, opposite the web.",
                    show::position(*from_mm, system),
                    show::position(*to_mm, system),
                    counted(passes.count, "line of heat", "lines of heat, one on the other,"),
                    flange.name()
                ),
                lines,
            }
        }
    }
}

/// Where a flange is not bent on.
fn short_of(stops: &[Message], system: System) -> Option<String> {
    let places: Vec<String> = stops.iter().map(|by| by.in_units(system)).collect();
    (!places.is_empty()).then(|| format!("Stop clear of {}: the flange is not bent there.", listed(&places)))
}

/// Where rams and supports stand.
fn stands(push: &Push, system: System) -> String {
    let place = |x: f64| show::position(x, system);
    let layout = &push.layout;
    let rams = match layout.rams {
        Rams::One(at) => format!("one ram at {}", place(at)),
        Rams::Two(a, b) => format!("two rams at {} and {}", place(a), place(b)),
    };
    let [a, b] = layout.supports_mm;
    format!(
        "Push on the {}, {rams}; supports on the {} at {} and {} ({} apart).",
        layout.from.place(),
        opposite(layout.from),
        place(a),
        place(b),
        place(layout.span_mm())
    )
}

/// What keeps the member from going sideways or from twisting.
pub(crate) fn held(push: &Push, system: System) -> String {
    let place = |x: f64| show::position(x, system);
    let s = &push.stability;
    if s.restraints_mm.is_empty() {
        let height = push.ram_height_mm.unwrap_or(0.0);
        return format!(
            "Member on its side. Ram and supports on the edges of both flanges at once, their middle {} from the middle of the outer \
             flange (shear centre at the ram; on a taper the supports at theirs), or the member twists.",
            show::offset(height, system)
        );
    }
    let places: Vec<String> = s.restraints_mm.iter().map(|x| place(*x)).collect();
    format!(
        "Hold both flanges sideways at {}: guides at most {} apart, each good for {} or more, set before the push. Without them the \
         member goes sideways before it yields.",
        places.join(", "),
        place(s.spacing_mm),
        show::force(s.guide_n, system)
    )
}

/// When the work at a place is done, and when it is given up.
fn enough(push: &Push, system: System) -> String {
    let mm = |v: f64| show::offset(v, system);
    let (wanted, band) = (push.wanted_mm(), push.enough_mm());
    format!(
        "Stop once the set is {} to {} in all. After three pushes, or with more: stop, log it, plan anew; do not push back. \
         (By trials on paper about {:.0} in 100 places end above it.)",
        mm((wanted - band).max(0.0)),
        mm(wanted + band),
        100.0 * OVERSHOT
    )
}

fn pushed(push: &Push, system: System, tables: bool) -> Words {
    let place = |x: f64| show::position(x, system);
    let nominal = &push.bent.nominal;
    let mm = |v: f64| show::offset(v, system);
    let gauge = push.layout.rams.gauge_mm();
    let two = matches!(push.layout.rams, Rams::Two(..));
    let mut lines = vec![held(push, system)];
    let pads = if push.layout.from == PushFrom::Inner { "the ram" } else { "the supports" };
    lines.extend(wedge(push.wedge_rad, pads));
    let where_to = if tables {
        "in one column of the table, or travel has passed it".to_owned()
    } else {
        format!("on this line: {}", stops(&push.stops(), system))
    };
    lines.push(format!(
        "Push 1: from a light pre-load until force{} and {} meet {where_to}. Unload; about {} of set is left at {}, of {} wanted, read from \
         the line through both supports.",
        if two { " in each ram" } else { "" },
        if two { "a dial midway between the rams (from the line through both supports)" } else { "travel" },
        mm(push.first_aim_mm()),
        place(gauge),
        mm(push.wanted_mm())
    ));
    if !tables {
        lines.push(later_pushes(push, system));
    }
    lines.push(enough(push, system));
    lines.push(format!(
        "Never above {}{}. Expected: {} to {}, ram travel {}, springback{} {}.",
        show::force(push.most_force_n, system),
        if two { " in a ram" } else { "" },
        bare(&show::force(push.bent.force_n.low, system)),
        show::force(push.bent.force_n.high, system),
        push.travels_mm.iter().map(|t| mm(*t)).collect::<Vec<_>>().join(" and "),
        if two { " at the dial" } else { "" },
        mm(push.elastic_mm_per_n * nominal.force_n)
    ));
    lines.extend(slender(&push.not_compact));
    Words { head: stands(push, system), lines }
}

/// What is to be done once a push has shown what stays of it.
fn later_pushes(push: &Push, system: System) -> String {
    let mm = |v: f64| show::offset(v, system);
    let one = |s: &crate::straighten::plan::SecondPush| {
        let sign = if s.more_mm < 0.0 { "less" } else { "more" };
        format!("set {}: {} {sign}", mm(s.stayed_mm.max(0.0)), mm(s.more_mm.abs()))
    };
    let rule: Vec<String> = push.second_rule().iter().map(one).collect();
    let travel = if matches!(push.layout.rams, Rams::Two(..)) { "the dial's travel" } else { "travel" };
    format!(
        "Push 2, from the new rest: stop where {travel} is the springback of push 1 (its travel less its set), times force over the force \
         of push 1, plus what is missing to {}. Without a force gauge: the travel of push 1 and ({}). Push 3 the same from push 2.",
        mm(push.later_aim_mm()),
        rule.join("; ")
    )
}

/// Plates that may buckle before the set is made, in one sentence.
fn slender(plates: &[Slender]) -> Option<String> {
    let one =
        |s: &Slender| format!("{} (slenderness {:.1}, compact up to {:.1})", s.plate, s.ratio, s.compact);
    let all: Vec<String> = plates.iter().map(one).collect();
    let verb = if all.len() == 1 { "it" } else { "they" };
    (!all.is_empty()).then(|| format!("Watch {}: {verb} may buckle before the set is made.", listed(&all)))
}

/// What the engineer wants to know of a push.
pub(crate) fn reckoned(push: &Push, system: System) -> String {
    let place = |x: f64| show::position(x, system);
    let nominal = &push.bent.nominal;
    let worst = push.worst.map_or(String::new(), |c| {
        format!(
            "; nearest limit {} at the {} at {}: {} used ({})",
            c.what,
            c.place,
            place(c.at_mm),
            used(c.ratio),
            c.clause
        )
    });
    let sideways = if push.stability.restraints_mm.is_empty() {
        String::new()
    } else {
        format!("; sideways {} used ({})", used(push.stability.ratio), push.stability.clause)
    };
    format!(
        "Strain {:.2} %, {:.1} times the curvature at first yield; {} at the calculated travel may leave {} to {} (yield ±10 %, seams \
         with or without their stress); {} stored at {}{worst}{sideways}.",
        100.0 * nominal.strain,
        nominal.mu,
        push.travels_mm.iter().map(|t| show::offset(*t, system)).collect::<Vec<_>>().join(" and "),
        show::offset(push.bent.set_mm.low, system),
        show::offset(push.bent.set_mm.high, system),
        show::energy(push.stored_j, system),
        show::force(push.most_force_n, system)
    )
}

/// The side the supports bear on.
const fn opposite(from: PushFrom) -> &'static str {
    match from {
        PushFrom::Outer => PushFrom::Inner.place(),
        PushFrom::Inner => PushFrom::Outer.place(),
        PushFrom::Near => PushFrom::Far.place(),
        PushFrom::Far => PushFrom::Near.place(),
    }
}

/// "1 push", "2 pushes".
pub(crate) fn reading_of(pushes: usize) -> String {
    counted(pushes as u32, "push", "pushes")
}

/// What a record asks for.
pub(crate) fn process(quantity: Quantity, c: &Capability) -> String {
    let what = name(quantity);
    match c.advice {
        Advice::CentreProcess => {
            let by = match quantity {
                Quantity::Camber => "web cut to the opposite bow",
                Quantity::Sweep => "passes balanced from both sides of the web, the second side sooner",
                _ => "flanges preset, passes balanced",
            };
            format!(
                "The mean {what} is no accident: take it out of the process first ({by}); straightening pays for the same shift on every piece."
            )
        }
        Advice::NarrowScatter => format!(
            "The {what} is centred but scatters too widely (C_p {:.2}): fixture, fit-up gap, tack length, plate flatness.",
            c.cp
        ),
        Advice::AsNeeded => format!("The {what} holds its limit mostly: straighten as needed."),
        Advice::Exception => format!("The {what} holds its limit: straightening is an exception."),
    }
}
