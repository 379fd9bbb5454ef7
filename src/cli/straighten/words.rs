//! A plan in words that a foreman can follow.

use crate::member::Member;
use crate::straighten::decide::{Action, Advice, Capability};
use crate::straighten::heat::{HeatSeries, NEXT_HEAT_C};
use crate::straighten::plan::{Method, Price, Push, Step, Work};
use crate::straighten::press::{PushFrom, Rams};
use crate::tolerance::Quantity;
use crate::units::{System, show};

/// One step: what it is, and what to heed.
pub struct Words {
    pub head: String,
    pub lines: Vec<String>,
    /// What to look at afterwards.
    pub after: String,
}

/// The steps of a way in words; what to look at afterwards only where the next step asks for something else.
pub fn steps<'s>(steps: &'s [Step], member: &Member, system: System) -> Vec<(&'s Step, Words)> {
    let mut all: Vec<(&Step, Words)> = steps.iter().map(|s| (s, step(s, member, system))).collect();
    for i in 1..all.len() {
        if all[i - 1].1.after == all[i].1.after {
            all[i - 1].1.after.clear();
        }
    }
    for (_, words) in &mut all {
        if !words.after.is_empty() {
            let after = std::mem::take(&mut words.after);
            words.lines.push(after);
        }
    }
    all
}

/// A quantity in a plan.
pub const fn name(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::FlangeToe => "flange toes",
        other => other.name(),
    }
}

/// A part that is used, as "84 %".
pub fn used(part: f64) -> String {
    format!("{:.0} %", 100.0 * part)
}

/// Ram travel: whole millimetres, or sixteenths of an inch.
fn travel(mm: f64, system: System) -> String {
    match system {
        System::Si => format!("{mm:.0} mm"),
        System::Us => show::shop_fraction(mm),
    }
}

/// Size of a heat: whole millimetres, or quarters of an inch.
fn size(mm: f64, system: System) -> String {
    const QUARTER_MM: f64 = 6.35;
    match system {
        System::Si => format!("{mm:.0} mm"),
        System::Us => show::shop_fraction((mm / QUARTER_MM).round() * QUARTER_MM),
    }
}

/// A chance, "12 %", with a decimal below 10 %.
pub fn percent(part: f64) -> String {
    let p = 100.0 * part;
    match p {
        p if p < 0.1 => "< 0.1 %".to_owned(),
        p if p < 9.95 => format!("{p:.1} %"),
        p if p < 99.5 => format!("{p:.0} %"),
        p if p <= 99.9 => format!("{p:.1} %"),
        _ => "> 99.9 %".to_owned(),
    }
}

/// What to do with a measured piece.
pub const fn action(action: Action) -> &'static str {
    match action {
        Action::Accept => "accept",
        Action::MeasureAgain => "measure again",
        Action::AskEngineer => "ask the engineer",
        Action::Straighten => "STRAIGHTEN",
    }
}

/// A method.
pub const fn method(method: Method) -> &'static str {
    match method {
        Method::OneRam => "press, one ram",
        Method::TwoRams => "press, two rams",
        Method::VeeHeat => "vee heats",
        Method::Roller => "rollers or dies",
        Method::LineHeat => "lines of heat on the flange's back",
    }
}

/// Time and money.
pub fn price(price: &Price, placeholders: bool) -> String {
    let mark = if placeholders { " (placeholder rates)" } else { "" };
    format!("about {:.0} min, cost {:.0}{mark}", price.minutes, price.cost)
}

fn step(step: &Step, member: &Member, system: System) -> Words {
    let mut words = match &step.work {
        Work::Push(push) => pushed(push, member, system),
        Work::Heats(series) => heated(series, system),
        Work::Fold { flange, angle_rad, fold } => Words {
            after: String::new(),
            head: format!(
                "Bend the {} flange back {} along the whole member, {} each half.",
                flange.name(),
                if *angle_rad > 0.0 { "away from the web" } else { "toward the web" },
                show::angle(0.5 * angle_rad.abs(), system)
            ),
            lines: vec![
                format!(
                    "Force on each half about {}; rollers add drag, calibrate on the first metre.",
                    show::force(fold.force_n, system)
                ),
                format!(
                    "Strain at the weld toes {:.2} % (limit 1.5 %). No rolling over undercut that is not repaired.",
                    100.0 * fold.strain
                ),
            ],
        },
        Work::Lines { flange, passes } => {
            let mut lines = vec![
                format!(
                    "Net heat as set in the shop file; one pass bends about {} between both halves (own estimate, half to double).",
                    mrad(passes.line.angle_rad)
                ),
                format!(
                    "Expect {} of camber from it; the heated flange becomes the inside of the bow. Camber below is planned with it.",
                    show::offset(passes.camber_mm, system)
                ),
            ];
            if passes.line.out_of_range {
                lines.push("The torch is too hot for this thickness: the estimate does not hold, try a short length first.".to_owned());
            } else if passes.line.too_hot {
                lines.push("More heat than bends best: move faster.".to_owned());
            }
            Words {
                after: String::new(),
                head: format!(
                    "Draw {} along the back of the {} flange, opposite the web, over the whole length.",
                    counted(passes.count, "line of heat", "lines of heat, one on the other,"),
                    flange.name()
                ),
                lines,
            }
        }
    };
    let each = if matches!(step.work, Work::Push(_)) { "After every push" } else { "Then" };
    words.after = format!("{each} look at: {}.", step.check_after.join("; "));
    words
}

fn pushed(push: &Push, member: &Member, system: System) -> Words {
    let place = |x: f64| show::position(x, system);
    let layout = &push.layout;
    let rams = match layout.rams {
        Rams::One(at) => format!("one ram at {}", place(at)),
        Rams::Two(a, b) => format!("two rams at {} and {}", place(a), place(b)),
    };
    let [a, b] = layout.supports_mm;
    let head = format!(
        "Push on the {}, {rams}; supports on the {} at {} and {} ({} apart).",
        layout.from.place(),
        opposite(layout.from),
        place(a),
        place(b),
        place(layout.span_mm())
    );
    let nominal = &push.bent.nominal;
    let mm = |v: f64| show::offset(v, system);
    let gauge = layout.rams.gauge_mm();
    let mut lines = vec![format!(
        "First push, to measure: ram travel {} from a light pre-load, let off, read what stayed at {} from the line through both supports. Wanted there: {}.",
        travel(push.first_travel_mm(), system),
        place(gauge),
        mm(nominal.set_mm)
    )];
    let rule: Vec<String> = push
        .second_rule(member)
        .iter()
        .map(|s| {
            let stayed = if s.stayed_mm > 0.0 { mm(s.stayed_mm) } else { "nothing".to_owned() };
            format!("{stayed} stayed → {}", travel(s.travel_mm, system))
        })
        .collect();
    if !rule.is_empty() {
        lines.push(format!(
            "Second push, ram travel from the new rest: {}. Enough stayed: stop. Never more than {} in one push.",
            rule.join("; "),
            travel(push.most_travel_mm(), system)
        ));
    }
    let each = if matches!(layout.rams, Rams::Two(..)) { " in each ram" } else { "" };
    lines.push(format!(
        "Force {} to {}{each}; go by travel, not by force: near the set the force hardly grows. Springback about {}.",
        bare_force(push.bent.force_n.low, system),
        show::force(push.bent.force_n.high, system),
        mm(nominal.springback_mm + nominal.shear_mm)
    ));
    lines.push(format!(
        "At the calculated travel of {} between {} and {} may stay (yield ±10 %, seams with or without their stress).",
        travel(push.travel_mm, system),
        mm(push.bent.set_mm.low),
        mm(push.bent.set_mm.high)
    ));
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
    lines.push(format!(
        "Strain {:.2} %, {:.1} times the curvature at first yield; {:.1} kJ stored at full load{worst}.",
        100.0 * nominal.strain,
        nominal.mu,
        push.stored_j / 1e3
    ));
    for s in &push.not_compact {
        lines.push(format!(
            "Watch the {}: slenderness {:.0}, it may buckle before the set is made (compact up to {:.0}).",
            s.plate, s.ratio, s.compact
        ));
    }
    Words { head, lines, after: String::new() }
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

fn heated(series: &HeatSeries, system: System) -> Words {
    let places: Vec<String> = series
        .places
        .iter()
        .map(|(x, n)| format!("{} ({})", show::position(*x, system), counted(*n, "heat", "heats")))
        .collect();
    let v = &series.vee;
    let where_ = if series.heated.strong() {
        format!(
            "in the web, open end at the {}; then a strip {} wide across that flange",
            series.heated.place(),
            size(series.strip_mm.unwrap_or(v.base_mm), system)
        )
    } else {
        format!("in both flanges, open end at the {}", edges(series.heated))
    };
    Words {
        after: String::new(),
        head: format!(
            "{} along the member: {}.",
            counted(series.count(), "vee heat", "vee heats"),
            places.join(", ")
        ),
        lines: vec![
            format!(
                "Vee {where_}: {:.0}°, {} deep, {} wide at the open end. Heat from the apex to the open end.",
                v.angle_deg,
                size(v.depth_mm, system),
                size(v.base_mm, system)
            ),
            format!(
                "Jack at most {} midway between supports, set before heating and never pumped during it ({} of the plastic moment).",
                show::force(series.jack_n, system),
                used(series.jack_ratio)
            ),
            format!(
                "Never above {}; next heat at a place below {}.",
                show::hottest(series.most_c, system),
                show::hottest(NEXT_HEAT_C, system)
            ),
            format!(
                "Each heat turns about {} ({}). The member shortens by about {}.",
                mrad(series.rotation_rad),
                series.trust,
                show::offset(series.shortening_mm, system)
            ),
        ],
    }
}

fn edges(from: PushFrom) -> &'static str {
    match from {
        PushFrom::Near => "near edges",
        _ => "far edges",
    }
}

fn counted(n: u32, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

fn mrad(rad: f64) -> String {
    format!("{:.1} mrad", 1e3 * rad)
}

fn bare_force(n: f64, system: System) -> String {
    let whole = show::force(n, system);
    whole.split(' ').next().unwrap_or_default().to_owned()
}

/// What a record asks for.
pub fn process(quantity: Quantity, c: &Capability) -> String {
    let what = name(quantity);
    match c.advice {
        Advice::CentreProcess => format!(
            "The mean {what} is no accident: take it out of the process first (web cut to the opposite bow, preset, balanced passes); straightening pays for the same shift on every piece."
        ),
        Advice::NarrowScatter => format!(
            "The {what} is centred but scatters too widely (C_p {:.2}): fixture, fit-up gap, tack length, plate flatness.",
            c.cp
        ),
        Advice::AsNeeded => format!("The {what} holds its limit mostly: straighten as needed."),
        Advice::Exception => format!("The {what} holds its limit: straightening is an exception."),
    }
}
