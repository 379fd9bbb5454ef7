//! Edges put end to end, so that a line of many pieces is drawn as one.

use std::collections::BTreeMap;

/// Lines through edges between nodes, of each edge once; a closed line ends where it begins. Where more than two edges meet, lines
/// end. Of two ways on from where a line begins it takes the edge that came first.
pub(super) fn chains<N: Ord + Copy>(edges: impl IntoIterator<Item = [N; 2]>) -> Vec<Vec<N>> {
    let mut meets: BTreeMap<N, Vec<N>> = BTreeMap::new();
    for [a, b] in edges {
        meets.entry(a).or_default().push(b);
        meets.entry(b).or_default().push(a);
    }
    // lines with ends first, from an end; what is left are loops
    let ends: Vec<N> = meets.iter().filter(|(_, to)| to.len() != 2).map(|(node, _)| *node).collect();
    let all: Vec<N> = meets.keys().copied().collect();
    let mut lines = Vec::new();
    for start in ends.into_iter().chain(all) {
        while let Some(next) = meets.get(&start).and_then(|to| to.first().copied()) {
            let mut line = vec![start, next];
            take(&mut meets, start, next);
            let mut here = next;
            while let Some([next]) = meets.get(&here).map(Vec::as_slice) {
                let next = *next;
                take(&mut meets, here, next);
                line.push(next);
                here = next;
            }
            lines.push(line);
        }
    }
    lines
}

fn take<N: Ord + Copy>(meets: &mut BTreeMap<N, Vec<N>>, a: N, b: N) {
    for (from, to) in [(a, b), (b, a)] {
        if let Some(others) = meets.get_mut(&from) {
            others.retain(|other| *other != to);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edges_become_lines_with_every_edge_once() {
        let length = |lines: &[Vec<usize>]| lines.iter().map(|l| l.len() - 1).sum::<usize>();
        let path = chains([[3, 4], [1, 2], [2, 3]]);
        assert_eq!(path, [vec![1, 2, 3, 4]]);
        let ring = chains([[0, 1], [1, 2], [2, 3], [0, 3]]);
        assert_eq!((ring.len(), ring[0].len(), ring[0].first()), (1, 5, ring[0].last()));
        let cross = [[0, 4], [1, 4], [2, 4], [3, 4]];
        assert_eq!(length(&chains(cross)), 4);
    }
}
