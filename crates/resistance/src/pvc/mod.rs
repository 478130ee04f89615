//! Rigid PVC: heat, time under load, allowable stress, repeated load, pressure rating.

mod fatigue;
mod pressure;
mod stress;
mod temperature;
mod time;
mod wall;

pub use fatigue::{
    Block, CYCLES, Combined, FIT, Life, LifeBand, SUM, combined, cycles, equivalent_cycles, life,
    repeated_stress,
};
pub use pressure::{design_stress, pressure_rating};
pub use stress::{Duty, Wall, allowable_bending, softened_modulus};
pub use temperature::{Cold, Factor, FactorTable, ISO_20C, US_73F, along, cautious_factor, cold, factor};
pub use time::{CREEP, Relaxation, STRENGTH, TENSILE, duration_factor, sustained_ratio};
pub use wall::{LIGHTEST, wall};
