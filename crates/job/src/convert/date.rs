//! Days of the calendar.

use crate::place::{Findings, Place};

/// The date of a job is written as the shop writes dates; what is written as year, month and day must be one.
pub(super) fn judge(date: Option<&str>, findings: &mut Findings) {
    let Some(date) = date else { return };
    let parts: Vec<&str> = date.split('-').collect();
    let is_number = |part: &&str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    let [year, _, _] = parts[..] else { return };
    if year.len() == 4 && parts.iter().all(is_number) && !is_date(date) {
        let remedy = "write year, month and day, 2026-03-04, or the day in words";
        findings.add(&Place::top("date"), date, "is no day of the calendar", remedy);
    }
}

/// True for a day of the calendar, written as year, month and day.
pub(super) fn is_date(text: &str) -> bool {
    let digits = |part: &str, count: usize| {
        (part.len() == count && part.bytes().all(|b| b.is_ascii_digit())).then(|| part.parse::<u32>().ok())
    };
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts[..] else { return false };
    let (Some(Some(year)), Some(Some(month)), Some(Some(day))) =
        (digits(year, 4), digits(month, 2), digits(day, 2))
    else {
        return false;
    };
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return false,
    };
    year >= 1900 && (1..=days).contains(&day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_date_is_a_day_of_the_calendar() {
        for good in ["2026-03-04", "2024-02-29", "2000-02-29", "2026-12-31"] {
            assert!(is_date(good), "{good}");
        }
        for bad in
            ["", "2026-3-4", "2026-02-29", "1900-02-29", "2026-13-01", "2026-04-31", "2026-00-10", "4.3.2026"]
        {
            assert!(!is_date(bad), "{bad}");
        }
    }
}
