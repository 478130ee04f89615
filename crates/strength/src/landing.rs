//! A chair that rolls off a kerb: forward it comes down on its front wheels while the others still stand up there, backward on
//! its rear wheels.
//!
//! It turns about the wheels that stay, so that every weight falls, and is stopped, by its share `s` of the way from those to the
//! ones that land: 0 over the first, 1 over the second. Of its weights p the chair puts F = Σp·s on the wheels that land, and falls
//! with an energy of F·h. p·s·F/Σp·s² on every weight is F on these wheels, and δ is how far they sink under that, by the work of
//! it: they are pressed to n = 1 + √(1 + 2h/δ) times F, as in a drop (energy of a spring), and at that moment the weights and
//! n − 1 times what stops them act together. What stops them is shared out as a turning body has it (d'Alembert): p·s·F/(Σp·s² + Σp·z²/L²) on every
//! weight, z being how far it is above or below the centre of mass and L the way between the wheels, for what is high up is swung to and
//! fro; what that takes comes to the wheels that land as it is, and how it bends the frame on its way is not known.
//!
//! Further out than the wheels that land is hardly anything but the rider's legs, which fold at the knee, nobody knows by how much:
//! what is there falls from its own height, but is stopped no harder than what is over those wheels; these are pressed as hard as
//! if it were.

use crate::case::{Case, CaseKind, End, Lasting, case};
use crate::cases::Maker;
use crate::load::{G, Push};
use crate::remark::Source;
use crate::structure::Structure;
use crate::tyre::Tyres;
use chairwright_design::Vec3;

/// Wheels that land, and what on them counts once.
pub(crate) struct Landing {
    end: End,
    /// The weights by their shares, of the size that puts on these wheels what they carry at rest: how far the chair gives way under
    /// these is asked for.
    pub falls: Vec<Push>,
    /// What stops the chair, of the same size.
    stops: Vec<Push>,
    /// What they carry at rest, and all of the weight, N.
    carries: (f64, f64),
}

impl Landing {
    /// How far the wheels sink under what falls, m, of the mean sinking of that.
    pub fn sinks(&self, give: f64) -> f64 {
        give * down(&self.falls) / self.carries.0
    }

    /// The case, `give` being how far the wheels sink under what falls on chair and tyres, and on tyres that do not give way
    /// where one is pressed flat, m, and `feet` what each wheel then carries; `None` where its size could not be computed.
    pub fn sized(
        &self,
        seated: &[Push],
        (tyres, height): (&Tyres, f64),
        give: (f64, Option<f64>),
        feet: &[f64],
    ) -> Option<Case> {
        let (factor, _) = tyres.fall(height, give, feet).ok()?;
        let (carried, whole) = self.carries;
        let source =
            Source::Lands { share: carried / whole, factor, height, give: give.0, flat: give.1.is_some() };
        let mut pushes = seated.to_vec();
        pushes.extend(self.stops.iter().map(|p| p.times(factor - 1.0)));
        let size = 1.0 + (factor - 1.0) * down(&self.stops) / whole;
        Some(case(CaseKind::Landing(self.end, height), Lasting::Impact, size, source, pushes))
    }
}

impl Maker<'_> {
    /// Landing on what stands ahead of the centre of mass, and on what stands behind it, by what each wheel carries at rest.
    pub(crate) fn landings(&self, feet: &[f64], seated: &[Push]) -> Vec<Landing> {
        let tall = self.tall();
        let front = |k: &usize| self.contact(*k).x > self.total.1.x;
        let (ahead, behind): (Vec<usize>, Vec<usize>) = (0..feet.len()).partition(front);
        // where what they carry acts
        let middle = |on: &[usize]| {
            let carried: f64 = on.iter().map(|k| feet[*k].max(0.0)).sum();
            let x = on.iter().map(|k| self.contact(*k).x * feet[*k].max(0.0) / carried).sum::<f64>();
            (carried > 1.0).then_some(x)
        };
        let Some((front, rear)) = middle(&ahead).zip(middle(&behind)) else { return Vec::new() };
        let each = [(End::Front, (front, rear), &ahead), (End::Rear, (rear, front), &behind)];
        let one = |(end, places, on): (End, (f64, f64), &Vec<usize>)| {
            let (mut found, swung) = landing(self.all, end, places, (seated, tall))?;
            let carried: f64 = on.iter().map(|k| feet[*k].max(0.0)).sum();
            for k in on {
                let force = Vec3::Z * (-swung * feet[*k].max(0.0) / carried);
                found.stops.extend(self.at_point(self.all.footings[*k].hub, force));
            }
            Some(found)
        };
        each.into_iter().filter_map(one).collect()
    }

    /// Sum of the weights of chair and rider, each times the square of how far it is above or below the centre of mass, N·m²; of
    /// what rides along nobody knows how it hangs.
    fn tall(&self) -> f64 {
        let bodies = self.frame.bodies.iter().map(|b| (b.mass, b.centre));
        let segments = self.checked.rider.iter().flat_map(|r| r.segments.iter().map(|s| (s.mass, s.centre)));
        let all: Vec<(f64, f64)> =
            bodies.chain(segments).map(|(m, at)| (m * G, self.settled.pose.place(at).z)).collect();
        let weight: f64 = all.iter().map(|w| w.0).sum();
        let middle = all.iter().map(|(w, z)| w * z).sum::<f64>() / weight.max(1e-9);
        all.iter().map(|(w, z)| w * (z - middle) * (z - middle)).sum()
    }
}

/// The sum of pushes downward, N.
fn down(pushes: &[Push]) -> f64 {
    pushes.iter().map(|p| -p.force().z).sum()
}

/// Landing on wheels at one place along the chair, about others at another, of weights that are so tall, N·m²; and what comes to the
/// wheels beside what stops the weights, N.
fn landing(
    all: &Structure,
    end: End,
    (on, about): (f64, f64),
    (seated, tall): (&[Push], f64),
) -> Option<(Landing, f64)> {
    let share = |p: &Push| ((p.place(all).x - about) / (on - about)).max(0.0);
    let sum = |of: &dyn Fn(f64) -> f64| seated.iter().map(|p| -p.force().z * of(share(p))).sum::<f64>();
    let (carried, square, whole) = (sum(&|s| s), sum(&|s| s * s.min(1.0)), sum(&|_| 1.0));
    if !(carried > 1.0 && square > 0.0) {
        return None;
    }
    let by = carried / (square + tall / ((on - about) * (on - about)));
    let times = |by: f64| seated.iter().map(|p| p.times(share(p).min(1.0) * by)).collect();
    let (falls, stops) = (times(carried / square), times(by));
    Some((Landing { end, falls, stops, carries: (carried, whole) }, carried - by * square))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::structure::Port;

    /// 300 N over the rear wheels, 400 N halfway and 100 N over the front ones, 0.4 m ahead: the front carries 200 + 100 = 300 N. Shares 0,
    /// 1/2 and 1: Σp·s² = 100 + 100 = 200 N, so that what stops is 1.5 times p·s: 0, 300 and 150 N, of which the front carries 150 + 150
    /// = 300 N again, and the rear 150 N. A mean give of 2 mm of these 450 N is 3 mm at the front: from 50 mm 1 + √(1 + 100/3) = 6.859. Then
    /// 300, 400 + 5.859·300 and 100 + 5.859·150 N act, 3 437 N of 800 N, and the front has 6.859·300 = 2 058 N of them.
    #[test]
    fn a_chair_turns_about_the_wheels_that_stay() {
        let rail = bar(Vec3::ZERO, Vec3::X * 0.6, Vec3::Z, Form::Rod { diameter: 0.02 });
        let all = Structure { bars: vec![rail], ..Structure::default() };
        let push =
            |at: f64, n: f64| Push::At { port: Port { bar: 0, at }, force: Vec3::Z * -n, moment: Vec3::ZERO };
        let seated = vec![push(0.0, 300.0), push(0.2, 400.0), push(0.4, 100.0)];
        let (l, swung) = landing(&all, End::Front, (0.4, 0.0), (&seated, 0.0)).unwrap();
        assert!(swung.abs() < 1e-9);
        let sizes: Vec<f64> = l.stops.iter().map(|p| -p.force().z).collect();
        assert!(sizes.iter().zip([0.0, 300.0, 150.0]).all(|(a, b)| (a - b).abs() < 1e-9), "{sizes:?}");
        assert!((l.sinks(0.002) - 0.003).abs() < 1e-12);
        let tyres = Tyres { stiffness: vec![1e6; 2], room: vec![0.1; 2] };
        let found = l.sized(&seated, (&tyres, 0.050), (0.003, None), &[150.0, 300.0]).unwrap();
        let on = |k: fn(f64) -> f64| {
            found.pushes.iter().map(|p| -p.force().z * k(p.place(&all).x / 0.4)).sum::<f64>()
        };
        assert!((found.size - 3436.6 / 800.0).abs() < 1e-3, "{}", found.size);
        assert!((on(|_| 1.0) - 3436.6).abs() < 0.5 && (on(|s| s) - 2057.7).abs() < 0.5, "{}", on(|s| s));
        // 100 N on the feet, 0.6 m ahead, are 150 N at the front, and are stopped like the 100 N over it: F = 450 N, Σp·s·min(s, 1) = 350 N, 9/7
        // times p: 257, 129 and 129 N, of which the front carries 129 + 129 + 1.5·129 = 450 N
        let legs = [seated.clone(), vec![push(0.6, 100.0)]].concat();
        let (l, _) = landing(&all, End::Front, (0.4, 0.0), (&legs, 0.0)).unwrap();
        let sizes: Vec<f64> = l.stops.iter().map(|p| -p.force().z).collect();
        assert!((sizes[1] - 257.14).abs() < 0.01 && sizes[2] == sizes[3], "{sizes:?}");
        assert!(
            (l.stops.iter().map(|p| -p.force().z * p.place(&all).x / 0.4).sum::<f64>() - 450.0).abs() < 1e-9
        );
        // of 32 N·m² above and below the middle 32/0.4² = 200 N beside the first 200 N: half of it stops the weights, and 150 N come to the wheels
        let (l, swung) = landing(&all, End::Front, (0.4, 0.0), (&seated, 32.0)).unwrap();
        let sizes: Vec<f64> = l.stops.iter().map(|p| -p.force().z).collect();
        assert!((sizes[1] - 150.0).abs() < 1e-9 && (swung - 150.0).abs() < 1e-9, "{sizes:?} {swung}");
        // nothing stands on wheels that are all in one place
        assert!(landing(&all, End::Rear, (0.0, 0.4), (&[push(0.4, 100.0)], 0.0)).is_none());
    }
}
