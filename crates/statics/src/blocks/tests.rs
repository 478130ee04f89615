//! Blocks against the library, and by hand.

use super::*;
use crate::factor::Matrix;
use crate::supernodes::Supernodes;

/// Nodes that meet as listed, some directions held; a matrix of unit diagonal whose other entries are small enough for it to be
/// positive definite, from a generator of its own (Knuth's multiplier).
fn frame(nodes: usize, pairs: &[[usize; 2]], held: &[(usize, usize)]) -> (Layout, Matrix) {
    let mut fixed = vec![[false; 6]; nodes];
    held.iter().for_each(|&(n, k)| fixed[n][k] = true);
    let layout = Layout::new(&fixed, pairs.iter().map(|p| &p[..])).unwrap();
    let mut state = 12345_u64;
    let mut next = move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        (state >> 11) as f64 / (1_u64 << 53) as f64 - 0.5
    };
    let mut matrix = Matrix::new(&layout);
    for c in 0..layout.size {
        let (from, to) = (layout.columns[c], layout.columns[c + 1]);
        matrix.values[from..to].iter_mut().for_each(|v| *v = 0.06 * next());
        matrix.values[to - 1] = 1.0;
    }
    (layout, matrix)
}

fn rings(nodes: usize) -> Vec<[usize; 2]> {
    (0..nodes).flat_map(|k| [[k, (k + 1) % nodes], [k, (k + 7) % nodes]]).collect()
}

/// Product of the upper triangle with a vector.
fn times(layout: &Layout, matrix: &Matrix, x: &[f64]) -> Vec<f64> {
    let mut out = vec![0.0; layout.size];
    for c in 0..layout.size {
        for at in layout.columns[c]..layout.columns[c + 1] {
            let (r, v) = (layout.rows[at], matrix.values[at]);
            out[r] += v * x[c];
            if r != c {
                out[c] += v * x[r];
            }
        }
    }
    out
}

fn solved(layout: &Layout, matrix: &Matrix, side: &[f64]) -> (Vec<f64>, Pivots) {
    let pattern = Pattern::within(layout, usize::MAX).unwrap();
    let (factors, pivots) = pattern.factor(layout, (&matrix.values, &vec![1.0; layout.size]), 1e-7);
    let mut out = side.to_vec();
    pattern.solve(&factors, &mut out);
    (out, pivots)
}

/// 40 nodes in a ring with chords, some directions held, one node wholly: what is solved gives the right side again, and the
/// library says the same, pivots too.
#[test]
fn blocks_and_library_agree() {
    let held: Vec<(usize, usize)> = (0..6).map(|k| (3, k)).chain([(9, 2), (20, 0), (20, 1)]).collect();
    let (layout, matrix) = frame(40, &rings(40), &held);
    assert_eq!(layout.size, 40 * 6 - 9);
    let wanted: Vec<f64> = (0..layout.size).map(|k| 1.0 + (k % 13) as f64).collect();
    let side = times(&layout, &matrix, &wanted);
    let (found, pivots) = solved(&layout, &matrix, &side);
    for (a, b) in found.iter().zip(&wanted) {
        assert!((a - b).abs() < 1e-11, "{a} {b}");
    }
    let (library, theirs) =
        Supernodes::new(&layout, None, (&matrix.values, &vec![1.0; layout.size]), 1e-7).unwrap();
    let mut other = side;
    library.solve(&mut other, layout.size);
    for (a, b) in found.iter().zip(&other) {
        assert!((a - b).abs() < 1e-11, "{a} {b}");
    }
    assert!((pivots.least - theirs.least).abs() < 1e-12 && pivots.least < 0.999);
    assert_eq!((pivots.replaced, theirs.replaced), (vec![], vec![]));
}

/// Two unknowns that are one and the same leave a pivot of nothing: it is replaced, by both alike.
#[test]
fn a_lost_pivot_is_replaced_and_told() {
    let (layout, mut matrix) = frame(12, &rings(12), &[]);
    // the last unknown of the last place is made a copy of the one before it
    let (a, b) = (layout.size - 2, layout.size - 1);
    let rows: Vec<usize> = (layout.columns[a]..layout.columns[a + 1]).collect();
    let to = layout.columns[b];
    for (k, at) in rows.iter().enumerate() {
        matrix.values[to + k] = matrix.values[*at];
    }
    matrix.values[layout.columns[b + 1] - 2] = 1.0;
    let (_, pivots) = solved(&layout, &matrix, &vec![0.0; layout.size]);
    let theirs = Supernodes::new(&layout, None, (&matrix.values, &vec![1.0; layout.size]), 1e-7).unwrap().1;
    assert_eq!((pivots.replaced, theirs.replaced), (vec![b], vec![b]));
}

/// [[1, 1/2], [1/2, 1]]: L₂₁ = 1/2, d = 1 and 3/4.
#[test]
fn a_pivot_by_hand() {
    let mut block = ZERO;
    (0..SIX).for_each(|k| block[k][k] = 1.0);
    (block[0][1], block[1][0]) = (0.5, 0.5);
    let (lower, inverse, d) = Kernel(pulp::Scalar::new()).triangle(&block, |_, pivot| pivot);
    assert_eq!(d, [1.0, 0.75, 1.0, 1.0, 1.0, 1.0]);
    assert_eq!((lower[0][1], lower[1][0]), (0.5, 0.0));
    assert_eq!((inverse[0][1], inverse[1][0], inverse[0][0]), (-0.5, 0.0, 1.0));
}

/// A block of a thousand nodes, each meeting six, has wide fronts; a chain has none, and is taken from eighty nodes on.
#[test]
fn wide_fronts_are_the_librarys() {
    let at = |x: usize, y: usize, z: usize| (x * 10 + y) * 10 + z;
    let mut pairs = Vec::new();
    for (x, y, z) in (0..1000).map(|k| (k / 100, k / 10 % 10, k % 10)) {
        pairs.extend((x < 9).then(|| [at(x, y, z), at(x + 1, y, z)]));
        pairs.extend((y < 9).then(|| [at(x, y, z), at(x, y + 1, z)]));
        pairs.extend((z < 9).then(|| [at(x, y, z), at(x, y, z + 1)]));
    }
    let layout = Layout::new(&vec![[false; 6]; 1000], pairs.iter().map(|p| &p[..])).unwrap();
    assert!(Pattern::of(&layout).is_none());
    let chain = |nodes: usize| {
        let pairs: Vec<[usize; 2]> = (1..nodes).map(|k| [k - 1, k]).collect();
        Pattern::of(&Layout::new(&vec![[false; 6]; nodes], pairs.iter().map(|p| &p[..])).unwrap()).is_some()
    };
    assert_eq!([79, 80, 1000].map(chain), [false, true, true]);
}
