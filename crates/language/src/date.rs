//! Days as they are written: year-month-day, or a month alone.

use crate::evaluator::Evaluator;
use crate::value::{Outcome, Silent};
use chairwright_diagnostics::{Diagnostic, Span};

impl Evaluator<'_> {
    /// Refuses what is no day, and offers the day where the order of its numbers leaves no doubt.
    pub(crate) fn want_date(&self, span: Span, text: &str) -> Outcome<()> {
        if is_date(text) {
            return Ok(());
        }
        let problem = Diagnostic::new("bad-date", format!("\"{text}\" is no date"))
            .at(span, "year-month-day is wanted")
            .note("a day and a month in another order are read one way here and another way there");
        self.say(match meant(text) {
            Some(day) => problem.help(format!("write \"{day}\"")).edit(span, format!("\"{day}\"")),
            None => problem.help("write it as \"2026-05-15\", or \"2026-05\" where only the month is known"),
        });
        Err(Silent)
    }
}

/// Whether a day or month lies wholly after a day.
pub(crate) fn is_after(date: &str, day: &str) -> bool {
    is_date(date) && is_date(day) && day.get(..date.len()).is_some_and(|d| date > d)
}

/// Whether a text is `year-month-day` or `year-month` of the Gregorian calendar (ISO 8601).
fn is_date(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let digits = |s: &str, n: usize| s.len() == n && s.bytes().all(|b| b.is_ascii_digit());
    match parts[..] {
        [y, m] => digits(y, 4) && digits(m, 2) && valid(y, m, "01"),
        [y, m, d] => digits(y, 4) && digits(m, 2) && digits(d, 2) && valid(y, m, d),
        _ => false,
    }
}

fn valid(year: &str, month: &str, day: &str) -> bool {
    let (Ok(y), Ok(m), Ok(d)) = (year.parse::<u32>(), month.parse::<u32>(), day.parse::<u32>()) else {
        return false;
    };
    let leap = y % 4 == 0 && (y % 100 != 0 || y % 400 == 0);
    let days = match m {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return false,
    };
    (1..=days).contains(&d)
}

/// The day that was meant, where the year stands first or a number beyond 12 can only be the day.
fn meant(text: &str) -> Option<String> {
    let parts: Vec<&str> = text.split(['-', '/', '.', ' ']).filter(|p| !p.is_empty()).collect();
    let [a, b, c] = parts[..] else { return None };
    let two = |s: &str| (s.len() <= 2).then(|| format!("{s:0>2}"));
    let big = |s: &str| s.parse::<u32>().is_ok_and(|n| n > 12);
    let day = match (a.len(), c.len()) {
        (4, _) => format!("{a}-{}-{}", two(b)?, two(c)?),
        (_, 4) if big(a) && !big(b) => format!("{c}-{}-{}", two(b)?, two(a)?),
        (_, 4) if big(b) && !big(a) => format!("{c}-{}-{}", two(a)?, two(b)?),
        _ => return None,
    };
    is_date(&day).then_some(day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_the_calendar_and_no_others() {
        let good = ["2026-05-15", "2024-02-29", "2000-02-29", "2026-05"];
        let bad = [
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-04-31",
            "15.05.2026",
            "2026-5-1",
            "",
            "2026",
            "May",
        ];
        assert!(good.iter().all(|d| is_date(d)));
        assert!(bad.iter().all(|d| !is_date(d)));
    }

    #[test]
    fn a_month_is_after_a_day_only_as_a_whole() {
        assert!(
            is_after("2026-05-16", "2026-05-15")
                && is_after("2026-06", "2026-05-31")
                && is_after("2027-01", "2026-12-31")
        );
        assert!(
            !is_after("2026-05-15", "2026-05-15")
                && !is_after("2026-05", "2026-05-01")
                && !is_after("2025-12", "2026-01-01")
        );
        // what is no date is told as that
        assert!(!is_after("soon", "2026-01-01") && !is_after("2026-05-16", "2026-05"));
    }

    #[test]
    fn a_day_is_offered_only_where_there_is_no_doubt() {
        assert_eq!(meant("18.4.2026").as_deref(), Some("2026-04-18"));
        assert_eq!(meant("4/18/2026").as_deref(), Some("2026-04-18"));
        assert_eq!(meant("2026/4/8").as_deref(), Some("2026-04-08"));
        assert_eq!(meant("8.4.2026"), None);
        assert_eq!(meant("31.4.2026"), None);
    }
}
