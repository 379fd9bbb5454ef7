//! The sheet a picture is drawn on, and the only file that knows the drawing and the rasterising crate.
//!
//! Callers think in px of the finished picture, x to the right and y down, with decimals. The drawing
//! crate works in whole pixels, so the sheet underneath is [`FINE`] times larger and is shown smaller.

use super::theme::{FULL, Ink, Letters, SUBTITLE, Stroke, TITLE, WHITE};
use super::{ChartError, Done, Picture};
use plotters::backend::SVGBackend;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::element::{Circle, PathElement, Polygon};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{
    Color, FontDesc, FontFamily, FontStyle, FontTransform, RGBColor, ShapeStyle, TextStyle, register_font,
};
use std::sync::OnceLock;

/// A point, px.
pub(super) type Point = (f64, f64);

/// How many units of the sheet make one px.
const FINE: f64 = 10.0;
/// Name the font goes by in the SVG: a viewer without DejaVu takes Verdana, which is as wide.
const FAMILY: &str = "DejaVu Sans, Verdana, sans-serif";
/// The drawing crate divides letter sizes by this when it writes them.
const WRITTEN_SMALLER: f64 = 1.24;
/// Height of DejaVu's line over its letter size, by which text widths come out too large.
const LINE_OVER_SIZE: f64 = 1.164;
/// Share of a title line that goes to what the picture shows, at most; the rest is for the job.
const LONGEST_TAIL: f64 = 0.72;
/// Left edge of the title, px.
pub(super) const MARGIN: f64 = 24.0;
/// Width of nearly every picture, and its usual size, px.
pub(super) const WIDTH: f64 = 900.0;
pub(super) const SIZE: (f64, f64) = (WIDTH, 560.0);
/// Right end of what is drawn in a picture of a study, px.
pub(super) const RIGHT_END: f64 = WIDTH - 18.0;
/// Where the drawing may begin under title and subtitle, px.
pub(super) const BELOW_TITLE: f64 = 66.0;

/// Which point of a text is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum At {
    Left,
    Middle,
    Right,
}

/// What stands over a picture and what is said to those who cannot see it.
#[derive(Debug)]
pub(super) struct Heading<'t> {
    /// Stem of the file name.
    pub name: &'t str,
    /// Title of the job, as the user wrote it; empty if the picture belongs to no job.
    pub job: &'t str,
    /// What the picture shows, a few words.
    pub what: &'t str,
    /// The finding, one line.
    pub(crate) subtitle: String,
    /// What can be seen, in words.
    pub(crate) description: String,
}

/// The sheet being drawn on.
pub(super) struct Canvas<'a> {
    area: DrawingArea<SVGBackend<'a>, Shift>,
    /// Width, px.
    pub width: f64,
}

/// Draws a picture of that size (px) under its title.
pub(super) fn draw(
    heading: &Heading<'_>,
    (width, height): (f64, f64),
    content: impl FnOnce(&Canvas<'_>) -> Done,
) -> Done<Picture> {
    font()?;
    let mut text = String::new();
    let size = ((width * FINE) as u32, (height * FINE) as u32);
    let title;
    {
        let area = SVGBackend::with_string(&mut text, size).into_drawing_area();
        area.fill(&RGBColor(WHITE.0, WHITE.1, WHITE.2)).map_err(|e| ChartError::Drawing(e.to_string()))?;
        let paper = Canvas { area, width };
        title = paper.title(heading)?;
        content(&paper)?;
        paper.area.present().map_err(|e| ChartError::Drawing(e.to_string()))?;
    }
    Ok(Picture {
        name: heading.name.to_owned(),
        svg: finish(&text, (width, height), &title, &heading.description),
    })
}

impl Canvas<'_> {
    fn title(&self, heading: &Heading<'_>) -> Done<String> {
        let room = self.width - 2.0 * MARGIN;
        let job = clean(heading.job);
        let what = clean(heading.what);
        let title = if job.is_empty() {
            self.shortened(&what, room, TITLE)?
        } else {
            let tail = format!(": {}", self.shortened(&what, LONGEST_TAIL * room, TITLE)?);
            let room = room - self.width_of(&tail, TITLE)?;
            format!("{}{tail}", self.shortened(&job, room, TITLE)?)
        };
        self.text((MARGIN, 26.0), At::Left, &title, TITLE)?;
        self.text_within((MARGIN, 47.0), room, &heading.subtitle, SUBTITLE)?;
        Ok(title)
    }

    /// An open line through the points.
    pub(super) fn line(&self, points: &[Point], stroke: Stroke) -> Done {
        let style = ShapeStyle {
            color: rgb(stroke.ink).mix(1.0),
            filled: false,
            stroke_width: (stroke.width * FINE).round() as u32,
        };
        let pieces = if stroke.dash == FULL { vec![points.to_vec()] } else { dashes(points, stroke.dash) };
        pieces.iter().try_for_each(|piece| self.put(&PathElement::new(fine_points(piece)?, style)))
    }

    /// A level line between two ends with a cap at each, `half` px up and down.
    pub(super) fn whisker(&self, ends: [f64; 2], y: f64, half: f64, stroke: Stroke) -> Done {
        self.line(&ends.map(|x| (x, y)), stroke)?;
        ends.into_iter().try_for_each(|x| self.line(&[(x, y - half), (x, y + half)], stroke))
    }

    /// A closed outline.
    pub(super) fn outline(&self, points: &[Point], stroke: Stroke) -> Done {
        let closed: Vec<Point> = points.iter().chain(points.first()).copied().collect();
        self.line(&closed, stroke)
    }

    /// A filled shape; `alpha` 1 covers what is below.
    pub(super) fn fill(&self, points: &[Point], ink: Ink, alpha: f64) -> Done {
        self.put(&Polygon::new(fine_points(points)?, rgb(ink).mix(alpha)))
    }

    /// A full disc with a white rim, to lie on a line.
    pub(super) fn dot(&self, at: Point, radius: f64, ink: Ink) -> Done {
        self.disc(at, radius + 1.2, WHITE)?;
        self.disc(at, radius, ink)
    }

    /// A ring, white inside.
    pub(super) fn ring(&self, at: Point, radius: f64, ink: Ink) -> Done {
        self.disc(at, radius, ink)?;
        self.disc(at, radius - 1.6, WHITE)
    }

    /// A full disc without a rim.
    pub(super) fn disc(&self, at: Point, radius: f64, ink: Ink) -> Done {
        self.put(&Circle::new(fine(at)?, (radius * FINE).round() as u32, rgb(ink).filled()))
    }

    /// One line of text; y is the middle of its small letters.
    pub(super) fn text(&self, at: Point, from: At, text: &str, letters: Letters) -> Done {
        self.lettering(at, from, text, letters, FontTransform::None)
    }

    /// Text that reads upward, centred on the point.
    pub(super) fn upward(&self, at: Point, text: &str, letters: Letters) -> Done {
        self.lettering(at, At::Middle, text, letters, FontTransform::Rotate270)
    }

    /// Text on a plate of `ground`, so that lines behind it do not cross the letters.
    pub(super) fn plated(&self, at: Point, from: At, text: &str, letters: Letters, ground: Ink) -> Done {
        let width = self.width_of(text, letters)?;
        let left = match from {
            At::Left => at.0,
            At::Middle => at.0 - 0.5 * width,
            At::Right => at.0 - width,
        };
        let half = 0.62 * letters.size;
        self.fill(&corners((left - 2.0, at.1 - half), (left + width + 2.0, at.1 + half)), ground, 0.9)?;
        self.text(at, from, text, letters)
    }

    /// Width of a text, px.
    pub(super) fn width_of(&self, text: &str, letters: Letters) -> Done<f64> {
        let (width, _) = lettering_font(letters, FontTransform::None)
            .box_size(&visible(text))
            .map_err(|e| ChartError::Font(e.to_string()))?;
        Ok(f64::from(width) / FINE * LINE_OVER_SIZE / WRITTEN_SMALLER)
    }

    /// Width of the widest of some texts, px; 0 of none.
    pub(super) fn widest(
        &self,
        texts: impl IntoIterator<Item = impl AsRef<str>>,
        letters: Letters,
    ) -> Done<f64> {
        texts
            .into_iter()
            .try_fold(0.0, |most: f64, text| Ok(most.max(self.width_of(text.as_ref(), letters)?)))
    }

    /// A surface and its outline.
    pub(super) fn shape(&self, points: &[Point], ink: Ink, alpha: f64, edge: Stroke) -> Done {
        self.fill(points, ink, alpha)?;
        self.outline(points, edge)
    }

    /// A text to the right of a place, shortened to the room there is.
    pub(super) fn text_within(&self, at: Point, room: f64, text: &str, letters: Letters) -> Done {
        self.text(at, At::Left, &self.shortened(text, room, letters)?, letters)
    }

    /// The text, cut with "…" if it is wider than `room` px.
    pub(super) fn shortened(&self, text: &str, room: f64, letters: Letters) -> Done<String> {
        if self.width_of(text, letters)? <= room {
            return Ok(text.to_owned());
        }
        let letters_in: Vec<char> = text.chars().take(400).collect();
        let (mut fits, mut too_many) = (0, letters_in.len() + 1);
        while too_many - fits > 1 {
            let tried = usize::midpoint(fits, too_many);
            if self.width_of(&cut(&letters_in, tried), letters)? <= room {
                fits = tried;
            } else {
                too_many = tried;
            }
        }
        Ok(cut(&letters_in, fits))
    }

    fn lettering(&self, at: Point, from: At, text: &str, letters: Letters, turn: FontTransform) -> Done {
        let across = match from {
            At::Left => HPos::Left,
            At::Middle => HPos::Center,
            At::Right => HPos::Right,
        };
        let ink = rgb(letters.ink);
        let style =
            TextStyle::from(lettering_font(letters, turn)).color(&ink).pos(Pos::new(across, VPos::Center));
        self.area.draw_text(&visible(text), &style, fine(at)?).map_err(|e| ChartError::Drawing(e.to_string()))
    }

    fn put<E>(&self, element: &E) -> Done
    where
        for<'e> &'e E: plotters::element::PointCollection<'e, (i32, i32)>,
        E: for<'b> plotters::element::Drawable<SVGBackend<'b>>,
    {
        self.area.draw(element).map_err(|e| ChartError::Drawing(e.to_string()))
    }
}

/// The four corners of an upright rectangle.
pub(super) fn corners(a: Point, b: Point) -> [Point; 4] {
    [a, (b.0, a.1), b, (a.0, b.1)]
}

fn rgb(ink: Ink) -> RGBColor {
    RGBColor(ink.0, ink.1, ink.2)
}

fn lettering_font(letters: Letters, turn: FontTransform) -> FontDesc<'static> {
    let style = if letters.bold { FontStyle::Bold } else { FontStyle::Normal };
    FontDesc::new(FontFamily::Name(FAMILY), letters.size * FINE * WRITTEN_SMALLER, style).transform(turn)
}

fn fine((x, y): Point) -> Done<(i32, i32)> {
    if !(x.is_finite() && y.is_finite()) {
        return Err(ChartError::NotANumber);
    }
    Ok(((x * FINE).round() as i32, (y * FINE).round() as i32))
}

fn fine_points(points: &[Point]) -> Done<Vec<(i32, i32)>> {
    points.iter().map(|p| fine(*p)).collect()
}

fn cut(letters: &[char], keep: usize) -> String {
    let kept: String = letters.iter().take(keep).collect();
    format!("{}…", kept.trim_end())
}

/// User text on one line, spaces single.
pub(super) fn clean(text: &str) -> String {
    visible(text).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Text without what no picture can show: control characters, marks that turn the direction of reading,
/// line ends.
fn visible(text: &str) -> String {
    let shown =
        |c: &char| !matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{fffe}' | '\u{ffff}');
    text.chars().filter(shown).map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// The drawn parts of a dashed line.
fn dashes(points: &[Point], pattern: &[f64]) -> Vec<Vec<Point>> {
    let mut pieces = Vec::new();
    let mut piece: Vec<Point> = points.first().copied().into_iter().collect();
    let (mut index, mut left) = (0, pattern[0]);
    for pair in points.windows(2) {
        let (dx, dy) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        let length = dx.hypot(dy);
        let mut gone = 0.0;
        while length - gone > left {
            gone += left;
            let at = (pair[0].0 + dx * gone / length, pair[0].1 + dy * gone / length);
            if index % 2 == 0 {
                piece.push(at);
                pieces.push(std::mem::take(&mut piece));
            } else {
                piece = vec![at];
            }
            index += 1;
            left = pattern[index % pattern.len()];
        }
        left -= length - gone;
        if index % 2 == 0 {
            piece.push(pair[1]);
        }
    }
    if piece.len() > 1 {
        pieces.push(piece);
    }
    pieces
}

/// Shows the sheet at its size, rounds letter sizes, and adds title and description for screen readers.
fn finish(sheet: &str, (width, height): Point, title: &str, description: &str) -> String {
    let mut svg = String::with_capacity(sheet.len() + 1000);
    for line in sheet.lines() {
        if line.starts_with("<svg") {
            svg.push_str(&format!(
                "<svg width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {:.0} {:.0}\" \
                 xmlns=\"http://www.w3.org/2000/svg\" role=\"img\">\n<title>{}</title>\n<desc>{}</desc>\n",
                width * FINE,
                height * FINE,
                escaped(title),
                escaped(description)
            ));
        } else if line.starts_with("<text") {
            svg.push_str(&with_round_letters(line));
        } else {
            svg.push_str(line);
            svg.push('\n');
        }
    }
    svg.replace("\n</text>", "</text>")
}

fn with_round_letters(tag: &str) -> String {
    const KEY: &str = "font-size=\"";
    let Some((before, rest)) = tag.split_once(KEY) else { return tag.to_owned() };
    let Some((size, after)) = rest.split_once('"') else { return tag.to_owned() };
    let size: f64 = size.parse().unwrap_or(12.0 * FINE);
    format!("{before}{KEY}{:.0}\"{after}", size)
}

fn escaped(text: &str) -> String {
    clean(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// Tells the drawing crate of the font, once for the whole program.
fn font() -> Done {
    static KNOWN: OnceLock<bool> = OnceLock::new();
    let known = *KNOWN.get_or_init(|| {
        register_font(FAMILY, FontStyle::Normal, dejavu::sans::regular()).is_ok()
            && register_font(FAMILY, FontStyle::Bold, dejavu::sans::bold()).is_ok()
    });
    if known { Ok(()) } else { Err(ChartError::Font("the built-in font could not be read".to_owned())) }
}
