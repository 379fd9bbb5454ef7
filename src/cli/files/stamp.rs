//! What a file of ours begins with.

use std::borrow::Cow;
use std::io::{Read, Result};

/// A comment that every format with a first line for it carries.
const SAID: &str = "written by weldbow";
/// First bytes of a PNG (W3C PNG specification, 5.2).
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
/// Bytes of a PNG up to the end of its first chunk, the header: signature, length, name, 13 bytes, sum.
const PNG_HEAD: usize = 8 + 4 + 4 + 13 + 4;
/// Longest beginning looked at, bytes.
const LONGEST: usize = 512;

/// Bytes of a workbook that are compared: a header of 30 bytes, a name, and the packed start of the list of sheets.
const PACKED: usize = 256;

/// Kinds of files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A chart.
    Svg,
    /// The same in pixels.
    Png,
    /// A page.
    Html,
    /// A job, with a remark in its first line.
    Toml,
    /// A table, known by the names of its columns: a spreadsheet knows no remarks.
    Csv,
    /// A drawing of plates, with a remark in its header (group 999).
    Dxf,
    /// A workbook, known by the first of the files packed in it, which lists its sheets.
    Workbook,
}

impl Kind {
    /// The content with its stamp.
    pub(crate) fn stamped(self, content: &[u8]) -> Cow<'_, [u8]> {
        let before = |line: String| Cow::Owned([line.as_bytes(), content].concat());
        match self {
            Self::Svg => before(format!("<!-- {SAID} -->\n")),
            Self::Toml if !content.starts_with(b"# written by weldbow") => before(format!("# {SAID}\n")),
            Self::Html => {
                let start = format!("<!DOCTYPE html><!-- {SAID} -->");
                let rest = content.strip_prefix(b"<!DOCTYPE html>").unwrap_or(content);
                Cow::Owned([start.as_bytes(), rest].concat())
            }
            Self::Png => png(content),
            Self::Toml | Self::Csv | Self::Dxf | Self::Workbook => Cow::Borrowed(content),
        }
    }

    /// Whether a file that begins so is one that would be written anew: `content` is what is to be written.
    pub(crate) fn is_ours(self, file: impl Read, content: Option<&[u8]>) -> Result<bool> {
        let mut start = Vec::new();
        file.take(LONGEST as u64).read_to_end(&mut start)?;
        // an empty file has nothing to lose
        if start.is_empty() {
            return Ok(true);
        }
        Ok(match self {
            Self::Svg => start.starts_with(format!("<!-- {SAID} -->").as_bytes()),
            Self::Html => start.starts_with(format!("<!DOCTYPE html><!-- {SAID} -->").as_bytes()),
            Self::Toml => start.starts_with(format!("# {SAID}").as_bytes()),
            Self::Png => start.get(PNG_HEAD..).is_some_and(|rest| rest.starts_with(&chunk())),
            Self::Dxf => {
                start.windows(SAID.len()).any(|part| part == SAID.as_bytes())
                    && start.starts_with(b"  0\r\nSECTION\r\n")
            }
            Self::Workbook => content.is_some_and(|content| packed_first(content) == packed_first(&start)),
            Self::Csv => content.is_some_and(|content| first_line(content) == first_line(&start)),
        })
    }
}

/// Beginning of a packed file: the first entry's sizes, sum, name and content.
fn packed_first(bytes: &[u8]) -> &[u8] {
    &bytes[..bytes.len().min(PACKED)]
}

fn first_line(bytes: &[u8]) -> &[u8] {
    bytes[..bytes.len().min(LONGEST)].split(|b| *b == b'\n').next().unwrap_or_default()
}

/// A PNG with the stamp as its software (W3C PNG specification, 11.3.3.2) after the header.
fn png(content: &[u8]) -> Cow<'_, [u8]> {
    match content.split_at_checked(PNG_HEAD) {
        Some((head, rest)) if head.starts_with(PNG) => Cow::Owned([head, &chunk(), rest].concat()),
        _ => Cow::Borrowed(content),
    }
}

/// The chunk of text: length, name, keyword, nought, text, sum.
fn chunk() -> Vec<u8> {
    let body = [b"tEXtSoftware\0".as_slice(), SAID.as_bytes()].concat();
    let length = u32::try_from(body.len() - 4).unwrap_or_default();
    [&length.to_be_bytes()[..], &body, &crc32fast::hash(&body).to_be_bytes()].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_stamped_is_known_again_and_nothing_else_is() {
        let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"4\" height=\"4\"></svg>";
        let picture = crate::chart::png(svg).unwrap();
        for (kind, plain) in [
            (Kind::Svg, svg.as_bytes()),
            (Kind::Png, &picture),
            (Kind::Html, b"<!DOCTYPE html><html></html>"),
            (Kind::Toml, b"title = \"a\"\n"),
        ] {
            let ours = kind.stamped(plain).into_owned();
            assert!(kind.is_ours(&ours[..], None).unwrap(), "{kind:?}");
            assert!(!kind.is_ours(plain, None).unwrap(), "{kind:?}: a file of another");
            assert!(kind.is_ours(&b""[..], None).unwrap(), "{kind:?}: an empty file");
        }
        assert_eq!(Kind::Toml.stamped(b"# written by weldbow\n"), &b"# written by weldbow\n"[..]);
        assert!(Kind::Csv.is_ours(&b"a,b\n1,2\n"[..], Some(b"a,b\n3,4\n")).unwrap());
        let dxf = b"  0\r\nSECTION\r\n  2\r\nHEADER\r\n999\r\nwritten by weldbow\r\n";
        assert!(Kind::Dxf.is_ours(&dxf[..], None).unwrap());
        assert!(!Kind::Dxf.is_ours(&b"  0\r\nSECTION\r\n  2\r\nHEADER\r\n"[..], None).unwrap());
        assert!(!Kind::Csv.is_ours(&b"mark,job\n1,2\n"[..], Some(b"a,b\n3,4\n")).unwrap());
    }

    /// The picture with its stamp is still one: resvg's own reader of pictures inside an SVG takes it.
    #[test]
    fn the_chunk_has_the_length_and_the_sum_that_a_png_asks_for() {
        let chunk = chunk();
        let length = u32::from_be_bytes([chunk[0], chunk[1], chunk[2], chunk[3]]) as usize;
        assert_eq!(chunk.len(), 12 + length);
        assert_eq!(&chunk[4..8], b"tEXt");
        // published check value of this sum for "123456789": CBF43926 (ISO 3309 / ITU-T V.42; memory, sure)
        assert_eq!(crc32fast::hash(b"123456789"), 0xCBF4_3926);
        let sum = crc32fast::hash(&chunk[4..8 + length]).to_be_bytes();
        assert_eq!(chunk[8 + length..], sum);
    }
}
