//! A picture as PNG: the same SVG, rendered with the same font, twice as large for sharp screens.

use super::ChartError;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};
use std::sync::{Arc, OnceLock};

/// PNG pixels per px of the picture.
const SCALE: f32 = 2.0;

/// The PNG of an SVG drawn here.
///
/// # Errors
/// [`ChartError::Raster`] if the text is no SVG or the image cannot be made.
pub fn png(svg: &str) -> Result<Vec<u8>, ChartError> {
    let options = Options { fontdb: fonts(), ..Options::default() };
    let tree = Tree::from_str(svg, &options).map_err(|e| ChartError::Raster(e.to_string()))?;
    let size = tree.size();
    let pixels = |length: f32| (length * SCALE).round() as u32;
    let mut image = Pixmap::new(pixels(size.width()), pixels(size.height()))
        .ok_or_else(|| ChartError::Raster("the picture has no size".to_owned()))?;
    resvg::render(&tree, Transform::from_scale(SCALE, SCALE), &mut image.as_mut());
    image.encode_png().map_err(|e| ChartError::Raster(e.to_string()))
}

fn fonts() -> Arc<Database> {
    static FONTS: OnceLock<Arc<Database>> = OnceLock::new();
    FONTS
        .get_or_init(|| {
            let mut fonts = Database::new();
            fonts.load_font_data(dejavu::sans::regular().to_vec());
            fonts.load_font_data(dejavu::sans::bold().to_vec());
            Arc::new(fonts)
        })
        .clone()
}

/// A text and the box it covers: left, top, right, bottom, px.
#[cfg(test)]
pub(super) type Boxed = (String, [f32; 4]);

/// Every text of a picture, in the order of drawing, and the box of all that is drawn.
#[cfg(test)]
pub(super) fn boxes(svg: &str) -> (Vec<Boxed>, [f32; 4]) {
    use resvg::usvg::{Group, Node, Rect};
    let edges = |r: Rect| [r.left(), r.top(), r.right(), r.bottom()];
    fn walk(group: &Group, found: &mut Vec<(String, Rect)>) {
        for node in group.children() {
            match node {
                Node::Group(inner) => walk(inner, found),
                Node::Text(text) => {
                    found.push((text.chunks().iter().map(|c| c.text()).collect(), text.abs_bounding_box()));
                }
                _ => {}
            }
        }
    }
    let tree = Tree::from_str(svg, &Options { fontdb: fonts(), ..Options::default() }).unwrap();
    let mut found = Vec::new();
    walk(tree.root(), &mut found);
    (found.into_iter().map(|(text, r)| (text, edges(r))).collect(), edges(tree.root().abs_bounding_box()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_svg_gives_an_error_not_a_panic() {
        assert!(matches!(png("welded"), Err(ChartError::Raster(_))));
    }
}
