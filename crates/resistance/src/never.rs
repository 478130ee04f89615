//! Load paths that are refused whatever the numbers say.

use crate::source::Source;

/// What must never carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Never {
    /// A screw or nail pulled out of end grain.
    EndGrainWithdrawal,
    /// A screw or nail pulled out of the edge of a panel, between its plies.
    PanelEdgeWithdrawal,
    /// A bolt that bears on bare pipe walls under a load that stays.
    UnsleevedBoltSustained,
    /// A threaded adapter of plastic in bending: its thread is a notch.
    ThreadedAdapterBending,
    /// Pipe with a cellular (foam) core, whatever its outside sizes.
    CellularCorePipe,
    /// A cone axle held on one side only.
    OneSidedConeAxle,
    /// A glued butt joint on end grain.
    EndGrainButtGlue,
    /// A line of PVA glue alone under a tension that stays: it creeps.
    PvaSustainedTension,
    /// A glue whose class does not reach the climate it lives in.
    GlueBelowClimate,
    /// A slip fitting without a stop held by cement alone.
    SlipFittingByCementAlone,
    /// A socket in which the pipe touches nowhere: cement does not bridge the gap.
    LooseSocket,
    /// A joint of fasteners in wood that relies on the duration factor of an impact.
    ImpactFactorOnConnection,
    /// A frame bent by force to close its last joint.
    SprungShut,
    /// A socket pushed less than half home.
    HalfInserted,
}

impl Never {
    /// Every one.
    pub const ALL: [Never; 14] = [
        Never::EndGrainWithdrawal,
        Never::PanelEdgeWithdrawal,
        Never::UnsleevedBoltSustained,
        Never::ThreadedAdapterBending,
        Never::CellularCorePipe,
        Never::OneSidedConeAxle,
        Never::EndGrainButtGlue,
        Never::PvaSustainedTension,
        Never::GlueBelowClimate,
        Never::SlipFittingByCementAlone,
        Never::LooseSocket,
        Never::ImpactFactorOnConnection,
        Never::SprungShut,
        Never::HalfInserted,
    ];

    /// Why it is refused.
    #[must_use]
    pub const fn source(self) -> Source {
        match self {
            Never::EndGrainWithdrawal => Source::published(
                "Wood Handbook and NDS: wood screws are not to be loaded in withdrawal from end grain",
            ),
            Never::PanelEdgeWithdrawal => Source::practice("screws in a panel's edge split its plies"),
            Never::UnsleevedBoltSustained => {
                Source::practice("bare walls creep under a bolt: the hole becomes a slot and the joint loosens")
            }
            Never::ThreadedAdapterBending => Source::published(
                "pressure-pipe derating tables: threading halves the rating and schedule 40 is not to be threaded",
            ),
            Never::CellularCorePipe => Source::published(
                "articles on cellular-core pipe (ASTM F891): pipe stiffness 200 psi against 310 for solid pipe of the same sizes",
            ),
            Never::OneSidedConeAxle => {
                Source::practice("a cone axle is made to be held at both ends; from one it bends")
            }
            Never::EndGrainButtGlue => Source::memory(
                "Wood Handbook, chapter on adhesives: end-grain butt joints carry no design load",
            ),
            Never::PvaSustainedTension => Source::memory("PVA creeps under a steady load"),
            Never::GlueBelowClimate => Source::memory("EN 204: durability classes D1 to D4"),
            Never::SlipFittingByCementAlone => Source::memory(
                "a bore without a stop is a loose fit: located by cement, held by a bolt, sleeve or stop",
            ),
            Never::LooseSocket => {
                Source::mechanics("pipe smaller than the bottom of the tapered socket touches nowhere")
            }
            Never::ImpactFactorOnConnection => {
                Source::memory("NDS: the impact load duration factor is not for connections")
            }
            Never::SprungShut => {
                Source::mechanics("the bending stress of springing stays for the life of the frame")
            }
            Never::HalfInserted => {
                Source::practice("a socket less than half engaged is a joint to be made again")
            }
        }
    }
}
