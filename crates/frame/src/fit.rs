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
    /// It never touches: least and most gap on the diameter at the stop, over both tolerances.
    Loose {
        /// Of the thickest pipe in the narrowest socket; negative where these would touch.
        least: f64,
        /// Of the thinnest pipe in the widest socket.
        most: f64,
    },
    /// It does not enter: how much too thick on the diameter, at the least and at the most.
    Tight {
        /// The thinnest pipe at the widest mouth; negative where that would enter.
        least: f64,
        /// The thickest pipe at the narrowest mouth.
        most: f64,
    },
}

/// What of a pipe that fits at its middle size does not fit, by how much on the diameter; 0 where it all does.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Unsure {
    /// Gap at the stop of the thinnest pipe, in even the narrowest socket.
    pub gap: f64,
    /// How much the thickest pipe is thicker than even the widest mouth.
    pub over: f64,
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
        return SocketFit::Loose {
            least: socket.bottom.low - outer.high,
            most: socket.bottom.high - outer.low,
        };
    }
    if share(outer.mid()) < 0.0 {
        let least = outer.low - socket.entrance.high;
        return SocketFit::Tight { least, most: outer.high - socket.entrance.low };
    }
    SocketFit::Fits { first: share(outer.high).clamp(0.0, 1.0), last: share(outer.low).clamp(0.0, 1.0) }
}

/// Whether an end of a pipe's tolerance, or one of two readings of it, falls out of a socket that its middle size fits. The socket is taken
/// where it suits that end best: standards allow a thin pipe in a wide socket, and both at once are rare.
#[must_use]
pub fn unsure(outer: Band, socket: &SocketSpec) -> Option<Unsure> {
    // below this nobody can measure
    const SEEN: f64 = 5e-6;
    let gap = socket.bottom.low - outer.low;
    let over = outer.high - socket.entrance.high;
    (gap > SEEN || over > SEEN).then(|| Unsure { gap: gap.max(0.0), over: over.max(0.0) })
}
