//! Laws of straightening, and plans of pieces on the floor.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]
#![allow(missing_docs)]

use crate::support;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::time::Instant;
use weldbow::member::{Member, Profile, Seam};
use weldbow::straighten::decide::{Action, Delivery, Family, InService, Limits, Situation};
use weldbow::straighten::flange::{LineHeat, Torch, line, passes};
use weldbow::straighten::plan::{
    Block, BlockingLimit, Chosen, Equipment, Goals, HeatTools, Plan, Rates, Records, Roller,
    StraighteningMethod, Task, Way, Work, count, make,
};
use weldbow::straighten::press::{PressLayout, PressSpan, PushFrom, Rams, WeldStress, fit, kink_offset_mm};
use weldbow::straighten::shape::{OutOfStraight, ShapeError, Toes};
use weldbow::tolerance::Quantity;

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 48,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(20_260),
        ..ProptestConfig::default()
    }
}

fn any_member() -> impl Strategy<Value = Member> {
    let plate = (120.0..300.0_f64, 6.0..20.0_f64);
    (5000.0..14_000.0_f64, 300.0..900.0_f64, 300.0..900.0_f64, 4.0..10.0_f64, plate.clone(), plate).prop_map(
        |(length, start, finish, web, outer, inner)| {
            let mut m = support::prismatic(length, (start, web), outer, inner);
            m.depth = Profile::new(vec![(0.0, start), (length, finish)]);
            m
        },
    )
}

fn any_push() -> impl Strategy<Value = (Member, PressLayout)> {
    let from = prop::sample::select(vec![PushFrom::Outer, PushFrom::Inner, PushFrom::Near, PushFrom::Far]);
    (any_member(), 0.3..0.7_f64, from).prop_map(|(m, place, from)| {
        let ends = [0.05 * m.length_mm, 0.95 * m.length_mm];
        let layout = PressLayout { supports_mm: ends, rams: Rams::One(place * m.length_mm), from };
        (m, layout)
    })
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn set_stroke_and_load_find_each_other_again((m, layout) in any_push(), share in 0.1..0.9_f64) {
        let span = PressSpan::new(&m, layout, None).unwrap();
        let wanted = share * span.largest().unwrap().set_mm;
        let push = span.for_set(wanted).unwrap();
        let again = span.for_stroke(push.stroke_mm).unwrap();
        prop_assert!((push.set_mm / wanted - 1.0).abs() < 1e-5, "{} for {wanted}", push.set_mm);
        prop_assert!((again.set_mm / wanted - 1.0).abs() < 1e-4, "{} for {wanted}", again.set_mm);
        let kink = span.for_kink(push.kink_rad).unwrap();
        prop_assert!((kink.set_mm / wanted - 1.0).abs() < 1e-4, "{} for {wanted}", kink.set_mm);
    }

    #[test]
    fn set_grows_with_stroke_and_falls_with_yield((m, layout) in any_push(), share in 0.1..0.9_f64) {
        let span = PressSpan::new(&m, layout, None).unwrap();
        let push = span.for_set(share * span.largest().unwrap().set_mm).unwrap();
        let more = span.set_after_stroke_mm(1.01 * push.stroke_mm);
        let mut strong = m.clone();
        strong.steel.yield_mpa *= 1.05;
        let strong = PressSpan::new(&strong, layout, None).unwrap().set_after_stroke_mm(push.stroke_mm);
        prop_assert!(more > push.set_mm && strong < push.set_mm, "{more} > {} > {strong}", push.set_mm);
    }

    #[test]
    fn weld_stress_lets_a_member_take_a_set_from_the_first_load((m, layout) in any_push()) {
        let clean = PressSpan::new(&m, layout, None).unwrap();
        let welded = PressSpan::new(&m, layout, Some(WeldStress::USUAL)).unwrap();
        let force = 0.8 * clean.first_yield_n();
        let (none, some) = (clean.under(force).unwrap().set_mm, welded.under(force).unwrap().set_mm);
        prop_assert!(none.abs() < 1e-12 && some > 0.0, "{none}, {some}");
        prop_assert!((welded.hinge_n() / clean.hinge_n() - 1.0).abs() < 1e-9, "a hinge forgets the weld");
    }

    #[test]
    fn a_mirror_changes_nothing((m, layout) in any_push()) {
        let mut turned = m.clone();
        let l = m.length_mm;
        turned.depth = Profile::new(m.depth.points().iter().rev().map(|(x, d)| (l - x, *d)).collect());
        let [a, b] = layout.supports_mm;
        let other = PressLayout {
            supports_mm: [l - b, l - a],
            rams: Rams::One(l - layout.rams.gauge_mm()),
            from: layout.from,
        };
        let one = PressSpan::new(&m, layout, None).unwrap();
        let two = PressSpan::new(&turned, other, None).unwrap();
        let set = 0.5 * one.largest().unwrap().set_mm;
        let (p, q) = (one.for_set(set).unwrap(), two.for_set(set).unwrap());
        prop_assert!((p.force_n / q.force_n - 1.0).abs() < 1e-5, "{} and {}", p.force_n, q.force_n);
        prop_assert!((p.kink_at_mm + q.kink_at_mm - l).abs() < 1e-3 * l, "{} and {}", p.kink_at_mm, q.kink_at_mm);
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn kinks_are_found_again_from_the_bow_they_make(
        angles in prop::collection::vec(0.0..4e-3_f64, 3),
        length in 5e3..15e3_f64,
    ) {
        let places = [0.25 * length, 0.5 * length, 0.75 * length];
        let (x, _) = support::arc(length, 1.0);
        let offset = |x: f64| places.iter().zip(&angles).map(|(c, a)| a * kink_offset_mm(x, *c, length)).sum();
        let bow: Vec<f64> = x.iter().map(|x| offset(*x)).collect();
        let found = fit(&x, &bow, length, &places);
        for ((_, got), want) in found.kinks.iter().zip(&angles) {
            prop_assert!((got - want).abs() < 1e-9, "{got} for {want}");
        }
    }

    #[test]
    fn any_piece_gets_a_plan_of_finite_numbers(
        m in any_member(),
        bows in (-60.0..60.0_f64, -60.0..60.0_f64, -1.0..1.0_f64),
        toes in (-8.0..8.0_f64, -8.0..8.0_f64),
    ) {
        let (x, c) = support::arc(m.length_mm, bows.0);
        // an S beside the even bow
        let s: Vec<f64> = x
            .iter()
            .map(|x| bows.1 * (std::f64::consts::TAU * x / m.length_mm).sin() * bows.2)
            .collect();
        let toes = vec![Toes { seam: Seam::Outer, x_mm: 0.5 * m.length_mm, near_mm: toes.0, far_mm: toes.1 }];
        let shape = OutOfStraight::new(m.length_mm, x, c, s, toes).unwrap();
        let plan = make(&task(&m, &shape));
        prop_assert!(plan.cost.is_finite() && plan.minutes.is_finite());
        let wanted = plan.decisions.iter().filter(|d| d.action == Action::Straighten).count();
        prop_assert!(wanted == 0 || !plan.chosen.is_empty() || !plan.blocked.is_empty(), "nothing said");
        for chosen in &plan.chosen {
            let way = &chosen.way;
            let numbers = [way.left_mm, way.left_sd_mm, way.price.expected, way.price.fails];
            prop_assert!(numbers.iter().all(|v| v.is_finite() && *v >= 0.0), "{numbers:?}");
            for step in &way.steps {
                if let Work::Push(p) = &step.work {
                    let b = &p.bent;
                    prop_assert!(b.force_n.low > 0.0 && b.force_n.low <= b.force_n.high);
                    prop_assert!(b.set_mm.low <= b.nominal.set_mm && b.nominal.set_mm <= b.set_mm.high);
                    prop_assert!(b.nominal.mu <= 5.0 && p.worst.is_none_or(|c| c.ratio <= 1.0));
                    let [from, to] = p.layout.supports_mm;
                    prop_assert!(from >= 0.0 && to <= m.length_mm);
                }
            }
        }
    }
}

#[test]
fn a_line_of_heat_on_a_flange_makes_it_the_inside_of_a_bow() {
    let member = uniform(12_000.0);
    let torch = HeatTools::USUAL.torch;
    let camber = |seam| passes(&member, seam, [0.0, 12_000.0], [0.01, 0.0], &torch).unwrap();
    let (outer, inner) = (camber(Seam::Outer), camber(Seam::Inner));
    println!("{} passes: camber {:.2} and {:.2} mm", inner.count, outer.camber_mm, inner.camber_mm);
    // the inner flange shortens, so the middle moves to the outer side
    assert!(inner.camber_mm < 0.0 && (outer.camber_mm + inner.camber_mm).abs() < 1e-9);
    assert!(inner.left_rad.abs() <= 0.5 * inner.line.angle_rad);
}

/// Lines one on the other bend further, but the strip they shorten already stands at its yield strength: the largest governs, as of the
/// runs of one fillet, and five alike bring the camber of one.
#[test]
fn lines_one_on_the_other_bring_the_camber_of_one() {
    let member = uniform(12_000.0);
    let torch = HeatTools::USUAL.torch;
    let of = |angle| passes(&member, Seam::Outer, [0.0, 12_000.0], [angle, 0.0], &torch).unwrap();
    let (one, more) = (of(0.004), of(0.02));
    println!("{} line: {:.3} mm; {} lines: {:.3} mm", one.count, one.camber_mm, more.count, more.camber_mm);
    assert!(one.count == 1 && more.count > 2);
    assert!((more.camber_mm - one.camber_mm).abs() < 1e-9);
}

/// Lines of heat left a member with an accepted camber far out, and no step followed. Camber of 7.0 mm of ±8 ± 0.6 is accepted
/// (8 − 1.645·0.6 = 7.01); the lines on the outer flange bend it further the same way.
#[test]
fn camber_that_lines_of_heat_bring_is_taken_back_or_they_are_not_drawn() {
    let member = uniform(12_000.0);
    let toes =
        [0.0, 6000.0, 12_000.0].map(|x_mm| Toes { seam: Seam::Outer, x_mm, near_mm: 2.8, far_mm: 2.8 });
    let shape = bowed(&member, 7.0, 0.0, toes.to_vec());
    let mut t = task(&member, &shape);
    t.shop.roller = None;
    let plan = make(&t);
    show(&plan);
    let then = plan.camber_then.unwrap();
    println!("camber {:.2} mm after the lines: {:?}", then.value_mm, then.action);
    assert!(plan.decision(Quantity::Camber).unwrap().action == Action::Accept && then.value_mm > 8.0);
    let way = &plan.chosen.iter().find(|c| c.quantity == Quantity::Camber).unwrap().way;
    let left = way.after_mm(&shape.x_mm, &plan.before_mm(&shape, Quantity::Camber));
    assert!(left.iter().all(|mm| mm.abs() < 7.01), "{left:?}");
    // without any way to take it back no line is drawn, and the block says why
    t.shop.press = None;
    t.shop.heat = t.shop.heat.map(|tools| HeatTools { jack_span_mm: 20_000.0, ..tools });
    let plan = make(&t);
    show(&plan);
    assert!(plan.chosen.is_empty() && plan.camber_then.is_none());
    let blocked = plan.blocked.iter().find(|b| b.quantity == Quantity::FlangeToe).unwrap();
    let said = blocked.blocks.iter().map(|b| b.found.to_string()).collect::<Vec<_>>().join("; ");
    assert!(said.contains("would bring the camber from 7.0 mm to") && said.contains("takes back"), "{said}");
}

/// Camber of −20 mm that lines of heat brought to −13.3 mm of ±12 was to be measured again and got no step: only what is accepted needs
/// none. Of ±8 mm ± 0.6, 7.01 mm are accepted and 8.99 mm straightened; the lines bring about 3 mm.
#[test]
fn camber_that_lines_of_heat_leave_near_its_limit_is_straightened() {
    let member = uniform(12_000.0);
    let toes =
        [0.0, 6000.0, 12_000.0].map(|x_mm| Toes { seam: Seam::Outer, x_mm, near_mm: 2.8, far_mm: 2.8 });
    let mut met = 0;
    for camber in (0..16).map(|i| -8.0 - 0.5 * f64::from(i)) {
        let shape = bowed(&member, camber, 0.0, toes.to_vec());
        let mut t = Task { measurements: 1, ..task(&member, &shape) };
        t.shop.roller = None;
        let plan = make(&t);
        let Some(then) = plan.camber_then else { continue };
        let before = plan.decision(Quantity::Camber).unwrap().action;
        println!("{camber} mm {before:?}, then {:.2} mm {:?}", then.value_mm, then.action);
        met += u32::from(before == Action::Straighten && then.action == Action::MeasureAgain);
        let done = plan.chosen.iter().any(|c| c.quantity == Quantity::Camber);
        assert_eq!(done, then.action != Action::Accept, "{camber}");
    }
    assert!(met > 0);
}

/// "Still out > 99.9 %": a tilt of 3.5 mm was taken from the limit of the cup. The cup of 4.5 mm comes to half of its 3 mm; 1.5 mm are
/// left, 15 % of 3 mm scatter with 0.5 mm of reading are 0.67 mm: out beyond 2.2 deviations, one piece in 80.
#[test]
fn a_tilt_takes_nothing_from_the_limit_of_a_cup() {
    let member = support::prismatic(12_000.0, (600.0, 6.0), (240.0, 8.0), (240.0, 8.0));
    let toes =
        [0.0, 6000.0, 12_000.0].map(|x_mm| Toes { seam: Seam::Outer, x_mm, near_mm: 8.0, far_mm: 1.0 });
    let shape = bowed(&member, 0.0, 0.0, toes.to_vec());
    let mut t = task(&member, &shape);
    t.goals =
        Goals { cup: Limits::both(3.0, 0.5), tilt: Limits::both(5.0, 0.5), toe: Limits::NONE, ..goals() };
    let fails = |t: &Task<'_>| {
        let plan = make(t);
        show(&plan);
        plan.chosen.first().map(|c| (c.way.left_mm, c.way.price.fails))
    };
    let (left_mm, out) = fails(&t).unwrap();
    println!("left {left_mm:.2} mm, still out {out:.3}");
    assert!((left_mm - 1.5).abs() < 1e-6 && out < 0.03, "{left_mm}, {out}");
    // of a limit of the toe itself the tilt takes its part: of 4.5 mm it leaves 1 mm, and the cup is bent to half of that
    t.goals.toe = Limits::both(4.5, 0.5);
    let (left_mm, _) = fails(&t).unwrap();
    assert!(left_mm < 0.51, "{left_mm}");
}

/// Steel of 690 MPa noted as ordinary was heated to 650 °C once a procedure was approved: nobody knows what it stands.
#[test]
fn steel_too_strong_to_be_ordinary_is_not_heated_by_its_limit() {
    let mut member = uniform(12_000.0);
    let toes =
        [0.0, 6000.0, 12_000.0].map(|x_mm| Toes { seam: Seam::Outer, x_mm, near_mm: 2.8, far_mm: 2.8 });
    let shape = bowed(&member, 14.0, 0.0, toes.to_vec());
    let heated = |member: &Member, delivery| {
        let mut t = task(member, &shape);
        t.situation = Situation { delivery, approved_procedure: true, ..Situation::USUAL };
        (t.shop.roller, t.shop.press) = (None, None);
        let plan = make(&t);
        show(&plan);
        let of = |b: &Block| b.found.to_string().contains("no temperature limit is known");
        (plan.chosen.len(), plan.blocked.iter().filter(|b| b.blocks.iter().any(of)).count())
    };
    assert_eq!(heated(&member, Delivery::Ordinary), (2, 0));
    assert_eq!(heated(&member, Delivery::Unknown), (0, 2));
    member.steel.yield_mpa = 690.0;
    for delivery in [Delivery::Ordinary, Delivery::NotStated, Delivery::Unknown] {
        assert_eq!(heated(&member, delivery), (0, 2), "{delivery:?}");
    }
}

/// No angle is larger than at the depth that is said to bend best, and on a wide flange the lines reach the limit.
#[test]
fn lines_of_heat_draw_a_wide_flange_to_inside_its_limit() {
    let angle = |heat: f64| line(&Torch { heat_j_per_mm: heat, ..HeatTools::USUAL.torch }, 12.0);
    let all: Vec<LineHeat> = (1..=400).map(|i| angle(5.0 * f64::from(i))).collect();
    let best = all.iter().max_by(|a, b| a.angle_rad.total_cmp(&b.angle_rad)).unwrap();
    println!("bends most at {:.3} of the thickness: {:.2} mrad", best.depth_ratio, 1e3 * best.angle_rad);
    assert!((best.depth_ratio - std::f64::consts::FRAC_PI_4).abs() < 0.01);
    assert!(all.iter().filter(|l| l.too_hot).all(|l| l.angle_rad < best.angle_rad));
    let member = support::prismatic(12_000.0, (600.0, 8.0), (300.0, 12.0), (300.0, 12.0));
    let toes = vec![Toes { seam: Seam::Inner, x_mm: 6000.0, near_mm: 3.9, far_mm: 3.9 }];
    let shape = bowed(&member, 0.0, 0.0, toes);
    let mut t = task(&member, &shape);
    t.shop.roller = None;
    t.goals.toe = Limits::both(3.0, 0.5);
    let plan = make(&t);
    show(&plan);
    let way = &plan.chosen.iter().find(|c| c.quantity == Quantity::FlangeToe).unwrap().way;
    assert!(
        way.method == StraighteningMethod::LineHeat && way.left_mm < 3.0 && way.left_mm > 0.0,
        "{}",
        way.left_mm
    );
}

fn uniform(length: f64) -> Member {
    support::prismatic(length, (600.0, 8.0), (200.0, 12.0), (200.0, 12.0))
}

fn shop() -> Equipment {
    Equipment {
        press: Some(support::press()),
        roller: Some(Roller { bend_mm: 30.0, arm_mm: 80.0, contact_mm: 100.0, most_n: 200e3 }),
        heat: Some(HeatTools::USUAL),
        rates: Rates::PLACEHOLDERS,
    }
}

fn goals() -> Goals {
    Goals {
        camber: Limits::both(8.0, 0.6),
        sweep: Limits::both(8.0, 0.6),
        toe: Limits::both(2.0, 0.2),
        ..Goals::NONE
    }
}

fn task<'a>(member: &'a Member, shape: &'a OutOfStraight) -> Task<'a> {
    Task {
        member,
        shape,
        measurements: 2,
        goals: goals(),
        shop: shop(),
        situation: Situation::USUAL,
        weld: WeldStress::USUAL,
        keep_off_mm: &[],
        attachments: &[],
        stiffeners: &[],
        records: Records::default(),
    }
}

fn bowed(member: &Member, camber: f64, sweep: f64, toes: Vec<Toes>) -> OutOfStraight {
    let (x, c) = support::arc(member.length_mm, camber);
    let (_, s) = support::arc(member.length_mm, sweep);
    OutOfStraight::new(member.length_mm, x, c, s, toes).unwrap()
}

fn show(plan: &Plan) {
    for c in &plan.chosen {
        let (way, price) = (&c.way, c.way.price);
        println!("{:?} by {:?}: left {:.2} ± {:.2} mm", c.quantity, way.method, way.left_mm, way.left_sd_mm);
        println!("  {:.0} min, expected cost {:.0}", price.minutes, price.expected);
        for step in &way.steps {
            match &step.work {
                Work::Push(p) => println!(
                    "  {} {} {:?}: {:.0}–{:.0} kN, set {:.1} mm ({:.1}–{:.1}), mu {:.2}, {:.1} kJ",
                    step.number,
                    step.side,
                    p.layout.rams,
                    p.bent.force_n.low / 1e3,
                    p.bent.force_n.high / 1e3,
                    p.bent.nominal.set_mm,
                    p.bent.set_mm.low,
                    p.bent.set_mm.high,
                    p.bent.nominal.mu,
                    p.stored_j / 1e3
                ),
                other => println!("  {} {} {other:?}", step.number, step.side),
            }
        }
    }
    let blocked = plan.chosen.iter().flat_map(|c| &c.blocked);
    for b in blocked.chain(plan.blocked.iter().flat_map(|b| &b.blocks)) {
        println!("  not {} ({:?}): {}; would help: {}", b.method, b.limit, b.found, b.help);
    }
}

/// What orders count with must be what a piece is planned with.
#[test]
fn counting_and_planning_find_the_same_work() {
    let (level, rafter) = (uniform(12_000.0), support::rafter().member);
    let toes = vec![Toes { seam: Seam::Inner, x_mm: 6000.0, near_mm: 3.0, far_mm: 2.6 }];
    for (member, camber, sweep) in [(&level, 22.0, -25.0), (&level, -11.0, 14.0), (&rafter, 16.0, -21.4)] {
        let shape = bowed(member, camber, sweep, toes.clone());
        let t = task(member, &shape);
        let (planned, counted) = (make(&t), count(&t));
        let work = |plan: &Plan| -> Vec<String> {
            let way = |w: &Way| {
                format!(
                    "{:?}, {} steps, {:?}, {:.9} ± {:.9}",
                    w.method,
                    w.steps.len(),
                    w.price,
                    w.left_mm,
                    w.left_sd_mm
                )
            };
            let one = |c: &Chosen| {
                format!(
                    "{:?} {}; {:?}; {:?}",
                    c.quantity,
                    way(&c.way),
                    c.next_best.as_ref().map(way),
                    c.blocked
                )
            };
            plan.chosen.iter().map(one).chain(plan.blocked.iter().map(|b| format!("{b:?}"))).collect()
        };
        println!("{:#?}", work(&counted));
        assert_eq!(work(&planned), work(&counted));
        assert!((planned.minutes - counted.minutes).abs() < 1e-9 && planned.decisions == counted.decisions);
        assert!(planned.minutes > 0.0);
    }
}

#[test]
fn a_piece_out_in_everything_is_mended_in_the_order_tilt_sweep_camber() {
    let member = uniform(12_000.0);
    let toe = |seam, mm| Toes { seam, x_mm: 6000.0, near_mm: mm, far_mm: mm - 0.4 };
    let toes = vec![toe(Seam::Inner, 3.0), toe(Seam::Outer, 1.0)];
    let shape = bowed(&member, 22.0, -25.0, toes);
    let plan = make(&task(&member, &shape));
    show(&plan);
    let order: Vec<Quantity> = plan.chosen.iter().map(|c| c.quantity).collect();
    assert_eq!(order, [Quantity::FlangeToe, Quantity::Sweep, Quantity::Camber]);
    assert!(plan.blocked.is_empty());
    for chosen in &plan.chosen {
        assert!(chosen.way.left_mm < 4.0, "{:?} leaves {}", chosen.quantity, chosen.way.left_mm);
    }
    let side = |q| plan.chosen.iter().find(|c| c.quantity == q).unwrap().way.steps[0].side;
    assert_eq!(
        side(Quantity::Camber),
        "inner flange",
        "camber toward the inner side is pushed back on the inner flange"
    );
    assert_eq!(side(Quantity::Sweep), "far edges of both flanges");
    let numbers: Vec<usize> = plan.chosen.iter().flat_map(|c| &c.way.steps).map(|s| s.number).collect();
    assert_eq!(numbers, (1..=numbers.len()).collect::<Vec<_>>());
    let text = serde_json::to_value(&plan).unwrap();
    let force = &text["chosen"][1]["way"]["steps"][0]["work"]["push"]["bent"]["force_n"];
    assert!(force["low"].as_f64() < force["high"].as_f64(), "{force}");
    assert!(plan.cautions.iter().any(|c| c.text.to_string().contains("kJ")));
}

#[test]
fn a_straight_piece_gets_no_steps_and_a_doubtful_one_another_measurement() {
    let member = uniform(12_000.0);
    let shape = bowed(&member, 2.0, 7.5, vec![]);
    let once = Task { measurements: 1, ..task(&member, &shape) };
    let plan = make(&once);
    assert!(plan.chosen.is_empty() && plan.blocked.is_empty());
    let action = |q| plan.decisions.iter().find(|d| d.quantity == q).unwrap().action;
    assert_eq!((action(Quantity::Camber), action(Quantity::Sweep)), (Action::Accept, Action::MeasureAgain));
}

#[test]
fn a_thin_web_in_a_short_press_is_blocked_by_its_web_and_the_plan_says_what_helps() {
    let member = support::prismatic(12_000.0, (600.0, 4.0), (200.0, 10.0), (200.0, 10.0));
    let shape = bowed(&member, 22.0, 0.0, vec![]);
    let mut t = task(&member, &shape);
    t.shop.heat = None;
    let plan = make(&t);
    show(&plan);
    assert!(plan.chosen.is_empty());
    let blocks = &plan.blocked[0].blocks;
    let one = blocks.iter().find(|b| b.method == "press, one ram").unwrap();
    assert!(one.limit == BlockingLimit::Plates && one.help.to_string().contains("two rams"), "{one:?}");
    assert!(blocks.iter().any(|b| b.limit == BlockingLimit::NoTool));
}

#[test]
fn refused_work_is_not_planned() {
    let member = uniform(12_000.0);
    let shape = bowed(&member, 22.0, 0.0, vec![]);
    for situation in [
        Situation { service: InService::FractureCritical, ..Situation::USUAL },
        Situation { delivery: Delivery::QuenchedTempered, ..Situation::USUAL },
        Situation { cracks: true, approved_procedure: true, ..Situation::USUAL },
    ] {
        let plan = make(&Task { situation, ..task(&member, &shape) });
        assert!(plan.chosen.is_empty() && !plan.refusals.is_empty(), "{situation:?}");
        assert!(plan.blocked[0].blocks.iter().all(|b| b.limit == BlockingLimit::Refused), "{situation:?}");
    }
}

#[test]
fn cold_steel_leaves_heat_and_galvanised_steel_the_press() {
    let member = uniform(12_000.0);
    let shape = bowed(&member, 0.0, 25.0, vec![]);
    let method = |situation| {
        let plan = make(&Task { situation, ..task(&member, &shape) });
        show(&plan);
        plan.chosen[0].way.method
    };
    assert_eq!(method(Situation { steel_c: 0.0, ..Situation::USUAL }), StraighteningMethod::VeeHeat);
    assert_ne!(method(Situation { galvanised: true, ..Situation::USUAL }), StraighteningMethod::VeeHeat);
}

#[test]
fn a_shifted_family_is_told_to_change_the_process_and_what_it_saves() {
    let member = uniform(12_000.0);
    let shape = bowed(&member, 22.0, 0.0, vec![]);
    let camber = Some(Family { mean: 6.0, sd: 3.0, pieces: Some(25) });
    let plan = make(&Task { records: Records { camber, sweep: None }, ..task(&member, &shape) });
    let found = plan.process[0];
    println!("{found:?}");
    assert_eq!(found.capability.advice, weldbow::straighten::decide::Advice::CentreProcess);
    assert!(found.saved_a_piece.unwrap() > 0.0);
}

#[test]
fn two_rams_strain_less_than_one_for_the_same_set() {
    let member = uniform(10_000.0);
    let one = PressSpan::new(&member, PressLayout::centred(5e3, 10e3, PushFrom::Outer), None).unwrap();
    let two = PressSpan::new(&member, PressLayout::pair(5e3, 10e3, 3.3e3, PushFrom::Outer), None).unwrap();
    let (a, b) = (one.for_set(8.0).unwrap().strain, two.for_set(8.0).unwrap().strain);
    assert!(b < 0.5 * a, "{b} against {a}");
}

#[test]
fn bad_readings_are_named() {
    let bad = |x: Vec<f64>, c: Vec<f64>| {
        OutOfStraight::new(9e3, x, c.clone(), vec![0.0; c.len()], vec![]).unwrap_err()
    };
    assert!(matches!(bad(vec![0.0, 9e3], vec![0.0; 2]), ShapeError::TooFew { .. }));
    assert!(matches!(bad(vec![0.0, 5e3, 5e3], vec![0.0; 3]), ShapeError::NotRising { index: 2, .. }));
    assert!(matches!(bad(vec![0.0, 5e3, 9.1e3], vec![0.0; 3]), ShapeError::OffMember { .. }));
    assert!(matches!(bad(vec![0.0, 5e3, 9e3], vec![0.0, f64::NAN, 0.0]), ShapeError::NotFinite { index: 1 }));
    assert!(matches!(bad(vec![0.0, 5e3, 9e3], vec![0.0; 2]), ShapeError::Uneven { .. }));
}

#[test]
fn a_tapered_member_is_planned_too_and_quickly() {
    let mut member = uniform(12_000.0);
    member.depth = Profile::new(vec![(0.0, 400.0), (12_000.0, 800.0)]);
    let shape = bowed(&member, 22.0, 25.0, vec![]);
    let started = Instant::now();
    let plan = make(&task(&member, &shape));
    println!("planned in {:?}", started.elapsed());
    show(&plan);
    assert_eq!(plan.chosen.len(), 2);
}
