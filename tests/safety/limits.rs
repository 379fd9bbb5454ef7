//! What outgrows the machine is refused before it starts; what the model does not cover has no number; a run ends when it is told to.

use super::{changed, complained, demo, desk, printed, says, weldbow};
use serde_json::Value;
use std::fs::{read_dir, write};
use std::path::Path;
use std::process::Output;
use std::time::{Duration, Instant};

#[test]
fn pieces_that_no_memory_holds_are_refused_before_any_is_drawn() {
    let folder = desk();
    let started = Instant::now();
    let scatter = ["scatter", "rafter.toml", "--draws", "8000", "--pieces", "8000"];
    says(folder.path(), &scatter, 2, &["64000000 cases", "GB of memory", "give fewer"]);
    let order = ["order", "order.csv", "--draws", "10000", "--pieces", "1000"];
    says(folder.path(), &order, 2, &["GB of memory", "give fewer"]);
    write(
        folder.path().join("large.toml"),
        "title = \"L\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\n\
         steps = 100000\n[[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\nsteps = 100000\n",
    )
    .unwrap();
    says(
        folder.path(),
        &["study", "large.toml"],
        1,
        &["10000000000 cases", "`--out DIR` keeps rows on disk"],
    );
    assert!(started.elapsed() < Duration::from_secs(20), "{:?}", started.elapsed());
}

/// Both a bow above a fiftieth of the length and a section heated through; each is null with its reason, and no number is printed.
#[test]
fn results_outside_the_model_are_no_numbers() {
    let folder = desk();
    changed(folder.path(), "rafter.toml", "[member]", "[factors]\nforce = 60.0\n\n[member]");
    let said = says(folder.path(), &["predict", "rafter.toml"], 0, &["Outside what this model covers"]);
    assert!(!said.contains("Is it in tolerance?") && !said.contains(" ± "), "{said}");
    let json: Value =
        serde_json::from_str(&printed(&weldbow(folder.path(), &["predict", "rafter.toml", "--json"])))
            .unwrap();
    let outside = json["outside"].as_array().unwrap();
    assert!(!outside.is_empty() && outside.iter().all(|o| o["reason"].is_string()), "{json}");
    for field in outside.iter().flat_map(|o| o["fields"].as_array().unwrap()) {
        assert!(json[field.as_str().unwrap()].is_null(), "{field} of {json}");
    }
    assert!(json["sweep"].is_null(), "the sweep is beyond a fiftieth");
    let sweeps = json["verdicts"].as_array().unwrap().iter().filter(|v| v["quantity"] == "sweep");
    assert!(
        sweeps.into_iter().all(|v| v["verdict"].is_null() && v["value"].is_null()),
        "nothing is judged: {json}"
    );
    says(folder.path(), &["predict", "rafter.toml", "--strict"], 3, &[]);
    says(folder.path(), &["straighten", "rafter.toml"], 1, &["outside what the model covers"]);
    let both = ["predict", "rafter.toml", demo("jobs/light.toml").to_str().unwrap()].map(str::to_owned);
    let both: Vec<&str> = both.iter().map(String::as_str).collect();
    says(folder.path(), &both, 0, &["outside the model"]);
}

/// A job the model says nothing of has no pieces to be judged, and a row of a study says why it has no number.
#[test]
fn whoever_judges_a_prediction_asks_whether_it_is_one() {
    let folder = desk();
    write(
        folder.path().join("force.toml"),
        "title = \"F\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\", \"verdicts.any.beyond\"]\n\
         [[vary]]\nset = \"factors.force\"\nvalues = [1, 60]\n",
    )
    .unwrap();
    let said = ["1 of 2 rows failed", "sweep would be more than a fiftieth of the length"];
    says(folder.path(), &["study", "force.toml", "--out", "out"], 0, &said);
    let rows = std::fs::read_to_string(folder.path().join("out/force.csv")).unwrap();
    let of = |row: usize| rows.lines().nth(row).unwrap().split(',').map(str::to_owned).collect::<Vec<_>>();
    assert!(of(1)[3].parse::<f64>().is_ok() && of(1)[5].is_empty(), "{rows}");
    assert!(of(2)[3].is_empty() && of(2)[4].is_empty() && of(2)[5].contains("a fiftieth"), "{rows}");
    changed(folder.path(), "rafter.toml", "[member]", "[factors]\nforce = 60.0\n\n[member]");
    let said = ["a job outside what the model covers"];
    says(folder.path(), &["order", "order.csv", "--draws", "2", "--pieces", "2"], 1, &said);
    says(folder.path(), &["scatter", "rafter.toml", "--draws", "4", "--pieces", "4"], 1, &said);
}

/// A second pass in the groove of a larger one adds a moment and next to no force: its line of action lay 3e14 mm beside the member.
#[test]
fn a_line_of_action_lies_on_the_member() {
    use weldbow::job::read_text;
    let text = std::fs::read_to_string(demo("jobs/rafter.toml")).unwrap();
    let pass = text.find("[[pass]]").unwrap();
    let repeat = |leg: f64, order: u32| {
        format!(
            "[[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"{leg} mm\"\nheat_input = \"{} kJ/mm\"\norder = {order}\n",
            0.02 * leg * leg
        )
    };
    let mut widest = 0.0_f64;
    for leg in [6.0, 5.9, 5.5, 4.0, 3.0, 2.0] {
        let own = text[pass..].replace("[[pass]]", "[[pass]]\norder = 1");
        let text = format!("{}{own}\n{}{}", &text[..pass], repeat(leg, 2), repeat(leg, 3));
        let job = read_text("repeat.toml", &text).unwrap_or_else(|c| panic!("{c}"));
        for pass in weldbow::prediction::predict(&job).passes {
            let profile = pass.arm_z_profile.iter().map(|p| p[1].abs()).fold(0.0, f64::max);
            widest = widest.max(pass.arm_z_mm.abs()).max(profile);
        }
    }
    println!("the farthest line of action lies {widest:.1} mm off the web, half the flange is 90 mm");
    assert!(widest <= 90.0, "{widest}");
}

/// No thread but the first: a limit on processes as a container sets it.
#[cfg(target_os = "linux")]
#[test]
fn one_thread_is_enough() {
    let folder = desk();
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    let run = |limit: &str| {
        let script = format!("{limit}; exec {} predict rafter.toml", bin.display());
        std::process::Command::new("bash").current_dir(folder.path()).args(["-c", &script]).output().unwrap()
    };
    // more threads than the address space has room for their stacks
    let none = run("export RAYON_NUM_THREADS=5000; ulimit -v 4000000");
    let said = String::from_utf8_lossy(&none.stderr).into_owned();
    assert_eq!(none.status.code(), Some(0), "{said}");
    assert!(!said.contains("panicked"), "{said}");
    assert!(none.stdout == run("true").stdout, "the same, on one thread");
}

/// On a terminal, work of more than a second shows that it goes on; what is printed is the same.
#[cfg(target_os = "linux")]
#[test]
fn long_work_shows_on_a_terminal_that_it_goes_on() {
    let folder = desk();
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    for (arguments, part) in [
        ("section rafter.toml --quick --mesh coarse", "of 2 calculations of a joint"),
        ("choose rafter.toml --shop shop.toml", "looking for welds that hold every limit"),
        ("order order.csv --draws 4 --pieces 4", "of 1 marks"),
        ("page rafter.toml --out page.html", "of 1 jobs"),
    ] {
        let mut on_terminal = std::process::Command::new("script");
        on_terminal.current_dir(folder.path()).env("TERM", "xterm");
        on_terminal.args(["-qec", &format!("{} {arguments}", bin.display()), "/dev/null"]);
        let Ok(shown) = on_terminal.stdin(std::process::Stdio::null()).output() else {
            super::loud("==== PROGRESS WAS NOT LOOKED AT: script is not installed ====");
            return;
        };
        let shown = String::from_utf8_lossy(&shown.stdout).into_owned();
        assert!(shown.contains(part), "{arguments}: {part:?} is not in:\n{shown}");
        let piped = weldbow(folder.path(), &arguments.split(' ').collect::<Vec<_>>());
        assert!(!printed(&piped).contains(part) && complained(&piped).is_empty(), "{}", complained(&piped));
    }
}

#[cfg(unix)]
#[test]
fn an_interrupt_ends_all_studies_of_a_command() {
    let folder = desk();
    for name in ["a", "b", "c"] {
        let text = format!(
            "title = \"{name}\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\n\
             to = \"8 mm\"\nsteps = 1000000\n"
        );
        write(folder.path().join(format!("{name}.toml")), text).unwrap();
    }
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    let mut run = std::process::Command::new(bin)
        .current_dir(folder.path())
        .args(["study", "a.toml", "b.toml", "c.toml", "--out", "out"])
        .stdout(std::process::Stdio::null())
        .stderr(std::process::Stdio::null())
        .spawn()
        .unwrap();
    let begun = Instant::now();
    let there = || std::fs::metadata(folder.path().join("out/a.csv")).map_or(0, |m| m.len());
    while there() < 1000 && begun.elapsed() < Duration::from_secs(60) {
        std::thread::sleep(Duration::from_millis(5));
    }
    std::process::Command::new("kill").args(["-INT", &run.id().to_string()]).status().unwrap();
    assert_eq!(run.wait().unwrap().code(), Some(4));
    let names: Vec<_> = read_dir(folder.path().join("out"))
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .collect();
    assert!(names.iter().all(|n| n.starts_with("a.")), "{names:?}");
}

#[test]
fn two_studies_of_one_name_do_not_share_files_and_do_not_stop_the_others() {
    let folder = desk();
    let text = "title = \"T\"\njob = \"JOB\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\nvalues = [\"5 mm\"]\n";
    std::fs::create_dir(folder.path().join("sub")).unwrap();
    write(folder.path().join("s.toml"), text.replace("JOB", "rafter.toml")).unwrap();
    write(folder.path().join("sub/s.toml"), text.replace("JOB", "../rafter.toml")).unwrap();
    write(folder.path().join("t.toml"), text.replace("JOB", "rafter.toml")).unwrap();
    says(
        folder.path(),
        &["study", "s.toml", "sub/s.toml", "t.toml", "--out", "out"],
        1,
        &["has the same name"],
    );
    assert!(folder.path().join("out/t.csv").exists(), "the third was run");
}

/// Seconds of a core that none of the files below may take, without optimisation (measured: 0.1 to 1.2 s).
#[cfg(unix)]
const MOST_S: f64 = 8.0;

/// What a run says, and the time of a core it took: however busy the machine is with other tests.
#[cfg(unix)]
fn with_its_time(folder: &Path, arguments: &[&str]) -> (Output, f64) {
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    let script = "\"$@\"; status=$?; times > times; exit $status";
    let run = std::process::Command::new("bash")
        .current_dir(folder)
        .args(["-c", script, "bash"])
        .arg(bin)
        .args(arguments)
        .output()
        .unwrap();
    let times = std::fs::read_to_string(folder.join("times")).unwrap();
    // the second line is the time of what the shell ran: user, system
    let user = times.lines().nth(1).and_then(|line| line.split(' ').next()).unwrap();
    let (minutes, seconds) = user.trim_end_matches('s').split_once('m').unwrap();
    (run, 60.0 * minutes.parse::<f64>().unwrap() + seconds.parse::<f64>().unwrap())
}

/// Each of these took more than 18 s where the time grew with the square of the mistakes.
#[cfg(unix)]
#[test]
fn many_mistakes_take_no_longer_than_few() {
    let folder = desk();
    let job = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
    let many = |count: usize, line: &dyn Fn(usize) -> String| (0..count).map(line).collect::<String>();
    let files = [
        ("orders.toml", format!("{job}{}", many(16_000, &|i| format!("[[order]]\nnumber = {i}\n")))),
        ("procedures.toml", format!("{job}{}", many(20_000, &|i| format!("[procedure.p{i}]\n")))),
        ("scatter.toml", format!("{job}[scatter]\n{}", many(30_000, &|i| format!("input-{i} = 1.0\n")))),
        ("keys.toml", many(40_000, &|i| format!("key-{i} = 1\n"))),
        ("piece.csv", format!("{}x [m], camber [mm]\n", many(190_000, &|_| "#a:b\n".to_owned()))),
        ("list.csv", format!("mark,job,quantity\n{}", many(100_000, &|_| "a,b\n".to_owned()))),
        ("columns.csv", format!("{}\n", vec!["column"; 100_000].join(","))),
    ];
    let mut slow = Vec::new();
    for (name, text) in files {
        write(folder.path().join(name), &text).unwrap();
        let arguments: &[&str] = match name {
            "piece.csv" => &["straighten", "rafter.toml", "--measured", name],
            "list.csv" | "columns.csv" => &["order", name],
            _ => &["check", name],
        };
        let (output, took) = with_its_time(folder.path(), arguments);
        println!("{name}: {} kB, {took:.2} s of a core", text.len() / 1000);
        assert_eq!(output.status.code(), Some(1), "{name}: {}", complained(&output));
        assert!(complained(&output).len() < 60_000, "{name}: {} bytes said", complained(&output).len());
        if took > MOST_S {
            slow.push(format!("{name}: {took:.1} s"));
        }
    }
    assert!(slow.is_empty(), "{slow:?}");
}

/// Axes of a million steps that go together were held value by value: 1.6 GB of a file of 7 kB.
#[cfg(target_os = "linux")]
#[test]
fn axes_of_many_steps_take_no_memory() {
    const AXES: usize = 64;
    let folder = desk();
    let job = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
    let pass = |i: usize| {
        format!(
            "[[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"6 mm\"\nprocedure = \"twin-6\"\nfrom = \"{} mm\"\nto = \"{} mm\"\n",
            100 * i,
            100 * (i + 1)
        )
    };
    let passes: String = (0..AXES).map(pass).collect();
    write(folder.path().join("many.toml"), format!("{}{passes}", &job[..job.find("[[pass]]").unwrap()]))
        .unwrap();
    let axis = |i: usize| {
        format!(
            "[[vary]]\nset = \"pass.{i}.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\nsteps = 1000000\ntogether = \"a\"\n"
        )
    };
    let head = "title = \"t\"\njob = \"many.toml\"\ncollect = [\"camber.max_mm\"]\n";
    write(folder.path().join("wide.toml"), format!("{head}{}", (1..=AXES).map(axis).collect::<String>()))
        .unwrap();
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    let script = format!("ulimit -v 1000000; RAYON_NUM_THREADS=1 exec {} study wide.toml", bin.display());
    let run =
        std::process::Command::new("bash").current_dir(folder.path()).args(["-c", &script]).output().unwrap();
    let said = String::from_utf8_lossy(&run.stderr).split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(run.status.code(), Some(1), "{said}");
    assert!(said.contains("1000000 cases") && said.contains("GB of memory"), "{said}");
}

/// A thick short member was solved strip by strip for minutes and then refused.
#[cfg(unix)]
#[test]
fn thick_short_members_are_solved_soon() {
    let folder = desk();
    for (flange, leg) in [("60 mm", "12 mm"), ("190 mm", "3 mm"), ("100 mm", "20 mm")] {
        let plate = format!("[{{ width = \"200 mm\", thickness = \"{flange}\" }}]");
        let pass = |seam: &str| format!("[[pass]]\nseam = \"{seam}\"\nside = \"near\"\nleg = \"{leg}\"\n");
        let job = format!(
            "title = \"Thick\"\n[member]\nlength = \"1.2 m\"\nsteel = \"S355\"\ndepth = [[\"0 m\", \"300 mm\"], [\"1.2 m\", \"300 mm\"]]\n\
             web = [{{ thickness = \"40 mm\" }}]\nouter_flange = {plate}\ninner_flange = {plate}\n{}{}",
            pass("outer"),
            pass("inner")
        );
        write(folder.path().join("thick.toml"), job).unwrap();
        let (output, took) = with_its_time(folder.path(), &["predict", "thick.toml", "--level", "strip"]);
        println!("flanges of {flange}, legs of {leg}: {took:.2} s of a core");
        assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
        assert!(took < 5.0 * MOST_S, "{took} s");
    }
}
