//! ASTM D2564 lap shear of cement (from memory), sockets of ASTM D2466/D2468, and the trade's figures for them.

use super::common::{INCH, MPA, PSI, allowed, celsius, near};
use chairwright_resistance::socket::{
    Bond, Fit, Fitting, Lip, Socket, contact, cure_slowed, engaged_area, insertion, lap_shear, moment,
    pull_out, sprung_shut, twist,
};
use chairwright_resistance::{Assumed, Mode, Need, Never, Refusal};

const HOUR: f64 = 3600.0;

fn socket() -> Socket {
    Socket { fitting: Fitting::Stop, diameter: 0.0422, depth: 0.0238, engaged: 0.0238 }
}

/// 250, 500 and 900 psi are printed as 1.72, 3.45 and 6.21 MPa.
#[test]
fn cure_steps() {
    for (hours, printed) in
        [(2.0, 1.72), (15.9, 1.72), (16.0, 3.45), (71.0, 3.45), (72.0, 6.21), (1000.0, 6.21)]
    {
        near(lap_shear(hours * HOUR, 1.0, 1.0).unwrap().value / MPA, printed, 0.005);
    }
    assert!(lap_shear(1.9 * HOUR, 1.0, 1.0).is_err());
    let early = lap_shear(20.0 * HOUR, 1.0, 1.0).unwrap();
    assert!(early.assumed.contains(&Assumed::CureHours(16.0)));
    assert!(early.needs.contains(&Need::WaitSeconds(72.0 * HOUR)));
}

/// Published set and cure table: 370 psi in 6 h at 60 to 100 degF, 12 h at 40 to 60, 48 h at 0 to 40; half as long again
/// above 60 % humidity.
#[test]
fn cold_and_damp() {
    for (t, hours) in [(20.0, 6.0), (10.0, 12.0), (0.0, 48.0)] {
        near(6.0 * cure_slowed(celsius(t), false).unwrap(), hours, 1e-9);
        near(6.0 * cure_slowed(celsius(t), true).unwrap(), 1.5 * hours, 1e-9);
    }
    assert!(cure_slowed(celsius(-18.0), false).is_err() && cure_slowed(celsius(40.0), false).is_err());
}

/// Weld area of 1 1/4 in: π × 42.2 × 23.8 = 3 150 mm² (the job's figure, three digits).
#[test]
fn weld_area() {
    near(engaged_area(0.0422, 0.0238) * 1e6, 3150.0, 6.0);
}

/// Pull of "many kN" by hand: 3 155.3 mm² × 900 psi (6.2053 MPa) = 19 580 N where the fit is close all along; a third
/// of it where it is so along a third. Torque: × 21.1 mm.
#[test]
fn pull_and_twist() {
    let bond = |close, gap| Bond { shear: lap_shear(72.0 * HOUR, 1.0, 1.0).unwrap(), close, gap };
    near(pull_out(&socket(), &bond(1.0, 0.0)).unwrap().value, 19_580.0, 5.0);
    near(pull_out(&socket(), &bond(1.0 / 3.0, 0.0)).unwrap().value, 6_527.0, 2.0);
    near(twist(&socket(), &bond(1.0, 0.0)).unwrap().value, 413.1, 0.1);
    // The gap-filled two thirds at half strength: (1/3 + 1/3) of the whole.
    near(pull_out(&socket(), &bond(1.0 / 3.0, 0.5)).unwrap().value, 13_053.0, 3.0);
    // 4 mm short of the stop: the close third (7.933 mm) loses 4 mm of itself.
    let short = Socket { engaged: 0.0198, ..socket() };
    let held = pull_out(&short, &bond(1.0 / 3.0, 0.0)).unwrap();
    near(held.value, 19_580.0 * (7.9333 - 4.0) / 23.8, 2.0);
    assert!(held.needs.contains(&Need::InsertToStop));
    assert!(pull_out(&socket(), &bond(0.3, 1.01)).is_err() && pull_out(&socket(), &bond(1.01, 0.0)).is_err());
    let slip = Socket { fitting: Fitting::Slip, ..socket() };
    assert_eq!(pull_out(&slip, &bond(1.0, 0.0)), Err(Never::SlipFittingByCementAlone.into()));
}

/// Couple by hand: 8.6 MPa × 42.2 mm × (23.8 mm)² / 6 = 34.26 N·m. Lip: the job's 5 MPa on 3 847 mm³ = 19.2 N·m.
#[test]
fn moment_of_a_socket() {
    let lip = |stress: f64, notch| Lip { stress: allowed(stress), section_modulus: 3.847e-6, notch };
    let couple = moment(&socket(), 8.6 * MPA, &lip(50.0 * MPA, 1.0)).unwrap();
    near(couple.value, 34.26, 0.01);
    assert_eq!(couple.mode, Mode::SocketCouple);
    let bent = moment(&socket(), 8.6 * MPA, &lip(5.0 * MPA, 1.0)).unwrap();
    near(bent.value, 19.2, 0.05);
    assert_eq!(bent.mode, Mode::SocketLip);
    near(moment(&socket(), 8.6 * MPA, &lip(5.0 * MPA, 2.0)).unwrap().value, 9.6, 0.03);
    let threaded = Socket { fitting: Fitting::Threaded, ..socket() };
    assert_eq!(moment(&threaded, 8.6 * MPA, &lip(5.0 * MPA, 1.0)), Err(Never::ThreadedAdapterBending.into()));
}

#[test]
fn insertion_is_checked() {
    near(insertion(&Socket { engaged: 0.0119, ..socket() }).unwrap(), 0.5, 1e-9);
    assert_eq!(insertion(&Socket { engaged: 0.0118, ..socket() }), Err(Never::HalfInserted.into()));
    assert!(matches!(insertion(&Socket { engaged: 0.03, ..socket() }), Err(Refusal::Outside(_))));
}

/// 1 1/4 in: entrance 1.670, bottom 1.655, pipe 1.660 ± 0.005 in: the job computes contact at 33 to 100 % of the depth,
/// mean 67 %.
#[test]
fn contact_of_a_dry_pipe() {
    let at = |pipe: f64| contact(&Fit { pipe: pipe * INCH, entrance: 1.670 * INCH, bottom: 1.655 * INCH });
    near(at(1.665).unwrap(), 0.33, 0.005);
    near(at(1.660).unwrap(), 0.67, 0.005);
    near(at(1.6550001).unwrap(), 1.0, 0.005);
    assert!(matches!(at(1.671), Err(Refusal::Outside(_))));
    // Metric pipe of 40 mm in the same socket touches nowhere.
    assert_eq!(at(40.0 / 25.4), Err(Never::LooseSocket.into()));
}

/// Springing two 400 mm legs of 1 1/4 in pipe by one socket depth: about 250 N each, 26 MPa locked in (the job's figures,
/// two digits). The modulus that gives them is the class minimum, 400 000 psi.
#[test]
fn sprung() {
    let s = sprung_shut(400_000.0 * PSI, 81_044e-12, 0.02108, 0.4, 0.0238).unwrap();
    near(s.force, 250.0, 5.0);
    near(s.stress / MPA, 26.0, 0.5);
    assert_eq!(s.refused, Never::SprungShut);
}
