//! The prediction against the tolerances the job names.

use super::Job;
use super::aim::facts_of;
use super::result::{Bow, FlangeAngles, Twist};
use super::twist::{deepest_over_mm, over_mm};
use crate::member::Seam;
use crate::numerics::between;
use crate::tolerance::{Applies, Band, Facts, Limit, Quantity, Rule, Stiffened, Trust, Verdict};
use crate::welding::{Attachment, AttachmentKind};

/// What is judged.
#[derive(Clone, Copy)]
pub(super) struct JudgedShape<'a> {
    /// In-plane bow.
    pub camber: &'a Bow,
    /// Lateral bow.
    pub sweep: &'a Bow,
    /// Turn.
    pub twist: &'a Twist,
    /// Shortening and two standard deviations of it, mm.
    pub shortening: (f64, f64),
    /// Flanges.
    pub flanges: &'a [FlangeAngles],
    /// Waves of the web: place, half-height and two standard deviations, mm; may be empty where [`judges`] says no.
    pub waves: &'a [[f64; 3]],
}

/// Whether a set of the job limits a quantity.
pub(crate) fn judges(job: &Job, quantity: Quantity) -> bool {
    let own = job.own_limits.iter().any(|own| own.quantity == quantity);
    own || job.tolerances.iter().any(|set| set.limits_of(quantity).next().is_some())
}

/// A predicted size to be judged.
#[derive(Clone, Copy)]
pub(super) struct Sized<'a> {
    pub(super) value_mm: f64,
    spread_mm: f64,
    at_mm: f64,
    place: Place<'a>,
}

#[derive(Clone, Copy)]
enum Place<'a> {
    Along,
    Straight,
    Uncut,
    Web,
    Flange(&'a FlangeAngles),
}

impl Place<'_> {
    const fn words(self) -> &'static str {
        match self {
            Self::Along => "along the member",
            Self::Straight => "if the web is cut straight",
            Self::Uncut => "if plates are cut to the finished length",
            Self::Web => "web",
            Self::Flange(f) => match f.flange {
                Seam::Outer => "outer flange",
                Seam::Inner => "inner flange",
            },
        }
    }
}

/// Every limit of every set, then the user's own, in the order the job names them, of the quantities that `are` judged, put into `out`.
pub(super) fn verdicts(
    job: &Job,
    shown: JudgedShape<'_>,
    are: impl Fn(Quantity) -> bool,
    out: &mut Vec<Verdict>,
) {
    out.clear();
    judge(job, shown, are, |set, limit, quantity, size, band| {
        let made_up = if quantity == Quantity::Camber { job.aimed_more_mm(size.at_mm) } else { 0.0 };
        out.push(Verdict { quantity, made_up, ..verdict(set, limit, size, band) });
    });
}

/// The same, each shown as set, limit, quantity, worst size and its band.
pub(super) fn judge(
    job: &Job,
    shown: JudgedShape<'_>,
    are: impl Fn(Quantity) -> bool,
    mut take: impl FnMut(&'static str, &'static Limit, Quantity, Sized<'_>, Band),
) {
    let mut sizes =
        Vec::with_capacity(shown.waves.len().max(shown.camber.profile.len()).max(shown.flanges.len()));
    let (mut gathered, of_member) = (None, facts_of(job));
    let mut here = of_member;
    let mut worst = |quantity, band: &dyn Fn(&Facts, f64) -> Option<Band>| {
        if gathered.replace(quantity) != Some(quantity) {
            sizes.clear();
            gather(job, quantity, shown, &mut sizes);
            here = of_member;
        }
        let mut worst: Option<(f64, Sized<'_>, Band)> = None;
        for size in &sizes {
            stand_at(job, size, &mut here);
            let Some(band) = band(&here, size.at_mm) else { continue };
            let left = margin(size, band);
            if worst.is_none_or(|worst| left.total_cmp(&worst.0).is_lt()) {
                worst = Some((left, *size, band));
            }
        }
        worst
    };
    for set in &job.tolerances {
        for limit in set.limits().iter().filter(|limit| are(limit.quantity)) {
            let band = |facts: &Facts, x_mm: f64| limit.band_at_mm(facts, x_mm);
            if let Some((_, size, band)) = worst(limit.quantity, &band) {
                take(set.name(), limit, limit.quantity, size, band);
            }
        }
    }
    for own in job.own_limits.iter().filter(|own| are(own.quantity)) {
        if let Some((_, size, band)) = worst(own.quantity, &|_, _| Some(Band::both(own.limit_mm))) {
            take("own", &OWN, own.quantity, size, band);
        }
    }
}

/// One size of a drawn piece, with its limits.
#[derive(Debug, Clone, Copy)]
pub(crate) struct JudgedSize {
    /// What it is.
    pub(crate) quantity: Quantity,
    /// With its sign, mm.
    pub(crate) value_mm: f64,
    /// Allowed to either side.
    pub(crate) band: Band,
}

/// Every verdict as a size alone, put into `out`.
pub(super) fn sizes(job: &Job, shown: JudgedShape<'_>, out: &mut Vec<JudgedSize>) {
    out.clear();
    judge(
        job,
        shown,
        |_| true,
        |_, _, quantity, size, band| {
            out.push(JudgedSize { quantity, value_mm: size.value_mm, band });
        },
    );
}

/// What a shape has where each of these verdicts stands, mm: a verdict of another level of model, or one that counted what it is unsure by, may
/// have chosen another place than this shape alone would.
pub(super) fn sizes_where(job: &Job, shown: JudgedShape<'_>, verdicts: &[Verdict]) -> Vec<f64> {
    let mut sizes = Vec::new();
    let mut of = |verdict: &Verdict| {
        sizes.clear();
        gather(job, verdict.quantity, shown, &mut sizes);
        let away = |size: &&Sized<'_>| (size.at_mm - verdict.at_mm).abs();
        let there = sizes.iter().filter(|size| size.place.words() == verdict.place);
        there.min_by(|a, b| away(a).total_cmp(&away(b))).map_or(verdict.value, |size| size.value_mm)
    };
    verdicts.iter().map(&mut of).collect()
}

/// Stands for the user's own limits in the table.
static OWN: Limit = Limit {
    standard: "own limit",
    edition: "",
    clause: "job file",
    quantity: Quantity::Camber,
    words: "as given",
    applies: Applies::Always,
    rule: Rule::Fixed { mm: 0.0 },
    trust: Trust::Read,
    source: "job file",
};

/// What is left to the limit; of a web, which is flat on the mean, less what it may wave.
fn margin(size: &Sized<'_>, band: Band) -> f64 {
    let may = if matches!(size.place, Place::Web) { size.spread_mm } else { 0.0 };
    band.side_mm(size.value_mm) - size.value_mm.abs() - may
}

/// A turn as offset of the section, mm: the largest on the mean against either end, with a ± that reaches as far as the member may turn anywhere,
/// and the place of that. A mean of next to nothing is largest at no place of its own, and nobody says which end a member is held by.
fn turned<'a>(job: &Job, twist: &Twist) -> Option<Sized<'a>> {
    let finish_rad = twist.profile.last()?[1];
    let (mut value_mm, mut at_mm, mut may_mm) = (0.0_f64, 0.0, f64::NEG_INFINITY);
    let deepest_mm = deepest_over_mm(&job.member);
    let most_rad = |&[_, turn_rad]: &[f64; 2]| turn_rad.abs().max((turn_rad - finish_rad).abs());
    let mut look = |k: usize, [x_mm, turn_rad]: [f64; 2]| {
        let over = over_mm(job, x_mm);
        for (end_rad, two_s_rad) in [0.0, finish_rad].iter().zip(&twist.profile_2s_rad) {
            let offset_mm = over * (turn_rad - end_rad);
            let may = offset_mm.abs() + over * two_s_rad.get(k).copied().unwrap_or_default();
            value_mm = if offset_mm.abs() > value_mm.abs() { offset_mm } else { value_mm };
            (at_mm, may_mm) = if may > may_mm { (x_mm, may) } else { (at_mm, may_mm) };
        }
        may_mm
    };
    let turned = || twist.profile.iter().enumerate();
    if twist.profile_2s_rad[0].is_empty() {
        // of a drawn piece nothing is unsure: beside the station that turns most, most turn too little to be the largest however deep the member is
        let far = turned().fold((0, -1.0), |most: (usize, f64), (k, at)| {
            let rad = most_rad(at);
            if rad > most.1 { (k, rad) } else { most }
        });
        let most_mm = look(far.0, twist.profile[far.0]);
        for (k, at) in turned().filter(|(k, at)| *k != far.0 && most_rad(at) * deepest_mm >= most_mm) {
            look(k, *at);
        }
    } else {
        turned().for_each(|(k, at)| {
            look(k, *at);
        });
    }
    Some(Sized { value_mm, spread_mm: may_mm - value_mm.abs(), at_mm, place: Place::Along })
}

fn verdict(set: &'static str, limit: &Limit, size: Sized<'_>, band: Band) -> Verdict {
    let allowed = band.side_mm(size.value_mm);
    Verdict {
        set,
        quantity: limit.quantity,
        value: size.value_mm,
        value_2s: size.spread_mm,
        made_up: 0.0,
        limit: allowed,
        band,
        margin: allowed - size.value_mm.abs(),
        standard: limit.standard,
        edition: limit.edition,
        clause: limit.clause,
        rule: limit.words,
        trust: limit.trust,
        verdict: band.judge(size.value_mm, size.spread_mm),
        likely: None,
        drawn: None,
        place: size.place.words(),
        at_mm: size.at_mm,
    }
}

/// What is judged under a quantity: one size, or several of which the worst counts.
fn gather<'a>(job: &Job, quantity: Quantity, shown: JudgedShape<'a>, out: &mut Vec<Sized<'a>>) {
    let JudgedShape { camber, sweep, twist, shortening, flanges, waves } = shown;
    let along = |bow: &Bow| Sized {
        value_mm: bow.max_mm,
        spread_mm: bow.max_2s_mm,
        at_mm: bow.at_mm,
        place: Place::Along,
    };
    let mut each = |size: fn(&FlangeAngles) -> (f64, f64)| {
        out.extend(flanges.iter().map(|f| {
            let (value_mm, spread_mm) = size(f);
            Sized { value_mm, spread_mm, at_mm: f.x_mm, place: Place::Flange(f) }
        }));
    };
    match quantity {
        Quantity::Camber if job.wanted_camber.is_some() => out.extend(deviations(job, camber)),
        Quantity::Camber => out.push(along(camber)),
        Quantity::Sweep => out.push(along(sweep)),
        Quantity::FlangeTilt => each(|f| (0.5 * f.width_mm * f.tilt_rad, 0.5 * f.width_mm * f.tilt_2s_rad)),
        Quantity::FlangeCup => each(|f| (0.5 * f.width_mm * f.cup_rad, 0.5 * f.width_mm * f.cup_2s_rad)),
        Quantity::FlangeToe => each(|f| {
            let larger = if f.near_toe_mm.abs() >= f.far_toe_mm.abs() { f.near_toe_mm } else { f.far_toe_mm };
            (larger, f.toe_2s_mm)
        }),
        Quantity::WebFlatness => out.extend(waves.iter().map(|[at_mm, value_mm, spread_mm]| Sized {
            value_mm: *value_mm,
            spread_mm: *spread_mm,
            at_mm: *at_mm,
            place: Place::Web,
        })),
        Quantity::Twist => out.extend(turned(job, twist)),
        Quantity::Length => out.push(Sized {
            value_mm: -shortening.0,
            spread_mm: shortening.1,
            at_mm: job.member.length_mm,
            place: Place::Uncut,
        }),
    }
}

/// Camber less the wanted camber between the ends, + when there is more than wanted: at stations, at kinks, and wherever it is flat.
fn deviations<'a>(job: &Job, camber: &Bow) -> impl Iterator<Item = Sized<'a>> {
    let (length, profile) = (job.member.length_mm, &camber.profile);
    let places: Vec<f64> = profile.iter().map(|station| station[0]).collect();
    // of a drawn piece nothing is unsure
    let spread = move |x| {
        let of = |i: usize| camber.profile_2s_mm.get(i).copied().unwrap_or_default();
        between(&places, of, x)
    };
    let full = job.wanted_camber.map_or(0.0, |wanted| wanted.offset_mm(0.5 * length, length));
    let peaks = job.off_wanted(&camber.shape).peaks().into_iter();
    peaks.filter(move |(_, at)| *at > 0.0 && *at < length).map(move |(off, at_mm)| Sized {
        value_mm: off * full.signum(),
        spread_mm: spread(at_mm),
        at_mm,
        place: Place::Straight,
    })
}

/// Puts in the flange or the web panel that is judged.
fn stand_at(job: &Job, size: &Sized, facts: &mut Facts) {
    match size.place {
        Place::Flange(f) => (facts.flange_width_mm, facts.flange_mm) = (f.width_mm, f.thickness_mm),
        Place::Web => put_web(job, size.at_mm, facts),
        _ => {}
    }
}

/// Puts in the web panel around a place.
fn put_web(job: &Job, x_mm: f64, facts: &mut Facts) {
    let stiff = |a: &&Attachment| {
        a.along_web() > 0.0 && matches!(a.kind, AttachmentKind::StiffenerPair | AttachmentKind::Stiffener)
    };
    let before = job.attachments.iter().filter(stiff).rfind(|a| a.at_mm <= x_mm);
    let after = job.attachments.iter().filter(stiff).find(|a| a.at_mm > x_mm);
    let single = |a: Option<&Attachment>| a.is_some_and(|a| a.kind == AttachmentKind::Stiffener);
    facts.stiffened = match (before, after) {
        (None, None) => Stiffened::Bare,
        _ if single(before) || single(after) => Stiffened::OneSide,
        _ => Stiffened::BothSides,
    };
    let apart = after.map_or(job.member.length_mm, |a| a.at_mm) - before.map_or(0.0, |a| a.at_mm);
    (facts.web_depth_mm, facts.web_mm) = (job.member.depth.depth_mm(x_mm), job.member.web_mm_at(x_mm));
    facts.panel_mm = facts.web_depth_mm.min(apart);
}
