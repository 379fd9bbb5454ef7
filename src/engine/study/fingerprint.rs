//! Whether rows on disk belong to a study: a number made of everything that decides what its rows hold.

use super::file::StudyFile;
use crate::job::file::JobFile;

/// This build: changes with everything that decides what is computed.
pub const BUILD: &str = env!("WELDBOW_BUILD");

/// Changes with what a row holds: the study without its words and charts, its jobs, and this build.
pub(super) fn fingerprint(file: &StudyFile, jobs: &[&JobFile]) -> u64 {
    let bare = StudyFile { title: String::new(), lesson: None, charts: Vec::new(), ..file.clone() };
    let parts = [serde_json::to_string(&bare), serde_json::to_string(jobs)];
    let text = parts
        .into_iter()
        .map(Result::unwrap_or_default)
        .chain([BUILD.to_owned()])
        .collect::<Vec<_>>()
        .join("\n");
    fnv_1a(text.as_bytes())
}

/// Hash of Fowler, Noll and Vo, variant 1a, 64 bits (constants: their published ones; memory, sure): the same on every
/// machine and in every version.
pub(crate) fn fnv_1a(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_gives_its_published_value() {
        // test vector of the authors for "foobar" (memory)
        assert_eq!(fnv_1a(b"foobar"), 0x8594_4171_f739_67e8);
    }
}
