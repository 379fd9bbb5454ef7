use super::*;
use crate::member::Seam;
use crate::section::{
    self, Fineness, Joint, Lengthwise, Model, Root, SectionSteel, Sequence, Settings, ThermalTable,
};
use crate::welding::{Side, Wait};

/// Flange width and thickness, web and its height, leg, heat of each side, yield.
const JOINTS: [[f64; 7]; 4] = [
    [200.0, 12.0, 8.0, 150.0, 6.0, 1200.0, 355.0],
    [200.0, 12.0, 8.0, 150.0, 6.0, 600.0, 355.0],
    [200.0, 6.0, 8.0, 150.0, 6.0, 1000.0, 355.0],
    [200.0, 32.0, 8.0, 150.0, 6.0, 1000.0, 355.0],
];

fn referee(joint: [f64; 7], held: bool, model: Model, fineness: Fineness) -> [f64; 2] {
    let [width, flange, web, stub, leg, heat, yield_mpa] = joint;
    let joint = Joint {
        flange_width_mm: width,
        flange_mm: flange,
        web_mm: web,
        web_stub_mm: stub,
        near_leg_mm: Some(leg),
        far_leg_mm: Some(leg),
        root: Root::Tied,
    };
    let settings = Settings {
        model,
        release_c: None,
        lengthwise: if held { Lengthwise::Held } else { Lengthwise::Free },
        ..Settings::STANDARD
    };
    let s = Sequence::of_joint(&joint, fineness, SectionSteel::hot(yield_mpa), settings).unwrap();
    let s = s
        .weld(&joint, &[(Side::Near, heat)], Wait::Cold)
        .unwrap()
        .weld(&joint, &[(Side::Far, heat)], Wait::Cold)
        .unwrap();
    let out = section::run(&s).unwrap();
    [0, 1].map(|k| out.passes[k].shrinkage.force_n / heat)
}

fn strip(joint: [f64; 7], settings: StripSettings) -> StripOutcome {
    let [width, flange, web, stub, leg, heat, yield_mpa] = joint;
    let section = StripSection {
        depth_mm: stub,
        web_mm: web,
        flanges_mm: [Some((width, flange)), None],
        legs_mm: [[None; 2]; 2],
    };
    let turns = [Side::Near, Side::Far]
        .map(|side| Turn::cold(vec![Bead { seam: Seam::Outer, side, leg_mm: leg, heat_j_per_mm: heat }]));
    weld(&StripJob::new(section, SectionSteel::hot(yield_mpa), turns.to_vec(), settings), &TABLE).unwrap()
}

static TABLE: std::sync::LazyLock<ThermalTable> = std::sync::LazyLock::new(ThermalTable::steel);

#[test]
fn look() {
    for joint in JOINTS {
        for held in [true, false] {
            let heat = joint[5];
            let r = referee(joint, held, Model::Fibres, Fineness::STANDARD);
            println!("{joint:?} held {held}: section fibres {r:.1?}");
            let base = StripSettings { held, ..StripSettings::STANDARD };

            let cut = |reach, per_leg, even, growth| StripSettings {
                shape: Shape::Plates(Cut { reach, fineness: Fineness { per_leg, even, growth } }),
                pulse_steps: 4,
                growth: 1.4,
                ..base
            };
            for (name, st) in [
                ("std", base),
                ("1.5 2 3 1.5", cut(1.5, 2, 3, 1.5)),
                ("1.5 4 2 1.5", cut(1.5, 4, 2, 1.5)),
                ("1.5 4 4 1.5", cut(1.5, 4, 4, 1.5)),
                ("1.5 4 2 1.8", cut(1.5, 4, 2, 1.8)),
                ("1.5 4 4 1.2", cut(1.5, 4, 4, 1.2)),
                ("1.0 4 4 1.4", cut(1.0, 4, 4, 1.4)),
                ("2 8 6 1.2", cut(2.0, 8, 6, 1.2)),
            ] {
                let t = std::time::Instant::now();
                let o = strip(joint, st);
                let f: Vec<f64> = o.turns.iter().map(|t| t.at(Seam::Outer).force_n / heat).collect();
                println!(
                    "  {name:10} {f:.1?} {:?} {:?} e {:.1e} {:?}",
                    t.elapsed(),
                    o.effort,
                    o.turns[1].energy_balance,
                    o.melted[0]
                );
            }
        }
    }
}
