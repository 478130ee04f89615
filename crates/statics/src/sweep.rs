//! Right sides through the factors of a small frame, by plain loops.
//!
//! The library's own kernels are made for large blocks: on the supernodes of a small frame, of a node or two each, most of
//! their work is getting ready. Here one right side, or four side by side, go down and up the same factors directly.
//! Large frames stay with the library.

use faer::sparse::linalg::cholesky::supernodal::SymbolicSupernodalCholesky;

/// Right sides that are taken through together.
const WIDE: usize = 4;

/// Entries of the factors from which the work is left to the library; frames of chairs have less. Chosen, not measured.
pub(crate) const LARGE: usize = 100_000;

/// One supernode: columns that share the rows below their diagonal block.
struct Block<'a> {
    start: usize,
    columns: usize,
    /// Rows below the diagonal block.
    below: &'a [usize],
    /// Columns one after the other, each with the rows of the diagonal block and those below; D on the diagonal.
    values: &'a [f64],
}

impl<'a> Block<'a> {
    fn of(symbolic: &'a SymbolicSupernodalCholesky<usize>, values: &'a [f64], s: usize) -> Block<'a> {
        let (node, at) = (symbolic.supernode(s), symbolic.col_ptr_for_val());
        let columns = symbolic.supernode_end()[s] - node.start();
        Block { start: node.start(), columns, below: node.pattern(), values: &values[at[s]..at[s + 1]] }
    }

    fn column(&self, c: usize) -> &'a [f64] {
        let rows = self.columns + self.below.len();
        &self.values[c * rows..(c + 1) * rows]
    }

    /// Some columns below the diagonal block.
    fn some<const C: usize>(&self, first: usize) -> [&'a [f64]; C] {
        std::array::from_fn(|k| &self.column(first + k)[self.columns..])
    }
}

/// Solves for right sides, one after the other in `sides`, in place.
pub(crate) fn solve(symbolic: &SymbolicSupernodalCholesky<usize>, values: &[f64], sides: &mut [f64]) {
    let n = symbolic.nrows();
    let mut wide = vec![[0.0; WIDE]; if sides.len() > n { n } else { 0 }];
    let mut one = vec![[0.0; 1]; n];
    for some in sides.chunks_mut(WIDE * n) {
        if some.len() > n {
            together(symbolic, values, some, &mut wide);
        } else {
            together(symbolic, values, some, &mut one);
        }
    }
}

/// At most `W` right sides, side by side in `x`.
fn together<const W: usize>(
    symbolic: &SymbolicSupernodalCholesky<usize>,
    values: &[f64],
    sides: &mut [f64],
    x: &mut [[f64; W]],
) {
    for (k, side) in sides.chunks_exact(x.len()).enumerate() {
        x.iter_mut().zip(side.iter()).for_each(|(x, v)| x[k] = *v);
    }
    let mut z: Vec<[f64; W]> = Vec::new();
    for s in 0..symbolic.n_supernodes() {
        down(&Block::of(symbolic, values, s), x, &mut z);
    }
    for s in (0..symbolic.n_supernodes()).rev() {
        up(&Block::of(symbolic, values, s), x, &mut z);
    }
    for (k, side) in sides.chunks_exact_mut(x.len()).enumerate() {
        side.iter_mut().zip(x.iter()).for_each(|(v, x)| *v = x[k]);
    }
}

/// Takes what the unknowns of a block are known to be off everything after them.
fn down<const W: usize>(b: &Block<'_>, x: &mut [[f64; W]], z: &mut Vec<[f64; W]>) {
    let own = &mut x[b.start..b.start + b.columns];
    for c in 0..b.columns - 1 {
        let known = own[c];
        for (v, l) in own[c + 1..].iter_mut().zip(&b.column(c)[c + 1..]) {
            *v = std::array::from_fn(|k| v[k] - l * known[k]);
        }
    }
    z.clear();
    z.resize(b.below.len(), [0.0; W]);
    let mut c = 0;
    while c < b.columns {
        c += match &own[c..] {
            [p, q, r, s, ..] => add(b.some(c), [*p, *q, *r, *s], z),
            [p, q, ..] => add(b.some(c), [*p, *q], z),
            rest => add(b.some(c), [rest[0]], z),
        };
    }
    for (row, sum) in b.below.iter().zip(z.iter()) {
        let v = &mut x[*row];
        *v = std::array::from_fn(|k| v[k] - sum[k]);
    }
}

/// Divides by the pivots of a block, and finds its unknowns from those after them.
fn up<const W: usize>(b: &Block<'_>, x: &mut [[f64; W]], z: &mut Vec<[f64; W]>) {
    z.clear();
    z.extend(b.below.iter().map(|row| x[*row]));
    let own = &mut x[b.start..b.start + b.columns];
    let mut c = 0;
    while c < b.columns {
        c += match &mut own[c..] {
            [p, q, r, s, ..] => along(b.some(c), z, [p, q, r, s], |k| b.column(c + k)[c + k]),
            [p, q, ..] => along(b.some(c), z, [p, q], |k| b.column(c + k)[c + k]),
            rest => along(b.some(c), z, [&mut rest[0]], |_| b.column(c)[c]),
        };
    }
    for c in (0..b.columns - 1).rev() {
        let (v, known) = own[c..].split_at_mut(1);
        for (l, x) in b.column(c)[c + 1..].iter().zip(known) {
            v[0] = std::array::from_fn(|k| v[0][k] - l * x[k]);
        }
    }
}

/// Adds columns, each times what is known of its unknown: several at once, so that the sums are fetched seldom. How many.
fn add<const C: usize, const W: usize>(l: [&[f64]; C], known: [[f64; W]; C], sums: &mut [[f64; W]]) -> usize {
    let l = l.map(|column| &column[..sums.len()]);
    for (row, sum) in sums.iter_mut().enumerate() {
        for c in 0..C {
            *sum = std::array::from_fn(|k| sum[k] + l[c][row] * known[c][k]);
        }
    }
    C
}

/// Divides unknowns by their pivots and takes off the products of their columns with `x`; even and odd rows apart, so that
/// no addition waits for the one before. How many.
fn along<const C: usize, const W: usize>(
    l: [&[f64]; C],
    x: &[[f64; W]],
    out: [&mut [f64; W]; C],
    pivot: impl Fn(usize) -> f64,
) -> usize {
    let l = l.map(|column| &column[..x.len()]);
    let mut sums = [[[0.0; W]; 2]; C];
    let even = x.len() / 2 * 2;
    for row in (0..even).step_by(2) {
        for c in 0..C {
            let (a, b) = (l[c][row], l[c][row + 1]);
            sums[c][0] = std::array::from_fn(|k| sums[c][0][k] + a * x[row][k]);
            sums[c][1] = std::array::from_fn(|k| sums[c][1][k] + b * x[row + 1][k]);
        }
    }
    for (c, v) in out.into_iter().enumerate() {
        let rest = |k: usize| x.get(even).map_or(0.0, |x| l[c][even] * x[k]);
        *v = std::array::from_fn(|k| v[k] / pivot(c) - (sums[c][0][k] + sums[c][1][k] + rest(k)));
    }
    C
}
