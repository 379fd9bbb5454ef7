//! Convex shapes with a value at each corner, and what is left of one where something holds.

/// A corner of a shape with its value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Vertex {
    /// [across, up], mm.
    pub(crate) at: [f64; 2],
    /// Value of the field.
    pub(crate) value: f64,
}

/// The part of a convex shape where a function is not negative; it counts as straight along edges.
pub(super) fn clipped(shape: &[Vertex], keep: impl Fn(&Vertex) -> f64) -> Vec<Vertex> {
    let mut kept = Vec::with_capacity(shape.len() + 1);
    for (n, here) in shape.iter().enumerate() {
        let next = &shape[(n + 1) % shape.len()];
        let (a, b) = (keep(here), keep(next));
        if a >= 0.0 {
            kept.push(*here);
        }
        if (a >= 0.0) != (b >= 0.0) {
            let part = a / (a - b);
            let mix = |p: f64, q: f64| p + part * (q - p);
            kept.push(Vertex {
                at: [mix(here.at[0], next.at[0]), mix(here.at[1], next.at[1])],
                value: mix(here.value, next.value),
            });
        }
    }
    if kept.len() < 3 { Vec::new() } else { kept }
}
