//! Whether a pipe fits a socket, by tolerance bands.

use chairwright_design::{Band, SocketSpec};

/// How a pipe sits in a tapered socket.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum SocketFit {
    /// It touches on the way in, at a share of the depth between these two.
    Fits {
        /// Thickest pipe.
        first: f64,
        /// Thinnest pipe.
        last: f64,
    },
    /// It never touches: least gap on the diameter at the stop.
    Loose(f64),
    /// It does not enter: how much too thick on the diameter.
    Tight(f64),
}

/// Fit of a pipe's outside diameter in a socket of nominal taper.
///
/// The dry pipe first touches where the socket's diameter equals its own:
/// share = (entrance − OD) / (entrance − bottom), with the pipe's tolerance band. Published
/// solvent-cementing practice wants contact between one third and two thirds of the depth; a pipe
/// whose middle size never touches cannot be cemented, since cement does not fill a gap.
#[must_use]
pub fn socket_fit(outer: Band, socket: &SocketSpec) -> SocketFit {
    let (entrance, bottom) = (socket.entrance.mid(), socket.bottom.mid());
    let taper = (entrance - bottom).max(1e-6);
    let share = |od: f64| (entrance - od) / taper;
    if share(outer.mid()) > 1.0 {
        return SocketFit::Loose(bottom - outer.high);
    }
    if share(outer.mid()) < 0.0 {
        return SocketFit::Tight(outer.low - entrance);
    }
    SocketFit::Fits { first: share(outer.high).clamp(0.0, 1.0), last: share(outer.low).clamp(0.0, 1.0) }
}
