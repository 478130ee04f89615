//! Days of the Gregorian calendar, as ISO 8601 writes them.

/// The day so many days after another, both as `year-month-day`; of a month alone from its first. `None` for what is no date, and
/// beyond the year 9999.
#[must_use]
pub fn day_after(date: &str, days: u32) -> Option<String> {
    let parts: Vec<u32> = date.split('-').map(|p| p.parse().ok()).collect::<Option<_>>()?;
    let (mut year, mut month, day) = match parts[..] {
        [year, month] => (year, month, 1),
        [year, month, day] => (year, month, day),
        _ => return None,
    };
    if !(1..=9999).contains(&year) || !(1..=12).contains(&month) || !(1..=length(year, month)).contains(&day) {
        return None;
    }
    let mut left = days.checked_add(day)?;
    while left > length(year, month) {
        left -= length(year, month);
        (year, month) = if month == 12 { (year + 1, 1) } else { (year, month + 1) };
    }
    (year <= 9999).then(|| format!("{year:04}-{month:02}-{left:02}"))
}

/// How many days a month has.
fn length(year: u32, month: u32) -> u32 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From 1970 on the days that `date -u -d @SECONDS +%F` of GNU coreutils prints for so many times 86 400 s; 2000 was a leap year
    /// and 1900 was none.
    #[test]
    fn days_go_on_over_months_and_years() {
        let cases = [
            ("2026-03-02", 183, "2026-09-01"),
            ("2026-12-31", 1, "2027-01-01"),
            ("2000-02-28", 1, "2000-02-29"),
            ("1900-02-28", 1, "1900-03-01"),
            ("1970-01-01", 0, "1970-01-01"),
            ("1970-01-01", 11_016, "2000-02-29"),
            ("1970-01-01", 11_574, "2001-09-09"),
            ("1970-01-01", 19_781, "2024-02-28"),
            ("1970-01-01", 20_088, "2024-12-31"),
            ("1970-01-01", 24_855, "2038-01-19"),
            ("2026-05", 0, "2026-05-01"),
        ];
        for (from, days, to) in cases {
            assert_eq!(day_after(from, days).as_deref(), Some(to));
        }
    }

    #[test]
    fn what_is_no_day_has_no_day_after() {
        for wrong in ["2026-02-30", "2026-13-01", "03/02/2026", "", "2026", "0000-01-01"] {
            assert_eq!(day_after(wrong, 1), None, "{wrong}");
        }
        assert_eq!(day_after("9999-12-31", 1), None);
        assert_eq!(day_after("2026-01-01", u32::MAX), None);
    }
}
