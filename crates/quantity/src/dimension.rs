//! Dimensions: which kind of thing a number measures.

use std::fmt;

/// A currency by its three-letter code (ISO 4217).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Currency(pub [u8; 3]);

impl Currency {
    /// A currency from three capital letters.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Currency> {
        let bytes: [u8; 3] = code.as_bytes().try_into().ok()?;
        bytes.iter().all(u8::is_ascii_uppercase).then_some(Currency(bytes))
    }

    /// The three letters.
    #[must_use]
    pub fn code(&self) -> String {
        self.0.iter().map(|b| char::from(*b)).collect()
    }
}

/// Exponents of the base dimensions. Angle is a base dimension: an angle is not a bare number.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct Dimension {
    /// Exponent of length.
    pub length: i8,
    /// Exponent of mass.
    pub mass: i8,
    /// Exponent of time.
    pub time: i8,
    /// Exponent of angle.
    pub angle: i8,
    /// Exponent of temperature.
    pub temperature: i8,
    /// True for a reading on a thermometer (`35 degC`), false for a difference (`10 K`).
    pub reading: bool,
    /// Exponent of money, and which money.
    pub money: Option<(Currency, i8)>,
}

const fn base(length: i8, mass: i8, time: i8) -> Dimension {
    Dimension { length, mass, time, angle: 0, temperature: 0, reading: false, money: None }
}

impl Dimension {
    /// A bare number.
    pub const NUMBER: Dimension = base(0, 0, 0);
    /// Length.
    pub const LENGTH: Dimension = base(1, 0, 0);
    /// Area.
    pub const AREA: Dimension = base(2, 0, 0);
    /// Mass.
    pub const MASS: Dimension = base(0, 1, 0);
    /// Time.
    pub const TIME: Dimension = base(0, 0, 1);
    /// Force.
    pub const FORCE: Dimension = base(1, 1, -2);
    /// Pressure or stress.
    pub const PRESSURE: Dimension = base(-1, 1, -2);
    /// Density.
    pub const DENSITY: Dimension = base(-3, 1, 0);
    /// Mass per length.
    pub const LINEAR_MASS: Dimension = base(-1, 1, 0);
    /// Mass per area.
    pub const AREAL_MASS: Dimension = base(-2, 1, 0);
    /// Speed.
    pub const SPEED: Dimension = base(1, 0, -1);
    /// Moment of a force. Energy has the same exponents; no figure is one.
    pub const MOMENT: Dimension = base(2, 1, -2);
    /// Force per length: the rate of a spring.
    pub const STIFFNESS: Dimension = base(0, 1, -2);
    /// Moment per angle: the rate of a spring that is turned.
    pub const TURNING: Dimension = Dimension { angle: -1, ..base(2, 1, -2) };
    /// Plane angle.
    pub const ANGLE: Dimension = Dimension { angle: 1, ..base(0, 0, 0) };
    /// A difference of temperature.
    pub const INTERVAL: Dimension = Dimension { temperature: 1, ..base(0, 0, 0) };
    /// A temperature as read on a thermometer.
    pub const READING: Dimension = Dimension { temperature: 1, reading: true, ..base(0, 0, 0) };

    /// The dimension of money in one currency.
    #[must_use]
    pub fn money(currency: Currency) -> Dimension {
        Dimension { money: Some((currency, 1)), ..Dimension::NUMBER }
    }

    /// Whether this is a bare number.
    #[must_use]
    pub fn is_number(self) -> bool {
        self == Dimension::NUMBER
    }

    /// Dimension of a product; `None` when two currencies meet, a thermometer reading is
    /// multiplied, or an exponent leaves its range.
    #[must_use]
    pub fn times(self, other: Dimension) -> Option<Dimension> {
        self.combine(other, 1)
    }

    /// Dimension of a quotient; `None` as for [`Dimension::times`].
    #[must_use]
    pub fn over(self, other: Dimension) -> Option<Dimension> {
        self.combine(other, -1)
    }

    /// Dimension of a whole power.
    #[must_use]
    pub fn power(self, exponent: i8) -> Option<Dimension> {
        let mut result = Dimension::NUMBER;
        for _ in 0..exponent.unsigned_abs() {
            result = if exponent > 0 { result.times(self)? } else { result.over(self)? };
        }
        Some(result)
    }

    /// Dimension of a square root, when every exponent is even.
    #[must_use]
    pub fn root(self) -> Option<Dimension> {
        let all = [self.length, self.mass, self.time, self.angle, self.temperature];
        if self.reading || self.money.is_some() || all.iter().any(|e| e % 2 != 0) {
            return None;
        }
        Some(Dimension {
            length: self.length / 2,
            mass: self.mass / 2,
            time: self.time / 2,
            angle: self.angle / 2,
            temperature: self.temperature / 2,
            ..Dimension::NUMBER
        })
    }

    fn combine(self, other: Dimension, sign: i8) -> Option<Dimension> {
        if (self.reading && !other.is_number()) || (other.reading && (!self.is_number() || sign < 0)) {
            return None;
        }
        let join = |a: i8, b: i8| a.checked_add(b.checked_mul(sign)?);
        let money = match (self.money, other.money) {
            (None, None) => None,
            (Some((c, e)), None) => Some((c, e)),
            (None, Some((c, e))) => Some((c, e.checked_mul(sign)?)),
            (Some((c, e)), Some((d, f))) if c == d => Some((c, join(e, f)?)),
            _ => return None,
        };
        Some(Dimension {
            length: join(self.length, other.length)?,
            mass: join(self.mass, other.mass)?,
            time: join(self.time, other.time)?,
            angle: join(self.angle, other.angle)?,
            temperature: join(self.temperature, other.temperature)?,
            reading: self.reading || other.reading,
            money: money.filter(|(_, e)| *e != 0),
        })
    }

    /// What a builder calls it: `a length`, `an angle`, `a bare number`.
    #[must_use]
    pub fn phrase(self) -> String {
        let known = [
            (Dimension::NUMBER, "a bare number"),
            (Dimension::LENGTH, "a length"),
            (Dimension::AREA, "an area"),
            (base(3, 0, 0), "a volume"),
            (Dimension::MASS, "a mass"),
            (Dimension::TIME, "a time"),
            (Dimension::ANGLE, "an angle"),
            (Dimension::FORCE, "a force"),
            (base(2, 1, -2), "a moment of force"),
            (Dimension::PRESSURE, "a pressure"),
            (Dimension::DENSITY, "a density"),
            (Dimension::LINEAR_MASS, "a mass per length"),
            (Dimension::AREAL_MASS, "a mass per area"),
            (Dimension::STIFFNESS, "a spring rate"),
            (Dimension::TURNING, "a moment per angle"),
            (base(1, 0, -1), "a speed"),
            (base(1, 0, -2), "an acceleration"),
            (Dimension::INTERVAL, "a temperature difference"),
            (Dimension::READING, "a temperature"),
        ];
        if let Some((_, name)) = known.iter().find(|(d, _)| *d == self) {
            return (*name).to_owned();
        }
        match self.money {
            Some((c, 1)) if (Dimension { money: None, ..self }).is_number() => {
                format!("an amount in {}", c.code())
            }
            _ => format!("a quantity in {self}"),
        }
    }
}

impl fmt::Display for Dimension {
    /// The factors, such as `m kg s^-2`; `1` for a bare number.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let money = self.money.map(|(c, e)| (c.code(), e));
        let bases = [
            ("m".to_owned(), self.length),
            ("kg".to_owned(), self.mass),
            ("s".to_owned(), self.time),
            ("rad".to_owned(), self.angle),
            ("K".to_owned(), self.temperature),
        ];
        let factors: Vec<String> = bases
            .into_iter()
            .chain(money)
            .filter(|(_, e)| *e != 0)
            .map(|(n, e)| if e == 1 { n } else { format!("{n}^{e}") })
            .collect();
        f.write_str(&if factors.is_empty() { "1".to_owned() } else { factors.join(" ") })
    }
}
