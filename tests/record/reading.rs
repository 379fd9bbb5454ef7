//! What a shop has is read: tables of any country, workbooks, folders, marks; what is wrong with it is named.

use super::*;
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};

#[test]
fn a_table_of_another_country_says_what_its_csv_says() {
    let csv = run(&["calibrate", RECORD, "--json"]);
    // the same table with the semicolons and the decimal commas of another country is the same record
    let text = read_to_string(RECORD).unwrap().replace("../jobs/", "jobs/");
    let other = |line: &str| {
        let cells = line.split(',').map(|cell| match cell.parse::<f64>() {
            Ok(_) => cell.replace('.', ","),
            Err(_) => cell.to_owned(),
        });
        cells.collect::<Vec<_>>().join(";")
    };
    let text: Vec<String> =
        text.lines().map(|l| if l.starts_with('#') { l.to_owned() } else { other(l) }).collect();
    let is_decimal = |cell: &str| cell.contains(',') && cell.replace(',', ".").parse::<f64>().is_ok();
    assert!(
        text.iter().filter(|line| line.split(';').filter(|cell| is_decimal(cell)).count() > 1).count() > 10,
        "{text:?}"
    );
    let folder = with_jobs();
    let path = folder.path().join("record.csv");
    write(&path, text.join("\n")).unwrap();
    assert_eq!(run(&["calibrate", path.to_str().unwrap(), "--json"]), csv);
}

/// The record as a workbook, written by a library of its own: numbers as numbers, days as days.
fn workbook(path: &Path) {
    let mut book = Workbook::new();
    let day = Format::new().set_num_format("yyyy-mm-dd");
    let sheet = book.add_worksheet();
    let mut head: Vec<String> = Vec::new();
    for (row, line) in (0_u32..).zip(read_to_string(RECORD).unwrap().lines()) {
        if line.starts_with('#') {
            sheet.write(row, 0, line).unwrap();
            continue;
        }
        let cells: Vec<&str> = line.split(',').collect();
        if head.is_empty() {
            head = cells.iter().map(|c| (*c).to_owned()).collect();
        }
        for (column, cell) in (0_u16..).zip(&cells) {
            match (head[usize::from(column)].as_str(), cell.parse::<f64>()) {
                (_, Ok(number)) => sheet.write(row, column, number).map(|_| ()).unwrap(),
                ("date", _) if *cell != "date" => {
                    let date = ExcelDateTime::parse_from_str(cell).unwrap();
                    sheet.write_with_format(row, column, &date, &day).map(|_| ()).unwrap();
                }
                (_, _) if cell.is_empty() => {}
                _ => sheet.write(row, column, cell.replace("../jobs/", "jobs/")).map(|_| ()).unwrap(),
            }
        }
    }
    book.add_worksheet().write(0, 0, "notes of the foreman, not read").unwrap();
    book.save(path).unwrap();
}

#[test]
fn a_workbook_says_what_its_csv_says() {
    let csv = run(&["calibrate", RECORD, "--json"]);
    let folder = with_jobs();
    let path = folder.path().join("record.xlsx");
    workbook(&path);
    assert_eq!(run(&["calibrate", path.to_str().unwrap(), "--json"]), csv);
}

/// A shop knows its members by their marks: as job files of that name beside the record, or as rows of the order.
#[test]
fn a_mark_finds_its_job_beside_the_record_and_in_the_order() {
    let csv: Value = serde_json::from_str(&run(&["calibrate", RECORD, "--json"])).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let (mut marked, mut order) = (read_to_string(RECORD).unwrap(), String::from("mark,job,week,family\n"));
    for (name, mark) in JOBS {
        let job = std::fs::canonicalize(format!("studies/jobs/{name}.toml")).unwrap();
        std::fs::copy(&job, folder.path().join(format!("{mark}.toml"))).unwrap();
        writeln!(order, "{mark},{},2026-W14,a family", job.display()).unwrap();
        marked = marked.replace(&format!("../jobs/{name}.toml"), mark);
    }
    // a column of the shop's own beside
    let marked =
        marked.replace("job,piece,date", "mark,piece,date").replace(",camber [mm]", ",welder,camber [mm]");
    let families = |line: &str| {
        JOBS.iter().fold(line.to_owned(), |l, (_, f)| l.replace(&format!(",{f},"), &format!(",{f},W7,")))
    };
    let marked: String = marked.lines().map(|l| families(l) + "\n").collect();
    let (beside, list) = (folder.path().join("beside.csv"), folder.path().join("lists"));
    write(&beside, &marked).unwrap();
    std::fs::create_dir(&list).unwrap();
    write(list.join("order.csv"), order).unwrap();
    let listed = list.join("listed.csv");
    write(&listed, format!("# marks: order.csv\n{marked}")).unwrap();
    for path in [&beside, &listed] {
        let found: Value =
            serde_json::from_str(&run(&["calibrate", path.to_str().unwrap(), "--json"])).unwrap();
        assert_eq!(found["learned"], csv["learned"], "{path:?}");
        assert_eq!(found["next"][0]["member"], "R2");
        let said = run(&["calibrate", path.to_str().unwrap()]);
        assert!(said.contains("columns not read: welder"), "{said}");
    }
    let wrong = marked.replacen("R5,R5-12", "R55,R5-12", 1);
    write(&listed, format!("# marks: order.csv\n{wrong}")).unwrap();
    let said = refused(&["calibrate", listed.to_str().unwrap()]);
    assert!(
        said.contains("`R55`, which is not in order.csv") && said.contains("did you mean `R5`"),
        "{said}"
    );
    write(&beside, &wrong).unwrap();
    let said = refused(&["calibrate", beside.to_str().unwrap()]);
    assert!(said.contains("R55.toml is not there"), "{said}");
}

/// What a command complains of.
fn refused(arguments: &[&str]) -> String {
    let run = Command::cargo_bin("weldbow").unwrap().args(arguments).output().unwrap();
    let said = String::from_utf8(run.stderr).unwrap();
    assert_eq!(run.status.code(), Some(1), "{said}");
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The pieces of two months in two files of a folder; one of them stands in both.
#[test]
fn a_piece_in_two_files_of_a_folder_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let rafter = std::fs::canonicalize("studies/jobs/rafter.toml").unwrap();
    for (month, pieces) in [("march", ["R2-01", "R2-02"]), ("april", ["R2-02", "R2-03"])] {
        let rows = pieces.map(|piece| format!("{},{piece},-4\n", rafter.display())).concat();
        write(folder.path().join(format!("{month}.csv")), format!("job,piece,sweep [mm]\n{rows}")).unwrap();
    }
    let said = refused(&["calibrate", folder.path().to_str().unwrap()]);
    assert!(said.contains("`R2-02` again, as in") && said.contains("april.csv"), "{said}");
}

/// A row says how its piece lay and which side was warm, as the file of one piece does: R2-01 hung between its ends with the near
/// side up, the near side of R2-02 was 5 K warmer, R2-03 was read as it is.
#[test]
fn what_hung_and_what_was_warm_is_taken_out_of_a_row() {
    let folder = tempfile::tempdir().unwrap();
    let rafter = std::fs::canonicalize("studies/jobs/rafter.toml").unwrap();
    let job = rafter.display();
    let path = folder.path().join("record.csv");
    let text = format!(
        "job,piece,sweep [mm],up,lay on,warmer\n{job},R2-01,-20,near,0 m and 9 m,\n{job},R2-02,-20,,,near by 5 K\n{job},R2-03,-20,,,\n"
    );
    write(&path, text).unwrap();
    let found: Value = serde_json::from_str(&run(&["calibrate", path.to_str().unwrap(), "--json"])).unwrap();
    let readings = found["checks"]["readings"].as_array().unwrap();
    let bare = [0, 1, 2].map(|i| readings[i]["value_mm"].as_f64().unwrap() + 20.0);
    println!("taken out: {bare:.2?} mm");
    // by hand: flanges of 180 mm all along, α 12·10⁻⁶ (EN 1993-1-1, memory): α·ΔT·L²/(8·b)
    let warm = 12e-6 * 5.0 * 9000.0_f64.powi(2) / (8.0 * 180.0);
    assert!((bare[1] + warm).abs() < 0.02 * warm, "{} against {warm}", bare[1]);
    // by hand: flanges 180 × 8 and 180 × 12 on the average, web 5 mm, in the mean 650 mm deep: 5wL⁴/(384EI) to a fifth
    let weight = 7.85e-6 * 9.81 * (180.0 * 20.0 + 5.0 * 640.0);
    let stiffness = 210e3 * 180.0_f64.powi(3) * 20.0 / 12.0;
    let hangs = 5.0 * weight * 9000.0_f64.powi(4) / (384.0 * stiffness);
    assert!((bare[0] - hangs).abs() < 0.2 * hangs, "{} against {hangs}", bare[0]);
    assert!(bare[2].abs() < 1e-9, "{}", bare[2]);
}

#[test]
fn a_folder_of_the_files_that_straighten_takes_is_a_record() {
    let folder = tempfile::tempdir().unwrap();
    let rafter = std::fs::canonicalize("studies/jobs/rafter.toml").unwrap();
    let readings = read_to_string("studies/shop/measured-rafter.csv").unwrap();
    for number in 1..=3 {
        let front = format!("# job: {}\n# date: 2026-03-0{number}\n# family: rafters\n", rafter.display());
        write(folder.path().join(format!("R2-0{number}.csv")), front + &readings).unwrap();
    }
    let found: Value =
        serde_json::from_str(&run(&["calibrate", folder.path().to_str().unwrap(), "--json"])).unwrap();
    assert_eq!(found["pieces"], 3);
    let next = found["next"].as_array().unwrap();
    let sweep = next.iter().find(|n| n["what"] == "sweep").unwrap();
    println!("sweep after three readings of −21 mm: {sweep}");
    assert!(sweep["mean_mm"].as_f64().unwrap() < sweep["before_mm"].as_f64().unwrap());
    assert_eq!(sweep["family"], "rafters");
}

/// What is said of fourteen rafters whose sweeps are 8 mm to the far side, alike to a millimetre, but for what `change` does.
fn steady_rafters(change: impl Fn(usize, f64) -> f64) -> String {
    let folder = tempfile::tempdir().unwrap();
    let rafter = std::fs::canonicalize("studies/jobs/rafter.toml").unwrap();
    let mut text = String::from("# sweep uncertainty: 0.5 mm\njob,piece,sweep [mm]\n");
    for (i, off) in
        [0.4, -0.9, 0.1, 0.8, -0.3, -0.6, 1.0, 0.2, -0.8, 0.5, -0.2, 0.7, -1.0, 0.1].into_iter().enumerate()
    {
        writeln!(text, "{},R2-{:02},{:.2}", rafter.display(), i + 1, change(i + 1, -8.0 + off)).unwrap();
    }
    let path = folder.path().join("record.csv");
    write(&path, text).unwrap();
    let said = run(&["calibrate", path.to_str().unwrap()]);
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_sign_and_a_unit_that_went_wrong_are_named() {
    let said = steady_rafters(|piece, sweep| match piece {
        3 => -sweep,
        7 => sweep / 25.4,
        _ => sweep,
    });
    let of =
        |piece: &str| said.split("Read it again").find(|s| s.contains(piece)).unwrap_or_default().to_owned();
    println!("{}\n{}", of("R2-03: sweep"), of("R2-07: sweep"));
    assert!(of("R2-03: sweep").contains("with the other sign it would fit"), "{said}");
    assert!(of("R2-07: sweep").contains("as inches it would fit"), "{said}");
    assert!(!said.contains("contradicts itself"), "{said}");
    let plain = steady_rafters(|_, sweep| sweep);
    assert!(!plain.contains("Read it again"), "{plain}");
}

#[test]
fn a_record_that_contradicts_itself_is_told_so() {
    let said = steady_rafters(|piece, sweep| if piece % 2 == 0 { 3.0 * sweep } else { -3.0 * sweep });
    assert!(said.contains("contradicts itself"), "{said}");
}

/// A whole column below the wrong head is no odd reading: it is told by what the welds are known to do, or by readings that agree better
/// than a string can.
#[test]
fn a_whole_column_with_the_wrong_unit_or_sign_is_told() {
    let inches = steady_rafters(|_, sweep| sweep / 25.4);
    assert!(inches.contains("all readings of sweep of rafter agree to"), "{inches}");
    assert!(inches.contains("is the unit of the column right?"), "{inches}");
    let sign = steady_rafters(|_, sweep| -sweep);
    assert!(sign.contains("with the other sign they would fit"), "{sign}");
    let plain = steady_rafters(|_, sweep| sweep);
    assert!(!plain.contains("all readings of"), "{plain}");
}
