//! The number of this build: a hash of everything that decides what is computed. Rows of a study carry it, so that rows of two models never
//! meet in one file.

use std::env::var;
use std::fs::{read, read_dir};
use std::io::{Result, Write, stdout};
use std::path::{Path, PathBuf};

/// Rooms that compute nothing.
const OUTWARD: [&str; 2] = ["cli", "chart"];

fn main() -> Result<()> {
    let root = PathBuf::from(var("CARGO_MANIFEST_DIR").unwrap_or_default());
    let mut files = Vec::new();
    walk(&root, &mut files)?;
    files.sort();
    files.push(root.join("../../Cargo.lock"));
    let mut hash = 0xcbf2_9ce4_8422_2325;
    for file in &files {
        // the same on every machine, whatever its line ends
        for byte in read(file)?.iter().filter(|byte| **byte != b'\r') {
            hash = fnv_1a(hash, *byte);
        }
    }
    let mut out = stdout();
    // wide registers want the whole walk inlined, which takes the compiler minutes: only where it is optimised for speed
    writeln!(out, "cargo::rustc-check-cfg=cfg(wide)")?;
    let is = |name: &str, value: &str| var(name).is_ok_and(|found| found == value);
    let many = var("CARGO_FEATURE_PLANS").is_ok();
    if many && is("PROFILE", "release") && is("CARGO_CFG_TARGET_ARCH", "x86_64") {
        writeln!(out, "cargo::rustc-cfg=wide")?;
    }
    writeln!(out, "cargo::rerun-if-changed=.\ncargo::rerun-if-changed=../../Cargo.lock")?;
    writeln!(out, "cargo::rustc-env=WELDBOW_BUILD={hash:016x}")
}

/// Hash of Fowler, Noll and Vo, variant 1a, 64 bits, one byte further.
const fn fnv_1a(hash: u64, byte: u8) -> u64 {
    (hash ^ byte as u64).wrapping_mul(0x0000_0100_0000_01b3)
}

fn walk(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    for entry in read_dir(folder)? {
        let path = entry?.path();
        let outward = path.file_name().is_some_and(|name| OUTWARD.iter().any(|room| name == *room));
        if path.is_dir() && !outward {
            walk(&path, files)?;
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
    Ok(())
}
