//! Sums and products of blocks of six by six, in lanes as wide as the machine has.

use pulp::Simd;

/// Unknowns of a node; held ones are a row of the unit matrix.
pub(super) const SIX: usize = 6;
/// Rows that are kept of them: a power of two, so that lanes are full; the last two are zero.
pub(super) const ROWS: usize = 8;
/// One column of a block, or the six figures of a node.
pub(super) type Column = [f64; ROWS];
/// A block by columns: `block[column][row]`.
pub(super) type Block = [Column; SIX];
pub(super) const ZERO: Block = [[0.0; ROWS]; SIX];

/// What can be done with blocks.
#[derive(Clone, Copy)]
pub(super) struct Kernel<S>(pub S);

#[inline(always)]
fn lanes<S: Simd>(column: &Column) -> &[S::f64s] {
    S::as_simd_f64s(column).0
}

#[inline(always)]
fn lanes_mut<S: Simd>(column: &mut Column) -> &mut [S::f64s] {
    S::as_mut_simd_f64s(column).0
}

impl<S: Simd> Kernel<S> {
    /// How many lots of lanes a column is.
    const LOTS: usize = ROWS / S::F64_LANES;

    /// Adds lanes times one figure.
    #[inline(always)]
    fn add(self, sum: S::f64s, a: S::f64s, by: f64) -> S::f64s {
        self.0.mul_add_f64s(a, self.0.splat_f64s(by), sum)
    }

    /// `A·x`.
    #[inline(always)]
    pub fn times(self, a: &Block, x: &Column) -> Column {
        let mut out = [0.0; ROWS];
        for lot in 0..Self::LOTS {
            let mut sum = self.0.splat_f64s(0.0);
            for (column, by) in a.iter().zip(x) {
                sum = self.add(sum, lanes::<S>(column)[lot], *by);
            }
            lanes_mut::<S>(&mut out)[lot] = sum;
        }
        out
    }

    /// `y − A·x`, in place.
    #[inline(always)]
    pub fn subtract_times(self, y: &mut Column, a: &Block, x: &Column) {
        for lot in 0..Self::LOTS {
            let mut sum = lanes::<S>(y)[lot];
            for (column, by) in a.iter().zip(x) {
                sum = self.add(sum, lanes::<S>(column)[lot], -by);
            }
            lanes_mut::<S>(y)[lot] = sum;
        }
    }

    /// `Aᵀ·x`, summed over pairs of them.
    #[inline(always)]
    pub fn sum_along<'a>(self, pairs: impl Iterator<Item = (&'a Block, &'a Column)>) -> [f64; SIX] {
        let mut sums = [self.0.splat_f64s(0.0); SIX];
        for (a, x) in pairs {
            for lot in 0..Self::LOTS {
                let x = lanes::<S>(x)[lot];
                for (sum, column) in sums.iter_mut().zip(a) {
                    *sum = self.0.mul_add_f64s(lanes::<S>(column)[lot], x, *sum);
                }
            }
        }
        // no `map`: what is not inlined knows no wide lanes
        let mut out = [0.0; SIX];
        for (out, sum) in out.iter_mut().zip(sums) {
            *out = self.0.reduce_sum_f64s(sum);
        }
        out
    }

    /// `A·L⁻ᵀ` of a unit lower triangle, in place: by substitution, which loses no digits to an inverse.
    #[inline(always)]
    pub fn divide_transposed(self, a: &mut Block, lower: &Block) {
        for done in 0..SIX {
            let (first, rest) = a.split_at_mut(done + 1);
            let column = first[done];
            for (to, by) in rest.iter_mut().zip(&lower[done][done + 1..]) {
                self.less(to, &column, *by);
            }
        }
    }

    /// `C − A·Bᵀ`, in place.
    #[inline(always)]
    pub fn subtract(self, c: &mut Block, a: &Block, b: &Block) {
        for lot in 0..Self::LOTS {
            let mut mine = [self.0.splat_f64s(0.0); SIX];
            for (mine, column) in mine.iter_mut().zip(a) {
                *mine = self.0.neg_f64s(lanes::<S>(column)[lot]);
            }
            for (j, c) in c.iter_mut().enumerate() {
                let mut sum = lanes::<S>(c)[lot];
                for (column, b) in mine.iter().zip(b) {
                    sum = self.add(sum, *column, b[j]);
                }
                lanes_mut::<S>(c)[lot] = sum;
            }
        }
    }

    /// Every column times a figure of its own.
    #[inline(always)]
    pub fn columns_times(self, a: &Block, by: &[f64; SIX]) -> Block {
        let mut out = ZERO;
        for ((out, column), by) in out.iter_mut().zip(a).zip(by) {
            for lot in 0..Self::LOTS {
                lanes_mut::<S>(out)[lot] = self.0.mul_f64s(lanes::<S>(column)[lot], self.0.splat_f64s(*by));
            }
        }
        out
    }

    /// The unit lower triangle of a block (below its diagonal), the inverse of that, and the diagonal; `pivot` may replace what it
    /// finds.
    #[inline(always)]
    pub fn triangle(
        self,
        block: &Block,
        mut pivot: impl FnMut(usize, f64) -> f64,
    ) -> (Block, Block, [f64; SIX]) {
        let mut rest = *block;
        let mut d = [0.0; SIX];
        let (mut lower, mut inverse) = (ZERO, ZERO);
        (0..SIX).for_each(|k| inverse[k][k] = 1.0);
        for k in 0..SIX {
            d[k] = pivot(k, rest[k][k]);
            let over = 1.0 / d[k];
            let column: Column =
                std::array::from_fn(|r| if r > k && r < SIX { rest[k][r] * over } else { 0.0 });
            lower[k] = column;
            // the same elimination of the unit matrix, of which the columns up to here have something in this row
            for from in rest[k + 1..].iter_mut().chain(&mut inverse[..=k]) {
                let by = from[k];
                self.less(from, &column, by);
            }
        }
        (lower, inverse, d)
    }

    #[inline(always)]
    fn less(self, from: &mut Column, column: &Column, by: f64) {
        for lot in 0..Self::LOTS {
            let sum = self.add(lanes::<S>(from)[lot], lanes::<S>(column)[lot], -by);
            lanes_mut::<S>(from)[lot] = sum;
        }
    }
}
