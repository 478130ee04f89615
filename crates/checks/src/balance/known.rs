//! Where a search for the worst swivel need not look again.

/// Swivels around that of a search which it has been at or turned down: as it only ever gets better, none of them is better
/// now. Only those that differ by one caster are kept, as (caster, steps).
pub(super) struct Known(Vec<(usize, i32)>);

impl Known {
    /// Where a search begins, in steps of half a coarse one: no combination beside it is better.
    pub(super) fn beside(casters: usize) -> Known {
        let mut known = Vec::with_capacity(12 * casters);
        known.extend((0..casters).flat_map(|i| [(i, 2), (i, -2)]));
        Known(known)
    }

    /// Whether a swivel is known already; if not, it is from now on.
    pub(super) fn tries(&mut self, caster: usize, by: i32) -> bool {
        let known = self.0.contains(&(caster, by));
        if !known {
            self.0.push((caster, by));
        }
        known
    }

    /// The search goes there: what differs by another caster from where it was differs by two now.
    pub(super) fn goes(&mut self, caster: usize, by: i32) {
        self.0.retain(|k| k.0 == caster);
        self.0.push((caster, 0));
        self.0.iter_mut().for_each(|k| k.1 -= by);
    }

    /// From here on steps are half as long.
    pub(super) fn halve(&mut self) {
        self.0.iter_mut().for_each(|k| k.1 *= 2);
    }
}
