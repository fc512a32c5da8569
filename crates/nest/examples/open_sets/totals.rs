//! Sums over the instances of a class, and over all.

use std::collections::BTreeMap;

use crate::row::Row;

/// What the rows of a class add up to.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    instances: u32,
    count: u32,
    lower_bound: f64,
    proved: u32,
    seconds: f64,
    evaluations: u64,
    verified: u32,
}

/// The sums of every class, and of all; only rows of whole counts are added, not strips.
#[derive(Debug, Clone, Default)]
pub(crate) struct Totals {
    /// By kind and class.
    by_class: BTreeMap<(&'static str, String), Sum>,
}

impl Totals {
    /// Adds a row. The class of an instance is its name up to its last two words, how many pieces and which instance, or up to the last one
    /// where it has just two.
    pub(crate) fn add(&mut self, row: &Row) {
        if row.used_length.is_some() {
            return;
        }
        let mut words: Vec<&str> = row.name.split(['_', '-']).collect();
        words.truncate(words.len().saturating_sub(2).max(1));
        for name in [words.join("_"), ALL.to_owned()] {
            let sum = self.by_class.entry((row.kind, name)).or_default();
            sum.instances += 1;
            sum.count += row.count;
            sum.lower_bound += row.lower_bound;
            sum.proved += u32::from(row.proved);
            sum.seconds += row.seconds;
            sum.evaluations += row.evaluations;
            sum.verified += u32::from(row.verified);
        }
    }

    /// Prints a row for each class and one for all, last.
    pub(crate) fn print(&self, json: bool) {
        let is_all = |name: &str| name == ALL;
        let classes = self.by_class.iter().filter(|((_, name), _)| !is_all(name));
        let all = self.by_class.iter().filter(|((_, name), _)| is_all(name));
        classes.chain(all).for_each(|((kind, name), sum)| sum.print(kind, name, json));
    }
}

/// The name of the row over all instances.
const ALL: &str = "all";

impl Sum {
    #[expect(clippy::print_stdout, reason = "a benchmark talks on standard output")]
    fn print(&self, kind: &str, name: &str, json: bool) {
        let over = 100.0 * (f64::from(self.count) / self.lower_bound - 1.0);
        let proved = 100.0 * f64::from(self.proved) / f64::from(self.instances.max(1));
        if json {
            let row = serde_json::json!({
                "name": name, "kind": format!("{kind} totals"), "instances": self.instances, "count": self.count,
                "lower_bound": self.lower_bound, "over_pct": over, "proved": self.proved, "proved_pct": proved,
                "seconds": self.seconds, "evaluations": self.evaluations, "verified": self.verified,
            });
            println!("{row}");
        } else {
            println!(
                "{name:<16} {:>4} of {kind}: {:>5}, bound {:>5}, {over:.2} % over; {} proved least ({proved:.1} %), \
                 {} verified, {:.1} s",
                self.instances, self.count, self.lower_bound, self.proved, self.verified, self.seconds
            );
        }
    }
}
