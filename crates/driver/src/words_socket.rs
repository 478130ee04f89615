//! A pipe that does not fit its socket, or may not, in words.

use crate::words::Words;
use chairwright_design::{JointId, SocketId, StockId};
use chairwright_diagnostics::Diagnostic;
use chairwright_frame::Unsure;

/// Joint, pipe and socket.
type Where = (JointId, StockId, SocketId);

/// Less than this would be printed as nothing, m.
const FINE: f64 = 0.000_5;

impl Words<'_> {
    pub(crate) fn loose_socket(&self, (joint, stock, socket): Where, (least, most): (f64, f64)) -> Diagnostic {
        let headline = format!("\"{}\" is loose in the socket \"{}\"", self.stock(stock), self.socket(socket));
        let label = match least > 0.0 {
            true => format!("{} of gap on the diameter, at the least", self.fine(least)),
            false => format!("up to {} of gap on the diameter", self.fine(most)),
        };
        self.at_joint(Diagnostic::new("loose-socket", headline), joint, label)
            .note(
                "it goes in and looks finished, but cement does not fill a gap: the joint pulls out under load",
            )
            .help("use the fittings made for this pipe, or the pipe made for these fittings")
    }

    pub(crate) fn tight_socket(&self, (joint, stock, socket): Where, (least, most): (f64, f64)) -> Diagnostic {
        let headline =
            format!("\"{}\" does not enter the socket \"{}\"", self.stock(stock), self.socket(socket));
        let label = match least > 0.0 {
            true => format!("too thick by {} on the diameter, at the least", self.fine(least)),
            false => format!("too thick by up to {} on the diameter", self.fine(most)),
        };
        self.at_joint(Diagnostic::new("tight-socket", headline), joint, label)
            .help("use a larger fitting with a bush, or a thinner pipe; never turn a pipe down to fit")
    }

    pub(crate) fn unsure_socket(&self, (joint, stock, socket): Where, unsure: &Unsure) -> Diagnostic {
        let (pipe, socket) = (self.stock(stock), self.socket(socket));
        let headline = format!("nobody can tell whether \"{pipe}\" fits the socket \"{socket}\"");
        let thin = (unsure.gap > 0.0).then(|| format!("{} of gap round the thinnest", self.fine(unsure.gap)));
        let thick = (unsure.over > 0.0).then(|| format!("the thickest {} too thick", self.fine(unsure.over)));
        let label = thin.into_iter().chain(thick).collect::<Vec<_>>().join(", ");
        self.at_joint(Diagnostic::new("unsure-socket", headline), joint, label)
            .note("cement does not fill a gap: where it touches nowhere the joint looks finished and pulls out under load")
            .help(format!(
                "measure the pipe at several places and add measured \"{pipe}\" {{ outer_diameter = …, source = \"calliper\" }}; push \
                 it in dry: it should touch between one third and two thirds of the depth"
            ))
    }

    /// A small length, never as nothing.
    fn fine(&self, metres: f64) -> String {
        if metres < FINE { format!("{:.2} mm", (metres * 1e3).max(0.01)) } else { self.length(metres) }
    }
}
