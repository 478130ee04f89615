//! Largest of many sixes, direction by direction.

use crate::element::Six;

/// Running largest sizes of six directions, and a sum that shows whether a number was not finite.
#[derive(Clone, Copy, Default)]
pub(crate) struct Lanes {
    most: Six,
    sum: Six,
}

impl Lanes {
    /// Of all the given.
    pub fn over<'a>(all: impl Iterator<Item = &'a Six>) -> Lanes {
        let mut out = Lanes::default();
        all.for_each(|six| out.put(six));
        out
    }

    pub fn put(&mut self, six: &Six) {
        for ((most, sum), v) in self.most.iter_mut().zip(&mut self.sum).zip(six) {
            let size = v.abs();
            // One instruction where `f64::max` takes three; what is no number shows in the sum.
            *most = if size > *most { size } else { *most };
            *sum += size;
        }
    }

    /// Largest force and largest moment.
    pub fn pair(&self) -> [f64; 2] {
        let m = &self.most;
        [m[0].max(m[1]).max(m[2]), m[3].max(m[4]).max(m[5])]
    }

    pub fn finite(&self) -> bool {
        self.sum.iter().all(|v| v.is_finite())
    }
}
