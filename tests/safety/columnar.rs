//! Rows as Parquet are the rows of the table: read back here by the library's own reader, and by a general tool where there is one.

use super::{desk, loud, names, says};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;
use std::fs::{File, read, read_to_string, write};
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

/// Words, numbers, a case that makes no job, and one whose bow is outside the model.
const STUDY: &str = "title = \"Steel and force\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\", \"mass_kg\"]\n\
    [[vary]]\nset = \"steel\"\nvalues = [\"S235\", \"S355\"]\nlabels = [\"mild, as rolled\", \"=1+1\"]\n\
    [[vary]]\nset = \"factors.force\"\nvalues = [0.5, 1, 60]\n[[vary]]\nset = \"pass.leg\"\nvalues = [\"-1 mm\", \"5 mm\", \"6 mm\"]\n";
const ROWS: usize = 18;

fn finished() -> TempDir {
    let folder = desk();
    write(folder.path().join("steel.toml"), STUDY).unwrap();
    let run = ["study", "steel.toml", "--out", "out", "--parquet"];
    says(folder.path(), &run, 0, &["18 rows computed", "The same as Parquet in out/steel.parquet"]);
    folder
}

fn columns(folder: &Path) -> Vec<u8> {
    read(folder.join("out/steel.parquet")).unwrap()
}

#[test]
fn every_cell_is_that_of_the_table() {
    let folder = finished();
    let text = read_to_string(folder.path().join("out/steel.csv")).unwrap();
    let mut table = csv::Reader::from_reader(text.as_bytes());
    let heads = table.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = table.records().map(|row| row.unwrap()).collect();
    let reader =
        SerializedFileReader::new(File::open(folder.path().join("out/steel.parquet")).unwrap()).unwrap();
    assert_eq!((reader.metadata().file_metadata().num_rows() as usize, rows.len()), (ROWS, ROWS));
    let (mut nulls, mut reasons) = (0, 0);
    for (row, wanted) in reader.get_row_iter(None).unwrap().zip(&rows) {
        let row = row.unwrap();
        for (((name, found), head), cell) in row.get_column_iter().zip(&heads).zip(wanted) {
            assert_eq!(name, head);
            match found {
                Field::Long(case) => assert_eq!(case.to_string(), cell),
                // to the last bit: the table holds the shortest text that reads back the same
                Field::Double(number) => assert_eq!(number.to_bits(), cell.parse::<f64>().unwrap().to_bits()),
                Field::Str(word) => {
                    assert_eq!(word, cell.strip_prefix("'").unwrap_or(cell), "{name}");
                    reasons += usize::from(name == "reason");
                }
                Field::Null => {
                    assert_eq!(cell, "", "{name}");
                    nulls += 1;
                }
                other => panic!("{name}: {other:?}"),
            }
        }
    }
    // six cases make no job, four more bow too far: their bows are nulls, and every one of these says why
    println!("{nulls} nulls, {reasons} reasons");
    assert!(reasons >= 10 && nulls >= 6 * 3 + 8, "{text}");
}

#[test]
fn the_same_bytes_come_of_every_run_and_of_parts() {
    let folder = finished();
    let once = columns(folder.path());
    says(folder.path(), &["study", "steel.toml", "--out", "out", "--parquet"], 0, &["is there already"]);
    assert!(columns(folder.path()) == once);
    for part in ["1/2", "2/2"] {
        let run = ["study", "steel.toml", "--out", "parts", "--parquet", "--shard", part];
        says(folder.path(), &run, 0, &["The same as Parquet"]);
    }
    let merge = ["study", "merge", "steel.toml", "--out", "parts", "--parquet"];
    says(folder.path(), &merge, 0, &["2 parts joined", "The same as Parquet in parts/steel.parquet"]);
    assert!(read(folder.path().join("parts/steel.parquet")).unwrap() == once, "joined");
    assert!(!names(&folder.path().join("parts")).iter().any(|n| n.starts_with('.')), "nothing unfinished");
    says(folder.path(), &["study", "verify", "parts"], 0, &["18 of 18 rows, all there"]);
}

#[test]
fn a_file_of_another_stays_and_a_changed_one_is_named() {
    let folder = finished();
    let good = columns(folder.path());
    write(folder.path().join("out/steel.parquet"), "other bytes").unwrap();
    says(folder.path(), &["study", "verify", "out"], 1, &["steel.parquet was changed"]);
    let run = ["study", "steel.toml", "--out", "out", "--parquet"];
    says(folder.path(), &run, 0, &["The same as Parquet in"]);
    assert!(columns(folder.path()) == good, "written anew");
    std::fs::create_dir(folder.path().join("new")).unwrap();
    write(folder.path().join("new/steel.parquet"), "mine").unwrap();
    let run = ["study", "steel.toml", "--out", "new", "--parquet"];
    says(folder.path(), &run, 1, &["stands there already and was not written by this study", "--force"]);
    assert_eq!(read_to_string(folder.path().join("new/steel.parquet")).unwrap(), "mine");
    says(folder.path(), &[&run[..], &["--force"]].concat(), 0, &[]);
    assert!(read(folder.path().join("new/steel.parquet")).unwrap() == good);
}

/// `WELDBOW_PYTHON` names a Python that has pyarrow (`.ci/run` makes one); where there is none, that is said and nothing is tested.
#[test]
fn a_general_tool_reads_them() {
    let folder = finished();
    let python = std::env::var("WELDBOW_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let has = Command::new(&python).args(["-c", "import pyarrow.parquet"]).output();
    if !has.is_ok_and(|output| output.status.success()) {
        loud(&format!("==== PARQUET WAS NOT READ BY A GENERAL TOOL: {python} has no pyarrow ===="));
        return;
    }
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-cases/read_parquet.py");
    let out = folder.path().join("out");
    let read =
        Command::new(&python).arg(script).arg(out.join("steel.csv")).arg(out.join("steel.parquet")).output();
    let read = read.unwrap();
    let said = format!("{}{}", String::from_utf8_lossy(&read.stdout), String::from_utf8_lossy(&read.stderr));
    println!("{said}");
    assert!(read.status.success() && said.contains("18 rows of 8 columns"), "{said}");
}
