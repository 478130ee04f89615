//! Figures of published books, standards and hand calculations. Each names its source beside its figures, and the
//! tolerance is the rounding of the printed value unless it says otherwise.
#![allow(clippy::unwrap_used, reason = "functions that the tests share")]

#[path = "books/aircraft_structures.rs"]
mod aircraft_structures;
#[path = "books/aisc_second_order.rs"]
mod aisc_second_order;
#[path = "books/astm_d1785_pressure.rs"]
mod astm_d1785_pressure;
#[path = "books/astm_d2564_cement.rs"]
mod astm_d2564_cement;
#[path = "books/bolts_iso_sae.rs"]
mod bolts_iso_sae;
#[path = "books/buried_pipe_design.rs"]
mod buried_pipe_design;
#[path = "books/common.rs"]
mod common;
#[path = "books/elastic_beams.rs"]
mod elastic_beams;
#[path = "books/hand.rs"]
mod hand;
#[path = "books/nds_columns_and_members.rs"]
mod nds_columns_and_members;
#[path = "books/nds_dowels.rs"]
mod nds_dowels;
#[path = "books/nds_withdrawal.rs"]
mod nds_withdrawal;
#[path = "books/pvc_heat_and_time.rs"]
mod pvc_heat_and_time;
#[path = "books/shocks.rs"]
mod shocks;
#[path = "books/tables.rs"]
mod tables;
#[path = "books/trade_anchors.rs"]
mod trade_anchors;
#[path = "books/wood_handbook.rs"]
mod wood_handbook;
