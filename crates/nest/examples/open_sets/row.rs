//! One row of results.

/// What came out for one instance.
pub(crate) struct Row {
    pub(crate) name: String,
    pub(crate) kind: &'static str,
    /// Strips only.
    pub(crate) used_length: Option<f64>,
    pub(crate) density_pct: f64,
    pub(crate) count: u32,
    pub(crate) lower_bound: f64,
    pub(crate) proved: bool,
    pub(crate) seconds: f64,
    pub(crate) evaluations: u64,
    pub(crate) seed: u64,
    pub(crate) verified: bool,
    /// Seconds and density of every better nest, for people.
    pub(crate) history: Vec<(f64, f64)>,
}

impl Row {
    /// Prints the row, as JSON or for people.
    #[expect(clippy::print_stdout, reason = "a benchmark talks on standard output")]
    pub(crate) fn print(&self, json: bool) {
        if json {
            let row = serde_json::json!({
                "name": self.name, "kind": self.kind, "used_length": self.used_length,
                "density_pct": self.density_pct, "count": self.count, "lower_bound": self.lower_bound,
                "proved": self.proved, "seconds": self.seconds, "evaluations": self.evaluations,
                "seed": self.seed, "verified": self.verified,
            });
            println!("{row}");
            return;
        }
        let Some(used_length) = self.used_length else {
            let proof = if self.proved { "proved least" } else { "not proved" };
            println!(
                "{:<16} {:>4}, bound {:>4}, {proof}, {:>6.2} % {:>6.2} s {:>9} evaluations",
                self.name, self.count, self.lower_bound, self.density_pct, self.seconds, self.evaluations
            );
            return;
        };
        println!(
            "{:<10} {:>14.4} long {:>6.2} % {:>6.1} s {:>10} evaluations",
            self.name, used_length, self.density_pct, self.seconds, self.evaluations
        );
        let marks = [0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0];
        let at = |mark: f64| {
            let best =
                self.history.iter().filter(|(seconds, _)| *seconds <= mark).map(|(_, density)| *density);
            best.fold(0.0, f64::max)
        };
        let line: Vec<String> = marks.iter().map(|&mark| format!("{mark}s {:.2}", at(mark))).collect();
        println!("           {}", line.join("  "));
    }
}
