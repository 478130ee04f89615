//! The largest eigenvalues above zero of `G x = μ K x`, by a block Krylov method on the factor of K.
//!
//! Everything is orthonormal in the sense of K. A block finds modes that come in pairs, such as those
//! of a round strut; full orthogonalisation, twice, keeps copies out.

use faer::{Mat, Side};

use crate::error::Error;
use crate::factor::{Factor, Matrix};
use crate::layout::Layout;

/// Relative residual of a pair that is settled; its eigenvalue is then good to the square of it.
const SETTLED: f64 = 1e-6;
/// Relative error of the eigenvalue of a pair that is shown to be the largest besides: the square of its residual over the gap
/// to the next (Kato and Temple).
const NEARLY: f64 = 1e-6;
/// So much of an eigenvalue is looked for above it: no error of a load factor that anybody could tell.
const ABOVE: f64 = 1e-4;
/// Eigenvalues below this against the largest in size are zero.
const ZERO: f64 = 1e-9;
/// Directions that shrink below this in orthogonalisation are used up.
const USED_UP: f64 = 1e-10;
/// At most so many directions.
const MOST: usize = 400;
/// Share of the arbitrary in a start that is known, so that no other shape is missed.
const NOISE: f64 = 1e-2;
/// At least so many directions for every pair that is wanted, and for three more: what settles sooner may not be the largest.
const RIPE: usize = 4;

/// A vector and its product with K.
type Pair = (Vec<f64>, Vec<f64>);

/// The search: an orthonormal basis, G projected onto it, and the images of its last block.
struct Search<'a> {
    factor: &'a Factor,
    g: Product,
    basis: Vec<Pair>,
    projected: Vec<Vec<f64>>,
    images: Vec<Pair>,
}

/// Ritz values, ascending, and their vectors in terms of the basis.
struct Ritz {
    values: Vec<f64>,
    vectors: Mat<f64>,
}

/// Pairs of eigenvalue and eigenvector, largest first, at most `count`, looked for near a given vector first. `none_above` may show
/// that no eigenvalue is greater than the one that it is told; then a single pair is not searched for any longer.
pub(crate) fn largest(
    (layout, factor, g): (&Layout, &Factor, &Matrix),
    (count, near): (usize, Option<&[f64]>),
    none_above: &dyn Fn(f64) -> bool,
) -> Result<Vec<(f64, Vec<f64>)>, Error> {
    // one pair that is shown to be the largest needs no block: what comes in pairs has the same load factor
    let width = if count == 1 { 1 } else { (count + 1).min(layout.size) };
    let least = RIPE * (count + 3).min(layout.size);
    let g = Product::of(layout, g);
    let images = start(width, near, factor, &g);
    let mut search = Search { factor, g, basis: vec![], projected: vec![], images };
    let first = search.orthonormal().0;
    search.append(first);
    let mut shown = count != 1;
    loop {
        let (fresh, spill) = search.orthonormal();
        let ripe = fresh.is_empty() || search.basis.len() >= least;
        if ripe || !shown {
            let ritz = search.ritz()?;
            if ripe && (fresh.is_empty() || search.settled(&ritz, &spill, (count, SETTLED))) {
                return Ok(search.pairs(&ritz, count));
            }
            if !shown
                && ritz.largest() > 0.0
                && search.settled(&ritz, &spill, (1, (NEARLY * ritz.gap()).sqrt()))
            {
                if none_above(ritz.largest() * (1.0 + ABOVE)) {
                    return Ok(search.pairs(&ritz, 1));
                }
                shown = true;
            }
        }
        if search.basis.len() + fresh.len() > MOST {
            return Err(Error::IllConditioned);
        }
        search.append(fresh);
    }
}

impl Ritz {
    /// Share of the largest value by which the next is smaller.
    fn gap(&self) -> f64 {
        let next = self.values.iter().rev().nth(1).copied().unwrap_or(0.0);
        (1.0 - next / self.largest()).min(1.0)
    }

    fn largest(&self) -> f64 {
        self.values.last().copied().unwrap_or(0.0)
    }
}

/// A symmetric matrix for products: links and pull along an axis put nothing into most entries of the pattern.
struct Product {
    diagonal: Vec<f64>,
    /// Row, column and value of what is not zero above the diagonal.
    above: Vec<(usize, usize, f64)>,
}

impl Product {
    fn of(layout: &Layout, matrix: &Matrix) -> Product {
        let mut out = Product { diagonal: Vec::with_capacity(layout.size), above: Vec::new() };
        for column in 0..layout.size {
            let (start, last) = (layout.columns[column], layout.columns[column + 1] - 1);
            let entries = layout.rows[start..last].iter().zip(&matrix.values[start..last]);
            out.above.extend(entries.filter(|(_, v)| **v != 0.0).map(|(row, v)| (*row, column, *v)));
            out.diagonal.push(matrix.values[last]);
        }
        out
    }

    fn times(&self, v: &[f64]) -> Vec<f64> {
        let mut out: Vec<f64> = self.diagonal.iter().zip(v).map(|(d, v)| d * v).collect();
        for &(row, column, value) in &self.above {
            out[row] += value * v[column];
            out[column] += value * v[row];
        }
        out
    }
}

/// A block of the same arbitrary vectors in every run, each as the answer to an arbitrary load; the first of them with what is
/// known of the answer.
fn start(width: usize, near: Option<&[f64]>, factor: &Factor, g: &Product) -> Vec<Pair> {
    let n = factor.scale.len();
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut next = |k: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 11) as f64 / (1_u64 << 53) as f64 - 0.5) / factor.scale[k]
    };
    let mut loads: Vec<f64> = (0..n * width).map(|k| next(k % n)).collect();
    loads.extend(near.map(|near| g.times(near)).into_iter().flatten());
    let mut found = answers(loads, n, factor);
    let size = |pair: &Pair| dot(&pair.0, &pair.1).max(0.0).sqrt();
    if let Some(known) = found.get(width).filter(|known| size(known).is_normal()) {
        let mut first = known.clone();
        take(&mut first, &found[0], -NOISE * size(known) / size(&found[0]));
        found[0] = first;
    }
    found.truncate(width);
    found
}

/// Pairs of an answer and its load.
fn answers(loads: Vec<f64>, n: usize, factor: &Factor) -> Vec<Pair> {
    let mut sides = loads.clone();
    factor.solve(&mut sides);
    sides.chunks_exact(n).zip(loads.chunks_exact(n)).map(|(x, b)| (x.to_vec(), b.to_vec())).collect()
}

fn take(from: &mut Pair, what: &Pair, k: f64) {
    from.0.iter_mut().zip(&what.0).for_each(|(a, b)| *a -= k * b);
    from.1.iter_mut().zip(&what.1).for_each(|(a, b)| *a -= k * b);
}

impl Search<'_> {
    /// The images of the last block made square to the basis and each other; and for each image, how
    /// much of it lies along each new direction.
    fn orthonormal(&mut self) -> (Vec<Pair>, Vec<Vec<f64>>) {
        let mut fresh: Vec<Pair> = Vec::new();
        let mut spill = Vec::new();
        for mut y in std::mem::take(&mut self.images) {
            let whole = dot(&y.0, &y.1).max(0.0).sqrt();
            let mut along = vec![0.0; fresh.len()];
            for _ in 0..2 {
                for v in &self.basis {
                    let k = dot(&v.1, &y.0);
                    take(&mut y, v, k);
                }
                for (v, sum) in fresh.iter().zip(&mut along) {
                    let k = dot(&v.1, &y.0);
                    take(&mut y, v, k);
                    *sum += k;
                }
            }
            let left = dot(&y.0, &y.1).max(0.0).sqrt();
            if left > USED_UP * whole {
                along.push(left);
                y.0.iter_mut().chain(&mut y.1).for_each(|v| *v /= left);
                fresh.push(y);
            }
            spill.push(along);
        }
        (fresh, spill)
    }

    /// Takes new directions into the basis and finds their images.
    fn append(&mut self, fresh: Vec<Pair>) {
        let mut loads = Vec::new();
        for pair in fresh {
            let image = self.g.times(&pair.0);
            self.basis.push(pair);
            self.projected.push(self.basis.iter().map(|v| dot(&v.0, &image)).collect());
            loads.extend(image);
        }
        self.images = answers(loads, self.factor.scale.len(), self.factor);
    }

    fn ritz(&self) -> Result<Ritz, Error> {
        let m = self.basis.len();
        let t = Mat::from_fn(m, m, |a, b| self.projected[a.max(b)][a.min(b)]);
        let parts = t.self_adjoint_eigen(Side::Lower).map_err(|_| Error::IllConditioned)?;
        let values = (0..m).map(|k| parts.S().column_vector()[k]).collect();
        Ok(Ritz { values, vectors: parts.U().to_owned() })
    }

    /// Whether the largest values are settled. Only the images of the last block leave the basis.
    fn settled(&self, ritz: &Ritz, spill: &[Vec<f64>], (count, enough): (usize, f64)) -> bool {
        let m = self.basis.len();
        let start = m - spill.len();
        let width = spill.iter().map(Vec::len).max().unwrap_or(0);
        let most = ritz.values.iter().fold(0.0, |a: f64, v| a.max(v.abs()));
        (0..count.min(m)).all(|k| {
            let column = m - 1 - k;
            let part = |q: usize| {
                let terms = spill.iter().enumerate();
                terms
                    .map(|(i, s)| s.get(q).copied().unwrap_or(0.0) * ritz.vectors[(start + i, column)])
                    .sum::<f64>()
            };
            let residual = (0..width).map(|q| part(q) * part(q)).sum::<f64>().sqrt();
            let value = ritz.values[column];
            // A value at or below zero is no answer; it need only be sure not to rise.
            residual <= enough * value.abs() || (value <= ZERO * most && residual <= 1e-3 * most)
        })
    }

    fn pairs(&self, ritz: &Ritz, count: usize) -> Vec<(f64, Vec<f64>)> {
        let m = self.basis.len();
        let most = ritz.values.iter().fold(0.0, |a: f64, v| a.max(v.abs()));
        let wanted = (0..count.min(m)).map(|k| m - 1 - k).filter(|&c| ritz.values[c] > ZERO * most);
        let vector = |c: usize| {
            let mut out = vec![0.0; self.factor.scale.len()];
            for (k, (v, _)) in self.basis.iter().enumerate() {
                out.iter_mut().zip(v).for_each(|(a, b)| *a += ritz.vectors[(k, c)] * b);
            }
            out
        };
        wanted.map(|c| (ritz.values[c], vector(c))).collect()
    }
}

/// In eight sums side by side, so that no addition waits for the one before.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (a, b) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest: f64 = a.remainder().iter().zip(b.remainder()).map(|(x, y)| x * y).sum();
    let mut sums = [0.0; 8];
    for (x, y) in a.zip(b) {
        sums = std::array::from_fn(|k| sums[k] + x[k] * y[k]);
    }
    rest + sums.iter().sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The upper triangle `[[2, 0, -1], [3, 4], [5]]` in columns: `[[2, 0, -1], [0, 3, 4], [-1, 4, 5]]` times (1, 2, 3) is
    /// (-1, 18, 22).
    #[test]
    fn a_product_leaves_out_what_is_zero() {
        let mut layout = Layout::default();
        (layout.size, layout.columns, layout.rows) = (3, vec![0, 1, 3, 6], vec![0, 0, 1, 0, 1, 2]);
        let matrix = Matrix { values: vec![2.0, 0.0, 3.0, -1.0, 4.0, 5.0] };
        let product = Product::of(&layout, &matrix);
        assert_eq!(product.above.len(), 2);
        assert_eq!(product.times(&[1.0, 2.0, 3.0]), [-1.0, 18.0, 22.0]);
    }
}
