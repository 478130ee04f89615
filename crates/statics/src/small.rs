//! A small dense symmetric matrix of which is known what part is below zero: factors without exchange of rows.

use std::ops::Range;

/// Pivots of the scaled matrix below this are not trusted.
const TINY: f64 = 1e-7;

/// The factors `L·D·Lᵀ`.
#[derive(Clone, Debug)]
pub(crate) struct Small {
    /// Below the diagonal L, on it D.
    rows: Vec<Vec<f64>>,
    /// Smallest pivot against what its diagonal was given as, one at most.
    pub least: f64,
}

impl Small {
    /// Factors a matrix, lower triangle. `given` is the size to compare each pivot with, zero for the diagonal itself; the
    /// pivots of `minus` must be below zero and the rest above. `None` where one is not for sure.
    pub fn new(mut rows: Vec<Vec<f64>>, given: &[f64], minus: Range<usize>) -> Option<Small> {
        let mut least = 1.0_f64;
        for k in 0..rows.len() {
            let scale = given[k].abs().max(rows[k][k].abs());
            for c in 0..k {
                let known: f64 = (0..c).map(|j| rows[k][j] * rows[c][j] * rows[j][j]).sum();
                rows[k][c] = (rows[k][c] - known) / rows[c][c];
            }
            let known: f64 = (0..k).map(|j| rows[k][j] * rows[k][j] * rows[j][j]).sum();
            let pivot = rows[k][k] - known;
            let sign = if minus.contains(&k) { -1.0 } else { 1.0 };
            let share = sign * pivot / scale;
            // not a number is not sound either
            if share.is_nan() || share < TINY {
                return None;
            }
            rows[k][k] = pivot;
            least = least.min(share);
        }
        Some(Small { rows, least })
    }

    /// Solves in place.
    pub fn solve(&self, side: &mut [f64]) {
        let n = self.rows.len();
        for k in 0..n {
            let known: f64 = (0..k).map(|c| self.rows[k][c] * side[c]).sum();
            side[k] -= known;
        }
        side.iter_mut().zip(&self.rows).enumerate().for_each(|(k, (v, row))| *v /= row[k]);
        for k in (0..n).rev() {
            let known: f64 = (k + 1..n).map(|r| self.rows[r][k] * side[r]).sum();
            side[k] -= known;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `[[4, 2], [2, -3]]` times (1, 2) is (8, -4).
    #[test]
    fn solves_two_rows_by_hand() {
        let small = Small::new(vec![vec![4.0, 0.0], vec![2.0, -3.0]], &[4.0, 3.0], 1..2).unwrap();
        let mut side = [8.0, -4.0];
        small.solve(&mut side);
        assert!((side[0] - 1.0).abs() < 1e-15 && (side[1] - 2.0).abs() < 1e-15, "{side:?}");
    }

    /// `[[1, 1], [1, 1]]` leaves nothing for its second pivot, and one below zero is not above it.
    #[test]
    fn refuses_what_does_not_hold() {
        assert!(Small::new(vec![vec![1.0, 0.0], vec![1.0, 1.0]], &[1.0, 1.0], 0..0).is_none());
        assert!(Small::new(vec![vec![-1.0]], &[1.0], 0..0).is_none());
        assert!(Small::new(vec![vec![f64::NAN]], &[1.0], 0..0).is_none());
    }
}
